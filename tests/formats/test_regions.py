"""Regions of model space lie apart, away from the origin, and hold all they show."""

from __future__ import annotations

import dataclasses

import pytest
from pages import DETAIL_VIEW, DRAWING, PLAN_PAGE, PLAN_VIEW

from planset.drawing.geometry import Box
from planset.drawing.primitives import Area, Block, Circle, Insert, Line, Polyline, Primitive, Text
from planset.formats.regions import START, STEP, view_regions


def test_regions_lie_apart_and_away_from_the_origin() -> None:
    # This view shows a small window of a much larger thing, which must not reach the next region.
    wide = (Insert("ROOF", (0, 0), "0"), Line((-5000, 0), (9000, 40), "A-ROOF-RIDG"))
    view = dataclasses.replace(PLAN_VIEW, model=wide)
    page = dataclasses.replace(PLAN_PAGE, views=(view, DETAIL_VIEW))
    rows = view_regions(dataclasses.replace(DRAWING, pages=(page, page)))
    regions = [region for row in rows for region in row]
    assert len(regions) == 4
    for place, region in enumerate(regions):
        assert region.box.x0 >= START
        assert region.box.y0 >= START
        assert [part % STEP for part in region.offset] == [0, 0]
        for other in regions[:place]:
            assert not region.box.grown(STEP / 2 - 1e-6).overlaps(other.box.grown(STEP / 2 - 1e-6))


@pytest.mark.parametrize(
    ("part", "drawn"),
    [
        (Insert("BAR", (0, 0), "0", rotation_deg=90.0, scale=2.0), Box(0, 0, 0, 1400)),
        (Insert("BAR", (50, 50), "0"), Box(50, 50, 750, 50)),
        # a half circle on the left of its way, so up to its radius above
        (Polyline(((0, 300), (100, 300)), "0", bulges=(-1.0, 0.0)), Box(0, 300, 100, 350)),
        (Circle((0, 0), 200, "0"), Box(-200, -200, 200, 200)),
        (Text("EAVE", (0, 0), 100, "0", "right", 90.0), Box(-100, -290, 0, 0)),
        (Area(((0, 0), (9, 400), (5, 0)), "0"), Box(0, 0, 9, 400)),
    ],
)
def test_a_region_holds_all_that_is_drawn(part: Primitive, drawn: Box) -> None:
    view = dataclasses.replace(DETAIL_VIEW, window=Box(0, 0, 1, 1), model=(part,), annotation=())
    bar = Block("BAR", (Line((0, 0), (700, 0), "0"),))
    page = dataclasses.replace(PLAN_PAGE, paper=(), views=(view,))
    ((region,),) = view_regions(dataclasses.replace(DRAWING, pages=(page,), blocks={"BAR": bar}))
    assert region.box.contains(drawn.moved(*region.offset))
