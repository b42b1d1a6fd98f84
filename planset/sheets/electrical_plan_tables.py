"""Tables and notes of the electrical plan."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import partial
from itertools import groupby

from planset.codes.nec import wiring
from planset.design.design import Design
from planset.design.electrical.boxes import BOX_ASSUMED, box_of_circuits, placed_boxes
from planset.design.electrical.leads import LEADS_LEAVE, Hop, hops
from planset.design.electrical.lugs import lugs
from planset.design.electrical.module_devices import modules_with_device
from planset.design.electrical.routes import roof_routes, run_words
from planset.design.electrical.runs import place_length_ft, run_length_ft
from planset.design.electrical.topology import Equipment, Segment
from planset.design.electrical.trunk import pitches_along
from planset.design.electrical.wall import WorkingSpace, working_spaces
from planset.design.electrical.wire_clips import clip_count
from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Area, Circle, Line, Polyline, Primitive
from planset.drawing.stack import TableAt
from planset.drawing.table import Column, Table
from planset.job.electrical.wiring import Place, RoofPlace, StatedRun
from planset.sheets.array_layers import MODULES_LIGHT
from planset.sheets.attachment_legend import sample
from planset.sheets.circuit_ends import breaker_words
from planset.sheets.context import SheetContext
from planset.sheets.electrical_plan_wall_place import ground_of
from planset.sheets.legend import Draw, legend, line, outline
from planset.sheets.note_table import note_table
from planset.sheets.tag_lists import in_order, listed_tags
from planset.sheets.wiring_blocks import CLIP_LAYER, LUG_LAYER, clip_symbol, lug_symbol
from planset.sheets.words import inches
from planset.units import format_feet_inches

_INCHES_PER_FOOT = 12.0
_RACEWAYS = {
    "none": "FREE AIR",
    "emt": "EMT",
    "rmc": "RMC",
    "pvc40": "PVC 40",
    "pvc80": "PVC 80",
    "fmc": "FMC",
}


def tables(
    context: SheetContext, unnamed: Sequence[str], undrawn: Sequence[str], walls_on: str
) -> list[TableAt]:
    """Tables beside the views, those first that explain the plan.

    Args:
        context: What the sheet is given.
        unnamed: What the views had no room to name.
        undrawn: Legs of raceways they had no room to dimension.
        walls_on: Sheet that walls stand on, "" where it is the legend's own.
    """
    made: list[TableAt] = [
        partial(legend, _swatches(context.design, walls_on)),
        partial(_circuits, context.design),
    ]
    if undrawn:
        rows = [(words,) for words in undrawn]
        made.append(partial(_listed, "DIMENSIONS NOT DRAWN", rows))
    if unnamed:
        made.append(partial(_listed, "NOT NAMED ON THE VIEWS", [(words,) for words in unnamed]))
    made += [partial(_raceways, context.design), partial(_equipment, context.design)]
    return made


def _listed(title: str, rows: Sequence[tuple[str, ...]], at: Point, width: float) -> Table:
    return note_table(title, (Column("", width),), rows, at)


def _circuits(design: Design, at: Point, width: float) -> Table:
    """Strings or branches: modules in their order, where they go."""
    reached = box_of_circuits(design.inputs.job.electrical)
    rows = []
    array_of = {module.id: array.id for array in design.arrays for module in array.modules}
    for string in design.electrical.strings:
        to = f"{reached[string.id]}, {string.inverter} INPUT {string.input}"
        rows.append((string.id, _modules(string.modules, array_of), to))
    for branch in design.electrical.branches:
        to = f"{reached[branch.id]}, {breaker_words(design, branch)}"
        rows.append((branch.id, _modules(branch.modules, array_of), to))
    title = "STRINGS, IN ORDER" if design.electrical.strings else "BRANCHES, IN ORDER"
    columns = (
        Column("ID", 0.45, "center"),
        Column("MODULES", (width - 0.45) * 0.58),
        Column("TO", (width - 0.45) * 0.42),
    )
    return note_table(title, columns, rows, at)


def _modules(tags: tuple[str, ...], array_of: dict[str, str]) -> str:
    arrays = ", ".join(dict.fromkeys(array_of[tag] for tag in tags))
    return f"{len(tags)} OF {arrays}: {in_order(tags)}"


def _raceways(design: Design, at: Point, width: float) -> Table:
    """Every run with its places and their lengths, which the voltage drop is computed with."""
    rows = []
    for stated in design.inputs.job.electrical.wiring.runs:
        run = stated.run
        ways = _ways(
            segment
            for segment in design.electrical.topology.segments
            if segment.run == stated.name and stated.box in ("", segment.box)
        )
        places = [_place(design, stated, n, place) for n, place in enumerate(run.places)]
        name = run_words(stated.name, stated.box).upper()
        words = [f"{name}, {_RACEWAYS[run.raceway]}", *ways, *places]
        rows.append(("\n".join(words), _feet(run_length_ft(run))))
    for one in design.electrical.topology.controls:
        kind = _RACEWAYS[one.fill.raceway.kind]
        words_of_it = f"CONTROL {one.tag}, {kind}\n{one.start} TO {one.end}"
        rows.append((words_of_it, _feet(one.length_ft)))
    columns = (Column("RUN, FROM AND TO, PLACES", width - 0.7), Column("LENGTH", 0.7, "center"))
    return note_table("RACEWAYS, CONDUCTORS", columns, rows, at)


def _ways(segments: Iterable[Segment]) -> list[str]:
    """From where to where, those that lead to the same end together."""
    starts: dict[str, list[str]] = {}
    for segment in segments:
        starts.setdefault(segment.end, []).append(segment.start)
    return [f"{_tags(found)} TO {end}" for end, found in starts.items()]


def _tags(tags: list[str]) -> str:
    """Tags in few words; those that have a dash themselves are not drawn together."""
    return ", ".join(tags) if any("-" in tag for tag in tags) else listed_tags(tags)


def _place(design: Design, stated: StatedRun, number: int, place: Place) -> str:
    words = "UNDER THE ARRAY" if place.place == "array" else place.place.upper()
    if isinstance(place, RoofPlace) and place.route:
        route = next(
            r
            for r in roof_routes(design.inputs, design.roof)
            if (r.run, r.box, r.place) == (stated.name, stated.box, number)
        )
        legs = " + ".join(format_feet_inches(leg, denominator=2) for leg in route.legs_in)
        return f"ROOF, {route.plane.id.upper()}: {legs} ON SLOPE"
    return f"{words}: {_feet(place_length_ft(place))}"


def _feet(length_ft: float) -> str:
    return format_feet_inches(length_ft * _INCHES_PER_FOOT, denominator=1)


def _equipment(design: Design, at: Point, width: float) -> Table:
    """What there is and where it stands; what is part of a panel stands under the panel's tag."""
    topology = design.electrical.topology
    boxes = {box.id: box for box in placed_boxes(design)}
    rows = [
        (
            box.id,
            f"JUNCTION BOX, ROOF, ARRAY {box.array}: {format_feet_inches(box.at[0])} ALONG THE "
            f"EAVE FROM ITS LEFT END, {format_feet_inches(box.at[1])} UP THE SLOPE",
        )
        for box in boxes.values()
    ]
    rows += [
        (item.tag, f"{_what(item)}, {item.location.upper()}")
        for item in topology.equipment
        if item.location and not item.panel and item.tag not in boxes
    ]
    rows += [
        (panel.tag, f"{_existing(panel.existing)}{panel.name}, {panel.location.upper()}")
        for panel in topology.panels
        if panel.tag not in boxes
    ]
    rows += [
        (item.tag, f"{item.name.upper()}, {(item.location or f'in {item.panel}').upper()}")
        for item in topology.beside
    ]
    columns = (Column("TAG", 0.72, "center"), Column("WHAT AND WHERE", width - 0.72))
    return note_table("EQUIPMENT", columns, rows, at)


