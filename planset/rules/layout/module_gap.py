"""Modules stand as far apart as the parts between them need."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.layout import PlacedArray
from planset.finding import Finding, Outcome
from planset.rules.limits import NOISE
from planset.rules.lines import array_line
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design

_TOLERANCE_IN = 1 / 16  # a tape's finest step (common practice, no source)


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the gaps of each array with those of its clamps or couplings."""
    for array in design.mounted:
        for field, gap, part, needed in _needs(array):
            same = abs(gap - needed) <= _TOLERANCE_IN + NOISE
            outcome = Outcome.PASS if same else Outcome.FAIL
            fact = (
                f"The {field} of array {array.id} is {format_feet_inches(gap)}, and the {part} "
                f"between its modules takes {format_feet_inches(needed)}"
            )
            yield RULE.found(
                outcome,
                array.system.document,
                sentence(outcome, fact, f"set {field} to {format_feet_inches(needed)}"),
                measured=gap,
                limit=needed,
                unit="in",
                objects=(array.id,),
                line=array_line(design, array.id, field),
            )


def _needs(array: PlacedArray) -> Iterator[tuple[str, float, str, float]]:
    """Each gap with a part in it: its field, its size, the part, and the gap that it needs [in]."""
    clamps, coupling = array.system.clamps, array.system.coupling
    given, extent = array.given, array.extent
    between_rows = "row_gap" if given.row_gap is not None else "gap"
    if extent.columns > 1:
        if coupling:
            yield "gap", given.gap, coupling.name, coupling.gap
        elif clamps and array.system.across:
            yield "gap", given.gap, clamps.mid, clamps.gap
    if extent.rows > 1:
        if coupling:
            yield between_rows, given.up_gap, coupling.name, coupling.gap
        elif clamps and not array.system.across:
            yield between_rows, given.up_gap, clamps.mid, clamps.gap


RULE = Rule(
    id="layout.module-gap",
    title="Gap between modules",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
    of_mounting=True,
)
