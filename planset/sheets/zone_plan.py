"""The wind zones of the roof in plan: outline, hatch by severity, names of zones and arrays."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from planset.design.design import Design
from planset.design.wind import ZonePlan
from planset.design.wind_zones import ZoneRegion
from planset.drawing.geometry import Box, Point
from planset.drawing.hatching import hatch
from planset.drawing.layers import OWN_LAYERS
from planset.drawing.page import View
from planset.drawing.primitives import Block, Insert, Line, Polyline, Primitive, Text
from planset.drawing.region import Region, outlines_once
from planset.drawing.text import NOTE_HEIGHT, SLACK, text_width
from planset.roof.plane import Plane

ZONES = "WIND-ZONES"
ZONE_HATCHES = "WIND-ZONES-HATCH"
EDGE_LAYER = "S-ROOF-ZONE-EDGE"
OUTLINE_LAYER, HATCH_LAYER, TEXT_LAYER = "S-ROOF-ZONE", "S-ROOF-ZONE-PATT", "S-ANNO-TEXT"

ZONE_HATCH = {"2": (45.0, 0.14), "3": (-45.0, 0.07)}
"""By the first letter of a zone the direction of its hatch and the way between lines on paper."""

_AROUND = 0.04  # free around a name [paper in]
_ON_EDGE_IN = 0.1  # that a boundary along the edge of its plane may lie outside of it [in]


@dataclass(frozen=True, slots=True)
class ZoneLabel:
    """The name of a zone or an array where it stands.

    Attributes:
        name: The name.
        center: Its middle, in plan [model in].
        hole: What the hatch leaves free, in plan [model in].
    """

    name: str
    center: Point
    hole: tuple[Point, ...]


def zones_drawn(design: Design) -> Iterator[tuple[Plane, ZonePlan]]:
    """Planes under an array whose zones are known, each with the figure it takes."""
    for building in design.loads.buildings.values():
        for name in design.loads.planes:
            wind = building.planes.get(name)
            if wind is not None and wind.plans:
                yield design.roof.plane(name), wind.plans[0]


def zone_labels(design: Design, factor: float) -> tuple[ZoneLabel, ...]:
    """Names of all zones that have room for theirs beside the arrays.

    Args:
        design: The design.
        factor: Model inches per paper inch.
    """
    labels = []
    for plane, plan in zones_drawn(design):
        arrays = [a for a in design.arrays if a.plane.id == plane.id]
        taken = [_in_plan(plane, array.hardware) for array in arrays]
        for region in plan.regions:
            outline, holes = _rings(plane, region)
            free = Region.of(outline, holes).less(*taken)
            label = _label(region.zone, free, factor)
            if label is not None:
                labels.append(label)
    return tuple(labels)


def array_labels(design: Design, factor: float) -> tuple[ZoneLabel, ...]:
    """Names of the arrays, each in a module near the middle that holds it clear of zone lines.

    An array gets no name at scales at which none of its modules does.

    Args:
        design: The design.
        factor: Model inches per paper inch.
    """
    zones = [
        Region.of(*_rings(plane, region))
        for plane, plan in zones_drawn(design)
        for region in plan.regions
    ]
    labels = []
    crossed = crossed_modules(design)
    for array in design.arrays:
        middle = array.plane.to_plan(array.frames.center)
        clear = []
        for module in array.modules:
            center = array.plane.to_plan(module.surface.center)
            box, frame = _box(array.id, center, factor), _in_plan(array.plane, module.surface)
            if module.id in crossed:
                continue
            if frame.holds(box) and any(zone.holds(box) for zone in zones):
                clear.append((math.dist(center, middle), center, box.corners))
        if clear:
            _, center, hole = min(clear)
            labels.append(ZoneLabel(array.id, center, hole))
    return tuple(labels)


_Ring = tuple[Point, ...]


def _rings(plane: Plane, region: ZoneRegion) -> tuple[_Ring, tuple[_Ring, ...]]:
    """Outline and holes of a zone in plan."""
    rings = (region.surface.exterior, *region.surface.interiors)
    outline, *holes = (tuple(plane.to_plan(end) for end in ring.coords[:-1]) for ring in rings)
    return outline, tuple(holes)


def _in_plan(plane: Plane, box: Box) -> Region:
    return Region.of([plane.to_plan(corner) for corner in box.corners])


def _label(zone: str, free: Region, factor: float) -> ZoneLabel | None:
    if free.is_empty:
        return None
    for center in (free.widest_spot, free.inner_point):
        box = _box(zone, center, factor)
        if free.holds(box):
            return ZoneLabel(zone, center, box.corners)
    return None


def _box(name: str, center: Point, factor: float) -> Box:
    """What a name takes up, with some room around it [model in]."""
    across = (text_width(name, NOTE_HEIGHT) * SLACK / 2 + _AROUND) * factor
    up = (NOTE_HEIGHT / 2 + _AROUND) * factor
    return Box(center[0] - across, center[1] - up, center[0] + across, center[1] + up)


def zones_block(plane: str) -> str:
    """Name of the block of the zones of one plane."""
    return f"{ZONES}-ON-{plane}"


def zone_blocks(design: Design) -> tuple[Block, ...]:
    """A block per plane, and one that inserts them all.

    Each has the outlines of its zones, and the modules near exposed ends crossed. What the zones
    of two planes share is drawn once, in the first one's.
    """
    drawn = list(zones_drawn(design))
    made: dict[str, list[Primitive]] = {plane.id: [] for plane, _ in drawn}
    rings = [_rings(plane, region)[0] for plane, plan in drawn for region in plan.regions]
    grounds = {plane.id: _ground(plane).grown(_ON_EDGE_IN) for plane, _ in drawn}
    for line in outlines_once(rings):
        (x0, y0), (x1, y1) = line[:2]  # it forks nowhere: all of it belongs to the same planes
        middle = ((x0 + x1) / 2, (y0 + y1) / 2)
        on = next(name for name, ground in grounds.items() if ground.holds_point(middle))
        made[on].append(Polyline(line, OUTLINE_LAYER))
    for plane, diagonal in _near_exposed_ends(design):
        made.setdefault(plane, []).append(diagonal)
    blocks = [
        Block(zones_block(plane), tuple(parts), f"Wind zones of plane {plane}")
        for plane, parts in made.items()
    ]
    inserts = tuple(Insert(block.name, (0.0, 0.0), OWN_LAYERS) for block in blocks)
    return (*blocks, Block(ZONES, inserts, "Wind zones of the planes with arrays"))


def _ground(plane: Plane) -> Region:
    outline, *holes = plane.rings
    return Region.of(outline, holes)


def hatch_block(design: Design, labels: tuple[ZoneLabel, ...], factor: float) -> Block:
    """The hatch of all zones, broken where names stand.

    Args:
        design: The design.
        labels: The names.
        factor: Model inches per paper inch.
    """
    holes = tuple(label.hole for label in labels)
    made: list[Primitive] = []
    for plane, plan in zones_drawn(design):
        for region in plan.regions:
            outline, inner = _rings(plane, region)
            pattern = ZONE_HATCH.get(region.zone[0])
            if pattern is not None:
                angle, spacing = pattern
                made += hatch(outline, spacing * factor, angle, HATCH_LAYER, (*holes, *inner))
    return Block(ZONE_HATCHES, tuple(made), "Hatch of the wind zones")


def crossed_modules(design: Design) -> frozenset[str]:
    """Modules that take the edge factor by the geometric test."""
    return frozenset(
        module.module
        for loads in design.loads.arrays
        for module in loads.exposed
        if module.edge_factor > 1.0
    )


def _near_exposed_ends(design: Design) -> Iterator[tuple[str, Line]]:
    """Both diagonals of every such module, with its plane."""
    crossed = crossed_modules(design)
    for array in design.mounted:
        for module in array.modules:
            if module.id in crossed:
                a, b, c, d = (array.plane.to_plan(corner) for corner in module.surface.corners)
                for ends in ((a, c), (b, d)):
                    yield array.plane.id, Line(*ends, EDGE_LAYER)


def zone_texts(labels: tuple[ZoneLabel, ...], view: View) -> tuple[Text, ...]:
    """The names on paper."""
    return tuple(
        Text(label.name, view.on_paper.apply(label.center), NOTE_HEIGHT, TEXT_LAYER, "middle")
        for label in labels
    )
