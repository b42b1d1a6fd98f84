"""A DXF file holds no insertion that shows nothing, and no block that nothing inserts."""

from __future__ import annotations

import dataclasses

import pytest
from pages import DRAWING, PLAN_PAGE, PLAN_VIEW

from planset.drawing.geometry import Box
from planset.drawing.page import DrawingSet
from planset.drawing.primitives import Block, Circle, Insert, Line, Primitive
from planset.formats.in_view import set_in_view

LAYER = "A-ROOF-OBST"
VENT = Block("VENT", (Circle((0, 0), 3, "0"),))
VENTS = Block("VENTS", (Insert("VENT", (-500, 10), LAYER), Insert("VENT", (-500, 900), LAYER)))
EMPTY = Block("EMPTY", ())
HOLDS_EMPTY = Block("HOLDS-EMPTY", (Insert("EMPTY", (0, 0), LAYER),))
MORE = {block.name: block for block in (VENT, VENTS, EMPTY, HOLDS_EMPTY)}


def shown(*parts: Primitive) -> DrawingSet:
    """A set whose first view, from 0, 0 up, shows some parts."""
    view = dataclasses.replace(PLAN_VIEW, window=Box(0, 0, 400, 300), model=parts, annotation=())
    page = dataclasses.replace(PLAN_PAGE, views=(view,))
    return set_in_view(
        dataclasses.replace(DRAWING, pages=(page,), blocks={**DRAWING.blocks, **MORE})
    )


@pytest.mark.parametrize(
    ("part", "kept"),
    [
        (Insert("VENT", (50, 50), LAYER), True),
        (Insert("VENT", (-2, 50), LAYER), True),  # half of it
        (Insert("VENT", (-50, 50), LAYER), False),
        (Insert("VENTS", (0, 0), LAYER), False),
        (Insert("VENTS", (600, 0), LAYER), True),
        (Insert("VENTS", (20, 550), LAYER, rotation_deg=90), True),  # 10 in left of 20, at 50
        (Insert("EMPTY", (50, 50), LAYER), False),
        (Insert("HOLDS-EMPTY", (50, 50), LAYER), False),
        (Line((-50, 0), (-40, 0), LAYER), True),  # no insertion
    ],
)
def test_what_lies_outside_of_a_view_or_is_empty_is_left_out(part: Primitive, kept: bool) -> None:
    drawing = shown(part)
    assert drawing.pages[0].views[0].model == ((part,) if kept else ())


def test_blocks_are_those_inserted() -> None:
    drawing = shown(Insert("VENTS", (600, 0), LAYER))
    assert set(drawing.blocks) == {"VENTS", "VENT", PLAN_PAGE.titleblock}
