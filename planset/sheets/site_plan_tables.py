"""The column beside the site plan: property lines, equipment, what is missing, legend, notes."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import TYPE_CHECKING

from planset.design.site import Site
from planset.design.site_distances import apart_in
from planset.drawing.columns import first_then
from planset.drawing.geometry import Box, Point
from planset.drawing.notes import Section, flow
from planset.drawing.primitives import Area, Line, Primitive
from planset.drawing.stack import TableAt, merged, stack
from planset.drawing.table import Column, Table
from planset.drawing.text import NOTE_HEIGHT, text_width
from planset.sheets.array_layers import MODULES
from planset.sheets.context import SheetContext
from planset.sheets.legend import Draw, legend, line, outline
from planset.sheets.note_table import LINE_LAYER, TEXT_LAYER, note_table
from planset.sheets.site_blocks import EQUIPMENT_LAYER
from planset.sheets.wanted import Wanted
from planset.units import format_feet_inches, judged_denominator

if TYPE_CHECKING:
    from planset.job.site_plan import OnWall, SitePlan

_GAP = 0.15
_TAG, _TAG_MARGIN = 0.45, 0.14  # least width of the column of tags, and beside its words [in]
_PLACE_SHARE = 0.48
_PHANTOM = (0.0, 0.2, 0.24, 0.3, 0.34, 0.42)  # ends of the dashes of a sample [in]
_CENTER = (0.0, 0.16, 0.2, 0.24, 0.28, 0.42)


def column(
    context: SheetContext,
    site: Site,
    box: Box,
    left_out: tuple[Wanted, ...],
    unnamed: tuple[str, ...],
) -> tuple[tuple[Primitive, ...], ...]:
    """All tables and notes; what the column can't hold goes to further pages, one tuple each.

    Args:
        context: What the sheet is given.
        site: The lot.
        box: The column [paper in].
        left_out: Dimensions the plan had no room for.
        unnamed: What the plan had no room to name.
    """
    tables: list[TableAt] = [partial(_lines, site), partial(_equipment, context, site)]
    if left_out:
        tables.append(partial(_not_drawn, left_out))
    if unnamed:
        tables.append(partial(_not_named, unnamed))
    tables.append(lambda at, width: legend(_swatches(site), at, width))
    area = context.area
    step = box.width + 0.3
    following = tuple(
        Box(area.x0 + n * step, area.y0, area.x0 + n * step + box.width, area.y1)
        for n in range(int(area.width // step))
    )
    stacked = stack(tables, first_then((box,), following), _GAP)
    rest = first_then(stacked.rest, following)
    written = flow(_notes(context), rest, TEXT_LAYER, LINE_LAYER)
    before: tuple[tuple[Primitive, ...], ...] = ((),) * (len(stacked.pages) - 1)
    return merged(stacked.pages, (*before, *written.pages))


def _lines(site: Site, at: Point, width: float) -> Table:
    house = site.buildings[0]
    rows = [
        (
            one.id,
            one.kind.replace("_", " ").upper(),
            _required(one.setback_in),
            _clear(apart_in(house, one)),
        )
        for one in sorted(site.lines, key=lambda one: int(one.id.removeprefix("PL")))
    ]
    widths = (0.48, 0.66, width - 1.96, 0.82)
    titles = ("LINE", "SIDE", "SETBACK", "WALLS")
    columns = tuple(Column(name, size, "center") for name, size in zip(titles, widths, strict=True))
    return note_table("PROPERTY LINES", columns, rows, at)


def _clear(apart: float) -> str:
    return format_feet_inches(apart, denominator=judged_denominator(apart), rounding="down")


def _required(setback_in: float) -> str:
    return format_feet_inches(setback_in, denominator=2, rounding="up") if setback_in else "NONE"


def _equipment(context: SheetContext, site: Site, at: Point, width: float) -> Table:
    plan = context.design.inputs.job.site_plan
    rows = [
        (one.id, one.name, where)
        for one, where in zip(site.equipment, _places(plan) if plan else (), strict=True)
    ]
    tag = max(text_width(row[0], NOTE_HEIGHT) for row in rows) + _TAG_MARGIN
    tag = min(max(tag, _TAG), width / 4)
    place = (width - tag) * _PLACE_SHARE
    columns = (
        Column("TAG", tag),
        Column("EQUIPMENT", width - tag - place),
        Column("WALL", place),
    )
    return note_table("EQUIPMENT", columns, rows, at)


def _places(plan: SitePlan) -> Iterator[str]:
    for item in (*plan.equipment, *((plan.gas_meter,) if plan.gas_meter else ())):
        yield _place(item)


def _place(item: OnWall) -> str:
    along = format_feet_inches(item.along, denominator=1)
    whose = f"{item.building.upper()} " if item.building else ""
    return f"{whose}{item.wall.upper()} {along}{' INSIDE' if item.inside else ''}"


def _not_drawn(left_out: tuple[Wanted, ...], at: Point, width: float) -> Table:
    rows = [(wanted.name, wanted.ways[0].text) for wanted in left_out]
    columns = (Column("", width / 2), Column("", width / 2))
    return note_table("DIMENSIONS NOT DRAWN", columns, rows, at)


def _not_named(unnamed: tuple[str, ...], at: Point, width: float) -> Table:
    rows = [(thing,) for thing in unnamed]
    return note_table("NOT NAMED ON THE PLAN", (Column("", width),), rows, at)


def _triangle(box: Box) -> list[Primitive]:
    x, y = box.center
    return [Area(((x - 0.06, box.y0), (x + 0.06, box.y0), (x, y + 0.06)), "F-SITE-ACCS-PONT")]


def _dashed(layer: str, ends: tuple[float, ...]) -> Draw:
    """A linetype whose dashes are longer than a sample, in shorter ones [in]."""
    pairs = tuple(zip(ends[::2], ends[1::2], strict=True))
    return lambda box: [
        Line((box.x0 + a, box.center[1]), (box.x0 + b, box.center[1]), layer) for a, b in pairs
    ]


def _small(layer: str) -> Draw:
    """The mark of equipment."""
    return lambda box: outline(layer)(
        Box(box.center[0] - 0.08, box.y0, box.center[0] + 0.08, box.y1)
    )


def _swatches(site: Site) -> list[tuple[str, Draw]]:
    """What the plan shows that does not say what it is."""
    made: list[tuple[str, Draw]] = [("PROPERTY LINE", _dashed("C-PROP-LINE", _PHANTOM))]
    if any(one.setback_in for one in site.lines):
        made.append(("REQUIRED SETBACK", _dashed("C-PROP-SBCK", _CENTER)))
    made += [("OUTER WALL", line("C-BLDG-OTLN")), ("ROOF EDGE ABOVE", line("C-BLDG-OVHD"))]
    made.append(("MODULE", outline(MODULES)))
    if any(street.edge_in is not None for street in site.streets):
        made.append(("EDGE OF PAVEMENT", line("C-ROAD-EDGE")))
    made.append(("EQUIPMENT, NOT TO SIZE", _small(EQUIPMENT_LAYER)))
    if len(site.walk) > 1:
        made.append(("FIRE SERVICE WALK", line("F-SITE-ACCS")))
    if site.access_points:
        made.append(("ROOF ACCESS POINT", _triangle))
    return made


def _notes(context: SheetContext) -> tuple[Section, ...]:
    plan = context.design.inputs.job.site_plan
    if plan is None:
        return ()
    absent = [
        words
        for words, there in (
            ("no driveway", plan.driveway),
            ("no other structures", plan.structures),
            ("no gas meter", plan.gas_meter),
        )
        if not there
    ]
    found = [f"Looked for on the site: {', '.join(absent)}."] if absent else []
    notes = (
        f"Lot and structures: {plan.source}.",
        "Lengths and bearings follow from these and the azimuth of the front; they set no "
        "boundary.",
        f"Setbacks: {plan.setbacks_from}. WALLS: from the house or main building, rounded down.",
        "Equipment is placed by its middle, from the left end of its wall as one faces it, outside "
        "unless it says INSIDE.",
        *found,
        "Keep clear: the walk, the foot of ladders, and the working space before electrical "
        "equipment (NEC 110.26).",
    )
    return (Section("SITE NOTES", notes),)
