"""Arrays beside edges and beside each other, by hand-made layouts.

The test of the edge factor: ASCE 7-16 and 7-22, 29.4.3, taken over by 29.4.4.
"""

from __future__ import annotations

import math
import time
from collections.abc import Iterable
from dataclasses import replace

import pytest
from houses import house, placed_arrays
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString

from planset.design.layout import PlacedArray, PlacedModule
from planset.design.wind_arrays import (
    SIDES,
    ExposureTest,
    ModuleExposure,
    clearance_in,
    exposures,
)
from planset.drawing.geometry import Box
from planset.roof.shapes import Dormer, MainRoof, Wing, gable_roof, shaped_roof
from planset.roof.solid import EdgeKind, Roof
from tests.roof.roofs import roofs

WIDE = gable_roof(2400, 2400, 0.75, 180)  # slopes of 2400 in by 1500 in
TEST = ExposureTest(180, 8, 100 / 1.5)  # edges 90 in off, gaps of 48 in, a reach of 100 in
W, H = 60, 40  # a module


def array_at(
    cells: Iterable[tuple[int, int]],
    corner: tuple[float, float] = (500, 500),
    name: str = "A1",
    roof: Roof = WIDE,
    gap: float = 1.0,
) -> PlacedArray:
    """Return an array of modules of 60 in by 40 in at (row, column) cells of a grid."""
    (base,) = placed_arrays(house())
    modules = tuple(
        PlacedModule(
            f"{name}-{row}.{column}",
            name,
            row,
            column,
            Box(
                u := corner[0] + (column - 1) * (W + gap),
                v := corner[1] + (row - 1) * (H + gap),
                u + W,
                v + H,
            ),
        )
        for row, column in cells
    )
    given_array = base.given.model_copy(update={"id": name})
    return replace(base, given=given_array, plane=roof.plane("front"), modules=modules)


def grid(rows: int, columns: int, *omitted: tuple[int, int]) -> list[tuple[int, int]]:
    cells = [(r, c) for r in range(1, rows + 1) for c in range(1, columns + 1)]
    return [cell for cell in cells if cell not in omitted]


def module_exposures(
    array: PlacedArray, *others: PlacedArray, roof: Roof = WIDE, test: ExposureTest = TEST
) -> dict[tuple[int, int], ModuleExposure]:
    found = exposures(roof, array, others, test)
    return {(m.row, m.column): exposure for m, exposure in zip(array.modules, found, strict=True)}


def exposed_sides(exposure: ModuleExposure) -> tuple[str, ...]:
    return tuple(side.side for side in exposure.sides if side.exposed)


# ---------------------------------------------------------------- the edge factor


def test_an_array_far_from_everything_is_exposed_all_around() -> None:
    found = module_exposures(array_at(grid(7, 7)))
    assert exposed_sides(found[1, 1]) == ("left", "lower")
    assert exposed_sides(found[1, 4]) == ("lower",)
    assert exposed_sides(found[4, 7]) == ("right",)
    assert exposed_sides(found[7, 7]) == ("right", "upper")
    assert exposed_sides(found[4, 4]) == ()
    assert {cell for cell, module in found.items() if module.exposed} == {
        (r, c) for r, c in grid(7, 7) if r in (1, 7) or c in (1, 7)
    }


def test_the_factor_reaches_in_from_an_exposed_end() -> None:
    # modules of 60 in every 61 in along the row: 0, 61, 122 in from the end; 41 in up: 0, 41, 82
    found = module_exposures(array_at(grid(9, 9)))
    near = {cell for cell, module in found.items() if module.edge_factor == 1.5}
    assert near == {(r, c) for r, c in grid(9, 9) if c in (1, 2, 8, 9) or r in (1, 2, 3, 7, 8, 9)}
    assert found[5, 2].end_in == 61
    assert found[3, 5].end_in == 82
    assert found[5, 5].end_in == 164  # of four rows below, nearer than 244 in along the row
    assert found[5, 5].edge_factor == 1.0


@pytest.mark.parametrize(("reach", "near"), [(60.9, False), (61, True)])
def test_the_reach_counts_from_where_a_module_begins(reach: float, near: bool) -> None:
    found = module_exposures(array_at(grid(9, 9)), test=replace(TEST, chord_in=reach / 1.5))
    assert (found[5, 2].edge_factor == 1.5) is near


