"""Reads the drawings a firm can change: families of symbols and title blocks.

Everything wrong in a file is reported together; nothing a page cannot hold is dropped in silence.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from graphlib import CycleError
from itertools import combinations
from pathlib import Path
from types import MappingProxyType

from ezdxf.document import Drawing
from ezdxf.entities.attrib import AttDef
from ezdxf.entities.dxfentity import DXFEntity
from ezdxf.entities.lwpolyline import LWPolyline
from ezdxf.layouts.blocklayout import BlockLayout

from planset.drawing.geometry import Box, Point, box_around
from planset.drawing.layers import LAYERS
from planset.drawing.page import FieldPlace, TitleBlock, revision_fields, second_line
from planset.drawing.primitives import Block, Insert, Primitive
from planset.drawing.symbols import Symbol
from planset.errors import JobErrors, Problem
from planset.formats.dxf_entities import point, primitive, text_place
from planset.formats.dxf_load import UnusableError, load_drawing
from planset.formats.line_boxes import line_boxes
from planset.formats.refused import RefusedError

REQUIRED_FIELDS = (
    "PROJECT_NAME",
    "PROJECT_NUMBER",
    "ADDRESS",
    "PARCEL",
    "OWNER",
    "CONTRACTOR",
    "LICENSE",
    "CONTRACTOR_ADDRESS",
    "CONTRACTOR_PHONE",
    "JURISDICTION",
    "SHEET_TITLE",
    "SHEET_ID",
    "SHEET_COUNT",
    "SCALE",
    "DATE",
    "DRAWN_BY",
    "CHECKED_BY",
    "REVISION",
    "STATUS",
)

OPTIONAL_FIELDS = (
    *map(second_line, ("PROJECT_NAME", "ADDRESS", "OWNER", "CONTRACTOR", "CONTRACTOR_ADDRESS")),
    *(tag for line in range(1, 10) for tag in revision_fields(line)),
)
"""Where a title block goes on with what is too long for one line, and its table of revisions."""

_KNOWN_FIELDS = (*REQUIRED_FIELDS, *OPTIONAL_FIELDS)

TERMINAL_LAYER = "TERMINAL"
SHEET_EDGE = "SHEET-EDGE"
DRAWING_AREA = "DRAWING-AREA"
SEAL_AREA = "SEAL-AREA"
APPROVAL_AREA = "APPROVAL-AREA"
FIELD_AREA = "FIELD-AREA"

_SHEET_LAYERS = (SHEET_EDGE, DRAWING_AREA, SEAL_AREA, APPROVAL_AREA)
_REACH = 0.001  # how far from an edge a point may be drawn and still be on it [in]
_INCHES = 1  # value of $INSUNITS


class _Refusals:
    """Collects what is wrong in one file."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._problems: list[Problem] = []

    def add(self, where: str, message: str, mend: str) -> None:
        """Note one problem of a block, area or field."""
        self._problems.append(Problem(str(self._path), None, where, message, mend))

    def concern(self, where: str) -> bool:
        """Whether something of this block, area or field was refused already."""
        return any(problem.field == where for problem in self._problems)

    def raise_if_any(self) -> None:
        """Stop when anything was refused.

        Raises:
            JobErrors: With every problem of the file.
        """
        if self._problems:
            raise JobErrors(self._problems)


def read_symbols(path: Path) -> dict[str, Symbol]:
    """Every named block of a family file as a symbol, in the order of the file.

    Args:
        path: A DXF file in inches, one block per symbol.

    Raises:
        JobErrors: The file cannot be read, or holds what a page cannot.
    """
    refusals = _Refusals(path)
    document = _load(path, refusals)
    layouts = [layout for layout in document.blocks if not layout.name.startswith("*")]
    blocks = {layout.name: _block(layout, refusals) for layout in layouts}
    boxes = _boxes(blocks, refusals)
    symbols = {}
    for layout in layouts:
        box = boxes.get(layout.name)
        if box is not None and not refusals.concern(layout.name):
            terminals = _terminals(layout, box, refusals)
            symbols[layout.name] = Symbol(blocks[layout.name], terminals, box)
    refusals.raise_if_any()
    return symbols


