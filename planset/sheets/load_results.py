"""What S-601 shows of the loads: pressures by zone, demand beside capacity, span table, notes."""

from __future__ import annotations

from functools import partial

from planset.citation import CodeEdition
from planset.codes.nds.clauses import nds_clauses
from planset.design.attachment_loads import AttachmentLoad
from planset.design.design import Design
from planset.design.fastening import Fastening, load_duration
from planset.design.layout import PlacedArray
from planset.design.loads import ArrayLoads
from planset.design.span_table import NotCovered, SpanReading
from planset.drawing.geometry import Point
from planset.drawing.stack import TableAt
from planset.drawing.table import Column, Table
from planset.job.covering import StandingSeam
from planset.sheets import load_basis, load_criteria
from planset.sheets.context import SheetContext
from planset.sheets.findings_table import findings_table
from planset.sheets.load_rows import DIRECTIONS, governing, other_rows, zone_rows
from planset.sheets.note_table import fitted_table, note_table
from planset.sheets.words import inches
from planset.units import format_feet_inches

ASSUMPTIONS = "ASSUMPTIONS"
"""Title of the table of what loads and framing rest on."""

_ON_LOADS = (
    "Pressures at strength level (ultimate); demands by allowable stress design (ASD). * marks the "
    "least pressure of components and cladding.",
    "UP acts away from the roof, on panels parallel to it: GCp of the zone, no internal pressure. "
    "RAIL multiplies the load of an attachment for the rail that runs over it.",
)
_OF_MAKERS = (
    "Capacities of connectors and rails are their makers'; load duration is not applied to them."
)
_ON_SCREWS = (
    f"{_OF_MAKERS} Those of lag screws are listed for wind; their checks take each combination's "
    "own duration.",
    "ALONG is held against the connector; lag screws take pull and shear together under OTHER "
    "STRUCTURAL CHECKS.",
)
_ON_CLAMPS = (
    _OF_MAKERS,
    "A clamp holds no more than the panel under it: see the clips.",
)
_ON_ATTACHMENTS = (
    "A missed or split rafter holds nothing: move the attachment, or block between rafters.",
)
_ON_FRAMING = (
    "Loads on rafters act on their projection in plan: a force P normal to the roof as P / cos, "
    "with the factor RAIL in it.",
    "Ties from rafters to walls, the nailing of the deck, and what rafters bear on (plates, "
    "purlins, ridge, the posts and walls under them) carry the arrays too, and are outside these "
    "checks.",
)
_BY_OTHERS = (
    "Pressures on a module by others are those of the roof's surface, at strength level: before "
    "edge factor, equalization, tilt and the least pressure of components and cladding.",
)
_ON_ALL = (
    "Not valid until reviewed by a licensed professional where the jurisdiction requires it.",
)


def by_array(context: SheetContext) -> list[TableAt]:
    """Pressures, demand beside capacity, and what that capacity is of, array by array."""
    design = context.design
    listed: list[TableAt] = []
    for array, loads in zip(design.mounted, design.loads.arrays, strict=False):
        if loads.attachments:
            listed += [partial(_pressures, array, loads), partial(_by_zone, context, array, loads)]
    if listed:
        listed += [partial(_capacities, design, arrays) for arrays in _alike(design)]
    return listed


def _alike(design: Design) -> list[tuple[PlacedArray, ...]]:
    """Mounted arrays by their mounting system."""
    by_system: dict[str, list[PlacedArray]] = {}
    for array in design.mounted:
        by_system.setdefault(array.system.model, []).append(array)
    return [tuple(arrays) for arrays in by_system.values()]


def of_all(context: SheetContext) -> list[TableAt]:
    """Rails and rafters, span tables, checks that are no demand, and what all of it rests on."""
    design = context.design
    listed: list[TableAt] = []
    if design.loads.arrays:
        listed += [partial(_others, context), *load_basis.tables(context)]
    listed += [partial(_exposed, loads) for loads in design.loads.arrays if loads.exposed]
    listed += [
        partial(_span_table, design, arrays)
        for arrays in _alike(design)
        if design.loads.arrays and arrays[0].system.rail.span_table is not None
    ]
    listed += [partial(_checks, context), partial(_assumptions, design), partial(_notes, design)]
    return listed


