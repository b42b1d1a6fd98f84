"""A set of sheets as one PDF file: vector, searchable, at true plotted scale.

Drawn from the same pages as the DXF file, never from it. Block by block everything is expanded,
since plan-review programs want flat files.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from io import BytesIO
from pathlib import Path
from types import MappingProxyType

import fontpkg_arimo
from reportlab import rl_config
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from planset.drawing.extent import BlockBoxes
from planset.drawing.geometry import Box, Placement, Point
from planset.drawing.page import DataSheet, DrawingSet, Page, View
from planset.drawing.primitives import Block
from planset.formats.pdf_measure import viewports
from planset.formats.pdf_numbers import numbers_written_straight
from planset.formats.pdf_plotter import (
    FACE,
    POINTS,
    ROUND,
    Plotter,
    Targets,
    destination,
)

FACE_FILE = "Arimo[wght].ttf"
NOTHING: Mapping[str, bytes] = MappingProxyType({})
WIDER_THAN_PENS = 0.1  # around a view, where the middle of a line lies that still shows [in]
AROUND_VIEW = 0.75  # of the sheet, shown where a link leads to a view: its title, too [in]


def write_pdf(drawing: DrawingSet, path: Path) -> None:
    """Write the set as a PDF file.

    Args:
        drawing: The sheets and the blocks they use.
        path: The file, replaced when it exists.

    Raises:
        ValueError: The drawing face lacks a character.
        OSError: The file cannot be written.
    """
    path.write_bytes(pdf_bytes(drawing))


def pdf_bytes(
    drawing: DrawingSet, *, links: bool = True, attachments: Mapping[str, bytes] = NOTHING
) -> bytes:
    """The set as a PDF file, a page per sheet, then its data sheets; equal sets give equal bytes.

    A link to a sheet that is not in this set, but in another file, is left out.

    Args:
        drawing: The sheets and the blocks they use.
        links: Whether it has links; without them it has no annotation of any kind.
        attachments: Files to attach by their names.

    Raises:
        ValueError: The drawing face lacks a character.
    """
    _register_face()
    content = BytesIO()  # a file it opens itself stays open when the disk is full
    canvas = Canvas(
        content,
        pageCompression=1,
        invariant=1,
        initialFontName=FACE,
        pdfVersion=(1, 7),
        lang="en-US",
    )
    canvas.setTitle(drawing.title)
    canvas.setAuthor(drawing.author)
    canvas.setSubject(drawing.subject)
    canvas.setCreator("planset")
    canvas.setViewerPreference("PrintScaling", "None")
    targets = _targets(drawing) if links else {}
    boxes = BlockBoxes(drawing.blocks)
    with numbers_written_straight():
        for page in drawing.pages:
            titleblock = drawing.titleblocks[page.titleblock]
            _begin_page(canvas, (titleblock.width, titleblock.height), page.sheet, page.bookmark)
            _draw_page(canvas, page, drawing.blocks, boxes, targets)
            for view in page.views:
                _mark_view(canvas, view, destination(page.sheet, view.number))
            canvas.showPage()
            _let_measure(canvas, page.views)
    _leave_room(canvas, drawing.data_sheets)
    canvas.showOutline()
    with _binary_streams():
        canvas.save()
    if not (drawing.data_sheets or attachments):
        return content.getvalue()
    from planset.formats.pdf_finish import finished  # noqa: PLC0415 - slow, and seldom needed

    return finished(content.getvalue(), len(drawing.pages), drawing.data_sheets, attachments)


def _leave_room(canvas: Canvas, data_sheets: Iterable[DataSheet]) -> None:
    """Blank pages in place of the data sheets, which make bookmarks, labels and links whole."""
    for sheet in data_sheets:
        for label, size in zip(sheet.page_ids, sheet.sizes, strict=True):
            _begin_page(canvas, size, label, sheet.bookmark if label == sheet.id else "")
            canvas.showPage()


def _targets(drawing: DrawingSet) -> Targets:
    """Every sheet and view of the set, by the words that a link shows when pointed at."""
    targets: dict[tuple[str, int], str] = {}
    for page in drawing.pages:
        targets[page.sheet, 0] = page.bookmark
        for view in page.views:
            targets[page.sheet, view.number] = f"{view.number}/{page.sheet} {view.title}"
    for sheet in drawing.data_sheets:
        targets[sheet.id, 0] = sheet.bookmark
    return targets


def _begin_page(canvas: Canvas, size: Point, label: str, bookmark: str) -> None:
    """Size [in], page label and bookmark, if it has one, of the next page."""
    canvas.setPageSize((size[0] * POINTS, size[1] * POINTS))
    canvas.bookmarkPage(label)
    if bookmark:
        canvas.addOutlineEntry(bookmark, label)
    canvas.addPageLabel(canvas.getPageNumber() - 1, prefix=label)


def _mark_view(canvas: Canvas, view: View, key: str) -> None:
    """Make a view, with the title under it, a place that links lead to."""
    shown = view.frame.grown(AROUND_VIEW)
    left, bottom, right, top = (edge * POINTS for edge in (shown.x0, shown.y0, shown.x1, shown.y1))
    canvas.bookmarkPage(key, fit="FitR", left=left, bottom=bottom, right=right, top=top)


def _let_measure(canvas: Canvas, views: Sequence[View]) -> None:
    """Add the viewports of the page just shown, a key that reportlab does not know."""
    measured = viewports(views)
    if measured is not None:
        shown = canvas._doc.Pages.pages[-1]
        shown.__NoDefault__ = [*shown.__NoDefault__, "VP"]
        shown.VP = measured


def _draw_page(
    canvas: Canvas, page: Page, blocks: Mapping[str, Block], boxes: BlockBoxes, targets: Targets
) -> None:
    canvas.setLineJoin(ROUND)
    for view in page.views:
        _draw_view(canvas, view, blocks, boxes, targets)
    Plotter(canvas, blocks, targets).draw(page.paper, Placement(scale=POINTS))


def _draw_view(
    canvas: Canvas, view: View, blocks: Mapping[str, Block], boxes: BlockBoxes, targets: Targets
) -> None:
    """Model and annotation, clipped to the frame as a viewport clips them."""
    on_sheet = Placement(scale=POINTS)
    frame = view.frame
    canvas.saveState()
    window = canvas.beginPath()
    window.rect(frame.x0 * POINTS, frame.y0 * POINTS, frame.width * POINTS, frame.height * POINTS)
    canvas.clipPath(window, stroke=0, fill=0)
    clip = Box(*(edge * POINTS for edge in frame.grown(WIDER_THAN_PENS)))
    plotter = Plotter(canvas, blocks, targets, (clip, boxes))
    plotter.draw(view.model, view.on_paper.within(on_sheet))
    plotter.draw(view.annotation, on_sheet)
    canvas.restoreState()


def _register_face() -> None:
    if FACE not in pdfmetrics.getRegisteredFontNames():
        pdfmetrics.registerFont(TTFont(FACE, str(fontpkg_arimo.ROOT / "files" / FACE_FILE)))


@contextmanager
def _binary_streams() -> Iterator[None]:
    """While inside, reportlab writes compressed streams as they are, not spelled out in letters."""
    before = rl_config.useA85
    rl_config.useA85 = 0
    try:
        yield
    finally:
        rl_config.useA85 = before
