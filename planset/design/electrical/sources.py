"""What feeds the ac side: each inverter, and each branch of microinverters, as one source."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.codes.nec import circuit_current
from planset.design.electrical.system import BranchCircuit

if TYPE_CHECKING:
    from planset.job.load import Inputs


@dataclass(frozen=True, slots=True)
class Source:
    """One source of alternating current.

    Attributes:
        id: Id of the inverter or branch.
        current_a: Continuous output current [A].
        power_w: Continuous output power [W].
        neutral: Whether it needs a neutral conductor.
        import_a: Most that it takes from the grid, to charge and to feed its backup loads [A].
        breaker_a: Rating that the job fixes for its breaker in the combiner, None for none [A].
    """

    id: str
    current_a: float
    power_w: float
    neutral: bool
    breaker_a: float | None
    import_a: float = 0.0

    @property
    def circuit_a(self) -> float:
        """What its conductors and devices carry: the larger of output and import [A]."""
        return max(self.current_a, self.import_a)


def ac_sources(inputs: Inputs, branches: tuple[BranchCircuit, ...]) -> tuple[Source, ...]:
    """The sources, inverters first, each in the order of the job."""
    found = []
    for placed in inputs.job.electrical.inverters:
        inverter = inputs.inverters[placed.model]
        current_a = circuit_current.inverter_output_maximum_a(inverter.ac_current_a)
        found.append(
            Source(
                placed.id,
                current_a,
                inverter.ac_power_w,
                inverter.neutral,
                placed.breaker,
                inverter.grid_current_a or 0.0,
            )
        )
    for branch, item in zip(branches, inputs.job.electrical.branches, strict=True):
        unit = inputs.microinverters[branch.inverter]
        power_w = branch.units * unit.ac_power_w
        neutral = unit.trunk.neutral
        found.append(Source(branch.id, branch.maximum_current_a, power_w, neutral, item.breaker))
    return tuple(found)
