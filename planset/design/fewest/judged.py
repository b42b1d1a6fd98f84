"""A found layout judged by the loads themselves, as the rules will."""

from __future__ import annotations

from collections.abc import Sequence

from planset.design.attachment_loads import OnShares, attachment_loads
from planset.design.fastening import Fastening
from planset.design.fewest.share_uses import ratios_of
from planset.design.racking import RailPlan, racking_of
from planset.design.rail_loads import RailUse, rail_uses
from planset.design.span_table import SpanReading
from planset.design.wind_arrays import ModuleExposure

_NOISE = 1e-9


def layout_holds(
    on_shares: OnShares,
    held: Fastening | None,
    plans: Sequence[RailPlan],
    exposed: tuple[ModuleExposure, ...],
) -> bool:
    """Whether every attachment and rail of a layout is within its limits.

    Args:
        on_shares: The load on any share of the array.
        held: Lag screws of an attachment, None for clamps on seams.
        plans: The rails.
        exposed: What the geometric test says of the modules.
    """
    inputs, building, array = on_shares.inputs, on_shares.building, on_shares.array
    rack = racking_of(array, plans, 0, 0)
    method, snow = on_shares.method, on_shares.snow
    loads = attachment_loads(inputs, building, array, rack, method, exposed, snow)
    ceiling = array.stated_mounting.ratio_ceiling + _NOISE
    alike = {(id(load.combined), load.continuity, load.reversal): load for load in loads}
    if any(max(ratios_of(on_shares, held, load).values()) > ceiling for load in alike.values()):
        return False
    point = inputs.jurisdiction.review.point_load
    if point is not None:
        heaviest = max(item.tributary_sqft * item.continuity for item in rack.attachments)
        if heaviest * array.system.dead_load_psf > point.value + _NOISE:
            return False
    return all(_rail_holds(use, ceiling) for use in rail_uses(inputs, building, array, rack, loads))


def _rail_holds(use: RailUse, ceiling: float) -> bool:
    if use.up is None or use.down is None:
        return False
    if isinstance(use.table, SpanReading) and use.span_in > use.table.row.span_in + _NOISE:
        return False
    if use.cantilever_in > use.cantilever_limit_in + _NOISE:
        return False
    return max(use.up.ratio, use.down.ratio) <= ceiling
