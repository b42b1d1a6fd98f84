"""Cut lists against published optima, an exhaustive search and a linear program of our own."""

from __future__ import annotations

import math
import os
import subprocess
import sys
from collections import Counter
from functools import cache
from typing import Any

import highspy
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planset.design.cutting.bound import martello_toth_bound
from planset.design.cutting.packing import first_fit, full_bars
from planset.design.rail_pieces import RailPiece
from planset.design.stock_cutting import cut_list, fewest_patterns


def pieces(lengths: list[float]) -> list[RailPiece]:
    return [RailPiece(f"P{n}", f"P{n}", 0.0, length) for n, length in enumerate(lengths)]


@pytest.mark.parametrize(
    ("stock", "demand", "optimum"),
    [
        # the example of the article "Cutting stock problem" in Wikipedia: a paper machine's rolls
        # of 5600 mm, proven least 73 rolls [from memory]
        (
            5600,
            {1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20, 2000: 10,
             2050: 12, 2100: 14, 2140: 16, 2150: 18, 2200: 20},
            73,
        ),
        # V. Chvatal, Linear Programming, Freeman 1983, chapter 13: raws of 100 in, 453 bars [from
        # memory]
        (100, {45: 97, 36: 610, 31: 395, 14: 211}, 453),
        # first fit decreasing at its worst: 11 bars where 9 do; D. S. Johnson, thesis, MIT 1973
        # [from memory], its form of lengths about 1/2, 1/4 and 1/4
        (
            1000,
            {502: 6, 254: 6, 252: 6, 246: 12},
            9,
        ),
    ],
)  # fmt: skip
def test_published_optima(stock: int, demand: dict[int, int], optimum: int) -> None:
    patterns, least = fewest_patterns(demand, stock)
    assert len(patterns) == least == optimum
    assert Counter(length for pattern in patterns for length in pattern) == demand
    assert all(sum(pattern) <= stock for pattern in patterns)


def test_the_packing_alone_is_not_enough() -> None:
    demand = {502: 6, 254: 6, 252: 6, 246: 12}
    assert len(first_fit(demand, 1000)) == 11


lengths = st.lists(st.integers(12, 70), min_size=1, max_size=9)


@given(lengths)
def test_exhaustive_search_finds_no_fewer(wanted: list[int]) -> None:
    patterns, least = fewest_patterns(Counter(wanted), 100)
    assert len(patterns) == least == least_by_search(tuple(sorted(wanted)), 100)


@cache
def least_by_search(wanted: tuple[int, ...], stock: int) -> int:
    """Every subset of pieces, added one by one: fewest bars, then least in the last one."""
    best = {0: (1, 0)}
    for chosen in range(1, 1 << len(wanted)):
        ways = []
        for n, length in enumerate(wanted):
            if chosen >> n & 1:
                bars, used = best[chosen ^ (1 << n)]
                fits = used + length <= stock
                ways.append((bars, used + length) if fits else (bars + 1, length))
        best[chosen] = min(ways)
    return best[(1 << len(wanted)) - 1][0]


@given(st.lists(st.integers(15, 60), min_size=1, max_size=40))
@settings(max_examples=40)
def test_the_bound_is_no_less_than_a_linear_program_over_all_patterns(wanted: list[int]) -> None:
    demand = Counter(wanted)
    patterns, least = fewest_patterns(demand, 100)
    value = linear_program(demand, 100)
    assert least >= math.ceil(value - 1e-6)
    assert martello_toth_bound(demand, 100) <= len(patterns)
    assert least <= len(patterns)
    assert len(patterns) == least or len(patterns) <= 1.03 * value
    for bars in (first_fit(demand, 100), full_bars(demand, 100)):
        assert Counter(length for bar in bars for length in bar) == demand
        assert all(sum(bar) <= 100 for bar in bars)


def linear_program(demand: dict[int, int], stock: int) -> float:
    """Gilmore and Gomory's program (Operations Research 9, 1961), all patterns written out."""
    sizes = sorted(demand)
    counts = [range(min(demand[size], stock // size) + 1) for size in sizes]
    held = [c for c in _patterns(sizes, counts, stock)]
    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    for size in sizes:
        solver.addRow(float(demand[size]), math.inf, 0, np.array([], np.int32), np.array([]))
    rows = np.arange(len(sizes), dtype=np.int32)
    for pattern in held:
        solver.addCol(1.0, 0.0, math.inf, len(sizes), rows, np.array(pattern, float))
    solver.run()
    return float(solver.getInfo().objective_function_value)


def _patterns(sizes: list[int], counts: list[range], stock: int) -> list[tuple[int, ...]]:
    if not sizes:
        return [()]
    found = []
    for count in counts[0]:
        if count * sizes[0] <= stock:
            rest = _patterns(sizes[1:], counts[1:], stock - count * sizes[0])
            found += [(count, *other) for other in rest]
    return found


@given(st.lists(st.floats(6, 220), max_size=40), st.floats(100, 240), st.sampled_from([0.0, 0.125]))
@settings(max_examples=60)
def test_each_piece_once_and_none_over_the_stock(
    wanted: list[float], stock: float, kerf: float
) -> None:
    given_pieces = pieces(wanted)
    found = cut_list("S", given_pieces, stock, kerf)
    cut = [tag for bar in found.bars for tag in bar.pieces]
    assert sorted((*cut, *found.uncut)) == sorted(p.id for p in given_pieces)
    by_id = {p.id: p.length_in for p in given_pieces}
    assert all(by_id[tag] > stock - 1e-6 for tag in found.uncut)
    for bar in found.bars:
        own = [by_id[tag] for tag in bar.pieces]
        used = sum(own) + (len(own) - 1) * kerf
        assert used <= stock + 1e-4
        assert own == sorted(own, reverse=True)
        assert bar.offcut_in == pytest.approx(max(stock - used - kerf, 0), abs=1e-6)
    assert found.least_bars <= len(found.bars)
    assert found.least_bars >= sum(by_id[tag] for tag in cut) / stock - 1e-6


def test_a_cut_that_leaves_no_offcut_takes_no_kerf() -> None:
    # two of 95.9375 in and one cut of 1/8 in make 192 in
    assert len(cut_list("S", pieces([95.9375] * 2), 192, 0.125).bars) == 1
    assert len(cut_list("S", pieces([95.95] * 2), 192, 0.125).bars) == 2
    assert cut_list("S", pieces([192.0]), 192, 0.125).bars[0].offcut_in == 0


def test_a_piece_longer_than_the_stock_is_named() -> None:
    found = cut_list("S", pieces([200.0, 50.0]), 192, 0.125)
    assert found.uncut == ("P0",)
    assert [bar.pieces for bar in found.bars] == [("P1",)]
    assert cut_list("S", [], 192, 0.125).bars == ()


_PRINTED = """
from planset.design.rail_pieces import RailPiece
from planset.design.stock_cutting import cut_list
sizes = [20 + 37 * n % 41 for n in range(60)]
print(cut_list("S", [RailPiece(f"P{n}", "", 0, s) for n, s in enumerate(sizes)], 100, 0.125))
"""


def test_the_same_under_any_hash_seed() -> None:
    printed = set()
    for seed in ("0", "1"):
        environment: dict[str, Any] = {**os.environ, "PYTHONHASHSEED": seed}
        run = [sys.executable, "-c", _PRINTED]
        printed.add(subprocess.run(run, env=environment, capture_output=True, check=True).stdout)
    assert len(printed) == 1
    assert printed.pop().startswith(b"CutList(")
