"""What the loads of S-601 come from: site criteria, zones and pressures, snow."""

from __future__ import annotations

from functools import partial

from planset.design.design import Design
from planset.design.layout import PlacedArray
from planset.design.module_pressures import module_pressures
from planset.design.snow import PlaneSnow
from planset.design.wind import BuildingWind
from planset.drawing.geometry import Box, Point
from planset.drawing.hatching import hatch
from planset.drawing.primitives import Line, Polyline, Primitive
from planset.drawing.stack import TableAt
from planset.drawing.table import Column, Table
from planset.sheets.context import SheetContext
from planset.sheets.legend import Draw, legend
from planset.sheets.note_table import fitted_table, note_table
from planset.sheets.zone_plan import EDGE_LAYER, HATCH_LAYER, OUTLINE_LAYER, ZONE_HATCH, zones_drawn
from planset.units import format_feet_inches

_NOT_COMPUTED = "NOT COMPUTED"
_BAND = 0.6  # of the mean roof height, as the figure of low slopes has it
_PLACES = {"e": "EAVE", "n": "GABLE END", "r": "RIDGE OR HIP"}


def zone_legend(context: SheetContext) -> list[TableAt]:
    """What the hatches of the plan mean, where there are zones."""
    design = context.design
    return [partial(_legend, design)] if any(zones_drawn(design)) else []


def tables(context: SheetContext) -> list[TableAt]:
    """Site criteria of every building, then snow."""
    design = context.design
    listed: list[TableAt] = []
    listed += [partial(_criteria, design, wind) for wind in design.loads.buildings.values()]
    if not design.loads.buildings:
        listed.append(partial(_none, design))
    listed += by_others(design)
    if design.loads.snow:
        listed += [partial(_snow, design), *_drifts(design)]
    return listed


def _legend(design: Design, at: Point, width: float) -> Table:
    """What the hatches of the plan mean."""
    zones = {region.zone for _, plan in zones_drawn(design) for region in plan.regions}
    swatches: list[tuple[str, Draw]] = []
    for first in sorted({zone[0] for zone in zones}):
        names = ", ".join(sorted(zone for zone in zones if zone[0] == first))
        swatches.append((f"ZONE {names}{_where(names)}", partial(_sample, first)))
    if any(loads.exposed for loads in design.loads.arrays):
        swatches.append(("EDGE FACTOR 1.5", _crossed))
    return legend(swatches, at, width, "ZONES")


def _sample(first: str, box: Box) -> list[Primitive]:
    """Outline and hatch of the zones whose names begin with a figure."""
    made: list[Primitive] = [Polyline(box.corners, OUTLINE_LAYER, closed=True)]
    if first in ZONE_HATCH:
        angle, spacing = ZONE_HATCH[first]
        made += hatch(box.corners, spacing, angle, HATCH_LAYER)
    return made


def _crossed(box: Box) -> list[Primitive]:
    a, b, c, d = box.corners
    return [Line(a, c, EDGE_LAYER), Line(b, d, EDGE_LAYER)]


def _where(names: str) -> str:
    """What the letters after a zone's number say of the place, for zones too small for a name."""
    letters = [f"{letter} {place}" for letter, place in _PLACES.items() if letter in names]
    return f" ({', '.join(letters)})" if letters else ""


def _none(design: Design, at: Point, width: float) -> Table:
    reason = (design.loads.reason or "; ".join(design.loads.no_wind.values())).upper()
    rows = [(f"{_NOT_COMPUTED}: {reason}",)]
    return note_table("SITE CRITERIA", (Column("", width),), rows, at)


def _criteria(design: Design, wind: BuildingWind, at: Point, width: float) -> Table:
    """Everything that the pressures depend on, with its clause."""
    job, standard = design.inputs.job, wind.standard
    site, velocity = job.site, wind.velocity
    kd = f"{velocity.kd:g}, IN qh" if velocity.kd_inside else f"{velocity.kd:g}, IN THE PRESSURE"
    floor = "; LEAST VALUE 0.70 TAKEN" if velocity.floor_used else ""
    rows = [
        ("RISK CATEGORY", job.building.risk_category, "STATED"),
        ("BASIC WIND SPEED V, ULTIMATE", f"{site.wind_speed:g} MPH", "STATED, FROM THE MAP"),
        ("EXPOSURE", site.exposure, standard.cite("exposure")),
        ("MEAN ROOF HEIGHT h", f"{wind.height_ft:.1f} FT", standard.edition.cite("26.2")),
        ("Kz AT h", f"{velocity.kz:.3f}{floor}", standard.cite("exposure_coefficient")),
        ("Kzt", f"{velocity.kzt:g}", standard.cite("topography")),
        ("Kd", kd, standard.cite("directionality")),
        (f"Ke AT {site.elevation / 12:.0f} FT", f"{velocity.ke:.3f}", standard.cite("elevation")),
        ("VELOCITY PRESSURE qh", f"{velocity.q_psf:.2f} PSF", standard.cite("velocity_pressure")),
        *_strips(wind),
        ("GROUND SNOW", f"{site.ground_snow:g} PSF", "STATED, FROM THE MAP"),
        *_dead(design),
    ]
    name = wind.building.replace("_", " ").upper()
    title = f"SITE CRITERIA, {name}" if name else "SITE CRITERIA"
    return fitted_table(title, ("", "", ""), rows, at, width, left=3)


def by_others(design: Design) -> list[TableAt]:
    """Pressures on one module of arrays by others, once for arrays of one plane and module."""
    alike: dict[tuple[str, str], list[PlacedArray]] = {}
    for array in design.arrays:
        building = design.loads.buildings.get(array.plane.building)
        if array.mounting is None and building and building.planes[array.plane.id].plans:
            alike.setdefault((array.plane.id, array.product.model), []).append(array)
    return [partial(_on_module, design, arrays) for arrays in alike.values()]


