"""One line of a bill of materials, and how many spares it has."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from planset.job.materials import Spares

Unit = Literal["each", "in", "ft", "fl oz"]
SpareClass = Literal["small_parts", "attachments", "modules", "none"]

_NOISE = 1e-9


@dataclass(frozen=True, slots=True)
class MaterialLine:
    """One line of the bill.

    Attributes:
        group: What it belongs to, capitals.
        item: What it is.
        product: Maker and model, or the part's name in its system.
        document: Where its maker describes it, "" where the job names none.
        quantity: How many the design holds, None for what is not counted.
        spare: How many more are ordered.
        unit: Of both.
        counted: What it was counted from.
        drawn_as: The name that its insertions in a drawing carry, "" for what is not drawn.
    """

    group: str
    item: str
    product: str
    document: str
    quantity: int | None
    spare: int
    unit: Unit
    counted: str
    drawn_as: str = ""

    @property
    def total(self) -> int | None:
        """How many to order, None for what is not counted."""
        return None if self.quantity is None else self.quantity + self.spare


def spares_of(quantity: int, spares: Spares, kind: SpareClass) -> int:
    """The share of a quantity ordered as spares, rounded up."""
    share = 0.0 if kind == "none" else float(getattr(spares, kind))
    return math.ceil(quantity * share - _NOISE)
