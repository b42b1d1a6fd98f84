"""The fewest attachments under rails across the slope, where those cross rafters or seams."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from planset.design.fewest.rail_paths import Held
from planset.design.fewest.rail_search import RailSearch
from planset.design.fewest.stagger import staggered
from planset.design.fewest.strip import Marks, Strip, Values
from planset.design.layout import PlacedArray
from planset.design.rails_across import AcrossRun
from planset.design.support_lines import SupportLine
from planset.drawing.geometry import Box


@dataclass(frozen=True, slots=True)
class AcrossRail:
    """One rail across the slope to be held.

    Attributes:
        number: Counted from the eave, as pins count it.
        strip: What it carries.
        lines: The lines it may be held on, from the left.
        pinned: Numbers of the lines that the drafter set.
    """

    number: int
    strip: Strip
    lines: tuple[SupportLine, ...]
    pinned: frozenset[int]

    @property
    def places(self) -> Values:
        """Where the lines cross it, along it [in]."""
        return np.array([line.u_in for line in self.lines])

    @property
    def pins(self) -> tuple[int, ...]:
        """Which of the lines are pinned, by their place among them."""
        return tuple(n for n, line in enumerate(self.lines) if line.number in self.pinned)

    def without(self, taken: Iterable[int]) -> AcrossRail:
        """The same rail with lines taken away, pinned ones apart."""
        gone = set(taken) - self.pinned
        lines = tuple(line for line in self.lines if line.number not in gone)
        return AcrossRail(self.number, self.strip, lines, self.pinned)

    def chosen(self, held: Held) -> tuple[SupportLine, ...]:
        """The lines of a way to hold it."""
        return tuple(self.lines[n] for n in held.chosen)


def across_rails(
    array: PlacedArray,
    runs: Sequence[AcrossRun],
    marks: Marks,
    usable: Iterable[SupportLine],
    pinned: Mapping[int, frozenset[int]],
) -> list[AcrossRail]:
    """The rails of an array as they are to be held.

    Args:
        array: The array.
        runs: Its rails.
        marks: What the bits of strips stand for.
        usable: The lines that attachments may stand on.
        pinned: By number of a rail the numbers of the lines that the drafter set.
    """
    boxes = [Box(run.left_in, run.strip[0], run.right_in, run.strip[1]) for run in runs]
    touches = marks.touches(boxes, array.modules, up=False)
    allowed = {line.number for line in usable}
    past = array.past_in
    return [
        AcrossRail(
            number,
            Strip(
                run.left_in - past,
                run.right_in + past,
                run.left_in,
                run.right_in,
                run.strip[1] - run.strip[0],
                touched,
            ),
            tuple(line for line in run.lines if line.number in allowed),
            pinned.get(number, frozenset()),
        )
        for number, (run, touched) in enumerate(zip(runs, touches, strict=True), 1)
    ]


def held_across(
    search: RailSearch, rails: Sequence[AcrossRail], *, stagger: bool
) -> list[tuple[SupportLine, ...] | None]:
    """The lines that every rail is held on, None for a rail that nothing holds.

    Args:
        search: What finds the attachments of one rail.
        rails: The rails from the eave.
        stagger: Whether two neighboring rails may not stand on one line.
    """
    alone = [search.at_places(rail.strip, rail.places, rail.pins) for rail in rails]
    if stagger and all(alone):
        return staggered(search, rails, [way for way in alone if way is not None])
    pairs = zip(rails, alone, strict=True)
    return [None if way is None else rail.chosen(way) for rail, way in pairs]
