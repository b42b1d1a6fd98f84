"""The things a roof plan is made of, each drawn once as a block in plan at true size.

Plan frame: inches, origin at the left end of the front eave. What a later sheet shows with
another pen is drawn on layer "0", so that it takes the layer of its insertion.
"""

from __future__ import annotations

from planset.design.attachment_loads import AttachmentLoad
from planset.design.design import Design
from planset.design.fastening import Fastening
from planset.design.layout import PlacedArray, PlacedModule, PlacedObstruction, surface_to_plan
from planset.design.racking import Attachment, Racking
from planset.drawing.geometry import Box, box_around, direction_deg, offset_left, toward
from planset.drawing.layers import INHERITED
from planset.drawing.primitives import (
    Attribute,
    Block,
    Circle,
    Insert,
    Line,
    Polyline,
    Primitive,
)
from planset.roof.plane import Plane
from planset.roof.solid import Edge, EdgeKind
from planset.sheets.plan_walls import openings_blocks, roof_given, walls_block

ROOF = "ROOF"
OBSTRUCTIONS = "OBSTRUCTIONS"
FRAMING = "FRAMING"
EXISTING_ARRAY_LAYER = "E-SOLR-PANL-E"

_EDGE_LAYERS = {
    EdgeKind.EAVE: "A-ROOF-OTLN",
    EdgeKind.RAKE: "A-ROOF-OTLN",
    EdgeKind.HIGH_EDGE: "A-ROOF-OTLN",
    EdgeKind.RIDGE: "A-ROOF-RIDG",
    EdgeKind.HIP: "A-ROOF-RIDG",
    EdgeKind.VALLEY: "A-ROOF-VLLY",
    EdgeKind.PITCH_BREAK: "A-ROOF-RIDG",
    EdgeKind.HEADWALL: "A-ROOF-WALL",
    EdgeKind.SIDEWALL: "A-ROOF-WALL",
    EdgeKind.ROOF_EDGE: "A-ROOF-OTLN",
    EdgeKind.PARAPET: "A-ROOF-OTLN",
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


def racking_block(array_id: str) -> str:
    """Name of the block that holds an array's rails and attachments."""
    return f"RACKING-{array_id}"


def framing_block(plane: str) -> str:
    """Name of the block that holds the rafters of a plane."""
    return f"{FRAMING}-{plane}"


def plan_blocks(design: Design) -> tuple[Block, ...]:
    """Blocks of the roof in plan, fire access apart."""
    blocks = [
        _roof(design),
        walls_block(design),
        *openings_blocks(design),
        *_obstructions(design.obstructions),
        *_framing(design),
    ]
    for array in design.arrays:
        blocks += [_module(array), _array(design, array)]
    for array, racking in zip(design.mounted, design.racking, strict=True):
        blocks += [_attachment(array), _racking(design, array, racking)]
    return tuple(blocks)


def roof_extent(design: Design) -> Box:
    """The roof in plan [in]."""
    return box_around(point for plane in design.roof.planes for point in plane.outline)


def plane_rotation_deg(plane: Plane) -> float:
    """Direction of the plane's eave in plan, from its left end [deg]."""
    return direction_deg((0.0, 0.0), plane.along)


def _roof(design: Design) -> Block:
    """Every edge on the layer of its kind; a parapet has its inner face too."""
    lines: list[Primitive] = []
    for edge in design.roof.edges:
        lines.append(Line(edge.a[:2], edge.b[:2], _EDGE_LAYERS[edge.kind]))
        if edge.kind is EdgeKind.PARAPET:
            lines.append(_inner_face(design, edge))
    lines += _fire_walls(design)
    return Block(ROOF, tuple(lines), "Roof edges in plan")


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
            EXISTING_ARRAY_LAYER if item.is_array else "A-ROOF-OBST",
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
    if item.round:
        center = item.plane.to_plan(item.surface.center)
        made.append(Circle(center, item.surface.width / 2, INHERITED))
    else:
        corners = surface_to_plan(item.plane, item.surface)
        made.append(Polyline(corners, INHERITED, closed=True))
        layer = INHERITED if item.is_array else "A-ROOF-OBST-CLER"
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
    lines: dict[str, list[Primitive]] = {plane.id: [] for plane in design.roof.planes}
    for rafter in design.rafters:
        plane = design.roof.plane(rafter.plane)
        for low, high in rafter.spans:
            a, b = plane.to_plan((rafter.u_in, low)), plane.to_plan((rafter.u_in, high))
            lines[plane.id].append(Line(a, b, INHERITED))
    made = [
        Block(framing_block(plane), tuple(drawn), f"Rafter centerlines of plane {plane}")
        for plane, drawn in lines.items()
        if drawn
    ]
    inserts = tuple(Insert(block.name, (0.0, 0.0), INHERITED) for block in made)
    return [*made, Block(FRAMING, inserts, "Rafter centerlines")]


def _module(array: PlacedArray) -> Block:
    """One module in plan, its lower left corner at the origin."""
    size = array.modules[0].surface
    up = size.height / array.plane.slope_factor
    outline = Polyline(Box(0.0, 0.0, size.width, up).corners, INHERITED, closed=True)
    tags = ("ID", "MODEL", "STRING", "ROW", "COLUMN")
    return Block(f"MODULE-{array.id}", (outline,), "One module in plan", tags)


def _array(design: Design, array: PlacedArray) -> Block:
    strings = {tag: string.id for string in design.circuits.strings for tag in string.modules}
    model = array.product.model
    rotation = plane_rotation_deg(array.plane)
    inserts = tuple(
        Insert(
            f"MODULE-{array.id}",
            array.plane.to_plan((module.surface.x0, module.surface.y0)),
            INHERITED,
            rotation,
            attributes=_module_attributes(module, model, strings.get(module.id, "")),
            identity=module.id,
        )
        for module in array.modules
    )
    return Block(array_block(array.id), inserts, f"Modules of array {array.id}")


def _module_attributes(module: PlacedModule, model: str, string: str) -> tuple[Attribute, ...]:
    return (
        Attribute("ID", module.id),
        Attribute("MODEL", model),
        Attribute("STRING", string),
        Attribute("ROW", str(module.row)),
        Attribute("COLUMN", str(module.column)),
    )


def _attachment(array: PlacedArray) -> Block:
    """One attachment in plan: its base plate, centered on the origin, and its screws."""
    data = array.system.attachment
    half_width, half_length = (size / 2 for size in data.footprint)
    squeeze = array.plane.slope_factor
    plate = Box(-half_width, -half_length / squeeze, half_width, half_length / squeeze)
    tags = ("ID", "TYPE", _stands_on(array), "ZONE", "DEMAND_LB", "CAPACITY_LB")
    outline = Polyline(plate.corners, INHERITED, closed=True)
    return Block(f"ATTACHMENT-{array.id}", (outline, *_screws(array)), data.name, tags)


def _screws(array: PlacedArray) -> tuple[Circle, ...]:
    """The lag screws of one attachment, about the origin; none of a clamp on a seam."""
    data = array.system.attachment
    if data.kind == "seam_clamp":
        return ()
    lags, squeeze = data.lags, array.plane.slope_factor
    first = -(lags.count - 1) * lags.spacing / 2
    return tuple(
        Circle((0.0, (first + n * lags.spacing) / squeeze), lags.diameter / 2, INHERITED)
        for n in range(lags.count)
    )


def _stands_on(array: PlacedArray) -> str:
    """What its attachments stand on."""
    return "SEAM" if array.system.attachment.kind == "seam_clamp" else "RAFTER"


def _racking(design: Design, array: PlacedArray, racking: Racking) -> Block:
    """Rails and attachments, on layer 0."""
    plane = array.plane
    made: list[Primitive] = []
    width = array.system.rail.width
    for rail in racking.rails:
        made.append(Polyline(surface_to_plan(plane, rail.box(width)), INHERITED, closed=True))
    rotation = plane_rotation_deg(plane)
    loads = {load.attachment: load for load in design.loads.attachments}
    held = next((one for one in design.fastenings if one.array == array.id), None)
    made += [
        Insert(
            f"ATTACHMENT-{array.id}",
            plane.to_plan((attachment.u_in, attachment.v_in)),
            INHERITED,
            rotation,
            attributes=_attachment_attributes(array, held, attachment, loads.get(attachment.id)),
            identity=attachment.id,
        )
        for attachment in racking.attachments
    ]
    return Block(racking_block(array.id), tuple(made), f"Rails and attachments of {array.id}")


def _attachment_attributes(
    array: PlacedArray, held: Fastening | None, attachment: Attachment, load: AttachmentLoad | None
) -> tuple[Attribute, ...]:
    capacity = array.system.attachment.uplift.capacity
    if held:
        capacity = min(held.lag_capacity_lb, capacity)
    return (
        Attribute("ID", attachment.id),
        Attribute("TYPE", array.system.attachment.name),
        Attribute(_stands_on(array), str(attachment.line)),
        Attribute("ZONE", load.zone if load else "NOT COMPUTED"),
        Attribute("DEMAND_LB", f"{load.uplift_lb:.0f}" if load else "NOT COMPUTED"),
        Attribute("CAPACITY_LB", f"{capacity:.0f}"),
    )
