"""A device protects the backup panel, and carries the inverter's output."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.overcurrent import continuous_minimum_a
from planset.design.electrical.storage import hybrid_id
from planset.finding import Finding, Outcome
from planset.rules.circuits import inverter_of, nec
from planset.rules.limits import at_least_outcome, at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the main, or the device in the inverter, with 125 % of the output and the bus."""
    panel = design.inputs.job.electrical.backup
    if panel is None:
        return
    hybrid = hybrid_id(design.inputs)
    assert hybrid is not None, "a backup panel stands at a hybrid inverter; reading sees to it"
    inverter = inverter_of(design, hybrid)
    assert inverter.backup is not None, "a backup panel stands on such an output"
    objects, line = (panel.id,), design.inputs.line_of("electrical", "backup")
    device = panel.main or inverter.backup.device_a
    name = f"The main of {panel.id}" if panel.main else f"The device in {inverter.model}"
    if device is None:
        fact = f"Without the grid no device stands between {inverter.model} and {panel.id}"
        change = "ask the maker whether one is built in, or state a main of the panel"
        message = sentence(Outcome.ASK, fact, change)
        yield RULE.found(Outcome.ASK, citation, message, objects=objects, line=line)
        return
    least = continuous_minimum_a(inverter.backup.current_a)
    for limit, judge, words, change in (
        (least, at_least_outcome, "125 % of the backup output", "take a larger one"),
        (panel.bus, at_most_outcome, "the rating of its bus, 408.36", "take a smaller one"),
    ):
        outcome = judge(device, limit)
        fact = f"{name} is rated {device:g} A; {limit:g} A is {words}"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, change),
            measured=device,
            limit=limit,
            unit="A",
            objects=objects,
            line=line,
        )


RULE = Rule(
    id="electrical.backup-device",
    title="Device of the backup panel",
    subject="electrical",
    held_by="electrical",
    clauses=nec("ac_overcurrent_rating"),
    check=check,
)
