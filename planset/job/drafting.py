"""The drafter's choices."""

from typing import Annotated, Literal

from pydantic import AfterValidator

from planset.catalog.fields import OneOrMore, StrictModel, Text

SheetId = Literal[
    "G-001", "G-002", "C-101", "A-101", "S-101", "S-501", "S-601",
    "E-101", "E-601", "E-602", "E-701", "Z-101", "Z-601",
]  # fmt: skip


_OF_CREW = "Z-"


def _each_once(sheets: tuple[SheetId, ...]) -> tuple[SheetId, ...]:
    twice = sorted({sheet for sheet in sheets if sheets.count(sheet) > 1})
    if twice:
        msg = f"{', '.join(twice)} listed twice; list each sheet once"
        raise ValueError(msg)
    return sheets


def _some_for_review(sheets: tuple[SheetId, ...]) -> tuple[SheetId, ...]:
    if all(sheet.startswith(_OF_CREW) for sheet in sheets):
        msg = "sheets of the crew alone; list one for plan review too, as G-001"
        raise ValueError(msg)
    return sheets


class Drafting(StrictModel):
    """Which sheets to draw, on which title block: a built-in's name or a path of a DXF file.

    Sheets that begin with Z are the crew's: they go into crew.pdf. With `attach_data`, the job and
    its findings ride in planset.pdf as attachments.
    """

    sheets: Annotated[
        OneOrMore[SheetId], AfterValidator(_each_once), AfterValidator(_some_for_review)
    ]
    title_block: Text
    attach_data: bool = False
