"""How far a rail across the slope may be moved before its clamps leave the zone of the frame."""

from __future__ import annotations

from dataclasses import dataclass

from planset.design.mounted import Mounted


@dataclass(frozen=True, slots=True)
class RailReach:
    """How far every rail of an array may be moved up or down the slope.

    Attributes:
        to_edge_in: Toward the edge of the modules that it is nearer to [in].
        to_middle_in: Toward their middle [in].
    """

    to_edge_in: float
    to_middle_in: float


def rail_reach(one: Mounted) -> RailReach | None:
    """The least that any rail of an array has, in the zone of its module's manual.

    Returns:
        None with rails up the slope, without clamps, and where no manual tells a zone.
    """
    array, clamping = one.array, one.array.product.clamping
    if not array.system.across or array.system.clamps is None or clamping is None:
        return None
    portrait = array.given.orientation == "portrait"
    zone = clamping.long_edge if portrait else clamping.short_edge
    frames = {module.id: module.surface for module in array.modules}
    off_edge = [
        min(holder.v_in - frames[tag].y0, frames[tag].y1 - holder.v_in)
        for holder in one.holding.holders
        for tag in holder.modules
    ]
    if zone is None or not off_edge:
        return None
    return RailReach(max(min(off_edge) - zone.start, 0.0), max(zone.end - max(off_edge), 0.0))
