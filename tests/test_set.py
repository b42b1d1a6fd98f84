"""Facts of the set drawn of the example: read back from its files, held against its design."""

from __future__ import annotations

import math
import re
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from ezdxf.bbox import extents
from ezdxf.document import Drawing
from ezdxf.entities.dimension import Dimension
from ezdxf.filemanagement import readfile
from pypdf import PageObject, PdfReader
from pypdf.generic import ContentStream
from shapely.geometry import LineString, box

from planset.drawing.geometry import Box
from planset.drawing.text import CAP_HEIGHT_EM, text_width
from planset.finding import Outcome
from planset.pipeline import Drawn, draw
from planset.units import parse_length
from tests.example_job import EXAMPLE
from tests.formats.dxf_checks import figure

POINTS = 72
SHEETS = [
    "G-001",
    "G-002",
    "C-101",
    "A-101",
    "S-101",
    "S-501",
    "S-601",
    "E-101",
    "E-601",
    "E-602",
    "E-701",
]
APPID = "PLANSET"


@pytest.fixture(scope="module")
def drawn(tmp_path_factory: pytest.TempPathFactory) -> Drawn:
    drawn = draw(EXAMPLE, tmp_path_factory.mktemp("set") / "out")
    assert drawn.written is not None
    return drawn


@pytest.fixture(scope="module")
def folder(drawn: Drawn) -> Path:
    assert drawn.written is not None
    return drawn.written.paths[0].parent


@pytest.fixture(scope="module")
def pdf(folder: Path) -> PdfReader:
    return PdfReader(folder / "planset.pdf")


@pytest.fixture(scope="module")
def dxf(folder: Path) -> Drawing:
    return readfile(folder / "planset.dxf")


def sheet(pdf: PdfReader, sheet_id: str) -> PageObject:
    return pdf.pages[pdf.page_labels.index(sheet_id)]


def words(page: PageObject) -> str:
    return " ".join(page.extract_text().split())


# --- PDF -----------------------------------------------------------------------------------


def test_the_pages_are_the_sheets_asked_for(pdf: PdfReader) -> None:
    assert [label for label in pdf.page_labels if "." not in label] == SHEETS
    for label, page in zip(pdf.page_labels, pdf.pages, strict=True):
        assert label in words(page)
        assert f"SHEET {pdf.page_labels.index(label) + 1} OF {len(pdf.pages)}" in words(page)


def test_what_a_reviewer_searches_for(drawn: Drawn, pdf: PdfReader) -> None:
    assert drawn.checked.design.module_count == 20
    assert "20 MODULES" in words(sheet(pdf, "G-001"))
    plan = words(sheet(pdf, "A-101"))
    assert "RIDGE SETBACK 18 in MIN. ON SLOPE" in plan  # IRC 2021 R324.6.2
    assert "FIRE ACCESS PATHWAY 36 in MIN. CLEAR" in plan  # IRC 2021 R324.6.1
    for module in (1, 20):
        assert f"M{module:02}" in plan


def test_no_page_is_marked_preliminary_where_nothing_is_open(drawn: Drawn, pdf: PdfReader) -> None:
    assert not {Outcome.OPEN, Outcome.FAIL} & {f.outcome for f in drawn.checked.findings}
    assert not any("PRELIMINARY" in words(page) for page in pdf.pages)


def test_one_face_and_it_is_embedded(pdf: PdfReader) -> None:
    faces = set()
    for page in pdf.pages:
        for font in page["/Resources"]["/Font"].values():  # type: ignore[index]
            descriptor = font["/FontDescriptor"]
            assert "/FontFile2" in descriptor
            faces.add(font["/BaseFont"].partition("+")[2])
    assert faces == {"Arimo-Regular"}


def test_bookmarks_are_the_sheets(pdf: PdfReader) -> None:
    outline = [entry for entry in pdf.outline if not isinstance(entry, list)]
    assert len(outline) == len(pdf.outline)
    assert [str(entry.title).split()[0] for entry in outline] == pdf.page_labels
    places = [pdf.get_destination_page_number(entry) for entry in outline]
    assert places == list(range(len(pdf.pages)))


def links(pdf: PdfReader, page: PageObject) -> Iterator[tuple[str, list[float]]]:
    """The sheet each link of a page leads to, and the link's rectangle in points."""
    for reference in page.get("/Annots", []):
        link = reference.get_object()
        place = pdf.get_page_number(link["/Dest"][0].get_object())
        assert place is not None
        yield pdf.page_labels[place], [float(side) for side in link["/Rect"]]


