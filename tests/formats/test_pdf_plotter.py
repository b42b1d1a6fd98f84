"""Shapes, pens and text of the PDF file are those of the pages, to scale."""

from __future__ import annotations

import dataclasses
import math
from pathlib import Path

import pytest
from pages import DRAWING, NOTES_PAGE, PLAN_VIEW
from pdf_checks import MM, Mark, marks, texts, written
from pypdf import PdfReader
from pypdf.generic import ContentStream
from reportlab.pdfbase import pdfmetrics

from planset.drawing.geometry import Box, Point
from planset.drawing.layers import GRAY, LAYERS, LINETYPES
from planset.drawing.primitives import Area, Block, Circle, Insert, Line, Polyline, Text
from planset.drawing.text import CAP_HEIGHT_EM, text_width
from planset.formats.pdf_write import write_pdf


def test_the_eave_is_as_long_as_the_scale_says(reader: PdfReader) -> None:
    roof = [m for m in marks(reader.pages[0], reader) if len(m.points) == 4 and m.width > 400]
    (outline,) = [m for m in roof if m.width < 1000]  # the other is the border
    assert outline.width == pytest.approx(360 / 64 * 72, abs=1e-3)  # 405 points
    assert outline.closed
    assert outline.points[0] == pytest.approx((144, 216), abs=1e-3)  # 2 in, 3 in


@pytest.mark.parametrize(
    ("at", "layer"),
    [
        ((144.0, 216.0), "A-ROOF-OTLN"),  # the roof
        ((189.0, 306.0), "E-SOLR-PANL"),  # the first module: layer 0 takes the insertion's
        ((36.0, 36.0), "G-ANNO-TTLB"),  # the border
        ((155.25, 227.25), "S-ROOF-FRAM"),  # a rafter, dashed and gray
        ((76.5, 137.25), "A-WALL-BELO"),  # 4/64 in right, 6/64 in below the frame
        ((774.0, 252.0), "S-DETL-OTLN"),  # the foot of the detail, layer 0 again
    ],
)
def test_pens_are_those_of_the_layers(reader: PdfReader, at: Point, layer: str) -> None:
    pen = LAYERS[layer]
    mark = next(
        m
        for m in marks(reader.pages[0], reader)
        if m.operator == "S" and m.points[0] == pytest.approx(at, abs=1e-3)
    )
    dashes = [length * 72 for length in LINETYPES[pen.linetype]]  # of paper, at any scale
    assert mark.pen["w"] == pytest.approx(pen.pen_mm * MM, abs=1e-5)
    assert mark.pen["G"] == pytest.approx(pen.gray)
    assert mark.pen["d"] == pytest.approx(dashes)
    assert mark.pen["J"] == (0 if dashes else 1)
    assert mark.pen["j"] == 1


def test_fills_are_as_gray_as_their_layer(reader: PdfReader) -> None:
    fills = [m for m in marks(reader.pages[0], reader) if m.operator == "f"]
    grays = {len(m.points): m.pen["g"] for m in fills}
    assert grays[5] == pytest.approx(GRAY)  # the hatched area
    assert grays[3] == 0  # the arrow


def test_what_is_not_plotted_is_not_there(tmp_path: Path) -> None:
    kept = Line((1, 5), (6, 5), "G-ANNO-SYMB")
    assert len(written(tmp_path, kept)) == 1
    assert written(tmp_path, dataclasses.replace(kept, layer="G-ANNO-NPLT")) == []


def test_a_circle_is_round(tmp_path: Path) -> None:
    (circle,) = written(tmp_path, Circle((4, 5), 1.5, "G-ANNO-SYMB"))
    on_circle = [circle.points[0], *circle.points[3::3]]
    for x, y in on_circle:
        assert math.dist((x, y), (288, 360)) == pytest.approx(108, abs=1e-3)
    assert middle_radius(circle, (288, 360)) == pytest.approx(108, rel=4e-4)


@pytest.mark.parametrize("bulge", [1.0, -1.0, 0.3, -2.5, math.tan(math.pi / 8)])
def test_an_arc_passes_through_its_middle(tmp_path: Path, bulge: float) -> None:
    # DXF reference: the bulge is the tangent of a quarter of the angle, so the arc stands off the
    # middle of its chord by bulge * chord / 2, to the right of the way when positive.
    arc = Polyline(((2, 3), (6, 3)), "G-ANNO-SYMB", bulges=(bulge, 0.0))
    (mark,) = written(tmp_path, arc)
    assert mark.points[-1] == pytest.approx((6 * 72, 3 * 72), abs=1e-3)
    far = min if bulge > 0 else max
    assert far(curve_heights(mark)) == pytest.approx((3 - bulge * 2) * 72, rel=1e-3)


