"""Working spaces in front of equipment on walls, and distances there.

Read so (interpretation): the depth is taken from the front of an enclosure; the width need not be
centered, so it is moved aside where something stands out farther than the equipment it serves.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.codes.nec import working_space
from planset.design.electrical.topology import Kind, Segment, Topology
from planset.drawing.geometry import Box

if TYPE_CHECKING:
    from planset.design.design import Design
    from planset.job.electrical.service import Service
    from planset.job.electrical.wall import EquipmentWall, OnWall

BEYOND_FRONT_IN = 6.0
"""How far associated equipment above or below may stand out past the front served [in].

Source: NEC 2017, 2020 and 2023, 110.26(A)(3) [from memory].
"""

_WYE_V = (208.0, 480.0, 600.0)
_WITHOUT = (Kind.UTILITY_METER, Kind.BUTTON)
"""Of the utility, under its own rules; on the voltage of a control circuit (interpretation)."""
_NOISE = 1e-9


@dataclass(frozen=True, slots=True)
class WorkingSpace:
    """What stays free in front of a piece of equipment.

    Attributes:
        item: The equipment.
        volts: Its voltage to ground [V].
        left: Left end, from the wall's left end [in].
        right: Right end [in].
        depth: From the front of the equipment, required [in].
        free: From there to what stands opposite [in].
        height: From grade [in].
        intruders: Tags of what stands in it farther out than it may.
        doubtful: Tags of what stands out beside it no farther than it might above or below, which
            the code leaves unsaid.
        on_wall: Whether it ends on the wall it belongs to.
    """

    item: OnWall
    volts: float
    left: float
    right: float
    depth: float
    free: float
    height: float
    intruders: tuple[str, ...]
    doubtful: tuple[str, ...]
    on_wall: bool

    @property
    def width(self) -> float:
        """Its width [in]."""
        return self.right - self.left


def service_volts_to_ground(service: Service) -> float:
    """Voltage to ground of a service [V].

    Single-phase services have their ground in the middle; of three phases only the usual wye
    voltages are known to have it there, so that others count whole.
    """
    if service.phases == 1:
        return service.voltage / 2
    return service.voltage / math.sqrt(3) if service.voltage in _WYE_V else service.voltage


def volts_to_ground(design: Design, tag: str) -> float:
    """Highest voltage to ground at a piece of equipment or a panel [V].

    Direct current counts with its maximum voltage, as the circuits of modules are not solidly
    grounded (NEC, Table 110.26(A)(1)).
    """
    topology = design.electrical.topology
    tags = {tag, *(item.tag for item in topology.parts_of(tag))}
    ac = service_volts_to_ground(design.inputs.job.electrical.service)
    met = [
        ac if segment.ac else segment.voltage_v
        for segment in topology.segments
        if tags & {segment.start, segment.end}
    ]
    return max([ac, *met])


def working_spaces(design: Design, wall: EquipmentWall) -> tuple[WorkingSpace, ...]:
    """The working space of all equipment on a wall but the utility's meter and buttons."""
    topology = design.electrical.topology
    return tuple(
        _space(design, wall, item) for item in wall.equipment if not _needs_none(topology, item.tag)
    )


def _needs_none(topology: Topology, tag: str) -> bool:
    known = topology.by_tag.get(tag)
    return known is not None and known.kind in _WITHOUT


def _space(design: Design, wall: EquipmentWall, item: OnWall) -> WorkingSpace:
    volts = volts_to_ground(design, item.tag)
    width = working_space.width_in(item.width)
    height = working_space.height_in(item.bottom + item.height)
    low, high = item.left + item.width - width, item.left
    middle = item.left + item.width / 2 - width / 2
    starts = [s for s in _starts(wall, item, width) if low - _NOISE <= s <= high + _NOISE]
    tried = [(s, _met(wall, item, Box(s, 0.0, s + width, height))) for s in starts]
    start, (intruders, doubtful) = min(
        tried,
        key=lambda one: (
            len(one[1][0]),
            len(one[1][1]),
            not _on_wall(wall, one[0], one[0] + width),
            round(abs(one[0] - middle), 6),
        ),
    )
    return WorkingSpace(
        item=item,
        volts=volts,
        left=start,
        right=start + width,
        # No building takes more than the table ends with: the rule on string voltage fails there.
        depth=working_space.depth_in(min(volts, working_space.HIGHEST_V), wall.condition),
        free=wall.free_depth - item.depth,
        height=height,
        intruders=intruders,
        doubtful=doubtful,
        on_wall=_on_wall(wall, start, start + width),
    )


def _starts(wall: EquipmentWall, item: OnWall, width: float) -> Iterator[float]:
    """Where the space may begin: centered, flush, or up against another piece or the wall's end."""
    yield item.left + item.width / 2 - width / 2
    yield item.left
    yield item.left + item.width - width
    yield 0.0
    yield wall.width - width
    for other in wall.equipment:
        yield other.left - width
        yield other.left + other.width


def _on_wall(wall: EquipmentWall, left: float, right: float) -> bool:
    return left >= -_NOISE and right <= wall.width + _NOISE


def on_wall_box(item: OnWall) -> Box:
    """What a piece covers of its wall, from the wall's left end and from grade [in]."""
    return Box(item.left, item.bottom, item.left + item.width, item.bottom + item.height)


def _met(wall: EquipmentWall, item: OnWall, space: Box) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What stands out into a space too far, and what may stand out too far beside it."""
    own = on_wall_box(item)
    inner = space.grown(-_NOISE)
    too_far: list[str] = []
    doubtful: list[str] = []
    for other in wall.equipment:
        there, out = on_wall_box(other), other.depth - item.depth
        if other is item or out <= _NOISE or not inner.overlaps(there):
            continue
        if out > BEYOND_FRONT_IN + _NOISE:
            too_far.append(other.tag)
        elif not (there.x0 < own.x1 and own.x0 < there.x1):
            doubtful.append(other.tag)
    return tuple(too_far), tuple(doubtful)


def apart_on_wall_in(wall: EquipmentWall, one: str, other: str) -> float | None:
    """Distance between the middles of two pieces; None unless both hang on the wall [in]."""
    middles = {
        item.tag: (item.left + item.width / 2, item.bottom + item.height / 2)
        for item in wall.equipment
    }
    if one not in middles or other not in middles:
        return None
    return math.dist(middles[one], middles[other])


def has_handle(design: Design, tag: str) -> bool:
    """Whether a piece of equipment has a switch or breaker that is worked by hand."""
    topology = design.electrical.topology
    if topology.parts_of(tag):
        return True
    known = topology.by_tag.get(tag)
    if known is None:
        return False
    if known.kind is Kind.INVERTER:
        return any(_by_dc(segment, tag) for segment in topology.segments)
    return known.kind in (
        Kind.DISCONNECT,
        Kind.FUSED_DISCONNECT,
        Kind.DC_DISCONNECT,
        Kind.BREAKER,
        Kind.MAIN,
        Kind.BUTTON,
    )


def _by_dc(segment: Segment, tag: str) -> bool:
    """Whether it brings direct current to a piece, whose switch is then in it or beside it."""
    return not segment.ac and segment.end == tag
