"""Block definitions of a DXF file, with the attributes their insertions may carry."""

from __future__ import annotations

from ezdxf.enums import InsertUnits
from ezdxf.layouts.blocklayout import BlockLayout

from planset.drawing.page import TitleBlock
from planset.drawing.primitives import Block, Text
from planset.formats.dxf_document import DxfDocument
from planset.formats.dxf_shapes import INVISIBLE, ShapeWriter, encoded, hidden_text


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
    for tag in block.attribute_tags:
        place = titleblock.fields.get(tag) if titleblock else None
        shown = Text("", place.at, place.height, place.layer, place.align) if place else None
        _define_attribute(document, made, tag, shown)
    for attribute in block.written:
        _define_attribute(document, made, attribute.tag, attribute.text)


def _define_attribute(
    document: DxfDocument, made: BlockLayout, tag: str, shown: Text | None
) -> None:
    attributes = ShapeWriter(document, made).text_attributes(shown or hidden_text("", (0, 0)))
    flags = 0 if shown else INVISIBLE
    made.new_entity("ATTDEF", attributes | {"tag": tag, "prompt": tag, "flags": flags})
