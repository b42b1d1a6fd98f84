"""What labels ask of a system."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.design.electrical.system import BusLoad, Shutdown, StringCircuit
from planset.design.electrical.topology import Topology
from planset.design.electrical.voltage_limits import DWELLINGS

if TYPE_CHECKING:
    from planset.job.load import Inputs


@dataclass(frozen=True, slots=True)
class LabelSystem:
    """A system as far as its labels go.

    Attributes:
        inputs: The job and the catalog entries it names.
        topology: Equipment and conductors.
        strings: Its strings.
        buses: Buses that sources feed.
        shutdown: How array conductors are shut down.
        source_a: Sum of the continuous outputs of all new sources [A].
    """

    inputs: Inputs
    topology: Topology
    strings: tuple[StringCircuit, ...]
    buses: tuple[BusLoad, ...]
    shutdown: Shutdown
    source_a: float

    @property
    def dwelling(self) -> bool:
        """Whether it serves a dwelling."""
        return self.inputs.job.building.use in DWELLINGS
