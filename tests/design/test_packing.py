"""As many modules as fit: hand counts, an exhaustive sweep, and what must hold on any plane."""

import random
import time

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from packing_sweep import Case, blocked_area, random_plane, sweep

from planset.design.packing import Packing, pack
from planset.drawing.geometry import Point

SQUARE = (40.0, 40.0)
PORTRAIT = (41.0, 66.0)
NO_GAP = (0.0, 0.0)
HALF = (0.5, 0.5)


def rectangle(width: float, height: float, u: float = 0.0, v: float = 0.0) -> list[Point]:
    return [(u, v), (u + width, v), (u + width, v + height), (u, v + height)]


def packed(case: Case, most: int | None = None) -> Packing:
    return pack(case.outline, case.keep_outs, case.module, case.gap, case.past, most)


def cells(packing: Packing) -> list[tuple[int, int]]:
    return [(row, column) for row, column, _ in packing.frames()]


# Hand counts. Hips and triangles fall 1 to 1, so a row whose top is at height v is 2 v narrower
# than the eave.


def test_a_rectangle() -> None:
    """Hand count: 11 columns take 11 x 41 + 10 x 1/2 = 456 in of 480, 2 rows 132.5 of 180."""
    packing = pack(rectangle(480, 180), [], PORTRAIT, HALF, past_in=1.0)
    assert (packing.rows, packing.columns, packing.omitted) == (2, 11, ())
    assert packing.corner == (12.0, 23.75)  # half of what is left over, on each side
    assert (packing.count, packing.bound) == (22, 22)


def test_a_hip() -> None:
    """Hand count: rows are 280, 200 and 120 in wide at their tops, for 7, 5 and 3 modules."""
    hip = [(0.0, 0.0), (360.0, 0.0), (240.0, 120.0), (120.0, 120.0)]
    packing = pack(hip, [], SQUARE, NO_GAP)
    assert (packing.corner, packing.rows, packing.columns) == ((40.0, 0.0), 3, 7)
    assert packing.omitted == ((2, 1), (2, 7), (3, 1), (3, 2), (3, 6), (3, 7))
    assert (packing.count, packing.bound) == (15, 15)


def test_a_triangle() -> None:
    """Hand count: rows are 160 and 80 in wide at their tops, for 4 and 2 modules."""
    packing = pack([(0.0, 0.0), (240.0, 0.0), (120.0, 120.0)], [], SQUARE, NO_GAP)
    assert (packing.corner, packing.rows, packing.columns) == ((40.0, 0.0), 2, 4)
    assert packing.omitted == ((2, 1), (2, 4))
    assert (packing.count, packing.bound) == (6, 6)


def test_a_plane_between_two_valleys() -> None:
    """Hand count: the triangle upside down; rows 80 and 160 in wide at their bottoms."""
    packing = pack([(0.0, 120.0), (120.0, 0.0), (240.0, 120.0)], [], SQUARE, NO_GAP)
    assert (packing.corner, packing.rows, packing.columns) == ((40.0, 40.0), 2, 4)
    assert packing.omitted == ((1, 1), (1, 4))


def test_an_l_shape() -> None:
    """Hand count: 5 by 2 in the foot and 2 by 3 above."""
    shape = [(0, 0), (200, 0), (200, 80), (80, 80), (80, 200), (0, 200)]
    packing = pack([(float(u), float(v)) for u, v in shape], [], SQUARE, NO_GAP)
    assert (packing.corner, packing.rows, packing.columns) == ((0.0, 0.0), 5, 5)
    assert packing.omitted == tuple((row, column) for row in (3, 4, 5) for column in (3, 4, 5))
    assert packing.count == 16


def test_a_chimney_in_the_middle() -> None:
    """Hand count: 5 by 3, less the cell the chimney stands in."""
    packing = pack(rectangle(200, 120), [rectangle(20, 20, 90, 50)], SQUARE, NO_GAP)
    assert (packing.rows, packing.columns, packing.omitted) == (3, 5, ((2, 3),))


