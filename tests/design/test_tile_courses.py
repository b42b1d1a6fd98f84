"""Where hooks leave the tile, worked by hand from the courses and pans, and whatever they are."""

from __future__ import annotations

from typing import Any

import pytest
from houses import EXAMPLE, house, placed_arrays, roof_of_house
from hypothesis import given
from hypothesis import strategies as st

from planset.design.buildup import build_up
from planset.design.place_racking import place_racking
from planset.design.racking import Racking, Rail
from planset.design.tile_courses import Laps, Pans, TileFit, all_at_laps, tile_fit
from planset.job.load import Inputs, read_job

# Noses at 4, 19, 34 ... in: an arm's face may be at 1.25 to 3.75, 16.25 to 18.75, 31.25 to 33.75 in
LAPS = Laps(first_in=4.0, exposure_in=15.0, least_below_in=0.25, most_below_in=2.75)


def fitted(inputs: Inputs) -> tuple[Racking, TileFit]:
    """Rails and hooks of the only array of a house, and how they meet its tile."""
    arrays = placed_arrays(inputs)
    (array,), (rack,) = arrays, place_racking(inputs, roof_of_house(inputs), arrays)
    return rack, tile_fit(inputs, array, rack, build_up(inputs, array))


@pytest.mark.parametrize(
    ("v", "shift"),
    [
        (16.25, 0.0),  # the plate just behind the lower tile
        (18.0, 0.0),
        (18.75, 0.0),  # the arm's back at the nose
        (18.875, -0.125),
        (16.0, 0.25),
        (24.0, -5.25),  # 24 - 18.75, where 31.25 - 24 is more
        (26.0, 5.25),  # 31.25 - 26, where 26 - 18.75 is more
        (0.0, 1.25),
        (-30.0, 31.25),  # there is no lap below the first
    ],
)
def test_the_way_to_the_nearest_lap_by_hand(v: float, shift: float) -> None:
    assert LAPS.shift_in(v) == pytest.approx(shift, abs=1e-12)


@pytest.mark.parametrize(
    ("v", "below"),
    [
        (16.25, 2.75),  # of the nose at 19
        (18.0, 1.0),
        (18.75, 0.25),
        (20.0, -1.0),  # 1.25 in above its place there, 11.25 in below the next
        (31.0, 3.0),  # too far below the nose at 34
        (0.0, 4.0),  # there is no lap below the first
    ],
)
def test_below_the_nose_of_the_nearest_lap_by_hand(v: float, below: float) -> None:
    assert LAPS.below_in(v) == pytest.approx(below, abs=1e-12)


@pytest.mark.parametrize(
    ("u", "side"),
    [(5.0, 0.0), (7.0, -2.0), (10.0, -5.0), (11.0, 5.0), (84.0, -2.0), (132.0, 5.0), (-7.0, 1.0)],
)
def test_the_way_to_the_nearest_pan_by_hand(u: float, side: float) -> None:
    """Pans at 5, 16, 27 ... 82, 137 in and, left of a valley, at -6 in."""
    assert Pans(5.0, 11.0).side_in(u) == pytest.approx(side)


def test_the_example_by_hand() -> None:
    # Plate foot 17 + 1/4 in up from the lower nose, arm 5-1/2 in back: 11.75, of 14 in to the next.
    # Rails begin 20 - 1 in up, hooks at 26, 68, 110 ... and noses at 13 + 14 n: 27, 69, 111 ...
    # Rafter 3 at 12 + 48 in, pans at 9 + 11 n: 53 and 64; each rafter is 2 in farther in its pan.
    rack, fit = fitted(read_job(EXAMPLE))
    assert fit.laps == Laps(13.0, 14.0, 0.25, 2.25)
    assert fit.pans == Pans(9.0, 11.0)
    assert [hook.v_in for hook in rack.attachments[:3]] == [26, 68, 110]
    assert {hook.shift_in for hook in fit.hooks} == {0.0}
    assert {hook.below_in for hook in fit.hooks} == {1.0}
    sides = {hook.line: hook.side_in for hook in fit.hooks}
    assert [sides[n] for n in (3, 4, 5, 6, 7, 8)] == pytest.approx([4, 2, 0, -2, -4, 5])