def read_title_block(path: Path) -> TitleBlock:
    """The title block drawn in the model space of a file; its name is the file's stem.

    Args:
        path: A DXF file in inches, the lower left corner of the sheet at 0, 0.

    Raises:
        JobErrors: The file cannot be read, an area, a field or its box is missing, misplaced or
            unknown, or it holds what a page cannot.
    """
    refusals = _Refusals(path)
    space = list(_load(path, refusals).modelspace())
    areas = _areas(space, refusals)
    fields = _fields(space, refusals)
    drawn = [
        entity
        for entity in space
        if entity.dxftype() != "ATTDEF" and entity.dxf.layer not in (*_SHEET_LAYERS, FIELD_AREA)
    ]
    primitives = _primitives(drawn, path.stem, refusals)
    for item in primitives:
        if isinstance(item, Insert):
            refusals.add(path.stem, f"INSERT of {item.block} in a title block", "explode it")
    _check_places(areas, fields, refusals)
    refusals.raise_if_any()
    sheet = areas[SHEET_EDGE]
    block = Block(path.stem, primitives, "title block", tuple(fields))
    return TitleBlock(
        name=path.stem,
        width=sheet.width,
        height=sheet.height,
        block=block,
        fields=MappingProxyType(fields),
        drawing_area=areas[DRAWING_AREA],
        seal_area=areas[SEAL_AREA],
        approval_area=areas[APPROVAL_AREA],
    )


def _load(path: Path, refusals: _Refusals) -> Drawing:
    try:
        document = load_drawing(path)
    except UnusableError as failure:
        refusals.add("", failure.message, failure.mend)
        refusals.raise_if_any()
        raise
    if document.header.get("$INSUNITS", 0) != _INCHES:
        refusals.add("$INSUNITS", "the drawing's unit is not the inch", "draw it in inches")
    return document


def _primitives(
    entities: Iterable[DXFEntity], where: str, refusals: _Refusals
) -> tuple[Primitive, ...]:
    made = []
    for entity in entities:
        try:
            made.append(primitive(entity))
        except RefusedError as refused:
            refusals.add(where, refused.message, refused.mend)
    return tuple(made)


# --- symbols -------------------------------------------------------------------------------


def _block(layout: BlockLayout, refusals: _Refusals) -> Block:
    drawn, tags = [], []
    base = layout.base_point
    for entity in layout:
        if isinstance(entity, AttDef):
            tags.append(entity.dxf.tag)
        elif not _is_terminal(entity):
            if base.x or base.y:
                entity.translate(-base.x, -base.y, 0)
            drawn.append(entity)
    primitives = _primitives(drawn, layout.name, refusals)
    description = layout.block.dxf.get("description", "") if layout.block else ""
    return Block(layout.name, primitives, description, tuple(tags))


def _is_terminal(entity: DXFEntity) -> bool:
    return entity.dxftype() == "POINT" and entity.dxf.layer == TERMINAL_LAYER


def _boxes(blocks: Mapping[str, Block], refusals: _Refusals) -> dict[str, Box]:
    try:
        boxes = line_boxes(blocks)
    except CycleError as cycle:
        refusals.add(cycle.args[1][0], "the block inserts itself", "explode one of the insertions")
        return {}
    for name in blocks:
        if name not in boxes and not refusals.concern(name):
            refusals.add(name, "the block draws no line", "draw the symbol, or purge the block")
    return boxes


def _terminals(layout: BlockLayout, box: Box, refusals: _Refusals) -> Mapping[str, Point]:
    """Terminals named by the side of the box they lie on."""
    sides: dict[str, list[Point]] = {"W": [], "E": [], "N": [], "S": []}
    for entity in filter(_is_terminal, layout):
        x, y = point(entity.dxf.location - layout.base_point)
        touched = _sides((x, y), box)
        if len(touched) == 1:
            sides[touched[0]].append((x, y))
        else:
            refusals.add(
                layout.name,
                f"the terminal at {x:g}, {y:g} lies on {len(touched)} sides of the symbol's box",
                "place each terminal on one side, off the corners",
            )
    named = {}
    for side, points in sides.items():
        for number, at in enumerate(sorted(points), start=1):
            named[side if len(points) == 1 else f"{side}{number}"] = at
    return MappingProxyType(named)


def _sides(at: Point, box: Box) -> list[str]:
    x, y = at
    if not box.holds(at, _REACH):
        return []
    gaps = {"W": x - box.x0, "E": x - box.x1, "N": y - box.y1, "S": y - box.y0}
    return [side for side, gap in gaps.items() if abs(gap) <= _REACH]


# --- title blocks --------------------------------------------------------------------------


