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
from planset.design.once import once
from planset.design.part_places import KINDS, TRIM, PartPlace, parts_of
from planset.design.racking import Attachment
from planset.drawing.geometry import Box
from planset.drawing.layers import INHERITED
from planset.drawing.primitives import Attribute, Block, Circle, Insert, Line, Polyline, Primitive
from planset.sheets.array_layers import ATTACHMENTS, RAILS
from planset.sheets.block_names import numbered_names
from planset.sheets.part_symbols import ALONG_RAIL, LAYER_OF, symbol_of, trim_piece
from planset.sheets.plan_turn import plane_rotation_deg


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
    made = [_attachment(mounted), _racking(design, mounted)]
    symbols = _part_symbols(design, mounted)
    return [*made, *symbols, _parts(design, mounted)] if symbols else made


@once
def _part_names(design: Design) -> dict[str, dict[str, str]]:
    """The block of each part in the job, by its kind and its name."""
    named = dict.fromkeys((p.kind, p.part) for one in design.mounts for p in parts_of(one))
    return {
        kind: numbered_names(
            f"PART-{kind.upper().replace('_', '-').replace(' ', '-')}",
            (part for of, part in named if of == kind),
        )
        for kind in KINDS
    }


def _part_block(design: Design, mounted: Mounted, place: PartPlace) -> str:
    """Name of the block of a part: one for each in the job, one for each length of trim."""
    if place.kind != TRIM:
        return _part_names(design)[place.kind][place.part]
    return f"PART-TRIM-{mounted.id}-{place.length_in:.3f}"


def _part_symbols(design: Design, mounted: Mounted) -> list[Block]:
    """The symbols of the parts that the array has."""
    made: dict[str, Block] = {}
    for place in parts_of(mounted):
        name = _part_block(design, mounted, place)
        if name not in made:
            words = place.kind.replace("_", " ").capitalize()
            drawn, told = tuple(_drawn(mounted, place)), (Attribute("PART", place.part),)
            made[name] = Block(name, drawn, words, ("RAIL",), constants=told)
    return list(made.values())


def _drawn(mounted: Mounted, place: PartPlace) -> list[Primitive]:
    trim = mounted.array.system.trim
    if place.kind == TRIM and trim:
        return trim_piece(place.length_in, trim.depth / mounted.array.plane.slope_factor)
    return symbol_of(place.kind)


def _parts(design: Design, mounted: Mounted) -> Block:
    """Every part where it stands, on the layer of its kind."""
    plane = mounted.array.plane
    turn = plane_rotation_deg(plane)
    up = {rail.id for rail in mounted.racking.rails if rail.up}
    inserts = tuple(
        Insert(
            _part_block(design, mounted, place),
            plane.to_plan((place.u_in, place.v_in)),
            LAYER_OF[place.kind],
            turn + 90 if place.rail in up and place.kind in ALONG_RAIL else turn,
            attributes=(Attribute("RAIL", place.rail),) if place.rail else (),
        )
        for place in parts_of(mounted)
    )
    return Block(holding_block(mounted.id), inserts, f"Parts on the rails of {mounted.id}")


def _attachment(mounted: Mounted) -> Block:
    """One attachment in plan about the mark it is laid out by: its plate, its screws, its arm."""
    array, held = mounted.array, mounted.fastening
    data = array.system.attachment
    capacity = data.uplift.capacity
    if held:
        capacity = min(held.lag_capacity_lb, capacity)
    return Block(
        f"ATTACHMENT-{array.id}",
        attachment_symbol(data, array.plane.slope_factor),
        data.name,
        ("ID", _stands_on(array), "ZONE", "DEMAND_LB"),
        constants=(Attribute("TYPE", data.name), Attribute("CAPACITY_LB", f"{capacity:.0f}")),
    )


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
            attributes=_attributes(array, attachment, loads.get(attachment.id)),
            identity=attachment.id,
        )
        for attachment in racking.attachments
    ]
    return Block(racking_block(array.id), tuple(made), f"Rails and attachments of {array.id}")


def _attributes(
    array: PlacedArray, attachment: Attachment, load: AttachmentLoad | None
) -> tuple[Attribute, ...]:
    return (
        Attribute("ID", attachment.id),
        Attribute(_stands_on(array), str(attachment.line)),
        Attribute("ZONE", load.zone if load else "NOT COMPUTED"),
        Attribute("DEMAND_LB", f"{load.uplift_lb:.0f}" if load else "NOT COMPUTED"),
    )
