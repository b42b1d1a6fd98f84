"""The device of every source carries its continuous output."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.device_limits import device_limits, nearest_device
from planset.finding import Finding, Outcome
from planset.rules.circuits import device_line, nec
from planset.rules.limits import NOISE, at_least_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare each device with 125 % of the current, and with the next standard rating.

    One larger than that is asked about where no maker names the largest device.
    """
    told = {one.device.tag for one in device_limits(design)} | _of_branches(design)
    for device in design.electrical.devices:
        outcome = at_least_outcome(device.rating_a, device.minimum_a)
        whose = "the job names" if device.stated else "the smallest standard rating is"
        fact = (
            f"{device.tag} carries {device.current_a:.2f} A, so at least "
            f"{device.minimum_a:.2f} A; {whose} {device.rating_a:g} A"
        )
        if device.standard_a is None:
            outcome, change = Outcome.FAIL, "split the output, since no standard rating is so large"
        else:
            change = f"take the next standard rating, {device.standard_a:g} A"
            larger = device.tag not in told and device.rating_a > device.standard_a + NOISE
            if outcome is Outcome.PASS and larger:
                outcome = Outcome.ASK
                change += ", or ask the maker and the inspector to accept the larger one"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, change),
            measured=device.rating_a,
            limit=device.minimum_a,
            unit="A",
            objects=(device.tag,),
            line=device_line(design, device.tag),
        )


def _of_branches(design: Design) -> set[str]:
    """Devices of branches, which the listing of microinverters limits by another rule."""
    found = (nearest_device(design, branch.id) for branch in design.electrical.branches)
    return {device.tag for device in found if device is not None}


RULE = Rule(
    id="electrical.source-device",
    title="Overcurrent devices of the sources",
    subject="electrical",
    held_by="electrical",
    clauses=nec("ac_overcurrent_rating"),
    check=check,
)
