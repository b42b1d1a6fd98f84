"""The lag screws of an attachment, in both sections of its detail."""

from __future__ import annotations

from collections.abc import Sequence

from planset.codes.nds.lag_screws import lag_dimensions, thread_length_in
from planset.design.fastening import Fastening
from planset.drawing.geometry import Box
from planset.drawing.primitives import Line, Polyline, Primitive
from planset.sheets.details.detail import Detail
from planset.sheets.details.sketch import BEYOND, OUTLINE, rectangle
from planset.sheets.words import inches
from planset.units import format_feet_inches

_HEAD_HEIGHT_PER_DIAMETER = 11 / 16  # hex head of a lag screw, ASME B18.2.1 (from memory)
_THREAD = 0.22  # from one line of the thread to the next [in]


def held_by(detail: Detail) -> Fastening:
    """The lag screws of a detail.

    Raises:
        ValueError: It has none.
    """
    if detail.fastening is None:
        msg = f"{detail.attachment.name} has no lag screws"
        raise ValueError(msg)
    return detail.fastening


def lag_positions(detail: Detail, middle: float) -> list[float]:
    """Axes of the lag screws about the middle of their plate, up the slope [in]."""
    lags = detail.on_rafter.lags
    first = middle - (lags.count - 1) * lags.spacing / 2
    return [first + n * lags.spacing for n in range(lags.count)]


def along_lags(detail: Detail, axes: Sequence[float]) -> list[Primitive]:
    """Lag screws driven through the plate into the rafter."""
    lags, plate = detail.on_rafter.lags, detail.build_up.plate_in
    return [part for s in axes for part in _lag_screw(s, plate, lags.length, lags.diameter)]


def across_lag(detail: Detail, axis: float) -> list[Primitive]:
    """The lag screws seen up the slope, one behind the other."""
    lags, plate = detail.on_rafter.lags, detail.build_up.plate_in
    half, point = lags.diameter / 2, plate - lags.length
    points = (
        (axis - half, plate),
        (axis - half, point + 0.2),
        (axis, point),
        (axis + half, point + 0.2),
        (axis + half, plate),
    )
    return [Polyline(points, BEYOND)]


def lag_words(detail: Detail) -> str:
    """Screw, pilot hole and thread in the rafter beside the least there must be."""
    lags, held = detail.on_rafter.lags, held_by(detail)
    apart = f"{inches(lags.spacing)} APART, " if lags.count > 1 else ""
    return (
        f"({lags.count}) LAG {inches(lags.diameter)} x {inches(lags.length)}, {apart}"
        f"PILOT {inches(lags.pilot)}; THREAD IN RAFTER {inches(held.penetration_in)}, "
        f"{inches(held.minimum_in)} MIN."
    )


def side_room_words(detail: Detail) -> str:
    """How far off the rafter's middle a screw may stand."""
    room = format_feet_inches(max(held_by(detail).side_room_in, 0.0), rounding="down")
    lags = "LAGS" if detail.on_rafter.lags.count > 1 else "LAG"
    return f"{lags} WITHIN {room} OF THE RAFTER CENTERLINE"


def _lag_screw(
    x: float, bearing: float, length_in: float, diameter_in: float
) -> tuple[Primitive, ...]:
    """A lag screw driven straight down.

    Args:
        x: Its axis [in].
        bearing: Height of the surface its head lies on [in].
        length_in: Nominal length [in].
        diameter_in: Nominal diameter [in].
    """
    size = lag_dimensions(diameter_in)
    half, root = diameter_in / 2, size.root_in / 2
    flats = (size.head_across_flats_in or diameter_in * 1.6) / 2
    head = Box(x - flats, bearing, x + flats, bearing + diameter_in * _HEAD_HEIGHT_PER_DIAMETER)
    thread_top = bearing - (length_in - thread_length_in(length_in))
    tip_top = bearing - length_in + size.tip_in
    point = bearing - length_in
    made: list[Primitive] = [
        rectangle(head, OUTLINE),
        rectangle(Box(x - half, thread_top, x + half, bearing), OUTLINE),
        Polyline(
            ((x - root, thread_top), (x - root, tip_top), (x, point), (x + root, tip_top))
            + ((x + root, thread_top),),
            BEYOND,
        ),
    ]
    y = thread_top - _THREAD / 2
    while y > tip_top:
        made.append(Line((x - half, y - 0.03), (x + half, y + 0.03), BEYOND))
        y -= _THREAD
    return tuple(made)
