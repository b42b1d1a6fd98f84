"""Rails across the slope, two under every row, held where they cross rafters or seams."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planset.design.layout import PlacedArray
from planset.design.racking import RailPlan
from planset.design.rails_up import blocks_of
from planset.design.support_lines import SupportLine


@dataclass(frozen=True, slots=True)
class AcrossRun:
    """One rail under modules of a row that stand side by side.

    Attributes:
        line_in: Its line, from the eave on the surface [in].
        left_in: Left edge of the first module [in].
        right_in: Right edge of the last module [in].
        strip: The half of the row that it carries, from the eave [in].
        lines: Rafters or seams that cross it between its ends, from the left.
    """

    line_in: float
    left_in: float
    right_in: float
    strip: tuple[float, float]
    lines: tuple[SupportLine, ...]


def runs_across(array: PlacedArray, lines: Sequence[SupportLine]) -> list[AcrossRun]:
    """The rails of an array, by row from the eave, each row's lower rail first.

    Args:
        array: The array.
        lines: All rafters or seams of its plane.
    """
    inset = array.stated_mounting.rail_inset
    if inset is None:  # the checks of the job do not let it be missing
        msg = f"array {array.id} does not state where its rails lie"
        raise ValueError(msg)
    found = []
    for low, high, left, right in blocks_of(array):
        middle = (low + high) / 2
        for at, strip in ((low + inset, (low, middle)), (high - inset, (middle, high))):
            crossed = tuple(
                line for line in lines if _on_rail(array, line, left, right) and line.reaches(at)
            )
            found.append(AcrossRun(at, left, right, strip, crossed))
    return found


def _on_rail(array: PlacedArray, line: SupportLine, left: float, right: float) -> bool:
    """Whether a whole attachment has room on a rail over a line."""
    return left - array.past_in < line.u_in < right + array.past_in


def stated_plans(array: PlacedArray, lines: Sequence[SupportLine]) -> list[RailPlan]:
    """Rails and attachments where the job states them.

    Args:
        array: The array.
        lines: All rafters or seams of its plane.
    """
    stated = array.stated_mounting
    if stated.first_line is None or stated.attach_every is None:
        msg = f"array {array.id} does not state its attachments"
        raise ValueError(msg)
    runs = runs_across(array, lines)
    shift = stated.attach_every // 2 if stated.stagger else 0
    chosen = []
    for number, run in enumerate(runs):
        first = stated.first_line + shift * (number % 2)
        chosen.append(
            [
                line
                for line in run.lines
                if line.number >= first and (line.number - first) % stated.attach_every == 0
            ]
        )
    return plans_of(array, runs, chosen)


def plans_of(
    array: PlacedArray, runs: Sequence[AcrossRun], chosen: Sequence[Sequence[SupportLine]]
) -> list[RailPlan]:
    """Every run as a rail, with attachments on the lines chosen for it."""
    return [
        RailPlan(
            up=False,
            line_in=run.line_in,
            start_in=run.left_in - array.past_in,
            end_in=run.right_in + array.past_in,
            loaded=(run.left_in, run.right_in),
            strip=run.strip,
            supports=tuple((line, line.u_in) for line in held),
        )
        for run, held in zip(runs, chosen, strict=True)
    ]