def test_the_grid_moves_so_that_a_chimney_costs_one_module() -> None:
    """Hand count: 230 in hold 5 columns in any case; off the cell's edge the vent costs one."""
    packing = pack(rectangle(230, 120), [rectangle(4, 4, 53, 58)], SQUARE, NO_GAP)
    assert packing.count == 14


def test_rails_end_at_cells_left_out() -> None:
    """Hand count: of three rows in 122 in the lowest reaches to 41 in, its rails to 42."""
    column, vent = rectangle(40, 122), rectangle(20, 39, 10, 41.5)
    assert pack(column, [vent], SQUARE, NO_GAP, past_in=0.0).count == 2
    assert pack(column, [vent], SQUARE, NO_GAP, past_in=1.0).count == 0
    assert pack(column, [], SQUARE, NO_GAP, past_in=1.0).count == 3


@pytest.mark.parametrize(("over", "count"), [(0.0, 22), (1e-6, 22), (1e-5, 20), (0.1, 20)])
def test_touching_is_inside(over: float, count: int) -> None:
    """Hand count: 11 by 2 fill the plane up to a keep-out; a column goes when it is over."""
    width, height = 11 * 41 + 10 * 0.5, 2 * 66 + 0.5 + 2 * 1.0
    beside = rectangle(30 + over, height, width - over, 0)
    packing = pack(rectangle(width + 30, height), [beside], PORTRAIT, HALF, past_in=1.0)
    assert packing.count == count
    assert packing.corner[1] == 1.0


def test_a_place_no_tape_shows_is_not_used() -> None:
    """Three modules fit with the corner at 0.01 to 0.04 in; no sixteenth lies there."""
    packing = pack(rectangle(123.03, 41, 0.01), [], (41.0, 41.0), NO_GAP)
    assert (packing.count, packing.bound) == (2, 3)
    assert pack(rectangle(123.08, 41, 0.01), [], (41.0, 41.0), NO_GAP).corner == (0.0625, 0.0)


def test_of_equal_counts_the_grid_with_fewest_cells_left_out() -> None:
    """Hand count: one module in each column; from 20 to 30 in they stand side by side."""
    steps = [(0, 0), (40, 0), (40, 20), (80, 20), (80, 90), (40, 90), (40, 70), (0, 70)]
    packing = pack([(float(u), float(v)) for u, v in steps], [], SQUARE, NO_GAP)
    assert (packing.rows, packing.columns, packing.corner) == (1, 2, (0.0, 25.0))


def test_a_pocket_beside_the_grid_does_not_decide_where_it_lies() -> None:
    """Hand count: 3 by 2 fit with the corner at 41.1775 to 41.1975 in, sixteenths at 41.1875.

    A pocket on the left holds one module at 0 to 0.02 in. On its grid a column of two is lost;
    columns 41.03 in apart leave the sixteenths, so the pocket must not count as column 1.
    """
    size, right = 41.03, 41.1875 + 3 * 41.03 + 0.01
    beside = rectangle(41.1775 - 41.05, 2 * size, 41.05, 0)
    above = rectangle(41.1, size, 0, size)
    packing = pack(rectangle(right, 2 * size), [beside, above], (size, size), NO_GAP)
    assert (packing.rows, packing.columns, packing.omitted) == (2, 3, ())
    assert packing.corner == (41.1875, 0.0)


def test_nothing_fits() -> None:
    packing = pack(rectangle(30, 30), [], SQUARE, NO_GAP)
    assert (packing.count, packing.rows, packing.bound, cells(packing)) == (0, 0, 0, [])
    assert pack(rectangle(100, 100), [rectangle(200, 200, -50, -50)], SQUARE, NO_GAP).count == 0


# Fewer than fit.


