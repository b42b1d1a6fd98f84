"""Staggered rails as one program in whole numbers: a path through every rail's graph at once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import highspy
import numpy as np

from planset.design.fewest.rail_graph import HOLDS, RailGraph
from planset.design.fewest.rail_search import RailSearch
from planset.design.solver import Solver

if TYPE_CHECKING:
    from planset.design.fewest.across import AcrossRail
    from planset.design.support_lines import SupportLine

_MOST_COLUMNS = 6_000  # that are solved in a second or two
_ROUNDS = 4  # programs that are solved, each with what is known of whole rails by then
_MOST_NODES = 10  # of the branching: the same on every machine, unlike a time


@dataclass(slots=True)
class _Program:
    """Columns of 0 or 1 with a cost, and rows of coefficients between two bounds."""

    costs: list[float] = field(default_factory=list)
    rows: list[tuple[float, float, dict[int, float]]] = field(default_factory=list)

    def column(self, cost: float) -> int:
        self.costs.append(cost)
        return len(self.costs) - 1

    def row(self, low: float, high: float) -> dict[int, float]:
        coefficients: dict[int, float] = {}
        self.rows.append((low, high, coefficients))
        return coefficients


def solved_together(
    search: RailSearch, rails: Sequence[AcrossRail]
) -> list[tuple[SupportLine, ...] | None] | None:
    """The lines of every rail at the least total, None where none was found.

    Args:
        search: What finds the attachments of one rail.
        rails: The rails from the eave.
    """
    found = [search.graph(rail.strip, rail.places, rail.pins) for rail in rails]
    graphs = [graph for graph in found if graph is not None]
    if len(graphs) < len(rails):
        return None
    for _ in range(_ROUNDS):
        chosen = _chosen(rails, graphs)
        if chosen is None:
            return None
        learned = [
            search.judged(graph, rail.strip, places)
            for graph, rail, places in zip(graphs, rails, chosen, strict=True)
        ]
        if not any(learned):
            break
        graphs = [new or old for new, old in zip(learned, graphs, strict=True)]
    else:
        return None
    lines = [tuple(rail.lines[n] for n in of) for rail, of in zip(rails, chosen, strict=True)]
    for rail, held in zip(rails, lines, strict=True):
        if not search.bends(rail.strip, tuple(line.u_in for line in held)):
            return None
    return list(lines)


def _chosen(rails: Sequence[AcrossRail], graphs: Sequence[RailGraph]) -> list[list[int]] | None:
    """By rail the numbers of its attachments' places at the least total found, if any is."""
    program = _Program()
    stands: list[dict[int, list[int]]] = []
    for graph in graphs:
        stands.append(_rail(program, graph))
        if len(program.costs) > _MOST_COLUMNS:
            return None
    for place in range(1, len(rails)):
        _keep_apart(program, rails[place - 1 : place + 1], stands[place - 1 : place + 1])
    taken = _minimized(program)
    if taken is None:
        return None
    return [
        [n for n in sorted(of_place) if any(taken[column] for column in of_place[n])]
        for of_place in stands
    ]


def _rail(program: _Program, graph: RailGraph) -> dict[int, list[int]]:
    """One rail: by number of a place the columns that set an attachment there.

    A column is an attachment with its neighbors, so that its measure is known; a state is a pair
    with the number of attachments so far, where 4 stands for more too.
    """
    stands: dict[int, list[int]] = {}
    states: dict[tuple[int, int, int], dict[int, float]] = {}
    once = program.row(1.0, 1.0)

    def state(factor: int, count: int, pair: int) -> dict[int, float]:
        key = (factor, count, pair)
        if key not in states:
            states[key] = program.row(0.0, 0.0)
        return states[key]

    for factor in (2, 3, 4):
        for pair in np.flatnonzero(graph.starts[factor] <= HOLDS).tolist():
            column = program.column(1.0)
            stands.setdefault(int(graph.first[pair]), []).append(column)
            once[column] = 1.0
            state(factor, 2, pair)[column] = 1.0
        for count, after, before_pair, after_pair in _steps(graph, factor):
            column = program.column(1.0)
            stands.setdefault(int(graph.second[before_pair]), []).append(column)
            state(factor, count, before_pair)[column] = -1.0
            state(factor, after, after_pair)[column] = 1.0
        for pair in np.flatnonzero(graph.ends[factor] <= HOLDS).tolist():
            column = program.column(1.0)
            stands.setdefault(int(graph.second[pair]), []).append(column)
            state(factor, factor, pair)[column] = -1.0
    return stands


def _steps(graph: RailGraph, factor: int) -> Iterator[tuple[int, int, int, int]]:
    """Threes with the number of attachments before and after, as far as a factor counts them."""
    if factor == 2:
        return
    held = np.flatnonzero(graph.middles[factor] <= HOLDS).tolist()
    counts = [(2, 3)] if factor == 3 else [(2, 3), (3, 4), (4, 4)]
    for count, after in counts:
        for three in held:
            yield count, after, int(graph.before[three]), int(graph.after[three])


def _keep_apart(
    program: _Program, rails: Sequence[AcrossRail], stands: Sequence[dict[int, list[int]]]
) -> None:
    """No line holds both of two rails that lie side by side."""
    lower, upper = rails
    side_by_side = max(lower.strip.start_in, upper.strip.start_in) < min(
        lower.strip.end_in, upper.strip.end_in
    )
    of_line = {line.number: n for n, line in enumerate(upper.lines)} if side_by_side else {}
    for n, line in enumerate(lower.lines):
        if line.number in of_line:
            columns = [*stands[0].get(n, ()), *stands[1].get(of_line[line.number], ())]
            row = program.row(0.0, 1.0)
            row.update(dict.fromkeys(columns, 1.0))


def _minimized(program: _Program) -> list[bool] | None:
    """Which columns are 1 at the least cost found within the fixed number of nodes."""
    solver = Solver(mip_rel_gap=0.0, mip_max_nodes=_MOST_NODES)
    count = len(program.costs)
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = count, len(program.rows)
    model.col_cost_ = np.array(program.costs)
    model.col_lower_, model.col_upper_ = np.zeros(count), np.ones(count)
    model.row_lower_ = np.array([low for low, _, _ in program.rows])
    model.row_upper_ = np.array([high for _, high, _ in program.rows])
    model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    entries = [sorted(row.items()) for _, _, row in program.rows]
    model.a_matrix_.start_ = np.cumsum([0, *(len(row) for row in entries)])
    model.a_matrix_.index_ = np.array([column for row in entries for column, _ in row])
    model.a_matrix_.value_ = np.array([value for row in entries for _, value in row])
    model.integrality_ = [highspy.HighsVarType.kInteger] * count
    solver.passModel(model)
    solver.run()
    if solver.getInfo().primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None
    return [value > 0.5 for value in solver.getSolution().col_value]