def _pressures(array: PlacedArray, loads: ArrayLoads, at: Point, width: float) -> Table:
    """Coefficients and pressures of the worst attachment in every zone."""
    counts: dict[str, int] = {}
    for load in loads.attachments:
        counts[load.zone] = counts.get(load.zone, 0) + 1
    worst = sorted(loads.worst_by_zone(lambda load: load.uplift_lb), key=lambda load: load.zone)
    rows = [_pressure_row(load, counts[load.zone]) for load in worst]
    titles = (
        "ZONE",
        "NO.",
        "AT",
        "SQ FT",
        "GCp UP",
        "EDGE",
        "EQUAL.",
        "UP",
        "GCp DN",
        "DOWN",
        "RAIL",
    )
    figures = ", ".join(dict.fromkeys(load.figure for load in worst))
    title = f"PRESSURES ON ARRAY {array.id}, PSF, FIGURE {figures}"
    return fitted_table(title, titles, rows, at, width)


def _pressure_row(load: AttachmentLoad, count: int) -> tuple[str, ...]:
    return (
        load.zone,
        str(count),
        load.attachment,
        f"{load.area_sqft:.3f}",
        f"{load.gcp_up:.3f}",
        f"{load.edge_factor:.1f}",
        f"{load.equalization:.3f}",
        f"{load.up.pressure_psf:.2f}{'*' if load.up.minimum_governs else ''}",
        f"{load.gcp_down:.3f}",
        f"{load.down.pressure_psf:.2f}{'*' if load.down.minimum_governs else ''}",
        f"{load.continuity:.3f}",
    )


def _capacities(design: Design, arrays: tuple[PlacedArray, ...], at: Point, width: float) -> Table:
    """What one attachment of a system holds, and where that is from."""
    attachment = arrays[0].system.attachment
    stated = (
        ("UPLIFT", attachment.uplift),
        ("DOWN", attachment.downward),
        ("ALONG", attachment.along_slope),
    )
    rows = [
        (
            f"{attachment.name.upper()}, {name}",
            f"{capacity.capacity:.0f}",
            f"{capacity.document or 'NO DOCUMENT'}, PAGE {capacity.page or '-'}".upper(),
        )
        for name, capacity in stated
    ]
    held = next((one for one in design.fastenings if one.array == arrays[0].id), None)
    rows += _clips(design) if held is None else _screws(design, held)
    title = f"CAPACITIES OF AN ATTACHMENT, {_named(arrays)}, LB, ASD"
    return fitted_table(title, ("", "", ""), rows, at, width)


def _screws(design: Design, held: Fastening) -> list[tuple[str, str, str]]:
    """What the screws hold under wind, and the rafter under the plate."""
    wood, wind = design.inputs.jurisdiction.codes.wood.code_edition, load_duration("wind")
    return [
        (
            f"({held.count}) LAGS, UPLIFT",
            f"{held.lag_capacity_lb:.0f}",
            f"{_nds(wood, '12.2.1')}: {held.count} x W {held.withdrawal_lb_per_in:.1f} LB/IN, "
            f"G {held.gravity:g}, x THREAD {held.penetration_in:.3f} in x CD {wind:g} x "
            f"Ct {held.temperature:g}",
        ),
        (
            f"({held.count}) LAGS, ALONG",
            f"{held.lateral_capacity_lb(wind):.0f}",
            f"{_nds(wood, '12.3.1')}, AWC TR12: {held.count} x Z {held.lateral_lb:.1f} LB x "
            f"CD {wind:g} x Ct {held.temperature:g} x p / 8 D {held.penetration_factor:.3f}; "
            f"{_yielding(held)}",
        ),
        (
            "PLATE ON RAFTER",
            f"{held.bearing_lb:.0f}",
            f"{_nds(wood, '3.10.2')}: Fc PERP {held.bearing_psi:g} PSI x Ct {held.temperature:g} x "
            f"{' x '.join(inches(side) for side in held.bearing_in)}",
        ),
    ]


