"""Rafters, rails on them, and attachments with their shares of the array."""

from itertools import groupby
from typing import Any

import pytest
from houses import house, placed_arrays, roof_of_house
from hypothesis import assume, given
from hypothesis import strategies as st

from planset.design.layout import PlacedArray
from planset.design.place_racking import place_racking
from planset.design.racking import Racking
from planset.design.support_lines import bearings_under, rafters_under
from planset.job.by_plane import EVERY_PLANE


def racked(
    changes: dict[str, Any] | None = None, name: str = "gable-40x30"
) -> list[tuple[PlacedArray, Racking]]:
    inputs = house(changes, name)
    arrays = placed_arrays(inputs)
    return list(zip(arrays, place_racking(inputs, roof_of_house(inputs), arrays), strict=True))


def on_one_rail(first: float, spacing: float) -> Racking:
    """Attachments on the one rail of a single column 144 in high."""
    ((_, rack),) = racked(
        {
            "arrays.A1.columns": 1,
            "arrays.A1.mounting.rail_every": 20,
            "arrays.A1.mounting.first_attachment": first,
            "arrays.A1.mounting.attachment_spacing": spacing,
        }
    )
    assert len(rack.rails) == 1
    return rack


@pytest.mark.parametrize(
    ("first", "spacing", "count", "last"),
    [
        (12, 24, 20, 468),
        (0, 24, 21, 480),  # one on each rake
        (12, 16, 30, 476),
        (480, 24, 1, 480),
        (481, 24, 0, None),
    ],
)
def test_rafters_from_rake_to_rake(
    first: float, spacing: float, count: int, last: float | None
) -> None:
    inputs = house({"framing.first_rafter": first, "framing.spacing": spacing})
    rafters = rafters_under(roof_of_house(inputs).plane("front"), inputs.job.framing)
    assert [r.number for r in rafters] == list(range(1, count + 1))
    assert rafters[-1].u_in == last if rafters else last is None


def test_rails_of_the_base_house() -> None:
    # rafters at 12 in and every 24 in; from the fourth on, under 60 to 420 in: the one at 420 in
    # would lie half beside the modules
    ((array, rack),) = racked()
    assert [held[0].line for held in rack.by_rail.values()] == list(range(4, 18))
    assert [rail.line_in for rail in rack.rails] == [84 + 24 * n for n in range(14)]
    assert {(rail.start_in, rail.end_in) for rail in rack.rails} == {(36, 180)}
    assert rack.rails[0].length_in == array.frames.height == 144


def test_no_rail_half_beside_the_modules() -> None:
    # modules from 84 to 444 in: the rafters at both edges carry no rail
    ((_, rack),) = racked({"arrays.A1.corner.along": 84.0})
    assert [rail.line_in for rail in rack.rails] == [108 + 24 * n for n in range(14)]


def test_every_other_rafter() -> None:
    ((_, rack),) = racked({"arrays.A1.mounting.rail_every": 2})
    assert [held[0].line for held in rack.by_rail.values()] == [4, 6, 8, 10, 12, 14, 16]


def test_shares_of_the_base_house() -> None:
    # heights 36 + 12 and every 60 in: 48, 108 and 168, halfway at 78 and 138; each 36 in wide
    ((_, rack),) = racked()
    first = [item for item in rack.attachments if item.rail == "R1"]
    assert [item.id for item in first] == ["H01", "H02", "H03"]
    assert [item.v_in for item in first] == [48, 108, 168]
    assert [(s.tributary.y0, s.tributary.y1) for s in first] == [(36, 78), (78, 138), (138, 180)]
    assert {(s.tributary.x0, s.tributary.x1) for s in first} == {(60, 96)}
    assert [item.tributary_sqft for item in first] == [10.5, 15, 10.5]


