"""The example's PDF in a reviewer's hands: it measures, and every link leads where it says."""

from __future__ import annotations

import math
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from measuring import measured
from pdf_checks import MM, Mark, marks
from pypdf import PageObject, PdfReader

from planset.drawing.layers import LAYERS
from planset.drawing.primitives import Link
from planset.formats.pdf_write import pdf_bytes
from tests.example_job import with_every_sheet
from tests.sheets.drawn_sets import example, made_of

WIDE = LAYERS["A-ROOF-OTLN"].pen_mm * MM
EQUIPMENT = LAYERS["E-POWR-EQPM"].pen_mm * MM
RIDGE_IN = 44 * 12  # of the job, in plan
DEPTH_IN = 17 * 12  # of one plane: half of the job's 34 ft, in plan
RAFTER_IN = (1.5, 5.5)  # a dressed 2x6: NDS 2018 Supplement, table 1A


@cache
def reader() -> PdfReader:
    """The file for plan review; what the crew takes along is a file of its own."""
    return PdfReader(BytesIO(pdf_bytes(example().drawing.for_review)))


def sheet(name: str) -> PageObject:
    return reader().pages[reader().page_labels.index(name)]


def wide_marks(page: PageObject, view: int) -> list[Mark]:
    """What a page draws with the widest pen inside of one of its measured views."""
    viewports: Any = page["/VP"]
    corner = [float(edge) for edge in viewports[view]["/BBox"][:2]]
    return [
        mark
        for mark in marks(page, reader())
        if mark.pen["clip"] is not None
        and list(mark.pen["clip"][0]) == pytest.approx(corner, abs=0.01)
        and mark.pen["w"] == pytest.approx(WIDE, abs=0.01)
    ]


def read_in(page: PageObject, start: Any, end: Any) -> float:
    reading = measured(page, start, end)
    assert reading is not None
    return reading.inches


@pytest.mark.parametrize("name", ["A-101", "S-101", "S-601"])
def test_a_viewer_reads_the_edges_of_the_roof(name: str) -> None:
    page = sheet(name)
    lines = [mark.points for mark in wide_marks(page, 0) if len(mark.points) == 2]
    level = [line for line in lines if abs(line[0][1] - line[1][1]) < 0.01]
    ridge = max(level, key=lambda line: math.dist(*line))
    assert read_in(page, *ridge) == pytest.approx(RIDGE_IN, rel=0.005)
    upright = [line for line in lines if abs(line[0][0] - line[1][0]) < 0.01]
    rake = max(upright, key=lambda line: math.dist(*line))
    assert read_in(page, *rake) == pytest.approx(DEPTH_IN, rel=0.005)


def test_a_viewer_reads_a_rafter_on_the_details() -> None:
    page = sheet("S-501")
    sections = [mark.points for mark in wide_marks(page, 1) if mark.closed]
    read = [
        sorted((read_in(page, p[0], p[1]), read_in(page, p[1], p[2]))) for p in sections if p[2:]
    ]
    assert any(sides == pytest.approx(RAFTER_IN, rel=0.005) for sides in read)


def test_a_viewer_reads_equipment_on_its_wall(tmp_path: Path) -> None:
    """Widths and heights in the elevation, widths and depths in the plan below, as the job says."""
    made = made_of(with_every_sheet(tmp_path))
    pdf = PdfReader(BytesIO(pdf_bytes(made.drawing)))
    (wall,) = made.design.inputs.job.electrical.walls
    views = [
        page
        for page in made.pages("E-101")
        if page.views and page.views[0].title == wall.name.upper()
    ]
    (drawn,) = views
    page = pdf.pages[pdf.page_labels.index(drawn.sheet)]
    known = (
        [(i.width, i.height) for i in wall.equipment],
        [(i.width, i.depth) for i in wall.equipment],
    )
    for viewport, sizes in zip(page["/VP"], known, strict=True):
        x0, y0, x1, y1 = map(float, viewport["/BBox"])
        read = [
            (
                read_in(page, mark.points[0], mark.points[1]),
                read_in(page, mark.points[1], mark.points[2]),
            )
            for mark in marks(page, pdf)
            if mark.closed
            and len(mark.points) == 4
            and mark.pen["w"] == pytest.approx(EQUIPMENT, abs=0.01)
            and all(x0 <= x <= x1 and y0 <= y <= y1 for x, y in mark.points)
        ]
        assert len(read) == len(sizes)
        for one, size in zip(sorted(read), sorted(sizes), strict=True):
            assert one == pytest.approx(size, rel=0.005)


def links(name: str) -> dict[str, tuple[str, list[Any]]]:
    """Per words of a link of a sheet the label of the page it leads to, and how that is shown."""
    found = {}
    for annotation in sheet(name).get("/Annots", ()):
        link = annotation.get_object()
        assert link["/Subtype"] == "/Link"
        target, *shown = link["/Dest"]
        number = reader().get_page_number(target.get_object())
        assert number is not None
        found[str(link["/Contents"])] = (reader().page_labels[number], shown)
    return found


def test_the_index_leads_to_every_sheet_and_each_leads_back() -> None:
    assert {page for page, _ in links("G-001").values()} == set(reader().page_labels)
    for label in reader().page_labels[1:]:
        assert links(label)["G-001 COVER SHEET"][0] == "G-001"


def test_a_callout_leads_to_its_view_and_back() -> None:
    (there,) = (found for words, found in links("A-101").items() if words.startswith("1/S-501"))
    assert there[0] == "S-501"
    view = example().page("S-501").views[0].frame
    fit, *shown = there[1]
    assert fit == "/FitR"
    left, bottom, right, top = map(float, shown)
    assert left <= view.x0 * 72 < view.x1 * 72 <= right
    assert bottom <= view.y0 * 72 < view.y1 * 72 <= top
    assert links("S-501")["1/A-101 ROOF PLAN"][0] == "A-101"


def test_words_that_name_a_sheet_lead_to_it() -> None:
    assert links("G-001")["S-601 LOAD TABLES"][0] == "S-601"


def test_every_link_of_the_pages_is_in_the_file() -> None:
    """The writer leaves out what leads nowhere, so none may be lacking."""
    for page in example().drawing.for_review.pages:
        made = [part for part in page.paper if isinstance(part, Link)]
        assert len(sheet(page.sheet).get("/Annots", ())) == len(made)


def test_a_flat_file_has_no_annotation_and_draws_the_same() -> None:
    flat = PdfReader(BytesIO(pdf_bytes(example().drawing.for_review, links=False)))
    assert all("/Annots" not in page for page in flat.pages)
    for ours, other in zip(reader().pages, flat.pages, strict=True):
        assert ours.get_contents().get_data() == other.get_contents().get_data()  # type: ignore[union-attr]
    assert flat.page_labels == reader().page_labels
    assert len(flat.outline) == len(reader().outline)
