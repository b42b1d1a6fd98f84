"""Rails as beams on their attachments, and as their maker's span table sees them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from planset.design.attachment_loads import AttachmentLoad
from planset.design.beam import Beam
from planset.design.layout import PlacedArray
from planset.design.racking import Attachment, Racking, Rail
from planset.design.rail import RailCheck, RailSection, check_rail
from planset.design.span_table import (
    NotCovered,
    SpanReading,
    SpanRow,
    SpanSite,
    SpanTable,
    read_span,
)
from planset.design.wind import BuildingWind

if TYPE_CHECKING:
    from planset.catalog.rail import RailProfile
    from planset.catalog.rail import SpanTable as StatedTable
    from planset.job.load import Inputs


@dataclass(frozen=True, slots=True)
class RailUse:
    """One rail under its loads.

    Attributes:
        rail: Tag of the rail.
        array: Id of its array.
        zones: Wind zones of its attachments.
        width_in: The widest strip of modules it carries [in].
        up_lb_per_in: Greatest net load away from the roof, ASD [lb/in].
        down_lb_per_in: Greatest load toward the roof, ASD [lb/in].
        span_in: Its longest span [in].
        cantilever_in: Its free end that comes nearest to its limit [in].
        cantilever_limit_in: The maker's share of the span beside that end, or what the table
            allows where that is less [in].
        up: What uplift asks of it, None on fewer than two attachments.
        down: What the load toward the roof asks of it, None likewise.
        table: What the maker's span table says, None where the system has none.
    """

    rail: str
    array: str
    zones: tuple[str, ...]
    width_in: float
    up_lb_per_in: float
    down_lb_per_in: float
    span_in: float
    cantilever_in: float
    cantilever_limit_in: float
    up: RailCheck | None
    down: RailCheck | None
    table: SpanReading | NotCovered | None


def rail_uses(
    inputs: Inputs,
    building: BuildingWind,
    array: PlacedArray,
    racking: Racking,
    loads: tuple[AttachmentLoad, ...],
) -> tuple[RailUse, ...]:
    """Every rail of an array that carries modules.

    A rail's line load is the greatest of its attachments' own loads over the length each holds,
    along the whole rail: safe where zones change under it. It bends as a row of simple beams or
    as one that runs through, whichever is worse.
    """
    by_id = {load.attachment: load for load in loads}
    uses = []
    by_rail = racking.by_rail
    for rail in racking.rails:
        held = by_rail[rail.id]
        loaded = [item for item in held if item.id in by_id]
        if loaded:
            own = [by_id[item.id] for item in loaded]
            uses.append(_use(inputs, building, array, rail, held, loaded, own))
    return tuple(uses)


def _use(
    inputs: Inputs,
    building: BuildingWind,
    array: PlacedArray,
    rail: Rail,
    held: Sequence[Attachment],
    loaded: list[Attachment],
    loads: list[AttachmentLoad],
) -> RailUse:
    profile = array.system.rail
    places = [item.along_in for item in held]
    spans = [b - a for a, b in pairwise(places)]
    ends = (max(places[0] - rail.start_in, 0.0), max(rail.end_in - places[-1], 0.0))
    lengths = [item.held_in for item in loaded]
    up = max(
        max(-load.combined.uplift.normal_lb, 0.0) / length
        for load, length in zip(loads, lengths, strict=True)
    )
    down = max(
        max(load.combined.down.normal_lb, 0.0) / length
        for load, length in zip(loads, lengths, strict=True)
    )
    zones = tuple(dict.fromkeys(load.zone for load in loads))
    width = max(item.width_in for item in loaded)
    beam = Beam(tuple(spans), *ends) if spans else None
    table = span_reading(inputs, building, array, zones, width)
    besides = (spans[0], spans[-1]) if spans else (0.0, 0.0)
    limits = [_free_end_in(profile.cantilever_share * beside, table) for beside in besides]
    end, limit = max(zip(ends, limits, strict=True), key=lambda one: (one[0] - one[1], one))
    return RailUse(
        rail=rail.id,
        array=array.id,
        zones=zones,
        width_in=width,
        up_lb_per_in=up,
        down_lb_per_in=down,
        span_in=max(spans, default=0.0),
        cantilever_in=end,
        cantilever_limit_in=limit,
        up=_checked(beam, -up, profile),
        down=_checked(beam, down, profile),
        table=table,
    )


def _free_end_in(share_in: float, table: SpanReading | NotCovered | None) -> float:
    """The lesser of the maker's two limits of a free end [in]."""
    if not isinstance(table, SpanReading) or table.row.cantilever_in is None:
        return share_in
    return min(share_in, table.row.cantilever_in)


def _checked(beam: Beam | None, load_lb_per_in: float, profile: RailProfile) -> RailCheck | None:
    return None if beam is None else bent_rail(beam, load_lb_per_in, profile)


def bent_rail(beam: Beam, load_lb_per_in: float, profile: RailProfile) -> RailCheck:
    """What a uniform load asks of a rail of a profile, upward negative [lb/in]."""
    stated = profile.section
    moment = stated.moment_lb_ft * 12
    section = RailSection(stated.inertia_in4, moment, moment, stated.modulus_psi)
    return check_rail(beam, load_lb_per_in, section, deflection_limit=profile.deflection_ratio)


def span_reading(
    inputs: Inputs,
    building: BuildingWind,
    array: PlacedArray,
    zones: tuple[str, ...],
    width_in: float,
) -> SpanReading | NotCovered | None:
    """What the maker's span table says of a rail, None where the system has none.

    Args:
        inputs: The job.
        building: Wind on the array's building.
        array: The array.
        zones: Wind zones of the rail's attachments.
        width_in: The widest strip of modules it carries [in].
    """
    stated = array.system.rail.span_table
    if stated is None:
        return None
    site = inputs.job.site
    known = {row.zone for row in stated.rows}
    return read_span(
        _as_table(stated, array),
        SpanSite(
            edition=str(building.standard.edition),
            zones=tuple(dict.fromkeys(_zone_of_table(zone, known) for zone in zones)),
            slope_deg=array.plane.slope_deg,
            wind_mph=site.wind_speed,
            snow_psf=site.ground_snow,
            height_ft=building.height_ft,
            module_length_in=round(width_in, 6),  # a width is a difference of places
            exposure=site.exposure,
            topographic=site.topographic_factor,
        ),
    )


def _zone_of_table(zone: str, known: set[str]) -> str:
    """The zone as the table names it: by itself, or by its number where 2e and 2n are one."""
    return zone if zone in known else zone[0]


def _as_table(stated: StatedTable, array: PlacedArray) -> SpanTable:
    rows = tuple(
        SpanRow(
            span_in=row.span,
            cantilever_in=row.cantilever,
            zone=row.zone,
            slope_deg=(row.slope_from, row.slope_to),
            wind_mph=row.wind_speed,
            snow_psf=row.ground_snow,
            height_ft=row.roof_height / 12,
            module_length_in=stated.tributary_width,
            exposure=row.exposure,
        )
        for row in stated.rows
    )
    return SpanTable(
        title=f"{stated.document}, page {stated.page}",
        issuer=array.system.maker,
        date=stated.issued.isoformat(),
        edition=stated.edition_name,
        rows=rows,
    )