def test_a_published_share() -> None:
    # Everett permit calculation: half of a 65 in panel by 48 in is 10.83 sq ft
    changes = {
        "module.height": 65.0,
        "arrays.A1.orientation": "portrait",
        "module.width": 144.0,
        "arrays.A1.rows": 1,
        "arrays.A1.columns": 1,
        "arrays.A1.gap": 0.0,
        "framing.first_rafter": 60 + 65 / 4,
        "framing.spacing": 32.5,
        "arrays.A1.mounting.first_rail_rafter": 1,
        "arrays.A1.mounting.first_attachment": 24.0,
        "arrays.A1.mounting.attachment_spacing": 48.0,
    }
    ((_, rack),) = racked(changes)
    areas = [item.tributary_sqft for item in rack.attachments]
    assert areas == pytest.approx([10.83] * 6, abs=0.005)


def test_what_rafters_bear_on_runs_across_the_plane() -> None:
    # a gable 40 ft long, 180 in deep in plan, at 6:12; the upper support is the ridge
    inputs = house({"framing.supports": {EVERY_PLANE: (12.0, 90.0, 180.0)}})
    assert inputs.job.framing
    found = bearings_under(roof_of_house(inputs).plane("front"), inputs.job.framing)
    assert [line.from_eave_in for line in found] == [12, 90, 180]
    assert [line.v_in for line in found] == pytest.approx([at * 5**0.5 / 2 for at in (12, 90, 180)])
    assert [line.spans for line in found] == [((0, pytest.approx(480)),)] * 3


def test_on_a_hip_the_upper_supports_are_shorter() -> None:
    # hips of 45 degrees in plan: a line so far up ends so far in from both ends of the eave
    inputs = house({"framing.supports": {EVERY_PLANE: (0.0, 90.0)}}, "hip-40x30-three")
    assert inputs.job.framing
    eave, purlin = bearings_under(roof_of_house(inputs).plane("front"), inputs.job.framing)
    assert eave.spans == ((pytest.approx(0), pytest.approx(480)),)
    assert purlin.spans == ((pytest.approx(90), pytest.approx(390)),)


@pytest.mark.parametrize(
    ("first", "spacing", "heights", "factors"),
    [
        # handbook: reaction of the middle support of two spans 1.25 wL, 1.143 wL at most of four
        (12, 120, [12, 132], [1 + 1 / 120, 1 + 1 / 120]),  # 1 + 12^2 / (120 (120 + 24))
        (12, 48, [12, 60, 108], [1.25, 1.25, 1.25]),
        (12, 40, [12, 52, 92, 132], [1.15, 1.15, 1.15, 1.15]),
        (0, 36, [0, 36, 72, 108, 144], [1.15, 1.15, 1.15, 1.15, 1.15]),
        (72, 100, [72], [1.0]),
        (0, 144, [0, 144], [1.0, 1.0]),
        # long rail ends: 1 + a^2 / (L (L + 2 a)), by moments about the other support
        (60, 60, [60, 120], [4 / 3, 1 + 24**2 / (60 * 108)]),
        # three moments: -1202.1 over the middle one, 420.1 and 74.5 in of load on the outer ones
        (100, 20, [100, 120, 140], [420.1 / 110, 1.25, 74.5 / 14]),
    ],
)
def test_supports_of_a_continuous_rail(
    first: float, spacing: float, heights: list[float], factors: list[float]
) -> None:
    rack = on_one_rail(first, spacing)
    assert [item.v_in - 36 for item in rack.attachments] == heights
    assert [item.continuity for item in rack.attachments] == pytest.approx(factors)


def test_the_end_factor_is_the_reaction_of_a_beam() -> None:
    # w = 1 lb/in over 144 in, supports at 72 and 144: moments about the upper support
    lower, _ = on_one_rail(72, 72).attachments
    assert lower.continuity * lower.tributary.height == pytest.approx(144 * 72 / 72)


@pytest.mark.parametrize("first", [25, 40, 60, 72, 84])
def test_two_supports_take_no_less_than_their_reactions(first: float) -> None:
    # w = 1 lb/in over 144 in: moments about the other support
    lower, upper = on_one_rail(first, 60).attachments
    low, high = lower.v_in - 36, upper.v_in - 36
    reactions = (144 * (high - 72) / 60, 144 * (72 - low) / 60)
    for item, reaction in zip((lower, upper), reactions, strict=True):
        assert item.continuity * item.tributary.height >= reaction - 1e-9


