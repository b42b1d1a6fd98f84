"""Tables of the crew sheet: kits of rails, strings, rows of modules, clips, lugs, home runs."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from planset.design.design import Design
from planset.design.electrical.boxes import box_of_circuits
from planset.design.electrical.lugs import lugs
from planset.design.electrical.wire_clips import clip_spacing_in, clips_per_module, wire_clips
from planset.design.layout import PlacedArray, PlacedModule
from planset.design.mounted import Mounted
from planset.design.part_places import COMBINED, END_CLAMP, FOOT, MID_CLAMP, part_counts, parts_of
from planset.design.racking import Rail
from planset.design.rail_pieces import RailPiece
from planset.drawing.geometry import Point
from planset.drawing.stack import TableAt
from planset.drawing.table import Table
from planset.sheets.crew_lines import string_lines
from planset.sheets.note_table import note_table
from planset.sheets.rail_schedules import columns_of, length
from planset.sheets.tag_lists import from_to, in_order, listed_tags
from planset.sheets.tape_marks import eave_of, whole_eave

_MARKED = {FOOT: "FEET", COMBINED: "COMBINED FEET"}
"""Parts that a kit is marked for; clamps go where the modules lie."""

_NOISE_IN = 1e-6

_LONGEST_MARKS = 240
"""Characters of marks that one row takes."""

_MOST_IN_ROW = 8
"""Marks in one row of a long kit."""

_LONGEST_TAGS = 40
"""Characters of tags that one row takes, so that it fits under a heading on any page."""


def kit_tables(mounted: Sequence[Mounted]) -> list[TableAt]:
    """What is built on the ground, and how it is lined up on the roof, array by array."""
    return [
        table
        for one in mounted
        for table in (partial(_kits, one), partial(_strings, one), partial(_rows, one.array, one))
    ]


def wiring_tables(design: Design, mounted: Sequence[Mounted]) -> list[TableAt]:
    """Wire clips and grounding lugs of some arrays."""
    return [
        partial(clips_table, design, [one.array for one in mounted]),
        *(partial(_lugs, design, one) for one in mounted),
    ]


def row_tables(arrays: Sequence[PlacedArray]) -> list[TableAt]:
    """Rows of modules of arrays that others mount."""
    return [partial(_rows, array, None) for array in arrays]


def _kits(one: Mounted, at: Point, width: float) -> Table:
    """A line for rails that are alike; all marks from the end that is set first."""
    alike: dict[tuple[str, str], list[str]] = {}
    for rail in one.racking.rails:
        alike.setdefault((_cut(one, rail), _marks(one, rail)), []).append(rail.id)
    rows = [
        row
        for (cut, marks), rails in alike.items()
        for some in _a_row_each(rails)
        for row in _kit_rows(f"{listed_tags(some)}\n({len(some)})", cut, marks)
    ]
    up = all(rail.up for rail in one.racking.rails)
    end = "LOWER END" if up else "LEFT END"
    titles = ("KIT", "CUT AND SPLICE", f"MARKS FROM THE {end}")
    columns = columns_of(titles, (0.7, 1.35, 1.9), width)
    return note_table(f"RAIL KITS, ARRAY {one.id}", columns, rows, at)


def _kit_rows(rails: str, cut: str, marks: str) -> list[tuple[str, str, str]]:
    """A kit on one row; the marks of a long rail go on in rows below it."""
    if len(marks) <= _LONGEST_MARKS:
        return [(rails, cut, marks)]
    parts = []
    for line in marks.split("\n"):
        items = line.split(", ")
        places = range(0, len(items), _MOST_IN_ROW)
        parts += [", ".join(items[n : n + _MOST_IN_ROW]) for n in places]
    return [(rails, cut, parts[0]), *(("", "", part) for part in parts[1:])]


def _a_row_each(tags: list[str]) -> list[list[str]]:
    """Tags in parts that a row holds, however short the page."""
    parts: list[list[str]] = []
    for tag in tags:
        if parts and len(listed_tags([*parts[-1], tag])) <= _LONGEST_TAGS:
            parts[-1].append(tag)
        else:
            parts.append([tag])
    return parts


def _cut(one: Mounted, rail: Rail) -> str:
    """Pieces of a rail from its first end, its splices, and what the last piece stands on."""
    pieces = [piece for piece in one.rails.pieces if piece.rail == rail.id]
    splices = [splice for splice in one.rails.splices if splice.rail == rail.id]
    tags = [piece.id.removeprefix(rail.id) for piece in pieces]
    words = [
        f"{tag} {length(piece.length_in)}".strip() for tag, piece in zip(tags, pieces, strict=True)
    ]
    for splice in splices:
        what = "GAP" if splice.expansion else "SPLICE"
        words.append(f"{what} AT {length(splice.along_in - rail.start_in)}")
    if rail.id in one.rails.unspliced:
        words.append("LONGER THAN STOCK, NO PLACE FOR A SPLICE")
    if splices:
        words.append(_last(one, rail, pieces[-1]))
    return "\n".join(words)


def _last(one: Mounted, rail: Rail, piece: RailPiece) -> str:
    """What carries the last piece of a rail past its splice."""
    held = [
        item.id
        for item in one.racking.by_rail[rail.id]
        if piece.start_in - _NOISE_IN <= item.along_in <= piece.end_in + _NOISE_IN
    ]
    letter = piece.id.removeprefix(rail.id)
    if not held:
        return f"{letter} HANGS ON THE SPLICE"
    many = f"{len(held)} ATTACHMENTS" if len(held) > 1 else "ATTACHMENT"
    return f"{letter} STANDS ON THE LAST {many}"


def _marks(one: Mounted, rail: Rail) -> str:
    """Attachments, then feet, along a rail from its first end."""
    held = [length(item.along_in - rail.start_in) for item in one.racking.by_rail[rail.id]]
    words = [f"ATTACHMENTS ({len(held)}): {', '.join(held)}"]
    parts = [place for place in parts_of(one) if place.rail == rail.id]
    for kind, name in _MARKED.items():
        places = sorted(
            (place.v_in if rail.up else place.u_in) - rail.start_in
            for place in parts
            if place.kind == kind
        )
        if places:
            words.append(f"{name} ({len(places)}): {', '.join(map(length, places))}")
    clamps = [(kind, sum(place.kind == kind for place in parts)) for kind in (MID_CLAMP, END_CLAMP)]
    counted = [f"{count} {kind.partition('_')[0].upper()}" for kind, count in clamps if count]
    if counted:
        words.append(f"CLAMPS: {', '.join(counted)}")
    return "\n".join(words)


def _strings(one: Mounted, at: Point, width: float) -> Table:
    """Which rails are set first, and which are brought to the string between them."""
    datum = eave_of(one).left_in
    rows = []
    for string in string_lines(one):
        (u, v), (_, other) = string.a, string.b
        where = f"UP {length(v)}" if abs(other - v) < _NOISE_IN else f"ALONG {length(u - datum)}"
        brought = listed_tags(string.brought) if string.brought else "-"
        rows.append((f"{string.first}, {string.last}", where, brought))
    columns = columns_of(("SET FIRST", "STRING AT", "BROUGHT TO IT"), (1.0, 1.35, 1.6), width)
    return note_table(
        f"STRING LINES, ARRAY {one.id}", columns, rows or [("-", "NO TWO RAILS", "-")], at
    )


def _rows(array: PlacedArray, one: Mounted | None, at: Point, width: float) -> Table:
    """Where every row of modules lies, frame edges from the datum."""
    datum = (eave_of(one) if one else whole_eave(array.plane)).left_in
    by_row: dict[int, list[PlacedModule]] = {}
    for module in array.modules:
        by_row.setdefault(module.row, []).append(module)
    rows = [
        (
            str(number),
            length(row[0].surface.y0),
            length(row[0].surface.x0 - datum),
            length(row[-1].surface.x1 - datum),
            from_to([module.id for module in row]),
        )
        for number, row in sorted(by_row.items())
    ]
    gaps = (length(array.given.up_gap), length(array.given.gap), "", "")
    rows += [("TOP", length(array.frames.y1), "", "", ""), ("GAP", *gaps)]
    titles = ("ROW", "FRAME EDGE UP", "LEFT END ALONG", "RIGHT END ALONG", "MODULES")
    columns = columns_of(titles, (0.45, 0.9, 0.9, 0.9, 0.8), width)
    return note_table(f"MODULE ROWS, ARRAY {array.id}", columns, rows, at)


def clips_table(design: Design, arrays: Sequence[PlacedArray], at: Point, width: float) -> Table:
    """Clips on module frames, and along the ways to the boxes."""
    rows = []
    for array in arrays:
        mine = [place for place in wire_clips(design) if place.array == array.id]
        each, apart = clips_per_module(design, array), clip_spacing_in(design, array)
        on_edge = each * len(array.modules)
        upright = sum(1 for place in mine if place.module) - on_edge
        first = length((apart - array.given.gap) / 2)
        rows.append((array.id, "LOWER EDGE", f"{each} PER MODULE", first, length(apart), on_edge))
        if upright:
            rows.append((array.id, "RIGHT EDGE", "AS DRAWN", "", "", upright))
        ways = len(mine) - on_edge - upright
        spacing = f"{length(design.inputs.job.electrical.wire_clips.spacing)} OR LESS"
        rows.append((array.id, "TO THE BOX", "AS DRAWN", "", spacing, ways))
        rows.append((array.id, "ALL", "", "", "", len(mine)))
    cells = [tuple(map(str, row)) for row in rows]
    titles = ("ARRAY", "WHERE", "HOW MANY", "FIRST FROM LEFT", "THEN EVERY", "CLIPS")
    columns = columns_of(titles, (0.5, 0.8, 0.85, 0.75, 0.75, 0.5), width)
    return note_table("WIRE CLIPS", columns, cells, at)


def _lugs(design: Design, one: Mounted, at: Point, width: float) -> Table:
    """Where grounding lugs sit, a line for those that sit alike."""
    rails = {rail.id: rail for rail in one.racking.rails}
    alike: dict[tuple[str, str], list[str]] = {}
    for lug in lugs(design):
        if lug.array != one.id:
            continue
        along = lug.along_in - rails[lug.rail].start_in if lug.rail else 0.0
        alike.setdefault((length(along), str(len(lug.modules))), []).append(lug.rail or "-")
    rows = [
        (listed_tags(some), along, count)
        for (along, count), tags in alike.items()
        for some in _a_row_each(tags)
    ]
    up = all(rail.up for rail in rails.values())
    end = "LOWER" if up else "LEFT"
    columns = columns_of(("RAIL", f"FROM ITS {end} END", "MODULES"), (1.6, 1.4, 0.95), width)
    count = sum(len(tags) for tags in alike.values())
    return note_table(f"GROUNDING LUGS, ARRAY {one.id} ({count})", columns, rows, at)


def count_table(mounted: Sequence[Mounted], at: Point, width: float) -> Table:
    """What must be there before modules cover it, a box for what was counted."""
    rows = []
    for one in mounted:
        rows.append((one.id, "RAILS", str(len(one.racking.rails)), ""))
        attachment = one.array.system.attachment.name.upper()
        rows.append((one.id, attachment, str(len(one.racking.attachments)), ""))
        rows += [
            (one.id, part.upper(), str(count), "") for (_, part), count in part_counts(one).items()
        ]
    titles = ("ARRAY", "PART", "ON PLAN", "COUNTED")
    columns = columns_of(titles, (0.6, 1.75, 0.75, 0.85), width)
    return note_table("COUNT BEFORE MODULES COVER THEM", columns, rows, at)


def home_runs(design: Design, at: Point, width: float) -> Table:
    """Which modules make a string or a branch in their order, its box, and where it goes on."""
    reached = box_of_circuits(design.inputs.job.electrical)
    rows = [
        (s.id, _modules(s.modules), reached[s.id], f"{s.inverter}, INPUT {s.input}")
        for s in design.electrical.strings
    ]
    rows += [
        (b.id, _modules(b.modules), reached[b.id], f"{b.breaker_a:g} A")
        for b in design.electrical.branches
    ]
    titles = ("CIRCUIT", "MODULES IN ORDER", "BOX", "TO")
    columns = columns_of(titles, (0.7, 1.75, 0.55, 0.95), width)
    return note_table("HOME RUNS TO THE JUNCTION BOXES", columns, rows, at)


def _modules(tags: Sequence[str]) -> str:
    return f"{len(tags)}: {in_order(tags)}"
