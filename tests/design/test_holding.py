"""Feet, clamps, couplings and trim. Places are worked out by hand from the case house.

Its modules are 71.6 in by 35.625 in, 1/2 in apart, four rows of five from (60, 36) in; rafters at
12 in and every 24 in.
"""

from typing import Any

import pytest
from houses import house, placed_arrays, roof_of_house
from hypothesis import given
from hypothesis import strategies as st

from planset.design.holding import ModuleHolding, module_holding
from planset.design.layout import PlacedArray
from planset.design.place_racking import place_racking
from planset.design.racking import Racking
from planset.job.arrays import Cell


def held(
    changes: dict[str, Any] | None = None, name: str = "gable-40x30-feet"
) -> tuple[PlacedArray, Racking, ModuleHolding]:
    inputs = house(changes, name)
    arrays = placed_arrays(inputs)
    (rack,) = place_racking(inputs, roof_of_house(inputs), arrays)
    return arrays[0], rack, module_holding(arrays[0], rack)


def at_cell(row: int, column: int) -> str:
    """The module of a cell; five in a row."""
    return f"M{(row - 1) * 5 + column:02d}"


def test_feet_where_rails_cross_the_long_edges() -> None:
    _, rack, holding = held()
    first = [h for h in holding.holders if h.rail == rack.rails[0].id]
    # lower edge of the array, the middles of three gaps, its upper edge
    edges = [36.0, 36 + 35.625 + 0.25, 36 + 2 * 36.125 - 0.25, 36 + 3 * 36.125 - 0.25, 180.0]
    assert [h.v_in for h in first] == pytest.approx(edges)
    assert {h.u_in for h in first} == {84.0}
    assert [h.modules for h in first] == [
        (at_cell(1, 1),),
        (at_cell(1, 1), at_cell(2, 1)),
        (at_cell(2, 1), at_cell(3, 1)),
        (at_cell(3, 1), at_cell(4, 1)),
        (at_cell(4, 1),),
    ]
    assert [h.front for h in first] == [True, False, False, False, False]


def test_a_coupling_wherever_modules_meet_side_by_side() -> None:
    _, _, holding = held({"mounting.coupling.interference": 0.0})
    joints = [60 + 71.6 * n + 0.5 * (n - 1) + 0.25 for n in range(1, 5)]
    assert len(holding.couplings) == 4 * 5  # joints of a row, edge lines
    assert sorted({round(c.u_in, 6) for c in holding.couplings}) == pytest.approx(joints)
    four = next(c for c in holding.couplings if c.v_in == pytest.approx(36 + 35.875))
    assert set(four.modules) == {at_cell(1, 1), at_cell(1, 2), at_cell(2, 1), at_cell(2, 2)}
    assert len(holding.couplings[0].modules) == 2


def test_a_foot_near_a_coupling_is_one_combined_part() -> None:
    # the third joint lies at 276.05 in, 0.05 in from the rafter at 276 in; the second at 203.95 in,
    # 0.05 in from that at 204 in; the others at 131.85 and 348.15 in, 0.15 in from theirs
    _, _, holding = held()
    combined = [h for h in holding.holders if h.kind == "combined"]
    assert not holding.couplings
    assert len(combined) == 20
    assert {h.part for h in combined} == {"coupling foot"}
    assert {h.u_in for h in combined} == {132.0, 204.0, 276.0, 348.0}


@pytest.mark.parametrize(("apart", "combined"), [(5.0, False), (5.01, True), (4.99, False)])
def test_interference_is_below_its_distance(apart: float, combined: bool) -> None:
    # first rafter shifted so that the only rafter near a joint of 131.85 in is 5 in from it
    changes = {
        "framing.first_rafter": 16.85,
        "framing.spacing": 120.0,  # rafters at 16.85, 136.85, 256.85, 376.85 in
        "mounting.coupling.interference": apart,
        "arrays.A1.mounting.first_rail_rafter": 2,
    }
    _, _, holding = held(changes)
    beside = [h for h in holding.holders if h.u_in == pytest.approx(136.85)]
    assert {h.kind for h in beside} == ({"combined"} if combined else {"foot"})


def test_where_a_cell_is_omitted() -> None:
    changes = {
        "arrays.A1.omit": (Cell(row=1, column=2),),
        "mounting.coupling.interference": 0.0,
    }
    _, _, holding = held(changes)
    # over the omitted cell the frames of the second row begin alone, at their own edge
    lone = [h for h in holding.holders if 132 < h.u_in < 204 and h.v_in < 80]
    assert {h.v_in for h in lone} == {36 + 36.125}
    assert all(h.front for h in lone)
    lower = [c for c in holding.couplings if c.v_in < 50]
    assert len(lower) == 2  # neither side of the omitted cell
    three = [c for c in holding.couplings if c.u_in < 140 and 70 < c.v_in < 75]
    assert [len(c.modules) for c in three] == [3]
    assert three[0].v_in == pytest.approx(36 + 35.875)


