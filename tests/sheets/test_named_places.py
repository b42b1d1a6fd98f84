"""What a name means on a sheet: a title before a thing, a row before words, and what begins so."""

from __future__ import annotations

from functools import cache

import pytest

from planset.drawing.geometry import Box
from planset.drawing.page import NOT_TO_SCALE, View
from planset.drawing.primitives import Attribute, Block, Insert, Line, Polyline, Primitive, Text
from planset.drawing.stack import stack
from planset.sheets.context import SheetDrawing
from planset.sheets.named_places import NamedPlaces, named_places
from planset.sheets.note_table import LINE_LAYER, TEXT_LAYER, fitted_table

FRAME = Box(0.5, 0.5, 6.5, 4.5)
BREAKER = Block("BREAKER", (Line((0, 0), (1, 0), "0"), Line((0, 0), (0, 0.5), "0")))
PANEL = Block("PANEL", (Insert("BREAKER", (1, 1), "0", attributes=(Attribute("TAG", "CB1"),)),))
MODULES = Block("ARRAY-A1", (Polyline(((0, 0), (1, 0), (1, 1)), "E-SOLR-PANL", closed=True),))
BLOCKS = {block.name: block for block in (BREAKER, PANEL, MODULES)}


def text(words: str, x: float, y: float, height: float = 0.1) -> Text:
    return Text(words, (x, y), height, TEXT_LAYER)


@cache
def places() -> NamedPlaces:
    """A view with a panel and an array, two tables with a row of one name, and notes."""
    model = (Insert("PANEL", (0, 0), "E-POWR-EQPM"), Insert("ARRAY-A1", (4, 2), "0"))
    labels = (text("CB1 (N)", 1.1, 1.75), text("FRONT PLANE", 4, 4), text("5:12", 4, 3.84))
    view = View(1, "DIAGRAM", NOT_TO_SCALE, FRAME.moved(-0.5, -0.5), (0.5, 0.5), model, labels)
    rows = [("CB1", "40 A"), ("FRONT", "176")]
    tables = stack(
        [
            lambda at, width: fitted_table("EQUIPMENT, OUTDOORS", ("TAG", "IS"), rows, at, width),
            lambda at, width: fitted_table("PLANES, CONT.", ("ID", "IS"), rows[1:], at, width),
        ],
        [(Box(7, 0, 10, 8),)],
        0.2,
    )
    notes: tuple[Primitive, ...] = (
        text("NOTES", 11, 7, 0.125),
        Line((11, 6.95), (14, 6.95), LINE_LAYER),
        text("1.", 11, 6.7),
        text("Look twice before", 11.24, 6.7),
        text("you cut.", 11.24, 6.54),
        text("2.", 11, 6.3),
        text("Cut once.", 11.24, 6.3),
    )
    drawing = SheetDrawing((view,), (*tables.pages[0], *notes))
    return named_places(drawing, BLOCKS, {"ARRAY-A1": "A1"})


def found(name: str) -> list[tuple[int, Box]]:
    return [(place.view, place.box) for place in places().find(name)[1]]


def test_a_view_is_all_that_is_drawn_in_it() -> None:
    ((view, box),) = found("diagram")
    assert view == 1
    assert (box.x0, box.x1) == (1.1, 5.5)  # from the first label to the array
    assert FRAME.contains(box)


def test_a_thing_stands_in_its_view_with_the_label_close_by() -> None:
    ((view, box),) = found("CB1")
    assert view == 1
    assert box.contains(Box(1.5, 1.5, 2.5, 2.0))  # the breaker, where its panel stands
    assert box.x0 == pytest.approx(1.1)


def test_an_array_goes_by_its_id() -> None:
    assert found("A1") == [(1, Box(4.5, 2.5, 5.5, 3.5))]


def test_a_table_is_its_frame_with_its_title() -> None:
    ((view, box),) = found("Equipment, outdoors")
    assert view == 0
    assert (box.x0, box.x1, box.y1) == pytest.approx((7, 10, 8), abs=0.01)


def test_a_table_that_goes_on_has_the_title_of_the_whole() -> None:
    assert found("PLANES") == found("PLANES, CONT.") != []


def test_a_row_is_as_wide_as_its_table() -> None:
    ((view, box),) = found("PLANES / front")
    assert view == 0
    assert (box.x0, box.x1) == pytest.approx((7, 10))
    assert box.height < 0.2


def test_a_row_that_two_tables_have_stands_in_both() -> None:
    assert len(found("front")) == 2
    assert found("PLANES / FRONT")[0] in found("FRONT")


def test_a_row_is_told_from_a_thing_by_its_table() -> None:
    ((view, row),) = found("EQUIPMENT, OUTDOORS / CB1")
    assert view == 0
    assert row not in [box for _, box in found("CB1")]
    assert found("DIAGRAM / CB1") == found("CB1")


def test_words_that_stand_alone() -> None:
    ((view, box),) = found("FRONT PLANE 5:12")
    assert view == 1
    ((_, line),) = found("front plane")
    assert box.contains(line)
    assert not line.contains(box)


def test_a_note_goes_by_its_number_under_its_heading() -> None:
    ((_, first),) = found("NOTES / 1")
    ((_, second),) = found("NOTES / 2")
    assert first.y0 > second.y1
    assert first.y1 - first.y0 > 0.2  # both of its lines
    ((_, whole),) = found("NOTES")
    assert whole.contains(first)
    assert whole.contains(second)


def test_the_first_words_will_do_where_one_thing_alone_begins_so() -> None:
    assert found("EQUIPMENT") == found("EQUIPMENT, OUTDOORS")
    assert found("EQUIPMENT / CB1") == found("EQUIPMENT, OUTDOORS / CB1")
    assert found("EQUIP") == []  # within a word
    assert found("FRONT PL") == []


@pytest.mark.parametrize("name", ["CB2", "PLANES / CB1", "PLANS / FRONT", "", " / CB1", "C"])
def test_what_stands_nowhere(name: str) -> None:
    assert found(name) == []
