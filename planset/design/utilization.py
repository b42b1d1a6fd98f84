"""One demand beside what there is to meet it."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Utilization:
    """A demand and its capacity, in the same unit.

    Attributes:
        demand: What is asked, without sign.
        capacity: What is allowed; 0 where nothing holds.
    """

    demand: float
    capacity: float

    @property
    def ratio(self) -> float:
        """Demand over capacity, 1 or less holds; infinite where nothing holds (no unit)."""
        if self.demand <= 0:
            return 0.0
        return self.demand / self.capacity if self.capacity > 0 else math.inf
