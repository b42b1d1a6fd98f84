"""Where an array on rails across the slope can go so that all its hooks are at laps of the tile."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from planset.design.layout import PlacedArray
from planset.design.rails_up import blocks_of
from planset.design.tile_courses import Laps
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.job.survey import Survey

_STEP_IN = 1 / 16  # a tape's
_COARSE_IN = 1 / 8
_FARTHEST_ROW_GAP_IN = 6.0

_Rows = Sequence[tuple[int, float, float]]


def moved_to_laps(array: PlacedArray, laps: Laps, room_in: float = 0.0) -> str:
    """The nearest fields that put every rail of an array at laps, in words; "" where none do.

    Its corner alone is moved, or its corner with its rail_inset inside the clamp zone of the
    module, or with its row_gap.

    Args:
        array: An array on rails across the slope.
        laps: Laps of its plane.
        room_in: What every hook must keep from the ends of its place at a lap [in].
    """
    corner, inset = array.given.corner, array.stated_mounting.rail_inset
    if corner is None or inset is None or not laps.reachable:
        return ""
    row_of = {module.surface.y0: module.row for module in array.modules}
    rows = [(row_of.get(low, 1), low, high) for low, high, _, _ in blocks_of(array)]
    shift = _shift(laps, _lines(rows, inset, 0.0), room_in, -corner.up)
    if shift is not None:
        return f"corner.up {format_feet_inches(corner.up + shift)}"
    row_gap = array.given.gap if array.given.row_gap is None else array.given.row_gap
    changed = [("rail_inset", inset, one, 0.0) for one in _insets(array, inset)]
    most = round(_FARTHEST_ROW_GAP_IN / _COARSE_IN)
    changed += [("row_gap", row_gap, inset, n * _COARSE_IN) for n in range(1, most + 1)]
    for field, before, new_inset, wider in changed:
        shift = _shift(laps, _lines(rows, new_inset, wider), room_in, -corner.up)
        if shift is not None:
            value = new_inset if field == "rail_inset" else before + wider
            moved = f" and corner.up {format_feet_inches(corner.up + shift)}" if shift else ""
            return f"{field} {format_feet_inches(value)}{moved}"
    return ""


def moved_clear_of_eave(array: PlacedArray, laps: Laps, survey: Survey | None) -> str:
    """The same with room for an eave as crooked as surveyed, without where there is none.

    Args:
        array: An array on rails across the slope.
        laps: Laps of its plane.
        survey: What was measured of the roof, None where nothing was.
    """
    off = survey.eave_out_of_straight_on(array.plane.id) if survey else None
    return moved_to_laps(array, laps, off or 0.0) or moved_to_laps(array, laps)


def _lines(rows: _Rows, inset_in: float, wider_in: float) -> list[float]:
    """Heights of the rails on the slope, each row moved up by what the gaps below it grow [in]."""
    return [
        line + (row - 1) * wider_in
        for row, low, high in rows
        for line in (low + inset_in, high - inset_in)
    ]


def _shift(laps: Laps, lines_in: Sequence[float], room_in: float, least_in: float) -> float | None:
    """The least move along the slope that puts all lines at laps, on a tape's mark [in]."""
    steps = range(-math.ceil(laps.exposure_in / _STEP_IN), math.ceil(laps.exposure_in / _STEP_IN))
    for shift in sorted((n * _STEP_IN for n in steps), key=abs):
        if shift >= least_in and all(_fits(laps, line + shift, room_in) for line in lines_in):
            return shift
    return None


def _fits(laps: Laps, v_in: float, room_in: float) -> bool:
    return laps.shift_in(v_in) == 0 and laps.room_in(v_in) >= room_in - 1e-9


def _insets(array: PlacedArray, inset_in: float) -> Iterable[float]:
    """Insets inside the clamp zone of the module, the nearest first; none where it has no zone."""
    return sorted(_in_zone(array), key=lambda one: abs(one - inset_in))


def _in_zone(array: PlacedArray) -> Iterator[float]:
    clamping = array.product.clamping
    if clamping is None:
        return
    portrait = array.given.orientation == "portrait"
    zone = clamping.long_edge if portrait else clamping.short_edge
    if zone is None:
        return
    first = math.ceil(zone.start / _COARSE_IN)
    for step in range(first, math.floor(zone.end / _COARSE_IN) + 1):
        yield step * _COARSE_IN
