"""Rails and attachments of every array that has a mounting."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.design import rails_across, rails_up
from planset.design.layout import PlacedArray
from planset.design.racking import Racking, RailPlan, racking_of
from planset.design.support_lines import lines_for

if TYPE_CHECKING:
    from planset.job.load import Inputs


def place_racking(inputs: Inputs, arrays: tuple[PlacedArray, ...]) -> tuple[Racking, ...]:
    """Rails and attachments of every mounted array, in step with those; tags run on."""
    racks: list[Racking] = []
    rails = attachments = 0
    for array in arrays:
        if array.mounting is None or inputs.job.framing is None:
            continue
        rack = racking_of(array, _plans(inputs, array), rails, attachments)
        rails += len(rack.rails)
        attachments += len(rack.attachments)
        racks.append(rack)
    return tuple(racks)


def _plans(inputs: Inputs, array: PlacedArray) -> list[RailPlan]:
    lines = lines_for(inputs, array.plane, array.system)
    if array.system.across:
        return rails_across.stated_plans(array, lines)
    return rails_up.stated_plans(array, lines)
