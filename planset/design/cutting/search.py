"""Fewer bars by the linear program over cutting patterns, and a proof where there are none.

The program of P. C. Gilmore and R. E. Gomory, "A linear programming approach to the cutting-stock
problem", Operations Research 9 (1961): as few bars as can be, each cut by a pattern, that meet the
demand. Patterns are made as its prices ask for them. Its value, rounded up, is a bound. A cut list
with one bar less than the best one known holds no pattern whose reduced cost is more than that
count less the value, so that an integer program over all patterns of less decides.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import highspy
import numpy as np

from planset.design.cutting.packing import Demand, Pattern
from planset.design.solver import Solver

_NOISE = 1e-7
_MOST_ROUNDS = 500
_MOST_PATTERNS = 5_000
_MOST_STEPS = 3_000_000
_MOST_LENGTHS = 300
_MOST_NODES = 2_000


class _GaveUpError(Exception):
    """A search took more steps than it is allowed."""


def improved(
    demand: Demand, stock: int, patterns: list[Pattern], least: int
) -> tuple[list[Pattern], int]:
    """Patterns no more than those given, and a bound no less.

    Both are exact unless a search takes more steps than it is allowed; they are the same on every
    machine, since none is limited by time.

    Args:
        demand: How many are wanted of each length.
        stock: Stock length.
        patterns: A cut list.
        least: A count that none can beat.
    """
    lengths = sorted(demand, reverse=True)
    if len(lengths) > _MOST_LENGTHS:
        return patterns, least
    program = _Program(lengths, [demand[length] for length in lengths], stock)
    try:
        value, prices = program.solved(patterns)
    except _GaveUpError:
        return patterns, least
    least = max(least, math.ceil(value - 1e-6))
    while len(patterns) > least:
        target = len(patterns) - 1
        columns, every = program.patterns_within(prices, target - value)
        fewer, searched = _whole(program, columns, target)
        if fewer is None:
            return patterns, len(patterns) if every and searched else least
        patterns = fewer
    return patterns, least


class _Program:
    """The linear program of one demand."""

    def __init__(self, lengths: Sequence[int], counts: Sequence[int], stock: int) -> None:
        self.lengths, self.counts, self.stock = lengths, counts, stock
        self._steps = 0

    def column(self, pattern: Pattern) -> tuple[int, ...]:
        """How often each length is in a pattern."""
        return tuple(pattern.count(length) for length in self.lengths)

    def solved(self, patterns: Sequence[Pattern]) -> tuple[float, list[float]]:
        """The value of the program and the price of each length.

        Raises:
            _GaveUpError: It takes more steps than it is allowed.
        """
        solver = Solver()
        for count in self.counts:
            solver.addRow(float(count), math.inf, 0, np.array([], np.int32), np.array([]))
        for column in dict.fromkeys(self.column(pattern) for pattern in patterns):
            _add(solver, column)
        for _ in range(_MOST_ROUNDS):
            solver.run()
            if solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
                raise _GaveUpError
            prices = [max(float(price), 0.0) for price in solver.getSolution().row_dual]
            columns = self._dear(prices)
            if not columns:
                value = math.fsum(p * n for p, n in zip(prices, self.counts, strict=True))
                return value / (1 + _NOISE), prices  # of a true bound no pattern is worth more
            for column in columns:
                _add(solver, column)
        raise _GaveUpError

    def _by_worth(self, prices: Sequence[float]) -> list[int]:
        """The lengths by their price for an inch, the dearest first."""
        return sorted(range(len(prices)), key=lambda i: (-prices[i] / self.lengths[i], i))

    def _dear(self, prices: Sequence[float]) -> list[tuple[int, ...]]:
        """Patterns that are worth more than a bar, none only where there are none.

        Of those that begin with the same length, in the order of worth, the dearest.
        """
        order = self._by_worth(prices)
        counts = [0] * len(prices)
        best, found = 0.0, counts

        def look(place: int, free: int, worth: float) -> None:
            nonlocal best, found
            self._steps += 1
            if self._steps > _MOST_STEPS:
                raise _GaveUpError
            if worth > best:
                best, found = worth, counts.copy()
            if place == len(order):
                return
            i = order[place]
            length, price = self.lengths[i], prices[i]
            if worth + free * price / length <= best:
                return
            for count in range(min(self.counts[i], free // length), -1, -1):
                counts[i] = count
                look(place + 1, free - count * length, worth + count * price)
            counts[i] = 0

        columns = []
        for place, i in enumerate(order):
            best, found = 1 + _NOISE, []
            for count in range(min(self.counts[i], self.stock // self.lengths[i]), 0, -1):
                counts[i] = count
                look(place + 1, self.stock - count * self.lengths[i], count * prices[i])
            counts[i] = 0
            if found:
                columns.append(tuple(found))
        return columns

    def patterns_within(
        self, prices: Sequence[float], slack: float
    ) -> tuple[list[tuple[int, ...]], bool]:
        """Full patterns with a reduced cost up to a slack, and whether these are all of them."""
        found: list[tuple[int, ...]] = []
        counts = [0] * len(prices)
        least = 1 - slack - 1e-6
        order = self._by_worth(prices)
        steps = 0

        def look(place: int, free: int, worth: float) -> bool:
            nonlocal steps
            steps += 1
            if steps > _MOST_STEPS or len(found) >= _MOST_PATTERNS:
                return False
            if place == len(order):
                if worth >= least and self._full(counts, free):
                    found.append(tuple(counts))
                return True
            i = order[place]
            length, price = self.lengths[i], prices[i]
            if worth + free * price / length < least:
                return True
            every = True
            for count in range(min(self.counts[i], free // length), -1, -1):
                counts[i] = count
                every = look(place + 1, free - count * length, worth + count * price) and every
            counts[i] = 0
            return every

        every = look(0, self.stock, 0.0)
        return found, every

    def _full(self, counts: Sequence[int], free: int) -> bool:
        """Whether no piece that is wanted fits beside those of a pattern."""
        return not any(
            length <= free and count < wanted
            for length, count, wanted in zip(self.lengths, counts, self.counts, strict=True)
        )

    def patterns_of(self, columns: Sequence[tuple[int, ...]]) -> list[Pattern]:
        """Columns as patterns, without what they cut beyond the demand."""
        left = list(self.counts)
        result = []
        for column in columns:
            taken = [min(count, rest) for count, rest in zip(column, left, strict=True)]
            left = [rest - count for rest, count in zip(left, taken, strict=True)]
            pieces = [
                length
                for length, count in zip(self.lengths, taken, strict=True)
                for _ in range(count)
            ]
            if pieces:
                result.append(tuple(pieces))
        return result


def _whole(
    program: _Program, columns: Sequence[tuple[int, ...]], target: int
) -> tuple[list[Pattern] | None, bool]:
    """A cut list of so many bars at most, None where none is found; whether none there is."""
    if not columns:
        return None, True
    solver = Solver()
    for count in program.counts:
        solver.addRow(float(count), math.inf, 0, np.array([], np.int32), np.array([]))
    for column in columns:
        _add(solver, column)
    every = np.arange(len(columns), dtype=np.int32)
    whole = np.full(len(columns), highspy.HighsVarType.kInteger)
    solver.changeColsIntegrality(len(columns), every, whole)
    solver.addRow(0.0, float(target), len(columns), every, np.ones(len(columns)))
    solver.setOptionValue("mip_max_nodes", _MOST_NODES)
    solver.run()
    status = solver.getModelStatus()
    if status == highspy.HighsModelStatus.kInfeasible:
        return None, True
    values = solver.getSolution().col_value
    if solver.getInfo().primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None, False
    chosen = [c for c, n in zip(columns, values, strict=True) for _ in range(round(n))]
    patterns = program.patterns_of(chosen)
    met = sum(map(len, patterns)) == sum(program.counts)
    return (patterns, True) if met and len(patterns) <= target else (None, False)


def _add(solver: Solver, column: Sequence[int]) -> None:
    rows = np.array([i for i, count in enumerate(column) if count], np.int32)
    counts = np.array([float(count) for count in column if count])
    solver.addCol(1.0, 0.0, math.inf, len(rows), rows, counts)
