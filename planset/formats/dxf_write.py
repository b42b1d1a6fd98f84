"""A set of sheets as one DXF file.

Blocks hold each thing once, model space holds a region per view at true size, and each sheet is
a layout with a viewport per view. Everything takes color, width and linetype from its layer.
"""

from __future__ import annotations

from pathlib import Path

from ezdxf.layouts.layout import Paperspace

from planset.drawing.geometry import Placement, united
from planset.drawing.layers import UNPLOTTED
from planset.drawing.page import DrawingSet, Page, TitleBlock, View
from planset.formats.block_order import dependency_order
from planset.formats.dxf_blocks import write_block
from planset.formats.dxf_document import DxfDocument, fixed_metadata
from planset.formats.dxf_export import values_set_straight
from planset.formats.dxf_shapes import ShapeWriter
from planset.formats.in_view import set_in_view
from planset.formats.paper_names import paper_series
from planset.formats.regions import Region, annotation_placement, view_regions

VIEWPORT_LOCKED = 16384


def write_dxf(drawing: DrawingSet, path: Path) -> None:
    """Write the set as a DXF file.

    Args:
        drawing: The sheets and the blocks they use.
        path: The file, replaced when it exists.

    Raises:
        PlansetError: A text cannot stand in a DXF file, or the file would not be sound.
        OSError: The file cannot be written.
    """
    path.write_bytes(dxf_content(drawing))


def dxf_content(drawing: DrawingSet) -> bytes:
    """The set as a DXF file of release R2013, in inches.

    Args:
        drawing: The sheets and the blocks they use.

    Raises:
        PlansetError: A text cannot stand in a DXF file, or the file would not be sound.
    """
    drawing = set_in_view(drawing)
    with fixed_metadata(), values_set_straight():
        document = DxfDocument()
        for block in dependency_order(drawing.blocks):
            write_block(document, block, drawing.titleblocks.get(block.name))
        rows = view_regions(drawing)
        for page, row in zip(drawing.pages, rows, strict=True):
            for view, region in zip(page.views, row, strict=True):
                _write_view(document, view, region)
            _write_page(document, page, row, drawing.titleblocks[page.titleblock])
        _show_all(document, [region for row in rows for region in row])
        document.finish()
        return document.content()


def _write_view(document: DxfDocument, view: View, region: Region) -> None:
    model = document.doc.modelspace()
    in_region = Placement(region.offset)
    ShapeWriter(document, model, in_region).write(view.model)
    annotation = annotation_placement(view).within(in_region)
    ShapeWriter(document, model, annotation).write(view.annotation)


def _write_page(
    document: DxfDocument, page: Page, row: list[Region], titleblock: TitleBlock
) -> None:
    layout = _new_layout(document, page.sheet)
    layout.page_setup(
        size=(titleblock.width, titleblock.height),
        margins=(0, 0, 0, 0),
        units="inch",
        scale=(1, 1),
        name=paper_series(titleblock.width, titleblock.height),
    )
    frames_layer = document.layer(UNPLOTTED)
    for viewport in layout.viewports():  # the one of the sheet itself
        viewport.dxf.layer = frames_layer
    ShapeWriter(document, layout).write(page.paper)
    for order, (view, region) in enumerate(zip(page.views, row, strict=True)):
        window = view.window.moved(*region.offset)
        layout.add_viewport(
            center=view.frame.center,
            size=(view.frame.width, view.frame.height),
            view_center_point=window.center,
            view_height=window.height,
            status=order + 2,
            dxfattribs={"layer": frames_layer, "flags": VIEWPORT_LOCKED},
        )


def _new_layout(document: DxfDocument, sheet: str) -> Paperspace:
    """The next layout; the first sheet takes the one that every file has."""
    layouts = document.doc.layouts
    if "Layout1" in layouts:
        layouts.rename("Layout1", sheet)
        layout = document.doc.paperspace(sheet)
    else:
        layout = layouts.new(sheet)
    layout.dxf.taborder = len(layouts) - 1
    return layout


def _show_all(document: DxfDocument, regions: list[Region]) -> None:
    """Open the model space on all the views."""
    if not regions:
        return
    box = united(region.box for region in regions)
    model = document.doc.modelspace()
    model.dxf.extmin, model.dxf.extmax = (box.x0, box.y0, 0), (box.x1, box.y1, 0)
    model.dxf.limmin, model.dxf.limmax = (box.x0, box.y0), (box.x1, box.y1)
    document.doc.set_modelspace_vport(max(box.height, box.width / 2), box.center)
