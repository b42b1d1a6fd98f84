"""Values that are carried stand apart and fit their block, should somebody make them visible."""

from __future__ import annotations

import math

import pytest
from ezdxf.document import Drawing

from planset.drawing.geometry import Box, Placement
from planset.formats.dxf_values import HiddenValues


def test_they_go_down_the_block_from_its_upper_left_corner() -> None:
    values = HiddenValues.within(Box(0, 0, 40, 64), ("ID", "STRING", "ROW"))
    texts = [values.text(tag, "X", Placement()) for tag in values.tags]
    assert [text.at[0] for text in texts] == [0, 0, 0]
    assert values.height == 5  # a letter of eight abreast
    assert texts[0].at[1] == 64 - 5
    pitches = [a.at[1] - b.at[1] for a, b in zip(texts, texts[1:], strict=False)]
    assert min(pitches) > values.height
    assert texts[-1].at[1] > 0


def test_they_turn_and_grow_with_the_insertion() -> None:
    values = HiddenValues.within(Box(0, 0, 8, 8), ("ID",))
    text = values.text("ID", "M1", Placement((100, 50), 90, 2))
    assert text.rotation_deg == 90
    assert text.height == 2 * values.height
    assert text.at == pytest.approx((100 - 2 * (8 - values.height), 50))


def test_a_block_that_draws_nothing_has_letters_of_notes() -> None:
    assert HiddenValues.within(None, ("ID",)).height > 0


def test_a_definition_shows_them_where_an_insertion_does(doc: Drawing) -> None:
    inserts = [i for i in doc.blocks["ARRAY-1"].query("INSERT") if i.attribs]
    assert inserts
    for insert in inserts:
        defined = {d.dxf.tag: d for d in doc.blocks[insert.dxf.name].query("ATTDEF")}
        for value in insert.attribs:
            at = insert.matrix44().transform(defined[value.dxf.tag].dxf.insert)
            assert at.isclose(value.dxf.insert, abs_tol=1e-6)
            assert math.isclose(value.dxf.height, defined[value.dxf.tag].dxf.height)