def _rectangle(entity: DXFEntity) -> Box | None:
    """The box of a closed polyline with four square corners, else None."""
    if not isinstance(entity, LWPolyline) or not entity.is_closed or entity.has_arc:
        return None
    points = [point(vertex) for vertex in entity.get_points("xy")]
    box = box_around(points)
    corners = {(round(x, 6), round(y, 6)) for x, y in points}
    square = corners == {(round(x, 6), round(y, 6)) for x, y in box.corners}
    return box if square and len(points) == len(corners) else None


def _areas(space: Iterable[DXFEntity], refusals: _Refusals) -> dict[str, Box]:
    areas: dict[str, Box] = {}
    entities = list(space)
    for layer in _SHEET_LAYERS:
        found = [entity for entity in entities if entity.dxf.layer == layer]
        box = _rectangle(found[0]) if len(found) == 1 else None
        if box is None:
            refusals.add(
                layer,
                f"the layer holds {len(found)} entities, expected one closed rectangle",
                f"draw one closed LWPOLYLINE with four square corners on layer {layer}",
            )
        else:
            areas[layer] = box
    return areas


def _fields(space: Iterable[DXFEntity], refusals: _Refusals) -> dict[str, FieldPlace]:
    entities = list(space)
    boxes = []
    for entity in entities:
        if entity.dxf.layer == FIELD_AREA and not isinstance(entity, AttDef):
            box = _rectangle(entity)
            if box is None:
                refusals.add(
                    FIELD_AREA,
                    f"the layer holds a {entity.dxftype()} that is no closed rectangle",
                    "draw the box of each field as a closed LWPOLYLINE with four square corners",
                )
            else:
                boxes.append(box)
    fields: dict[str, FieldPlace] = {}
    for definition in entities:
        if isinstance(definition, AttDef):
            tag = definition.dxf.tag
            if tag not in _KNOWN_FIELDS or tag in fields:
                fault = "is defined twice" if tag in fields else "is unknown"
                refusals.add(tag, f"the field {fault}", f"known: {', '.join(_KNOWN_FIELDS)}")
            else:
                place = _field_place(definition, boxes, refusals)
                if place:
                    fields[tag] = place
    defined = {entity.dxf.tag for entity in entities if isinstance(entity, AttDef)}
    for tag in REQUIRED_FIELDS:
        if tag not in defined:
            refusals.add(tag, "the field is missing", "add an attribute definition of that tag")
    return {tag: fields[tag] for tag in _KNOWN_FIELDS if tag in fields}


def _field_place(
    definition: AttDef, boxes: Iterable[Box], refusals: _Refusals
) -> FieldPlace | None:
    tag = definition.dxf.tag
    try:
        (x, y), align = text_place(definition)
    except RefusedError as refused:
        refusals.add(tag, refused.message, refused.mend)
        return None
    layer = definition.dxf.layer
    if layer not in LAYERS:
        refusals.add(tag, f'the field is on the unknown layer "{layer}"', "use G-ANNO-TTLB-TEXT")
        return None
    if definition.dxf.rotation:
        refusals.add(tag, "the field is rotated", "set its rotation to 0")
        return None
    around = [box for box in boxes if box.holds((x, y))]
    if len(around) != 1:
        refusals.add(
            tag,
            f"the field lies in {len(around)} boxes, expected one",
            f"draw one closed rectangle on layer {FIELD_AREA} around its text",
        )
        return None
    return FieldPlace((x, y), float(definition.dxf.height), align, layer, around[0])


def _check_places(
    areas: Mapping[str, Box], fields: Mapping[str, FieldPlace], refusals: _Refusals
) -> None:
    """Every area and field box lies on the sheet and keeps clear of all the others."""
    sheet = areas.get(SHEET_EDGE)
    named = {name: box for name, box in areas.items() if name != SHEET_EDGE}
    named |= {tag: place.box for tag, place in fields.items()}
    if sheet is not None:
        if math.hypot(sheet.x0, sheet.y0) > _REACH:
            refusals.add(
                SHEET_EDGE,
                f"the sheet starts at {sheet.x0:g}, {sheet.y0:g}",
                "move the whole drawing so that the sheet's lower left corner is at 0, 0",
            )
        for name, box in named.items():
            if not sheet.contains(box, _REACH):
                refusals.add(name, "the area leaves the sheet", f"move it inside {SHEET_EDGE}")
    for (name, box), (other, other_box) in combinations(named.items(), 2):
        if box.grown(-_REACH).overlaps(other_box):
            refusals.add(name, f"the area overlaps {other}", "move one of them")
