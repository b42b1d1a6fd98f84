"""Rails up the slope on rafter lines, under modules whose long edges they cross."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from planset.design.layout import PlacedArray, PlacedModule
from planset.design.racking import RailPlan
from planset.design.rail_shares import shares
from planset.design.support_lines import SupportLine


@dataclass(frozen=True, slots=True)
class UpRun:
    """Where a line up the slope lies under modules of rows that follow each other.

    Attributes:
        line: The rafter or seam.
        low_in: Lower edge of the lowest module, from the eave [in].
        high_in: Upper edge of the highest module [in].
    """

    line: SupportLine
    low_in: float
    high_in: float


def lines_under(array: PlacedArray, lines: Sequence[SupportLine]) -> list[SupportLine]:
    """The lines over which a whole rail lies under the frames of an array."""
    half = array.system.rail.width / 2  # a rail half beside the modules carries none
    low, high = array.frames.x0 + half, array.frames.x1 - half
    return [line for line in lines if low <= line.u_in <= high]


def stated_plans(array: PlacedArray, lines: Sequence[SupportLine]) -> list[RailPlan]:
    """Rails and attachments where the job states them.

    Args:
        array: The array.
        lines: All rafters or seams of its plane.
    """
    stated = array.stated_mounting
    if (
        stated.first_rail_rafter is None
        or stated.rail_every is None
        or stated.first_attachment is None
        or stated.attachment_spacing is None
    ):  # the checks of the job let none of them be missing
        msg = f"array {array.id} does not state its rails"
        raise ValueError(msg)
    counted = [line for line in lines if line.number >= stated.first_rail_rafter]
    under = {line.number for line in lines_under(array, lines)}
    runs = [
        run
        for line in counted[:: stated.rail_every]
        if line.number in under
        for run in runs_over(array, line)
    ]
    past = array.past_in
    places = [
        attachment_places(
            run.low_in - past + stated.first_attachment,
            run.high_in + past,
            stated.attachment_spacing,
        )
        for run in runs
    ]
    return plans_of(array, runs, places)


def plans_of(
    array: PlacedArray, runs: Sequence[UpRun], places: Sequence[Sequence[float]]
) -> list[RailPlan]:
    """A rail over every run, with attachments at distances from the eave [in]."""
    past = array.past_in
    return [
        RailPlan(
            up=True,
            line_in=run.line.u_in,
            start_in=run.low_in - past,
            end_in=run.high_in + past,
            loaded=(run.low_in, run.high_in),
            strip=strip,
            supports=tuple((run.line, v) for v in heights),
        )
        for run, heights, strip in zip(runs, places, strips_of(array, runs), strict=True)
    ]


def runs_over(array: PlacedArray, line: SupportLine) -> list[UpRun]:
    """Where a line lies under modules of rows that follow each other, from the eave up."""
    cells = {(module.row, module.column) for module in array.modules}
    u = line.u_in
    inside = [m for m in array.modules if m.surface.x0 <= u <= _right_end(array, m, cells)]
    runs: list[UpRun] = []
    reached = 0
    for row in sorted({module.row for module in inside}):
        box = next(module.surface for module in inside if module.row == row)
        if runs and row == reached + 1:
            runs[-1] = UpRun(line, runs[-1].low_in, box.y1)
        else:
            runs.append(UpRun(line, box.y0, box.y1))
        reached = row
    return runs


def _right_end(array: PlacedArray, module: PlacedModule, cells: set[tuple[int, int]]) -> float:
    """Where a module ends, with the gap to its neighbor on the right when it has one [in]."""
    gap = array.given.gap if (module.row, module.column + 1) in cells else 0.0
    return module.surface.x1 + gap


def strips_of(array: PlacedArray, runs: Sequence[UpRun]) -> list[tuple[float, float]]:
    """Each rail's share along the eave: halfway to its neighbors, or to the end of its modules.

    Of the rows it crosses the widest share counts: with cells left out a neighbor may end sooner.
    """
    found: list[list[tuple[float, float]]] = [[] for _ in runs]
    for low, high, x0, x1 in blocks_of(array):
        middle = (low + high) / 2
        crossing = [
            (run.line.u_in, own)
            for run, own in zip(runs, found, strict=True)
            if run.low_in < middle < run.high_in and x0 <= run.line.u_in <= x1
        ]
        lines = sorted({u for u, _ in crossing})
        share_of = dict(zip(lines, shares(lines, x0, x1), strict=True))
        for u, own in crossing:
            own.append(share_of[u])
    return [(min(u0 for u0, _ in own), max(u1 for _, u1 in own)) for own in found]


def blocks_of(array: PlacedArray) -> list[tuple[float, float, float, float]]:
    """Modules of a row that stand side by side: bottom and top, left and right [in]."""
    blocks: list[tuple[float, float, float, float]] = []
    previous: PlacedModule | None = None
    for module in array.modules:
        box = module.surface
        follows = previous is not None and (previous.row, previous.column + 1) == (
            module.row,
            module.column,
        )
        if follows:
            low, high, x0, _ = blocks[-1]
            blocks[-1] = (low, high, x0, box.x1)
        else:
            blocks.append((box.y0, box.y1, box.x0, box.x1))
        previous = module
    return blocks


def attachment_places(first: float, end: float, spacing: float) -> list[float]:
    """Where attachments stand on a rail, from the first one to its other end [in]."""
    count = max(math.floor((end - first) / spacing + 1e-9) + 1, 0)
    return [first + n * spacing for n in range(count)]
