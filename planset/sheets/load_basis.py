"""What an engineer needs to compute the rails and rafters of S-601 anew.

Sections, spans, loads and factors: every figure is the design's own.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from planset.codes.asce7 import solar_panels
from planset.codes.iebc.gravity import GREATEST_INCREASE
from planset.codes.nds.beam_values import REPETITIVE, temperature_factors
from planset.design.design import Design
from planset.design.framing_loads import RafterUse
from planset.design.layout import PlacedArray
from planset.design.rafter_basis import RafterValues, SpanLoads
from planset.design.rail_loads import RailUse
from planset.drawing.geometry import Point
from planset.drawing.stack import TableAt
from planset.drawing.table import Table
from planset.sheets.context import SheetContext
from planset.sheets.load_rows import worst_rafter
from planset.sheets.note_table import fitted_table
from planset.units import format_feet_inches, format_inches

_RAIL_RULES = ("structure.rail-strength", "structure.rail-deflection")
_ON_ALL_SPANS = ("shear", "bearing")  # what other spans of the rafter bear on


def tables(context: SheetContext) -> list[TableAt]:
    """The method's limits, gravity loads before and after, rails by system, rafters."""
    design = context.design
    if not design.loads.arrays:
        return []
    systems: dict[str, list[PlacedArray]] = {}
    for array in design.mounted:
        systems.setdefault(array.system.model, []).append(array)
    listed: list[TableAt] = [partial(_method, design)]
    if design.loads.gravity:
        listed.append(partial(_gravity, design))
    listed += [partial(_rail, context, arrays) for arrays in systems.values()]
    if design.loads.framing.rafters:
        listed += [partial(_rafters, design), partial(_checks, context)]
    return listed


def _method(design: Design, at: Point, width: float) -> Table:
    """Where every array stands to the limits of the method for parallel panels."""
    rows = [
        (
            method.array,
            f"{method.height_above_roof_in:.2f}",
            f"{method.clearance_in:.2f}",
            f"{method.least_clearance_in:.2f}",
            f"{method.gap_in:.2f}",
            f"{method.chord_in:.1f}",
            "HOLDS" if method.holds else "NOT MET",
        )
        for method in (loads.method for loads in design.loads.arrays)
    ]
    titles = (
        "ARRAY",
        f"h2, <= {solar_panels.MAXIMUM_HEIGHT_IN:g}",
        "TO EDGE, IN PLAN",
        f">= {solar_panels.CLEARANCE_PER_HEIGHT:g} h2",
        f"GAP, >= {solar_panels.MINIMUM_GAP_IN:g}",
        f"CHORD, <= {solar_panels.MAXIMUM_CHORD_IN:g}",
        "METHOD",
    )
    standard = design.loads.standard
    clause = standard.cite("edge_factor") if standard else ""
    return fitted_table(f"PANELS PARALLEL TO THE ROOF, in, {clause}", titles, rows, at, width)


def _gravity(design: Design, at: Point, width: float) -> Table:
    """Gravity loads of every plane without its arrays and with them."""
    rows = [
        (
            added.plane.upper(),
            *(
                f"{before:.2f} / {after:.2f}"
                for before, after in (
                    (added.existing.dead, added.altered.dead),
                    (added.existing.live, added.altered.live),
                    (added.existing.snow, added.altered.snow),
                )
            ),
            f"{added.increase.of.upper()} {100 * added.increase.share:.1f} %",
        )
        for added in design.loads.gravity
    ]
    titles = ("PLANE", "D", "Lr", "S", f"GROWS, <= {100 * GREATEST_INCREASE:g} % OR EXCEPTED")
    title = "GRAVITY LOAD WITHOUT / WITH ARRAYS, PSF IN PLAN"
    return fitted_table(title, titles, rows, at, width)