def _existing(existing: bool) -> str:
    return "(E) " if existing else ""


def _what(item: Equipment) -> str:
    kind, name = item.kind.value.upper(), item.name
    if not name:
        name = kind
    elif kind not in name.upper():
        name = f"{kind}, {name}"
    return f"{_existing(item.existing)}{name}"


def spaces_table(design: Design, at: Point, width: float) -> Table:
    """Working space of each piece, wall by wall."""
    rows = []
    for wall in design.inputs.job.electrical.walls:
        rows.append(("WALL", f"{wall.name.upper()}, CONDITION {wall.condition}"))
        spaces = working_spaces(design, wall)
        rows += [(space.item.tag, _space_words(space, ground_of(wall))) for space in spaces]
    columns = (Column("TAG", 0.72, "center"), Column("NEC 110.26(A)", width - 0.72))
    return note_table("WORKING SPACES", columns, rows, at)


def _space_words(space: WorkingSpace, ground: str) -> str:
    item = space.item
    return (
        f"{space.volts:.0f} V TO GROUND: {inches(space.width)} WIDE, {inches(space.depth)} DEEP OF "
        f"{inches(space.free)} FREE, {inches(space.height)} HIGH; {format_feet_inches(item.left)} "
        f"FROM THE LEFT END OF THE WALL, {format_feet_inches(item.bottom)} ABOVE "
        f"{ground}"
    )


def notes(context: SheetContext) -> list[str]:
    """Cautions, then what is assumed and counted."""
    design = context.design
    adopted = design.inputs.jurisdiction.codes.electrical
    framing = "rafters" if design.rafters else "framing"
    return [
        "SHOCK: modules make voltage whenever light falls on them; cover them or open the "
        "connectors before work on array conductors, and test before touching.",
        "A licensed electrician connects the system and opens the service equipment; the utility "
        "is asked before the meter is pulled or a service conductor is cut.",
        f"Locate {framing} before making holes for boxes and straps; seal every penetration with "
        "a listed flashing, and every raceway that enters a building or a box from above.",
        "Check the polarity of each string before it is connected; + and - mark the modules at "
        "which its conductors leave."
        if design.electrical.strings
        else "Close the free end of each branch with the cap of its trunk cable.",
        *_leads(design),
        *_trunks_to_boxes(design),
        *_clips(design, adopted.edition),
        *_lugs(design),
        f"{LEADS_LEAVE} {BOX_ASSUMED}",
        "Raceways on the roof: lengths on the slope, as the voltage drop takes them; LENGTH is to "
        "the nearest inch.",
    ]


