"""Modules and electrical equipment keep the setback stated for each property line."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.layout import surface_to_plan
from planset.design.site_distances import rooms_in
from planset.drawing.geometry import Point
from planset.finding import Finding
from planset.job.site_plan import GAS_METER
from planset.rules.limits import clearance_outcome
from planset.rules.lines import lot_line
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches, judged_denominator

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure in plan from each property line to what this job adds nearest to it."""
    plan, site = design.inputs.job.site_plan, design.site
    if site is None or plan is None:
        return
    added = _added(design)
    for line in site.lines:
        rooms = dict(zip(added, rooms_in(site, tuple(added.values()), line), strict=True))
        nearest = min(rooms, key=rooms.__getitem__)
        measured = rooms[nearest]
        outcome = clearance_outcome(measured, line.setback_in)
        parts = judged_denominator(measured)
        kept = format_feet_inches(measured, denominator=parts, rounding="down")
        least = format_feet_inches(line.setback_in, denominator=2, rounding="up")
        fact = f"{nearest} stands {kept} inside of property line {line.id}, where {least} is least"
        if measured < 0:
            over = format_feet_inches(-measured, denominator=parts, rounding="up")
            fact = f"{nearest} stands {over} beyond property line {line.id}"
        yield RULE.found(
            outcome,
            plan.setbacks_from,
            sentence(outcome, fact, f"move {nearest}, or correct the corners of the lot"),
            measured=measured,
            limit=line.setback_in,
            unit="in",
            objects=(nearest, line.id),
            line=lot_line(design, line.id, "setback"),
        )


def _added(design: Design) -> dict[str, tuple[Point, ...]]:
    """Every module by its corners in plan, every piece of equipment by its place, by tag."""
    modules = {
        module.id: surface_to_plan(array.plane, module.surface)
        for array in design.arrays
        for module in array.modules
    }
    equipment = design.site.equipment if design.site else ()
    return modules | {one.id: (one.at,) for one in equipment if one.id != GAS_METER}


RULE = Rule(
    id="layout.property-setback",
    title="Setback from property lines",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
