"""Modules in rows and columns, the boxes around them, and obstructions."""

from typing import Any

import pytest
import shapely
from houses import filled, house, placed_arrays, roof_of_house
from hypothesis import given
from hypothesis import strategies as st

from planset.design.layout import PlacedArray, place_obstructions, surface_to_plan
from planset.drawing.geometry import Box
from planset.job.arrays import Cell
from planset.job.obstructions import Obstruction
from planset.job.position import Position
from planset.roof.plane import polygon_area


def arrays_of(changes: dict[str, Any], name: str = "gable-40x30") -> tuple[PlacedArray, ...]:
    inputs = house(changes, name)
    return placed_arrays(inputs)


def the_array(**changes: object) -> PlacedArray:
    (array,) = arrays_of({f"arrays.A1.{key}": value for key, value in changes.items()})
    return array


def test_modules_stand_in_rows_from_the_eave_and_columns_from_the_left() -> None:
    array = the_array()  # 71.6 in by 35.625 in, gaps of 1/2 in, corner at 60 and 36
    places = [(m.id, m.row, m.column) for m in array.modules]
    assert places[0] == ("M01", 1, 1)
    assert places[4:6] == [("M05", 1, 5), ("M06", 2, 1)]
    assert places[-1] == ("M20", 4, 5)
    assert array.modules[0].surface == Box(60, 36, 131.6, 71.625)
    last = array.modules[-1].surface
    assert (last.x0, last.y0) == pytest.approx((60 + 4 * 72.1, 36 + 3 * 36.125))
    assert (last.x1, last.y1) == pytest.approx((420, 180))


def test_portrait_turns_the_modules() -> None:
    array = the_array(orientation="portrait")
    first = array.modules[0].surface
    assert (first.width, first.height) == pytest.approx((35.625, 71.6))
    assert array.frames.width == pytest.approx(5 * 35.625 + 4 * 0.5)
    assert array.frames.height == pytest.approx(4 * 71.6 + 3 * 0.5)


def test_tags_run_on_from_array_to_array() -> None:
    first, second = arrays_of({}, "gable-40x30-both")
    assert [m.id for m in first.modules] == [f"M{n:02d}" for n in range(1, 21)]
    assert [m.id for m in second.modules] == [f"M{n:02d}" for n in range(21, 41)]
    assert {m.array for m in second.modules} == {"A2"}


def test_rails_run_past_the_modules() -> None:
    (array,) = arrays_of({"mounting.rail.past_module": 1.25})
    frames, hardware = array.frames, array.hardware
    assert (hardware.y0, hardware.y1) == (frames.y0 - 1.25, frames.y1 + 1.25)
    assert (hardware.x0, hardware.x1) == (frames.x0, frames.x1)


@pytest.mark.parametrize(
    ("rise", "width_ft", "height_ft", "plan_sqft"),
    [  # fire-access.md section 7, cases 1, 3, 6, 9 (half) and 11 (half)
        (6, 30, 12, 321.99),
        (6, 36, 12, 386.39),
        (8, 30, 14, 349.46),
        (6, 30, 11, 590.32 / 2),
        (6, 36, 13, 837.18 / 2),
    ],
)
def test_area_in_plan(rise: float, width_ft: float, height_ft: float, plan_sqft: float) -> None:
    (array,) = arrays_of({**filled("A1", width_ft, height_ft), "roof.pitch": rise / 12})
    assert array.surface_area_sqin / 144 == pytest.approx(width_ft * height_ft)
    assert array.plan_area_sqin / 144 == pytest.approx(plan_sqft, abs=0.005)


def test_a_box_in_plan_has_the_area_in_plan() -> None:
    for array in arrays_of({}, "gable-40x30-both"):
        in_plan = polygon_area(surface_to_plan(array.plane, array.frames))
        assert in_plan == pytest.approx(array.plan_area_sqin)


sizes = st.fixed_dictionaries(
    {
        "arrays.A1.rows": st.integers(1, 8),
        "arrays.A1.columns": st.integers(1, 8),
        "arrays.A1.gap": st.floats(0, 12),
        "arrays.A1.orientation": st.sampled_from(["landscape", "portrait"]),
        "arrays.A1.corner.along": st.floats(0, 400),
        "arrays.A1.corner.up": st.floats(0, 200),
        "arrays.A1.plane": st.sampled_from(["front", "back"]),
    }
)


@given(sizes)
def test_modules_fill_their_box_and_keep_the_gap(changes: dict[str, Any]) -> None:
    (array,) = arrays_of(changes)
    rows, columns = changes["arrays.A1.rows"], changes["arrays.A1.columns"]
    gap = changes["arrays.A1.gap"]
    across, up = array.modules[0].surface.width, array.modules[0].surface.height
    assert len(array.modules) == rows * columns == len({m.id for m in array.modules})
    assert array.frames.width == pytest.approx(columns * across + (columns - 1) * gap)
    assert array.frames.height == pytest.approx(rows * up + (rows - 1) * gap)
    corner = (changes["arrays.A1.corner.along"], changes["arrays.A1.corner.up"])
    assert (array.frames.x0, array.frames.y0) == corner
    for module in array.modules:
        assert array.frames.contains(module.surface)
        roomy = module.surface.grown(gap / 2 - 1e-6)
        others = (m.surface.grown(gap / 2 - 1e-6) for m in array.modules if m is not module)
        assert not any(roomy.overlaps(other) for other in others)


def obstruction(**given: object) -> Obstruction:
    fields = {"id": "K", "plane": "back", "center": Position(along=100, up=50), "clearance": 6}
    return Obstruction.model_validate({**fields, **given}, context={"units": "in"})


def test_obstructions_stand_around_their_center() -> None:
    pipe = obstruction(kind="plumbing_vent", diameter=4)
    window = obstruction(id="L", kind="skylight", width=24, height=48)
    inputs = house({"obstructions": (pipe, window)})
    round_one, square_one = place_obstructions(inputs, roof_of_house(inputs))
    assert (round_one.surface, round_one.round, round_one.minor) == (
        Box(98, 48, 102, 52),
        True,
        True,
    )
    assert (square_one.surface, square_one.round) == (Box(88, 26, 112, 74), False)
    assert not square_one.minor
    assert round_one.plane.id == "back"
    assert round_one.clearance_in == 6


def test_an_array_ends_at_its_frames_where_cells_are_omitted() -> None:
    # an L of three modules of 71.6 in by 35.625 in, gaps 1/2 in: beside the omitted one it is no
    # larger than the frames, and the gaps between neighbors belong to it
    array = the_array(rows=2, columns=2, omit=(Cell(row=2, column=2),))
    wide, high = 2 * 71.6 + 0.5, 2 * 35.625 + 0.5
    assert array.field.area == pytest.approx(wide * 35.625 + 71.6 * (high - 35.625))
    frames = [module.surface for module in array.modules]
    assert array.field.bounds[2] == pytest.approx(max(frame.x1 for frame in frames))
    beside = shapely.Point(frames[-1].x1 + 0.1, frames[-1].y1)
    assert array.field.distance(beside) == pytest.approx(0.1)
