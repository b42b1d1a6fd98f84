"""The two views of a detail on its sheet: sections with their notes and dimensions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from planset.drawing.dimension import dimension
from planset.drawing.enlarge import enlarged, reduced
from planset.drawing.fit import Margins, fit_view
from planset.drawing.geometry import Box
from planset.drawing.keynotes import ColumnFullError, Keynote, keynote_column, notes_fit
from planset.drawing.layers import OWN_LAYERS
from planset.drawing.page import Scale, View
from planset.drawing.primitives import Block, Dimension, Insert, Primitive, Text
from planset.drawing.running import running_dimensions
from planset.drawing.text import MINIMUM_HEIGHT
from planset.sheets.details.deck import ENDS
from planset.sheets.details.sketch import Section
from planset.units import format_pitch, slope_degrees

DIMS = "S-ANNO-DIMS"
TEXT = "S-ANNO-TEXT"
LEADER = "S-ANNO-NOTE"

_BESIDE_BREAK = 0.4  # a break line's zigzag past the section [model in]
_SHOULDERS = 0.5  # between the left column and the drawing, for leaders and a dimension [paper in]
_SHOULDER = 0.35  # between the right column and the drawing [paper in]
_BELOW = 0.76  # for dimensions and the remark under the section along the rafter [paper in]
_LOOSER = tuple(n / 8 for n in range(17))  # more height for columns that need it [paper in]
_NOTE_COLUMN = (1.8, 2.6)  # least and most width of one, with notes at their least [in]


@dataclass(frozen=True, slots=True)
class Shown:
    """A section ready to be placed.

    Attributes:
        number: Of its view.
        title: Of its view, capitals.
        section: What it shows.
        block: Its drawing.
        lettering: How many times as large its notes are drawn.
    """

    number: int
    title: str
    section: Section
    block: Block
    lettering: float

    @property
    def extent(self) -> Box:
        """What the drawing covers, breaks included [model in]."""
        cut = self.section.cut
        return Box(cut.x0 - _BESIDE_BREAK, cut.y0 - ENDS, cut.x1 + _BESIDE_BREAK, cut.y1 + ENDS)


def along_view(shown: Shown, place: Box, scale: Scale, pitches: Sequence[float]) -> View:
    """The section along the slope with a column of notes at either side.

    The view is made higher than its drawing where the columns need that.

    Args:
        shown: The section.
        place: Where the view goes [paper in].
        scale: Its scale.
        pitches: Slopes of the roof that it stands for, rise per run.

    Raises:
        ViewTooLargeError: There is no room for it.
        ColumnFullError: There is none for its notes.
    """
    beside = place.width - shown.extent.width / scale.factor - _SHOULDERS - _SHOULDER
    width = _column(shown, beside / 2)
    for more in _LOOSER:
        margins = Margins(width + _SHOULDERS, width + _SHOULDER, 0.1 + more, _below(shown, _BELOW))
        view = fit_view(
            shown.number, shown.title, shown.extent, margins, place, (scale,), _model(shown)
        )
        view = replace(view, at=(view.at[0], place.y1 - view.frame.height))
        notes = _keynotes(shown, view)
        left, right = _columns(shown, view, width)
        axis = view.on_paper.apply((shown.section.axis, 0.0))[0]
        natural = sum(note.anchor[0] * shown.lettering <= axis for note in notes)
        cut = _balanced(notes, left, right, shown.lettering, natural)
        if cut is not None:
            break
    else:
        msg = f"{len(notes)} notes do not fit beside {shown.title}"
        raise ColumnFullError(msg)
    columns = (
        *_placed(notes[:cut], left, shown.lettering),
        *_placed(notes[cut:], right, shown.lettering),
    )
    frame = view.frame
    slopes = "; ".join(
        f"{format_pitch(pitch)}, {slope_degrees(pitch):.1f} DEG" for pitch in dict.fromkeys(pitches)
    )
    words = f"UP SLOPE TO THE RIGHT, DRAWN SQUARE TO THE ROOF ({slopes})"
    if shown.section.remark:
        words += f"; {shown.section.remark}"
    up_slope = Text(words, (frame.center[0], frame.y0 + 0.04), MINIMUM_HEIGHT, TEXT, "center")
    return replace(view, annotation=(*_dimensions(shown, view), *columns, up_slope))


def across_view(shown: Shown, place: Box, scale: Scale) -> View:
    """The section across the slope with one column of notes at its right.

    Args:
        shown: The section.
        place: Where the view goes [paper in].
        scale: Its scale.

    Raises:
        ViewTooLargeError: There is no room for it.
        ColumnFullError: There is none for its notes.
    """
    rows = [m.offset for m in shown.section.sketch.measures if m.a[0] == m.b[0]]
    left = 0.3 + max(rows, default=0.0)
    width = _column(shown, place.width - shown.extent.width / scale.factor - left - 0.2)
    for more in _LOOSER:
        margins = Margins(left, width + 0.2, 0.05 + more, _below(shown, 0.3))
        view = fit_view(
            shown.number, shown.title, shown.extent, margins, place, (scale,), _model(shown)
        )
        view = replace(view, at=(view.at[0], place.y1 - view.frame.height))
        frame, notes = view.frame, _keynotes(shown, view)
        column = Box(frame.x1 - width, frame.y0 + 0.06, frame.x1 - 0.02, frame.y1 - 0.02)
        if notes_fit(notes, reduced(column, shown.lettering)):
            break
    placed = _placed(notes, column, shown.lettering)
    return replace(view, annotation=(*_dimensions(shown, view), *placed))


def across_height(shown: Shown, scale: Scale) -> float:
    """Height of the view across the slope at a scale [paper in]."""
    return shown.extent.height / scale.factor + 0.05 + _below(shown, 0.3)


def _below(shown: Shown, least: float) -> float:
    """Room below a section, more where it has a second row of dimensions [paper in]."""
    rows = [-m.offset for m in shown.section.sketch.measures if m.a[1] == m.b[1]]
    return least + max([row - 0.2 for row in rows] + [0.0])


def _column(shown: Shown, room: float) -> float:
    """Width of a column of notes: words wrap less where there is room [paper in]."""
    least, most = (width * shown.lettering for width in _NOTE_COLUMN)
    return min(max(least, room), most)


def _model(shown: Shown) -> tuple[Primitive, ...]:
    return (Insert(shown.block.name, (0.0, 0.0), OWN_LAYERS),)


def _columns(shown: Shown, view: View, width: float) -> tuple[Box, Box]:
    """Where notes stand left and right, the left ones above the dimension of the rafter."""
    frame, sketch = view.frame, shown.section.sketch
    foot = frame.y0 + 0.3
    beside = any(measure.a[0] == measure.b[0] for measure in sketch.measures)
    left_foot = view.on_paper.apply((0.0, 0.0))[1] if beside else foot
    return (
        Box(frame.x0 + 0.02, left_foot, frame.x0 + width, frame.y1 - 0.02),
        Box(frame.x1 - width, foot, frame.x1 - 0.02, frame.y1 - 0.02),
    )


def _keynotes(shown: Shown, view: View) -> list[Keynote]:
    """The notes from left to right, for a page whose lettering is at its least."""
    at = view.on_paper.apply
    made = []
    for note in sorted(shown.section.sketch.notes, key=lambda note: note.at[0]):
        x, y = at(note.at)
        anchor = (x / shown.lettering, y / shown.lettering)
        made.append(Keynote(note.words, anchor, note.end))
    return made


def _balanced(
    notes: list[Keynote], left: Box, right: Box, lettering: float, natural: int
) -> int | None:
    """How many notes from the left stand in the left column, so that both have room.

    That is as near as can be to the natural number; None where there is no way.
    """
    for cut in sorted(range(len(notes) + 1), key=lambda cut: abs(cut - natural)):
        parts = ((notes[:cut], left), (notes[cut:], right))
        if all(notes_fit(part, reduced(column, lettering)) for part, column in parts):
            return cut
    return None


def _placed(notes: list[Keynote], column: Box, lettering: float) -> tuple[Primitive, ...]:
    """Notes in a column, their lettering so many times as large."""
    return enlarged(keynote_column(notes, reduced(column, lettering), TEXT, LEADER), lettering)


def _dimensions(shown: Shown, view: View) -> list[Dimension]:
    """Dimensions and running dimensions on paper."""
    at, factor, sketch = view.on_paper.apply, view.scale.factor, shown.section.sketch
    made = [
        dimension(
            at(m.a),
            at(m.b),
            m.offset,
            DIMS,
            factor,
            denominator=16,
            beyond="a" if m.a[1] == m.b[1] else "b",
        )
        for m in sketch.measures
    ]
    for run in sketch.runs:
        marked = [at(point) for point in run.marked]
        made += running_dimensions(at(run.datum), marked, -0.2, DIMS, factor)
    return made