def test_beside_a_roof_edge_nothing_is_exposed() -> None:
    near = module_exposures(array_at(grid(2, 2), (90, 90)))  # 0.5 h = 90 in is not beyond 90 in
    assert exposed_sides(near[1, 1]) == ()
    assert exposed_sides(near[1, 2]) == ("right",)
    beyond = module_exposures(array_at(grid(2, 2), (90.1, 90.1)))
    assert exposed_sides(beyond[1, 1]) == ("left", "lower")
    left, right, lower, upper = near[1, 1].sides
    assert (left.edge_in, lower.edge_in) == (90, 90)
    assert right.edge_in == pytest.approx(2400 - 150)
    assert (right.panel_in, upper.panel_in, left.panel_in, lower.panel_in) == (1, 1, None, None)


def test_a_ridge_is_no_roof_edge() -> None:
    found = module_exposures(array_at(grid(1, 1), (500, 1440)))  # 20 in below the ridge
    upper = found[1, 1].sides[SIDES.index("upper")]
    assert (upper.edge_in, upper.exposed) == (None, True)


@pytest.mark.parametrize(("between", "exposed"), [(48, False), (48.1, True), (300, True)])
def test_the_next_array_shelters_up_to_the_gap(between: float, exposed: bool) -> None:
    one = array_at(grid(3, 3))
    other = array_at(grid(3, 3), (500 + 3 * 61 - 1 + between, 500), "A2")
    found = module_exposures(one, other)
    right = found[2, 3].sides[SIDES.index("right")]
    assert right.array_in == pytest.approx(between)
    assert right.panel_in is None
    assert right.exposed is exposed
    back = module_exposures(other, one)[2, 1].sides[SIDES.index("left")]
    assert (back.array_in, back.exposed) == (pytest.approx(between), exposed)
    assert found[2, 2].sides[SIDES.index("right")].panel_in == 1


def test_an_array_on_another_plane_shelters_nothing() -> None:
    other = replace(array_at(grid(3, 3), (690, 500), "A2"), plane=WIDE.plane("back"))
    right = module_exposures(array_at(grid(3, 3)), other)[2, 3].sides[SIDES.index("right")]
    assert (right.array_in, right.exposed) == (None, True)


def test_an_array_must_stand_before_half_of_a_side() -> None:
    one = array_at(grid(1, 1))
    for up, seen in [(19, 20), (20, 20), (21, None)]:
        other = array_at(grid(1, 1), (580, 500 + up), "A2")
        assert module_exposures(one, other)[1, 1].sides[SIDES.index("right")].array_in == seen
    halves = array_at(grid(2, 1), (580, 481), "A2", gap=0)  # 21 in below and 19 in above
    assert module_exposures(one, halves)[1, 1].sides[SIDES.index("right")].array_in == 20


def test_what_stands_behind_a_panel_covers_no_more() -> None:
    one = array_at(grid(1, 1))
    row = array_at(grid(1, 3), (580, 525), "A2")  # three before the same 15 in of 40
    assert module_exposures(one, row)[1, 1].sides[SIDES.index("right")].array_in is None


def test_one_omitted_cell_is_a_gap_of_a_module() -> None:
    # 62 in from frame to frame along the row and 42 in up the slope, against 48 in
    found = module_exposures(array_at(grid(5, 5, (3, 3))))
    assert exposed_sides(found[3, 2]) == ("right",)
    assert exposed_sides(found[3, 4]) == ("left",)
    assert exposed_sides(found[2, 3]) == exposed_sides(found[4, 3]) == ()
    assert found[3, 2].sides[SIDES.index("right")].panel_in == 62
    assert found[2, 3].sides[SIDES.index("upper")].panel_in == 42
    wide = module_exposures(array_at(grid(9, 9, (5, 5))))
    assert wide[5, 4].edge_factor == 1.5
    assert wide[5, 4].end_in == 0
    assert wide[5, 3].end_in == 61  # from the gap, and from the left end 122
    assert wide[4, 5].edge_factor == 1.0


def test_omitted_corner_makes_ends_of_the_rows_it_shortens() -> None:
    found = module_exposures(array_at(grid(3, 3, (3, 3))))
    assert exposed_sides(found[3, 2]) == ("right", "upper")
    assert exposed_sides(found[2, 3]) == ("right", "upper")


def test_a_single_module_is_exposed_on_all_sides() -> None:
    (module,) = module_exposures(array_at(grid(1, 1))).values()
    assert exposed_sides(module) == SIDES
    assert (module.end_in, module.edge_factor) == (0, 1.5)


@settings(max_examples=40)
@given(
    st.sets(st.tuples(st.integers(1, 5), st.integers(1, 6)), min_size=1),
    st.floats(20, 1900),
    st.floats(20, 1200),
    st.floats(20, 400),
    st.floats(4, 25),
)
def test_more_room_needed_never_exposes_more(
    cells: set[tuple[int, int]], u: float, v: float, h: float, h2: float
) -> None:
    array = array_at(sorted(cells), (u, v))
    loose = module_exposures(array, test=ExposureTest(h, h2, 66))
    strict = module_exposures(array, test=ExposureTest(h + 100, h2 + 8, 66))
    for cell, module in strict.items():
        assert set(exposed_sides(module)) <= set(exposed_sides(loose[cell]))
        assert loose[cell].edge_factor >= module.edge_factor
        assert module.edge_factor == 1.5 or not module.exposed


