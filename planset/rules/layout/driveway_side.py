"""The driveway lies beside the house where the job says it does."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from shapely import Polygon, box, union_all

from planset.finding import Finding, Outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design
    from planset.design.site import Site

_FAR_IN = 1e5
_LEAST_IN = 36.0  # of its length beside a wall: a pathway's width (common practice, no source)


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the sides that the job names with those along which the driveway is drawn."""
    site = design.site
    if site is None or not site.driveways:
        return
    drawn, named = _drawn(site), set(design.inputs.job.site.driveway_sides)
    outcome = Outcome.PASS if drawn == named else Outcome.ASK
    lies = ", ".join(sorted(drawn)) or "no side"
    says = ", ".join(sorted(named)) or "none"
    fact = f"The driveway is drawn along: {lies} of the house; site.driveway_sides names: {says}"
    change = "make both the same, since pathways are judged by the sides that are named"
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        objects=tuple(sorted(drawn ^ named)),
        line=design.inputs.line_of("site"),
    )


def _drawn(site: Site) -> set[str]:
    """The sides of the house with a driveway before a part of their wall."""
    x0, y0, x1, y1 = site.buildings[0].shape.bounds
    beside = {
        "front": box(x0, -_FAR_IN, x1, y0),
        "back": box(x0, y1, x1, _FAR_IN),
        "left": box(-_FAR_IN, y0, x0, y1),
        "right": box(x1, y0, _FAR_IN, y1),
    }
    ground = union_all([Polygon(ring) for ring in site.driveways])
    found = set()
    for side, area in beside.items():
        part = ground.intersection(area)
        if part.is_empty:
            continue
        left, low, right, high = part.bounds
        along = right - left if side in ("front", "back") else high - low
        if along >= _LEAST_IN:
            found.add(side)
    return found


RULE = Rule(
    id="layout.driveway-side",
    title="Sides with a driveway",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
