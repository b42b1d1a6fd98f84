"""The things a roof plan is made of, each drawn once as a block in plan at true size.

Plan frame: inches, origin at the left end of the front eave. What a later sheet shows with
another pen is drawn on layer "0", so that it takes the layer of its insertion.
"""

from __future__ import annotations

from planset.design.design import Design
from planset.design.layout import PlacedArray, PlacedModule, PlacedObstruction, surface_to_plan
from planset.design.once import once
from planset.design.support_lines import SupportLine
from planset.drawing.geometry import Box, box_around, offset_left, toward
from planset.drawing.layers import INHERITED, OWN_LAYERS
from planset.drawing.primitives import (
    Attribute,
    Block,
    Circle,
    Insert,
    Line,
    Polyline,
    Primitive,
)
from planset.roof.solid import Edge, EdgeKind
from planset.sheets.plan_turn import plane_rotation_deg
from planset.sheets.plan_walls import openings_blocks, roof_given, walls_block
from planset.sheets.racking_blocks import racking_blocks

ROOF = "ROOF"
ROOF_EDGES = "ROOF-EDGES"
ROOF_LINES = "ROOF-LINES"
OBSTRUCTIONS = "OBSTRUCTIONS"
FRAMING = "FRAMING"
SUPPORTS = "SUPPORTS"
SUPPORT_LAYER = "S-ROOF-SUPT"
OUTER_EDGES = "A-ROOF-OTLN"
EXISTING_ARRAY_LAYER = "E-SOLR-PANL-E"

_EDGE_LAYERS = {
    EdgeKind.EAVE: OUTER_EDGES,
    EdgeKind.RAKE: OUTER_EDGES,
    EdgeKind.HIGH_EDGE: OUTER_EDGES,
    EdgeKind.RIDGE: "A-ROOF-RIDG",
    EdgeKind.HIP: "A-ROOF-RIDG",
    EdgeKind.VALLEY: "A-ROOF-VLLY",
    EdgeKind.PITCH_BREAK: "A-ROOF-RIDG",
    EdgeKind.HEADWALL: "A-ROOF-WALL",
    EdgeKind.SIDEWALL: "A-ROOF-WALL",
    EdgeKind.ROOF_EDGE: OUTER_EDGES,
    EdgeKind.PARAPET: OUTER_EDGES,
}
_CROSSED = (
    "skylight",
    "smoke_vent",
    "mechanical_unit",
    "roof_hatch",
    "attic_vent",
    "other",
    "existing_array",
)
_INNER_SHARE = 0.15  # of a chimney's or standpipe's size, from its outline to the line within


def array_block(array_id: str) -> str:
    """Name of the block that holds an array's modules."""
    return f"ARRAY-{array_id}"


def framing_block(plane: str) -> str:
    """Name of the block that holds the rafters of a plane."""
    return f"{FRAMING}-{plane}"


def supports_block(plane: str) -> str:
    """Name of the block that holds what the rafters of a plane bear on."""
    return f"{SUPPORTS}-{plane}"


def seams_block(plane: str) -> str:
    """Name of the block that holds the seams of a plane."""
    return f"SEAMS-{plane}"


@once
def plan_blocks(design: Design) -> tuple[Block, ...]:
    """Blocks of the roof in plan, fire access apart."""
    blocks = [
        *_roof(design),
        walls_block(design),
        *openings_blocks(design),
        *_obstructions(design.obstructions),
        *_framing(design),
        *_supports(design),
        *_seams(design),
    ]
    for array in design.arrays:
        blocks += [_module(array), _array(design, array)]
    for one in design.mounts:
        blocks += racking_blocks(design, one)
    return tuple(blocks)


def roof_extent(design: Design) -> Box:
    """The roof in plan [in]."""
    return box_around(point for plane in design.roof.planes for point in plane.outline)


