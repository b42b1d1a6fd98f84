"""Design values of the rafters a job describes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.codes.nds.design_values import DesignValues, design_values

if TYPE_CHECKING:
    from planset.job.framing import Framing


def values_at_hand(framing: Framing) -> DesignValues | None:
    """Values of a framing's wood, grade and size, None where the table has none."""
    try:
        return design_values(framing.wood, framing.grade, framing.member)
    except ValueError:
        return None
