"""DXF entities a page can hold, turned into primitives; all others are refused by name."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any, NoReturn

from ezdxf.entities.boundary_paths import PolylinePath
from ezdxf.entities.dxfentity import DXFEntity

from planset.drawing.geometry import Point
from planset.drawing.layers import INHERITED, LAYERS
from planset.drawing.primitives import Area, Circle, Insert, Line, Polyline, Primitive, Text
from planset.drawing.text import DESCENT, text_width
from planset.formats.refused import RefusedError

# Group codes 72 (horizontal) and 73 (vertical) of TEXT and ATTDEF.
_ALIGNED, _MIDDLE, _FIT = 3, 4, 5
_ACROSS = MappingProxyType({0: "left", 1: "center", 2: "right"})
_RISE = MappingProxyType({0: 0.0, 1: DESCENT, 2: -0.5, 3: -1.0})  # to the baseline, in heights


def point(vertex: Any) -> Point:
    """Plan coordinates of a DXF vertex; a page has no third one."""
    return (float(vertex[0]), float(vertex[1]))


def primitive(entity: DXFEntity) -> Primitive:
    """One entity as a primitive, on its own layer.

    Raises:
        RefusedError: The page cannot hold the entity as it is drawn.
    """
    kind = entity.dxftype()
    reader = _READERS.get(kind)
    if reader is None:
        _refuse(f"a page cannot hold {kind}", f"redraw it as {', '.join(_READERS)}")
    _check_style(entity)
    return reader(entity, _layer(entity))


def text_place(entity: Any) -> tuple[Point, str]:
    """Anchor and alignment of a TEXT or ATTDEF, brought to the baseline where need be.

    Returns:
        The anchor [in], and "left", "center", "right" or "middle".

    Raises:
        RefusedError: The letters are stretched, slanted or mirrored.
    """
    kind, across, up = entity.dxftype(), entity.dxf.halign, entity.dxf.valign
    distorted = (
        across in (_ALIGNED, _FIT)
        or not math.isclose(entity.dxf.width, 1.0)
        or entity.dxf.oblique != 0
        or entity.dxf.text_generation_flag != 0
    )
    if distorted:
        _refuse(
            f"a page cannot hold stretched, slanted or mirrored {kind}",
            "justify it left, center, right or middle, with width factor 1 and no oblique angle",
        )
    by_insert = (across, up) == (0, 0) or not entity.dxf.hasattr("align_point")
    x, y = point(entity.dxf.insert if by_insert else entity.dxf.align_point)
    if across == _MIDDLE or (_ACROSS[across], _RISE[up]) == ("center", -0.5):
        return (x, y), "middle"
    rise, turn = _RISE[up] * entity.dxf.height, math.radians(entity.dxf.rotation)
    return (x - rise * math.sin(turn), y + rise * math.cos(turn)), _ACROSS[across]


def _refuse(message: str, mend: str) -> NoReturn:
    raise RefusedError(message, mend)


def _layer(entity: DXFEntity) -> str:
    layer: str = entity.dxf.layer
    if layer != INHERITED and layer not in LAYERS:
        _refuse(
            f'{entity.dxftype()} is on the unknown layer "{layer}"',
            f'move it to layer "{INHERITED}" or to one of the drawing\'s own layers',
        )
    return layer


def _check_style(entity: DXFEntity) -> None:
    """Refuse what an entity says of itself and a page would lose; pens come from layers."""
    kind, dxf = entity.dxftype(), entity.dxf
    if dxf.get("linetype", "BYLAYER").upper() not in ("BYLAYER", "BYBLOCK", "CONTINUOUS"):
        _refuse(
            f"{kind} has the linetype {dxf.linetype} of its own",
            "set it to BYLAYER and move it to a layer with that linetype",
        )
    if dxf.get("lineweight", -1) >= 0:
        _refuse(
            f"{kind} has a lineweight of its own",
            "set it to BYLAYER and move it to a layer with that pen",
        )
    if kind != "LINE" and dxf.hasattr("extrusion") and dxf.extrusion.z < 1 - 1e-9:
        _refuse(
            f"{kind} is drawn on a tilted or mirrored plane (extrusion)",
            "redraw it in the plan seen from above",
        )


def _line(entity: Any, layer: str) -> Line:
    return Line(point(entity.dxf.start), point(entity.dxf.end), layer)


def _polyline(entity: Any, layer: str) -> Polyline:
    if entity.has_width:
        _refuse(
            "a page cannot hold LWPOLYLINE with a width",
            "set its width to 0 and move it to a layer with that pen",
        )
    points = tuple(point(vertex) for vertex in entity.get_points("xy"))
    if len(points) < 2:
        _refuse("LWPOLYLINE has fewer than two vertices", "delete it")
    bulges = tuple(float(row[0]) for row in entity.get_points("b"))
    return Polyline(points, layer, entity.is_closed, bulges if any(bulges) else ())


def _circle(entity: Any, layer: str) -> Circle:
    return Circle(point(entity.dxf.center), float(entity.dxf.radius), layer)


def _arc(entity: Any, layer: str) -> Polyline:
    """An arc as one round segment, or two where it is more than half a circle."""
    start, radius = math.radians(entity.dxf.start_angle), entity.dxf.radius
    sweep = (math.radians(entity.dxf.end_angle) - start) % math.tau or math.tau
    count = 1 if sweep <= math.pi else 2
    x, y = point(entity.dxf.center)
    angles = [start + sweep * step / count for step in range(count + 1)]
    points = tuple((x + radius * math.cos(a), y + radius * math.sin(a)) for a in angles)
    bulge = math.tan(sweep / count / 4)
    return Polyline(points, layer, bulges=(*(bulge,) * count, 0.0))


def _text(entity: Any, layer: str) -> Text:
    at, align = text_place(entity)
    line: str = entity.plain_text()
    try:
        text_width(line, entity.dxf.height)
    except ValueError as missing:
        _refuse(str(missing), "type it with letters, digits and plain marks")
    return Text(line, at, float(entity.dxf.height), layer, align, float(entity.dxf.rotation))


def _solid(entity: Any, layer: str) -> Area:
    """A SOLID's corners run across: first, second, fourth, third."""
    dxf = entity.dxf
    corners = [point(vertex) for vertex in (dxf.vtx0, dxf.vtx1, dxf.vtx3, dxf.vtx2)]
    outline = tuple(dict.fromkeys(corners))
    if len(outline) < 3:
        _refuse("SOLID has fewer than three corners", "delete it")
    return Area(outline, layer)


