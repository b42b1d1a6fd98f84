"""What stands on the sheet: blocks expanded, arcs flattened, views cut, layers resolved."""

import math

import pytest
from review_pages import MODULE, PLAN, ROOF, TEXT, drawing, page, plan, text
from shapely.geometry import Point as ShapelyPoint

from planset.drawing.geometry import Box
from planset.drawing.primitives import (
    Area,
    Attribute,
    Block,
    Circle,
    Insert,
    Line,
    Link,
    Polyline,
    Primitive,
    Text,
)
from planset.review.plotted import Item, Part
from planset.review.reviewed_page import reviewed_page


def items(*paper: Primitive, blocks: tuple[Block, ...] = ()) -> tuple[Item, ...]:
    made = page(*paper)
    return reviewed_page(made, drawing(made, blocks=blocks)).items[1:]


def view_items(*model: Primitive, blocks: tuple[Block, ...] = ()) -> tuple[Item, ...]:
    made = page(views=(plan(model=model),))
    return reviewed_page(made, drawing(made, blocks=blocks)).items[:-1]


def box_of(item: Item) -> Box:
    assert item.box is not None
    return item.box


def assert_box(box: Box, *sides: float) -> None:
    assert (box.x0, box.y0, box.x1, box.y1) == pytest.approx(sides)


def test_nested_block_at_scale_of_the_view_and_layer_of_its_insertion() -> None:
    (roof,) = view_items(Insert("ROOF", (0, 0), "0"), blocks=(ROOF, MODULE))
    outline, module = roof.ink
    # Window from -6 at 1 in; 1 in of paper is 48 in of roof.
    assert_box(Box(*outline.shape.bounds), 1.125, 1.125, 1.125 + 84 / 48, 1.125 + 60 / 48)
    assert_box(Box(*module.shape.bounds), 1 + 26 / 48, 1 + 26 / 48, 1 + 66 / 48, 1 + 46 / 48)
    assert (outline.layer.name, module.layer.name) == ("A-ROOF-OTLN", "E-SOLR-PANL")


def test_layer_is_inherited_through_insertions_on_layer_0() -> None:
    inner = Block("INNER", (Insert("MODULE", (0, 0), "0"),))
    (outer,) = items(Insert("INNER", (2, 2), "S-ROOF-ANCH", scale=0.05), blocks=(inner,))
    assert [ink.layer.name for ink in outer.ink] == ["S-ROOF-ANCH"]


def test_insertion_turned_and_scaled() -> None:
    (turned,) = items(Insert("MODULE", (3, 3), TEXT, rotation_deg=90, scale=0.05))
    assert_box(box_of(turned), 2, 3, 3, 5)


def test_view_cuts_the_model_and_not_the_annotation() -> None:
    label = Line((0.5, 2), (2, 2), TEXT)
    made = page(views=(plan(label, model=(Line((-60, 0), (300, 0), TEXT),)),))
    model, annotation, _ = reviewed_page(made, drawing(made)).items
    assert_box(box_of(model), 1, 1.125, 3, 1.125)
    assert_box(box_of(annotation), 0.5, 2, 2, 2)
    assert (model.part, annotation.part) == (Part.MODEL, Part.ANNOTATION)


def test_area_is_cut_and_what_lies_outside_is_gone() -> None:
    square = Area(((60, 60), (150, 60), (150, 150), (60, 150)), TEXT)
    outside = Area(((200, 60), (250, 60), (250, 150)), TEXT)
    cut, gone = view_items(square, outside)
    assert_box(box_of(cut), 1 + 66 / 48, 1 + 66 / 48, 3, 3)
    assert gone.box is None


def test_text_of_a_block_grows_with_its_insertion() -> None:
    block = Block("TAG", (Text("A", (0, 0), 0.1, "0"),))
    (tag,) = items(Insert("TAG", (2, 2), TEXT, scale=2), blocks=(block,))
    assert [(text.words, text.height_in) for text in tag.texts] == [("A", 0.2)]
    (shown,) = view_items(Text("A", (0, 0), 4.8, TEXT))
    assert shown.texts[0].height_in == pytest.approx(4.8 / PLAN.factor)


def test_attribute_is_written_where_it_says_and_not_with_the_block() -> None:
    attribute = Attribute("ID", "M1", text("M1", 4, 4))
    carried = Attribute("MODEL", "carried, not shown")
    (insert,) = items(
        Insert("MODULE", (2, 2), TEXT, 90, 0.01, attributes=(attribute, carried)),
        blocks=(MODULE,),
    )
    (words,) = insert.texts
    assert words.words == "M1"
    assert words.box.x0 == pytest.approx(4)


def test_turned_text_covers_a_turned_rectangle() -> None:
    level, upright = items(text("TALL", 2, 2), text("TALL", 2, 2, turned=90))
    flat, tall = level.texts[0].box, upright.texts[0].box
    assert (tall.width, tall.height) == pytest.approx((flat.height, flat.width))
    assert_box(tall, 2 - 0.1, 2, 2 + 0.031, 2 + flat.width)


def test_unplotted_layers_and_blank_text_leave_nothing() -> None:
    hidden, blank = items(Line((1, 1), (2, 2), "G-ANNO-NPLT"), text(" ", 2, 2))
    assert (hidden.box, blank.box) == (None, None)


def test_circle_and_bulges_are_round() -> None:
    circle, arc, quarter = items(
        Circle((3, 3), 1, TEXT),
        Polyline(((2, 5), (4, 5)), TEXT, bulges=(-1.0, 0.0)),  # upper half, clockwise
        Polyline(((5, 4), (6, 5)), TEXT, bulges=(math.tan(math.pi / 8), 0.0)),  # about 5, 5
    )
    center = ShapelyPoint(3, 5)
    assert circle.ink[0].shape.length == pytest.approx(2 * math.pi, rel=1e-3)
    assert arc.ink[0].shape.length == pytest.approx(math.pi, rel=1e-3)
    assert box_of(arc).y0 == pytest.approx(5)
    assert box_of(arc).y1 == pytest.approx(6, abs=0.002)
    assert {round(center.distance(ShapelyPoint(p)), 9) for p in arc.ink[0].shape.coords} == {1.0}
    assert quarter.ink[0].shape.distance(ShapelyPoint(5, 5)) == pytest.approx(1, abs=0.001)
    assert quarter.ink[0].shape.length == pytest.approx(math.pi / 2, rel=1e-3)


def test_link_is_placed() -> None:
    (link,) = items(Link((2, 2), (3, 2.5), "S-501"))
    assert [(found.box, found.sheet) for found in link.links] == [(Box(2, 2, 3, 2.5), "S-501")]
