"""What stands beside the views of a detail: capacities, parts and torque, sealing, uplift."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from planset.catalog.attachment import Capacity
from planset.design.attachment_loads import AttachmentLoad
from planset.design.mounted import Mounted
from planset.drawing.geometry import Point
from planset.drawing.stack import TableAt
from planset.drawing.table import Column, Table
from planset.job.covering import StandingSeam
from planset.sheets.context import SheetContext
from planset.sheets.details.detail import Detail
from planset.sheets.note_table import note_table
from planset.sheets.words import capitals, inches


def tables(context: SheetContext, detail: Detail, *, several: bool) -> list[TableAt]:
    """Tables of one detail, the most needed first.

    Args:
        context: What the sheet is given.
        detail: The detail.
        several: Whether the job has others, so that the tables must say which is meant.
    """
    of = f", {detail.callout}" if several else ""
    return [
        partial(_capacity, context, detail, of),
        partial(_parts, detail, of),
        partial(_sealing, detail, of),
        partial(_uplift, context, detail, of),
    ]


def _uplift(context: SheetContext, detail: Detail, of: str, at: Point, width: float) -> Table:
    """The worst attachment of every wind zone."""
    loads = context.design.loads
    worst: dict[str, AttachmentLoad] = {}
    for load in sorted(_loads(context, detail), key=lambda load: -load.uplift_lb):
        worst.setdefault(load.zone, load)
    titles = ("ZONE", "WORST", "SQ FT", "GCp", "EDGE", "EQUAL.", "PSF", "DEAD", "DEMAND")
    shares = (0.6, 0.86, 0.64, 0.64, 0.58, 0.68, 0.64, 0.6, 0.95)
    columns = tuple(
        Column(title, width * share / sum(shares), "center")
        for title, share in zip(titles, shares, strict=True)
    )
    rows = [_uplift_row(load) for _, load in sorted(worst.items())]
    title = f"UPLIFT{of}, LB, ASD 0.6 D + 0.6 W"
    buildings = {array.plane.building for array in detail.arrays}
    if not rows:
        rows = [(*["-"] * 8, "NOT COMPUTED")]
    elif len(buildings) == 1:
        wind = loads.buildings[buildings.pop()]
        title += f"; qh {wind.velocity.q_psf:.2f} PSF AT h {wind.height_ft:.1f} FT"
    return note_table(title, columns, rows, at)


def _loads(context: SheetContext, detail: Detail) -> list[AttachmentLoad]:
    return [load for load in context.design.loads.attachments if load.array in detail.array_ids]


def _uplift_row(load: AttachmentLoad) -> tuple[str, ...]:
    return (
        load.zone,
        load.attachment,
        f"{load.area_sqft:.2f}",
        f"{load.gcp_up:.2f}",
        f"{load.edge_factor:.1f}",
        f"{load.equalization:.2f}",
        f"{load.up.pressure_psf:.1f}",
        f"{load.loads.least_dead_lb:.0f}",
        f"{load.uplift_lb:.0f}",
    )


def _capacity(context: SheetContext, detail: Detail, of: str, at: Point, width: float) -> Table:
    """Demand, capacity, ratio and clause in every direction; the lowest capacity governs."""
    attachment = detail.attachment
    loads = _loads(context, detail)
    name = "CLAMP" if attachment.kind == "seam_clamp" else "CONNECTOR"

    def worst(of_load: Callable[[AttachmentLoad], float]) -> float | None:
        return max(map(of_load, loads), default=None)

    up = worst(lambda load: load.uplift_lb)
    rows = [
        _capacity_row(f"{name}, UP", up, attachment.uplift.capacity, source(attachment.uplift)),
        *_under_it(context, detail, up),
        _capacity_row(
            f"{name}, DOWN",
            worst(lambda load: load.down_lb),
            attachment.downward.capacity,
            source(attachment.downward),
        ),
        _capacity_row(
            f"{name}, ALONG",
            worst(lambda load: load.along_lb),
            attachment.along_slope.capacity,
            source(attachment.along_slope),
        ),
    ]
    columns = (
        Column("HOLDS BY", 1.3),
        Column("DEMAND", 0.75, "center"),
        Column("CAPACITY", 0.85, "center"),
        Column("RATIO", 0.57, "center"),
        Column("CLAUSE OR DOCUMENT", width - 3.47),
    )
    return note_table(f"DEMAND AND CAPACITY OF THE WORST{of}, LB, ASD", columns, rows, at)


def _under_it(context: SheetContext, detail: Detail, uplift: float | None) -> list[tuple[str, ...]]:
    """What holds the connector in turn: lag screws, or the clips of the panels."""
    held = detail.fastening
    if held is not None:
        clause = (
            f"{_withdrawal_clause(context)}: {held.count} x {held.withdrawal_lb_per_in:.0f} LB/IN "
            f"x {inches(held.penetration_in)} x CD 1.6 x Ct {held.temperature:g}"
        )
        return [
            _capacity_row("LAG SCREWS, UP", uplift, held.lag_capacity_lb, clause),
            *_pull_and_shear(context, detail),
        ]
    clips = detail.covering.clips if isinstance(detail.covering, StandingSeam) else None
    if clips is None:
        return [("PANEL CLIPS, UP", "-", "OPEN", "-", "NOT STATED IN THE JOB")]
    spaced = f"EACH, AT {inches(clips.spacing)}; {clips.document.upper()}"
    return [("PANEL CLIPS, UP", "-", f"{clips.uplift:.0f}", "-", spaced)]


def _pull_and_shear(context: SheetContext, detail: Detail) -> list[tuple[str, ...]]:
    """The worst ratio of screws under both at once, as its rule found it; it has no one demand."""
    found = [
        (finding.measured, finding.citation)
        for finding in context.findings
        if finding.rule == "structure.lag-combined" and detail.array_ids & set(finding.objects)
    ]
    ratios = [(ratio, clause) for ratio, clause in found if ratio is not None]
    if not ratios:
        return []
    ratio, clause = max(ratios)
    return [("LAG SCREWS, UP AND ALONG", "-", "-", f"{ratio:.2f}", clause)]


def source(capacity: Capacity) -> str:
    """Where a capacity is documented, or that it is not."""
    if not (capacity.document and capacity.page):
        return "OPEN: NO DOCUMENT AND PAGE"
    basis = "" if capacity.basis == "ASD" else f" ({capacity.basis})"
    return f"{capacity.document}, PAGE {capacity.page}{basis}".upper()


def _withdrawal_clause(context: SheetContext) -> str:
    """The clause as the rule cites it, which in an edition it does not know is the edition."""
    return next(f.citation for f in context.findings if f.rule == "structure.lag-withdrawal")


def _capacity_row(name: str, demand: float | None, capacity: float, said: str) -> tuple[str, ...]:
    if demand is None:
        return (name, "-", f"{capacity:.0f}", "-", said)
    ratio = demand / capacity if capacity else float("inf")
    return (name, f"{demand:.0f}", f"{capacity:.0f}", f"{ratio:.2f}", said)


def _parts(detail: Detail, of: str, at: Point, width: float) -> Table:
    """Every part of the system with its setting, its torque and where that is written."""
    rows = [(name.upper(), capitals(words)) for name, words in settings(detail.mounts)]
    rows.append(("MAKER", f"{detail.system.maker}: {detail.system.document}".upper()))
    columns = (Column("PART", 1.35), Column("SETTING AND TORQUE", width - 1.35))
    return note_table(f"PARTS AND TORQUE{of}", columns, rows, at)


def settings(mounts: Sequence[Mounted]) -> list[tuple[str, str]]:
    """Every part of the system of some arrays, its setting, its torque and where that is written.

    A splice is among them where a rail of these arrays has one: nobody signs for what is not there.
    """
    system = mounts[0].array.system
    rows = [(system.attachment.name, system.attachment.torque)]
    if foot := system.foot:
        seat = f"{inches(foot.lowest)} to {inches(foot.highest)} from rail to frame"
        end = f"{inches(foot.from_rail_end)} or more from a rail's end"
        seat_on = (
            f"on a splice with {foot.splice_piece}" if foot.splice_piece else "never on a splice"
        )
        where = f"{foot.document}, page {foot.page}"
        rows.append((foot.name, f"{seat}, {end}, {seat_on}; {foot.torque}; {where}"))
    if coupling := system.coupling:
        near = f"nearer than {inches(coupling.interference)} to a foot: {coupling.combined}"
        gap = f"{inches(coupling.gap)} between frames"
        rows.append((coupling.name, f"{gap}; {near}; {coupling.torque}"))
    if clamps := system.clamps:
        rows.append((clamps.mid, f"{inches(clamps.gap)} between frames; {clamps.torque}"))
        rows.append((clamps.end, f"{inches(clamps.end_room)} of rail past the frame"))
    splice = system.rail.splice
    if splice and any(one.rails.splices for one in mounts):
        rows.append((splice.name, splice.torque))
    if trim := system.trim:
        lock = f", {trim.lock} at each front foot" if trim.lock else ""
        rows.append((trim.name, f"{trim.joint} between pieces{lock}"))
    return rows


def _sealing(detail: Detail, of: str, at: Point, width: float) -> Table:
    words = detail.attachment.weatherproofing
    rows = [(str(number), capitals(said)) for number, said in enumerate(words, 1)]
    rows.append(("", f"BY THE {detail.system.document}".upper()))
    columns = (Column("", 0.3, "center"), Column("", width - 0.3))
    return note_table(f"WEATHERPROOFING{of}", columns, rows, at)
