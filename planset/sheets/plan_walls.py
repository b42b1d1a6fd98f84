"""The walls below the roofs, and the openings in them, in plan at true size."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.design.design import Design
from planset.design.walls import buildings, within_walls
from planset.drawing.geometry import Box, Point
from planset.drawing.labels import WithinEach
from planset.drawing.layers import INHERITED
from planset.drawing.page import View
from planset.drawing.primitives import Block, Insert, Line, Polyline, Primitive
from planset.drawing.region import Region
from planset.roof.plane import Plane
from planset.roof.solid import Roof

if TYPE_CHECKING:
    from planset.job.building import EscapeOpening, OpeningBelow
    from planset.job.roof import Roof as JobRoof

WALLS = "WALLS"
OPENINGS = "OPENINGS"

_OPENING_DEPTH_IN = 6.0  # of a window or door mark in plan, about a wall's thickness
_JAMB_IN = 8.0  # of the jamb marks of an escape opening, up the slope


def roof_given(design: Design, building: str) -> JobRoof:
    """The roof of a building as the job states it; "" is the house."""
    job = design.inputs.job
    others = {other.id: other.roof for other in job.other_buildings}
    return others.get(building, job.roof)


def outside_of_roofs(roof: Roof, view: View) -> WithinEach:
    """Tells of boxes on paper whether they lie beside all roofs, where leaders best start."""
    outlines = (map(view.on_paper.apply, plane.outline) for plane in roof.planes)
    covered = Region.joined(Region.of(outline) for outline in outlines)
    return lambda boxes: [not met for met in covered.meets_each(boxes)]


def walls_block(design: Design) -> Block:
    """The outline of each building, set in by the overhangs stated for its edges."""
    lines = [
        Polyline(ring, INHERITED, closed=True)
        for building in buildings(design.roof)
        for ring in within_walls(design.inputs.job, design.roof, building).rings
    ]
    return Block(WALLS, tuple(lines), "Walls below the roof, at the stated overhangs")


def escape_block(number: int) -> str:
    """Name of the block of an escape opening, numbered from 0."""
    return f"ESCAPE-OPENING-{number + 1}"


def below_block(number: int) -> str:
    """Name of the block of an opening below an eave, numbered from 0."""
    return f"OPENING-BELOW-{number + 1}"


def openings_blocks(design: Design) -> list[Block]:
    """A block per opening, and one that inserts them all."""
    building = design.inputs.job.building
    below = building.openings_below_eaves or ()
    made = [
        Block(escape_block(n), _escape(design.roof.plane(item.plane), item), "Escape opening")
        for n, item in enumerate(building.escape_openings_onto_roof)
    ]
    made += [
        Block(below_block(n), _below(design, item), f"{item.kind} below the eave".capitalize())
        for n, item in enumerate(below)
    ]
    if not made:
        return []
    inserts = tuple(
        Insert(block.name, (0.0, 0.0), "A-WALL-OPNG", identity=block.name) for block in made
    )
    return [*made, Block(OPENINGS, inserts, "Openings that bear on fire access")]


def _escape(plane: Plane, item: EscapeOpening) -> tuple[Primitive, ...]:
    """The sill on the line where roof and wall meet, a jamb at either end."""
    left, right = item.along, item.along + item.width
    ends = ((left, item.up), (right, item.up))
    sill = [
        (left, item.up - _JAMB_IN / 2),
        (right, item.up - _JAMB_IN / 2),
        (right, item.up + _JAMB_IN / 2),
        (left, item.up + _JAMB_IN / 2),
    ]
    frame = Polyline(tuple(map(plane.to_plan, sill)), INHERITED, closed=True)
    return (frame, Line(plane.to_plan(ends[0]), plane.to_plan(ends[1]), INHERITED))


def below_outline(design: Design, item: OpeningBelow) -> tuple[Point, ...]:
    """What an opening below an eave covers in plan [in]."""
    box = _below_box(design, item)
    return tuple(map(design.roof.plane(item.plane).to_plan, box.corners))


def _below_box(design: Design, item: OpeningBelow) -> Box:
    plane = design.roof.plane(item.plane)
    inward = roof_given(design, plane.building).eave_overhang * plane.slope_factor
    half = _OPENING_DEPTH_IN / 2 * plane.slope_factor
    return Box(item.along, inward - half, item.along + item.width, inward + half)


def _below(design: Design, item: OpeningBelow) -> tuple[Primitive, ...]:
    """A rectangle in the wall below the eave; a window has its pane, a door none."""
    plane, box = design.roof.plane(item.plane), _below_box(design, item)
    made: list[Primitive] = [Polyline(below_outline(design, item), INHERITED, closed=True)]
    if item.kind == "window":
        ends = ((box.x0, box.center[1]), (box.x1, box.center[1]))
        made.append(Line(plane.to_plan(ends[0]), plane.to_plan(ends[1]), INHERITED))
    return tuple(made)
