"""Beside the attachment plan: rails and attachments, heights, diagonals, counts, crew notes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import partial

from planset.design.design import Design
from planset.design.racking import Attachment, Rail
from planset.drawing.geometry import Point
from planset.drawing.stack import TableAt
from planset.drawing.table import Column, Table
from planset.sheets.attachment_tapes import Mounted
from planset.sheets.attachment_view import PlaneView
from planset.sheets.context import SheetContext
from planset.sheets.details.detail import SHEET, details_of
from planset.sheets.legend import Draw, legend, line, outline, rail_and_attachment
from planset.sheets.note_table import note_table
from planset.units import format_feet_inches

_SHORT_TAG = 3  # characters of a tag that has room for another beside it
_NO_ZONE = "NOT COMPUTED"
_DETAILS, _LOADS = SHEET, "S-601"


def tables(context: SheetContext, views: Sequence[PlaneView]) -> list[TableAt]:
    """What the crew reads beside the views of a page.

    Args:
        context: What the sheet is given.
        views: The views of the page.
    """
    mounted = [pair for view in views for pair in view.mounted]
    missing = tuple(thing for view in views for thing in (*view.missing, *view.unnamed))
    return [
        *(partial(_rails, pair) for pair in mounted),
        partial(_heights, mounted),
        partial(_diagonals, mounted),
        partial(_counts, context.design, mounted),
        *([partial(_not_drawn, missing)] if missing else []),
    ]


def _columns(titles: Sequence[str], shares: Sequence[float], width: float) -> tuple[Column, ...]:
    whole = sum(shares)
    return tuple(
        Column(name, width * share / whole, "center")
        for name, share in zip(titles, shares, strict=True)
    )


def length(value_in: float) -> str:
    """A distance as the tapes of the plan print it."""
    return format_feet_inches(value_in, denominator=16)


def _rails(pair: Mounted, at: Point, width: float) -> Table:
    """A line per rail, from the left."""
    array, rack = pair
    rows = []
    by_rail = rack.by_rail
    for rail in rack.rails:
        held = by_rail[rail.id]
        tags = [one.id for one in held]
        rows.append(
            (
                rail.id,
                ", ".join(sorted({str(item.line) for item in held})),
                length(rail.line_in),
                format_feet_inches(rail.length_in, denominator=8),
                str(len(tags)),
                from_to(tags),
            )
        )
    titles = ("RAIL", "RAFTER", "ALONG", "LENGTH", "NO.", "TAGS")
    columns = _columns(titles, (0.475, 0.76, 0.695, 0.88, 0.405, 0.775), width)
    return note_table(f"RAILS AND ATTACHMENTS, ARRAY {array.id}", columns, rows, at)


def from_to(tags: Sequence[str]) -> str:
    """Tags that follow each other; long ones may go on two lines."""
    if len(tags) < 2:
        return tags[0] if tags else "-"
    return f"{tags[0]}-{tags[-1]}" if len(tags[-1]) <= _SHORT_TAG else f"{tags[0]} - {tags[-1]}"


def _heights(mounted: Sequence[Mounted], at: Point, width: float) -> Table:
    """The heights of attachments, a line for rails that have the same."""
    rows = []
    for array, rack in mounted:
        alike: dict[tuple[str, ...], list[Rail]] = {}
        for rail in rack.rails:
            heights = tuple(length(one.v_in) for one in rack.attachments if one.rail == rail.id)
            alike.setdefault(heights, []).append(rail)
        for heights, rails in alike.items():
            whole = len(rails) == len(rack.rails)
            names = "ALL RAILS" if whole else ", ".join(rail.id for rail in rails)
            rows.append((array.id, names, ", ".join(heights) or "-"))
    columns = _columns(("ARRAY", "RAILS", "UP FROM THE EAVE"), (0.68, 0.95, 2.36), width)
    return note_table("HEIGHTS OF ATTACHMENTS, ON SLOPE", columns, rows, at)


def diagonals(pair: Mounted) -> tuple[tuple[Attachment, Attachment, float], ...]:
    """Both diagonals of the grid of attachments, corner to corner on the surface [in].

    Empty where the grid has no four corners: one rail, or rails with one attachment.
    """
    _, rack = pair
    by_rail = [[one for one in rack.attachments if one.rail == rail.id] for rail in rack.rails]
    held = [row for row in by_rail if row]
    if len(held) < 2 or min(len(held[0]), len(held[-1])) < 2:
        return ()
    first, last = held[0], held[-1]
    return tuple(
        (low, high, math.hypot(high.u_in - low.u_in, high.v_in - low.v_in))
        for low, high in ((first[0], last[-1]), (first[-1], last[0]))
    )


def _diagonals(mounted: Sequence[Mounted], at: Point, width: float) -> Table:
    rows = [
        (pair[0].id, f"{low.id} TO {high.id}", length(distance_in))
        for pair in mounted
        for low, high, distance_in in diagonals(pair)
    ]
    columns = _columns(("ARRAY", "MIDDLE TO MIDDLE", "ON SLOPE"), (0.7, 2.0, 1.7), width)
    return note_table("DIAGONALS TO SQUARE THE LAYOUT", columns, rows or [("-", "NONE", "-")], at)


def zone_counts(design: Design, pair: Mounted) -> tuple[tuple[str, int, int], ...]:
    """Per wind zone the rails with an attachment in it, and those attachments."""
    _, rack = pair
    zones = {load.attachment: load.zone for load in design.loads.attachments}
    found: dict[str, list[Attachment]] = {}
    for attachment in rack.attachments:
        found.setdefault(zones.get(attachment.id, _NO_ZONE), []).append(attachment)
    return tuple(
        (zone, len({one.rail for one in held}), len(held)) for zone, held in sorted(found.items())
    )


def _counts(design: Design, mounted: Sequence[Mounted], at: Point, width: float) -> Table:
    rows: list[tuple[str, ...]] = []
    for pair in mounted:
        array, rack = pair
        rows += [
            (array.id, zone, str(rails), str(count))
            for zone, rails, count in zone_counts(design, pair)
        ]
        rows.append((array.id, "ALL", str(len(rack.rails)), str(len(rack.attachments))))
    if len(mounted) > 1:
        racks = [rack for _, rack in mounted]
        sums = (sum(len(rack.rails) for rack in racks), sum(len(r.attachments) for r in racks))
        rows.append(("TOTAL", "ALL", *map(str, sums)))
    titles = ("ARRAY", "WIND ZONE", "RAILS IN", "ATTACHMENTS")
    return note_table("COUNTS", _columns(titles, (0.7, 1.06, 0.88, 1.35), width), rows, at)


def _not_drawn(missing: tuple[str, ...], at: Point, width: float) -> Table:
    rows = [(", ".join(missing),)]
    return note_table("NO ROOM ON THE PLAN, SEE THE TABLES", (Column("", width),), rows, at)


def notes(context: SheetContext, at: Point, width: float) -> Table:
    """The notes for the crew, numbered.

    Args:
        context: What the sheet is given.
        at: Upper left corner [paper in].
        width: Width of the column [in].
    """
    rows = [(str(number), words) for number, words in enumerate(crew_notes(context), 1)]
    columns = (Column("", 0.3, "center"), Column("", width - 0.3))
    return note_table("NOTES FOR THE CREW", columns, rows, at)


def crew_notes(context: SheetContext) -> list[str]:
    """How to mark the roof from this sheet, and what not to do."""
    sheets = {entry.id for entry in context.index}
    framing = context.design.inputs.job.framing
    source = f" ({framing.source})" if framing else ""
    notes = [
        "ALONG is from the left end of the eave, UP from its edge on the roof surface: every mark "
        "from its datum, none from another. Do not scale.",
        f"Rafters as surveyed{source}. Find the middle of each before drilling. If it is not under "
        "its mark, stop and call the designer.",
        "Screws go in the solid wood of a rafter. A hole that missed holds nothing: seal and flash "
        "it, then set the attachment anew in the rafter.",
        "Check both diagonals of an array before its first hole. Where one differs from the table, "
        "find the wrong mark.",
        "Count attachments against the table before modules cover them.",
        "Above 6 ft: tied off or guarded before you leave the ladder (29 CFR 1926.501). Keep off "
        "skylights. Not on wet tile or in high wind.",
    ]
    more = [
        words
        for sheet, words in (
            (_DETAILS, f"Screws, pilot holes and flashing: {_callouts(context.design)}."),
            (_LOADS, f"Zones and loads: {_LOADS}."),
        )
        if sheet in sheets
    ]
    return [*notes, " ".join(more)] if more else notes


def _callouts(design: Design) -> str:
    """The attachment details, with their arrays where there are several."""
    details = details_of(design)
    if len(details) == 1:
        return details[0].callout
    return "; ".join(f"{', '.join(sorted(d.array_ids))} {d.callout}" for d in details)


def plan_legend(design: Design) -> TableAt:
    """What the views show that does not say what it is."""
    swatches: list[tuple[str, Draw]] = [
        ("RAIL, ATTACHMENT", rail_and_attachment),
        ("RAFTER", line("S-ROOF-FRAM")),
        ("MODULE", outline("S-ROOF-PANL")),
        ("WIND ZONE", line("S-ROOF-ZONE")),
    ]
    if design.obstructions:
        swatches.append(("CLEARANCE", line("A-ROOF-OBST-CLER")))
    return partial(legend, swatches)