def _yielding(held: Fastening) -> str:
    """What the yield equations take."""
    shear = held.shear
    rd = ", ".join(dict.fromkeys(f"{reduction:.2f}" for reduction in shear.reductions))
    return (
        f"MODE {held.yield_mode}: Dr {shear.dowel_in:g}, lm {shear.main_length_in:g}, "
        f"ls {shear.side_length_in:g}, GAP {shear.gap_in:.3f} in, Fyb {shear.yield_psi:,.0f}, "
        f"Fem {shear.main_bearing_psi:,.0f}, Fes {shear.side_bearing_psi:,.0f} PSI, Rd {rd}"
    )


def _clips(design: Design) -> list[tuple[str, str, str]]:
    """What holds the panels under clamps on their seams, or that it is not stated."""
    covering = design.inputs.job.roof.covering
    clips = covering.clips if isinstance(covering, StandingSeam) else None
    if clips is None:
        return [("PANEL CLIPS, UPLIFT", "OPEN", "NOT STATED IN THE JOB")]
    spaced = f"EACH, {inches(clips.spacing)} APART ALONG EVERY SEAM; {clips.document.upper()}"
    return [("PANEL CLIPS, UPLIFT", f"{clips.uplift:.0f}", spaced)]


def _nds(edition: CodeEdition, clause: str) -> str:
    """A clause under the number it has in an edition; of one not known the edition alone."""
    return edition.cite(nds_clauses(clause).get(edition, ""))


def _by_zone(
    context: SheetContext, array: PlacedArray, loads: ArrayLoads, at: Point, width: float
) -> Table:
    """Demand beside the least capacity in every zone."""
    rows = zone_rows(context.design, context.findings, array.id)
    titles = ["ZONE"]
    for name, under in zip(DIRECTIONS, governing(list(loads.attachments)), strict=True):
        titles += ["AT", f"{name}, LB: {under}", "RATIO"]
    title = f"ATTACHMENTS OF ARRAY {array.id}, DEMAND / CAPACITY, ASD"
    return fitted_table(title, tuple(titles), rows, at, width)


def _others(context: SheetContext, at: Point, width: float) -> Table:
    rows = other_rows(context.design, context.findings)
    titles = ("CHECK", "WHERE", "UNDER", "DEMAND", "CAPACITY", "RATIO", "RESULT")
    return fitted_table("RAILS AND RAFTERS, DEMAND AND CAPACITY, ASD", titles, rows, at, width)


def _exposed(loads: ArrayLoads, at: Point, width: float) -> Table:
    """Distances of the edge factor's test at every module with an exposed side, and what follows.

    Of an exposed side, "-" stands for nothing that way.
    """
    rows = [
        (
            module.module,
            side.side.upper(),
            *(_distance(way) for way in (side.edge_in, side.panel_in, side.array_in)),
            f"{module.edge_factor:.1f}",
        )
        for module in loads.exposed
        for side in module.sides
        if side.exposed
    ]
    near = [m.module for m in loads.exposed if m.edge_factor > 1 and not m.exposed]
    if near:
        rows.append((", ".join(near), "NEAR AN END", "-", "-", "-", "1.5"))
    rows = rows or [("NONE", "-", "-", "-", "-", "1.0")]
    titles = ("MODULE", "SIDE", "TO ROOF EDGE", "TO PANEL", "TO ARRAY", "EDGE FACTOR")
    return fitted_table(f"EXPOSED MODULES OF ARRAY {loads.array}", titles, rows, at, width)


def _distance(way_in: float | None) -> str:
    return "-" if way_in is None else format_feet_inches(way_in, rounding="down")


