"""Each primitive is the entity that all readers tried show alike."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest
from dxf_checks import everything, figure, in_model, of_kind, only_text
from ezdxf.document import Drawing
from ezdxf.enums import TextEntityAlignment
from pages import DRAWING, PLAN_PAGE, PLAN_VIEW, SLOPE_DIMENSION

from planset.drawing.geometry import Placement
from planset.drawing.page import DrawingSet
from planset.drawing.primitives import Text
from planset.drawing.text import text_width
from planset.errors import PlansetError
from planset.formats.dxf_write import write_dxf
from planset.formats.regions import annotation_placement, view_regions


def with_page_text(words: str) -> DrawingSet:
    text = Text(words, (1, 1), 0.1, "G-ANNO-TEXT")
    page = dataclasses.replace(PLAN_PAGE, paper=(*PLAN_PAGE.paper, text))
    return dataclasses.replace(DRAWING, pages=(page,))


def test_a_point_follows_each_hatch(doc: Drawing) -> None:
    for layout in (doc.modelspace(), doc.blocks["ROOF"]):
        entities = list(layout)
        (place,) = [i for i, e in enumerate(entities) if e.dxftype() == "HATCH"]
        assert entities[place + 1].dxftype() == "POINT"
        assert entities[place + 1].dxf.layer == "G-ANNO-NPLT"


def test_identity_is_read_back(doc: Drawing) -> None:
    ids = []
    for insert in doc.blocks["ARRAY-1"].query("INSERT"):
        label, identity = insert.get_xdata("PLANSET")
        assert (label.code, label.value, identity.code) == (1000, "id", 1000)
        ids.append(identity.value)
    assert ids == [part.identity for part in DRAWING.blocks["ARRAY-1"].primitives]  # type: ignore[union-attr]


def test_things_without_identity_carry_none(doc: Drawing) -> None:
    (roof,) = in_model(doc, 'INSERT[name=="ROOF"]')
    assert not roof.has_xdata("PLANSET")


def test_carried_values_are_invisible(doc: Drawing) -> None:
    module = of_kind(doc.blocks["ARRAY-1"], "INSERT")[0]
    assert [(a.dxf.tag, a.dxf.text, a.is_invisible) for a in module.attribs] == [
        ("ID", "M00", True),
        ("STRING", "S1", True),
    ]


def test_what_ends_the_values_is_never_on_layer_0(doc: Drawing) -> None:
    # FreeCAD 0.20 takes the layer's name for the end of the entity and loses the next one.
    inserts = [e for e in everything(doc) if e.dxftype() == "INSERT" and e.attribs]
    assert {e.dxf.layer for e in inserts} == {"E-SOLR-PANL", "G-ANNO-TTLB"}
    assert {e.seqend.dxf.layer for e in inserts} == {"G-ANNO-NPLT"}


def test_written_values_stand_where_the_page_says(doc: Drawing) -> None:
    (border,) = of_kind(doc.paperspace("S-501"), "INSERT")
    number = border.get_attrib("SHEET_NUMBER")
    assert (number.dxf.text, number.is_invisible, number.dxf.height) == ("S-501", False, 0.25)
    assert number.get_placement()[0] is TextEntityAlignment.CENTER
    assert number.get_placement()[1].isclose((15.25, 0.7))
    assert border.get_attrib("PROJECT").is_invisible


def test_insertions_are_turned_and_scaled(doc: Drawing) -> None:
    (single,) = of_kind(doc.blocks["ROOF"], 'INSERT[name=="MODULE-44X69"]')
    assert (single.dxf.rotation, single.dxf.xscale, single.dxf.yscale) == (-90, 0.5, 0.5)
    assert single.dxf.insert.isclose((200, 110))


def test_polylines_keep_their_closing_side_and_arcs(doc: Drawing) -> None:
    outline, slot = of_kind(doc.blocks["ROOF"], "LWPOLYLINE")
    assert outline.closed
    assert slot.closed
    assert [tuple(point) for point in slot.get_points("xyb")] == [
        (300, 20, 0),
        (340, 20, 1),
        (340, 40, 0),
        (300, 40, 1),
    ]
    leader = in_model(doc, "LWPOLYLINE")[0]
    assert not leader.closed


def test_circles_of_the_annotation_grow_with_the_scale(doc: Drawing) -> None:
    (dot,) = in_model(doc, "CIRCLE")
    assert dot.dxf.radius == pytest.approx(0.03 * 64)


def test_a_filled_rectangle_is_not_a_bow_tie(doc: Drawing) -> None:
    rectangle = in_model(doc, 'SOLID[layer=="S-DETL-MCUT"]')[0]
    corners = [rectangle.dxf.get(f"vtx{i}") for i in (0, 1, 3, 2)]  # the order they are drawn in
    sides = [(b - a).magnitude for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)]
    assert sides == pytest.approx([8, 1, 8, 1])


def test_a_hollow_quadrilateral_is_filled_within_its_outline(doc: Drawing) -> None:
    (hatch,) = in_model(doc, "HATCH")
    assert hatch.has_solid_fill
    offset = view_regions(DRAWING)[0][1].offset
    expected = [Placement(offset).apply(p) for p in ((-5, 3), (5, 3), (0, 5), (0, 3.5))]
    for vertex, corner in zip(hatch.paths.paths[0].vertices, expected, strict=True):
        assert tuple(vertex)[:2] == pytest.approx(corner)


@pytest.mark.parametrize(
    ("words", "alignment"),
    [
        ("MODULE, TYPICAL", TextEntityAlignment.LEFT),
        ("FOOT", TextEntityAlignment.CENTER),
        ("EAVE", TextEntityAlignment.RIGHT),
        ("CENTERED", TextEntityAlignment.MIDDLE_CENTER),
    ],
)
def test_text_is_justified(doc: Drawing, words: str, alignment: TextEntityAlignment) -> None:
    assert only_text(doc, words).get_align_enum() is alignment


def test_text_says_also_where_its_baseline_starts(doc: Drawing) -> None:
    text = only_text(doc, "CENTERED")
    assert text.get_placement()[1].isclose((7, 6))
    assert text.dxf.rotation == 30
    start = Placement((7, 6), 30).apply((-text_width("CENTERED", 0.2) / 2, -0.1))
    assert tuple(text.dxf.insert)[:2] == pytest.approx(start)


def test_annotation_is_as_high_on_paper_as_the_page_says(doc: Drawing) -> None:
    assert only_text(doc, "EAVE").dxf.height == pytest.approx(0.1 * 64)
    assert only_text(doc, "FOOT").dxf.height == pytest.approx(0.1 * 4)
    assert only_text(doc, "SEE S-501").dxf.height == 0.1


def test_a_caret_is_not_read_as_a_control_character(doc: Drawing) -> None:
    text = only_text(doc, "WIDTH ± 1/8 in^ 2, 100% Ø")
    assert text.plain_text() == "WIDTH ± 1/8 in^2, 100% Ø"


def test_a_code_in_a_text_is_refused(tmp_path: Path) -> None:
    with pytest.raises(PlansetError, match='write a single "%"'):
        write_dxf(with_page_text("50%%d"), tmp_path / "x.dxf")


def test_links_have_no_form(doc: Drawing) -> None:
    paper = [e.dxftype() for e in doc.paperspace("S-501") if e.dxftype() != "VIEWPORT"]
    assert paper == ["INSERT", "TEXT", "TEXT", "LINE"]


def test_a_dimension_measures_the_model(doc: Drawing) -> None:
    (on_plan,) = in_model(doc, "DIMENSION")
    assert on_plan.get_measurement() == pytest.approx(96)  # as drawn on plan
    assert on_plan.dxf.actual_measurement == pytest.approx(96)
    assert on_plan.dxf.text == "10'-0\" ON SLOPE"
    (in_block,) = of_kind(doc.blocks["ROOF"], "DIMENSION")
    assert in_block.get_measurement() == pytest.approx(360)
    assert in_block.dxf.text == "<>"
    assert figure(in_block) == "30'-0\""


def test_a_dimension_on_the_slope_carries_its_length(doc: Drawing) -> None:
    (on_plan,) = in_model(doc, "DIMENSION")
    assert [tag.value for tag in on_plan.get_xdata("PLANSET")] == ["on slope", 120.0]
    (in_block,) = of_kind(doc.blocks["ROOF"], "DIMENSION")
    assert not in_block.has_xdata("PLANSET")


def test_a_dimension_shows_what_the_page_drew(doc: Drawing) -> None:
    (on_plan,) = in_model(doc, "DIMENSION")
    picture = on_plan.get_geometry_block()
    assert [entity.dxftype() for entity in picture] == ["LINE", "LINE", "LINE", "TEXT"]
    assert picture[2].dxf.start.distance(picture[2].dxf.end) == pytest.approx(104)
    assert picture[3].dxf.height == pytest.approx(0.096 * 64)


def test_a_dimension_is_defined_where_the_page_drew_it(doc: Drawing) -> None:
    # DXF reference: 13 and 14 are the measured points, 10 the dimension line opposite the second.
    (on_plan,) = in_model(doc, "DIMENSION")
    region = view_regions(DRAWING)[0][0]
    to_model = annotation_placement(PLAN_VIEW).within(Placement(region.offset))
    for name, point in (
        ("defpoint2", SLOPE_DIMENSION.a),
        ("defpoint3", SLOPE_DIMENSION.b),
        ("defpoint", SLOPE_DIMENSION.line_b),
        ("text_midpoint", SLOPE_DIMENSION.text_at),
    ):
        x, y, _ = on_plan.dxf.get(name)
        assert (x, y) == pytest.approx(to_model.apply(point))
