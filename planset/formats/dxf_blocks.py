"""Block definitions of a DXF file, with the attributes their insertions may carry."""

from __future__ import annotations

from ezdxf.enums import InsertUnits

from planset.drawing.geometry import Placement
from planset.drawing.page import TitleBlock
from planset.drawing.primitives import Block, Text
from planset.formats.dxf_document import DxfDocument
from planset.formats.dxf_shapes import CONSTANT, INVISIBLE, ShapeWriter, encoded


def write_block(document: DxfDocument, block: Block, titleblock: TitleBlock | None = None) -> None:
    """Define a block; those it inserts must be defined before it.

    Args:
        document: The file.
        block: The block.
        titleblock: The title block it draws, if it is one: its fields show where they will stand.

    Raises:
        PlansetError: A text cannot stand in a DXF file.
    """
    made = document.doc.blocks.new(block.name)
    made.units = InsertUnits.Inches
    if made.block is not None:
        made.block.dxf.description = encoded(block.description)
    ShapeWriter(document, made).write(block.primitives)
    fields = titleblock.fields if titleblock else {}
    shown = {tag: Text("", p.at, p.height, p.layer, p.align) for tag, p in fields.items()}
    shown |= {value.tag: value.text for value in block.written if value.text}
    told = {value.tag: value.value for value in block.constants}
    tags = (*told, *block.attribute_tags, *(value.tag for value in block.written))
    values = document.hide_values(block, [tag for tag in tags if tag not in shown])
    for tag in tags:
        text = shown.get(tag) or values.text(tag, told.get(tag, ""), Placement())
        attributes = ShapeWriter(document, made).text_attributes(text)
        flags = (0 if tag in shown else INVISIBLE) | (CONSTANT if tag in told else 0)
        made.new_entity("ATTDEF", attributes | {"tag": tag, "prompt": tag, "flags": flags})
