from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path

import pytest
from ezdxf.document import Drawing
from ezdxf.enums import TextEntityAlignment
from ezdxf.filemanagement import new
from ezdxf.layouts.blocklayout import BlockLayout
from ezdxf.layouts.layout import Modelspace

from planset.drawing.geometry import Box
from planset.drawing.page import TitleBlock
from planset.drawing.primitives import Area, Circle, Insert, Line, Polyline, Text
from planset.drawing.symbols import Symbol
from planset.errors import JobErrors
from planset.formats.dxf_read import REQUIRED_FIELDS, read_symbols, read_title_block

# --- families of symbols -------------------------------------------------------------------


def box_block(document: Drawing, name: str = "BOX") -> BlockLayout:
    """A block of one rectangle, 2 wide and 1 high, its lower left corner at 0, 0."""
    block = document.blocks.new(name)
    block.add_lwpolyline([(0, 0), (2, 0), (2, 1), (0, 1)], close=True)
    return block


def terminal(block: BlockLayout, x: float, y: float) -> None:
    block.add_point((x, y), dxfattribs={"layer": "TERMINAL"})


def saved(document: Drawing, folder: Path) -> Path:
    path = folder / "family.dxf"
    document.saveas(path)
    return path


def read_box(folder: Path, draw: Callable[[BlockLayout], object]) -> Symbol:
    document = new("R2013", units=1)
    draw(box_block(document))
    return read_symbols(saved(document, folder))["BOX"]


def refusal(folder: Path, draw: Callable[[BlockLayout], object]) -> str:
    with pytest.raises(JobErrors) as refused:
        read_box(folder, draw)
    (problem,) = refused.value.problems
    assert (problem.line, problem.field) == (None, "BOX")
    assert problem.file.endswith("family.dxf")
    assert problem.mend
    return problem.message


def test_terminals_are_named_by_side_and_numbered_from_the_lower_left(tmp_path: Path) -> None:
    places = [(2, 0.5), (0, 0.75), (0, 0.25), (1.5, 1), (0.5, 1), (1, 1), (1, 0)]

    def draw(block: BlockLayout) -> None:
        for x, y in places:
            terminal(block, x, y)

    assert dict(read_box(tmp_path, draw).terminals) == {
        "W1": (0, 0.25),
        "W2": (0, 0.75),
        "E": (2, 0.5),
        "N1": (0.5, 1),
        "N2": (1, 1),
        "N3": (1.5, 1),
        "S": (1, 0),
    }


@pytest.mark.parametrize(
    ("x", "y", "sides"),
    [(1, 0.5, 0), (0, 2, 0), (0.01, 0.5, 0), (0, 0, 2), (2, 1, 2)],
)
def test_a_terminal_on_no_side_or_on_a_corner_is_refused(
    tmp_path: Path, x: float, y: float, sides: int
) -> None:
    message = refusal(tmp_path, lambda block: terminal(block, x, y))
    assert message == f"the terminal at {x:g}, {y:g} lies on {sides} sides of the symbol's box"


def test_lines_circles_and_fills(tmp_path: Path) -> None:
    def draw(block: BlockLayout) -> None:
        block.add_line((0, 0), (2, 1), dxfattribs={"layer": "E-DIAG-SYMB"})
        block.add_circle((1, 0.5), 0.25)
        block.add_solid([(0, 0), (1, 0), (0, 1), (1, 1)])
        block.add_solid([(0, 0), (1, 0), (0, 1)])
        block.add_hatch().paths.add_polyline_path([(0, 0), (1, 0), (1, 1)])

    outline, *rest = read_box(tmp_path, draw).block.primitives
    assert outline == Polyline(((0, 0), (2, 0), (2, 1), (0, 1)), "0", closed=True)
    assert rest == [
        Line((0, 0), (2, 1), "E-DIAG-SYMB"),
        Circle((1, 0.5), 0.25, "0"),
        Area(((0, 0), (1, 0), (1, 1), (0, 1)), "0"),
        Area(((0, 0), (1, 0), (0, 1)), "0"),
        Area(((0, 0), (1, 0), (1, 1)), "0"),
    ]


