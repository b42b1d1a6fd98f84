"""A water pipe or a single rod is not the only electrode."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.circuits import nec
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design
    from planset.job.electrical.service import GroundingElectrode


MOST_OHM = 25.0
"""Resistance up to which a single rod needs no other electrode beside it [ohm].

Source: NEC 2023, 250.53(A)(2), exception; NEC 2017 and 2020, the same [from memory].
"""


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look for a second electrode beside a pipe or a rod, or a rod's resistance.

    A rod that supplements a pipe is a single rod all the same.

    Source: NEC 2023, 250.53(A)(2) and (D)(2); NEC 2017 and 2020, the same [from memory].
    """
    service = design.inputs.job.electrical.service
    electrodes = (service.electrode, *service.supplemental_electrodes)
    rods = [electrode for electrode in electrodes if electrode.kind == "rod"]
    words = " and ".join(electrode.kind.replace("_", " ") for electrode in electrodes)
    outcome, fact = Outcome.PASS, f"The electrodes of the service: {words}"
    change = "ask what else there is, or drive a rod and add it to service.supplemental_electrodes"
    if any(electrode.kind == "concrete_encased" for electrode in electrodes) or len(rods) > 1:
        pass
    elif not rods:
        outcome, fact = Outcome.ASK, "A water pipe is the only electrode of the service; (D)(2)"
        fact += " asks for another beside it"
    else:
        outcome, fact = _single(rods[0], fact)
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        objects=("UTIL",),
        line=design.inputs.line_of("electrical", "service", "electrode"),
    )


def _single(rod: GroundingElectrode, electrodes: str) -> tuple[Outcome, str]:
    """Judge one rod, alone or beside a water pipe."""
    if rod.resistance is None:
        fact = f"{electrodes}, one rod of a resistance not stated; (A)(2) asks for another beside "
        return Outcome.ASK, f"{fact}it, a pipe aside, unless it has {MOST_OHM:g} ohm or less"
    met = rod.resistance <= MOST_OHM
    fact = f"{electrodes}, one rod of {rod.resistance:g} ohm, where {MOST_OHM:g} ohm is the most"
    return (Outcome.PASS if met else Outcome.FAIL), fact


RULE = Rule(
    id="electrical.supplemental-electrode",
    title="Second electrode",
    subject="electrical",
    held_by="electrical",
    clauses=nec("electrode_supplement"),
    check=check,
)