def _rail(context: SheetContext, arrays: list[PlacedArray], at: Point, width: float) -> Table:
    """Section and capacity of a rail, and the loads and spans of those that the checks name."""
    profile = arrays[0].system.rail
    stated = profile.section
    page = stated.page or "-"
    source = f"{stated.document or 'NO DOCUMENT'}, PAGE {page}".upper()
    rows = [
        (
            "SECTION",
            f"I {stated.inertia_in4:g} IN4, E {stated.modulus_psi:,.0f} PSI",
            source,
        ),
        ("MOMENT ALLOWED", f"{stated.moment_lb_ft:g} LB-FT, {stated.basis}", source),
        ("DEFLECTION ALLOWED", f"L / {profile.deflection_ratio:g}", "MAKER'S"),
        *(_of_rail(use) for use in _named_rails(context, {array.id for array in arrays})),
    ]
    names = ", ".join(array.id for array in arrays)
    title = f"RAIL OF {names}; M IS w L2 / 8, RUNNING THROUGH IF MORE"
    return fitted_table(title, ("", "", ""), rows, at, width, left=3)


def _named_rails(context: SheetContext, arrays: set[str]) -> Iterator[RailUse]:
    """The rails that a check of theirs names, each once."""
    named = {finding.objects for finding in context.findings if finding.rule in _RAIL_RULES}
    for loads in context.design.loads.arrays:
        for use in loads.rails:
            if use.array in arrays and (use.array, use.rail) in named:
                yield use


def _of_rail(use: RailUse) -> tuple[str, str, str]:
    span, end = (format_inches(way) for way in (use.span_in, use.cantilever_in))
    return (
        f"{use.array}: {use.rail}",
        f"w {_plf(use.up_lb_per_in)} UP, {_plf(use.down_lb_per_in)} DOWN",
        f"SPAN {span}, FREE END {end}",
    )


def _rafters(design: Design, at: Point, width: float) -> Table:
    """Wood, factors and supports that all rafters of the job share, then what each plane has."""
    framing, wood = design.inputs.framing, design.inputs.jurisdiction.codes.wood.code_edition
    values = design.loads.framing.rafters[0].values
    section, reference = values.section, values.reference
    stiffness, strength = temperature_factors(values.service.temperature_f)
    rows = [
        (
            "MEMBER",
            f"{framing.member} AT {framing.spacing:g} in, {framing.wood.upper()} "
            f"{framing.grade.upper()}",
            framing.source.upper(),
        ),
        (
            "SECTION",
            f"{section.thickness_in:g} x {section.width_in:g} in, S "
            f"{section.section_modulus_in3:.2f} IN3, I {section.moment_of_inertia_in4:.2f} IN4",
            "NDS SUPPLEMENT",
        ),
        (
            "Fb, Fv, Fc PERP, PSI",
            f"{reference.fb_psi:g}, {reference.fv_psi:g}, {reference.fc_perp_psi:g}",
            "NDS SUPPLEMENT",
        ),
        ("E, Emin, PSI", f"{reference.e_psi:,.0f}, {reference.e_min_psi:,.0f}", "NDS SUPPLEMENT"),
        (
            "CF, Cr, Ct",
            f"{values.service.size:g}, {_repetitive(values):g}, {strength:g} (E, Emin "
            f"{stiffness:g})",
            f"{wood}; {values.service.temperature_f:g} F ASSUMED",
        ),
        ("LOWER EDGE", *_lower_edge(values)),
        (
            "BEARING",
            f"{values.bearing_in:g} in ON EACH SUPPORT",
            "ASSUMED, NOT SURVEYED" if framing.bearing is None else framing.source.upper(),
        ),
        ("DEFLECTION ALLOWED", f"L / {values.deflection_limit:g}", "UNDER Lr OR S WITHOUT D"),
        *_planes(design),
    ]
    return fitted_table("RAFTERS, IN PLAN", ("", "", ""), rows, at, width, left=3)


def _repetitive(values: RafterValues) -> float:
    return REPETITIVE if values.service.repetitive else 1.0


def _lower_edge(values: RafterValues) -> tuple[str, str]:
    if values.effective_in is None:
        return ("HELD, CL 1", "CEILING ATTACHED")
    return ("FREE FROM SUPPORT TO SUPPORT", "NO CEILING ATTACHED")