def test_no_rails_under_an_array_past_the_last_rafter() -> None:
    ((_, rack),) = racked({"arrays.A1.mounting.first_rail_rafter": 21})
    assert (rack.rails, rack.attachments) == ((), ())


def test_no_attachments_on_rails_that_end_before_the_first() -> None:
    ((_, rack),) = racked({"arrays.A1.mounting.first_attachment": 145})
    assert len(rack.rails) == 14
    assert rack.attachments == ()


def test_tags_run_on_from_array_to_array() -> None:
    (_, first), (_, second) = racked({}, "gable-40x30-both")
    assert [r.id for r in (*first.rails, *second.rails)] == [f"R{n}" for n in range(1, 29)]
    assert second.attachments[0].id == "H43"
    assert {item.array for item in second.attachments} == {"A2"}


mountings = st.fixed_dictionaries(
    {
        "arrays.A1.rows": st.integers(1, 5),
        "arrays.A1.columns": st.integers(1, 6),
        "arrays.A1.corner.along": st.floats(0, 300),
        "arrays.A1.corner.up": st.floats(0, 100),
        "arrays.A1.mounting.first_rail_rafter": st.integers(1, 12),
        "arrays.A1.mounting.rail_every": st.integers(1, 4),
        "arrays.A1.mounting.first_attachment": st.floats(0, 60),
        "arrays.A1.mounting.attachment_spacing": st.floats(6, 90),
        "mounting.rail.past_module": st.floats(0, 24),
        "framing.first_rafter": st.floats(0, 30),
        "framing.spacing": st.sampled_from([12.0, 16.0, 19.2, 24.0]),
        "arrays.A1.plane": st.sampled_from(["front", "back"]),
    }
)


@given(mountings)
def test_shares_make_the_whole_array(changes: dict[str, Any]) -> None:
    ((array, rack),) = racked(changes)
    assume(rack.attachments)
    areas = [item.tributary_sqft for item in rack.attachments]
    assert min(areas) >= 0
    assert sum(areas) == pytest.approx(array.surface_area_sqin / 144)
    assert all(array.frames.contains(item.tributary) for item in rack.attachments)


@given(mountings)
def test_shares_do_not_overlap(changes: dict[str, Any]) -> None:
    ((_, rack),) = racked(changes)
    boxes = [item.tributary.grown(-1e-6) for item in rack.attachments]
    solid = [box for box in boxes if box.width > 0 and box.height > 0][:40]
    assert not any(a.overlaps(b) for n, a in enumerate(solid) for b in solid[n + 1 :])


@given(mountings)
def test_every_attachment_stands_on_its_rafter_and_rail(changes: dict[str, Any]) -> None:
    ((array, rack),) = racked(changes)
    first, spacing = changes["framing.first_rafter"], changes["framing.spacing"]
    rails = {rail.id: rail for rail in rack.rails}
    for item in rack.attachments:
        assert item.u_in == pytest.approx(first + (item.line - 1) * spacing)
        rail = rails[item.rail]
        assert rail.line_in == item.u_in
        assert rail.start_in - 1e-6 <= item.v_in <= rail.end_in + 1e-6
        assert array.frames.x0 <= item.u_in <= array.frames.x1
    steps = {
        item.line - changes["arrays.A1.mounting.first_rail_rafter"] for item in rack.attachments
    }
    assert all(step % changes["arrays.A1.mounting.rail_every"] == 0 for step in steps)
    assert len({item.id for item in rack.attachments}) == len(rack.attachments)


@given(mountings)
def test_attachments_go_up_each_rail_at_the_spacing(changes: dict[str, Any]) -> None:
    ((_, rack),) = racked(changes)
    spacing = changes["arrays.A1.mounting.attachment_spacing"]
    for rail, group in groupby(rack.attachments, key=lambda item: item.rail):
        heights = [item.v_in for item in group]
        steps = [b - a for a, b in zip(heights, heights[1:], strict=False)]
        assert steps == pytest.approx([spacing] * len(steps))
        (end,) = (r.end_in for r in rack.rails if r.id == rail)
        assert end - heights[-1] < spacing + 1e-6  # none is missing at the top
