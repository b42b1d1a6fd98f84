"""Layout dimensions of the attachment plan: tapes along the eave, and up the slope.

Each is a tape: running dimensions from one datum, so that no error is carried from mark to mark.
What is left from the last mark to the other end of the eave is dimensioned too, that a crew can
check from there.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace

from planset.design.mounted import Mounted
from planset.drawing.dimension import dimension
from planset.drawing.flatten import rotated_text_box
from planset.drawing.geometry import Point
from planset.drawing.labels import LabelPlacer, NoRoomError
from planset.drawing.primitives import Dimension, Primitive, Text
from planset.drawing.running import running_dimensions
from planset.drawing.text import LINE_PITCH, MINIMUM_HEIGHT, SLACK, text_width, wrap
from planset.sheets.slope_view import SlopeView
from planset.sheets.tag_lists import listed_tags
from planset.sheets.tape_marks import Eave, Tape, eave_of, heights_of, tapes_along, whole_eave
from planset.units import format_feet_inches

DIMS = "S-ANNO-DIMS"
TEXT = "S-ANNO-TEXT"
UNDER_EAVE = 0.24  # from the eave to where extension lines begin, rafter numbers between [paper in]
_OFFSETS = (0.16, 0.24)  # of a tape's line of arrows [paper in]
_LEAST_APART = 0.115  # figures across a tape can't stand closer [paper in]
_PAST_LINE = 0.36  # from where a tape is hooked to its figures, and a little around them [paper in]
_DATUM = "DATUM"
_TABLE = "SEE TABLE OF MARKS"  # where rails find their marks on a tape that does not tell
_BESIDE_DATUM, _UNDER_DATUM = 0.1, 0.2  # from the tape to the words beside it [paper in]
_SIXTEENTHS = 16


@dataclass(frozen=True, slots=True)
class Tapes:
    """The tapes of a view.

    Attributes:
        drawn: Their dimensions and the names beside their datums.
        missing: What had no room for its tape, for the table.
    """

    drawn: tuple[Primitive, ...]
    missing: tuple[str, ...]

    @property
    def crowded(self) -> int:
        """Figures that stand on thin lines."""
        made = (one for one in self.drawn if isinstance(one, Dimension))
        return sum(figure.crowded for one in made for figure in _figures(one))


def room_below(mounted: Sequence[Mounted]) -> float:
    """What all tapes along the eave of a plane take below it [paper in]."""
    along = tapes_along(mounted)
    return UNDER_EAVE + len(along) * _band(along)


def room_beside(mounted: Sequence[Mounted]) -> float:
    """What a tape up the slope takes beside the plane or an array [paper in]."""
    heights = [v for one in mounted for v in heights_of(one)]
    widest = max((text_width(f"{_figure(v)} ON SLOPE", MINIMUM_HEIGHT) for v in heights), default=0)
    return widest * SLACK + _PAST_LINE


def tapes(
    placer: LabelPlacer, on: SlopeView, mounted: Sequence[Mounted], last_shown_in: float
) -> Tapes:
    """The tapes along the eave, then one up the slope for arrays of the same heights.

    Args:
        placer: Knows of all that is drawn; the tapes are marked in it.
        on: The view.
        mounted: The arrays of the plane.
        last_shown_in: How far along the eave the plane is shown, u [in].
    """
    drawn: list[Primitive] = []
    missing: list[str] = []
    along = tapes_along(mounted)
    band = _band(along)
    for number, tape in enumerate(along):
        drawn += _datum_words(placer, on, tape, number * band, band)
        made = _clearest(placer, on, _along(on, tape, number * band))
        if made is None:
            missing.append(f"TAPE {tape.name}".strip() + " ALONG THE EAVE")
            continue
        drawn += made
        if tape.eave.right_in <= last_shown_in + 1e-6:
            drawn += _to_right_end(placer, on, tape, number * band)
    for heights, eave, arrays in _by_heights(mounted):
        made = _clearest(placer, on, _up(on, heights, eave, arrays))
        if made is None:
            names = ", ".join(one.id for one in arrays)
            missing.append(f"HEIGHTS, ARRAY {names}")
        else:
            drawn += made
    return Tapes(tuple(drawn), tuple(missing))


def _figure(value_in: float) -> str:
    return format_feet_inches(value_in, denominator=_SIXTEENTHS)


def _band(along: Sequence[Tape]) -> float:
    """What one tape takes, its figures across it [paper in]."""
    figures = [_figure(u - tape.eave.left_in) for tape in along for u in tape.marks]
    widest = max((text_width(figure, MINIMUM_HEIGHT) for figure in figures), default=0.0)
    return widest * SLACK + _PAST_LINE


def _by_heights(
    mounted: Sequence[Mounted],
) -> list[tuple[tuple[float, ...], Eave, list[Mounted]]]:
    """The arrays by the heights of their attachments and the eave below them."""
    grouped: dict[tuple[tuple[float, ...], Eave], list[Mounted]] = {}
    for one in mounted:
        heights = heights_of(one)
        if heights:
            grouped.setdefault((heights, eave_of(one)), []).append(one)
    return [(heights, eave, arrays) for (heights, eave), arrays in grouped.items()]


_Way = tuple[Dimension, ...]


def _along(on: SlopeView, tape: Tape, lower: float) -> Iterator[_Way]:
    """Below the eave, its figures turned where marks lie close."""
    datum = _lowered(on, tape.eave.left_in, lower)
    points = [_lowered(on, u, lower) for u in tape.marks]
    for offset in _OFFSETS:
        yield running_dimensions(datum, points, -offset, DIMS, on.view.scale.factor)


def _lowered(on: SlopeView, u: float, lower: float) -> Point:
    """A point of the eave, moved down to where extension lines of a tape begin."""
    x, y = on.at(u, 0.0)
    return (x, y - UNDER_EAVE - lower)


def _to_right_end(
    placer: LabelPlacer, on: SlopeView, tape: Tape, lower: float
) -> tuple[Dimension, ...]:
    """From the last mark to the right end of the eave, where there is room for it."""
    if tape.eave.right_in - tape.marks[-1] < 1:
        return ()
    a, b = (_lowered(on, u, lower) for u in (tape.marks[-1], tape.eave.right_in))
    factor = on.view.scale.factor
    ways = [dimension(a, b, -offset, DIMS, factor, denominator=_SIXTEENTHS) for offset in _OFFSETS]
    with suppress(NoRoomError):
        return (placer.place_dimension(ways),)
    return ()


def _up(
    on: SlopeView, heights: tuple[float, ...], eave: Eave, arrays: Sequence[Mounted]
) -> Iterator[_Way]:
    """Beside the ends of the eave, or beside the arrays; none where figures have no room."""
    first = min(one.array.hardware.x0 for one in arrays)
    last = max(one.array.hardware.x1 for one in arrays)
    whole = whole_eave(on.plane)
    sides = (
        *((eave.left_in, 1.0), (first, 1.0), (last, -1.0), (eave.right_in, -1.0)),
        *((whole.left_in, 1.0), (whole.right_in, -1.0)),
    )
    for u, side in sides:
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


def _datum_words(
    placer: LabelPlacer, on: SlopeView, tape: Tape, lower: float, band: float
) -> Iterator[Text]:
    """What a tape starts from, beside it, and, where there are several, which rails it is for."""
    x, y = _lowered(on, tape.eave.left_in, lower)
    x, y = x - _BESIDE_DATUM, y - _UNDER_DATUM
    yield _word(placer, f"{_DATUM} {tape.name}".strip(), (x, y))
    if tape.whole and not tape.name:
        return
    room, pitch = x - on.view.frame.x0 - _BESIDE_DATUM, MINIMUM_HEIGHT * LINE_PITCH
    names = wrap(listed_tags(tape.rails), MINIMUM_HEIGHT, room)
    told = tape.whole and len(names) * pitch < band - _UNDER_DATUM
    lines = names if told else wrap(_TABLE, MINIMUM_HEIGHT, room)
    for number, line in enumerate(lines, 1):
        yield _word(placer, line, (x, y - number * pitch))


def _word(placer: LabelPlacer, words: str, at: Point) -> Text:
    """Words that can't move, their place marked."""
    text = placer.settled(Text(words, at, MINIMUM_HEIGHT, TEXT, "right"))
    placer.keep_clear([text], {})
    return text
