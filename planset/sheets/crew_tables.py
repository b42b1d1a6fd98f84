"""Tables of the crew sheet: rails and their kits, string lines, rows of modules, trim, counts."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from planset.design.layout import PlacedArray, PlacedModule
from planset.design.mounted import Mounted
from planset.design.part_places import (
    COMBINED,
    END_CLAMP,
    FOOT,
    MID_CLAMP,
    PartPlace,
    part_counts,
    parts_of,
)
from planset.design.racking import Rail
from planset.design.rail_pieces import RailPiece, SplicePlace
from planset.drawing.geometry import Point
from planset.drawing.stack import TableAt
from planset.drawing.table import Table
from planset.sheets.crew_lines import string_lines
from planset.sheets.note_table import note_table
from planset.sheets.rail_schedules import columns_of, fitted_columns_of, length, rails_table
from planset.sheets.tag_lists import from_to, listed_tags, rows_of_tags
from planset.sheets.tape_marks import eave_of, whole_eave

_MARKED = {FOOT: "FEET", COMBINED: "COMBINED FEET"}
"""Parts that a kit is marked for; clamps go where the modules lie."""

_NOISE_IN = 1e-6

_LONGEST_MARKS = 240
"""Characters of marks that one row takes."""

_MOST_IN_ROW = 8
"""Marks in one row of a long kit."""


def string_tables(mounted: Sequence[Mounted]) -> list[TableAt]:
    """How the rails of each array are lined up."""
    return [partial(_strings, one) for one in mounted]


def kit_tables(mounted: Sequence[Mounted]) -> list[TableAt]:
    """Where rails lie, what is built on the ground, where modules and trim go: array by array."""
    return [
        table
        for one in mounted
        for table in (
            partial(rails_table, one),
            partial(_kits, one),
            partial(_rows, one.array, one),
            *([partial(_trim, one)] if one.holding.trim else []),
        )
    ]


def row_tables(arrays: Sequence[PlacedArray]) -> list[TableAt]:
    """Rows of modules of arrays that others mount."""
    return [partial(_rows, array, None) for array in arrays]


def _kits(one: Mounted, at: Point, width: float) -> Table:
    """A line for rails that are alike; all marks from the end that is set first."""
    parts: dict[str, list[PartPlace]] = {}
    for place in parts_of(one):
        parts.setdefault(place.rail, []).append(place)
    alike: dict[tuple[str, str], list[str]] = {}
    for rail in one.racking.rails:
        marks = _marks(one, rail, parts.get(rail.id, ()))
        alike.setdefault((_cut(one, rail), marks), []).append(rail.id)
    rows = [
        row
        for (cut, marks), rails in alike.items()
        for some in rows_of_tags(rails)
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


def _cut(one: Mounted, rail: Rail) -> str:
    """Pieces of a rail from its first end, its splices, and what the last piece stands on."""
    pieces = [piece for piece in one.rails.pieces if piece.rail == rail.id]
    splices = [splice for splice in one.rails.splices if splice.rail == rail.id]
    tags = [piece.id.removeprefix(rail.id) for piece in pieces]
    words = [
        f"{tag} {length(piece.length_in)}".strip() for tag, piece in zip(tags, pieces, strict=True)
    ]
    for splice in splices:
        over = ", OVER AN ATTACHMENT" if _over_attachment(one, splice) else ""
        words.append(f"SPLICE AT {length(splice.along_in - rail.start_in)}{over}")
    if rail.id in one.rails.unspliced:
        words.append("LONGER THAN STOCK, NO PLACE FOR A SPLICE")
    if splices:
        words.append(_last(one, rail, pieces[-1]))
    return "\n".join(words)


def _over_attachment(one: Mounted, splice: SplicePlace) -> bool:
    """Whether a splice covers a place where its rail stands on an attachment."""
    system = one.array.system.rail.splice
    half = system.length / 2 if system else 0.0
    held = one.racking.by_rail[splice.rail]
    return any(abs(item.along_in - splice.along_in) <= half + _NOISE_IN for item in held)


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


def _marks(one: Mounted, rail: Rail, parts: Sequence[PartPlace]) -> str:
    """Attachments, then feet, along a rail from its first end, of the parts on it."""
    held = [length(item.along_in - rail.start_in) for item in one.racking.by_rail[rail.id]]
    words = [f"ATTACHMENTS ({len(held)}): {', '.join(held)}"]
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
    columns = fitted_columns_of(titles, rows, width)
    return note_table(f"MODULE ROWS, ARRAY {array.id}", columns, rows, at)


def _trim(one: Mounted, at: Point, width: float) -> Table:
    """What the trim along front edges is cut to, and where each piece begins."""
    datum = eave_of(one).left_in
    rows = [
        (
            str(piece.number),
            length(piece.u1_in - piece.u0_in),
            length(piece.u0_in - datum),
            length(piece.v_in),
        )
        for piece in one.holding.trim
    ]
    titles = ("PIECE", "CUT TO", "LEFT END ALONG", "FRAME EDGE UP")
    columns = columns_of(titles, (0.6, 1.05, 1.15, 1.15), width)
    return note_table(f"TRIM, ARRAY {one.id}", columns, rows, at)


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
