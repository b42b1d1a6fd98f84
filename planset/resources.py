"""Files that come with the program or with the job: symbols, title blocks, data sheets.

In a checkout they lie beside the package, where a firm can change them in any CAD; an installed
program carries them inside.
"""

from __future__ import annotations

import os.path
from pathlib import Path

from planset.catalog.jurisdiction import SheetRequirement
from planset.drawing.page import DataSheet, TitleBlock
from planset.drawing.symbols import Symbol
from planset.errors import JobErrors, Problem
from planset.formats.dxf_read import read_symbols, read_title_block
from planset.formats.refused import RefusedError
from planset.job.data_sheets import DataSheetFile
from planset.job.load import Inputs

OUTSIDE = "a path that leads out of the job's folder"
COPY = "copy the file beside the job and name it"
_SAME_SIZE = 0.01  # how far a drawn sheet may be off and still have its nominal size [in]


def drawings_folder(kind: str) -> Path:
    """Return the folder of the drawings of a kind, "symbols" or "titleblocks"."""
    package = Path(__file__).parent
    installed = package / f"_{kind}"
    return installed if installed.is_dir() else package.parent / kind


def all_symbols() -> dict[str, Symbol]:
    """Return the symbols of all family files by name.

    Raises:
        JobErrors: A file cannot be used, or two of them have a symbol of one name.
    """
    symbols: dict[str, Symbol] = {}
    for path in sorted(drawings_folder("symbols").glob("*.dxf")):
        family = read_symbols(path)
        twice = [
            Problem(str(path), None, name, "another family file has this symbol", "rename one")
            for name in family
            if name in symbols
        ]
        if twice:
            raise JobErrors(twice)
        symbols |= family
    return symbols


def job_title_block(inputs: Inputs) -> TitleBlock:
    """Return the title block a job names: a built-in, or a DXF file by its path from the job.

    Raises:
        JobErrors: There is no such title block, it cannot be used, or its sheet is not of the
            size the jurisdiction takes.
    """
    name = inputs.job.drafting.title_block
    path = title_block_path(inputs.path.parent, name)
    if name.endswith(".dxf") and path is not None and _leads_out(path, inputs.path.parent):
        raise JobErrors([_problem(inputs, f"{OUTSIDE} (got {name})", COPY)])
    if path is None or not os.path.isfile(path):  # noqa: PTH113 - says no to any odd name
        known = sorted(file.stem for file in drawings_folder("titleblocks").glob("*.dxf"))
        mend = f"use one of: {', '.join(known)}, or the path of a DXF file from the job's folder"
        raise JobErrors([_problem(inputs, f"no such title block (got {name})", mend)])
    titleblock = read_title_block(path)
    required = inputs.jurisdiction.sheet
    if not _has_size(titleblock, required):
        drawn = f"{titleblock.height:g}x{titleblock.width:g}"
        message = f"the sheet of {name} is {drawn}, where {required.size} is required"
        mend = f"name a title block of {required.size} ({required.source})"
        raise JobErrors([_problem(inputs, message, mend)])
    return titleblock


def job_data_sheets(inputs: Inputs, titleblock: TitleBlock) -> tuple[DataSheet, ...]:
    """Return the data sheets a job names, numbered in its order.

    Args:
        inputs: The job.
        titleblock: The set's title block: no page may be larger than its sheet.

    Raises:
        JobErrors: With every file that leads out of the job's folder or cannot be taken in.
    """
    problems: list[Problem] = []
    sheets: list[DataSheet] = []
    for number, stated in enumerate(inputs.job.data_sheets):
        try:
            sheets.append(_data_sheet(f"D-{number + 1}", stated, inputs.path.parent, titleblock))
        except RefusedError as refused:
            place = ("data_sheets", number, "file")
            message = f"{refused.message} (got {stated.file})"
            problems.append(inputs.document.problem(place, message, refused.mend))
    if problems:
        raise JobErrors(problems)
    return tuple(sheets)


def _data_sheet(
    sheet: str, stated: DataSheetFile, folder: Path, titleblock: TitleBlock
) -> DataSheet:
    """Return a data sheet as the set takes it in.

    Raises:
        RefusedError: It leads out of the job's folder or cannot be taken in.
    """
    from planset.formats.pdf_read import read_pdf_pages  # noqa: PLC0415 - slow, seldom needed

    path = folder / stated.file
    if _leads_out(path, folder):
        raise RefusedError(OUTSIDE, COPY)
    if not os.path.isfile(path):  # noqa: PTH113 - says no to any odd name
        message, mend = "no such file", "check its name, and its path from the job's folder"
        raise RefusedError(message, mend)
    pages = read_pdf_pages(path)
    for number, (width, height) in enumerate(pages.sizes, 1):
        room = sorted((titleblock.width, titleblock.height))
        if any(
            side > most + _SAME_SIZE
            for side, most in zip(sorted((width, height)), room, strict=True)
        ):
            message = (
                f"page {number} is {width:.4g} x {height:.4g} in, larger than the set's sheets"
            )
            mend = f"print it to a PDF file of {room[0]:g} x {room[1]:g} in or less"
            raise RefusedError(message, mend)
    return DataSheet(sheet, stated.title.upper(), pages.sizes, pages.content)


def title_block_path(job_folder: Path, name: str) -> Path | None:
    """Return the file a title block's name means, None when no built-in one has it.

    A name that ends in .dxf is a path from the job's folder.
    """
    if name.endswith(".dxf"):
        return job_folder / name
    files = {path.stem: path for path in drawings_folder("titleblocks").glob("*.dxf")}
    return files.get(name)


def _leads_out(path: Path, folder: Path) -> bool:
    """Tell whether a path, or a link on it, leads out of a folder; one that is odd does, too."""
    try:
        return not path.resolve().is_relative_to(folder.resolve())
    except (OSError, ValueError, RuntimeError):
        return True


def _has_size(titleblock: TitleBlock, required: SheetRequirement) -> bool:
    """Tell whether a sheet has a size such as "11x17", which lies on its long side."""
    height, width = map(float, required.size.split("x"))
    off = max(abs(titleblock.width - width), abs(titleblock.height - height))
    return off <= _SAME_SIZE


def _problem(inputs: Inputs, message: str, mend: str) -> Problem:
    return inputs.document.problem(("drafting", "title_block"), message, mend)