def _on_module(design: Design, arrays: list[PlacedArray], at: Point, width: float) -> Table:
    """What the wind does to a roof's surface over the area of one module."""
    building = design.loads.buildings[arrays[0].plane.building]
    found = module_pressures(building, arrays[0])
    rows = [
        (
            f"{one.zone}, FIG. {one.figure}",
            f"{one.gcp_up:.3f}",
            f"{one.up_psf:.2f}",
            f"{one.gcp_down:.3f}",
            f"{one.down_psf:.2f}",
        )
        for one in found
    ]
    titles = ("ZONE", "GCp UP", "UP, PSF", "GCp DN", "DOWN, PSF")
    names = ", ".join(array.id for array in arrays)
    title = f"{names} BY OTHERS: qh Kd GCp ON ONE MODULE, {found[0].area_sqft:.1f} SQ FT"
    return fitted_table(title, titles, rows, at, width)


def _strips(wind: BuildingWind) -> list[tuple[str, ...]]:
    """The width zones are measured by: a, on low slopes 0.6 h."""
    figures: dict[str, list[str]] = {}
    for plane in wind.planes.values():
        for plan in plane.plans:
            figures.setdefault(plan.figure.zone_map.measure, []).append(plan.figure.number)
    widths = {
        "a": ("ZONE STRIP a, IN PLAN", wind.strip_in),
        "h": ("ZONE BAND 0.6 h, IN PLAN", _BAND * wind.size.mean_roof_height_in),
    }
    return [
        (
            words,
            format_feet_inches(width, rounding="up"),
            wind.standard.edition.cite(f"Figure {', '.join(dict.fromkeys(figures[measure]))}"),
        )
        for measure, (words, width) in widths.items()
        if measure in figures
    ]


def _dead(design: Design) -> list[tuple[str, ...]]:
    rows: list[tuple[str, ...]] = []
    for array, loads in zip(design.mounted, design.loads.arrays, strict=False):
        least = next(
            (load.loads.least_dead_lb / load.area_sqft for load in loads.attachments), None
        )
        if least is not None:
            weights = f"{least:.2f} / {array.system.dead_load_psf:.2f} PSF"
            rows.append((f"ARRAY {array.id}, LEAST / GREATEST DEAD", weights, "MAKERS' WEIGHTS"))
    framing = design.inputs.job.framing
    if framing is not None:
        rows.append(
            ("ROOF DEAD LOAD, ON SLOPE", f"{framing.roof_dead_load:g} PSF", framing.source.upper())
        )
    return rows


def _drifts(design: Design) -> list[TableAt]:
    """What the design loads of snow come from besides, where any is unbalanced or rained on."""
    rows = [row for plane, snow in design.loads.snow.items() for row in _drift_rows(plane, snow)]
    return [partial(_drift_table, design, rows)] if rows else []


def _drift_rows(plane: str, snow: PlaneSnow) -> list[tuple[str, str]]:
    rows = []
    name, drift, unbalanced = plane.upper(), snow.drift, snow.unbalanced
    if drift is not None and unbalanced is not None:
        wind = "" if drift.winter_wind is None else f"W2 {drift.winter_wind:g}, "
        length = format_feet_inches(12 * unbalanced.surcharge_length_ft)
        rows += [
            (
                f"{name}, DRIFT",
                f"lu {drift.fetch_ft:.2f} FT, {wind}hd {drift.height_ft:.3f} FT, GAMMA "
                f"{drift.density_pcf:.1f} PCF, S {drift.run_per_rise:.2f}, Is {snow.importance:g}",
            ),
            (
                f"{name}, UNBALANCED",
                f"WINDWARD {unbalanced.windward_psf:.1f}; LEEWARD {unbalanced.leeward_psf:.1f}, "
                f"{unbalanced.surcharge_psf:.1f} MORE TO {length} FROM THE RIDGE",
            ),
        ]
    if snow.roof.least_psf or snow.roof.rain_psf:
        least, rain = snow.roof.least_psf, snow.roof.rain_psf
        rows.append((f"{name}, LOW SLOPE", f"pm {least:.1f}, RAIN ON SNOW {rain:.1f}"))
    return rows


def _drift_table(design: Design, rows: list[tuple[str, str]], at: Point, width: float) -> Table:
    standard = design.loads.standard
    clause = standard.cite("snow_unbalanced") if standard else ""
    title = f"UNBALANCED SNOW, PSF, {clause}"
    return fitted_table(title, ("", ""), rows, at, width, left=2)


def _snow(design: Design, at: Point, width: float) -> Table:
    rows = []
    for plane, snow in design.loads.snow.items():
        rows += [
            (
                f"{plane.upper()}, {name}",
                f"{snow.exposure:g}",
                f"{cover.thermal:g}",
                f"{cover.flat_psf:.1f}",
                f"{cover.slope_factor:.3f}",
                f"{greatest:.1f}",
            )
            for name, cover, greatest in (
                ("MODULES", snow.panels, snow.on_panels_psf),
                ("BARE ROOF", snow.roof, snow.on_roof_psf),
            )
        ]
    titles = ("SNOW ON", "Ce", "Ct", "pf", "Cs", "DESIGN")
    standard = design.loads.standard
    clause = standard.cite("snow_flat") if standard else ""
    title = f"SNOW, PSF ON THE HORIZONTAL PROJECTION, {clause}"
    return fitted_table(title, titles, rows, at, width)
