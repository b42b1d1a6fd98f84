"""S-501 attachment details, to scale from the job's own dimensions, with their load table."""

from __future__ import annotations

from dataclasses import replace

from planset.design.buildup import BuildUp
from planset.design.design import Design
from planset.design.layout import PlacedArray
from planset.design.uplift import Fastening
from planset.drawing.dimension import dimension
from planset.drawing.fit import Margins, fit_view
from planset.drawing.furniture import graphic_scale, view_title
from planset.drawing.geometry import Box, Point
from planset.drawing.keynotes import Keynote, keynote_column
from planset.drawing.page import DETAIL_SCALES, View
from planset.drawing.primitives import Dimension, Insert, Primitive, Text
from planset.drawing.text import MINIMUM_HEIGHT
from planset.sheets import detail_tables
from planset.sheets.context import SheetContext, SheetDrawing
from planset.sheets.detail_across import AcrossSection, across_section
from planset.sheets.detail_along import AlongSection, along_section, lag_positions
from planset.sheets.words import inches
from planset.units import format_feet_inches, format_pitch

ID = "S-501"
TITLE = "ATTACHMENT DETAILS"

_DIMS = "S-ANNO-DIMS"
_TEXT = "S-ANNO-TEXT"
_LEADER = "S-ANNO-NOTE"
_LOWER_HEIGHT = 3.75
_TITLE_STRIP = 0.72
_COLUMN = 1.9
_ALONG_SCALES = DETAIL_SCALES
_ACROSS_WIDTH = 4.9


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """Lay out the details of the job's first array; all arrays share their mounting so far."""
    design, area = context.design, context.area
    array, build_up, held = design.arrays[0], design.build_ups[0], design.fastenings[0]
    along = along_section(array, build_up, design.inputs.job.framing)
    tile = design.inputs.job.roof.covering
    across = across_section(array, build_up, design.inputs.job.framing, tile.pan_pitch)
    upper = Box(area.x0, area.y0 + _LOWER_HEIGHT, area.x1, area.y1)
    lower = Box(area.x0, area.y0, area.x1, area.y0 + _LOWER_HEIGHT)
    first = _along_view(design, array, build_up, held, along, upper)
    second = _across_view(design, array, held, across, lower)
    tables = Box(lower.x0 + _ACROSS_WIDTH + 0.2, lower.y0, lower.x1, lower.y1 - 0.05)
    paper: tuple[Primitive, ...] = (
        *_title(first, (area.x0 + 0.3, upper.y0 + 0.36)),
        *_title(second, (area.x0 + 0.3, lower.y0 + 0.36)),
        *detail_tables.tables(context, array, held, tables),
    )
    scale = f"{first.scale.label}, {second.scale.label}"
    scale = "AS SHOWN" if first.scale != second.scale else scale
    return (SheetDrawing((first, second), paper, (along.block, across.block), scale),)


def _title(view: View, at: Point) -> tuple[Primitive, ...]:
    title = view_title(view.number, ID, view.title, view.scale, at)
    bar = graphic_scale(view.scale, (at[0] + 2.35, at[1] - 0.32), target=1.6)
    return (*title, *bar)


def _along_view(
    design: Design,
    array: PlacedArray,
    build_up: BuildUp,
    held: Fastening,
    section: AlongSection,
    upper: Box,
) -> View:
    place = Box(upper.x0, upper.y0 + _TITLE_STRIP, upper.x1, upper.y1)
    margins = Margins(_COLUMN + 0.5, _COLUMN + 0.65, 0.1, 0.62)
    title = "HOOK ON CURVED TILE, ALONG THE RAFTER"
    shown = (Insert(section.block.name, (0.0, 0.0), "S-DETL-OTLN"),)
    view = fit_view(1, title, section.extent, margins, place, _ALONG_SCALES, shown)
    at = view.on_paper.apply
    frame = view.frame
    left = Box(frame.x0 + 0.02, at((0.0, 0.0))[1], frame.x0 + _COLUMN, frame.y1 - 0.02)
    right = Box(frame.x1 - _COLUMN, frame.y0 + 0.3, frame.x1 - 0.02, frame.y1 - 0.02)
    notes = _along_notes(design, array, held)
    names_left = ("cover", "arm", "clearance", "notch", "bolt", "batten")
    columns = [
        keynote_column(
            [
                Keynote(words, at(section.points[name]), end)
                for name, (words, end) in notes.items()
                if (name in names_left) == (column is left)
            ],
            column,
            _TEXT,
            _LEADER,
        )
        for column in (left, right)
    ]
    up_slope = Text(
        f"UP SLOPE TO THE RIGHT; DRAWN SQUARE TO THE ROOF, WHICH SLOPES "
        f"{format_pitch(array.plane.pitch)} ({array.plane.slope_deg:.1f} DEG)",
        (frame.center[0], frame.y0 + 0.04),
        MINIMUM_HEIGHT,
        _TEXT,
        "center",
    )
    dims = _along_dimensions(design, array, build_up, held, section, view)
    return replace(view, annotation=(*dims, *columns[0], *columns[1], up_slope))


