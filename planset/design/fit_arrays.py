"""Extents of the arrays: as the job states them, or as many modules as fit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.design.extent import Extent, stated_extents

if TYPE_CHECKING:
    from planset.design.layout import PlacedObstruction
    from planset.job.load import Inputs
    from planset.roof.solid import Roof


def find_extents(
    inputs: Inputs, roof: Roof, obstructions: tuple[PlacedObstruction, ...]
) -> tuple[Extent, ...]:
    """The extent of every array."""
    return stated_extents(inputs.job.arrays)
