"""Design values of the rafters a job describes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.codes.nds.beam_values import temperature_factors
from planset.codes.nds.design_values import DesignValues, design_values

if TYPE_CHECKING:
    from planset.job.framing import Framing

WOOD_TEMPERATURE_F = 125.0
"""Greatest sustained temperature of the wood under a roof, taken for every roof: assumption [F]."""

STIFFNESS_TEMPERATURE_FACTOR, TEMPERATURE_FACTOR = temperature_factors(WOOD_TEMPERATURE_F)
"""Ct of E and Emin, and of all else, of rafters and lag screws in dry wood (no unit)."""


def values_at_hand(framing: Framing) -> DesignValues | None:
    """Values of a framing's wood, grade and size, None where the table has none."""
    try:
        return design_values(framing.wood, framing.grade, framing.member)
    except ValueError:
        return None