def _planes(design: Design) -> Iterator[tuple[str, str, str]]:
    """Where the rafters of every plane bear, and its slope."""
    framing = design.inputs.framing
    for name in dict.fromkeys(use.plane for use in design.loads.framing.rafters):
        places = ", ".join(format_feet_inches(at) for at in framing.supports_on(name) or ())
        slope = design.roof.plane(name).slope_deg
        yield f"{name.upper()}, {slope:.2f} DEG", f"ON {places} FROM EAVE", framing.source.upper()


def _checks(context: SheetContext, at: Point, width: float) -> Table:
    """The loads behind every check of the rafters, and the allowed value in its factors."""
    design = context.design
    rows = []
    for finding in context.findings:
        if finding.rule == "structure.framing" and finding.demand is not None:
            plane, check = finding.objects
            use = worst_rafter(design, plane, check)
            place = f"{format_feet_inches(use.from_in)} TO {format_feet_inches(use.to_in)}"
            if check == "bearing":
                place = f"AT {format_feet_inches(use.bears_at_in)}"
            rows.append(
                (
                    f"{plane.upper()} {use.rafter}, {check.upper()}",
                    place,
                    _loads(use, check),
                    _allowed(use, check),
                )
            )
    titles = ("RAFTER, CHECK", "SPAN", "LOADS, AT INCHES FROM LOWER SUPPORT", "ALLOWED")
    return fitted_table("LOADS AND ALLOWED VALUES OF RAFTERS", titles, rows, at, width, left=4)


def _loads(use: RafterUse, check: str) -> str:
    """The loads that a check counts, in plan."""
    if check == "deflection":
        live = SpanLoads(0.0, use.loads.live_lb_per_in, use.loads.spread, use.loads.live_points)
        return _on_span(live)
    if check not in _ON_ALL_SPANS:
        return _on_span(use.loads)
    tail = f"TAIL {_plf(use.tail_lb_per_in)}"
    if len(set(use.whole)) == 1 and not use.whole[0].points:
        return f"{_on_span(use.whole[0])} ON EVERY SPAN, {tail}"
    spans = [f"SPAN {n}: {_on_span(loads)}" for n, loads in enumerate(use.whole, 1)]
    return "; ".join((*spans, tail))


def _on_span(loads: SpanLoads) -> str:
    uniform = loads.dead_lb_per_in + loads.live_lb_per_in
    words = [
        *([f"w {_plf(uniform)}"] if uniform else []),
        *(f"{_plf(load)} {a:.1f} TO {b:.1f}" for a, b, load in loads.spread),
        *(f"{force:.0f} LB AT {place:.1f}" for place, force in loads.points),
    ]
    return ", ".join(words) or "NONE"


def _allowed(use: RafterUse, check: str) -> str:
    values = use.values
    service, reference = values.service, values.reference
    stiffness, strength = temperature_factors(service.temperature_f)
    lasting = f"CD {service.load_duration:g} x Ct {strength:g}"
    match check:
        case "bending":
            words = f"Fb {reference.fb_psi:g} x {lasting} x CF {service.size:g} x Cr "
            words += f"{_repetitive(values):g}"
            if use.check.bending.capacity == values.adjusted.fb_psi or values.effective_in is None:
                return words
            return f"{words} x CL {values.stability:.3f}, le {values.effective_in:.1f} in"
        case "shear":
            return f"Fv {reference.fv_psi:g} x {lasting}"
        case "deflection":
            return f"L / {values.deflection_limit:g}, E {reference.e_psi:,.0f} x Ct {stiffness:g}"
    thickness = values.section.thickness_in
    return (
        f"Fc PERP {reference.fc_perp_psi:g} x Ct {strength:g}, ON {thickness:g} x "
        f"{values.bearing_in:g} in"
    )


def _plf(load_lb_per_in: float) -> str:
    return f"{12 * load_lb_per_in:.1f} PLF"
