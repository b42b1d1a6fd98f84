"""A water pipe or a single rod is not the only electrode."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.circuits import nec
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


MOST_OHM = 25.0
"""Resistance up to which a rod may be the only electrode [ohm].

Source: NEC 2017, 2020 and 2023, 250.53(A)(2) [from memory].
"""


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look for a second electrode beside a pipe or a rod, or a rod's resistance.

    Source: NEC 2017, 2020 and 2023, 250.53(A)(2) and (D)(2) [from memory].
    """
    service = design.inputs.job.electrical.service
    first, others = service.electrode, service.supplemental_electrodes
    kinds = [electrode.kind for electrode in (first, *others)]
    words = " and ".join(kind.replace("_", " ") for kind in kinds)
    outcome, fact = Outcome.PASS, f"The electrodes of the service: {words}"
    change = "ask what else there is, or drive a rod and add it to service.supplemental_electrodes"
    if set(kinds) == {"water_pipe"}:
        outcome, fact = Outcome.ASK, "A water pipe is the only electrode of the service; (D)(2)"
        fact += " asks for another beside it"
    elif kinds == ["rod"] and first.resistance is None:
        outcome, fact = Outcome.ASK, "One rod, of a resistance not stated, is the only electrode"
        fact += f" of the service; (A)(2) asks for another unless it has {MOST_OHM:g} ohm or less"
    elif kinds == ["rod"] and first.resistance is not None:
        outcome = Outcome.PASS if first.resistance <= MOST_OHM else Outcome.FAIL
        fact = f"One rod of {first.resistance:g} ohm is the only electrode of the service, where "
        fact += f"{MOST_OHM:g} ohm is the most"
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        objects=("UTIL",),
        line=design.inputs.line_of("electrical", "service", "electrode"),
    )


RULE = Rule(
    id="electrical.supplemental-electrode",
    title="Second electrode",
    subject="electrical",
    held_by="electrical",
    clauses=nec("electrode_supplement"),
    check=check,
)
