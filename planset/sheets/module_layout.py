"""Module layout of planes whose mounting is by others: frames, tags, wire clips and boxes."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace

from planset.design.design import Design
from planset.design.layout import PlacedArray
from planset.drawing.enlarge import enlarged, reduced
from planset.drawing.fit import Margins, fit_view
from planset.drawing.geometry import Box
from planset.drawing.labels import Label, LabelPlacer, NoRoomError
from planset.drawing.layers import OWN_LAYERS
from planset.drawing.page import KEY_PLAN_SCALES
from planset.drawing.primitives import Primitive
from planset.drawing.text import MINIMUM_HEIGHT
from planset.roof.plane import Plane
from planset.sheets.array_layers import MODULES
from planset.sheets.attachment_labels import obstruction_names, plane_edge_names
from planset.sheets.attachment_legend import sample
from planset.sheets.attachment_pages import TITLE_STRIP
from planset.sheets.box_marks import box_names, box_sample, boxes_shown
from planset.sheets.context import SheetContext, SheetDrawing
from planset.sheets.electrical_blocks import box_blocks
from planset.sheets.legend import Draw, legend, line, outline
from planset.sheets.lettering import for_crew
from planset.sheets.plan_blocks import OBSTRUCTIONS, ROOF, array_block, plan_blocks
from planset.sheets.plane_pages import furniture
from planset.sheets.slope_view import SlopeView, slope_extent, turned
from planset.sheets.unnamed import Unnamed
from planset.sheets.wiring_blocks import CLIP_LAYER, clip_symbol, wiring_block, wiring_blocks

_MARGIN = 0.45  # around the plane, for the names of edges [paper in]
_LEGEND = 1.95  # width of the legend, with notes at their least [in]
_TAG = "E-SOLR-IDEN"
_LEADER = "A-ANNO-NOTE"


def layout_pages(context: SheetContext, first: int, sheet: str) -> Iterator[SheetDrawing]:
    """A page for every plane with arrays that others mount.

    Args:
        context: What the sheet is given.
        first: Pages of the sheet before these.
        sheet: Id of the sheet.
    """
    planes: dict[str, list[PlacedArray]] = {}
    for array in context.design.arrays:
        if array.mounting is None:
            planes.setdefault(array.plane.id, []).append(array)
    for number, arrays in enumerate(planes.values()):
        yield _page(context, arrays, sheet, first + number)


def _page(
    context: SheetContext, arrays: list[PlacedArray], sheet: str, before: int
) -> SheetDrawing:
    design, area, plane = context.design, context.area, arrays[0].plane
    shown = (
        *(turned(array_block(array.id), plane, MODULES) for array in arrays),
        turned(OBSTRUCTIONS, plane, OWN_LAYERS),
        turned(ROOF, plane, OWN_LAYERS),
        *(turned(wiring_block(array.id), plane, OWN_LAYERS) for array in arrays),
        *boxes_shown(design, plane),
    )
    lettering = for_crew(context)[-1]
    column = _LEGEND * lettering
    view = fit_view(
        1,
        f"{plane.id.upper().replace('_', ' ')} PLANE, MODULES AND WIRE CLIPS",
        slope_extent(plane),
        Margins(_MARGIN, _MARGIN, _MARGIN, _MARGIN),
        Box(area.x0, area.y0 + TITLE_STRIP, area.x1 - column, area.y1),
        KEY_PLAN_SCALES,
        shown,
    )
    blocks = (*plan_blocks(design), *wiring_blocks(design), *box_blocks(design))
    on = SlopeView(plane, view)
    placer = LabelPlacer(view.frame.grown(-0.02))
    placer.keep_clear(view.model, {block.name: block for block in blocks}, view.on_paper)
    made = [
        *_tags(placer, on, arrays),
        *box_names(placer, design, on),
        *obstruction_names(placer, design, on),
        *plane_edge_names(placer, design, on),
    ]
    annotation = tuple(mark for mark in made if not isinstance(mark, Unnamed))
    drawn = replace(view, annotation=annotation)
    small = reduced(Box(area.x1 - column, area.y0, area.x1, area.y1), lettering)
    listed = legend(_swatches(design, plane), (small.x0, small.y1), small.width)
    paper = (
        *furniture(context, plane, drawn, sheet, before),
        *enlarged(listed.primitives, lettering),
    )
    return SheetDrawing((drawn,), paper, blocks, view.scale.label)


def _swatches(design: Design, plane: Plane) -> Iterator[tuple[str, Draw]]:
    """What the view shows that does not say what it is."""
    yield ("MODULE", outline(MODULES))
    yield ("WIRE CLIP", sample(clip_symbol(), CLIP_LAYER))
    if boxes_shown(design, plane):
        yield ("JUNCTION BOX", box_sample)
    if any(item.plane is plane for item in design.obstructions):
        yield ("CLEARANCE", line("A-ROOF-OBST-CLER"))


def _tags(placer: LabelPlacer, on: SlopeView, arrays: list[PlacedArray]) -> Iterator[Primitive]:
    """A tag in every module that has room for one; the table of rows names them all."""
    for array in arrays:
        for module in array.modules:
            box = on.box(module.surface)
            label = Label((module.id,), box.center, MINIMUM_HEIGHT, _TAG, _LEADER)
            with suppress(NoRoomError):
                yield from placer.place_inside(label, box)
