"""Z-101 crew sheet: what is done on the roof, in which order, and every measure it takes."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from planset.design.design import Design
from planset.design.layout import PlacedArray
from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Line, Link, Primitive, Text
from planset.drawing.stack import TableAt, fewest_pages
from planset.drawing.table import Column, Table
from planset.drawing.text import height_to_fit
from planset.sheets.attachment_legend import plan_legend, sample
from planset.sheets.attachment_pages import pages_of
from planset.sheets.attachment_plan_tables import checks_table, not_drawn_table
from planset.sheets.attachment_view import PlaneView, Shows, mounted_planes
from planset.sheets.box_marks import box_sample
from planset.sheets.context import SheetContext, SheetDrawing
from planset.sheets.crew_lines import STRINGS, crew_lines
from planset.sheets.crew_notes import systems
from planset.sheets.crew_tables import count_table, kit_tables, row_tables, string_tables
from planset.sheets.crew_wiring_tables import boxes_tables, clips_table, home_runs, wiring_tables
from planset.sheets.crew_words import cautions, order_of_work
from planset.sheets.cut_tables import cut_tables
from planset.sheets.details.tables import settings
from planset.sheets.legend import line
from planset.sheets.lettering import for_crew
from planset.sheets.module_layout import layout_pages
from planset.sheets.note_table import TEXT_LAYER, note_table
from planset.sheets.plane_pages import PagePlan, columns_in, plane_pages, stacked
from planset.sheets.rail_schedules import heights_tables
from planset.sheets.wiring_blocks import CLIP_LAYER, LUG_LAYER, clip_symbol, lug_symbol
from planset.sheets.words import capitals

ID = "Z-101"
TITLE = "CREW SHEET"

_HEAD = 0.62  # of the first page, for the job's name [paper in]
_NAME_HEIGHT = 0.22
_BOX = 0.75  # width of the box for initials, notes at their least [in]
_HOLD = "HOLD"
_INDEX = "CREW SHEETS"


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """The order of work, then every plane with what is built and set on it.

    Tables of the boxes go on to the planes where they alone would fill a page before them.
    """
    letterings, boxes = for_crew(context), _of_boxes(context.design)
    first = fewest_pages(_first(context, size, boxes) for size in letterings)
    carried: tuple[TableAt, ...] = ()
    if len(first) > 1 and context.design.mounts:
        without = fewest_pages(_first(context, size, ()) for size in letterings)
        if len(without) < len(first):
            first, carried = without, boxes
    place = (f"{ID}, {len(carried)} CARRIED", len(first))
    if place not in context.kept:
        context.kept[place] = _planes(context, letterings, len(first), carried)
    return (*first, *context.kept[place])


def _planes(
    context: SheetContext,
    letterings: tuple[float, ...],
    before: int,
    carried: tuple[TableAt, ...],
) -> tuple[SheetDrawing, ...]:
    """The pages that show the planes, after so many others of the sheet, and tables of no plane."""
    design = context.design
    pages: list[SheetDrawing] = []
    plan = PagePlan(
        ID,
        letterings,
        partial(plan_legend, design, more=_SWATCHES, zones=False),
        Shows(zones=False, wiring=True, lines=crew_lines),
    )
    batches = pages_of(context, mounted_planes(context))
    pages += plane_pages(context, plan, batches, partial(_tables, design), before, carried)
    pages += layout_pages(context, before + len(pages), ID)
    return tuple(pages)


_SWATCHES = (
    ("STRING, DIAGONAL", line(STRINGS)),
    ("WIRE CLIP", sample(clip_symbol(), CLIP_LAYER)),
    ("GROUNDING LUG", sample(lug_symbol(), LUG_LAYER)),
    ("JUNCTION BOX", box_sample),
)


def _tables(design: Design, views: Sequence[PlaneView]) -> list[TableAt]:
    """What the crew reads beside the views of a page."""
    mounted = [one for view in views for one in view.mounted]
    missing = tuple(thing for view in views for thing in (*view.missing, *view.unnamed))
    return [
        partial(checks_table, mounted),
        *string_tables(mounted),
        *boxes_tables(design, [one.array for one in mounted]),
        *kit_tables(mounted),
        *(table for view in views for table in heights_tables(view.mounted)),
        *wiring_tables(design, mounted),
        partial(count_table, mounted),
        *([partial(not_drawn_table, missing)] if missing else []),
    ]


def _of_boxes(design: Design) -> tuple[TableAt, ...]:
    """Home runs, and the boxes of arrays that are mounted by others."""
    return (partial(home_runs, design), *boxes_tables(design, _by_others(design)))


def _by_others(design: Design) -> list[PlacedArray]:
    return [array for array in design.arrays if array.mounting is None]


def _first(
    context: SheetContext, lettering: float, boxes: tuple[TableAt, ...]
) -> tuple[SheetDrawing, ...]:
    """Name of the job, sheets, cautions, order of work, torques, cut lists, tables of boxes."""
    design, area = context.design, context.area
    below = Box(area.x0, area.y0, area.x1, area.y1 - _HEAD)
    others = _by_others(design)
    listed: list[TableAt] = [
        partial(_index, context),
        partial(_cautions, design),
        partial(_steps, design),
        *([partial(_torques, design)] if design.mounts else []),
        *cut_tables(design),
        *row_tables(others),
        *([partial(clips_table, design, others)] if others else []),
        *boxes,
    ]
    columns = columns_in(below, lettering)
    following = columns_in(area, lettering)
    first, *more = stacked(listed, columns, following, lettering, broken=True)
    links = _links(context, first, columns[0].width)
    heading = _heading(context)
    return tuple(SheetDrawing((), page) for page in ((*heading, *links, *first), *more))


def _heading(context: SheetContext) -> list[Primitive]:
    project, area = context.design.inputs.job.project, context.area
    words = f"{project.name}, {project.address}, {project.number}".upper()
    height = height_to_fit(words, _NAME_HEIGHT, area.width)
    level = area.y1 - _HEAD + 0.14
    return [
        Text(words, (area.x0, level + 0.1), height, TEXT_LAYER),
        Line((area.x0, level), (area.x1, level), "G-ANNO-TITL"),
    ]


def _index(context: SheetContext, at: Point, width: float) -> Table:
    rows = [(entry.id, entry.title) for entry in context.index]
    return note_table(_INDEX, (Column("", 0.75), Column("", width - 0.75)), rows, at)


def _links(context: SheetContext, drawn: Sequence[Primitive], width: float) -> list[Link]:
    """Each line of the index leads to its sheet."""
    lines = {part.text: part for part in reversed(drawn) if isinstance(part, Text)}
    made = []
    for entry in context.index:
        x, y = lines[entry.id].at
        high = lines[entry.id].height
        made.append(Link((x - 0.05, y - 0.05), (x - 0.05 + width, y + high + 0.05), entry.id))
    return made


def _cautions(design: Design, at: Point, width: float) -> Table:
    columns = (Column("", 0.75, "center"), Column("", width - 0.75))
    return note_table("CAUTIONS", columns, cautions(design), at)


def _steps(design: Design, at: Point, width: float) -> Table:
    """The order of work, a box to sign at each step; those to stop at say so."""
    rows = [
        (str(number), step.words, _HOLD if step.hold else "")
        for number, step in enumerate(order_of_work(design), 1)
    ]
    columns = (
        Column("", 0.32, "center"),
        Column("STOP AT EACH HOLD UNTIL IT IS SIGNED", width - 0.32 - _BOX),
        Column("INITIALS", _BOX, "center"),
    )
    return note_table("ORDER OF WORK", columns, rows, at)


def _torques(design: Design, at: Point, width: float) -> Table:
    """Every part with its setting, its torque and the document, a box to sign."""
    rows = [
        (name.upper(), capitals(words), "")
        for system in systems(design)
        for name, words in settings([one for one in design.mounts if one.array.system == system])
    ]
    columns = (
        Column("PART", 1.05),
        Column("SETTING AND TORQUE", width - 1.05 - _BOX),
        Column("INITIALS", _BOX, "center"),
    )
    return note_table("SETTINGS AND TORQUES", columns, rows, at)