@pytest.mark.parametrize(
    ("start", "end", "points", "bulge"),
    [
        # a quarter and a half circle: the bulge is the tangent of a quarter of the angle
        (0, 90, [(1, 0), (0, 1)], math.tan(math.radians(90 / 4))),
        (0, 180, [(1, 0), (-1, 0)], 1.0),
        (270, 0, [(0, -1), (1, 0)], math.tan(math.radians(90 / 4))),
        # more than half a circle is drawn as two equal arcs
        (
            0,
            270,
            [(1, 0), (-math.sqrt(0.5), math.sqrt(0.5)), (0, -1)],
            math.tan(math.radians(135 / 4)),
        ),
    ],
)
def test_an_arc_becomes_a_polyline_with_bulges(
    tmp_path: Path, start: float, end: float, points: list[tuple[float, float]], bulge: float
) -> None:
    symbol = read_box(tmp_path, lambda block: block.add_arc((0, 0), 1, start, end))
    arc = symbol.block.primitives[1]
    assert isinstance(arc, Polyline)
    assert not arc.closed
    for got, expected in zip(arc.points, points, strict=True):
        assert got == pytest.approx(expected, abs=1e-9)
    assert arc.bulges == pytest.approx([*[bulge] * (len(points) - 1), 0.0])


@pytest.mark.parametrize(
    ("drawn", "expected"),
    [
        (TextEntityAlignment.LEFT, (1.0, 2.0, "left")),
        (TextEntityAlignment.CENTER, (1.0, 2.0, "center")),
        (TextEntityAlignment.RIGHT, (1.0, 2.0, "right")),
        (TextEntityAlignment.MIDDLE, (1.0, 2.0, "middle")),
        (TextEntityAlignment.MIDDLE_CENTER, (1.0, 2.0, "middle")),
        (TextEntityAlignment.MIDDLE_LEFT, (1.0, 1.95, "left")),  # half of 0.1 down
        (TextEntityAlignment.TOP_RIGHT, (1.0, 1.9, "right")),  # all of 0.1 down
        (TextEntityAlignment.BOTTOM_LEFT, (1.0, 2.031, "left")),  # up by the descenders, 0.31
    ],
)
def test_text_keeps_its_place_whatever_it_is_justified_by(
    tmp_path: Path, drawn: TextEntityAlignment, expected: tuple[float, float, str]
) -> None:
    def draw(block: BlockLayout) -> None:
        block.add_text("M 90%%d", height=0.1).set_placement((1, 2), align=drawn)

    text = read_box(tmp_path, draw).block.primitives[1]
    assert isinstance(text, Text)
    assert (text.text, text.height, text.layer) == ("M 90°", 0.1, "0")
    assert text.at == pytest.approx(expected[:2])
    assert text.align == expected[2]


def test_text_turned_a_quarter_moves_its_baseline_sideways(tmp_path: Path) -> None:
    def draw(block: BlockLayout) -> None:
        text = block.add_text("M", height=0.1, rotation=90)
        text.set_placement((1, 2), align=TextEntityAlignment.TOP_LEFT)

    text = read_box(tmp_path, draw).block.primitives[1]
    assert isinstance(text, Text)
    assert text.at == pytest.approx((1.1, 2.0))
    assert text.rotation_deg == 90


def test_the_box_is_the_exact_extent_of_the_lines_and_not_of_text(tmp_path: Path) -> None:
    def draw(block: BlockLayout) -> None:
        block.add_lwpolyline([(0, 1, 1.0), (-2, 1, 0.0)], format="xyb")  # half circle, radius 1
        block.add_text("FAR BELOW", height=0.1).set_placement((0, -5))

    # the half circle turns left from (0, 1): its crown is at y = 2
    assert read_box(tmp_path, draw).box == Box(-2, 0, 2, 2)


def test_a_block_may_insert_another_one_of_the_file(tmp_path: Path) -> None:
    document = new("R2013", units=1)
    pair = document.blocks.new("PAIR")
    pair.add_blockref("BOX", (0, 0))
    pair.add_blockref(
        "BOX", (10, 0), dxfattribs={"rotation": 90, "xscale": 2, "yscale": 2, "zscale": 2}
    )
    box_block(document)
    symbols = read_symbols(saved(document, tmp_path))
    assert list(symbols) == ["PAIR", "BOX"]
    assert symbols["PAIR"].block.primitives == (
        Insert("BOX", (0, 0), "0"),
        Insert("BOX", (10, 0), "0", 90, 2),
    )
    assert symbols["PAIR"].box == Box(0, 0, 10, 4)


def test_a_block_that_inserts_itself_is_refused(tmp_path: Path) -> None:
    assert refusal(tmp_path, lambda block: block.add_blockref("BOX", (0, 0))) == (
        "the block inserts itself"
    )


