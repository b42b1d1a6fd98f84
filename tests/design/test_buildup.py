"""The build-up at a hook on curved tile, worked by hand from its layers."""

from typing import Any

import pytest
from houses import EXAMPLE, house, placed_arrays
from hypothesis import given
from hypothesis import strategies as st

from planset.design.buildup import BuildUp, build_up
from planset.job.load import Inputs, read_job


def built(inputs: Inputs) -> BuildUp:
    (array,) = placed_arrays(inputs)
    return build_up(inputs, array)


def test_the_layers_of_the_example_by_hand() -> None:
    # 1/2 in deck, 1/16 in underlayment, 3/4 in batten, plate 1/4 in, arm 4-3/4 in, rail 2.4 in,
    # foot 3/8 to 1-1/2 in, module 1.4 in
    found = built(read_job(EXAMPLE))
    assert found.deck_in == 0.5
    assert found.underlayment_in == 0.5625
    assert found.batten_in == 1.3125
    assert found.plate_in == 0.8125
    assert found.rail_under_in == 5.5625
    assert found.rail_top_in == pytest.approx(7.9625)
    assert found.module_top_in == pytest.approx(9.3625 + 0.9375)
    assert found.adjustment_in == 1.125


def test_the_tile_of_the_example_by_hand() -> None:
    # 17 in tiles of 1/2 in, 14 in apart: each course raises its nose by 17 x 0.5 / 14 in
    course = built(read_job(EXAMPLE)).course
    nose = 1.3125 + 17 * 0.5 / 14
    assert course.head_in == 1.3125
    assert course.nose_in == pytest.approx(nose)
    assert course.pan_top_in(0) == pytest.approx(nose + 0.5)
    assert course.pan_top_in(17) == pytest.approx(1.3125 + 0.5)


def test_clearances_of_the_example_by_hand() -> None:
    found = built(read_job(EXAMPLE))
    nose = 1.3125 + 17 * 0.5 / 14
    # highest cover: 2-3/4 in over the pan at a nose; lowest pan: where the next course begins
    assert found.cover_clearance_in == pytest.approx(5.5625 - (nose + 0.5 + 2.75))
    assert found.height_above_roof_in == pytest.approx(9.3625 + 1.5 - nose)
    # plate 1/4 in above the lower tile's head, arm 5-1/2 in down from it, 1/4 in over the pan
    assert found.hook is not None
    assert found.hook.plate_foot_s_in == 17.25
    assert found.hook.arm_s_in == 11.75
    pan_there = nose - 11.75 * 0.5 / 14 + 0.5
    assert found.hook.arm_underside_in == pytest.approx(pan_there + 0.25)


tiles = st.fixed_dictionaries(
    {
        "roof.covering.exposure": st.floats(6, 16),
        "roof.covering.length": st.floats(16.5, 24),
        "roof.covering.thickness": st.floats(0.25, 1),
        "roof.covering.rise": st.floats(0.5, 4),
        "roof.covering.batten": st.floats(0, 2),
        "framing.sheathing": st.floats(0, 1.5),
        "mounting.attachment.arm_rise": st.floats(3, 9),
    }
)


@given(tiles)
def test_each_nose_lies_on_the_tile_below(changes: dict[str, Any]) -> None:
    course = built(house(changes)).course
    assert course.pan_top_in(course.exposure_in) == pytest.approx(course.nose_in)
    assert course.underside_in(course.length_in) == pytest.approx(course.head_in)


@given(tiles)
def test_layers_stack_upward(changes: dict[str, Any]) -> None:
    found = built(house(changes))
    assert 0 <= found.deck_in < found.underlayment_in <= found.batten_in
    assert found.underlayment_in < found.plate_in < found.rail_under_in
    assert found.rail_under_in < found.rail_top_in < found.module_top_in


@given(tiles, st.floats(0.01, 2))
def test_a_higher_arm_lifts_rail_and_module_alike(changes: dict[str, Any], by: float) -> None:
    low = built(house(changes))
    rise = changes["mounting.attachment.arm_rise"] + by
    high = built(house({**changes, "mounting.attachment.arm_rise": rise}))
    assert high.cover_clearance_in - low.cover_clearance_in == pytest.approx(by)
    assert high.height_above_roof_in - low.height_above_roof_in == pytest.approx(by)
    assert high.hook == low.hook