def _along_notes(design: Design, array: PlacedArray, held: Fastening) -> dict[str, tuple[str, str]]:
    """Note and leader end per named point."""
    hook, rail = array.mounting.attachment, array.mounting.rail
    framing, tile = design.inputs.job.framing, design.inputs.job.roof.covering
    lags = hook.lags
    return {
        "module": (f"MODULE {array.product.model}, {inches(array.product.depth)} FRAME", "arrow"),
        "rail": (f"RAIL {inches(rail.width)} x {inches(rail.height)}, UP THE SLOPE", "dot"),
        "tile": (
            f"{tile.material.upper()}, {inches(tile.length)} LONG, "
            f"{inches(tile.thickness)} THICK, LAID {inches(tile.exposure)} TO THE COURSE",
            "arrow",
        ),
        "underlayment": ("UNDERLAYMENT, STRIPPED IN OVER THE PLATE", "arrow"),
        "sheathing": (f"SHEATHING {inches(framing.sheathing)}", "dot"),
        "rafter": (
            f"RAFTER {framing.member} AT {inches(framing.spacing)} O.C., "
            f"{framing.species.upper().replace('-', ' ')} {framing.grade.upper()}",
            "dot",
        ),
        "lag": (
            f"({lags.count}) LAG {inches(lags.diameter)} x {inches(lags.length)}, "
            f"PILOT {inches(lags.pilot)}; THREAD IN RAFTER {inches(held.penetration_in)}",
            "arrow",
        ),
        "plate": (
            f"PLATE {inches(hook.plate_width)} x {inches(hook.plate_length)} x "
            f"{inches(hook.plate_thickness)} ON SEALANT",
            "arrow",
        ),
        "cover": (f"TILE COVER BEYOND, {inches(tile.rise)} ABOVE THE PAN", "arrow"),
        "arm": (
            f"{hook.name.upper()} ARM {inches(hook.arm_width)} x {inches(hook.arm_thickness)}",
            "arrow",
        ),
        "notch": ("NOTCH UPPER TILE AT THE ARM; NO TILE RESTS ON IT", "arrow"),
        "clearance": (f"CLEAR ABOVE TILE {inches(hook.clearance_above_tile)} MIN.", "arrow"),
        "batten": (f"BATTEN {inches(tile.batten)}", "arrow"),
        "bolt": (hook.torque.upper(), "arrow"),
    }


def _along_dimensions(
    design: Design,
    array: PlacedArray,
    build_up: BuildUp,
    held: Fastening,
    section: AlongSection,
    view: View,
) -> list[Dimension]:
    at, factor = view.on_paper.apply, view.scale.factor
    depth = design.inputs.job.framing.member_depth_in
    left, right = section.extent.x0 + 0.4, section.extent.x1 - 0.4
    lags = lag_positions(array, build_up)
    pan = build_up.course.pan_top_in(build_up.course.exposure_in)
    foot = -depth - 0.3
    return [
        _between(at((left, 0.0)), at((left, -depth)), -0.3, factor),
        _between(at((0.0, foot)), at((build_up.course.exposure_in, foot)), -0.22, factor,
                 "TILE COURSE"),
        _between(at((lags[0], foot)), at((lags[-1], foot)), -0.22, factor, "LAGS"),
        _between(at((right, pan)), at((right, build_up.module_top_in)), -0.3, factor, "ABOVE PAN"),
    ]  # fmt: skip


def _between(a: Point, b: Point, offset: float, factor: float, suffix: str = "") -> Dimension:
    return dimension(a, b, offset, _DIMS, factor, denominator=16, suffix=suffix)


def _down(value_in: float) -> str:
    """What is available, rounded to the safe side."""
    return format_feet_inches(max(value_in, 0.0), rounding="down")


def _across_view(
    design: Design, array: PlacedArray, held: Fastening, section: AcrossSection, lower: Box
) -> View:
    place = Box(lower.x0, lower.y0 + _TITLE_STRIP, lower.x0 + _ACROSS_WIDTH, lower.y1 - 0.1)
    margins = Margins(0.15, 1.75, 0.05, 0.3)
    title = "ACROSS THE SLOPE"
    shown = (Insert(section.block.name, (0.0, 0.0), "S-DETL-OTLN"),)
    view = fit_view(2, title, section.extent, margins, place, DETAIL_SCALES, shown)
    at, frame = view.on_paper.apply, view.frame
    framing = design.inputs.job.framing
    column = Box(frame.x1 - 1.6, frame.y0 + 0.06, frame.x1 - 0.02, frame.y1 - 0.02)
    notes = {
        "cover": "TILE PAN CENTERED ON THE HOOK AS DRAWN; SHIFT ON THE ROOF IS OPEN",
        "arm": "HOOK ARM IN THE PAN",
        "lag": f"LAGS WITHIN {_down(held.side_room_in)} OF THE RAFTER CENTERLINE",
        "rafter": f"RAFTER {framing.member}",
    }
    keyed = [Keynote(words, at(section.points[name])) for name, words in notes.items()]
    width = framing.member_width_in
    foot = -framing.member_depth_in
    dims = [_between(at((-width / 2, foot)), at((width / 2, foot)), -0.2, view.scale.factor)]
    words = keynote_column(keyed, column, _TEXT, _LEADER)
    return replace(view, annotation=(*dims, *words))
