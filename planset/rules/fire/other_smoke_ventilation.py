"""Room for smoke ventilation between the array sections of a roof that is no dwelling's."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.limits import clearance_outcome
from planset.rules.lines import plane_line
from planset.rules.other_roof_access import clauses_of_topic, exempt, found_on, without_topic
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.access.other.geometry import PlaneAccess
    from planset.design.access.other.smoke import SmokeRelief
    from planset.design.design import Design

_RUNS = {"along": "from left to right", "up": "from front to back"}
_MEANS = {
    "A": "a pathway with nothing in it",
    "B": "a pathway along vents or skylights",
    "B2": "a pathway on all sides of the vents",
    "C": "a pathway with cut-outs on alternating sides",
}


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Tell of each lane between array sections which option it meets."""
    if outside := exempt(RULE, design, citation):
        yield outside
        return
    for plane in found_on(design).planes:
        for relief in plane.lanes:
            yield _lane(design, citation, plane, relief)


def _lane(design: Design, citation: str, plane: PlaneAccess, relief: SmokeRelief) -> Finding:
    outcome, fact, change = _judged(plane, relief)
    compared = relief.option is not None or outcome is Outcome.FAIL
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=relief.width_in if compared else None,
        limit=relief.required_in if compared else None,
        unit="in" if compared else "",
        objects=(plane.plane.id, *relief.vents),
        line=plane_line(design, plane.plane.id),
    )


def _judged(plane: PlaneAccess, relief: SmokeRelief) -> tuple[Outcome, str, str]:
    """Outcome of a lane, what was found, and what to change."""
    wide = format_feet_inches(relief.width_in, rounding="down")
    least = format_feet_inches(relief.required_in, rounding="up")
    fact = f"The lane {_RUNS[relief.lane.axis]} on {plane.plane.id} leaves a straight way of {wide}"
    wider = f"leave more than {least}"
    if relief.option is not None:
        fact += f", {_MEANS[relief.option]}, where {least} is required"
        if relief.sparse and relief.option in ("B", "B2"):
            ask = f"ask the fire code official whether {' and '.join(relief.vents)} are enough"
            return Outcome.ASK, fact, ask
        return clearance_outcome(relief.width_in, relief.required_in), fact, wider
    if relief.lane not in plane.unmet:
        fact += "; without it the arrays on its sides are still no section too long"
        return Outcome.PASS, fact, ""
    fact += " and no vents or cut-outs beside it that would do"
    return Outcome.FAIL, fact, f"{wider}, or set cut-outs in the arrays beside it"


RULE = Rule(
    id="fire.other-smoke-ventilation",
    title="Smoke ventilation between sections",
    subject="fire access",
    held_by="fire",
    clauses=clauses_of_topic("smoke_ventilation"),
    check=check,
    not_in=without_topic("smoke_ventilation"),
    concerns="other buildings",
)