@pytest.mark.parametrize(
    ("most", "rows", "columns", "omitted"),
    [
        (22, 2, 11, ()),
        (40, 2, 11, ()),
        (21, 2, 11, ((1, 11),)),
        (20, 2, 10, ()),
        (12, 2, 6, ()),
        (9, 2, 5, ((1, 5),)),
        (8, 2, 4, ()),
        (3, 1, 3, ()),  # 1 x 3 is 124 + 66 around its corner, 2 x 2 is 82.5 + 132.5
        (1, 1, 1, ()),
    ],
)
def test_fewer_than_fit_make_full_rows(
    most: int, rows: int, columns: int, omitted: tuple[tuple[int, int], ...]
) -> None:
    packing = pack(rectangle(480, 180), [], PORTRAIT, HALF, past_in=1.0, most=most)
    assert (packing.rows, packing.columns, packing.omitted) == (rows, columns, omitted)
    assert packing.count == min(most, 22) == packing.bound


def test_fewer_than_fit_lie_at_the_top_and_in_the_middle() -> None:
    packing = pack(rectangle(480, 180), [], PORTRAIT, HALF, past_in=1.0, most=8)
    assert packing.corner == ((480 - 165.5) / 2, 180 - 1 - 132.5)


def test_a_short_row_is_the_lowest_and_in_the_middle() -> None:
    packing = pack(rectangle(200, 120), [], SQUARE, NO_GAP, most=13)
    assert (packing.rows, packing.columns, packing.omitted) == (3, 5, ((1, 1), (1, 5)))


def test_fewer_than_fit_keep_off_a_chimney() -> None:
    packing = pack(rectangle(400, 120), [rectangle(20, 20, 90, 50)], SQUARE, NO_GAP, most=12)
    assert (packing.rows, packing.columns, packing.omitted) == (3, 4, ())


def test_the_top_comes_before_the_middle() -> None:
    chimney = rectangle(20, 20, 90, 90)  # in the middle of the top row
    packing = pack(rectangle(200, 120), [chimney], SQUARE, NO_GAP, most=2)
    assert (packing.rows, packing.columns, packing.corner[1]) == (1, 2, 80.0)


def test_none_wanted() -> None:
    assert pack(rectangle(480, 180), [], PORTRAIT, HALF, most=0).count == 0


# What is refused.


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        ({"outline": [(0, 0), (100, 100), (100, 0), (0, 100)]}, "the outline is no simple polygon"),
        ({"keep_outs": [[(0, 0), (9, 9), (9, 0), (0, 9)]]}, "a keep-out is no simple polygon"),
        ({"module": (0.0, 40.0)}, "a module needs a size"),
        ({"module": (float("nan"), 40.0)}, "a module needs a size"),
        ({"gap": (-1.0, 0.0)}, "gaps and rail ends are 0 or more"),
        ({"past_in": -1.0}, "gaps and rail ends are 0 or more"),
        ({"most": -1}, "the number of modules is 0 or more"),
        ({"outline": rectangle(1e6, 1e6)}, "over 20000"),
    ],
)
def test_what_is_refused(changed: dict[str, object], message: str) -> None:
    given: dict[str, object] = {
        "outline": rectangle(100, 100), "keep_outs": [], "module": SQUARE, "gap": NO_GAP,
    }  # fmt: skip
    with pytest.raises(ValueError, match=message):
        pack(**(given | changed))  # type: ignore[arg-type]


# On any plane.

planes = st.randoms(use_true_random=False).map(random_plane)


def stands(case: Case, packing: Packing) -> None:
    """Every frame with its rail ends is on the plane and off the keep-outs."""
    blocked = blocked_area(case)
    shapely.prepare(blocked)
    for _, _, frame in packing.frames():
        low, high = frame.y0 - case.past, frame.y1 + case.past
        inner = shapely.box(frame.x0 + 2e-6, low + 2e-6, frame.x1 - 2e-6, high - 2e-6)
        assert not blocked.intersects(inner), frame
    assert all(length * 16 == int(length * 16) for length in packing.corner)


