"""Module edges on their feet: the spans between feet, and the free ends past the last ones."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from planset.design.layout import PlacedModule
from planset.design.mounted import Mounted

_NOISE_IN = 1e-6


@dataclass(frozen=True, slots=True)
class ModuleEdge:
    """An edge along the eave of a module, or of several that couplings join.

    Attributes:
        modules: Ids of the modules, from the left.
        upper: Whether it is their upper edge.
        u0_in: Left end [in].
        u1_in: Right end [in].
        feet: Where feet hold it, from the left end of the eave [in].
    """

    modules: tuple[str, ...]
    upper: bool
    u0_in: float
    u1_in: float
    feet: tuple[float, ...]

    @property
    def span_in(self) -> float:
        """The longest span between feet, 0 on fewer than two [in]."""
        return max((b - a for a, b in pairwise(self.feet)), default=0.0)

    @property
    def cantilever_in(self) -> float:
        """The longer free end; all of the edge where no foot holds it [in]."""
        if not self.feet:
            return self.u1_in - self.u0_in
        return max(self.feet[0] - self.u0_in, self.u1_in - self.feet[-1])


def module_edges(one: Mounted) -> tuple[ModuleEdge, ...]:
    """The lower and upper edges of an array's modules, joined where the system couples them."""
    by_id = {module.id: module for module in one.array.modules}
    feet: dict[tuple[int, bool], set[float]] = {}
    for holder in one.holding.holders:
        for tag in holder.modules:
            module = by_id[tag]
            upper = holder.v_in > module.surface.center[1]
            feet.setdefault((module.row, upper), set()).add(holder.u_in)
    found = []
    for run in _runs(one):
        u0, u1 = run[0].surface.x0, run[-1].surface.x1
        for upper in (False, True):
            held = feet.get((run[0].row, upper), set())
            own = sorted(u for u in held if u0 - _NOISE_IN <= u <= u1 + _NOISE_IN)
            found.append(ModuleEdge(tuple(m.id for m in run), upper, u0, u1, tuple(own)))
    return tuple(found)


def _runs(one: Mounted) -> Iterator[list[PlacedModule]]:
    """Modules side by side that couplings join, or one by one."""
    run: list[PlacedModule] = []
    for module in one.array.modules:
        if run and one.array.system.coupling and _follows(run[-1], module):
            run.append(module)
            continue
        if run:
            yield run
        run = [module]
    if run:
        yield run


def _follows(module: PlacedModule, other: PlacedModule) -> bool:
    return (module.row, module.column + 1) == (other.row, other.column)