def test_rows_that_begin_apart_may_share_no_first_attachment() -> None:
    # 36 and 42.125 in differ by 6.125 in, and an arm has 2.5 in of room at a lap of 15 in
    apart = (
        Rail("R1", "A1", 1, True, 84.0, 36.0, 180.0),
        Rail("R2", "A1", 2, True, 108.0, 42.125, 180.0),
    )
    assert all_at_laps(LAPS, Racking("A1", apart, ()), 12.0, 60.0) is None
    # a course apart they do: 36 + 12 and 51 + 12, 1 in below noses
    alike = (apart[0], Rail("R2", "A1", 2, True, 108.0, 51.0, 180.0))
    assert all_at_laps(LAPS, Racking("A1", alike, ()), 12.0, 60.0) == (12.0, 60.0)


@pytest.mark.parametrize(("stated", "courses"), [(6.0, 1), (15.0, 1), (44.0, 2), (60.0, 4)])
def test_the_spacing_is_whole_courses_within_the_stated_one(stated: float, courses: int) -> None:
    rails = (Rail("R1", "A1", 1, True, 84.0, 36.0, 180.0),)
    assert all_at_laps(LAPS, Racking("A1", rails, ()), 12.0, stated) == (12.0, courses * 15.0)


def test_a_short_arm_reaches_no_lap() -> None:
    # 17 + 1/4 - reach is below 15 - 1/4 from a reach of 2-1/2 in on
    for reach, reachable in ((2.4, False), (2.5, True)):
        changed = house({"mounting.attachment.arm_reach": reach})
        assert fitted(changed)[1].laps.reachable is reachable


def test_tile_that_nobody_surveyed_is_not_guessed() -> None:
    tile = house().tile.model_copy(update={"first_course": {"back": 4.0}, "first_pan": None})
    with pytest.raises(ValueError, match="plane front is not surveyed"):
        tile.first_course_on("front")
    with pytest.raises(ValueError, match="plane front is not surveyed"):
        tile.first_pan_on("front")
    assert tile.first_course_on("back") == 4.0


laps = st.builds(
    lambda first, exposure, least, room: Laps(
        first * exposure, exposure, least, least + room * (exposure - least)
    ),
    st.floats(0, 1),
    st.floats(6, 20),
    st.floats(0.1, 1),
    st.floats(0, 1),
)
heights = st.floats(-50, 500)


@given(laps, heights)
def test_a_hook_put_where_it_is_told_is_at_a_lap(given_laps: Laps, v: float) -> None:
    placed = v + given_laps.shift_in(v)
    assert given_laps.shift_in(placed) == pytest.approx(0, abs=1e-6)
    below = [given_laps.first_in + n * given_laps.exposure_in - placed for n in range(120)]
    low, high = given_laps.least_below_in - 1e-6, given_laps.most_below_in + 1e-6
    assert any(low <= distance <= high for distance in below)


@given(laps, heights)
def test_no_other_lap_is_nearer(given_laps: Laps, v: float) -> None:
    ways = []
    for n in range(120):
        low, high = given_laps.places(n)
        ways.append(0.0 if low <= v <= high else min(abs(low - v), abs(high - v)))
    assert abs(given_laps.shift_in(v)) == pytest.approx(min(ways), abs=1e-6)


@given(st.floats(0, 30), st.floats(6, 20), st.floats(-400, 800))
def test_an_arm_moved_to_the_side_is_in_the_nearest_pan(
    first: float, pitch: float, u: float
) -> None:
    side = Pans(first, pitch).side_in(u)
    assert abs(side) <= pitch / 2 + 1e-9
    pans = (u + side - first) / pitch
    assert pans == pytest.approx(round(pans), abs=1e-6)


roofs = st.fixed_dictionaries(
    {
        "roof.covering.exposure": st.floats(13, 16),
        "roof.covering.first_course": st.floats(0, 13),
        "arrays.A1.corner.up": st.floats(0, 60),
        "arrays.A1.mounting.first_attachment": st.floats(0, 30),
        "arrays.A1.mounting.attachment_spacing": st.floats(12, 72),
    }
)


@given(roofs)
def test_what_is_advised_puts_every_hook_at_a_lap(changes: dict[str, Any]) -> None:
    rack, fit = fitted(house(changes))
    place = "arrays.A1.mounting"
    first = changes[f"{place}.first_attachment"]
    spacing = changes[f"{place}.attachment_spacing"]
    advised = all_at_laps(fit.laps, rack, first, spacing)
    assert advised is not None
    better = {f"{place}.first_attachment": advised[0], f"{place}.attachment_spacing": advised[1]}
    moved, found = fitted(house({**changes, **better}))
    assert len(moved.attachments) == len(found.hooks) > 0
    assert {hook.shift_in for hook in found.hooks} == {0.0}
    assert abs(advised[0] - first) <= fit.laps.exposure_in + 1 / 16