def test_the_base_point_becomes_the_origin(tmp_path: Path) -> None:
    def draw(block: BlockLayout) -> None:
        block.block.dxf.base_point = (1, 0.5)  # type: ignore[union-attr]
        terminal(block, 2, 0.5)

    symbol = read_box(tmp_path, draw)
    assert symbol.box == Box(-1, -0.5, 1, 0.5)
    assert dict(symbol.terminals) == {"E": (1, 0)}


def test_attribute_definitions_become_tags(tmp_path: Path) -> None:
    def draw(block: BlockLayout) -> None:
        block.block.dxf.description = "a box"  # type: ignore[union-attr]
        block.add_attdef("ID")
        block.add_attdef("RATING")

    symbol = read_box(tmp_path, draw)
    assert symbol.name == "BOX"
    assert (symbol.block.attribute_tags, symbol.block.description) == (("ID", "RATING"), "a box")


REFUSED: dict[str, tuple[Callable[[BlockLayout], object], str]] = {
    "spline": (
        lambda block: block.add_spline([(0, 0), (1, 1), (2, 0)]),
        "a page cannot hold SPLINE",
    ),
    "ellipse": (lambda block: block.add_ellipse((0, 0), (1, 0), 0.5), "a page cannot hold ELLIPSE"),
    "mtext": (lambda block: block.add_mtext("NOTE"), "a page cannot hold MTEXT"),
    "loose point": (lambda block: block.add_point((0, 0)), "a page cannot hold POINT"),
    "pattern hatch": (
        lambda block: block.add_hatch().set_pattern_fill("ANSI31"),
        "a page cannot hold HATCH with a pattern, a hole or a curved edge",
    ),
    "wide polyline": (
        lambda block: block.add_lwpolyline([(0, 0, 0.1, 0.1), (1, 0, 0.1, 0.1)]),
        "a page cannot hold LWPOLYLINE with a width",
    ),
    "unknown layer": (
        lambda block: block.add_line((0, 0), (1, 0), dxfattribs={"layer": "MINE"}),
        'LINE is on the unknown layer "MINE"',
    ),
    "own linetype": (
        lambda block: block.add_line((0, 0), (1, 0), dxfattribs={"linetype": "DASHED"}),
        "LINE has the linetype DASHED of its own",
    ),
    "own lineweight": (
        lambda block: block.add_line((0, 0), (1, 0), dxfattribs={"lineweight": 50}),
        "LINE has a lineweight of its own",
    ),
    "mirrored plane": (
        lambda block: block.add_circle((0, 0), 1, dxfattribs={"extrusion": (0, 0, -1)}),
        "CIRCLE is drawn on a tilted or mirrored plane (extrusion)",
    ),
    "condensed text": (
        lambda block: block.add_text("A", height=0.1, dxfattribs={"width": 0.8}),
        "a page cannot hold stretched, slanted or mirrored TEXT",
    ),
    "stretched text": (
        lambda block: block.add_text("A", height=0.1).set_placement(
            (0, 0), (1, 0), align=TextEntityAlignment.FIT
        ),
        "a page cannot hold stretched, slanted or mirrored TEXT",
    ),
    "missing block": (
        lambda block: block.add_blockref("NOWHERE", (0, 0)),
        "INSERT of NOWHERE, which is no named block of this file",
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_a_page_cannot_hold_is_refused_by_name(tmp_path: Path, case: str) -> None:
    draw, message = REFUSED[case]
    assert refusal(tmp_path, draw) == message


def test_a_mirrored_insertion_is_refused(tmp_path: Path) -> None:
    document = new("R2013", units=1)
    box_block(document)
    document.blocks.new("TWIN").add_blockref("BOX", (0, 0), dxfattribs={"xscale": -1})
    with pytest.raises(JobErrors, match="BOX repeated, stretched or mirrored"):
        read_symbols(saved(document, tmp_path))


def test_a_character_outside_the_face_is_refused(tmp_path: Path) -> None:
    message = refusal(tmp_path, lambda block: block.add_text("⌀", height=0.1))
    assert "the drawing face has no character" in message


def test_all_refusals_of_a_file_come_together(tmp_path: Path) -> None:
    document = new("R2013", units=6)  # meters
    box_block(document, "ONE").add_mtext("NOTE")
    two = document.blocks.new("TWO")
    two.add_ellipse((0, 0), (1, 0), 0.5)
    terminal(two, 1, 0)  # nothing is said of its place while its body is refused
    document.blocks.new("EMPTY")
    with pytest.raises(JobErrors) as refused:
        read_symbols(saved(document, tmp_path))
    assert [(problem.field, problem.message) for problem in refused.value.problems] == [
        ("$INSUNITS", "the drawing's unit is not the inch"),
        ("ONE", "a page cannot hold MTEXT"),
        ("TWO", "a page cannot hold ELLIPSE"),
        ("EMPTY", "the block draws no line"),
    ]


@pytest.mark.parametrize("content", [None, "", "no drawing\n", "0\nSECTION\n2\nHEADER\n"])
def test_a_file_that_is_no_drawing_is_refused(tmp_path: Path, content: str | None) -> None:
    path = tmp_path / "family.dxf"
    if content is not None:
        path.write_text(content, encoding="utf-8")
    with pytest.raises(JobErrors, match="cannot be read as DXF"):
        read_symbols(path)


# --- title blocks --------------------------------------------------------------------------

AREAS = {
    "SHEET-EDGE": (0, 0, 17, 11),
    "DRAWING-AREA": (1, 1, 13, 10),
    "SEAL-AREA": (14, 1, 16, 3),
    "APPROVAL-AREA": (14, 8, 16, 10),
}


def rectangle(space: Modelspace, layer: str, x0: float, y0: float, x1: float, y1: float) -> None:
    corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
    space.add_lwpolyline(corners, close=True, dxfattribs={"layer": layer})


def add_field(space: Modelspace, tag: str, y: float, *, box: bool = True) -> None:
    attributes = {"layer": "G-ANNO-TTLB-TEXT", "height": 0.1}
    space.add_attdef(tag, (14.1, y), dxfattribs=attributes)
    if box:
        rectangle(space, "FIELD-AREA", 14, y - 0.05, 16, y + 0.15)


def read_sheet(
    folder: Path,
    *,
    change: Callable[[Modelspace], object] = lambda _: None,
    areas: dict[str, tuple[float, float, float, float]] | None = None,
    without: str = "",
    unboxed: str = "",
) -> TitleBlock:
    """Read a good title block with one thing changed."""
    document = new("R2013", units=1)
    space = document.modelspace()
    for layer, corners in (AREAS | (areas or {})).items():
        if layer != without:
            rectangle(space, layer, *corners)
    for number, tag in enumerate(REQUIRED_FIELDS):
        if tag != without:
            add_field(space, tag, 3.2 + 0.2 * number, box=tag != unboxed)
    space.add_line((13.5, 0.5), (13.5, 10.5), dxfattribs={"layer": "G-ANNO-TTLB"})
    change(space)
    path = folder / "small.dxf"
    document.saveas(path)
    return read_title_block(path)


def sheet_problems(folder: Path, **changes: object) -> list[tuple[str, str]]:
    with pytest.raises(JobErrors) as refused:
        read_sheet(folder, **changes)  # type: ignore[arg-type]
    return [(problem.field, problem.message) for problem in refused.value.problems]


def test_a_title_block_is_read_whole(tmp_path: Path) -> None:
    sheet = read_sheet(tmp_path)
    assert (sheet.name, sheet.width, sheet.height) == ("small", 17, 11)
    assert sheet.drawing_area == Box(1, 1, 13, 10)
    assert sheet.seal_area == Box(14, 1, 16, 3)
    assert sheet.approval_area == Box(14, 8, 16, 10)
    # the areas are not drawn
    assert sheet.block.primitives == (Line((13.5, 0.5), (13.5, 10.5), "G-ANNO-TTLB"),)
    assert sheet.block.attribute_tags == REQUIRED_FIELDS == tuple(sheet.fields)
    place = sheet.fields["PROJECT_NAME"]
    assert (place.at, place.height, place.align) == ((14.1, 3.2), 0.1, "left")
    assert place.layer == "G-ANNO-TTLB-TEXT"
    assert place.box == Box(14, 3.2 - 0.05, 16, 3.2 + 0.15)


@pytest.mark.parametrize("layer", AREAS)
def test_a_missing_area_is_named(tmp_path: Path, layer: str) -> None:
    found = sheet_problems(tmp_path, without=layer)
    assert found == [(layer, "the layer holds 0 entities, expected one closed rectangle")]


def test_an_area_drawn_twice_is_refused(tmp_path: Path) -> None:
    found = sheet_problems(
        tmp_path, change=lambda space: rectangle(space, "SEAL-AREA", 14, 1, 15, 2)
    )
    assert found == [("SEAL-AREA", "the layer holds 2 entities, expected one closed rectangle")]


@pytest.mark.parametrize(
    "corners",
    [
        [(14, 1), (16, 1), (16, 3)],
        [(14, 1), (16, 1.5), (16, 3), (14, 3)],
        [(14, 1, 0.2), (16, 1, 0), (16, 3, 0), (14, 3, 0)],
    ],
)
def test_an_area_that_is_no_rectangle_is_refused(
    tmp_path: Path, corners: list[tuple[float, ...]]
) -> None:
    def draw(space: Modelspace) -> None:
        space.add_lwpolyline(corners, format="xyb", close=True, dxfattribs={"layer": "SEAL-AREA"})

    found = sheet_problems(tmp_path, without="SEAL-AREA", change=draw)
    assert found == [("SEAL-AREA", "the layer holds 1 entities, expected one closed rectangle")]


@pytest.mark.parametrize("tag", ["SHEET_ID", "STATUS"])
def test_a_missing_field_is_named(tmp_path: Path, tag: str) -> None:
    assert sheet_problems(tmp_path, without=tag) == [(tag, "the field is missing")]


def test_a_second_line_may_be_drawn_for_what_runs_long(tmp_path: Path) -> None:
    sheet = read_sheet(tmp_path, change=lambda space: add_field(space, "ADDRESS_2", 0.5))
    assert tuple(sheet.fields) == (*REQUIRED_FIELDS, "ADDRESS_2")
    assert sheet.fields["ADDRESS_2"].at == (14.1, 0.5)


def test_a_second_line_of_what_never_runs_long_is_unknown(tmp_path: Path) -> None:
    found = sheet_problems(tmp_path, change=lambda space: add_field(space, "DATE_2", 0.5))
    assert found == [("DATE_2", "the field is unknown")]


def test_an_unknown_field_is_named(tmp_path: Path) -> None:
    found = sheet_problems(tmp_path, change=lambda space: add_field(space, "MOOD", 0.5))
    assert found == [("MOOD", "the field is unknown")]


def test_a_field_defined_twice_is_named(tmp_path: Path) -> None:
    found = sheet_problems(tmp_path, change=lambda space: add_field(space, "SCALE", 0.5))
    assert found == [("SCALE", "the field is defined twice")]


def test_a_field_without_its_box_is_named(tmp_path: Path) -> None:
    found = sheet_problems(tmp_path, unboxed="OWNER")
    assert found == [("OWNER", "the field lies in 0 boxes, expected one")]


def test_an_area_off_the_sheet_is_named(tmp_path: Path) -> None:
    found = sheet_problems(tmp_path, areas={"APPROVAL-AREA": (14, 8, 18, 10)})
    assert found == [("APPROVAL-AREA", "the area leaves the sheet")]


def test_a_sheet_away_from_the_origin_is_refused(tmp_path: Path) -> None:
    found = sheet_problems(tmp_path, areas={"SHEET-EDGE": (0, -1, 17, 11)})
    assert found == [("SHEET-EDGE", "the sheet starts at 0, -1")]


def test_overlapping_areas_are_named(tmp_path: Path) -> None:
    found = sheet_problems(tmp_path, areas={"DRAWING-AREA": (1, 1, 14.5, 10)})
    assert ("DRAWING-AREA", "the area overlaps SEAL-AREA") in found
    assert ("DRAWING-AREA", "the area overlaps STATUS") in found


def test_a_field_on_an_unknown_layer_is_named(tmp_path: Path) -> None:
    def draw(space: Modelspace) -> None:
        space.query("ATTDEF")[0].dxf.layer = "0"

    found = sheet_problems(tmp_path, change=draw)
    assert found == [("PROJECT_NAME", 'the field is on the unknown layer "0"')]


def test_a_turned_field_and_an_insertion_are_refused(tmp_path: Path) -> None:
    def draw(space: Modelspace) -> None:
        space.query("ATTDEF")[0].dxf.rotation = 90
        document = space.doc
        assert document is not None
        document.blocks.new("LOGO").add_line((0, 0), (1, 1))
        space.add_blockref("LOGO", (14, 0.5))

    assert sheet_problems(tmp_path, change=draw) == [
        ("PROJECT_NAME", "the field is rotated"),
        ("small", "INSERT of LOGO in a title block"),
    ]