def test_a_closed_polyline_may_end_in_an_arc(tmp_path: Path) -> None:
    shape = Polyline(((2, 3), (6, 3), (6, 5)), "G-ANNO-SYMB", closed=True, bulges=(0, 0, 0.5))
    (mark,) = written(tmp_path, shape)
    assert mark.closed
    assert mark.points[-1] == pytest.approx((144, 216), abs=1e-3)


def with_blocks(tmp_path: Path, *blocks: Block) -> PdfReader:
    """A page that inserts the last block, turned by 90 degrees and doubled, at 5, 5."""
    use = Insert(blocks[-1].name, (5, 5), "E-SOLR-RAIL", rotation_deg=90.0, scale=2.0)
    page = dataclasses.replace(NOTES_PAGE, paper=(use,))
    named = {block.name: block for block in blocks}
    file = tmp_path / "blocks.pdf"
    write_pdf(dataclasses.replace(DRAWING, pages=(page,), blocks=named), file)
    return PdfReader(file)


def test_blocks_are_turned_and_scaled_through_every_level(tmp_path: Path) -> None:
    inner = Block("INNER", (Line((1, 0), (1, 0.5), "0"), Circle((0, 0), 0.25, "0")))
    outer = Block("OUTER", (Insert("INNER", (0.5, 0), "0", rotation_deg=90.0),))
    reader = with_blocks(tmp_path, inner, outer)
    line, circle = marks(reader.pages[0], reader)
    # (1, 0) turned once is (0, 1), moved (0.5, 1), doubled and turned (-2, 1), moved (3, 6).
    assert line.points[0] == pytest.approx((3 * 72, 6 * 72), abs=1e-3)
    # (1, 0.5) likewise: (-0.5, 1), (0, 1), (-2, 0), (3, 5).
    assert line.points[1] == pytest.approx((3 * 72, 5 * 72), abs=1e-3)
    assert circle.points[0][0] - circle.points[6][0] == pytest.approx(2 * 0.5 * 72, abs=1e-3)


def test_layer_0_takes_the_pen_of_the_outermost_insertion(tmp_path: Path) -> None:
    inner = Block("INNER", (Line((0, 0), (1, 0), "0"), Line((0, 0), (1, 0), "A-ROOF-OTLN")))
    outer = Block("OUTER", (Insert("INNER", (0, 0), "0"),))
    reader = with_blocks(tmp_path, inner, outer)
    widths = [mark.pen["w"] / MM for mark in marks(reader.pages[0], reader)]
    expected = [LAYERS["E-SOLR-RAIL"].pen_mm, LAYERS["A-ROOF-OTLN"].pen_mm]
    assert widths == pytest.approx(expected, abs=1e-5)


def test_text_turns_with_its_block(tmp_path: Path) -> None:
    inner = Block("INNER", (Text("RAIL", (0.5, 0.25), 0.1, "0", rotation_deg=-60.0),))
    size, matrix = texts(with_blocks(tmp_path, inner).pages[0])["RAIL"]
    cos, sin = math.cos(math.radians(30)), math.sin(math.radians(30))
    assert matrix == pytest.approx([cos, sin, -sin, cos, 4.5 * 72, 6 * 72], abs=1e-3)
    assert size == pytest.approx(0.2 * 72 / CAP_HEIGHT_EM, abs=1e-3)


@pytest.mark.parametrize(
    ("at", "shown"), [((100, 100), 1), ((-3, 100), 1), ((-40, 100), 0), ((100, 400), 0)]
)
def test_a_block_outside_its_view_is_left_out(at: Point, shown: int, tmp_path: Path) -> None:
    """The frame of the view cuts it off anyway; half of a line's width may still show."""
    view = dataclasses.replace(
        PLAN_VIEW,
        window=Box(0, 0, 400, 300),
        model=(Insert("EDGE", at, "E-SOLR-RAIL"),),
        annotation=(),
    )
    page = dataclasses.replace(NOTES_PAGE, views=(view,), paper=())
    edge = Block("EDGE", (Line((0, 0), (0, 40), "0"),))
    file = tmp_path / "view.pdf"
    write_pdf(dataclasses.replace(DRAWING, pages=(page,), blocks={"EDGE": edge}), file)
    reader = PdfReader(file)
    assert len([m for m in marks(reader.pages[0], reader) if m.operator == "S"]) == shown


def test_an_area_is_filled_and_not_outlined(tmp_path: Path) -> None:
    (mark,) = written(tmp_path, Area(((1, 1), (2, 1), (2, 2)), "G-ANNO-SYMB"))
    assert mark.operator == "f"


