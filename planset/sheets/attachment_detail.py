"""S-501 attachment details, to scale from the job's own dimensions, with their load table."""

from __future__ import annotations

from dataclasses import replace

from planset.design.buildup import BuildUp
from planset.design.design import Design
from planset.design.fastening import Fastening
from planset.design.layout import PlacedArray
from planset.design.tile_courses import Laps, TileFit
from planset.drawing.dimension import dimension
from planset.drawing.enlarge import enlarged, reduced
from planset.drawing.fit import Margins, fit_view
from planset.drawing.furniture import title_and_scale, title_place
from planset.drawing.geometry import Box, Point
from planset.drawing.keynotes import Keynote, keynote_column
from planset.drawing.page import DETAIL_SCALES, View
from planset.drawing.primitives import Dimension, Insert, Primitive, Text
from planset.drawing.running import running_dimensions
from planset.drawing.text import MINIMUM_HEIGHT
from planset.sheets import detail_tables
from planset.sheets.context import SheetContext, SheetDrawing
from planset.sheets.detail_across import across_section
from planset.sheets.detail_along import along_section, lag_positions
from planset.sheets.detail_parts import DrawnSection, hook_of, passing
from planset.sheets.lettering import beside_views
from planset.sheets.words import inches
from planset.units import format_feet_inches, format_pitch

ID = "S-501"
TITLE = "ATTACHMENT DETAILS"

_DIMS = "S-ANNO-DIMS"
_TEXT = "S-ANNO-TEXT"
_LEADER = "S-ANNO-NOTE"
_UPPER_MORE = 2.6  # height of the upper view beyond that of the lower one, with 2x6 rafters [in]
_DEPTH_2X6 = 5.5
_TITLE_STRIP = 0.72
_COLUMN = 1.9
_ALONG_SCALES = DETAIL_SCALES
_ACROSS_COLUMN = 1.6
_TABLES = 6.94


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """Lay out the details of the job's first array; all arrays share their mounting so far."""
    design, area = context.design, context.area
    array, build_up, held = design.mounted[0], design.mounts[0].build_up, design.fastenings[0]
    along = along_section(array, build_up, design.inputs.framing)
    tile = design.inputs.tile
    across = across_section(array, build_up, design.inputs.framing, tile.pan_pitch)
    lettering = beside_views(context)
    smaller = replace(context, enlargement=lettering)
    # Deeper rafters take their depth at quarter size from the lower view and give it to the upper.
    more = _UPPER_MORE + (design.inputs.framing.member_depth_in - _DEPTH_2X6) / 2
    middle = area.y0 + (area.height - more) / 2
    upper = Box(area.x0, middle, area.x1, area.y1)
    tables = Box(area.x1 - _TABLES * lettering, area.y0, area.x1, middle - 0.05)
    lower = Box(area.x0, area.y0, tables.x0 - 0.2, middle)
    first = _along_view(smaller, array, build_up, held, along, upper)
    second = _across_view(smaller, build_up, held, across, lower)
    listed = detail_tables.tables(smaller, array, held, reduced(tables, lettering))
    beside, *following = (enlarged(page, lettering) for page in listed)
    paper: tuple[Primitive, ...] = (
        *title_and_scale(first, ID, title_place(upper, first.frame)),
        *title_and_scale(second, ID, title_place(lower, second.frame)),
        *beside,
    )
    scale = first.scale.label if first.scale == second.scale else "AS SHOWN"
    details = SheetDrawing((first, second), paper, (along.block, across.block), scale)
    return (details, *(SheetDrawing((), page) for page in following))


def _noted(notes: list[Keynote], column: Box, lettering: float) -> tuple[Primitive, ...]:
    """Notes in a column, their lettering so many times as large."""
    smaller = [
        replace(note, anchor=(note.anchor[0] / lettering, note.anchor[1] / lettering))
        for note in notes
    ]
    placed = keynote_column(smaller, reduced(column, lettering), _TEXT, _LEADER)
    return enlarged(placed, lettering)


def _along_view(
    context: SheetContext,
    array: PlacedArray,
    build_up: BuildUp,
    held: Fastening,
    section: DrawnSection,
    upper: Box,
) -> View:
    place = Box(upper.x0, upper.y0 + _TITLE_STRIP, upper.x1, upper.y1)
    design, lettering = context.design, context.enlargement
    column_width = _COLUMN * lettering**2  # words wrap less where there is room
    margins = Margins(column_width + 0.5, column_width + 0.35, 0.1, 0.7)
    title = "HOOK ON CURVED TILE, ALONG THE RAFTER"
    shown = (Insert(section.block.name, (0.0, 0.0), "S-DETL-OTLN"),)
    view = fit_view(1, title, section.extent, margins, place, _ALONG_SCALES, shown)
    at = view.on_paper.apply
    frame = view.frame
    left = Box(frame.x0 + 0.02, at((0.0, 0.0))[1], frame.x0 + column_width, frame.y1 - 0.02)
    right = Box(frame.x1 - column_width, frame.y0 + 0.3, frame.x1 - 0.02, frame.y1 - 0.02)
    notes = _along_notes(design, array, held)
    names_left = ("cover", "arm", "clearance", "notch", "bolt", "batten")
    columns = [
        _noted(
            [
                Keynote(words, at(section.points[name]), end)
                for name, (words, end) in notes.items()
                if (name in names_left) == (column is left)
            ],
            column,
            lettering,
        )
        for column in (left, right)
    ]
    up_slope = Text(
        "UP SLOPE TO THE RIGHT, DRAWN SQUARE TO THE ROOF ("
        f"{format_pitch(array.plane.pitch)}, {array.plane.slope_deg:.1f} DEG); "
        "RUNNING DIMENSIONS FROM THE LOWER TILE'S NOSE",
        (frame.center[0], frame.y0 + 0.04),
        MINIMUM_HEIGHT,
        _TEXT,
        "center",
    )
    dims = _along_dimensions(design, array, build_up, held, section, view)
    return replace(view, annotation=(*dims, *columns[0], *columns[1], up_slope))


