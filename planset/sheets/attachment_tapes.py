"""Layout dimensions of the attachment plan: rails along the eave, attachments up the slope.

Each is a tape: running dimensions from one datum, so that no error is carried from mark to mark.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from planset.design.layout import PlacedArray
from planset.design.racking import Racking
from planset.drawing.flatten import rotated_text_box
from planset.drawing.geometry import Point
from planset.drawing.labels import LabelPlacer, NoRoomError
from planset.drawing.primitives import Dimension, Text
from planset.drawing.running import running_dimensions
from planset.drawing.text import MINIMUM_HEIGHT
from planset.sheets.slope_view import SlopeView

DIMS = "S-ANNO-DIMS"
UNDER_EAVE = 0.24  # from the eave to where extension lines begin, rafter numbers between [paper in]
_OFFSETS = (0.16, 0.24)  # of a tape's line of arrows [paper in]
_ONE_MARK_IN = 1 / 32  # marks no farther apart are one
_LEAST_APART = 0.115  # figures across a tape can't stand closer [paper in]

Mounted = tuple[PlacedArray, Racking]
"""An array with its rails and attachments."""


@dataclass(frozen=True, slots=True)
class Tapes:
    """The tapes of a view.

    Attributes:
        drawn: Their dimensions.
        missing: What had no room for its tape, for the table.
        crowded: Figures that stand on thin lines.
    """

    drawn: tuple[Dimension, ...]
    missing: tuple[str, ...]

    @property
    def crowded(self) -> int:
        """Figures that stand on thin lines."""
        return sum(figure.crowded for one in self.drawn for figure in _figures(one))


def tapes(placer: LabelPlacer, on: SlopeView, mounted: Sequence[Mounted]) -> Tapes:
    """The tape along the eave, then one up the slope for arrays of the same heights.

    Args:
        placer: Knows of all that is drawn; the tapes are marked in it.
        on: The view.
        mounted: The arrays of the plane.
    """
    drawn: list[Dimension] = []
    missing: list[str] = []
    rails = marks(item.u_in for _, rack in mounted for item in rack.attachments)
    listed = [("RAILS FROM LEFT END", list(_along(on, rails)))]
    for heights, arrays in _by_heights(mounted):
        names = ", ".join(array.id for array in arrays)
        listed.append((f"HEIGHTS, ARRAY {names}", list(_up(on, heights, arrays))))
    for name, ways in listed:
        made = _clearest(placer, on, ways)
        if made is None:
            missing.append(name)
        else:
            drawn += made
    return Tapes(tuple(drawn), tuple(missing))


def marks(values: Iterable[float]) -> tuple[float, ...]:
    """Distances in order, those that are one only once [in]."""
    kept: list[float] = []
    for value in sorted(values):
        if not kept or value - kept[-1] > _ONE_MARK_IN:
            kept.append(value)
    return tuple(kept)


def heights_of(rack: Racking) -> tuple[float, ...]:
    """The distinct distances of an array's attachments from the eave [in]."""
    return marks(attachment.v_in for attachment in rack.attachments)


def _by_heights(
    mounted: Sequence[Mounted],
) -> list[tuple[tuple[float, ...], list[PlacedArray]]]:
    """The arrays by the heights of their attachments."""
    grouped: dict[tuple[float, ...], list[PlacedArray]] = {}
    for array, rack in mounted:
        grouped.setdefault(heights_of(rack), []).append(array)
    return [(heights, arrays) for heights, arrays in grouped.items() if heights]


_Way = tuple[Dimension, ...]


def _along(on: SlopeView, rails: tuple[float, ...]) -> Iterator[_Way]:
    """Below the eave, its figures turned where rails lie close."""
    datum = _lowered(on.at(on.eave_ends[0], 0.0))
    points = [_lowered(on.at(u, 0.0)) for u in rails]
    for offset in _OFFSETS:
        yield running_dimensions(datum, points, -offset, DIMS, on.view.scale.factor)


def _lowered(point: Point) -> Point:
    return (point[0], point[1] - UNDER_EAVE)


def _up(on: SlopeView, heights: tuple[float, ...], arrays: list[PlacedArray]) -> Iterator[_Way]:
    """Beside the ends of the eave, or beside the arrays; none where figures have no room."""
    left, right = on.eave_ends
    first = min(array.hardware.x0 for array in arrays)
    last = max(array.hardware.x1 for array in arrays)
    for u, side in ((left, 1.0), (first, 1.0), (last, -1.0), (right, -1.0)):
        points = [on.at(u, v) for v in heights]
        if any(b[1] - a[1] < _LEAST_APART for a, b in zip(points, points[1:], strict=False)):
            return
        for offset in _OFFSETS:
            yield running_dimensions(
                on.at(u, 0.0),
                points,
                side * offset,
                DIMS,
                on.view.scale.factor,
                slope_factor=on.plane.slope_factor,
            )


def _clearest(placer: LabelPlacer, on: SlopeView, ways: Iterable[_Way]) -> _Way | None:
    """The way with the fewest figures on thin lines, none on words or heavy ones; mark it."""
    best: _Way | None = None
    least = 0
    for way in ways:
        try:
            made = tuple(_figured(placer.copy(), on, way))
        except NoRoomError:
            continue
        crowded = sum(figure.crowded for one in made for figure in _figures(one))
        if best is None or crowded < least:
            best, least = made, crowded
        if not crowded:
            break
    placer.keep_clear(best or (), {})
    return best


def _figured(placer: LabelPlacer, on: SlopeView, way: _Way) -> Iterator[Dimension]:
    """The dimensions, each figure told whether it stands on a thin line.

    Raises:
        NoRoomError: A figure leaves the view, or has words or a heavy pen under it.
    """
    for one in way:
        (figure,) = _figures(one)
        if not on.view.frame.contains(rotated_text_box(figure)):
            msg = f"the figure {figure.text} leaves its view"
            raise NoRoomError(msg)
        placed = placer.place_first([figure])
        yield replace(one, marks=tuple(placed if mark is figure else mark for mark in one.marks))


def _figures(one: Dimension) -> list[Text]:
    return [mark for mark in one.marks if isinstance(mark, Text)]


def datum_words(on: SlopeView) -> Text:
    """What the tape along the eave starts from, beside it."""
    x, y = _lowered(on.at(on.eave_ends[0], 0.0))
    return Text("DATUM", (x - 0.1, y - 0.2), MINIMUM_HEIGHT, "S-ANNO-TEXT", "right")