@settings(max_examples=60, deadline=None)
@given(planes)
def test_every_module_stands_and_no_count_is_beyond_reason(case: Case) -> None:
    packing = packed(case)
    stands(case, packing)
    assert len(cells(packing)) == packing.count
    assert packing.bound is not None
    assert packing.count <= packing.bound
    free = shapely.Polygon(case.outline).difference(
        shapely.union_all([shapely.Polygon(corners) for corners in case.keep_outs])
    )
    assert packing.bound * case.module[0] * case.module[1] <= free.area + 1e-3
    if packing.count:
        rows, columns = zip(*cells(packing), strict=True)
        assert (min(rows), max(rows)) == (1, packing.rows)
        assert (min(columns), max(columns)) == (1, packing.columns)


@settings(max_examples=40, deadline=None)
@given(planes, st.integers(-4000, 4000), st.integers(-4000, 4000))
def test_moving_the_plane_moves_the_packing(case: Case, along: int, up: int) -> None:
    du, dv = along / 16, up / 16

    def moved(corners: list[Point]) -> list[Point]:
        return [(u + du, v + dv) for u, v in corners]

    there = Case(
        moved(case.outline), [*map(moved, case.keep_outs)], case.module, case.gap, case.past
    )
    here, beyond = packed(case), packed(there)
    assert (beyond.count, beyond.bound) == (here.count, here.bound)
    stands(there, beyond)


@settings(max_examples=40, deadline=None)
@given(planes)
def test_another_keep_out_never_makes_room(case: Case) -> None:
    counts = [
        packed(Case(case.outline, case.keep_outs[:number], case.module, case.gap, case.past)).count
        for number in range(len(case.keep_outs) + 1)
    ]
    assert counts == sorted(counts, reverse=True)


@settings(max_examples=40, deadline=None)
@given(planes, st.integers(1, 30))
def test_as_many_as_are_wanted(case: Case, most: int) -> None:
    all_that_fit, packing = packed(case), packed(case, most)
    assert packing.count == min(most, all_that_fit.count)
    stands(case, packing)
    assert packed(case, most) == packing


# Against an exhaustive sweep of offsets, at every quarter inch both ways.


def never_below_the_sweep(seed: int) -> None:
    case = random_plane(random.Random(seed))
    packing = packed(case)
    anywhere, writable = sweep(case, step=0.25)
    assert packing.bound is not None
    assert writable <= packing.count
    assert anywhere <= packing.bound
    if packing.count < 0.99 * packing.bound:  # then the place with more is finer than a tape
        assert sweep(case, step=1 / 16)[1] == packing.count
        assert "sixteenths" in packing.proof


@pytest.mark.parametrize("seed", range(100, 108))
def test_never_below_the_sweep(seed: int) -> None:
    never_below_the_sweep(seed)


@pytest.mark.long
@pytest.mark.parametrize("seed", range(100))
def test_never_below_the_sweep_on_many(seed: int) -> None:
    never_below_the_sweep(seed)


# Speed.


def fastest(case: Case) -> tuple[float, Packing]:
    """Seconds of the quicker of two runs, since the machine is shared."""
    times = []
    for _ in range(2):
        began = time.perf_counter()
        packing = packed(case)
        times.append(time.perf_counter() - began)
    return min(times), packing


def test_a_plane_of_500_modules_takes_less_than_two_seconds() -> None:
    hip = [(0.0, 0.0), (1400.0, 0.0), (1000.0, 1650.0), (200.0, 1650.0)]
    dice = random.Random(5)
    places = [(dice.uniform(100, 1200), dice.uniform(0, 1500)) for _ in range(20)]
    case = Case(hip, [rectangle(20, 20, *place) for place in places], (44.65, 67.83), HALF, 1.0)
    seconds, packing = fastest(case)
    assert packing.count >= 500
    assert seconds < 2.0


def test_a_plane_of_30_modules_takes_less_than_a_tenth_of_a_second() -> None:
    hip = [(0.0, 0.0), (520.0, 0.0), (400.0, 230.0), (120.0, 230.0)]
    case = Case(hip, [rectangle(30, 30, 200, 60)], (44.65, 67.83), HALF, 1.0)
    case = Case([(1.4 * u, 1.4 * v) for u, v in case.outline], *list(vars(case).values())[1:])
    seconds, packing = fastest(case)
    assert packing.count >= 30
    assert seconds < 0.1
