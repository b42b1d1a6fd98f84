"""What may stand below or beside the views of the electrical plan, as wide as there is room."""

from __future__ import annotations

from enum import Enum

from planset.drawing.columns import PagesFullError
from planset.drawing.geometry import Box
from planset.drawing.notes import Section, flow
from planset.drawing.primitives import Primitive
from planset.sheets.context import SheetContext
from planset.sheets.electrical_plan_tables import notes, spaces_table
from planset.sheets.note_table import LINE_LAYER, TEXT_LAYER

_TABLE_WIDTH = 11.0  # at most [in]
_NOTES_WIDTH, _NOTES_COLUMNS = 4.2, 3  # least width of a column of notes [in], most columns
_BETWEEN = 0.3  # columns of notes [in]
_BELOW = 0.12  # views, where there is room [in]
_STEP = 0.08  # of heights tried for notes [in]


class Wide(Enum):
    """A block that is drawn at the width there is."""

    NOTES = "notes"
    SPACES = "working spaces"


class NoRoomBelowError(ValueError):
    """A block is higher than the place it was given."""


def notes_section(context: SheetContext) -> Section:
    """Cautions and notes."""
    return Section("NOTES AND CAUTIONS", tuple(notes(context)))


def drawn_wide(
    context: SheetContext, block: Wide, noted: Section, place: Box
) -> tuple[tuple[Primitive, ...], Box]:
    """A block at the upper left of its place, and what it covers.

    Args:
        context: What the sheet is given.
        block: The block.
        noted: The notes.
        place: Where it goes, words at their least height [paper in].

    Raises:
        NoRoomBelowError: It does not fit.
    """
    if block is Wide.NOTES:
        return _notes(noted, place)
    width = min(place.width, _TABLE_WIDTH)
    table = spaces_table(context.design, (place.x0, place.y1), width)
    spare = place.height - table.box.height
    if spare < 0:
        raise NoRoomBelowError(block.value)
    lower = spaces_table(context.design, (place.x0, place.y1 - min(spare, _BELOW)), width)
    return lower.primitives, lower.box


def _notes(noted: Section, place: Box) -> tuple[tuple[Primitive, ...], Box]:
    """Notes in columns of about equal height."""
    count = max(min(int(place.width / _NOTES_WIDTH), _NOTES_COLUMNS), 1)
    width = min((place.width - (count - 1) * _BETWEEN) / count, 1.5 * _NOTES_WIDTH)
    lefts = [place.x0 + n * (width + _BETWEEN) for n in range(count)]
    for step in range(1, int(place.height / _STEP) + 1):
        height = step * _STEP
        top = place.y1 - min(place.height - height, _BELOW)
        columns = tuple(Box(x, top - height, x + width, top) for x in lefts)
        try:
            pages = flow((noted,), [columns], TEXT_LAYER, LINE_LAYER).pages
        except PagesFullError:
            continue
        return pages[0], Box(place.x0, top - height, columns[-1].x1, place.y1)
    raise NoRoomBelowError(Wide.NOTES.value)
