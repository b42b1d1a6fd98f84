"""Wire clips and bonding lugs of an array, each one insertion that a drawing program can count."""

from __future__ import annotations

from collections.abc import Iterator

from planset.design.design import Design
from planset.design.layout import PlacedArray
from planset.design.module_wiring import BONDING_LUG, WIRE_CLIP, lug_places, wire_clips
from planset.design.mounted import Mounted
from planset.drawing.geometry import Point
from planset.drawing.layers import INHERITED
from planset.drawing.primitives import Attribute, Block, Circle, Insert, Line, Polyline, Primitive
from planset.sheets.plan_turn import plane_rotation_deg

CLIP, LUG = "WIRE-CLIP", "BONDING-LUG"
CLIP_LAYER, LUG_LAYER = "E-SOLR-CLIP", "E-SOLR-GRND"


def wiring_block(array_id: str) -> str:
    """Name of the block that holds an array's wire clips and bonding lugs."""
    return f"WIRING-{array_id}"


def wiring_blocks(design: Design) -> list[Block]:
    """One clip, one lug, and per array all of its clips and lugs."""
    clip = Block(CLIP, tuple(clip_symbol()), "Wire clip on a module frame", ("PART", "MODULE"))
    lug = Block(LUG, tuple(lug_symbol()), "Bonding lug", ("PART", "RAIL", "MODULES"))
    lugs = {one.id: tuple(_lugs(one)) for one in design.mounts}
    made = [
        Block(
            wiring_block(array.id),
            (*_clips(array), *lugs.get(array.id, ())),
            f"Wire clips and bonding lugs of {array.id}",
        )
        for array in design.arrays
    ]
    return [clip, *([lug] if any(lugs.values()) else []), *made]


def clip_symbol() -> list[Primitive]:
    """A hook over the frame, about the origin [in]."""
    ends: tuple[Point, ...] = ((-0.9, 1.4), (-0.9, -1.4), (0.9, -1.4), (0.9, 1.4))
    return [Polyline(ends, INHERITED)]


def lug_symbol() -> list[Primitive]:
    """The sign of an earth connection in a ring, about the origin [in]."""
    bars = [(1.9, 0.5), (1.2, -0.4), (0.5, -1.3)]
    return [
        Circle((0.0, 0.0), 3.0, INHERITED),
        Line((0.0, 3.0), (0.0, 0.5), INHERITED),
        *(Line((-half, y), (half, y), INHERITED) for half, y in bars),
    ]


def _clips(array: PlacedArray) -> Iterator[Insert]:
    turn = plane_rotation_deg(array.plane)
    for place in wire_clips(array):
        at = array.plane.to_plan((place.u_in, place.v_in))
        told = (Attribute("PART", WIRE_CLIP), Attribute("MODULE", place.module))
        yield Insert(CLIP, at, CLIP_LAYER, turn, attributes=told)


def _lugs(one: Mounted) -> Iterator[Insert]:
    plane = one.array.plane
    for place in lug_places(one):
        told = (
            Attribute("PART", BONDING_LUG),
            Attribute("RAIL", place.rail or "-"),
            Attribute("MODULES", str(place.modules)),
        )
        at = plane.to_plan((place.u_in, place.v_in))
        yield Insert(LUG, at, LUG_LAYER, plane_rotation_deg(plane), attributes=told)
