"""How a set is handed in: paper, seal and files."""

import re
from string import Formatter
from typing import Annotated, Literal

from pydantic import AfterValidator, model_validator

from planset.catalog.contents import CONTENT_ITEMS
from planset.catalog.fields import (
    Count,
    FileSize,
    OneOrMore,
    Size,
    Sourced,
    StrictModel,
    Text,
)

FILE_NAME_PARTS = ("project", "number", "revision", "cycle", "sheet", "title")
"""What a pattern of file names may hold: of the project its name, number and revision, which
submittal it is counted from 1, and the sheet's id and title."""

_OF_A_SHEET = {"sheet", "title"}
_PLAIN = re.compile(r"[A-Za-z0-9_-]*")


class ClearArea(StrictModel):
    """A rectangle on every sheet, inches on paper."""

    width: Size
    height: Size


class Seal(StrictModel):
    """A professional's seal: on which sheets, of which kind, and when it is asked for."""

    sheets: Literal["cover", "structural", "all"]
    kind: Literal["wet", "digital", "image"]
    when: Text


def parts_of(pattern: str) -> set[str]:
    """Return the parts a pattern of file names holds.

    Raises:
        ValueError: It is no pattern.
    """
    return {part for _, part, _, _ in Formatter().parse(pattern) if part is not None}


def _read_pattern(pattern: str) -> str:
    known = ", ".join(f"{{{part}}}" for part in FILE_NAME_PARTS)
    mend = f"write letters, digits, - and _ with {known}, without .pdf"
    try:
        pieces = list(Formatter().parse(pattern))
    except ValueError:
        pieces = [("", "?", "", None)]
    for text, part, how, conversion in pieces:
        unknown = part is not None and part not in FILE_NAME_PARTS
        if unknown or how or conversion or not _PLAIN.fullmatch(text):
            msg = f"not a pattern of file names; {mend}"
            raise ValueError(msg)
    return pattern


def _read_item(name: str) -> str:
    known = [item.name for item in CONTENT_ITEMS]
    if name not in known:
        msg = f"not an item that planset looks for; write one of: {'; '.join(known)}"
        raise ValueError(msg)
    return name


FileName = Annotated[Text, AfterValidator(_read_pattern)]
ItemName = Annotated[Text, AfterValidator(_read_item)]


class Submission(StrictModel):
    """How the set is handed in.

    `text_height` is the least plotted height of text and `approval_area` the space for the
    official's stamp, inches; `files` tells whether the set goes in as one file or as one per sheet.
    `file_name` is a pattern of file names such as "C{cycle}-{project}-PLANS", `file_name_length`
    the most characters of one with its .pdf, `file_size` the most of one file, in MB of a million
    bytes. `flat` asks for files without any annotation, links included; `attach_data` tells whether
    the job and its findings ride in the file as attachments, or may not. `electrical_diagram` asks
    for one line for all conductors of a circuit, as is drawn without it, or for each by itself.
    `must_show` are the items of a set's contents that it is sent back without, and `data_sheets`
    tells whether each device needs its data sheet in the set.
    """

    text_height: Sourced[Size] | None = None
    approval_area: Sourced[ClearArea] | None = None
    files: Sourced[Literal["one", "per_sheet"]] | None = None
    file_name: Sourced[FileName] | None = None
    file_name_length: Sourced[Count] | None = None
    file_size: Sourced[FileSize] | None = None
    flat: Sourced[bool] | None = None
    attach_data: Sourced[bool] | None = None
    electrical_diagram: Sourced[Literal["one_line", "three_line"]] | None = None
    seal: Sourced[Seal] | None = None
    must_show: Sourced[OneOrMore[ItemName]] | None = None
    data_sheets: Sourced[Literal["required", "not_required"]] | None = None

    @property
    def one_per_sheet(self) -> bool:
        """Whether each sheet goes in as a file of its own."""
        return self.files is not None and self.files.value == "per_sheet"

    @property
    def is_flat(self) -> bool:
        """Whether files go in without annotations."""
        return self.flat is not None and self.flat.value

    @property
    def attaches_data(self) -> bool:
        """Whether the job and its findings ride in the file."""
        return self.attach_data is not None and self.attach_data.value

    @property
    def draws_each_conductor(self) -> bool:
        """Whether the electrical diagram shows every conductor."""
        asked = self.electrical_diagram
        return asked is not None and asked.value == "three_line"

    @model_validator(mode="after")
    def _name_tells_sheets_apart(self) -> "Submission":
        if self.file_name is not None:
            parts = parts_of(self.file_name.value)
            if self.one_per_sheet and "sheet" not in parts:
                msg = "one file name for all sheets; write {sheet} into file_name"
                raise ValueError(msg)
            if not self.one_per_sheet and parts & _OF_A_SHEET:
                msg = "a sheet in the name of the one file; leave {sheet} and {title} out"
                raise ValueError(msg)
        return self
