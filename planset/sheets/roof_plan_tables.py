"""The tables of the roof plan, in a column beside it or below it: planes, arrays, fire access."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import cache, partial

from planset.catalog.access import effective_access, has_dwelling_access
from planset.design.access.scope import ratio_percent
from planset.design.design import Design
from planset.design.layout import PlacedArray, PlacedObstruction, existing_arrays
from planset.design.walls import buildings
from planset.drawing.columns import first_then
from planset.drawing.geometry import Box, Point
from planset.drawing.hatching import hatch
from planset.drawing.primitives import Line, Polyline, Primitive
from planset.drawing.stack import TableAt, stack
from planset.drawing.table import Column, Table
from planset.drawing.table_packing import Packer, Piece
from planset.drawing.text import NOTE_HEIGHT, text_width
from planset.rules.fire import ground_access
from planset.rules.roof_access import scopes
from planset.sheets.access_areas import AREA_NAMES, HATCH_ANGLE_DEG
from planset.sheets.array_layers import MODULES
from planset.sheets.attachment_legend import rail_and_attachment
from planset.sheets.context import SheetContext
from planset.sheets.findings_table import findings_list, findings_table
from planset.sheets.legend import Draw, legend, line, outline
from planset.sheets.note_table import note_table
from planset.sheets.plan_blocks import EXISTING_ARRAY_LAYER, SUPPORT_LAYER, supported_planes
from planset.sheets.wanted import Wanted
from planset.sheets.words import inches
from planset.units import format_pitch

_GAP = 0.15
_APART = 0.2  # between tables below the plan [in]
_NARROW = 2.55  # width of a table below the plan [in]
_FIRE_ACROSS = 6.2  # width in which the checks of fire access take a row each [in]
_FIRE_LOW = 7.9  # width in which most of these rows are of one line [in]
_PLANE = 0.68  # width of the column of planes beside columns of figures [in]
_TAG, _TAG_MARGIN = 0.4, 0.14  # least width of the column of tags, and beside its words [in]


def column(
    context: SheetContext, box: Box, left_out: tuple[Wanted, ...], unnamed: tuple[str, ...]
) -> tuple[tuple[Primitive, ...], ...]:
    """All tables of the column; what it can't hold goes to further pages, one tuple each.

    Args:
        context: What the sheet is given.
        box: The column [paper in].
        left_out: Dimensions the plan had no room for.
        unnamed: What the plan had no room to name.
    """
    facts = [partial(lay, context) for lay in (_planes, _array, _obstructions)]
    fire, legend = partial(_fire, context), partial(_legend, context)
    missing: list[TableAt] = []
    if left_out:
        missing.append(partial(_not_drawn, left_out))
    if unnamed:
        missing.append(partial(_not_named, unnamed))
    area = context.area
    following = [
        Box(
            area.x0 + n * (box.width + 0.3),
            area.y0,
            area.x0 + n * (box.width + 0.3) + box.width,
            area.y1,
        )
        for n in range(int(area.width // (box.width + 0.3)))
    ]

    def stacked(*tables: TableAt) -> tuple[tuple[Primitive, ...], ...]:
        return stack(tables, first_then((box,), tuple(following)), _GAP).pages

    pages = stacked(*facts, fire, *missing, legend)
    # What explains the drawing stands beside it when not all can.
    return pages if len(pages) == 1 else stacked(*facts, legend, *missing, fire)


def below(
    context: SheetContext,
    taken: Sequence[Box],
    left_out: tuple[Wanted, ...],
    unnamed: tuple[str, ...],
) -> tuple[tuple[Primitive, ...], ...]:
    """The tables in what the plan leaves free of its sheet, and on further pages, one tuple each.

    Args:
        context: What the sheet is given.
        taken: What the plan covers [paper in, before enlargement].
        left_out: Dimensions the plan had no room for.
        unnamed: What the plan had no room to name.
    """
    legend, fire, *facts = _pieces(context, left_out, unnamed)
    low, across = (replace(fire, widths=widths) for widths in ((_FIRE_LOW,), (_FIRE_ACROSS,)))
    first = ((legend, fire), (fire, legend), (legend, across), (across, legend), (low, legend))
    orders = [(*two, *rest) for two in first for rest in (facts, facts[::-1])]
    tried = [_packed(context.area, taken, pieces) for pieces in orders]
    best = min(tried, key=lambda pages: (len(pages), -_covered(pages[0])))
    return tuple(tuple(part for table in page for part in table.primitives) for page in best)


def _packed(area: Box, taken: Sequence[Box], pieces: Iterable[Piece]) -> list[list[Table]]:
    packer = Packer(area, _APART, breaks=False)
    packer.add_page(taken)
    for piece in pieces:
        packer.place(piece)
    return packer.pages


def _covered(tables: Iterable[Table]) -> float:
    """How much of a page tables cover [sq in]."""
    return sum(table.box.width * table.box.height for table in tables)


def _pieces(
    context: SheetContext, left_out: tuple[Wanted, ...], unnamed: tuple[str, ...]
) -> Iterator[Piece]:
    """Legend, fire access, and then the facts that others state too."""
    listed: list[TableAt] = [
        partial(lay, context) for lay in (_legend, _fire, _planes, _array, _obstructions)
    ]
    if left_out:
        listed.append(partial(_not_drawn, left_out))
    if unnamed:
        listed.append(partial(_not_named, unnamed))
    for lay in listed:
        yield Piece(cache(lay), (_NARROW,), broken=True)  # laid out anew in every order


def _planes(context: SheetContext, at: Point, width: float) -> Table:
    planes = context.design.roof.planes
    rows = [
        (
            plane.id.upper(),
            format_pitch(plane.pitch),
            f"{plane.azimuth_deg:.0f}",
            f"{plane.slope_factor:.4f}",
        )
        for plane in planes
    ]
    longest = max(text_width(row[0], NOTE_HEIGHT) for row in rows) + _TAG_MARGIN
    if longest > _PLANE:  # long names leave the figures one column
        lines = [(row[0], f"{row[1]}, AZIM. {row[2]}\nFACTOR {row[3]}") for row in rows]
        first = min(longest, width / 2)
        wide = (Column("PLANE", first), Column("SLOPE", width - first))
        return note_table("ROOF PLANES", wide, lines, at)
    titles = ("PLANE", "PITCH", "AZIM.", "FACTOR")
    widths = (_PLANE, 0.58, 0.56, width - 1.82)
    columns = tuple(Column(name, size, "center") for name, size in zip(titles, widths, strict=True))
    return note_table("ROOF PLANES", columns, rows, at)


def _array(context: SheetContext, at: Point, width: float) -> Table:
    design = context.design
    rows = [(f"ARRAY {array.id}", _extent(array)) for array in design.arrays]
    if len(design.arrays) > 1:
        rows.append(("TAGS", "row by row from the eave"))
    others = [array.id for array in design.arrays if array.mounting is None]
    if others:
        whose = "ALL" if len(others) == len(design.arrays) else ", ".join(others)
        rows.append(("MOUNTING", f"{whose} BY OTHERS"))
    rows.append(("MODULES", str(design.module_count)))
    if design.mounted:
        rows.append(("ATTACHMENTS", str(design.attachment_count)))
    rows += _areas(design)
    return note_table("ARRAYS", (Column("", 1.2), Column("", width - 1.2)), rows, at)


def _extent(array: PlacedArray) -> str:
    extent = array.extent
    words = f"{extent.rows} ROW{'S' if extent.rows > 1 else ''} x {extent.columns}"
    return f"{words}, LESS {len(extent.omitted)}" if extent.omitted else words


def _areas(design: Design) -> list[tuple[str, str]]:
    """Arrays and roof in plan and their ratio, building by building where there are several."""
    rows: list[tuple[str, str]] = []
    listed = buildings(design.roof)
    for building in listed:
        if len(listed) > 1:
            rows.append(("BUILDING", building.replace("_", " ").upper() or "HOUSE"))
        covered = design.access.buildings[building]
        rows += [
            ("ARRAY, PLAN", f"{covered.arrays_sqin / 144:.1f} SQ FT"),
            (
                "UNIT, PLAN" if covered.between_walls else "ROOF, PLAN",
                f"{covered.roof_sqin / 144:.1f} SQ FT",
            ),
            *_ratios(design, building, covered.percent),
        ]
    return rows


def _ratios(design: Design, building: str, percent: float) -> Iterator[tuple[str, str]]:
    """What the arrays cover of what the jurisdiction holds them against, roof or plane."""
    jurisdiction = design.inputs.jurisdiction
    by_plane = has_dwelling_access(jurisdiction) and (
        effective_access(jurisdiction).readings.ratio_base == "plane"
    )
    if not by_plane or design.inputs.job.building.use == "other":
        yield ("AREA RATIO", _area_ratio(design, percent))
        return
    ours = (array.plane for array in design.arrays if array.plane.building == building)
    for plane in dict.fromkeys(ours):
        share = ratio_percent(effective_access(jurisdiction), design.access, plane)
        yield (f"RATIO, {plane.id.upper()}", _area_ratio(design, share))


def _area_ratio(design: Design, percent: float) -> str:
    """The ratio, and up to which one the narrower ridge setback will do."""
    ratio = f"{percent:.1f} %"
    jurisdiction = design.inputs.jurisdiction
    dwelling = design.inputs.job.building.use != "other"
    if not dwelling or not has_dwelling_access(jurisdiction):
        return ratio
    limit = effective_access(jurisdiction).code.area_limit(design.inputs.job.building.sprinklered)
    return ratio if limit is None else f"{ratio} OF {limit:g} %"


def _not_drawn(left_out: tuple[Wanted, ...], at: Point, width: float) -> Table:
    rows = [(wanted.name, wanted.ways[0].text) for wanted in left_out]
    columns = (Column("", width / 2), Column("", width / 2))
    return note_table("DIMENSIONS NOT DRAWN", columns, rows, at)


def _not_named(unnamed: tuple[str, ...], at: Point, width: float) -> Table:
    rows = [(thing,) for thing in unnamed]
    return note_table("NOT NAMED ON THE PLAN", (Column("", width),), rows, at)


def _obstructions(context: SheetContext, at: Point, width: float) -> Table:
    rows = [
        (
            item.id,
            f"{item.kind.replace('_', ' ').upper()}\n{_size(item)}",
            inches(item.clearance_in),
        )
        for item in context.design.obstructions
    ]
    widest = max((text_width(i.id, NOTE_HEIGHT) for i in context.design.obstructions), default=0.0)
    tag = min(max(_TAG, widest + _TAG_MARGIN), width / 2)
    columns = (Column("TAG", tag), Column("OBSTRUCTION", width - tag - 0.58), Column("CLEAR", 0.58))
    return note_table("OBSTRUCTIONS", columns, rows or [("-", "NONE SURVEYED", "-")], at)


def _size(item: PlacedObstruction) -> str:
    if item.round:
        return f"{inches(item.surface.width)} DIA"
    return f"{item.surface.width:g} x {inches(item.surface.height)}"


def _fire(context: SheetContext, at: Point, width: float) -> Table:
    fire = (
        finding
        for finding in context.findings
        if finding.rule.startswith("fire.") and finding.rule != ground_access.RULE.id
    )
    freed = _freed(context.design)
    if width >= _FIRE_ACROSS and not freed:
        return findings_table("FIRE ACCESS", fire, at, width)
    return findings_list("FIRE ACCESS", fire, at, width, first=freed)


def _freed(design: Design) -> list[str]:
    """Why no pathways or setbacks are drawn, where a text frees a building of them."""
    if not has_dwelling_access(design.inputs.jurisdiction):
        return []
    return [
        f"NO PATHWAYS OR SETBACKS REQUIRED\n{scope.free}\n{scope.free_by}".rstrip()
        for scope in scopes(design)
        if scope.free
    ]


def _legend(context: SheetContext, at: Point, width: float) -> Table:
    return legend(_swatches(context.design), at, width)


def _crossed(box: Box) -> list[Primitive]:
    a, b, c, d = box.corners
    outline = Polyline(box.corners, EXISTING_ARRAY_LAYER, closed=True)
    return [outline, Line(a, c, EXISTING_ARRAY_LAYER), Line(b, d, EXISTING_ARRAY_LAYER)]


def _hatched(angle_deg: float) -> Draw:
    return lambda box: [
        Polyline(box.corners, "F-ROOF-ACCS", closed=True),
        *hatch(box.corners, 0.06, angle_deg, "F-ROOF-ACCS-PATT"),
    ]


def _rafter_and_support(box: Box) -> list[Primitive]:
    """One line over the other: the column of a roof plan is short of rows."""
    upper, lower = (Box(box.x0, y - 0.01, box.x1, y + 0.01) for y in (box.y1 - 0.02, box.y0 + 0.02))
    return [*line("S-ROOF-FRAM")(upper), *line(SUPPORT_LAYER)(lower)]


def _swatches(design: Design) -> list[tuple[str, Draw]]:
    """What the plan shows that does not say what it is."""
    # Chains of dimensions run to frames; there is no room for a row to say it.
    past = any(array.hardware != array.frames for array in design.arrays)
    words = "MODULE; CLEAR: TO RAILS" if past and design.access_areas else "MODULE"
    made: list[tuple[str, Draw]] = [(words, outline(MODULES))]
    if existing_arrays(design.obstructions):
        made.append(("EXISTING ARRAY", _crossed))
    if design.mounts:
        made.append(("RAIL AND ATTACHMENT", rail_and_attachment(design.mounts[0])))
    if supported_planes(design):
        made.append(("RAFTER, ITS SUPPORT", _rafter_and_support))
    elif design.rafters:
        made.append(("RAFTER", line("S-ROOF-FRAM")))
    kinds = {area.kind for area in design.access_areas}
    made += [
        (AREA_NAMES[kind], _hatched(angle))
        for kind, angle in HATCH_ANGLE_DEG.items()
        if kind in kinds
    ]
    if design.obstructions:
        made.append(("OBSTRUCTION CLEARANCE", line("A-ROOF-OBST-CLER")))
    made.append(("WALL BELOW", line("A-WALL-BELO")))
    if design.inputs.job.building.fire_walls:
        made.append(("FIRE WALL", line("A-WALL-FIRE")))
    if design.inputs.job.building.escape_openings_onto_roof:
        made.append(("EERO: ESCAPE OPENING", outline("A-WALL-OPNG")))
    return made