def _named(arrays: tuple[PlacedArray, ...]) -> str:
    ids = ", ".join(array.id for array in arrays)
    return f"ARRAY {ids}" if len(arrays) == 1 else f"ARRAYS {ids}"


def _span_table(design: Design, arrays: tuple[PlacedArray, ...], at: Point, width: float) -> Table:
    """The maker's table with the cells that the rails take."""
    array = arrays[0]
    ids = {one.id for one in arrays}
    rails = [use for loads in design.loads.arrays if loads.array in ids for use in loads.rails]
    stated = array.system.rail.span_table
    if stated is None:
        msg = f"{array.system.model} has no span table"
        raise ValueError(msg)
    used = {
        (use.table.row.zone, use.table.row.exposure, use.table.row.wind_mph, use.table.row.span_in)
        for use in rails
        if isinstance(use.table, SpanReading)
    }
    rows: list[tuple[str, ...]] = [
        (
            row.zone,
            row.exposure,
            f"{row.wind_speed:g}",
            f"{row.ground_snow:g}",
            f"{row.roof_height / 12:g}",
            f"{row.slope_from:g} TO {row.slope_to:g}",
            format_feet_inches(row.span, rounding="down"),
            format_feet_inches(row.cantilever, rounding="down"),
            "USED" if (row.zone, row.exposure, row.wind_speed, row.span) in used else "",
        )
        for row in stated.rows
    ]
    titles = ("ZONE", "EXP.", "MPH", "SNOW", "h, FT", "SLOPE, DEG", "SPAN", "CANTIL.", "HERE")
    title = f"{stated.document}, page {stated.page}, by {stated.edition_name}"
    outside = sum(isinstance(use.table, NotCovered) for use in rails)
    if outside:
        rows.append(("NONE", *["-"] * 7, f"{outside} OF {len(rails)} RAILS"))
    return fitted_table(title.upper(), titles, rows, at, width)


def _checks(context: SheetContext, at: Point, width: float) -> Table:
    """Structural checks that are no demand over capacity."""
    checks = [
        finding
        for finding in context.findings
        if finding.rule.startswith("structure.") and finding.demand is None
    ]
    return findings_table("OTHER STRUCTURAL CHECKS", checks, at, width)


def _assumptions(design: Design, at: Point, width: float) -> Table:
    """What the engineer is asked to confirm."""
    rows = [(item.text, item.basis) for item in design.assumptions if item.structural]
    return fitted_table(ASSUMPTIONS, ("", ""), rows, at, width, left=2)


def _notes(design: Design, at: Point, width: float) -> Table:
    """What the tables above leave unsaid, each note only where its table is."""
    notes = [
        *((*_ON_LOADS, *_on_capacities(design)) if design.loads.arrays else ()),
        *(_ON_ATTACHMENTS if design.fastenings else ()),
        *(_ON_FRAMING if design.loads.framing.rafters else ()),
        *_on_snow(design),
        *(_BY_OTHERS if load_criteria.by_others(design) else ()),
        *_ON_ALL,
    ]
    rows = [(str(number), words) for number, words in enumerate(notes, 1)]
    return note_table("NOTES", (Column("", 0.3, "center"), Column("", width - 0.3)), rows, at)


def _on_capacities(design: Design) -> tuple[str, ...]:
    """What the capacities of the job's attachments leave unsaid."""
    return _ON_SCREWS if design.fastenings else _ON_CLAMPS


def _on_snow(design: Design) -> list[str]:
    """At which level snow is given, and whether its drift is in it."""
    standard, snow = design.loads.standard, design.loads.snow
    if standard is None or not snow:
        return []
    level = "strength" if standard.snow.STRENGTH_LEVEL else "allowable stress"
    drift = (
        "without unbalanced snow, which is not computed"
        if any(plane.unbalanced_open for plane in snow.values())
        else f"unbalanced snow ({standard.cite('snow_unbalanced')}) included where it is more"
    )
    return [f"DESIGN is the greatest snow on a surface, at {level} level, {drift}."]
