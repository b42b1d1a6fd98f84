"""Greatest extent of one array along either axis.

Arrays of one plane with less between them than parts two arrays count as one (interpretation): else
an array of any extent could be stated as several.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.access.clearances import joined_arrays
from planset.design.layout import ArrayOnRoof
from planset.drawing.geometry import united
from planset.finding import Finding
from planset.rules.existing import every_array, is_existing
from planset.rules.limits import at_most_outcome
from planset.rules.lines import array_line
from planset.rules.roof_access import (
    asked_by_nobody,
    clauses_or_none,
    judged,
    rules_in_force,
    without,
)
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure the longer side of each array."""
    rules = rules_in_force(design)
    most = rules.code.greatest_array_side_in
    if most <= 0:
        yield asked_by_nobody(RULE, design, citation)
        return
    clause = rules.cite("array_size")
    for scope in judged(RULE, design, clause):
        if isinstance(scope, Finding):
            yield scope
            continue
        names = {plane.id for plane in scope.planes}
        listed = every_array(design)  # new ones first, so a group with one of them begins with it
        for arrays in joined_arrays(listed, design.access.gaps, _apart_in(design)):
            if arrays[0].plane.id in names and not is_existing(design, arrays[0].id):
                yield _of_arrays(design, clause, arrays, most)


def _apart_in(design: Design) -> float:
    """From what distance on two arrays are two: as the jurisdiction has it, or a pathway [in]."""
    local = design.inputs.jurisdiction.access.between_arrays
    return local.value if local else rules_in_force(design).code.pathway_width_in


def _of_arrays(
    design: Design, clause: str, arrays: tuple[ArrayOnRoof, ...], most: float
) -> Finding:
    around = united([array.frames for array in arrays])
    side = max(around.width, around.height)
    outcome = at_most_outcome(side, most)
    long = format_feet_inches(side, rounding="up")
    limit = format_feet_inches(most, rounding="down")
    names = tuple(array.id for array in arrays)
    fact = f"Array {names[0]} is {long} long, and {limit} is the most"
    change = "divide it in two"
    if len(arrays) > 1:
        apart = format_feet_inches(_apart_in(design), rounding="up")
        fact = (
            f"Arrays {', '.join(names)}, less than {apart} apart, count as one of {long}, and "
            f"{limit} is the most"
        )
        change = f"keep more than {apart} between them"
    return RULE.found(
        outcome,
        clause,
        sentence(outcome, fact, change),
        measured=side,
        limit=most,
        unit="in",
        objects=names,
        line=array_line(design, names[0]),
    )


_CLAUSES = clauses_or_none("array_size")

RULE = Rule(
    id="fire.array-size",
    title="Greatest extent of an array",
    subject="fire access",
    held_by="dwelling access",
    clauses=_CLAUSES,
    check=check,
    not_in=without(_CLAUSES),
    concerns="dwellings",
)