def _hatch(entity: Any, layer: str) -> Area:
    paths = entity.paths.paths
    plain = len(paths) == 1 and isinstance(paths[0], PolylinePath) and not paths[0].has_bulge()
    if not entity.has_solid_fill or not plain:
        _refuse(
            "a page cannot hold HATCH with a pattern, a hole or a curved edge",
            "draw its lines, or fill one straight-sided outline solid",
        )
    return Area(tuple(point(vertex) for vertex in paths[0].vertices), layer)


def _insert(entity: Any, layer: str) -> Insert:
    dxf = entity.dxf
    factor = float(dxf.xscale)
    block = entity.block()
    if block is None or block.name.startswith("*"):
        _refuse(f"INSERT of {dxf.name}, which is no named block of this file", "explode it")
    if entity.mcount > 1 or factor <= 0 or not math.isclose(factor, dxf.yscale):
        _refuse(
            f"a page cannot hold INSERT of {dxf.name} repeated, stretched or mirrored",
            "insert it once for each use, with equal positive scales, or explode it",
        )
    if entity.attribs:
        _refuse(f"INSERT of {dxf.name} carries attribute values", "explode it, or use plain TEXT")
    return Insert(block.name, point(dxf.insert), layer, float(dxf.rotation), factor)


_READERS: Mapping[str, Callable[[Any, str], Primitive]] = MappingProxyType(
    {
        "LINE": _line,
        "LWPOLYLINE": _polyline,
        "CIRCLE": _circle,
        "ARC": _arc,
        "TEXT": _text,
        "SOLID": _solid,
        "HATCH": _hatch,
        "INSERT": _insert,
    }
)
