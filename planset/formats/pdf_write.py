"""A set of sheets as one PDF file: vector, searchable, at true plotted scale.

Drawn from the same pages as the DXF file, never from it. Block by block everything is expanded,
since plan-review programs want flat files.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from io import BytesIO
from pathlib import Path

import fontpkg_arimo
from reportlab import rl_config
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from planset.drawing.geometry import Placement
from planset.drawing.page import DrawingSet, Page, View
from planset.drawing.primitives import Block
from planset.formats.pdf_plotter import FACE, POINTS, ROUND, Plotter

FACE_FILE = "Arimo[wght].ttf"


def write_pdf(drawing: DrawingSet, path: Path) -> None:
    """Write the set as a PDF file, a page per sheet; equal sets give equal bytes.

    A link to a sheet that is not in this set, but in another file, is left out.

    Args:
        drawing: The sheets and the blocks they use.
        path: The file, replaced when it exists.

    Raises:
        ValueError: The drawing face lacks a character.
        OSError: The file cannot be written.
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
    bookmarks = {page.sheet: page.bookmark for page in drawing.pages}
    for number, page in enumerate(drawing.pages):
        titleblock = drawing.titleblocks[page.titleblock]
        canvas.setPageSize((titleblock.width * POINTS, titleblock.height * POINTS))
        canvas.bookmarkPage(page.sheet)
        canvas.addOutlineEntry(page.bookmark, page.sheet)
        canvas.addPageLabel(number, prefix=page.sheet)
        _draw_page(canvas, page, drawing.blocks, bookmarks)
        canvas.showPage()
    canvas.showOutline()
    with _binary_streams():
        canvas.save()
    path.write_bytes(content.getvalue())


def _draw_page(
    canvas: Canvas, page: Page, blocks: Mapping[str, Block], bookmarks: Mapping[str, str]
) -> None:
    canvas.setLineJoin(ROUND)
    for view in page.views:
        _draw_view(canvas, view, blocks, bookmarks)
    Plotter(canvas, blocks, bookmarks).draw(page.paper, Placement(scale=POINTS))


def _draw_view(
    canvas: Canvas, view: View, blocks: Mapping[str, Block], bookmarks: Mapping[str, str]
) -> None:
    """Model and annotation, clipped to the frame as a viewport clips them."""
    on_sheet = Placement(scale=POINTS)
    frame = view.frame
    canvas.saveState()
    window = canvas.beginPath()
    window.rect(frame.x0 * POINTS, frame.y0 * POINTS, frame.width * POINTS, frame.height * POINTS)
    canvas.clipPath(window, stroke=0, fill=0)
    plotter = Plotter(canvas, blocks, bookmarks)
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
