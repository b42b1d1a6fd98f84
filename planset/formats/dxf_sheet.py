"""One sheet as a DXF file of its own, for readers that know one dimension scale or no layouts.

The whole sheet stands in model space: its main view at true size, at the factor F of that view's
scale, and everything else about it as large as the plotted sheet times F. So model space plotted
at 1:F is the sheet. What is drawn once in a block keeps its block, and with it its identity.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from itertools import chain
from pathlib import Path

from planset.drawing.geometry import Box, Placement, Point
from planset.drawing.layers import INHERITED
from planset.drawing.page import NOT_TO_SCALE, DrawingSet, Page, TitleBlock, View
from planset.drawing.primitives import Block, Insert, Link, Primitive
from planset.formats.block_order import blocks_behind, dependency_order
from planset.formats.dxf_blocks import write_block
from planset.formats.dxf_document import DxfDocument, fixed_metadata
from planset.formats.dxf_export import values_set_straight
from planset.formats.dxf_shapes import ShapeWriter
from planset.formats.in_view import page_in_view
from planset.formats.paper_names import paper_name
from planset.formats.regions import START, STEP

MM_PER_INCH = 25.4
LIMITS = 2  # plot type of a layout: what lies within its limits


def write_sheet_dxf(drawing: DrawingSet, page: Page, path: Path) -> None:
    """Write one sheet of the set as a DXF file of release R2013, in inches.

    What a view draws outside its window is not cut off: model space has no frame for that. What
    lies outside as a whole is left out.

    Args:
        drawing: The set.
        page: The sheet.
        path: The file, replaced when it exists.

    Raises:
        PlansetError: A text cannot stand in a DXF file, or the file would not be sound.
        OSError: The file cannot be written.
    """
    page, titleblock = page_in_view(page, drawing.blocks), drawing.titleblocks[page.titleblock]
    factor, on_sheet = sheet_factor(page), sheet_placement(page)
    views = [(view, _plain(view.model), _plain(view.annotation)) for view in page.views]
    paper = _plain(page.paper, titleblock)
    everything = [*paper, *(part for _, *parts in views for part in chain(*parts))]
    with fixed_metadata(), values_set_straight():
        document = DxfDocument(factor)
        _write_blocks(document, blocks_behind(everything, drawing.blocks))
        space = document.doc.modelspace()
        for view, model, annotation in views:
            lengths, in_view = view.scale.factor / factor, _view_placement(view, on_sheet)
            ShapeWriter(document, space, in_view, lengths).write(model)
            ShapeWriter(document, space, on_sheet, lengths).write(annotation)
        ShapeWriter(document, space, on_sheet).write(paper)
        _set_up_plot(document, on_sheet, titleblock)
        document.finish()
        path.write_bytes(document.content())


def sheet_factor(page: Page) -> float:
    """Model inches per plotted inch of a sheet's own file; 1 for a sheet without views."""
    view = _main_view(page)
    return view.scale.factor if view else 1.0


def sheet_placement(page: Page) -> Placement:
    """From the paper inches of a sheet to the model space of its own file.

    The origin of the main view lands on even coordinates, and the sheet lies clear of 0,0, where
    some readers pile up what they do not know.
    """
    factor, view = sheet_factor(page), _main_view(page)
    x, y = _origin(view, factor) if view else (0.0, 0.0)
    return Placement((_even(x) - x, _even(y) - y), 0.0, factor)


def _main_view(page: Page) -> View | None:
    """The largest view on the sheet, one to scale before one that is not."""
    return max(
        page.views,
        key=lambda view: (view.scale != NOT_TO_SCALE, view.frame.width * view.frame.height),
        default=None,
    )


def _view_placement(view: View, on_sheet: Placement) -> Placement:
    """From the view's model frame to the model space of the sheet's file; scale 1 for its own."""
    x, y = _origin(view, on_sheet.scale)
    return Placement(
        (x + on_sheet.at[0], y + on_sheet.at[1]), 0.0, on_sheet.scale / view.scale.factor
    )


def _origin(view: View, factor: float) -> Point:
    """Where the origin of a view's model frame lies, from the corner of the sheet [model in]."""
    ratio = factor / view.scale.factor
    return (
        view.at[0] * factor - view.window.x0 * ratio,
        view.at[1] * factor - view.window.y0 * ratio,
    )


def _even(value: float) -> float:
    return math.ceil((START + value) / STEP) * STEP


def _write_blocks(document: DxfDocument, blocks: Iterable[Block]) -> None:
    for block in dependency_order({block.name: block for block in blocks}):
        write_block(document, replace(block, primitives=_plain(block.primitives)))


def _plain(
    primitives: Iterable[Primitive], titleblock: TitleBlock | None = None
) -> tuple[Primitive, ...]:
    """The primitives as readers show them that show no attributes, and no text in a block.

    An attribute that shows becomes a text of its own, one that is only carried stays. A title
    block is taken apart into its lines and texts.
    """
    made: list[Primitive] = []
    for part in primitives:
        if not isinstance(part, Insert):
            made.append(part)
            continue
        if titleblock is not None and part.block == titleblock.name:
            made += [_on_layer(inner, part.layer) for inner in titleblock.block.primitives]
        else:
            carried = tuple(item for item in part.attributes if item.text is None)
            made.append(replace(part, attributes=carried))
        made += [item.text for item in part.attributes if item.text and item.text.text]
    return tuple(made)


def _on_layer(part: Primitive, layer: str) -> Primitive:
    """What a block draws, outside it: on the layer of the insertion where it is on layer "0"."""
    if isinstance(part, Link) or part.layer != INHERITED:
        return part
    return replace(part, layer=layer)


def _set_up_plot(document: DxfDocument, on_sheet: Placement, titleblock: TitleBlock) -> None:
    """Have model space open on the sheet, and plot as the sheet at its scale."""
    size, factor = (titleblock.width, titleblock.height), on_sheet.scale
    sheet = Box(*on_sheet.at, *on_sheet.apply(size))
    low, _, high, _ = sheet.corners
    model = document.doc.modelspace()
    model.reset_limits(low, high)
    model.reset_extents((*low, 0), (*high, 0))
    document.doc.set_modelspace_vport(max(sheet.height, sheet.width / 2), sheet.center)
    model.use_standard_scale(False)
    model.set_plot_type(LIMITS)
    settings = {
        "paper_size": paper_name(*size),
        "paper_width": size[0] * MM_PER_INCH,
        "paper_height": size[1] * MM_PER_INCH,
        "plot_paper_units": 0,  # inches
        "scale_numerator": 1,
        "scale_denominator": factor,
        "unit_factor": 1 / MM_PER_INCH,
    }
    for name, value in settings.items():
        model.dxf.set(name, value)
    _tell_readers_without_layouts(document, on_sheet, size)


def _tell_readers_without_layouts(
    document: DxfDocument, on_sheet: Placement, size: tuple[float, float]
) -> None:
    """Say the same in the header: paper size, scale, and where on the paper 0,0 would lie."""
    x, y = on_sheet.at
    document.doc.layout("Layout1").reset_limits((0, 0), size)  # ezdxf copies them into the header
    document.doc.header["$PSVPSCALE"] = 1 / on_sheet.scale
    document.doc.header["$PINSBASE"] = (-x / on_sheet.scale, -y / on_sheet.scale, 0.0)