@settings(max_examples=40)
@given(
    st.sets(st.tuples(st.integers(1, 5), st.integers(1, 6)), min_size=1),
    st.integers(20, 1900),
    st.integers(20, 1200),
)
def test_a_mirrored_array_is_exposed_on_mirrored_sides(
    cells: set[tuple[int, int]], u: int, v: int
) -> None:
    columns = 6
    width = columns * (W + 1) - 1
    mirror = {(r, columns + 1 - c) for r, c in cells}
    one = module_exposures(array_at(sorted(cells), (u, v)))
    other = module_exposures(array_at(sorted(mirror), (2400 - u - width, v)))
    turn = {"left": "right", "right": "left", "lower": "lower", "upper": "upper"}
    for (row, column), module in one.items():
        there = other[row, columns + 1 - column]
        assert {turn[side] for side in exposed_sides(module)} == set(exposed_sides(there))
        assert (module.end_in, module.edge_factor) == (there.end_in, there.edge_factor)


def test_a_thousand_modules_take_no_time() -> None:
    array = array_at(grid(30, 34), (100, 100))
    started = time.process_time()
    assert len(exposures(WIDE, array, (), TEST)) == 1020
    assert time.process_time() - started < 1.0  # some 0.3 s


# ---------------------------------------------------------------- clearance


def test_clearance_on_planes_that_are_no_rectangles() -> None:
    roof = shaped_roof(MainRoof("hip", 600, 400, 0.75))  # slope factor 1.25
    end, front = roof.plane("right"), roof.plane("front")
    # in plan the hip runs at 45 degrees: a frame corner at (u, v) stands (u - v / 1.25) / sqrt(2)
    # from it, the frame's lower side v / 1.25 from the eave
    corner = (120 - 80 / 1.25) / math.sqrt(2)
    assert clearance_in(roof, front, [Box(120, 50, 300, 80)]) == pytest.approx(min(40, corner))
    assert clearance_in(roof, end, [Box(100, 20, 300, 60)]) == pytest.approx(16)
    assert clearance_in(roof, end, [Box(100, 30, 300, 130)]) < 0  # over the hip


def test_clearance_keeps_off_ridges_and_edges_but_not_off_valleys_and_walls() -> None:
    main = MainRoof("gable", 600, 360, 0.75)
    dormer = Dormer("d", "gable", "front", 450, 90, 60, 80, 0.4)
    roof = shaped_roof(main, (Wing("w", "front", 60, 240, 120, 0.75),), (dormer,))
    front = roof.plane("front")
    # the valley runs from (300, 0) to (180, 150): the frame begins 2 in beside it
    assert clearance_in(roof, front, [Box(262, 50, 330, 80)]) == pytest.approx(40)
    assert clearance_in(roof, front, [Box(400, 90, 448, 120)]) == pytest.approx(72)  # 2 in off
    assert clearance_in(roof, front, [Box(250, 50, 330, 60)]) < 0  # over the valley


def test_each_frame_counts_not_the_box_around_them() -> None:
    # two frames beside a hip: the box around them would lie across it
    roof = shaped_roof(MainRoof("hip", 600, 400, 0.75))
    frames = [Box(60, 10, 300, 40), Box(140, 41, 300, 71)]
    assert clearance_in(roof, roof.plane("front"), frames) > 0


@settings(max_examples=60)
@given(roofs(), st.floats(0, 900), st.floats(0, 500))
def test_clearance_is_that_of_the_nearest_edge(
    made: tuple[Roof, object, object], u: float, v: float
) -> None:
    roof = made[0]
    frame = Box(u, v, u + 10, v + 10)
    area = LineString([*frame.corners, frame.corners[0]])
    kept = (EdgeKind.VALLEY, EdgeKind.PITCH_BREAK, EdgeKind.HEADWALL, EdgeKind.SIDEWALL)
    for plane in roof.planes:
        found = clearance_in(roof, plane, [frame])
        if not plane.surface_polygon.covers(area):
            assert found <= 0
            continue
        below = LineString([plane.to_plan(place) for place in area.coords])
        ways = [
            LineString(edge.plan).distance(below)
            for edge in roof.edges_of(plane.id)
            if edge.kind not in kept
        ]
        if ways:
            assert found == pytest.approx(min(ways))
