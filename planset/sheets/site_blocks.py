"""What stands on the lot, each thing drawn once as a block in the plan of the house, true size."""

from __future__ import annotations

import math

from planset.design.site import OnSite, Site, StreetOnPlan
from planset.drawing.geometry import Box, Point, box_around, toward
from planset.drawing.layers import INHERITED, OWN_LAYERS
from planset.drawing.primitives import Area, Attribute, Block, Insert, Line, Polyline, Primitive
from planset.drawing.region import Region
from planset.job.site_plan import GAS_METER

PROPERTY = "PROPERTY"
SETBACKS = "PROPERTY-SETBACKS"
STREETS = "STREETS"
DRIVEWAYS = "DRIVEWAYS"
WALK = "FIRE-WALK"
ACCESS_POINTS = "ROOF-ACCESS-POINTS"
EQUIPMENT_LAYER, GAS_LAYER = "E-POWR-EQPM", "C-NGAS-EQPM"

_MARK_ALONG_IN, _MARK_DEEP_IN = 20.0, 14.0  # of equipment, whose own size is not known
_POINT_IN = 24.0  # side of the triangle where a roof is climbed
_ARROW_IN = 24.0
_PAST_LOT_IN = 96.0  # that the edge of a street is drawn past its property line


def structure_block(name: str) -> str:
    """Name of the block of a structure."""
    return f"STRUCTURE-{name}"


def equipment_block(name: str) -> str:
    """Name of the block of a piece of equipment, and its identity on the plan."""
    return f"SITE-{name}"


def site_blocks(site: Site) -> tuple[Block, ...]:
    """Blocks of the lot, its buildings apart."""
    return (
        Block(PROPERTY, tuple(Line(one.a, one.b, "C-PROP-LINE") for one in site.lines), "Lot"),
        _setbacks(site),
        Block(STREETS, tuple(_edges(site)), "Edges of street pavement"),
        Block(
            DRIVEWAYS,
            tuple(Polyline(ring, "C-DRIV-EDGE", closed=True) for ring in site.driveways),
            "Driveways",
        ),
        *(
            Block(
                structure_block(one.id),
                tuple(Polyline(ring, INHERITED, closed=True) for ring in one.rings),
                "Structure on the lot",
            )
            for one in site.structures
        ),
        *(_equipment(one) for one in site.equipment),
        Block(WALK, tuple(_walk(site.walk)), "Walk of the fire service"),
        Block(
            ACCESS_POINTS,
            tuple(Area(triangle(at), "F-SITE-ACCS-PONT") for at in site.access_points),
            "Where pathways on the roof meet an eave",
        ),
    )


def site_inserts(site: Site) -> list[Insert]:
    """Insertions of those that have something to show."""
    origin = (0.0, 0.0)
    shown = {
        PROPERTY: "C-PROP-LINE",
        SETBACKS: "C-PROP-SBCK",
        STREETS: "C-ROAD-EDGE",
        DRIVEWAYS: "C-DRIV-EDGE",
        WALK: OWN_LAYERS,
        ACCESS_POINTS: "F-SITE-ACCS-PONT",
    }
    filled = {block.name for block in site_blocks(site) if block.primitives}
    made = [Insert(name, origin, layer) for name, layer in shown.items() if name in filled]
    made += [Insert(structure_block(one.id), origin, "C-BLDG-OTLN") for one in site.structures]
    made += [
        Insert(
            equipment_block(one.id),
            origin,
            GAS_LAYER if one.id == GAS_METER else EQUIPMENT_LAYER,
            attributes=(Attribute("TAG", one.id), Attribute("NAME", one.name)),
            identity=equipment_block(one.id),
        )
        for one in site.equipment
    ]
    return made


def site_extent(site: Site) -> Box:
    """Lot, streets and all that stands on it [in]."""
    points = [*site.ring, *site.walk]
    points += [point for body in site.buildings for ring in body.rings for point in ring]
    points += [point for body in site.structures for ring in body.rings for point in ring]
    points += [point for ring in site.driveways for point in ring]
    points += [point for street in site.streets for point in street_edge(street) or ()]
    return box_around(points)


def street_edge(street: StreetOnPlan) -> tuple[Point, Point] | None:
    """Both ends of the edge of the pavement as drawn, None where it is not known."""
    if street.edge_in is None:
        return None
    line, (x, y) = street.line, street.line.outward
    a, b = toward(line.a, line.b, -_PAST_LOT_IN), toward(line.b, line.a, -_PAST_LOT_IN)
    out = street.edge_in
    return ((a[0] + x * out, a[1] + y * out), (b[0] + x * out, b[1] + y * out))


def mark_box(item: OnSite) -> Box:
    """The mark of a piece of equipment, at the outer or the inner face of its wall."""
    out = -_MARK_DEEP_IN / 2 if item.inside else _MARK_DEEP_IN / 2
    x, y = (item.at[0] + item.outward[0] * out, item.at[1] + item.outward[1] * out)
    deep, along = _MARK_DEEP_IN / 2, _MARK_ALONG_IN / 2
    half_x, half_y = (deep, along) if item.outward[0] else (along, deep)
    return Box(x - half_x, y - half_y, x + half_x, y + half_y)


def triangle(at: Point) -> tuple[Point, ...]:
    """The mark of a place where a roof is climbed."""
    reach = _POINT_IN / math.sqrt(3)
    turns = (90.0, 210.0, 330.0)
    return tuple(
        (at[0] + reach * math.cos(math.radians(t)), at[1] + reach * math.sin(math.radians(t)))
        for t in turns
    )


def setback_rings(site: Site) -> list[tuple[Point, ...]]:
    """Outlines of the part of the lot that keeps all setbacks, none where no line has any."""
    if not any(one.setback_in for one in site.lines):
        return []
    return Region.of(site.ring).less_strips((o.a, o.b, o.setback_in) for o in site.lines).rings


def _setbacks(site: Site) -> Block:
    lines = tuple(Polyline(ring, "C-PROP-SBCK", closed=True) for ring in setback_rings(site))
    return Block(SETBACKS, lines, "Required setbacks from property lines")


def _edges(site: Site) -> list[Primitive]:
    ends = [street_edge(street) for street in site.streets]
    return [Line(*pair, "C-ROAD-EDGE") for pair in ends if pair]


def _equipment(item: OnSite) -> Block:
    outline = Polyline(mark_box(item).corners, INHERITED, closed=True)
    return Block(equipment_block(item.id), (outline,), item.name.capitalize(), ("TAG", "NAME"))


def _walk(way: tuple[Point, ...]) -> list[Primitive]:
    """The way with an arrow at its end, nothing for a single point."""
    if len(way) < 2:
        return []
    tip, before = way[-1], way[-2]
    foot = toward(tip, before, _ARROW_IN)
    dx, dy = (tip[1] - foot[1]) / 5, (foot[0] - tip[0]) / 5
    head = (tip, (foot[0] + dx, foot[1] + dy), (foot[0] - dx, foot[1] - dy))
    return [Polyline(way, "F-SITE-ACCS"), Area(head, "F-SITE-ACCS-PONT")]
