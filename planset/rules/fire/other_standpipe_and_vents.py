"""Straight pathways to standpipes, ventilation hatches and, in some editions, skylights."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding
from planset.rules.limits import clearance_outcome
from planset.rules.lines import obstruction_line
from planset.rules.other_roof_access import clauses_of_topic, exempt, found_on, without_topic
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.access.other.paths import StraightPath
    from planset.design.design import Design

_CALLED = {"standpipe": "standpipe", "smoke_vent": "ventilation hatch", "skylight": "skylight"}


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure the best straight way from each to a roof edge."""
    if outside := exempt(RULE, design, citation):
        yield outside
        return
    access = found_on(design)
    rules = access.rules
    for plane in access.planes:
        for path in plane.paths:
            yield _path(design, citation, path, rules.straight_pathway_in)
        if "skylights" in rules.clauses:
            clause = rules.edition.cite(rules.clauses["skylights"])
            for path in plane.skylight_paths:
                yield _path(design, clause, path, rules.skylight_pathway_in)


def _path(design: Design, citation: str, path: StraightPath, required: float) -> Finding:
    item, outcome = path.item, clearance_outcome(path.width_in, required)
    clear = format_feet_inches(path.width_in, rounding="down")
    least = format_feet_inches(required, rounding="up")
    fact = (
        f"To {_CALLED[item.kind]} {item.id} a straight way of {clear} leads from the "
        f"{path.toward} edge of the roof, where a pathway of {least} is required"
    )
    change = f"leave more than {least} clear between {item.id} and one edge"
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=path.width_in,
        limit=required,
        unit="in",
        objects=(item.id,),
        line=obstruction_line(design, item.id, "center"),
    )


RULE = Rule(
    id="fire.other-standpipe-and-vents",
    title="Pathways to standpipes and vents",
    subject="fire access",
    held_by="fire",
    clauses=clauses_of_topic("standpipes"),
    check=check,
    not_in=without_topic("standpipes"),
    concerns="other buildings",
)