def _roof(design: Design) -> list[Block]:
    """Every edge on the layer of its kind, or outer ones on layer 0, as a site plan dashes them.

    A parapet has its inner face too.
    """
    outer: list[Primitive] = []
    lines: list[Primitive] = []
    for edge in design.roof.edges:
        layer = _EDGE_LAYERS[edge.kind]
        ends = edge.plan
        if layer == OUTER_EDGES:
            outer.append(Line(*ends, INHERITED))
        else:
            lines.append(Line(*ends, layer))
        if edge.kind is EdgeKind.PARAPET:
            lines.append(_inner_face(design, edge))
    lines += _fire_walls(design)
    origin = (0.0, 0.0)
    inserts = (Insert(ROOF_EDGES, origin, OUTER_EDGES), Insert(ROOF_LINES, origin, OWN_LAYERS))
    return [
        Block(ROOF_EDGES, tuple(outer), "Eaves, rakes and other outer edges of the roof"),
        Block(ROOF_LINES, tuple(lines), "Ridges, hips, valleys and walls on the roof"),
        Block(ROOF, inserts, "Roof edges in plan"),
    ]


def _fire_walls(design: Design) -> list[Primitive]:
    """A line from front to back where a fire wall parts two units."""
    planes = design.roof.planes_of("")
    ys = [y for plane in planes for _, y in plane.outline]
    walls = design.inputs.job.building.fire_walls or ()
    return [Line((x, min(ys)), (x, max(ys)), "A-WALL-FIRE") for x in walls]


def _inner_face(design: Design, edge: Edge) -> Line:
    plane = design.roof.plane(edge.planes[0])
    parapet = getattr(roof_given(design, plane.building), "parapet", None)
    thickness = parapet.thickness if parapet else 0.0
    a, b = edge.plan
    ends = [toward(a, b, thickness), toward(b, a, thickness)]
    dx, dy = offset_left(a, b, thickness)  # a plane lies left of its sides
    (x0, y0), (x1, y1) = ends
    return Line((x0 + dx, y0 + dy), (x1 + dx, y1 + dy), "A-ROOF-PRPT")


def _obstructions(obstructions: tuple[PlacedObstruction, ...]) -> list[Block]:
    """A block per obstruction, and one that inserts them all."""
    shapes = [_obstruction(item) for item in obstructions]
    inserts = tuple(
        Insert(
            shape.name,
            (0.0, 0.0),
            OWN_LAYERS,
            attributes=(Attribute("ID", item.id), Attribute("KIND", item.kind)),
            identity=item.id,
        )
        for item, shape in zip(obstructions, shapes, strict=True)
    )
    return [*shapes, Block(OBSTRUCTIONS, inserts, "Roof obstructions and their clearances")]


def obstruction_extent(item: PlacedObstruction) -> Box:
    """What an obstruction covers in plan; a round one is upright and not foreshortened [in]."""
    if item.round:
        x, y = item.plane.to_plan(item.surface.center)
        reach = item.surface.width / 2
        return Box(x - reach, y - reach, x + reach, y + reach)
    return box_around(surface_to_plan(item.plane, item.surface))


def _obstruction(item: PlacedObstruction) -> Block:
    made: list[Primitive] = []
    own = EXISTING_ARRAY_LAYER if item.is_array else "A-ROOF-OBST"
    if item.round:
        center = item.plane.to_plan(item.surface.center)
        made.append(Circle(center, item.surface.width / 2, own))
    else:
        corners = surface_to_plan(item.plane, item.surface)
        made.append(Polyline(corners, own, closed=True))
        layer = own if item.is_array else "A-ROOF-OBST-CLER"
        diagonals = [Line(corners[0], corners[2], layer), Line(corners[1], corners[3], layer)]
        # One diagonal for what opens as a whole, two for glass and gear, a flue for the rest.
        made += diagonals[: 1 if item.kind == "roof_hatch" else 2 if item.kind in _CROSSED else 0]
        if item.kind not in _CROSSED:
            inner = item.surface.grown(-_INNER_SHARE * min(item.surface.width, item.surface.height))
            made.append(
                Polyline(surface_to_plan(item.plane, inner), "A-ROOF-OBST-CLER", closed=True)
            )
    reach = surface_to_plan(item.plane, item.surface.grown(item.clearance_in))
    made.append(Polyline(reach, "A-ROOF-OBST-CLER", closed=True))
    name = f"OBSTRUCTION-{item.id}"
    return Block(name, tuple(made), item.kind.replace("_", " "), ("ID", "KIND"))