def _along_notes(design: Design, array: PlacedArray, held: Fastening) -> dict[str, tuple[str, str]]:
    """Note and leader end per named point."""
    hook, rail = hook_of(array), array.system.rail
    framing, tile = design.inputs.framing, design.inputs.tile
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
            f"{inches(hook.plate_thickness)} BEDDED AND STRIPPED IN AS SCHEDULED",
            "arrow",
        ),
        "cover": (f"TILE COVER BEYOND, {inches(tile.rise)} ABOVE THE PAN", "arrow"),
        "arm": (
            f"ARM {inches(hook.arm_width)} x {inches(hook.arm_thickness)}, "
            f"{_below_the_nose(design.tile_fits[0].laps)}",
            "arrow",
        ),
        "notch": ("NOTCH UPPER TILE AT THE ARM; NO TILE RESTS ON IT", "arrow"),
        "clearance": (f"CLEAR ABOVE TILE {inches(hook.clearance)} MIN.", "arrow"),
        "batten": (f"BATTEN {inches(tile.batten)}", "arrow"),
        "bolt": (hook.torque.upper(), "arrow"),
    }


def _along_dimensions(
    design: Design,
    array: PlacedArray,
    build_up: BuildUp,
    held: Fastening,
    section: DrawnSection,
    view: View,
) -> list[Dimension]:
    at, factor = view.on_paper.apply, view.scale.factor
    depth = design.inputs.framing.member_depth_in
    left = section.extent.x0 + 0.4
    lags = lag_positions(array, build_up)
    foot = -depth - 0.3
    return [
        _between(at((left, 0.0)), at((left, -depth)), -0.3, factor),
        *_from_the_nose(build_up, lags, foot, view),
    ]


def _from_the_nose(
    build_up: BuildUp, lags: list[float], foot: float, view: View
) -> tuple[Dimension, ...]:
    """Upper tile's nose and lag screws, on one tape hooked at the lower tile's nose."""
    at = view.on_paper.apply
    marked = [passing(build_up)[0].exposure_in, *lags]
    return running_dimensions(
        at((0.0, foot)), [at((s, foot)) for s in marked], -0.2, _DIMS, view.scale.factor
    )


def _between(a: Point, b: Point, offset: float, factor: float, suffix: str = "") -> Dimension:
    return dimension(a, b, offset, _DIMS, factor, denominator=16, suffix=suffix)


def _down(value_in: float) -> str:
    """What is available, rounded to the safe side."""
    return format_feet_inches(max(value_in, 0.0), rounding="down")


def _pan_note(fits: tuple[TileFit, ...]) -> str:
    """How far the nearest pans are from the rafters; every array of the job counts."""
    sides = [hook.side_in for fit in fits for hook in fit.hooks]
    left = format_feet_inches(-min([*sides, 0.0]), rounding="up")
    right = format_feet_inches(max([*sides, 0.0]), rounding="up")
    return f"PAN AS DRAWN; ON THE ROOF {left} LEFT TO {right} RIGHT"


def _below_the_nose(laps: Laps) -> str:
    """Where along the slope an arm may leave."""
    least = format_feet_inches(laps.least_below_in, rounding="up")
    return f"FACE {least} TO {_down(laps.most_below_in)} BELOW NOSE"


def _across_view(
    context: SheetContext,
    build_up: BuildUp,
    held: Fastening,
    section: DrawnSection,
    lower: Box,
) -> View:
    place = Box(lower.x0, lower.y0 + _TITLE_STRIP, lower.x1, lower.y1 - 0.1)
    lettering = context.enlargement
    column_width = _ACROSS_COLUMN * lettering
    margins = Margins(0.4, column_width + 0.15, 0.05, 0.3)
    title = "ACROSS THE SLOPE"
    shown = (Insert(section.block.name, (0.0, 0.0), "S-DETL-OTLN"),)
    view = fit_view(2, title, section.extent, margins, place, DETAIL_SCALES, shown)
    at, frame = view.on_paper.apply, view.frame
    design = context.design
    framing = design.inputs.framing
    adjustment = hook_of(design.mounted[0]).side_adjustment
    column = Box(frame.x1 - column_width, frame.y0 + 0.06, frame.x1 - 0.02, frame.y1 - 0.02)
    notes = {
        "pan": _pan_note(design.tile_fits),
        "arm": f"HOOK ARM IN THE PAN, {_down(adjustment)} OFF ITS PLATE AT MOST",
        "lag": f"LAGS WITHIN {_down(held.side_room_in)} OF THE RAFTER CENTERLINE",
        "rafter": f"RAFTER {framing.member}",
    }
    keyed = [Keynote(words, at(section.points[name])) for name, words in notes.items()]
    width = framing.member_width_in
    foot = -framing.member_depth_in
    pan = passing(build_up)[0].pan_top_in(passing(build_up)[0].exposure_in)
    left, factor = section.extent.x0 + 0.4, view.scale.factor
    dims = [
        _between(at((-width / 2, foot)), at((width / 2, foot)), -0.2, factor),
        _between(at((left, pan)), at((left, build_up.module_top_in)), 0.2, factor),
    ]
    words = _noted(keyed, column, lettering)
    return replace(view, annotation=(*dims, *words))