def middle_radius(mark: Mark, center: Point) -> float:
    """Greatest distance of the middles of the curves from the center."""
    return max(math.dist(at_half(mark, i), center) for i in range(0, len(mark.points) - 1, 3))


def curve_heights(mark: Mark) -> list[float]:
    steps = [n / 50 for n in range(51)]
    curves = range(0, len(mark.points) - 1, 3)
    return [on_curve(mark.points[i : i + 4], t)[1] for i in curves for t in steps]


def at_half(mark: Mark, start: int) -> Point:
    return on_curve(mark.points[start : start + 4], 0.5)


def on_curve(points: list[Point], t: float) -> Point:
    parts = [(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3]
    x = sum(part * point[0] for part, point in zip(parts, points, strict=True))
    return x, sum(part * point[1] for part, point in zip(parts, points, strict=True))


def test_text_is_as_high_as_the_page_says(reader: PdfReader) -> None:
    heights = {
        text: size * CAP_HEIGHT_EM / 72 for text, (size, _) in texts(reader.pages[0]).items()
    }
    assert heights["EAVE"] == pytest.approx(0.1, abs=1e-5)
    assert heights["30'-0\""] == pytest.approx(0.096, abs=1e-5)  # in model inches in its block
    assert heights["A-101"] == pytest.approx(0.25, abs=1e-5)


@pytest.mark.parametrize(
    ("words", "start"),
    [
        ("MODULE, TYPICAL", (6.95, 6.25)),
        ("FOOT", (11.5 - text_width("FOOT", 0.1) / 2, 2.2)),
        ("EAVE", (2.0 - text_width("EAVE", 0.1), 2.7)),
        ("A-101", (15.25 - text_width("A-101", 0.25) / 2, 0.7)),
    ],
)
def test_text_starts_where_its_width_says(reader: PdfReader, words: str, start: Point) -> None:
    _, matrix = texts(reader.pages[0])[words]
    assert matrix[4:] == pytest.approx([part * 72 for part in start], abs=1e-3)


def test_turned_text_turns_about_its_middle(reader: PdfReader) -> None:
    _, (a, b, c, d, x, y) = texts(reader.pages[1])["CENTERED"]
    cos, sin = math.cos(math.radians(30)), math.sin(math.radians(30))
    assert (a, b, c, d) == pytest.approx((cos, sin, -sin, cos), abs=1e-5)
    along, up = text_width("CENTERED", 0.2) / 2 * 72, 0.1 * 72
    middle = (x + along * cos - up * sin, y + along * sin + up * cos)
    assert middle == pytest.approx((7 * 72, 6 * 72), abs=1e-2)


def test_carried_values_are_not_drawn(reader: PdfReader) -> None:
    words = reader.pages[0].extract_text()
    assert "A-101" in words
    assert "M00" not in words
    assert "SAMPLE RESIDENCE" not in words


def test_the_embedded_face_is_as_wide_as_the_table(reader: PdfReader) -> None:
    words = "Hamburgefonstiv 0123456789 ØΔΩ±½"
    size = 0.1 / CAP_HEIGHT_EM
    assert pdfmetrics.stringWidth(words, "Arimo", size) == pytest.approx(text_width(words, 0.1))


def test_a_character_that_the_face_lacks_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="no character"):
        written(tmp_path, Text("\u2300 6 in", (1, 1), 0.1, "G-ANNO-TEXT"))


def test_a_label_is_drawn_in_its_colors(tmp_path: Path) -> None:
    """White letters on a red field, then black letters again."""
    field = Area(((1, 5), (4, 5), (4, 6), (1, 6)), "E-LABL-REDB")
    words = Text("PV", (2, 5.3), 0.375, "E-LABL-WHTE")
    beside = Text("BESIDE", (5, 5.3), 0.375, "G-ANNO-TEXT")
    page = dataclasses.replace(NOTES_PAGE, paper=(field, words, beside))
    file = tmp_path / "label.pdf"
    write_pdf(dataclasses.replace(DRAWING, pages=(page,), blocks={}), file)
    reader = PdfReader(file)
    contents = reader.pages[0].get_contents()
    fills = [
        tuple(float(share) * 255 for share in operands)
        for operands, operator in ContentStream(contents, reader).operations
        if operator in (b"rg", b"g")
    ]
    red = LAYERS["E-LABL-REDB"].rgb
    assert fills[-3] == pytest.approx(red, abs=0.01)
    assert fills[-2:] == [(255, 255, 255), (0,)]