def test_the_index_links_to_every_sheet(pdf: PdfReader) -> None:
    cover = sheet(pdf, "G-001")
    found = list(links(pdf, cover))[: len(pdf.page_labels)]  # those on words of the notes follow
    assert [target for target, _ in found] == pdf.page_labels
    for target, (left, low, right, high) in found:
        inside = [
            line.words
            for line in text_lines(cover)
            if left <= line.x <= right and low <= line.y <= high
        ]
        assert target in inside


@dataclass(frozen=True)
class TextLine:
    """A line of text on a page: anchor in points, size in points, direction in radians."""

    words: str
    x: float
    y: float
    size: float
    angle: float

    @property
    def shape(self) -> LineString:
        """Its baseline."""
        length = text_width(self.words, self.size * CAP_HEIGHT_EM)
        end = (self.x + length * math.cos(self.angle), self.y + length * math.sin(self.angle))
        return LineString([(self.x, self.y), end])


def text_lines(page: PageObject) -> list[TextLine]:
    lines: list[TextLine] = []

    def visit(text: str, _: Any, matrix: list[float], __: Any, size: float) -> None:
        if text.strip():
            a, b, _c, _d, x, y = matrix
            lines.append(TextLine(text.strip(), x, y, size, math.atan2(b, a)))

    page.extract_text(visitor_text=visit)
    return lines


def strokes(pdf: PdfReader, page: PageObject) -> list[LineString]:
    """Every piece of every painted path in points, curves by their ends."""
    made: list[LineString] = []
    pending: list[LineString] = []
    start = at = (0.0, 0.0)
    for operands, raw in ContentStream(page.get_contents(), pdf).operations:
        operator = raw.decode()
        if operator == "m":
            start = at = (float(operands[0]), float(operands[1]))
        elif operator in ("l", "c"):
            to = (float(operands[-2]), float(operands[-1]))
            pending.append(LineString([at, to]))
            at = to
        elif operator == "re":
            x, y, width, height = map(float, operands)
            pending.append(LineString(box(x, y, x + width, y + height).exterior))
        elif operator == "h":
            pending.append(LineString([at, start]))
            at = start
        elif operator in ("S", "f", "f*", "B"):
            made += pending
            pending = []
        elif operator == "n":  # a clip, not painted
            pending = []
        elif operator == "cm":
            assert [float(n) for n in operands] == [1, 0, 0, 1, 0, 0]
    return made


def test_the_roof_is_drawn_to_the_scale_it_states(drawn: Drawn, pdf: PdfReader) -> None:
    plan = sheet(pdf, "A-101")
    stated = re.search(r"SCALE:? *(\d+)/(\d+)\" = 1'-0\"", words(plan))
    assert stated
    per_inch = int(stated[1]) / int(stated[2]) / 12 * POINTS
    eave = drawn.checked.design.inputs.job.roof.ridge_length * per_inch
    depth = drawn.checked.design.inputs.job.roof.depth * per_inch
    assert (eave / per_inch, depth / per_inch) == (528, 408)  # 44 ft by 34 ft, as the job says
    heights = {
        round(line.coords[0][1], 2)
        for line in strokes(pdf, plan)
        if line.coords[0][1] == pytest.approx(line.coords[1][1], abs=0.01)
        and line.length == pytest.approx(eave, rel=0.005)
    }
    assert any(  # eave, ridge and eave again
        all(any(h == pytest.approx(low + part, rel=0.005) for h in heights) for part in parts)
        for low in heights
        for parts in [(depth / 2, depth)]
    )


@pytest.mark.parametrize("area", ["seal_area", "approval_area"])
def test_nothing_is_drawn_where_others_sign(area: str, drawn: Drawn, pdf: PdfReader) -> None:
    assert drawn.checked.drawing is not None
    (titleblock,) = drawn.checked.drawing.titleblocks.values()
    reserved: Box = getattr(titleblock, area).grown(-0.02)
    assert reserved.width > 1
    assert reserved.height > 1
    low, high = reserved.corners[0], reserved.corners[2]
    free = box(low[0] * POINTS, low[1] * POINTS, high[0] * POINTS, high[1] * POINTS)
    for page in pdf.pages:
        shapes = strokes(pdf, page) + [line.shape for line in text_lines(page)]
        assert len(shapes) > 50
        assert [shape.wkt for shape in shapes if shape.intersects(free)] == []


# --- DXF -----------------------------------------------------------------------------------


def test_the_dxf_is_sound(dxf: Drawing) -> None:
    auditor = dxf.audit()
    assert (auditor.errors, auditor.fixes) == ([], [])


