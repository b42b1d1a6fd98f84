"""Rails, attachments and the parts on the rails of mounted arrays, each drawn once as a block.

An attachment and every part is one insertion that carries what it is, so that a drawing program
can count them. What stands on the rails has a block of its own: not every plan shows it.
"""

from __future__ import annotations

from planset.catalog.attachment import Attachment as AnyAttachment
from planset.design.attachment_loads import AttachmentLoad
from planset.design.design import Design
from planset.design.layout import PlacedArray, surface_to_plan
from planset.design.mounted import Mounted
from planset.design.part_places import TRIM, PartPlace, parts_of
from planset.design.racking import Attachment
from planset.drawing.geometry import Box
from planset.drawing.layers import INHERITED
from planset.drawing.primitives import Attribute, Block, Circle, Insert, Line, Polyline, Primitive
from planset.sheets.array_layers import ATTACHMENTS, RAILS
from planset.sheets.part_symbols import ALONG_RAIL, LAYER_OF, symbol_of, trim_piece
from planset.sheets.plan_turn import plane_rotation_deg

_PART_TAGS = ("PART", "RAIL")


def racking_block(array_id: str) -> str:
    """Name of the block that holds an array's rails and attachments."""
    return f"RACKING-{array_id}"


def holding_block(array_id: str) -> str:
    """Name of the block that holds the parts on an array's rails."""
    return f"PARTS-{array_id}"


def on_seams(array: PlacedArray) -> bool:
    """Whether its attachments are clamped to seams."""
    return array.system.attachment.kind == "seam_clamp"


def racking_blocks(design: Design, mounted: Mounted) -> list[Block]:
    """One attachment, the rails with all attachments, and every part on the rails, if any."""
    made = [_attachment(mounted.array), _racking(design, mounted)]
    symbols = _part_symbols(mounted)
    return [*made, *symbols, _parts(mounted)] if symbols else made


def part_block(mounted: Mounted, place: PartPlace) -> str:
    """Name of the block of a part: one for each kind in the job, one for each length of trim."""
    if place.kind != TRIM:
        return f"PART-{place.kind.upper().replace('_', '-').replace(' ', '-')}"
    return f"PART-TRIM-{mounted.id}-{place.length_in:.3f}"


def _part_symbols(mounted: Mounted) -> list[Block]:
    """The symbols of the parts that the array has."""
    made: dict[str, Block] = {}
    for place in parts_of(mounted):
        name = part_block(mounted, place)
        if name not in made:
            words = place.kind.replace("_", " ").capitalize()
            made[name] = Block(name, tuple(_drawn(mounted, place)), words, _PART_TAGS)
    return list(made.values())


def _drawn(mounted: Mounted, place: PartPlace) -> list[Primitive]:
    trim = mounted.array.system.trim
    if place.kind == TRIM and trim:
        return trim_piece(place.length_in, trim.depth / mounted.array.plane.slope_factor)
    return symbol_of(place.kind)


def _parts(mounted: Mounted) -> Block:
    """Every part where it stands, on the layer of its kind."""
    plane = mounted.array.plane
    turn = plane_rotation_deg(plane)
    up = {rail.id for rail in mounted.racking.rails if rail.up}
    inserts = tuple(
        Insert(
            part_block(mounted, place),
            plane.to_plan((place.u_in, place.v_in)),
            LAYER_OF[place.kind],
            turn + 90 if place.rail in up and place.kind in ALONG_RAIL else turn,
            attributes=(Attribute("PART", place.part), Attribute("RAIL", place.rail or "-")),
        )
        for place in parts_of(mounted)
    )
    return Block(holding_block(mounted.id), inserts, f"Parts on the rails of {mounted.id}")


def _attachment(array: PlacedArray) -> Block:
    """One attachment in plan about the mark it is laid out by: its plate, its screws, its arm."""
    tags = ("ID", "TYPE", _stands_on(array), "ZONE", "DEMAND_LB", "CAPACITY_LB")
    data, squeeze = array.system.attachment, array.plane.slope_factor
    return Block(f"ATTACHMENT-{array.id}", attachment_symbol(data, squeeze), data.name, tags)


def attachment_symbol(data: AnyAttachment, squeeze: float) -> tuple[Primitive, ...]:
    """An attachment about the mark it is laid out by, heights on the slope divided by `squeeze`."""
    half_width, half_length = (size / 2 for size in data.footprint)
    low, high = data.plate_up - half_length, data.plate_up + half_length
    plate = Box(-half_width, low / squeeze, half_width, high / squeeze)
    made: list[Primitive] = [Polyline(plate.corners, INHERITED, closed=True)]
    if data.kind != "seam_clamp":
        radius = data.lags.diameter / 2
        made += [Circle((0.0, up / squeeze), radius, INHERITED) for up in data.lags_up]
    if data.kind == "hook":
        made += [
            Line((-half_width, 0.0), (half_width, 0.0), INHERITED),
            Line((0.0, 0.0), (0.0, plate.y0), INHERITED),
        ]
    return tuple(made)


def _stands_on(array: PlacedArray) -> str:
    """What its attachments stand on."""
    return "SEAM" if on_seams(array) else "RAFTER"


def _racking(design: Design, mounted: Mounted) -> Block:
    """Rails and attachments, each on their layer."""
    array, racking = mounted.array, mounted.racking
    plane = array.plane
    made: list[Primitive] = []
    width = array.system.rail.width
    for rail in racking.rails:
        made.append(Polyline(surface_to_plan(plane, rail.box(width)), RAILS, closed=True))
    rotation = plane_rotation_deg(plane)
    loads = {load.attachment: load for load in design.loads.attachments}
    made += [
        Insert(
            f"ATTACHMENT-{array.id}",
            plane.to_plan((attachment.u_in, attachment.v_in)),
            ATTACHMENTS,
            rotation,
            attributes=_attributes(mounted, attachment, loads.get(attachment.id)),
            identity=attachment.id,
        )
        for attachment in racking.attachments
    ]
    return Block(racking_block(array.id), tuple(made), f"Rails and attachments of {array.id}")


def _attributes(
    mounted: Mounted, attachment: Attachment, load: AttachmentLoad | None
) -> tuple[Attribute, ...]:
    array, held = mounted.array, mounted.fastening
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
