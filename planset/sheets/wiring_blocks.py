"""Wire clips and grounding lugs, each one insertion that a drawing program can count."""

from __future__ import annotations

from collections.abc import Iterator

from planset.design.design import Design
from planset.design.electrical.lugs import GROUNDING_LUG, lugs
from planset.design.electrical.wire_clips import WIRE_CLIP, wire_clips
from planset.design.once import once
from planset.drawing.geometry import Point
from planset.drawing.layers import INHERITED
from planset.drawing.primitives import Attribute, Block, Circle, Insert, Line, Polyline, Primitive
from planset.sheets.plan_turn import plane_rotation_deg

CLIP, LUG = "WIRE-CLIP", "GROUNDING-LUG"
CLIP_LAYER, LUG_LAYER = "E-SOLR-CLIP", "E-POWR-GRND"
LUG_RADIUS = 3.0  # of the ring of a lug's symbol [model in]


def wiring_block(array_id: str) -> str:
    """Name of the block that holds an array's wire clips and grounding lugs."""
    return f"WIRING-{array_id}"


@once
def wiring_blocks(design: Design) -> tuple[Block, ...]:
    """One clip, one lug, and per array all of its clips and lugs."""
    clip, lug = (
        Block(name, tuple(drawn), part, tags, constants=(Attribute("PART", part),))
        for name, drawn, part, tags in (
            (CLIP, clip_symbol(), WIRE_CLIP, ("MODULE",)),
            (LUG, lug_symbol(), GROUNDING_LUG, ("RAIL", "MODULES")),
        )
    )
    made: dict[str, list[Insert]] = {array.id: [] for array in design.arrays}
    for array_id, insert in (*_clips(design), *_lugs(design)):
        made[array_id].append(insert)
    return (
        clip,
        *([lug] if design.mounts else []),
        *(
            Block(wiring_block(name), tuple(inserts), f"Wire clips and grounding lugs of {name}")
            for name, inserts in made.items()
        ),
    )


def clip_symbol() -> list[Primitive]:
    """A hook over the frame, about the origin [in]."""
    ends: tuple[Point, ...] = ((-0.9, 1.4), (-0.9, -1.4), (0.9, -1.4), (0.9, 1.4))
    return [Polyline(ends, INHERITED)]


def lug_symbol() -> list[Primitive]:
    """The sign of an earth connection in a ring, about the origin [in]."""
    bars = [(1.9, 0.5), (1.2, -0.4), (0.5, -1.3)]
    return [
        Circle((0.0, 0.0), LUG_RADIUS, INHERITED),
        Line((0.0, LUG_RADIUS), (0.0, 0.5), INHERITED),
        *(Line((-half, y), (half, y), INHERITED) for half, y in bars),
    ]


def _clips(design: Design) -> Iterator[tuple[str, Insert]]:
    planes = {array.id: array.plane for array in design.arrays}
    for place in wire_clips(design):
        plane = planes[place.array]
        told = (Attribute("MODULE", place.module),) if place.module else ()
        at, turn = plane.to_plan(place.at), plane_rotation_deg(plane)
        yield place.array, Insert(CLIP, at, CLIP_LAYER, turn, attributes=told)


def _lugs(design: Design) -> Iterator[tuple[str, Insert]]:
    planes = {array.id: array.plane for array in design.arrays}
    for lug in lugs(design):
        plane = planes[lug.array]
        told = (
            *((Attribute("RAIL", lug.rail),) if lug.rail else ()),
            Attribute("MODULES", ", ".join(lug.modules)),
        )
        at, turn = plane.to_plan(lug.at), plane_rotation_deg(plane)
        name = f"LUG-{lug.array}-{lug.rail or 'FRAME'}-{lug.modules[0]}"
        yield lug.array, Insert(LUG, at, LUG_LAYER, turn, attributes=told, identity=name)