def test_a_layout_per_sheet(dxf: Drawing, pdf: PdfReader) -> None:
    for_review = pdf.page_labels
    layouts = list(dxf.layout_names_in_taborder())[1:]
    assert layouts[: len(for_review)] == for_review
    assert {name.partition(".")[0] for name in layouts[len(for_review) :]} == {"Z-101", "Z-601"}


DIMENSION_TEXT = re.compile(
    r"(?P<length>(?:\d+'-)?\d+(?: \d+/\d+)?\"|\d+/\d+\")(?P<slope> ON SLOPE)?(?: [A-Z ]+\.?)?"
)
PRINTED_TO = {
    "A-ANNO-DIMS": 1 / 2,
    "C-ANNO-DIMS": 1 / 2,
    "E-ANNO-DIMS": 1 / 2,
    "S-ANNO-DIMS": 1 / 16,
}
"""Inches to which the dimensions of plans and of a detail are printed."""


def test_dimensions_state_what_they_measure(drawn: Drawn, dxf: Drawing) -> None:
    slope = drawn.checked.design.roof.planes[0].slope_factor
    assert slope == pytest.approx(13 / 12)  # 5:12, a right triangle of 5, 12 and 13
    on_slope = []
    for dimension in dxf.modelspace().query("DIMENSION"):
        assert isinstance(dimension, Dimension)
        shown = figure(dimension)
        printed = DIMENSION_TEXT.fullmatch(shown)
        assert printed, shown
        measured = dimension.get_measurement() * (slope if printed["slope"] else 1)
        stated = parse_length(printed["length"], "in")
        assert abs(stated - measured) < PRINTED_TO[dimension.dxf.layer], shown
        if "CLEAR" in shown:
            assert stated <= measured + 1e-9, "a clearance is never rounded up"
        on_slope.append(bool(printed["slope"]))
    assert on_slope.count(True) >= 4
    assert on_slope.count(False) >= 6


def test_everything_stands_once_however_many_views_show_it(drawn: Drawn, dxf: Drawing) -> None:
    design = drawn.checked.design
    ids = [module.id for array in design.arrays for module in array.modules]
    ids += [attachment.id for rack in design.racking for attachment in rack.attachments]
    assert len(set(ids)) == design.module_count + design.attachment_count
    found = [
        insert.get_xdata(APPID)[1].value
        for block in dxf.blocks  # model space and the layouts are blocks too
        for insert in block.query("INSERT")
        if insert.has_xdata(APPID)
    ]
    assert sorted(name for name in found if name in set(ids)) == sorted(ids)
    assert len(found) == len(set(found))


def test_the_roof_is_drawn_at_true_size(dxf: Drawing) -> None:
    (roof,) = (block for block in dxf.blocks if block.name == "ROOF")
    size = extents(roof, fast=True).size
    assert (size.x, size.y) == pytest.approx((528, 408))  # 44 ft by 34 ft, as the job says


# --- other programs read it ----------------------------------------------------------------


def output_of(*command: str | Path) -> str:
    """Everything a program says; it must end well."""
    ended = subprocess.run(
        command, check=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    return ended.stdout


@pytest.mark.readers
def test_qpdf_finds_nothing_wrong(folder: Path) -> None:
    told = output_of("qpdf", "--check", folder / "planset.pdf")
    assert "No syntax or stream encoding errors found" in told
    assert "WARNING" not in told


@pytest.mark.readers
def test_poppler_finds_the_texts(folder: Path, pdf: PdfReader) -> None:
    text = output_of("pdftotext", "-layout", folder / "planset.pdf", "-")
    pages = text.split("\f")[:-1]
    for label, page in zip(pdf.page_labels, pages, strict=True):
        assert label in page
    flat = " ".join(text.split())
    for phrase in (
        "20 MODULES",
        "RIDGE SETBACK 18 in MIN.",
        "FIRE ACCESS PATHWAY",
        "FOR PLAN REVIEW",
    ):
        assert phrase in flat


@pytest.mark.readers
def test_poppler_finds_the_face_embedded(folder: Path) -> None:
    head, rule, *faces = output_of("pdffonts", folder / "planset.pdf").splitlines()
    column = head.index("emb")
    assert len(faces) == 1
    assert faces[0][column : column + 3] == "yes"
    assert set(rule) == {"-", " "}


@pytest.mark.readers
def test_gdal_reads_the_drawing(folder: Path) -> None:
    told = output_of("ogrinfo", "-al", "-so", folder / "planset.dxf")
    assert [line for line in told.splitlines() if line.startswith(("ERROR", "Warning"))] == []
    count = re.search(r"Feature Count: (\d+)", told)
    assert count
    assert int(count[1]) > 200