def test_clamps_on_rails_across() -> None:
    _, rack, holding = held(name="gable-40x30-across")
    for rail in rack.rails:
        own = [h for h in holding.holders if h.rail == rail.id]
        assert [h.kind for h in own] == ["end_clamp", *["mid_clamp"] * 4, "end_clamp"]
        assert {h.v_in for h in own} == {rail.line_in}
        assert own[0].u_in == 60
        assert own[1].u_in == pytest.approx(60 + 71.6 + 0.25)
        assert own[-1].u_in == pytest.approx(420)
        assert not any(h.front for h in own)


def test_clamps_on_rails_up() -> None:
    clamps = held(name="gable-40x30-across")[0].system.clamps
    changes = {"mounting.clamps": clamps, "mounting.foot": None, "mounting.coupling": None}
    _, rack, holding = held(changes)
    own = [h for h in holding.holders if h.rail == rack.rails[0].id]
    assert [h.kind for h in own] == ["end_clamp", *["mid_clamp"] * 3, "end_clamp"]
    assert [h.part for h in own[:2]] == ["end clamp", "mid clamp"]


def test_nothing_holds_where_the_system_has_no_part_for_it() -> None:
    _, _, holding = held(name="gable-40x30")
    assert (holding.holders, holding.couplings, holding.trim) == ((), (), ())


def test_trim_along_the_front() -> None:
    # 360 in of front edge in pieces of 96 in: three, and 72 in left; a joint at 156 in stands on
    # the foot there and gives way by 3 in; the next ones, at 249 and 345 in, clear theirs by 3 in
    _, _, holding = held()
    ends = [60, *(p.u1_in for p in holding.trim)]
    assert ends == pytest.approx([60, 153, 249, 345, 420])
    assert [p.u0_in for p in holding.trim] == ends[:-1]
    assert [p.joined for p in holding.trim] == [True, True, True, False]
    assert {p.v_in for p in holding.trim} == {36.0}


def test_the_last_two_pieces_of_trim_share_what_would_be_a_sliver() -> None:
    _, _, holding = held({"mounting.trim.piece_length": 178.0})  # twice that is 4 in short
    lengths = [p.u1_in - p.u0_in for p in holding.trim]
    assert len(lengths) == 3
    assert min(lengths) > 178 / 3
    assert sum(lengths) == pytest.approx(360)


cells = st.sets(st.tuples(st.integers(1, 4), st.integers(1, 5)), max_size=12)


@given(cells, st.floats(0, 24), st.floats(30, 200))
def test_whatever_is_omitted(omitted: set[tuple[int, int]], first: float, piece: float) -> None:
    changes = {
        "arrays.A1.omit": tuple(Cell(row=r, column=c) for r, c in sorted(omitted)),
        "framing.first_rafter": first,
        "mounting.trim.piece_length": piece,
    }
    array, rack, holding = held(changes)
    frames = {module.id: module.surface for module in array.modules}
    for holder in holding.holders:
        for tag in holder.modules:
            if holder.kind == "foot":
                assert frames[tag].grown(0.51).holds((holder.u_in, holder.v_in))
    places = {(round(h.u_in, 6), round(h.v_in, 6)) for h in holding.holders}
    assert len(places) == len(holding.holders)
    combined = sum(h.kind == "combined" for h in holding.holders)
    assert combined + len(holding.couplings) == joints(array)
    for module in array.modules:  # two feet on every rail under it
        (_, v), x0, x1 = module.surface.center, module.surface.x0, module.surface.x1
        rails = [r.id for r in rack.rails if x0 < r.line_in < x1 and r.start_in < v < r.end_in]
        for rail in rails:
            assert sum(module.id in h.modules for h in holding.holders if h.rail == rail) >= 2
    front = sum(p.u1_in - p.u0_in for p in holding.trim)
    assert front == pytest.approx(front_length(array))
    assert all(p.u1_in - p.u0_in <= piece + 1e-6 for p in holding.trim)


def joints(array: PlacedArray) -> int:
    """Corners at which two modules of a row meet, each counted once."""
    at = {(m.row, m.column) for m in array.modules}
    return len({(line, c) for r, c in at if (r, c + 1) in at for line in (r, r + 1)})


def front_length(array: PlacedArray) -> float:
    at = {(m.row, m.column) for m in array.modules}
    front = {(r, c) for r, c in at if (r - 1, c) not in at}
    return 71.6 * len(front) + 0.5 * sum((r, c + 1) in front for r, c in front)