def _leads(design: Design) -> list[str]:
    """The longest step, and what bridges it, for each thing that joins modules."""
    made = []
    ordered = sorted(hops(design), key=lambda hop: (hop.by, -hop.distance_in))
    for by, group in groupby(ordered, key=lambda hop: hop.by):
        worst = next(group)
        reach = "not stated" if worst.reach_in is None else inches(worst.reach_in)
        reaches = "has a connector every" if worst.trunk else "reach"
        made.append(
            f"Longest step from module to module: {inches(worst.distance_in)}, from {worst.first} "
            f"to {worst.second}; the {by} {reaches} {reach}{_capped(worst)}."
        )
    return made


def _trunks_to_boxes(design: Design) -> list[str]:
    """How far each trunk cable runs from its first unit to its box, in feet and in pitches."""
    ways = []
    for branch in design.electrical.branches:
        pitch = design.inputs.microinverters[branch.inverter].trunk.pitch
        ways.append(
            f"{branch.id} {branch.to_box_in / 12.0:.1f} ft to {branch.junction_box}, "
            f"{pitches_along(branch.to_box_in, pitch)} x {inches(pitch)}"
        )
    if not ways:
        return []
    return [f"Trunk cable from the first unit to its box, counted in its pitch: {'; '.join(ways)}."]


def _capped(hop: Hop) -> str:
    """What is done with connectors of a trunk cable that a long step leaves free."""
    if not hop.trunk or hop.reach_in is None or hop.distance_in <= hop.reach_in:
        return ""
    return ", those that a longer step leaves free under listed caps"


def _clips(design: Design, edition: int) -> list[str]:
    clips, count = design.inputs.job.electrical.wire_clips, clip_count(design)
    words = (
        f"Wire clips: {clips.per_module} or more on each module, no more than "
        f"{inches(clips.spacing)} apart; {count.total} in all, {count.at_modules} on frames and "
        f"{count.at_home_runs} along conductors to the boxes."
    )
    try:
        limit = wiring.longest_support_in(edition)
    except ValueError:
        limit = None
    if limit is not None:
        words += f" NEC {edition} 690.31(C)(1) allows {inches(limit)}."
    return [words]


def _lugs(design: Design) -> list[str]:
    placed = lugs(design)
    if not placed:
        return []
    return [
        f"Grounding lugs: {len(placed)}, one for each section bonded without jumpers, near its end "
        "toward the box."
    ]


def _swatches(design: Design, walls_on: str) -> list[tuple[str, Draw]]:
    """What the plan shows that does not say what it is."""
    what = _device_words(design)
    made: list[tuple[str, Draw]] = [
        (f"MODULE ({design.module_count})", outline(MODULES_LIGHT)),
        ("CIRCUIT, MODULE TO MODULE", line("E-SOLR-CIRC")),
        ("HOME RUN TO ITS BOX", line("E-SOLR-HOME")),
    ]
    made += [(words, _device) for words in what]
    if not what:
        made.append(("MODULE OF A CIRCUIT", _point))
    clip = sample(clip_symbol(), CLIP_LAYER)
    made += [(f"WIRE CLIP ({clip_count(design).total})", clip), ("JUNCTION BOX", _box)]
    if roof_routes(design.inputs, design.roof):
        made.append(("RACEWAY ON THE ROOF", line("E-POWR-CNDT")))
    if lugs(design):
        made.append((f"GROUNDING LUG ({len(lugs(design))})", sample(lug_symbol(), LUG_LAYER)))
    if design.access_areas:
        made.append(("FIRE ACCESS, KEPT FREE", line("F-ROOF-ACCS")))
    made.append(("WALL BELOW", line("A-WALL-BELO")))
    if design.inputs.job.electrical.walls:
        where = f", SEE {walls_on}" if walls_on else ""
        made.append((f"WORKING SPACE{where}", line("E-POWR-CLER")))
    return made


def _device_words(design: Design) -> list[str]:
    """Each kind of device under modules with its number."""
    under = list(modules_with_device(design).values())
    return [
        f"{kind.what.upper()} {kind.model} ({under.count(kind)})" for kind in dict.fromkeys(under)
    ]


def _middle(box: Box, half: float) -> Box:
    return Box(*box.center, *box.center).grown(half)


def _device(box: Box) -> list[Primitive]:
    y = box.center[1]
    return [
        Line((box.x0, y), (box.x1, y), "E-SOLR-CIRC"),
        Area(_middle(box, 0.035).corners, "E-SOLR-DEVC"),
    ]


def _point(box: Box) -> list[Primitive]:
    return [Circle(box.center, 0.02, "E-SOLR-CIRC")]


def _box(box: Box) -> list[Primitive]:
    a, b, c, d = _middle(box, 0.05).corners
    layer = "E-POWR-EQPM"
    return [Polyline((a, b, c, d), layer, closed=True), Line(a, c, layer), Line(b, d, layer)]
