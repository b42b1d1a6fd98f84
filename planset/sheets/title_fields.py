"""What a title block says on a sheet: whose project it is, which sheet, and what was revised."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import count, takewhile, zip_longest

from planset.drawing.page import TitleBlock, revision_fields, second_line
from planset.drawing.primitives import Attribute, Text
from planset.drawing.text import MINIMUM_HEIGHT, SLACK, height_to_fit, text_width, wrap
from planset.job.revisions import Revision
from planset.sheets.context import SheetContext, SheetEntry
from planset.sheets.links import SHEET_ID

_ON_THE_COVER = "SEE THE COVER"  # for a description that is too long for its line


def title_fields(
    context: SheetContext, entry: SheetEntry, number: int, scale: str
) -> tuple[Attribute, ...]:
    """The fields of a sheet's title block, filled in; those of a table of revisions may be empty.

    Args:
        context: The job, its title block, and the sheets of the set.
        entry: Id and title of the sheet.
        number: Its place in the set, from 1.
        scale: What its scale field says.
    """
    job = context.design.inputs.job
    project, contractor = job.project, job.contractor
    values: dict[str, str] = {
        "PROJECT_NAME": project.name,
        "PROJECT_NUMBER": project.number,
        "ADDRESS": project.address,
        "PARCEL": project.parcel,
        "OWNER": project.owner,
        "CONTRACTOR": contractor.name,
        "LICENSE": contractor.license,
        "CONTRACTOR_ADDRESS": contractor.address,
        "CONTRACTOR_PHONE": contractor.phone,
        "JURISDICTION": context.design.inputs.jurisdiction.name,
        "SHEET_TITLE": entry.title,
        SHEET_ID: entry.id,
        "SHEET_COUNT": f"SHEET {number} OF {len(context.index)}",
        "SCALE": scale,
        "DATE": project.issued.isoformat(),
        "DRAWN_BY": project.drawn_by,
        "CHECKED_BY": project.checked_by,
        "REVISION": project.revision,
        "STATUS": context.status,
    }
    values |= _revisions(job.revisions, context.titleblock)
    return tuple(
        attribute
        for tag, value in values.items()
        for attribute in _written(tag, value, context.titleblock)
    )


def _revisions(revisions: Sequence[Revision], titleblock: TitleBlock) -> dict[str, str]:
    """The lines of a title block's table, if it has one: the newest revisions, oldest first."""
    lines = list(
        takewhile(
            lambda line: all(tag in titleblock.fields for tag in line),
            map(revision_fields, count(1)),
        )
    )
    newest = revisions[-len(lines) :] if lines else ()
    values: dict[str, str] = {}
    for fields, one in zip_longest(lines, newest):
        told = ("", "", "")
        if one is not None:
            told = (str(one.number), one.date.isoformat(), one.description)
            place = titleblock.fields[fields[-1]]
            if text_width(one.description, MINIMUM_HEIGHT) * SLACK > place.line_width:
                told = (*told[:2], _ON_THE_COVER)
        values.update(zip(fields, told, strict=True))
    return values


def _written(tag: str, value: str, titleblock: TitleBlock) -> list[Attribute]:
    """A value in its field; one too long for it goes on in the second line, if there is one."""
    places = {tag: titleblock.fields[tag]}
    lines = [value]
    second = titleblock.fields.get(second_line(tag))
    if second is not None:
        places[second_line(tag)] = second
        lines = _in_two(value, places[tag].line_width)
    written = [(line, place) for line, place in zip(lines, places.values(), strict=True) if line]
    height = min(
        (height_to_fit(line, place.height, place.line_width) for line, place in written),
        default=places[tag].height,
    )
    return [
        Attribute(name, line, Text(line, place.at, height, place.layer, place.align))
        for line, (name, place) in zip(lines, places.items(), strict=True)
    ]


def _in_two(value: str, width: float) -> list[str]:
    """A line that is as long as can be read in a width, and what is left."""
    first, *rest = wrap(value, MINIMUM_HEIGHT, width)
    return [first, " ".join(rest)]
