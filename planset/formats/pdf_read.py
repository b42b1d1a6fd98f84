"""PDF files of others: read, stripped of all but their pages, or refused by name.

What stays is what a print would show. Filled forms and stamps become part of their page; scripts,
links, notes, attached files and metadata go.
"""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import NoReturn

import pikepdf
from pikepdf import Array, Dictionary, Name, Object, Page, Pdf, Stream
from pikepdf.settings import set_qpdf_limits

from planset.drawing.geometry import Point
from planset.formats.refused import RefusedError

LARGEST_FILE = 32 * 2**20
MOST_PAGES = 100
_LARGEST_UNPACKED = 64 * 2**20  # of one stream that has to be unpacked to read the file [bytes]
_POINTS = 72.0
_SMALLEST, _LARGEST = 1.0, 200.0  # sides of a page [in]; PDF 32000-1 annex C.2 allows up to 200

_OF_A_PAGE = ("/Type", "/MediaBox", "/CropBox", "/Rotate", "/UserUnit", "/Resources", "/Contents",
              "/Group")  # fmt: skip
_NOT_SHOWN = ("/AA", "/AF", "/Alternates", "/EF", "/JS", "/LastModified", "/Metadata",
              "/OC", "/OPI", "/Parent", "/PieceInfo", "/Ref", "/StructParent",
              "/StructParents")  # fmt: skip

_PRINT = "open it in a viewer and print it to a new PDF file"


@dataclass(frozen=True, slots=True)
class PdfPages:
    """The pages of a PDF file.

    Attributes:
        content: A PDF file that holds them and nothing else; equal files give equal bytes.
        sizes: Width and height of each as seen [in].
    """

    content: bytes
    sizes: tuple[Point, ...]


def read_pdf_pages(path: Path) -> PdfPages:
    """Take the pages of a PDF file.

    Raises:
        RefusedError: It is not a sound PDF file, is locked, or its pages show otherwise once
            they are taken out of it.
    """
    raw = _read(path)
    set_qpdf_limits(flate_max_memory=_LARGEST_UNPACKED)
    try:
        with pikepdf.open(BytesIO(raw), attempt_recovery=False) as pdf:
            return _pages(pdf)
    except pikepdf.PasswordError:
        _refuse_locked()
    except (pikepdf.PdfError, ValueError, TypeError, LookupError, RuntimeError) as error:
        _refuse(f"the PDF file is damaged ({_said(error)})", _PRINT)


def _said(error: object) -> str:
    """What the library found, without the name it gives the file."""
    return " ".join(str(error).rpartition(": ")[2].split())[:80]


def _refuse(message: str, mend: str) -> NoReturn:
    raise RefusedError(message, mend)


def _refuse_locked() -> NoReturn:
    _refuse("the PDF file is locked", "ask its publisher for one without password or restrictions")


def _read(path: Path) -> bytes:
    try:
        with path.open("rb") as stream:
            raw = stream.read(LARGEST_FILE + 1)
    except OSError as error:
        _refuse(f"the file cannot be read ({error.strerror})", "check its name and permissions")
    if len(raw) > LARGEST_FILE:
        _refuse(f"larger than {LARGEST_FILE >> 20} MB", "keep only the pages that are asked for")
    if b"%PDF-" not in raw[:1024]:
        _refuse("not a PDF file", "save or print the document as PDF")
    return raw


def _pages(pdf: Pdf) -> PdfPages:
    if pdf.is_encrypted:
        _refuse_locked()
    _refuse_what_shows_otherwise(pdf.Root)
    count = len(pdf.pages)
    if not 0 < count <= MOST_PAGES:
        _refuse(f"{count:,} pages, where 1 to {MOST_PAGES} are taken", "keep those asked for")
    if "/AcroForm" in pdf.Root:
        pdf.generate_appearance_streams()
    pdf.flatten_annotations("print")
    taken = Pdf.new()
    seen: set[tuple[int, int]] = set()
    for number, page in enumerate(pdf.pages, 1):
        _unpack(page)
        for key in set(page.obj.keys()) - set(_OF_A_PAGE):
            del page.obj[key]
        _strip(page.obj, number, seen)
        taken.pages.append(page)
    if warnings := pdf.get_warnings():
        _refuse(f"the PDF file is damaged ({_said(warnings[0])})", _PRINT)
    sizes = tuple(_size(page, number) for number, page in enumerate(taken.pages, 1))
    content = BytesIO()
    taken.save(content, deterministic_id=True)
    return PdfPages(content.getvalue(), sizes)


def _refuse_what_shows_otherwise(root: Object) -> None:
    if "/Collection" in root:
        _refuse("a portfolio of several files", "save the file that is meant as a PDF of its own")
    if "/XFA" in root.get("/AcroForm", Dictionary()):
        _refuse("a form that only its own program can show (XFA)", _PRINT)
    layers = root.get("/OCProperties", Dictionary())
    usual = layers.get("/D", Dictionary())
    off = len(usual.get("/OFF", Array())) or usual.get("/BaseState", Name.ON) != Name.ON
    if off or any(_is_off_somewhere(group) for group in layers.get("/OCGs", Array())):
        _refuse("it has layers that are switched off", _PRINT)


def _is_off_somewhere(group: Object) -> bool:
    """Whether a layer hides itself on screen or in print."""
    usage = group.get("/Usage", Dictionary())
    states = (("/View", "/ViewState"), ("/Print", "/PrintState"))
    return any(usage.get(use, Dictionary()).get(state) == Name.OFF for use, state in states)


def _unpack(page: Page) -> None:
    """Read what a page draws, so that what is damaged is found."""
    content = page.obj.get("/Contents", Array())
    for stream in content if isinstance(content, Array) else [content]:
        stream.read_bytes()


def _strip(page: Object, number: int, seen: set[tuple[int, int]]) -> None:
    """Remove what does not show from all that a page draws on.

    Args:
        page: The page.
        number: Its number, for messages.
        seen: Objects that have been stripped, by their numbers; it grows.

    Raises:
        RefusedError: A part of it stands in another file.
    """
    waiting: list[Object] = [page]
    while waiting:
        part = waiting.pop()
        if part.is_indirect:
            if part.objgen in seen:
                continue
            seen.add(part.objgen)
        if isinstance(part, Array):
            waiting += [item for item in part if isinstance(item, Array | Dictionary | Stream)]
            continue
        if isinstance(part, Stream) and "/F" in part:
            _refuse(f"page {number} draws on another file", _PRINT)
        for key in list(part.keys()):
            if key in _NOT_SHOWN:
                del part[key]
            elif isinstance(part[key], Array | Dictionary | Stream):
                waiting.append(part[key])


def _size(page: Page, number: int) -> Point:
    """Width and height of a page as seen [in].

    Raises:
        RefusedError: No page is as small or as large.
    """
    x0, y0, x1, y1 = (float(edge) for edge in page.cropbox)
    unit = float(page.obj.get("/UserUnit", 1)) / _POINTS
    width, height = abs(x1 - x0) * unit, abs(y1 - y0) * unit
    if not (_SMALLEST <= width <= _LARGEST and _SMALLEST <= height <= _LARGEST):
        _refuse(f"page {number} is {width:.4g} x {height:.4g} in", _PRINT)
    turned = int(page.obj.get("/Rotate", 0)) % 180 == 90
    return (height, width) if turned else (width, height)