def _framing(design: Design) -> list[Block]:
    """A block per plane with its rafters, and one that inserts them all.

    They lie on layer 0: thin here, framing on the attachment plan.
    """
    made = [
        Block(framing_block(plane), tuple(drawn), f"Rafter centerlines of plane {plane}")
        for plane, drawn in _by_plane(design, design.rafters).items()
    ]
    inserts = tuple(Insert(block.name, (0.0, 0.0), INHERITED) for block in made)
    return [*made, Block(FRAMING, inserts, "Rafter centerlines")]


def supported_planes(design: Design) -> tuple[str, ...]:
    """Planes whose rafters are drawn, and what those bear on."""
    framed = {rafter.plane for rafter in design.rafters if rafter.spans}
    borne = dict.fromkeys(line.plane for line in design.bearings if line.spans)
    return tuple(plane for plane in borne if plane in framed)


def _supports(design: Design) -> list[Block]:
    """A block per plane with what its rafters bear on, and one that inserts them all."""
    lines: dict[str, list[Primitive]] = {plane: [] for plane in supported_planes(design)}
    for support in design.bearings:
        if support.plane not in lines:
            continue
        plane = design.roof.plane(support.plane)
        for left, right in support.spans:
            ends = plane.to_plan((left, support.v_in)), plane.to_plan((right, support.v_in))
            lines[plane.id].append(Line(*ends, INHERITED))
    made = [
        Block(supports_block(plane), tuple(drawn), f"Supports of the rafters of plane {plane}")
        for plane, drawn in lines.items()
    ]
    inserts = tuple(Insert(block.name, (0.0, 0.0), INHERITED) for block in made)
    return [*made, Block(SUPPORTS, inserts, "Supports of rafters")] if made else []


def _seams(design: Design) -> list[Block]:
    """A block per plane with the seams that attachments are clamped to."""
    return [
        Block(seams_block(plane), tuple(drawn), f"Standing seams of plane {plane}")
        for plane, drawn in _by_plane(design, design.seams).items()
    ]


def _by_plane(design: Design, supports: tuple[SupportLine, ...]) -> dict[str, list[Primitive]]:
    """Lines up the slope by their plane, in the order of the planes, on layer 0."""
    lines: dict[str, list[Primitive]] = {plane.id: [] for plane in design.roof.planes}
    for support in supports:
        plane = design.roof.plane(support.plane)
        for low, high in support.spans:
            a, b = plane.to_plan((support.u_in, low)), plane.to_plan((support.u_in, high))
            lines[plane.id].append(Line(a, b, INHERITED))
    return {plane: drawn for plane, drawn in lines.items() if drawn}


def _module(array: PlacedArray) -> Block:
    """One module in plan, its lower left corner at the origin."""
    size = array.modules[0].surface
    up = size.height / array.plane.slope_factor
    outline = Polyline(Box(0.0, 0.0, size.width, up).corners, INHERITED, closed=True)
    return Block(
        f"MODULE-{array.id}",
        (outline,),
        "One module in plan",
        ("ID", "STRING", "ROW", "COLUMN"),
        constants=(Attribute("MODEL", array.product.model),),
    )


def _array(design: Design, array: PlacedArray) -> Block:
    electrical = design.electrical
    strings = {tag: string.id for string in electrical.strings for tag in string.modules}
    strings |= {tag: branch.id for branch in electrical.branches for tag in branch.modules}
    rotation = plane_rotation_deg(array.plane)
    inserts = tuple(
        Insert(
            f"MODULE-{array.id}",
            array.plane.to_plan((module.surface.x0, module.surface.y0)),
            INHERITED,
            rotation,
            attributes=_module_attributes(module, strings.get(module.id, "")),
            identity=module.id,
        )
        for module in array.modules
    )
    return Block(array_block(array.id), inserts, f"Modules of array {array.id}")


def _module_attributes(module: PlacedModule, string: str) -> tuple[Attribute, ...]:
    return (
        Attribute("ID", module.id),
        Attribute("STRING", string),
        Attribute("ROW", str(module.row)),
        Attribute("COLUMN", str(module.column)),
    )
