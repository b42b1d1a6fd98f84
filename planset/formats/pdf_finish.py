"""What goes into a finished PDF file from outside: pages of others and attached files."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from io import BytesIO

import pikepdf
from pikepdf import AttachedFileSpec, Name, Pdf

from planset.drawing.page import DataSheet


def finished(
    content: bytes, first: int, data_sheets: Iterable[DataSheet], attachments: Mapping[str, bytes]
) -> bytes:
    """Fill the blank pages that stand for data sheets, and attach files.

    Bookmarks, labels and links of those pages, and all other pages, stay as they are.

    Args:
        content: The file.
        first: Index of the first blank page.
        data_sheets: The documents, page by page.
        attachments: Files to attach by their names.
    """
    with pikepdf.open(BytesIO(content)) as pdf:
        place = first
        for sheet in data_sheets:
            with pikepdf.open(BytesIO(sheet.content)) as document:
                for page in document.pages:
                    _fill(pdf, place, page)
                    place += 1
        for name, attached in attachments.items():
            pdf.attachments[name] = AttachedFileSpec(
                pdf, attached, filename=name, relationship=Name.Data
            )
        made = BytesIO()
        pdf.save(made, deterministic_id=True)
    return made.getvalue()


def _fill(pdf: Pdf, place: int, page: pikepdf.Page) -> None:
    """Let a blank page show what another one does."""
    blank = pdf.pages[place].obj
    pdf.pages.append(page)
    copied = pdf.pages[-1].obj
    for key in set(blank.keys()) - {"/Parent"}:
        del blank[key]
    for key in copied.keys():  # noqa: SIM118 - not a mapping
        if key != "/Parent":
            blank[key] = copied[key]
    del pdf.pages[-1]
