"""The drafter's choices."""

from typing import Annotated, Literal

from pydantic import AfterValidator

from planset.catalog.fields import OneOrMore, StrictModel, Text

SheetId = Literal[
    "G-001", "G-002", "C-101", "A-101", "S-101", "S-501", "S-601",
    "E-101", "E-601", "E-602", "E-701", "Z-101", "Z-601",
]  # fmt: skip


def _each_once(sheets: tuple[SheetId, ...]) -> tuple[SheetId, ...]:
    twice = sorted({sheet for sheet in sheets if sheets.count(sheet) > 1})
    if twice:
        msg = f"{', '.join(twice)} listed twice; list each sheet once"
        raise ValueError(msg)
    return sheets


class Drafting(StrictModel):
    """Which sheets to draw, on which title block: a built-in's name or a path of a DXF file.

    With `attach_data`, the job and its findings ride in planset.pdf as attachments.
    """

    sheets: Annotated[OneOrMore[SheetId], AfterValidator(_each_once)]
    title_block: Text
    attach_data: bool = False
