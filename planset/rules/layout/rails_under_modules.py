"""Every module rests on rails that stand on attachments: two, or one where modules are coupled."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.layout import PlacedArray
from planset.design.racking import Racking, Rail
from planset.drawing.geometry import Box
from planset.finding import Finding, Outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule

if TYPE_CHECKING:
    from planset.design.design import Design

_LEAST_RAILS = 2
_LEAST_RAILS_COUPLED = 1  # the span along the coupled edges is structure.rail-span's


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Count the rails under each module."""
    for array, rack in zip(design.mounted, design.racking, strict=True):
        yield _supported(design, citation, array, rack)


def _supported(design: Design, citation: str, array: PlacedArray, rack: Racking) -> Finding:
    held = {item.rail for item in rack.attachments}
    rails = [rail for rail in rack.rails if rail.id in held]
    counts = {
        module.id: sum(_under(rail, module.surface) for rail in rails) for module in array.modules
    }
    fewest = min(counts.values())
    least = _LEAST_RAILS_COUPLED if array.system.coupling else _LEAST_RAILS
    short = tuple(tag for tag, count in counts.items() if count < least)
    if short:
        message = (
            f"{len(short)} modules of array {array.id} ({short[0]} first) rest on {fewest} "
            f"attached rail(s); set rails on more rafters so that each rests on {least}."
        )
    else:
        message = f"Each module of array {array.id} rests on {fewest} attached rail(s) or more."
    return RULE.found(
        Outcome.FAIL if short else Outcome.PASS,
        citation,
        message,
        measured=float(fewest),
        limit=float(least),
        unit="rails",
        objects=short or (array.id,),
        line=array_line(design, array.id, "mounting", "rail_every"),
    )


def _under(rail: Rail, frame: Box) -> bool:
    """Tell whether a rail runs under a module from edge to edge."""
    u, v = frame.center
    if rail.up:
        return frame.x0 < rail.line_in < frame.x1 and rail.start_in < v < rail.end_in
    return frame.y0 < rail.line_in < frame.y1 and rail.start_in < u < rail.end_in


RULE = Rule(
    id="layout.rails-under-modules",
    title="Fewest rails under a module",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
