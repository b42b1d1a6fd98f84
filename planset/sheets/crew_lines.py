"""Lines the crew stretches on the roof: strings that line up rails, and diagonals."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from planset.design.mounted import Mounted
from planset.design.racking import Rail
from planset.drawing.geometry import Point
from planset.drawing.primitives import Line
from planset.sheets.attachment_plan_tables import diagonals
from planset.sheets.slope_view import SlopeView

STRINGS = "S-ROOF-STRG"

_ONE_LINE_IN = 1 / 32  # ends no farther apart lie on one string
_PAST_IN = 8.0  # of a string beyond the rails it lines up


@dataclass(frozen=True, slots=True)
class StringLine:
    """A string between the ends of two rails.

    Attributes:
        first: Id of the rail it begins at.
        last: Id of the rail it ends at.
        brought: Ids of the rails between, which are brought to it.
        a: Where it begins, (u, v) [in].
        b: Where it ends, (u, v) [in].
    """

    first: str
    last: str
    brought: tuple[str, ...]
    a: Point
    b: Point


def string_lines(one: Mounted) -> tuple[StringLine, ...]:
    """Strings at the lower ends of rails up the slope, at both ends of rails across it.

    Rails whose ends do not lie on one line have strings of their own; one that lies alone has
    none.
    """
    rails = one.racking.rails
    starts = [(rail, rail.start_in) for rail in rails]
    ends = [(rail, rail.end_in) for rail in rails if not rail.up]
    return tuple(string for some in (starts, ends) for string in _strings(some))


def crew_lines(on: SlopeView, one: Mounted) -> tuple[Line, ...]:
    """Strings and diagonals of an array as lines of a view [paper in]."""
    drawn = [_longer(string) for string in string_lines(one)]
    made = [Line(on.at(*a), on.at(*b), STRINGS) for a, b in drawn]
    made += [
        Line(on.at(low.u_in, low.v_in), on.at(high.u_in, high.v_in), STRINGS)
        for low, high, _ in diagonals(one)
    ]
    return tuple(made)


def _strings(ends: list[tuple[Rail, float]]) -> Iterator[StringLine]:
    """A string for each line that ends of two rails and more lie on."""
    groups: list[list[tuple[Rail, float]]] = []
    for rail, at in sorted(ends, key=lambda pair: (pair[1], pair[0].line_in)):
        if groups and at - groups[-1][0][1] < _ONE_LINE_IN:
            groups[-1].append((rail, at))
        else:
            groups.append([(rail, at)])
    for group in groups:
        across = sorted(group, key=lambda pair: pair[0].line_in)
        (first, low), (last, high) = across[0], across[-1]
        if last.line_in - first.line_in > _ONE_LINE_IN:
            brought = tuple(rail.id for rail, _ in across[1:-1])
            yield StringLine(first.id, last.id, brought, first.at(low), last.at(high))


def _longer(string: StringLine) -> tuple[Point, Point]:
    """Its ends with what hangs over."""
    (u0, v0), (u1, v1) = string.a, string.b
    across = abs(u1 - u0) > abs(v1 - v0)
    du, dv = (_PAST_IN, 0.0) if across else (0.0, _PAST_IN)
    return (u0 - du, v0 - dv), (u1 + du, v1 + dv)
