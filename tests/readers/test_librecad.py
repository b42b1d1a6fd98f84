"""LibreCAD, which knows one dimension scale and no layouts, plots a sheet's own file as the page.

It is asked for nothing but to plot: paper, scale and place come from the file.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from pathlib import Path

import numpy as np
import pytest
from pypdf import PdfReader

from planset.design.design import Design
from planset.drawing.dimension import TEXT_GAP, dimension, leader
from planset.drawing.flatten import Stroke, strokes
from planset.drawing.geometry import Box, Placement, Point, box_around, distance, toward
from planset.drawing.page import DrawingSet, Page
from planset.drawing.primitives import Area, Insert, Line, Primitive, Text
from planset.drawing.text import text_box
from planset.formats.dxf_sheet import write_sheet_dxf
from planset.formats.pdf_write import write_pdf
from tests.readers.ink import DPI, Ink, far_share, grown
from tests.readers.programs import librecad_pdf, pdf_ink
from tests.readers.samples import FACTOR, sheet, sheet_dxf, sheet_pdf
from tests.readers.variants import changed, textless, unbroken, unfilled, wordless

pytestmark = pytest.mark.readers

NEAR = 3  # pixels at 150 dpi: 1/50 in
MOST_FAR = 0.01
POINTS = 72


def plotted(drawing: DrawingSet, folder: Path) -> dict[str, Ink]:
    """Every sheet of a set, from its own file, as LibreCAD plots it."""
    for page in drawing.pages:
        write_sheet_dxf(drawing, page, folder / f"{page.sheet}.dxf")
    return {
        page.sheet: pdf_ink(librecad_pdf(folder / f"{page.sheet}.dxf", folder))
        for page in drawing.pages
    }


def our_ink(drawing: DrawingSet, folder: Path) -> dict[str, Ink]:
    path = folder / "ours.pdf"
    write_pdf(drawing, path)
    return {page.sheet: pdf_ink(path, n) for n, page in enumerate(drawing.pages, 1)}


@pytest.fixture(scope="module")
def lines_only(drawing: DrawingSet) -> DrawingSet:
    return changed(changed(drawing, unbroken), wordless)


@pytest.fixture(scope="module")
def lines(lines_only: DrawingSet, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Ink]:
    return plotted(lines_only, tmp_path_factory.mktemp("lines"))


# --- the sheets of the example -------------------------------------------------------------


def test_each_sheet_is_one_page_of_its_size(
    drawing: DrawingSet, folder: Path, tmp_path: Path
) -> None:
    for page in drawing.pages:
        titleblock = drawing.titleblocks[page.titleblock]
        pdf = PdfReader(librecad_pdf(folder / f"{page.sheet}.dxf", tmp_path))
        assert len(pdf.pages) == 1
        size = (titleblock.width * POINTS, titleblock.height * POINTS)
        assert (pdf.pages[0].mediabox.width, pdf.pages[0].mediabox.height) == pytest.approx(
            size, abs=1
        )


def test_lines_and_areas_are_where_we_draw_them(
    lines_only: DrawingSet, lines: dict[str, Ink], tmp_path: Path
) -> None:
    ours = our_ink(lines_only, tmp_path)
    far = {
        name: max(far_share(ours[name], ink, NEAR), far_share(ink, ours[name], NEAR))
        for name, ink in lines.items()
    }
    print({name: f"{share:.3%}" for name, share in far.items()})  # noqa: T201 - read with -s
    assert {name: share for name, share in far.items() if share > MOST_FAR} == {}


def test_every_module_is_outlined(
    design: Design, lines_only: DrawingSet, lines: dict[str, Ink]
) -> None:
    (page,) = (page for page in lines_only.pages if page.sheet == "A-101")
    ink = grown(lines["A-101"], NEAR)
    modules = [s for s in view_strokes(lines_only, page) if s.layer.name == "E-SOLR-PANL"]
    assert len(modules) == design.module_count
    for outline in modules:
        assert all(ink[pixel(ink, point)] for point in along(outline.points))


def view_strokes(drawing: DrawingSet, page: Page) -> Iterator[Stroke]:
    for view in page.views:
        yield from strokes(view.model, view.on_paper, drawing.blocks)


def along(points: tuple[Point, ...]) -> Iterator[Point]:
    """Points of a course on paper, 0.02 in apart."""
    for start, end in zip(points, points[1:], strict=False):
        length = distance(start, end)
        yield from (toward(start, end, step) for step in np.arange(0, length, 0.02))


def pixel(ink: Ink, point: Point) -> tuple[int, int]:
    """Row and column of a point on paper."""
    return (ink.shape[0] - 1 - int(point[1] * DPI), int(point[0] * DPI))


def test_the_roof_measures_right(
    design: Design, lines_only: DrawingSet, lines: dict[str, Ink]
) -> None:
    (page,) = (page for page in lines_only.pages if page.sheet == "A-101")
    (view,) = page.views
    roof = design.inputs.job.roof
    inside = cut(lines["A-101"], view.frame)
    eaves = [length * view.scale.factor for length in runs(inside)]
    rakes = [length * view.scale.factor for length in runs(inside.T)]
    assert any(length == pytest.approx(roof.ridge_length, rel=0.005) for length in eaves)
    assert any(length == pytest.approx(roof.depth, rel=0.005) for length in rakes)


def cut(ink: Ink, box: Box) -> Ink:
    """The part of a page within a box on paper."""
    (low, left), (high, right) = pixel(ink, (box.x0, box.y0)), pixel(ink, (box.x1, box.y1))
    return ink[max(high, 0) : low + 1, left : right + 1]


def runs(ink: Ink) -> list[float]:
    """The longest unbroken stretch of ink in each row [paper in]."""
    longest = []
    for row in ink:
        edges = np.flatnonzero(np.diff(np.concatenate(([False], row, [False])).astype(int)))
        longest.append(float(max(edges[1::2] - edges[::2], default=0)) / DPI)
    return longest


def test_every_text_shows_at_its_place(drawing: DrawingSet, tmp_path: Path) -> None:
    """LibreCAD draws with strokes of its own, so a text is the ink that goes when it goes."""
    drawing = changed(drawing, unfilled)
    (tmp_path / "with").mkdir()
    (tmp_path / "without").mkdir()
    with_texts = plotted(drawing, tmp_path / "with")
    without = plotted(changed(drawing, textless), tmp_path / "without")
    for page in drawing.pages:
        words = with_texts[page.sheet] & ~without[page.sheet]
        boxes = dict(text_boxes(drawing, page))
        missing = [text for text, box in boxes.items() if not shows(text, cut(words, box))]
        assert len(boxes) > 20
        assert missing == []


def shows(text: Text, ink: Ink) -> bool:
    """Whether ink reaches over half the longer way through the box of a text; at all, if short."""
    places = np.flatnonzero(ink.any(axis=0 if ink.shape[1] >= ink.shape[0] else 1))
    least = max(ink.shape) / 2 if len(text.text) > 2 else 1
    return len(places) > 0 and int(np.ptp(places)) + 1 >= least


def text_boxes(drawing: DrawingSet, page: Page) -> Iterator[tuple[Text, Box]]:
    """Every text of a sheet, as written, and its box on paper."""
    yield from _boxes(drawing, page.paper, Placement())
    for view in page.views:
        yield from _boxes(drawing, view.model, view.on_paper)
        yield from _boxes(drawing, view.annotation, Placement())


def _boxes(
    drawing: DrawingSet, primitives: tuple[Primitive, ...], place: Placement
) -> Iterator[tuple[Text, Box]]:
    for part in primitives:
        match part:
            case Text():
                if part.text.strip():
                    at = Placement(part.at, part.rotation_deg).within(place)
                    box = text_box(part.text, (0, 0), part.height, part.align)
                    yield replace(part, at=at.at), box_around(map(at.apply, box.corners))
            case Insert():
                inner = Placement(part.at, part.rotation_deg, part.scale).within(place)
                yield from _boxes(drawing, drawing.blocks[part.block].primitives, inner)
                written = tuple(a.text for a in part.attributes if a.text)
                yield from _boxes(drawing, written, place)


# --- single things -------------------------------------------------------------------------


def both(drawing: DrawingSet, folder: Path) -> tuple[Ink, Ink]:
    """A small sheet as LibreCAD plots it, and as we do."""
    theirs = pdf_ink(librecad_pdf(sheet_dxf(drawing, folder), folder))
    return theirs, pdf_ink(sheet_pdf(drawing, folder))


def ink_box(ink: Ink) -> Box:
    """The box around all ink, from the upper left corner of the page [in]."""
    rows, columns = np.flatnonzero(ink.any(axis=1)), np.flatnonzero(ink.any(axis=0))
    return Box(*(float(v) / DPI for v in (columns[0], rows[0], columns[-1] + 1, rows[-1] + 1)))


measured = partial(dimension, layer="A-ANNO-DIMS", model_per_paper=FACTOR)


def test_a_dimension_is_drawn_anew_as_ours(tmp_path: Path) -> None:
    theirs, ours = both(sheet(measured((2, 2), (8, 2), -0.5)), tmp_path)
    assert far_share(theirs, ours, 6) < 0.02  # its figures have other shapes
    assert far_share(ours, theirs, 6) < 0.02


def test_a_figure_wider_than_its_line_moves_along_it(tmp_path: Path) -> None:
    """A loss: such a figure stands past the place we gave it, by half of itself and more."""
    drawn = measured((2, 2), (2.2, 2), -0.5, suffix="CLEAR")
    theirs, ours = map(ink_box, both(sheet(drawn), tmp_path))
    figure = text_box(drawn.text, (0, 0), drawn.text_height)
    moved = (figure.width + 0.2) / 2 + TEXT_GAP
    assert theirs.x1 - ours.x1 == pytest.approx(moved, abs=0.1)


@pytest.mark.parametrize(
    "drawn",
    [
        leader(((2, 2), (4, 4)), "A-ANNO-NOTE", end="arrow"),  # SOLID
        leader(((2, 2), (4, 4)), "A-ANNO-NOTE", end="dot"),  # HATCH, and a POINT that may go
        Area(((2, 2), (3, 2), (3, 3), (2, 3)), "A-ANNO-NOTE"),
    ],
    ids=["arrow", "dot", "area"],
)
def test_what_is_filled_is_filled(drawn: Primitive, tmp_path: Path) -> None:
    theirs, ours = both(sheet(drawn), tmp_path)
    assert far_share(theirs, ours, 1) == 0
    assert far_share(ours, theirs, 1) == 0


def test_nested_insertions_all_show_but_not_their_values(tmp_path: Path) -> None:
    theirs, ours = both(sheet(model=(Insert("PANELS", (100, 100), "E-SOLR-PANL"),)), tmp_path)
    assert far_share(theirs, ours, 1) == 0
    assert far_share(ours, theirs, 1) == 0


@pytest.mark.parametrize("layer", ["A-WALL-BELO", "F-ROOF-ACCS"])  # HIDDEN, DASHED
def test_dashes_are_its_own_and_about_as_long(layer: str, tmp_path: Path) -> None:
    theirs, ours = both(sheet(Line((2, 2), (14, 2), layer)), tmp_path)
    gaps = [np.diff(ink.any(axis=0).astype(int)).clip(0).sum() for ink in (theirs, ours)]
    assert gaps[1] / 2.5 < gaps[0] < gaps[1] * 2.5
