"""Order of wiring, reach of leads, clips, working spaces: by computations of their own."""

from __future__ import annotations

from itertools import pairwise, permutations
from types import SimpleNamespace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planset.design.electrical.leads import hops
from planset.design.electrical.routes import roof_routes
from planset.design.electrical.string_map import step_in, string_order
from planset.design.electrical.wall import apart_on_wall_in, service_volts_to_ground
from planset.design.electrical.wall import working_spaces as spaces_of
from planset.design.layout import PlacedModule
from planset.drawing.geometry import Box
from planset.job.electrical.wall import EquipmentWall
from tests.sheets.drawn_sets import own_sheet

ACROSS, UP, GAP = 68.0, 45.0, 0.5


def array(cells: set[tuple[int, int]]) -> Any:
    """An array with modules in some cells of a grid."""
    modules = []
    for number, (row, column) in enumerate(sorted(cells), 1):
        u, v = (column - 1) * (ACROSS + GAP), (row - 1) * (UP + GAP)
        box = Box(u, v, u + ACROSS, v + UP)
        modules.append(PlacedModule(f"M{number:02d}", "A1", row, column, box))
    rows, columns = (max(cell[i] for cell in cells) for i in (0, 1))
    return SimpleNamespace(
        modules=tuple(modules), extent=SimpleNamespace(rows=rows, columns=columns)
    )


def grid(rows: int, columns: int) -> set[tuple[int, int]]:
    return {(row, column) for row in range(1, rows + 1) for column in range(1, columns + 1)}


def longest(circuits: Any) -> float:
    return max((step_in(a, b) for modules in circuits for a, b in pairwise(modules)), default=0.0)


@settings(max_examples=40, deadline=None)
@given(st.integers(1, 6), st.integers(1, 8), st.data())
def test_every_module_is_wired_once_and_no_step_of_a_rectangle_skips_one(
    rows: int, columns: int, data: st.DataObject
) -> None:
    count = rows * columns
    first = data.draw(st.integers(0, count))
    box = data.draw(st.tuples(st.floats(-50, 600), st.floats(-50, 300)))
    circuits = string_order(array(grid(rows, columns)), [first, count - first], box)
    assert [len(modules) for modules in circuits] == [first, count - first]
    tags = sorted(module.id for modules in circuits for module in modules)
    assert tags == [f"M{number:02d}" for number in range(1, count + 1)]
    assert longest(circuits) <= ACROSS + GAP + 1e-6


@pytest.mark.parametrize(
    "cells",
    [
        grid(2, 3) - {(2, 1)},
        grid(2, 4) - {(1, 2)},
        grid(3, 3) - {(3, 1), (3, 3)},
        {(1, 1), (1, 2), (1, 3), (2, 2)},
    ],
)
def test_no_other_order_of_a_small_array_has_shorter_steps(cells: set[tuple[int, int]]) -> None:
    one = array(cells)
    best = min(longest([order]) for order in permutations(one.modules))
    assert longest(string_order(one, [len(cells)])) == pytest.approx(best)


def test_a_branch_begins_at_its_box() -> None:
    one = array(grid(1, 6))
    (branch,) = string_order(one, [6], (6 * ACROSS, -9.0), branches=True)
    assert [module.id for module in branch] == ["M06", "M05", "M04", "M03", "M02", "M01"]


@pytest.mark.parametrize("name", ["tile-gable", "cross-gable", "shingle-hip", "battery-retrofit"])
def test_steps_are_those_between_frames(name: str) -> None:
    design = own_sheet(name).design
    box = {m.id: m.surface for a in design.arrays for m in a.modules}
    found = hops(design)
    circuits = (*design.electrical.strings, *design.electrical.branches)
    assert len(found) == sum(len(circuit.modules) - 1 for circuit in circuits)
    for hop in found:
        (u0, v0), (u1, v1) = box[hop.first].center, box[hop.second].center
        assert hop.distance_in == pytest.approx(abs(u1 - u0) + abs(v1 - v0))


@pytest.mark.parametrize(("name", "routes"), [("tile-gable", 1), ("flat-commercial", 3)])
def test_a_route_is_as_long_as_its_points_are_apart_in_space(name: str, routes: int) -> None:
    design = own_sheet(name).design
    found = roof_routes(design.inputs, design.roof)
    assert len(found) == routes
    for route in found:
        plane = route.plane
        space = [plane.lift(plane.to_plan(point)) for point in route.points]
        apart = sum(
            sum((p - q) ** 2 for p, q in zip(a, b, strict=True)) ** 0.5 for a, b in pairwise(space)
        )
        assert sum(route.legs_in) == pytest.approx(apart)
        run = design.inputs.job.electrical.wiring.run("dc", route.box)
        assert run is not None
        others = sum(place.length or 0.0 for place in run.places)
        lengths = {
            segment.conductors.length_ft
            for segment in design.electrical.topology.segments_of("dc")
            if segment.conductors and route.box in ("", segment.box)
        }
        assert list(lengths) == [pytest.approx((apart + others) / 12)]


# --- walls ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("voltage", "phases", "to_ground"),
    # Nominal voltages of NEC 220.5(A): 120/240, 208Y/120, 480Y/277; a delta counts whole.
    [(240.0, 1, 120.0), (208.0, 3, 120.1), (480.0, 3, 277.1), (240.0, 3, 240.0)],
)
def test_voltage_to_ground_of_a_service(voltage: float, phases: int, to_ground: float) -> None:
    service: Any = SimpleNamespace(voltage=voltage, phases=phases)
    assert service_volts_to_ground(service) == pytest.approx(to_ground, abs=0.05)


@settings(max_examples=50, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(0, 150), st.integers(6, 40), st.integers(2, 12)),
        min_size=1,
        max_size=4,
    )
)
def test_a_working_space_covers_its_equipment(pieces: list[tuple[int, int, int]]) -> None:
    design = own_sheet("tile-gable").design
    equipment = [
        {
            "tag": f"X{n}",
            "left": float(left),
            "bottom": 40.0,
            "width": float(width),
            "height": 20.0,
            "depth": float(depth),
        }
        for n, (left, width, depth) in enumerate(pieces)
    ]
    wall = EquipmentWall.model_validate(
        {
            "name": "W",
            "width": 200.0,
            "height": 108.0,
            "free_depth": 60.0,
            "condition": 1,
            "equipment": equipment,
        },
        context={"units": "in"},
    )
    for space in spaces_of(design, wall):
        item = space.item
        assert space.width == pytest.approx(max(30.0, item.width))  # 110.26(A)(2)
        assert space.left <= item.left + 1e-6
        assert space.right >= item.left + item.width - 1e-6
        assert space.height == 78.0  # 110.26(A)(3)
        assert space.depth == 36.0  # Table 110.26(A)(1), up to 150 V to ground


def test_distance_on_a_wall_is_from_middle_to_middle() -> None:
    (wall,) = own_sheet("tile-gable").design.inputs.job.electrical.walls
    items = {item.tag: item for item in wall.equipment}
    meter, switch = items["M1"], items["DISC1"]
    across = meter.left + meter.width / 2 - switch.left - switch.width / 2
    up = meter.bottom + meter.height / 2 - switch.bottom - switch.height / 2
    assert apart_on_wall_in(wall, "M1", "DISC1") == pytest.approx((across**2 + up**2) ** 0.5)
    assert apart_on_wall_in(wall, "M1", "INV9") is None
