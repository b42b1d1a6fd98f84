"""Beside the attachment plan: schedules of rails, checks of the layout, counts of every part."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import partial

from planset.design.design import Design
from planset.design.mounted import Mounted
from planset.design.part_places import part_counts
from planset.design.racking import Attachment
from planset.drawing.geometry import Point
from planset.drawing.stack import TableAt
from planset.drawing.table import Column, Table
from planset.sheets.attachment_view import PlaneView
from planset.sheets.context import SheetContext
from planset.sheets.note_table import note_table
from planset.sheets.rail_schedules import columns_of, length, rail_schedules
from planset.sheets.tape_marks import eave_of

_NO_ZONE = "NOT COMPUTED"
_ONE_LINE_IN = 1 / 32  # rails no farther apart lie on one line


def tables(context: SheetContext, views: Sequence[PlaneView]) -> list[TableAt]:
    """What the crew reads beside the views of a page.

    Args:
        context: What the sheet is given.
        views: The views of the page.
    """
    mounted = [one for view in views for one in view.mounted]
    missing = tuple(thing for view in views for thing in (*view.missing, *view.unnamed))
    return [
        *(table for view in views for table in rail_schedules(view.mounted)),
        partial(checks_table, mounted),
        partial(_counts, context.design, mounted),
        *([partial(_parts, mounted)] if any(map(part_counts, mounted)) else []),
        *([partial(not_drawn_table, missing)] if missing else []),
    ]


def diagonals(mounted: Mounted) -> tuple[tuple[Attachment, Attachment, float], ...]:
    """Both diagonals between the corner attachments of an array, on the surface [in].

    The corners are the ends of its first and its last line of rails. Empty where there are no
    four: one line, or lines with one attachment.
    """
    rails = {rail.id: rail.line_in for rail in mounted.racking.rails}
    held = mounted.racking.attachments
    if not held:
        return ()
    lines = [rails[one.rail] for one in held]
    first, last = (
        sorted(
            (one for one in held if abs(rails[one.rail] - line) < _ONE_LINE_IN),
            key=lambda one: one.along_in,
        )
        for line in (min(lines), max(lines))
    )
    if max(lines) - min(lines) < _ONE_LINE_IN or min(len(first), len(last)) < 2:
        return ()
    return tuple(
        (low, high, math.hypot(high.u_in - low.u_in, high.v_in - low.v_in))
        for low, high in ((first[0], last[-1]), (first[-1], last[0]))
    )


def checks_table(mounted: Sequence[Mounted], at: Point, width: float) -> Table:
    """Diagonals, and what is left from the last mark to the other end of the eave."""
    rows: list[tuple[str, ...]] = []
    for one in mounted:
        rows += [
            (one.id, f"{low.id} TO {high.id}", length(distance_in))
            for low, high, distance_in in diagonals(one)
        ]
        if one.racking.attachments:
            last = max(one.racking.attachments, key=lambda item: item.u_in)
            rest = eave_of(one).right_in - last.u_in
            rows.append((one.id, f"{last.id} TO RIGHT END, ALONG", length(rest)))
    columns = columns_of(("ARRAY", "MIDDLE TO MIDDLE", "ON SLOPE"), (0.6, 2.35, 1.0), width)
    return note_table("DIAGONALS AND RIGHT END, TO CHECK", columns, rows, at)


def zone_counts(design: Design, mounted: Mounted) -> tuple[tuple[str, int, int], ...]:
    """Per wind zone the rails with an attachment in it, and those attachments."""
    zones = {load.attachment: load.zone for load in design.loads.attachments}
    found: dict[str, list[Attachment]] = {}
    for attachment in mounted.racking.attachments:
        found.setdefault(zones.get(attachment.id, _NO_ZONE), []).append(attachment)
    return tuple(
        (zone, len({one.rail for one in held}), len(held)) for zone, held in sorted(found.items())
    )


def _counts(design: Design, mounted: Sequence[Mounted], at: Point, width: float) -> Table:
    rows: list[tuple[str, ...]] = []
    for one in mounted:
        rows += [
            (one.id, zone, str(rails), str(count))
            for zone, rails, count in zone_counts(design, one)
        ]
        rows.append((one.id, "ALL", str(len(one.racking.rails)), str(len(one.racking.attachments))))
    if len(mounted) > 1:
        racks = [one.racking for one in mounted]
        sums = (sum(len(rack.rails) for rack in racks), sum(len(r.attachments) for r in racks))
        rows.append(("TOTAL", "ALL", *map(str, sums)))
    titles = ("ARRAY", "WIND ZONE", "RAILS IN", "ATTACHMENTS")
    return note_table("COUNTS", columns_of(titles, (0.7, 1.06, 0.88, 1.35), width), rows, at)


def _parts(mounted: Sequence[Mounted], at: Point, width: float) -> Table:
    """How many of every part stand on the rails."""
    rows = [
        (one.id, part.upper(), str(count))
        for one in mounted
        for (_, part), count in part_counts(one).items()
    ]
    columns = columns_of(("ARRAY", "PART", "COUNT"), (0.7, 2.4, 0.85), width)
    return note_table("PARTS ON THE RAILS", columns, rows, at)


def not_drawn_table(missing: tuple[str, ...], at: Point, width: float) -> Table:
    """What the views had no room for."""
    rows = [(", ".join(missing),)]
    return note_table("NO ROOM ON THE PLAN, SEE THE TABLES", (Column("", width),), rows, at)
