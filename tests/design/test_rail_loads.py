"""Rails on their attachments: line loads, spans, free ends and the maker's table, by hand."""

import math
from dataclasses import replace

import pytest
from houses import EXAMPLE, house

from planset.design.design import Design, build_design
from planset.design.rail_loads import RailUse
from planset.design.span_table import NotCovered, SpanReading
from planset.job.load import read_job

SPACED = {"arrays.A1.mounting.attachment_spacing": 48.0, "mounting.rail.span_table": None}
"""Hooks of the base house 48 in apart, under rails without a table."""


def rails_of(design: Design) -> tuple[RailUse, ...]:
    return tuple(rail for array in design.loads.arrays for rail in array.rails)


def test_a_rail_of_the_base_house_by_hand() -> None:
    # rails at 24 in, hooks at 12, 60, 108 in of the 144 in: spans 48 in, ends 12 and 36 in.
    # qh at 13.75 ft in B: 15.14 psf. Middle hook 24 in by 48 in = 8 sq ft in zone 1: 1.5 x 1.5 x
    # .8 x 15.14 = 27.26 psf up, less 0.6 x 48 lb / 17.714 sq ft x cos 26.57; on 24 in of width
    design = build_design(house(SPACED))
    rail = rails_of(design)[1]
    own = [load for load in design.loads.attachments if load.attachment in ("H04", "H05", "H06")]
    assert [load.zone for load in own] == ["2e", "1", "2r"]
    assert [load.area_sqft for load in own] == [6, 8, 10]
    qh = 0.00256 * 2.01 * (15 / 1200) ** (2 / 7) * 0.85 * 110**2
    held = 0.6 * 48 / (71.6 * 35.625 / 144) * 12 / math.hypot(12, 6)
    middle = (0.6 * 1.5 * 1.5 * 0.8 * qh - held) * 24 / 144
    upper = (0.6 * 2.5 * 1.5 * 0.8 * qh - held) * 24 / 144  # zone 2r, the greatest on this rail
    assert (rail.span_in, rail.cantilever_in, rail.width_in) == (48, 36, 24)
    assert upper > middle
    assert rail.up_lb_per_in == pytest.approx(upper, rel=0.001)
    # the least pressure of 16 psf rules toward the roof: D + 0.6 W, 3 cos + 9.6 psf
    assert rail.down_lb_per_in == pytest.approx((3 * 12 / math.hypot(12, 6) + 9.6) * 24 / 144)
    assert rail.up is not None
    assert rail.down is not None
    # the free end of 36 in bends more than the span: 36^2 / 2 > 48^2 / 8
    assert rail.up.sagging.demand == pytest.approx(upper * 36**2 / 2, rel=0.001)
    assert rail.up.hogging.demand == pytest.approx(upper * 48**2 / 8, rel=0.001)
    assert rail.down.hogging.demand == pytest.approx(rail.down_lb_per_in * 36**2 / 2)
    assert rail.up.sagging.capacity == rail.up.hogging.capacity == 520 * 12
    # tip: w a^3 (a / 8 + L / 6), limit 2 a / 180
    tip = upper * 36**3 * (36 / 8 + 48 / 6) / (10.1e6 * 0.46)
    assert rail.up.deflection.demand == pytest.approx(tip, rel=0.001)
    assert rail.up.deflection.capacity == pytest.approx(2 * 36 / 180)
    assert rail.cantilever_limit_in == pytest.approx(0.33 * 48)


def test_the_published_line_load() -> None:
    # reference: 30 psf on half of 65 in is 81.25 lb/ft; over 4 ft, w L^2 / 8 is 162.5 lb ft
    rail = rails_of(build_design(house(SPACED)))[1]
    wide = 30 * 65 / 24 / 12
    assert wide * 12 == pytest.approx(81.25)
    assert rail.up is not None
    assert rail.up.hogging.demand / rail.up_lb_per_in * wide / 12 == pytest.approx(162.5)


def test_one_hook_makes_no_beam() -> None:
    (rail, *_) = rails_of(build_design(house({"arrays.A1.mounting.attachment_spacing": 140.0})))
    assert (rail.up, rail.down, rail.span_in) == (None, None, 0)
    assert rail.cantilever_in == 132
    assert rail.cantilever_limit_in == 0  # no span beside it: nothing is allowed


def test_a_wider_strip_of_modules_loads_a_rail_more() -> None:
    narrow = rails_of(build_design(house(SPACED)))[2]
    wide = rails_of(build_design(house({**SPACED, "arrays.A1.mounting.rail_every": 2})))[1]
    assert (narrow.width_in, wide.width_in) == (24, 48)
    # toward the roof 16 psf rules on any area: twice the load
    assert wide.down_lb_per_in == pytest.approx(2 * narrow.down_lb_per_in)
    assert wide.up_lb_per_in > narrow.up_lb_per_in


def test_the_load_is_the_greatest_of_its_own_attachments_over_their_lengths() -> None:
    design = build_design(read_job(EXAMPLE))
    (rack,), (array,) = design.racking, design.loads.arrays
    loads = {load.attachment: load for load in array.attachments}
    for rail in array.rails:
        own = [item for item in rack.attachments if item.rail == rail.rail]
        lines = [-loads[item.id].combined.uplift.normal_lb / item.tributary.height for item in own]
        assert rail.up_lb_per_in == pytest.approx(max(lines))
        assert set(rail.zones) == {loads[item.id].zone for item in own}


# ---------------------------------------------------------------- the maker's table


def test_the_table_of_the_example_is_read_for_the_worst_zone() -> None:
    # heron-tile: zones 2e and 2r are its zone 2; exposure B, 120 mph, 54 in
    rail = rails_of(build_design(read_job(EXAMPLE)))[2]
    assert set(rail.zones) == {"2e", "1", "2r"}
    assert isinstance(rail.table, SpanReading)
    assert (rail.table.row.zone, rail.table.row.exposure) == ("2", "B")
    assert (rail.table.row.span_in, rail.table.row.cantilever_in) == (54, 18)


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("wind_speed", 141.0, "wind"),
        ("exposure", "D", "exposure"),
        ("topographic_factor", 1.2, "Kzt"),
    ],
)
def test_a_site_beyond_the_table_is_not_covered(field: str, value: object, said: str) -> None:
    inputs = read_job(EXAMPLE)
    site = inputs.job.site.model_copy(update={field: value})
    job = inputs.job.model_copy(update={"site": site})
    rail = rails_of(build_design(replace(inputs, job=job)))[0]
    assert isinstance(rail.table, NotCovered)
    assert said in rail.table.reason


def test_a_system_without_a_table_has_no_reading() -> None:
    assert {rail.table for rail in rails_of(build_design(house(SPACED)))} == {None}


def test_a_free_end_keeps_to_the_maker_s_share_and_to_the_table() -> None:
    # 0.33 of 42 in is 13.86 in, under the 18 in of the cell; of 84 in it is 27.72, over them
    (near, far) = (_spaced(spacing) for spacing in (42.0, 84.0))
    assert near.cantilever_limit_in == pytest.approx(13.86)
    assert far.cantilever_limit_in == 18


def _spaced(spacing_in: float) -> RailUse:
    inputs = read_job(EXAMPLE)
    (array,) = inputs.job.arrays
    mounting = array.mounting.model_copy(update={"attachment_spacing": spacing_in})
    arrays = (array.model_copy(update={"mounting": mounting}),)
    job = inputs.job.model_copy(update={"arrays": arrays})
    return rails_of(build_design(replace(inputs, job=job)))[0]
