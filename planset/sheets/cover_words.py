"""What the cover says, in words: facts in tables, notes in sections."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from planset.drawing.notes import Section
from planset.drawing.table import CONTINUED
from planset.finding import Finding, Outcome
from planset.rules.registry import RULES
from planset.sheets.changes import sheets_changed
from planset.sheets.context import SheetContext, base_id
from planset.sheets.load_results import ASSUMPTIONS
from planset.units import format_feet_inches, format_pitch, format_temperature

if TYPE_CHECKING:
    from planset.catalog.module import Module
    from planset.design.design import Design
    from planset.design.electrical.system import ElectricalDesign
    from planset.job.framing import Framing
    from planset.sheets.contents import SheetContents

Rows = list[tuple[str, str]]


def facts(context: SheetContext) -> list[tuple[str, Rows]]:
    """Titles and rows of the fact tables."""
    return [
        ("PROJECT", _project(context)),
        ("CODE BASIS", _codes(context)),
        ("SITE AND BUILDING", _site(context)),
        ("DC SYSTEM", _dc_system(context)),
        ("AC SYSTEM", _ac_system(context)),
        ("MOUNTING", _mounting(context.design)),
    ]


def kind_of_system(context: SheetContext) -> str:
    """What the set is for, in capitals: the photovoltaic system and all that comes with it."""
    given = context.design.inputs.job.electrical
    parts = [
        "ROOFTOP PHOTOVOLTAIC SYSTEM",
        *(["ENERGY STORAGE"] if given.storage else []),
        *(["BACKUP PANEL"] if given.backup else []),
        *(["SMALLER MAIN BREAKER"] if given.main_derate else []),
    ]
    return ", ".join(parts)


def _project(context: SheetContext) -> Rows:
    job = context.design.inputs.job
    contractor = job.contractor
    return [
        ("SCOPE", job.project.scope),
        ("OWNER", f"{job.project.owner}, {job.project.owner_phone}"),
        ("ADDRESS", job.project.address),
        ("PARCEL", job.project.parcel),
        ("CONTRACTOR", f"{contractor.name}, license {contractor.license}"),
        ("CONTACT", f"{contractor.address}, {contractor.phone}"),
        ("UTILITY", job.utility),
    ]


def _codes(context: SheetContext) -> Rows:
    jurisdiction = context.design.inputs.jurisdiction
    codes = jurisdiction.codes
    listed = (
        ("RESIDENTIAL", codes.residential),
        ("BUILDING", codes.building),
        ("FIRE", codes.fire),
        ("ELECTRICAL", codes.electrical),
        ("LOADS", codes.loads),
        ("WOOD", codes.wood),
        ("EXISTING", codes.existing),
    )
    rows = [("JURISDICTION", f"{jurisdiction.name}, {jurisdiction.department}")]
    rows += [(name, f"{code.code_edition} ({code.source})") for name, code in listed if code]
    return rows


def _site(context: SheetContext) -> Rows:
    job = context.design.inputs.job
    site, building, roof = job.site, job.building, job.roof
    sprinklers = "sprinklered" if building.sprinklered else "not sprinklered"
    return [
        (
            "WIND",
            f"{site.wind_speed:g} mph, exposure {site.exposure}, Kzt {site.topographic_factor:g}",
        ),
        ("SNOW", f"{site.ground_snow:g} psf on the ground"),
        (
            "AMBIENT",
            f"{format_temperature(site.lowest_ambient)} lowest, "
            f"{format_temperature(site.high_ambient)} high",
        ),
        ("BUILDING", f"{building.occupancy}, type {building.construction_type}, {sprinklers}"),
        ("RISK CAT.", building.risk_category),
        ("ROOF", f"{_shape(context)}, {roof.covering.material}, {_layers(roof.layers)}"),
        ("FRAMING", _framing(job.framing)),
    ]


def _dc_system(context: SheetContext) -> Rows:
    """From the modules to the inverter."""
    design = context.design
    electrical = design.electrical
    rows = [*_modules(design), *_circuits(electrical)]
    limits = {tag: limit for tag, limit, _ in electrical.voltage_limits}
    coldest = [(s.cold_voc_v, limits[s.inverter]) for s in electrical.strings]
    coldest += [(b.cold_voc_v, limits[b.id]) for b in electrical.branches]
    volts, limit = max(coldest, key=lambda pair: pair[0] / pair[1])
    rows.append(("HIGHEST VOC", f"{volts:.1f} V, limit {limit:g} V"))
    rows.append(("SHUTDOWN", electrical.shutdown.name or "none stated"))
    rows.append(("DC POWER", f"{electrical.dc_kw:.3f} kW DC"))
    return rows


def _circuits(electrical: ElectricalDesign) -> Rows:
    """Modules of every string and branch."""
    strings = ", ".join(f"{s.id}: {len(s.modules)}" for s in electrical.strings)
    branches = ", ".join(f"{b.id}: {len(b.modules)}" for b in electrical.branches)
    rows = (("STRINGS", strings), ("BRANCHES", branches))
    return [(name, words) for name, words in rows if words]


def _ac_system(context: SheetContext) -> Rows:
    """From the inverter to the service."""
    electrical = context.design.electrical
    given = context.design.inputs.job.electrical
    service, derate = given.service, electrical.derate
    main_a = derate.new_a if derate else service.main
    new = f", new in place of {derate.old_a:g} A" if derate else ""
    return [
        *(("INVERTER", words) for words in _inverters(context.design)),
        ("AC POWER", f"{electrical.ac_kw:.2f} kW AC"),
        ("OUTPUT", f"{electrical.source_a:.2f} A at {service.voltage:g} V"),
        ("CONNECTION", _connection(context.design)),
        ("SERVICE", f"{main_a:g} A main{new}, {service.bus:g} A bus, existing"),
        ("STORAGE", _storage(context.design)),
    ]


def _inverters(design: Design) -> list[str]:
    """Each kind of inverter and microinverter with its number."""
    inputs = design.inputs
    counts: Counter[str] = Counter()
    for placed in inputs.job.electrical.inverters:
        inverter = inputs.inverters[placed.model]
        counts[f"{inverter.maker} {inverter.model}"] += 1
    for branch in design.electrical.branches:
        unit = inputs.microinverters[branch.inverter]
        counts[f"{unit.maker} {unit.model}"] += branch.units
    return [f"{count} x {name}" for name, count in counts.items()]


def _connection(design: Design) -> str:
    """The device at the point of connection, and where that is."""
    method = design.inputs.job.electrical.interconnection.method
    where = {
        "load_side_breaker": "breaker, load side",
        "subpanel_breaker": "breaker in a subpanel, load side",
        "supply_side_tap": "fuse, supply-side tap",
    }[method]
    (connection,) = design.electrical.topology.segments_of("connection")
    tag = connection.start if method == "supply_side_tap" else connection.end
    rating = next((d.rating_a for d in design.electrical.devices if d.tag == tag), None)
    return "supply-side tap without a fuse" if rating is None else f"{rating:g} A {where}"


def _storage(design: Design) -> str:
    """The batteries, in words."""
    storage, battery = design.inputs.job.electrical.storage, design.inputs.battery
    if storage is None or battery is None:
        return "none"
    return (
        f"{storage.count} x {battery.maker} {battery.model}, "
        f"{storage.count * battery.energy_kwh:g} kWh"
    )


def _shape(context: SheetContext) -> str:
    """The roof in a few words: "gable 5:12", "hip 6:12 and 4:12"."""
    pitches = dict.fromkeys(format_pitch(plane.pitch) for plane in context.design.roof.planes)
    shape = context.design.inputs.job.roof.shape
    return f"{'' if shape == 'planes' else shape} {' and '.join(pitches)}".strip()


def _layers(count: int) -> str:
    return f"{count} layer{'' if count == 1 else 's'}"


def _framing(framing: Framing | None) -> str:
    if framing is None:
        return "by others"
    return (
        f"{framing.member} {framing.members} at {format_feet_inches(framing.spacing)}, "
        f"{framing.species} {framing.grade}"
    )


def _modules(design: Design) -> Rows:
    """Each kind of module with its number."""
    counts: Counter[Module] = Counter()
    for array in design.arrays:
        counts[array.product] += len(array.modules)
    return [
        ("MODULES", f"{count} x {product.maker} {product.model}, {product.power_w:g} W")
        for product, count in counts.items()
    ]


def _mounting(design: Design) -> Rows:
    """Each mounting system, and its attachments; what is by others."""
    rows: Rows = []
    systems = dict.fromkeys(array.system.model for array in design.mounted)
    for model in systems:
        pairs = zip(design.mounted, design.racking, strict=True)
        of_model = [(array, rack) for array, rack in pairs if array.system.model == model]
        system = of_model[0][0].system
        count = sum(len(rack.attachments) for _, rack in of_model)
        rows.append(("SYSTEM", f"{system.maker} {model}"))
        rows.append(("ATTACHMENTS", f"{count} x {system.attachment.name}"))
    others = [array.id for array in design.arrays if array.mounting is None]
    if others:
        rows.append(("BY OTHERS", ", ".join(others)))
    return rows


def revisions(context: SheetContext) -> list[tuple[str, str, str]]:
    """Each revision, the newest first: number, date, and what changed on which sheets."""
    inputs = context.design.inputs
    rows = []
    for one in reversed(inputs.job.revisions):
        changed = sheets_changed(inputs, one.number)
        listed = [entry.id for entry in context.index]  # their order; others are data sheets
        order = {sheet: listed.index(sheet) for sheet in changed if sheet in listed}
        sheets = ", ".join(sorted(changed, key=lambda sheet: order.get(sheet, len(listed))))
        what = f"{one.description}\nSheets: {sheets}" if sheets else one.description
        rows.append((str(one.number), one.date.isoformat(), what))
    return rows


def alternates(context: SheetContext) -> Rows:
    """Each approved alternate by its rule: what was approved, by whom, when and where."""
    titles = {rule.id: rule.title for rule in RULES}
    return [
        (
            titles.get(one.rule, one.rule).upper(),
            f"{one.text} ({one.approver}, {one.date.isoformat()}, {one.reference})",
        )
        for one in context.design.inputs.job.alternates
    ]


def sections(context: SheetContext) -> tuple[Section, ...]:
    """Notes of the cover, what a reader must not miss first."""
    underfoot = _UNDERFOOT[context.design.inputs.job.roof.covering.kind]
    attached = (_ATTACHED,) if context.design.fastenings else ()
    cautions = (f"{_FALLS}; {underfoot}.", *_LIVE, *attached, _GOVERN)
    made = [Section("CAUTIONS", cautions)]
    made += _findings(context, "OPEN: NOT YET COMPUTED OR DOCUMENTED", Outcome.OPEN)
    made += _findings(context, "PUT TO THE BUILDING DEPARTMENT", Outcome.ASK)
    made += _findings(context, "DOES NOT MEET THE CODE AS DRAWN", Outcome.FAIL)
    made += _findings(context, "BUILT BY AN APPROVED ALTERNATE", Outcome.ALTERNATE)
    elsewhere = any(entry.id == _LOAD_TABLES for entry in context.index)
    assumed = tuple(
        f"{item.text} ({item.basis})"
        for item in context.design.assumptions
        if not (elsewhere and item.structural)
    )
    if elsewhere:
        where = [page.sheet for page in context.others if _lists_assumptions(page)]
        words = ", ".join(where) or _LOAD_TABLES
        assumed = (*assumed, f"What loads and framing rest on is listed on {words}.")
    made.append(Section("ASSUMPTIONS", (*assumed, *_remembered_labels(context))))
    made.append(Section("GENERAL NOTES", _NOTES))
    return tuple(made)


def _lists_assumptions(page: SheetContents) -> bool:
    titles = {line.removesuffix(CONTINUED) for line in page.words.splitlines()}
    return base_id(page.sheet) == _LOAD_TABLES and ASSUMPTIONS in titles


def _remembered_labels(context: SheetContext) -> tuple[str, ...]:
    """Labels whose words or clause were not read in a copy of the code."""
    design = context.design
    keys = [placed.key for placed in design.electrical.labels if placed.label.from_memory]
    if not keys:
        return ()
    code = design.inputs.jurisdiction.codes.electrical.code_edition
    return (
        f"Words or clause of {', '.join(keys)} are those of {code} as remembered; they are held "
        "against the book before the labels are made. (from memory)",
    )


def _findings(context: SheetContext, heading: str, outcome: Outcome) -> list[Section]:
    found = [finding for finding in context.findings if finding.outcome is outcome]
    if not found:
        return []
    return [Section(heading, tuple(dict.fromkeys(_sentence(finding) for finding in found)))]


def _sentence(finding: Finding) -> str:
    return f"{finding.message} [{finding.citation}]"


_LOAD_TABLES = "S-601"
_FALLS = (
    "Falls kill. Work on the roof only with fall protection, a secured ladder and a dry surface"
)
_UNDERFOOT = {
    "curved_tile": "curved tile breaks and slides underfoot",
    "asphalt_shingle": "loose granules and warm shingles slide underfoot",
    "standing_seam": "metal panels are slick, wet or dry, and hot in the sun",
    "membrane": "skylights, hatches and edges are openings to fall through or over",
}

_LIVE = (
    "Modules are live in daylight and can't be switched off. Treat every conductor as energized "
    "until tested; array conductors stay energized on the array side of an open disconnect.",
    "Loose terminals and damaged connectors start fires. Tighten to the marked torque and mate "
    "only connectors of one make and type.",
)
_ATTACHED = (
    "An attachment that misses its rafter, or a split rafter, holds nothing. Stop and tell the "
    "designer."
)
_GOVERN = (
    "The local code, the building department and licensed professionals govern over these "
    "drawings. Calculations are not valid until reviewed, and sealed where required."
)

_NOTES = (
    "Do not scale the drawings; written dimensions govern. Verify all dimensions on site before "
    "drilling.",
    "Dimensions marked ON SLOPE are measured on the roof surface; the roof plan gives the slope "
    "factor of each plane. There those marked CLEAR run to the nearest rail, attachment or "
    "obstruction.",
    "Equipment is listed and is installed by its maker's instructions.",
    "(E) marks existing equipment, as surveyed.",
)
