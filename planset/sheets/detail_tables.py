"""Load table and fastening schedule beside the attachment details."""

from __future__ import annotations

from functools import partial

from planset.design.attachment_loads import AttachmentLoad
from planset.design.fastening import Fastening
from planset.design.layout import PlacedArray
from planset.drawing.columns import first_then
from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Primitive
from planset.drawing.stack import stack
from planset.drawing.table import Column, Table
from planset.sheets.context import SheetContext
from planset.sheets.note_table import note_table
from planset.sheets.words import inches

_GAP = 0.16


def tables(
    context: SheetContext, array: PlacedArray, held: Fastening, place: Box
) -> tuple[tuple[Primitive, ...], ...]:
    """Uplift per zone, then capacities, then how the attachment is sealed.

    The loads are those of all arrays on the same mounting, whose attachment the details draw.
    What the place can't hold goes to further pages, one tuple each.
    """
    area = context.area
    alike = tuple(one for one in context.design.mounted if one.system.model == array.system.model)
    following = Box(area.x0, area.y0, area.x0 + place.width, area.y1)
    listed = (
        partial(_uplift, context, alike),
        partial(_capacity, context, alike, held),
        partial(_sealing, array),
    )
    return stack(listed, first_then((place,), (following,)), _GAP).pages


def _uplift(
    context: SheetContext, arrays: tuple[PlacedArray, ...], at: Point, width: float
) -> Table:
    """The worst attachment of every wind zone."""
    loads = context.design.loads
    worst: dict[str, AttachmentLoad] = {}
    for load in sorted(_loads(context, arrays), key=lambda load: -load.uplift_lb):
        worst.setdefault(load.zone, load)
    titles = ("ZONE", "WORST", "SQ FT", "GCp", "EDGE", "EQUAL.", "PSF", "DEAD", "DEMAND")
    rest = width - 0.6 - 1.05 - 6 * 0.72
    widths = (0.6, 1.05, 0.72, 0.72, 0.72, 0.72, 0.72, 0.72, rest)
    columns = tuple(Column(t, w, "center") for t, w in zip(titles, widths, strict=True))
    rows = [_uplift_row(load) for _, load in sorted(worst.items())]
    title = "UPLIFT PER ATTACHMENT, LB, ASD 0.6 D + 0.6 W"
    buildings = {array.plane.building for array in arrays}
    if not rows:
        rows = [(*["-"] * 8, "NOT COMPUTED")]
    elif len(buildings) == 1:
        wind = loads.buildings[buildings.pop()]
        title += f"; qh {wind.velocity.q_psf:.2f} PSF AT h {wind.height_ft:.1f} FT"
    return note_table(title, columns, rows, at)


def _loads(context: SheetContext, arrays: tuple[PlacedArray, ...]) -> list[AttachmentLoad]:
    ids = {array.id for array in arrays}
    return [load for load in context.design.loads.attachments if load.array in ids]


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


def _capacity(
    context: SheetContext,
    arrays: tuple[PlacedArray, ...],
    held: Fastening,
    at: Point,
    width: float,
) -> Table:
    """Demand, capacity, ratio and clause, lowest capacity governs."""
    uplift = arrays[0].system.attachment.uplift
    demand = max((load.uplift_lb for load in _loads(context, arrays)), default=None)
    document = (
        f"{uplift.document}, PAGE {uplift.page}".upper()
        if uplift.document and uplift.page
        else "OPEN: NO DOCUMENT AND PAGE"
    )
    withdrawal = (
        f"{_withdrawal_clause(context)}: {held.count} x {held.withdrawal_lb_per_in:.0f} LB/IN x "
        f"{inches(held.penetration_in)} x CD 1.6 x Ct {held.temperature:g}"
    )
    columns = (
        Column("HOLDS BY", 1.25),
        Column("DEMAND", 0.8, "center"),
        Column("CAPACITY", 0.9, "center"),
        Column("RATIO", 0.6, "center"),
        Column("CLAUSE OR DOCUMENT", width - 3.55),
    )
    rows = [
        _capacity_row("CONNECTOR", demand, uplift.capacity, document),
        _capacity_row("LAG SCREWS", demand, held.lag_capacity_lb, withdrawal),
    ]
    title = "UPLIFT DEMAND AND CAPACITY, WORST ATTACHMENT, LB"
    return note_table(title, columns, rows, at)


def _withdrawal_clause(context: SheetContext) -> str:
    """The clause as the rule cites it, which in an edition it does not know is the edition."""
    return next(f.citation for f in context.findings if f.rule == "structure.lag-withdrawal")


def _capacity_row(name: str, demand: float | None, capacity: float, source: str) -> tuple[str, ...]:
    if demand is None:
        return (name, "-", f"{capacity:.0f}", "-", source)
    ratio = demand / capacity if capacity else float("inf")
    return (name, f"{demand:.0f}", f"{capacity:.0f}", f"{ratio:.2f}", source)


def _sealing(array: PlacedArray, at: Point, width: float) -> Table:
    hook = array.system.attachment
    rows = [(str(number), words.upper()) for number, words in enumerate(hook.weatherproofing, 1)]
    columns = (Column("", 0.3, "center"), Column("", width - 0.3))
    title = f"WEATHERPROOFING, {array.system.document.upper()}"
    return note_table(title, columns, rows, at)
