"""Every module rests on two rails or more, and every rail on attachments."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.attachments import Racking
from planset.design.layout import PlacedArray
from planset.finding import Finding, Outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design

LEAST_RAILS = 2


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Count the rails under each module, and compare rails with the stock length."""
    for array, rack in zip(design.arrays, design.racking, strict=True):
        yield _supported(design, citation, array, rack)
        yield from _spliced(design, citation, array, rack)


def _supported(design: Design, citation: str, array: PlacedArray, rack: Racking) -> Finding:
    held = {item.rail for item in rack.attachments}
    lines = [rail.u_in for rail in rack.rails if rail.id in held]
    counts = {
        module.id: sum(module.surface.x0 < u < module.surface.x1 for u in lines)
        for module in array.modules
    }
    fewest = min(counts.values())
    short = tuple(tag for tag, count in counts.items() if count < LEAST_RAILS)
    if short:
        message = (
            f"{len(short)} modules of array {array.id} ({short[0]} first) rest on {fewest} "
            f"attached rail(s); set rails on more rafters so that each rests on {LEAST_RAILS}."
        )
    else:
        message = f"Each module of array {array.id} rests on {fewest} attached rails or more."
    return RULE.found(
        Outcome.FAIL if short else Outcome.PASS,
        citation,
        message,
        measured=float(fewest),
        limit=float(LEAST_RAILS),
        unit="rails",
        objects=short or (array.id,),
        line=array_line(design, array.id, "mounting", "rail_every"),
    )


def _spliced(design: Design, citation: str, array: PlacedArray, rack: Racking) -> Iterator[Finding]:
    stock = array.mounting.rail.stock_length
    long = tuple(rail.id for rail in rack.rails if rail.length_in > stock)
    if long:
        message = (
            f"{len(long)} rails of array {array.id} are longer than the stock length of "
            f"{format_feet_inches(stock)}, and splices are not computed yet; set the splices by "
            "hand by the maker's manual, or take out a row."
        )
        line = array_line(design, array.id, "rows")
        yield RULE.found(Outcome.OPEN, citation, message, objects=long, line=line)


RULE = Rule(
    id="layout.rails-under-modules",
    title="Rails under every module",
    subject="layout",
    document="",
    clauses={},
    check=check,
)
