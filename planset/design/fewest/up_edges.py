"""Which lines may carry rails up the slope side by side, by the modules and feet over them."""

from __future__ import annotations

import math
from dataclasses import dataclass

from planset.design.layout import PlacedArray
from planset.design.rails_up import blocks_of

Interval = tuple[float, float]


@dataclass(frozen=True, slots=True)
class EdgeRules:
    """Where rails must cross the long edges of modules.

    Attributes:
        modules: From where to where modules reach along the eave, each place once [in].
        edges: The same of edges that carry from foot to foot: of rows whose modules are coupled,
            else of single modules [in].
        least: Rails under every module.
        span_in: Foot to foot at most [in].
        free_end_in: From the last foot to the end of the edge at most [in].
        apart_in: Rail to rail at most, whatever lies over them [in].
        pinned: Lines that must carry a rail, from the left end of the eave [in].
    """

    modules: tuple[Interval, ...]
    edges: tuple[Interval, ...]
    least: int
    span_in: float
    free_end_in: float
    apart_in: float
    pinned: tuple[float, ...]

    def follow(self, one: float | None, other: float | None) -> bool:
        """Whether no rail need lie between two lines; None beyond the array [in]."""
        left = -math.inf if one is None else one
        right = math.inf if other is None else other
        if one is not None and other is not None and other - one > self.apart_in:
            return False
        if any(left < line < right for line in self.pinned):
            return False
        if any(left <= x0 and x1 <= right for x0, x1 in self.modules):
            return False
        return all(self._edge_holds(edge, left, right) for edge in self.edges)

    def surround(self, before: float | None, line: float, after: float | None) -> bool:
        """Whether every module over a line has rails enough, these its neighbors [in]."""
        return self.least < 2 or all(
            any(other is not None and x0 < other < x1 for other in (before, after))
            for x0, x1 in self.modules
            if x0 < line < x1
        )

    def _edge_holds(self, edge: Interval, left: float, right: float) -> bool:
        x0, x1 = edge
        starts, ends = x0 < left < x1, x0 < right < x1
        if starts and ends:
            return right - left <= self.span_in + 1e-9
        if ends:
            return right - x0 <= self.free_end_in + 1e-9
        if starts:
            return x1 - left <= self.free_end_in + 1e-9
        return not (left <= x0 and x1 <= right)


def edge_rules(array: PlacedArray, apart_in: float, pinned: tuple[float, ...]) -> EdgeRules:
    """The rules for the lines of an array.

    Args:
        array: The array, on rails up the slope.
        apart_in: Rail to rail at most, by the jurisdiction [in].
        pinned: Lines that the drafter set, from the left end of the eave [in].
    """
    foot, coupling = array.system.foot, array.system.coupling
    modules = tuple(sorted({(m.surface.x0, m.surface.x1) for m in array.modules}))
    rows = tuple(sorted({(x0, x1) for _, _, x0, x1 in blocks_of(array)}))
    return EdgeRules(
        modules=modules,
        edges=rows if coupling else modules,
        least=1 if coupling else 2,
        span_in=foot.edge_span if foot else math.inf,
        free_end_in=foot.edge_cantilever if foot else math.inf,
        apart_in=apart_in,
        pinned=pinned,
    )
