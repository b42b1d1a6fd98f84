"""Rails and attachments of every array that has a mounting."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.design import rails_across, rails_up
from planset.design.acting import Acting, acting_on
from planset.design.layout import PlacedArray
from planset.design.racking import Racking, RailPlan, racking_of
from planset.design.support_lines import lines_for

if TYPE_CHECKING:
    from planset.job.load import Inputs
    from planset.roof.solid import Roof


def place_racking(
    inputs: Inputs,
    roof: Roof,
    arrays: tuple[PlacedArray, ...],
    acting: Acting | None = None,
) -> tuple[Racking, ...]:
    """Rails and attachments of every mounted array, in step with those; tags run on.

    Args:
        inputs: The job.
        roof: All its roofs.
        arrays: All arrays.
        acting: Wind and snow on its planes, where they are known already.

    Raises:
        JobErrors: No layout of an array is within all limits.
    """
    racks: list[Racking] = []
    rails = attachments = 0
    for array in arrays:
        if array.mounting is None or inputs.job.framing is None:
            continue
        if array.stated_mounting.fewest_attachments:
            acting = acting or acting_on(inputs, roof, arrays)
            plans = _found(inputs, roof, array, arrays, acting)
        else:
            plans = _stated(inputs, array)
        rack = racking_of(array, plans, rails, attachments)
        rails += len(rack.rails)
        attachments += len(rack.attachments)
        racks.append(rack)
    return tuple(racks)


def _found(
    inputs: Inputs,
    roof: Roof,
    array: PlacedArray,
    arrays: tuple[PlacedArray, ...],
    acting: Acting,
) -> list[RailPlan]:
    from planset.design.fewest import fewest_plans  # noqa: PLC0415 - not every job needs it

    lines = lines_for(inputs, array.plane, array.system)
    return fewest_plans(inputs, roof, array, arrays, lines, acting)


def _stated(inputs: Inputs, array: PlacedArray) -> list[RailPlan]:
    lines = lines_for(inputs, array.plane, array.system)
    if array.system.across:
        return rails_across.stated_plans(array, lines)
    return rails_up.stated_plans(array, lines)
