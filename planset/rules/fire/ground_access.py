"""The fire service comes on foot from a street to where the roof is climbed."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.site_distances import in_the_way, to_street_in
from planset.finding import Finding, Outcome
from planset.rules.rule import Rule
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """See that the walk begins at a street, runs through nothing, and ends below a pathway."""
    site = design.site
    if site is None:
        return
    line = design.inputs.line_of("site_plan", "access_walk")
    start = to_street_in(site)
    met = in_the_way(site)
    ends = tuple(dict.fromkeys(street.line.id for street in site.streets))
    where = format_feet_inches(start, denominator=2, rounding="up")
    told = [f"begins {where} inside of the lot from the street's line"] if start > 0 else []
    told += [f"runs through {', '.join(met)}"] if met else []
    if told:
        message = (
            f"The walk of the fire service {' and '.join(told)}; lead access_walk from the street "
            "around what stands there."
        )
        yield RULE.found(Outcome.FAIL, citation, message, objects=(*met, *ends), line=line)
    elif not site.access_points:
        message = (
            "No pathway meets an eave, so the walk ends where the job says; ask the fire official "
            "where the roof is to be climbed."
        )
        yield RULE.found(Outcome.ASK, citation, message, objects=ends, line=line)
    else:
        fact = "The walk leads from the street to the foot of a pathway and runs through nothing"
        yield RULE.found(Outcome.PASS, citation, f"{fact}.", objects=ends, line=line)


RULE = Rule(
    id="fire.ground-access",
    title="Fire service walk",
    subject="fire access",
    held_by="",
    clauses={},
    check=check,
)
