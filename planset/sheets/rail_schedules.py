"""Schedules of rails: what they stand on, where their attachments are, and what each is made of."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from planset.design.mounted import Mounted
from planset.design.racking import Attachment, Rail
from planset.design.rail_pieces import RailPiece, SplicePlace
from planset.drawing.geometry import Point
from planset.drawing.stack import TableAt
from planset.drawing.table import Column, Table, fitted
from planset.drawing.text import NOTE_HEIGHT
from planset.sheets.attachment_mark import up_heading
from planset.sheets.note_table import note_table
from planset.sheets.racking_blocks import on_seams
from planset.sheets.tag_lists import first_to_last, from_to, listed_tags, ordinal
from planset.sheets.tape_marks import eave_of, tapes_along
from planset.units import format_feet_inches

_ON_ATTACHMENT_IN = 1 / 16  # a splice no farther from an attachment is on it


def length(value_in: float) -> str:
    """A distance as the tapes of the plan print it."""
    return format_feet_inches(value_in, denominator=16)


def columns_of(titles: Sequence[str], shares: Sequence[float], width: float) -> tuple[Column, ...]:
    """Columns whose widths share the whole; their cells are centered [in]."""
    whole = sum(shares)
    return tuple(
        Column(name, width * share / whole, "center")
        for name, share in zip(titles, shares, strict=True)
    )


def fitted_columns_of(
    titles: Sequence[str], rows: Sequence[tuple[str, ...]], width: float
) -> tuple[Column, ...]:
    """Columns as wide as their words ask; their cells are centered [in]."""
    return fitted([Column(name, 0.0, "center") for name in titles], rows, NOTE_HEIGHT, width)


def rail_schedules(plane: Sequence[Mounted]) -> list[TableAt]:
    """The schedules of the arrays of a plane.

    Args:
        plane: All mounted arrays of one plane.
    """
    return [
        *(partial(rails_table, one) for one in plane),
        *heights_tables(plane),
        *(partial(_kits, one) for one in plane),
    ]


def heights_tables(plane: Sequence[Mounted]) -> list[TableAt]:
    """Where attachments stand that no tape tells alone: heights, or marks along the eave.

    Args:
        plane: All mounted arrays of one plane.
    """
    up = [one for one in plane if all(rail.up for rail in one.racking.rails)]
    across = [one for one in plane if one not in up]
    return [
        *([partial(_heights, up)] if up else []),
        *([partial(_marks, across)] if across else []),
    ]


def stands_on(one: Mounted) -> str:
    """What its attachments stand on, as a heading."""
    return "SEAM" if on_seams(one.array) else "RAFTER"


def rails_table(one: Mounted, at: Point, width: float) -> Table:
    """A line per rail, from the left or from the eave."""
    datum = eave_of(one).left_in
    rows = []
    by_rail = one.racking.by_rail
    for rail in one.racking.rails:
        held = by_rail[rail.id]
        rows.append(
            (
                rail.id,
                first_to_last([item.line for item in held]),
                length(rail.line_in - datum if rail.up else rail.line_in),
                length(rail.length_in),
                str(len(held)),
                from_to([item.id for item in held]),
            )
        )
    where = "ALONG" if one.racking.rails and one.racking.rails[0].up else "UP"
    titles = ("RAIL", stands_on(one), where, "LENGTH", "NO.", "TAGS")
    columns = fitted_columns_of(titles, rows, width)
    return note_table(f"RAILS AND ATTACHMENTS, ARRAY {one.id}", columns, rows, at)


def _heights(plane: Sequence[Mounted], at: Point, width: float) -> Table:
    """The heights of attachments on rails up the slope, a line for rails that have the same."""
    rows = []
    for one in plane:
        alike: dict[tuple[str, ...], list[str]] = {}
        for rail, held in one.racking.by_rail.items():
            alike.setdefault(tuple(length(item.v_in) for item in held), []).append(rail)
        for heights, rails in alike.items():
            whole = len(rails) == len(one.racking.rails)
            names = "ALL RAILS" if whole else listed_tags(rails)
            rows.append((one.id, names, ", ".join(heights) or "-"))
    columns = columns_of(("ARRAY", "RAILS", up_heading(plane)), (0.68, 0.95, 2.36), width)
    return note_table("HEIGHTS OF ATTACHMENTS, ON SLOPE", columns, rows, at)


def _marks(plane: Sequence[Mounted], at: Point, width: float) -> Table:
    """Where the lines under rails across the slope cross the eave, and which rails each holds."""
    tape_of = {rail: tape.name for tape in tapes_along(plane) for rail in tape.rails}
    found: dict[tuple[int, str, str], list[str]] = {}
    for one in plane:
        datum = eave_of(one).left_in
        for item in one.racking.attachments:
            key = (item.line, length(item.u_in - datum), tape_of[item.rail])
            found.setdefault(key, []).append(item.rail)
    named = any(tape for *_, tape in found)
    rows = [
        (str(line), along, *((tape,) if named else ()), listed_tags(held))
        for (line, along, tape), held in sorted(found.items())
    ]
    titles = (
        stands_on(plane[0]),
        "ALONG",
        *(("TAPE",) if named else ()),
        f"RAILS; {up_heading(plane)}",
    )
    shares = (0.68, 0.95, *((0.5,) if named else ()), 1.86)
    ids = ", ".join(one.id for one in plane)
    title = f"MARKS ALONG THE EAVE, ARRAY {ids}"
    return note_table(title, columns_of(titles, shares, width), rows, at)


def _kits(one: Mounted, at: Point, width: float) -> Table:
    """What every rail is made of, a line for rails that are alike."""
    alike: dict[tuple[str, str, str], list[str]] = {}
    held = one.racking.by_rail
    for rail in one.racking.rails:
        alike.setdefault(_kit(one, rail, held[rail.id]), []).append(rail.id)
    rows = [(listed_tags(rails), *kit) for kit, rails in alike.items()]
    up = all(rail.up for rail in one.racking.rails)
    start = "LOWER END" if up else "LEFT END"
    titles = ("RAILS", start, "PIECES", "SPLICE, FROM ATTACHMENT")
    columns = columns_of(titles, (0.66, 0.94, 1.1, 1.3), width)
    return note_table(f"RAIL KITS, ARRAY {one.id}", columns, rows, at)


def _kit(one: Mounted, rail: Rail, held: Sequence[Attachment]) -> tuple[str, str, str]:
    """Where a rail starts, its pieces from there, and its splices."""
    start = rail.start_in if rail.up else rail.start_in - eave_of(one).left_in
    pieces = [piece for piece in one.rails.pieces if piece.rail == rail.id]
    splices = [splice for splice in one.rails.splices if splice.rail == rail.id]
    words = [_splice(splice, held) for splice in splices]
    if rail.id in one.rails.unspliced:
        words.append("LONGER THAN STOCK, NO PLACE FOR A SPLICE")
    return length(start), ",\n".join(_pieces(rail, pieces)), ";\n".join(words) or "NONE"


def _pieces(rail: Rail, pieces: Sequence[RailPiece]) -> Iterator[str]:
    """Lengths of pieces, each after the letter of its tag."""
    for piece in pieces:
        yield f"{piece.id.removeprefix(rail.id)} {length(piece.length_in)}".strip()


def _splice(splice: SplicePlace, held: Sequence[Attachment]) -> str:
    """How far a splice is past or before the attachment beside it, counted from the start."""
    places = [item.along_in for item in held]
    if not places:
        return "NO ATTACHMENT BESIDE IT"
    nearest = min(range(len(places)), key=lambda n: abs(places[n] - splice.along_in))
    distance = splice.along_in - places[nearest]
    name = ordinal(nearest + 1)
    if abs(distance) < _ON_ATTACHMENT_IN:
        return f"ON {name}"
    side = "PAST" if distance > 0 else "BEFORE"
    return f"{length(abs(distance))} {side} {name}"
