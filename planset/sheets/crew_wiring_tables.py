"""Tables of the crew sheet for the wiring: clips, lugs, junction boxes, home runs."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from planset.design.design import Design
from planset.design.electrical.boxes import PlacedBox, box_of_circuits, placed_boxes
from planset.design.electrical.joints import passing
from planset.design.electrical.lugs import lugs
from planset.design.electrical.wire_clips import clip_spacing_in, clips_per_module, wire_clips
from planset.design.layout import PlacedArray
from planset.design.mounted import Mounted
from planset.drawing.geometry import Point
from planset.drawing.stack import TableAt
from planset.drawing.table import Table
from planset.sheets.circuit_ends import breaker_words
from planset.sheets.note_table import note_table
from planset.sheets.rail_schedules import columns_of, length
from planset.sheets.tag_lists import in_order, listed_tags, rows_of_tags
from planset.sheets.tape_marks import eave_of, whole_eave

_CROWDED = "LITTLE ROOM"  # beside a lug that other parts leave less than its own width


def wiring_tables(design: Design, mounted: Sequence[Mounted]) -> list[TableAt]:
    """Wire clips and grounding lugs of some arrays."""
    return [
        partial(clips_table, design, [one.array for one in mounted]),
        *(partial(_lugs, design, one) for one in mounted),
    ]


def clips_table(design: Design, arrays: Sequence[PlacedArray], at: Point, width: float) -> Table:
    """Clips on module frames, and along the ways to the boxes."""
    rows = []
    for array in arrays:
        mine = [place for place in wire_clips(design) if place.array == array.id]
        each, apart = clips_per_module(design, array), clip_spacing_in(design, array)
        on_edge = each * len(array.modules)
        upright = sum(1 for place in mine if place.module) - on_edge
        first = length((apart - array.given.gap) / 2)
        rows.append((array.id, "UPPER EDGE", f"{each} PER MODULE", first, length(apart), on_edge))
        if upright:
            rows.append((array.id, "LEFT EDGE", "AS DRAWN", "", "", upright))
        ways = len(mine) - on_edge - upright
        spacing = f"{length(design.inputs.job.electrical.wire_clips.spacing)} OR LESS"
        rows.append((array.id, "TO THE BOX", "INSIDE FRAMES", "", spacing, ways))
        rows.append((array.id, "ALL", "", "", "", len(mine)))
    cells = [tuple(map(str, row)) for row in rows]
    titles = ("ARRAY", "WHERE", "HOW MANY", "FIRST FROM LEFT", "THEN EVERY", "CLIPS")
    columns = columns_of(titles, (0.66, 0.75, 0.82, 0.7, 0.74, 0.53), width)
    return note_table("WIRE CLIPS", columns, cells, at)


def _lugs(design: Design, one: Mounted, at: Point, width: float) -> Table:
    """Where grounding lugs sit, a line for those that sit alike."""
    rails = {rail.id: rail for rail in one.racking.rails}
    alike: dict[tuple[str, str], list[str]] = {}
    for lug in lugs(design):
        if lug.array != one.id:
            continue
        along = lug.along_in - rails[lug.rail].start_in if lug.rail else 0.0
        where = length(along) if lug.clear else f"{length(along)}, {_CROWDED}"
        alike.setdefault((where, str(len(lug.modules))), []).append(lug.rail or "-")
    rows = [
        (listed_tags(some), along, count)
        for (along, count), tags in alike.items()
        for some in rows_of_tags(tags)
    ]
    up = all(rail.up for rail in rails.values())
    end = "LOWER" if up else "LEFT"
    columns = columns_of(("RAIL", f"FROM ITS {end} END", "MODULES"), (1.6, 1.4, 0.95), width)
    count = sum(len(tags) for tags in alike.values())
    return note_table(f"GROUNDING LUGS, ARRAY {one.id} ({count})", columns, rows, at)


def boxes_tables(design: Design, arrays: Sequence[PlacedArray]) -> list[TableAt]:
    """Where the junction boxes of some arrays stand; nothing where they have none."""
    ids = {array.id for array in arrays}
    boxes = [box for box in placed_boxes(design) if box.array in ids]
    return [partial(_boxes, design, boxes)] if boxes else []


def _boxes(design: Design, boxes: Sequence[PlacedBox], at: Point, width: float) -> Table:
    """The middle of each box from the datum of its array, and its circuits."""
    circuits: dict[str, list[str]] = {}
    for circuit, box_id in box_of_circuits(design.inputs.job.electrical).items():
        circuits.setdefault(box_id, []).append(circuit)
    through = passing(design.inputs.job.electrical)
    eaves = {one.id: eave_of(one) for one in design.mounts}
    rows = []
    for box in boxes:
        u, v = box.at
        eave = eaves.get(box.array, whole_eave(box.plane))
        along, up = length(u - eave.left_in), length(v)
        ends = listed_tags(circuits.get(box.id, ["-"]))
        ends += f"; {', '.join(through[box.id])} PASS" if box.id in through else ""
        rows.append((box.id, box.array, along, up, ends))
    titles = ("BOX", "ARRAY", "ALONG", "UP", "CIRCUITS")
    columns = columns_of(titles, (0.55, 0.6, 0.95, 0.85, 1.0), width)
    return note_table("JUNCTION BOXES, MIDDLE FROM DATUM", columns, rows, at)


def home_runs(design: Design, at: Point, width: float) -> Table:
    """Which modules make a string or a branch in their order, its box, and where it goes on."""
    reached = box_of_circuits(design.inputs.job.electrical)
    rows = [
        (s.id, _modules(s.modules), reached[s.id], f"{s.inverter} INPUT {s.input}")
        for s in design.electrical.strings
    ]
    rows += [
        (b.id, _modules(b.modules), reached[b.id], breaker_words(design, b))
        for b in design.electrical.branches
    ]
    titles = ("CIRCUIT", "MODULES IN ORDER", "BOX", "TO")
    columns = columns_of(titles, (0.7, 1.7, 0.45, 1.1), width)
    return note_table("HOME RUNS TO THE JUNCTION BOXES", columns, rows, at)


def _modules(tags: Sequence[str]) -> str:
    return f"{len(tags)}: {in_order(tags)}"
