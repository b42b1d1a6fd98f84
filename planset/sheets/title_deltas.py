"""Deltas in the title block: around each revision it lists, and at the number of a sheet."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from planset.drawing.flatten import rotated_text_box
from planset.drawing.geometry import Point
from planset.drawing.page import TitleBlock, revision_fields
from planset.drawing.primitives import Attribute, Block, Insert
from planset.drawing.revision_marks import (
    DELTA_HEIGHT,
    delta,
    delta_block,
    delta_box,
    delta_number,
    delta_that_fits,
)
from planset.sheets.changes import whole_sheet
from planset.sheets.context import SheetContext
from planset.sheets.lettering import beside_views
from planset.sheets.links import SHEET_ID

_REVISION = re.compile(revision_fields(0)[0].replace("0", r"\d+"))
_GAP = 0.03  # beside deltas at the sheet's number [in]


def delta_blocks(context: SheetContext) -> dict[str, Block]:
    """What the deltas of a job are drawn with, by name."""
    made = [delta_block(one.number) for one in context.design.inputs.job.revisions]
    return {block.name: block for block in made}


def with_deltas(context: SheetContext, sheet: str, border: Insert) -> tuple[Insert, ...]:
    """A title block with a delta around the number of each revision, and those of the sheet.

    Args:
        context: The job and its title block.
        sheet: Id of the sheet.
        border: The insertion of the title block, its fields filled in.
    """
    made: list[Insert] = []
    fields: list[Attribute] = []
    for field in border.attributes:
        fitted = _fitted(field, context.titleblock)
        if fitted:
            number, at, height = fitted
            made.append(delta(number, at, height, shown=False))
            fields.append(replace(field, text=delta_number(number, at, height)))
        else:
            fields.append(field)
    made += _at_number(context, sheet, fields)
    return (replace(border, attributes=tuple(fields)), *made)


def _fitted(field: Attribute, titleblock: TitleBlock) -> tuple[int, Point, float] | None:
    """Number, place and height of the delta that goes around a field, None where none does."""
    if not field.value or not _REVISION.fullmatch(field.tag):
        return None
    number, box = int(field.value), titleblock.fields[field.tag].box
    height = delta_that_fits(number, box)
    return (number, (box.center[0], box.center[1] - height / 2), height) if height else None


def _at_number(context: SheetContext, sheet: str, fields: list[Attribute]) -> Iterator[Insert]:
    """Deltas of what changed a sheet as a whole, left and right of its number, newest first.

    Those that have no room there stand in the list of revisions alone.
    """
    box = context.titleblock.fields[SHEET_ID].box
    (written,) = (field.text for field in fields if field.tag == SHEET_ID)
    taken = rotated_text_box(written) if written else box
    left, right = box.x0 + _GAP, taken.x1 + _GAP
    for number in whole_sheet(context.design.inputs, sheet):
        height = min(DELTA_HEIGHT * beside_views(context), box.height - _GAP)
        half = delta_box(number, height).x1
        foot = box.center[1] - height / 2
        if left + 2 * half + _GAP <= taken.x0:
            yield delta(number, (left + half, foot), height)
            left += 2 * half + _GAP
        elif right + 2 * half + _GAP <= box.x1:
            yield delta(number, (right + half, foot), height)
            right += 2 * half + _GAP
