"""Reading of a maker's span table to the safe side: up to the next row, never between or beyond."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

_ROUNDED = ("wind_mph", "snow_psf", "height_ft", "module_length_in")
_EXACT = ("exposure", "roof", "profile")
_WORDS = {
    "wind_mph": ("wind speed", " mph"),
    "snow_psf": ("ground snow load", " psf"),
    "height_ft": ("mean roof height", " ft"),
    "module_length_in": ("module length", " in"),
    "exposure": ("exposure", ""),
    "roof": ("roof shape", ""),
    "profile": ("rail profile", ""),
}


@dataclass(frozen=True, slots=True)
class SpanRow:
    """One cell of a table with all its keys; None for a key the table does not have.

    Attributes:
        span_in: Greatest span between attachments [in].
        cantilever_in: Greatest cantilever, None where the table says none [in].
        zone: Roof zone, None where one span holds in all.
        slope_deg: Least and greatest roof slope it covers [deg].
        wind_mph: Wind speed it covers, ultimate [mph].
        snow_psf: Ground snow load it covers [psf].
        height_ft: Mean roof height it covers [ft].
        module_length_in: Module length it covers [in].
        exposure: "B", "C" or "D".
        roof: Shape of the roof, in the table's word.
        profile: Rail profile, in the table's word.
        topographic: Greatest topographic factor Kzt it covers (no unit).
    """

    span_in: float
    cantilever_in: float | None = None
    zone: str | None = None
    slope_deg: tuple[float, float] | None = None
    wind_mph: float | None = None
    snow_psf: float | None = None
    height_ft: float | None = None
    module_length_in: float | None = None
    exposure: str | None = None
    roof: str | None = None
    profile: str | None = None
    topographic: float = 1.0


@dataclass(frozen=True, slots=True)
class SpanTable:
    """A span table as its maker published it.

    Attributes:
        title: Name of the table, with the file it is in.
        issuer: Who published it.
        date: Its date.
        edition: Edition of ASCE 7 it is computed by, such as "ASCE 7-16".
        rows: Its cells.
    """

    title: str
    issuer: str
    date: str
    edition: str
    rows: tuple[SpanRow, ...]


@dataclass(frozen=True, slots=True)
class SpanSite:
    """What a rail is under; None for what the job does not say.

    Attributes:
        edition: Edition of ASCE 7 of the job, such as "ASCE 7-16".
        zones: Every roof zone the rail touches.
        slope_deg: Slope of the roof [deg].
        wind_mph: Wind speed, ultimate [mph].
        snow_psf: Ground snow load [psf].
        height_ft: Mean roof height [ft].
        module_length_in: Length of the modules [in].
        exposure: "B", "C" or "D".
        roof: Shape of the roof.
        profile: Rail profile.
        topographic: Topographic factor Kzt (no unit).
    """

    edition: str
    zones: tuple[str, ...]
    slope_deg: float | None = None
    wind_mph: float | None = None
    snow_psf: float | None = None
    height_ft: float | None = None
    module_length_in: float | None = None
    exposure: str | None = None
    roof: str | None = None
    profile: str | None = None
    topographic: float | None = None


@dataclass(frozen=True, slots=True)
class SpanReading:
    """The cell that governs: the least span of the zones the rail touches."""

    row: SpanRow
    covered: Literal[True] = True


@dataclass(frozen=True, slots=True)
class NotCovered:
    """The table says nothing about this rail.

    Attributes:
        reason: Why, in words.
    """

    reason: str
    covered: Literal[False] = False


def read_span(table: SpanTable, site: SpanSite) -> SpanReading | NotCovered:
    """Read a span table: edition, words and slope band must match, numbers go up to the next row.

    Nothing is interpolated. What lies outside the table, or a key the table has and the job does
    not say, is not covered and gives no number. Of several zones the least span holds.

    Args:
        table: The maker's table.
        site: What the rail is under.

    Returns:
        The governing cell, or why there is none.
    """
    if table.edition != site.edition:
        return NotCovered(f"the table is for {table.edition}, the job for {site.edition}")
    if not site.zones:
        return NotCovered("no roof zone of the rail is known")
    found = []
    for zone in site.zones:
        reading = _read_zone(table.rows, site, zone)
        if isinstance(reading, NotCovered):
            return reading
        found.append(reading)
    return SpanReading(min(found, key=lambda row: (row.span_in, _least_end(row))))


def _least_end(row: SpanRow) -> float:
    return row.cantilever_in if row.cantilever_in is not None else row.span_in


def _read_zone(rows: tuple[SpanRow, ...], site: SpanSite, zone: str) -> SpanRow | NotCovered:
    left = [row for row in rows if row.zone in {None, zone}]
    if not left:
        return NotCovered(f"zone {zone} is not in the table")
    for key in _EXACT:
        value = getattr(site, key)
        left = [row for row in left if getattr(row, key) in {None, value}]
        if not left:
            return NotCovered(_outside(key, value))
    if site.slope_deg is None and any(row.slope_deg for row in left):
        return NotCovered("the table asks for the roof slope, which the job does not say")
    left = [row for row in left if _in_band(site.slope_deg, row.slope_deg)]
    if not left:
        return NotCovered(f"no slope band of the table holds {site.slope_deg:g} deg")
    left = [row for row in left if _topography_covered(site.topographic, row)]
    if not left:
        return NotCovered(
            "the topographic factor Kzt is not known"
            if site.topographic is None
            else f"Kzt {site.topographic:g} is more than the table covers"
        )
    return _round_up(left, site)


def _in_band(slope_deg: float | None, band: tuple[float, float] | None) -> bool:
    return band is None or (slope_deg is not None and band[0] <= slope_deg <= band[1])


def _topography_covered(topographic: float | None, row: SpanRow) -> bool:
    return topographic is not None and topographic <= row.topographic


def _round_up(rows: list[SpanRow], site: SpanSite) -> SpanRow | NotCovered:
    """Row by row up to the next value of every number; where cells share all keys, the least."""
    for key in _ROUNDED:
        value = getattr(site, key)
        if value is None and any(getattr(row, key) is not None for row in rows):
            return NotCovered(_outside(key, value))
        rows = [row for row in rows if getattr(row, key) is None or getattr(row, key) >= value]
        if not rows:
            return NotCovered(_outside(key, value))
    for key in _ROUNDED:
        least = min(
            (getattr(row, key) for row in rows if getattr(row, key) is not None), default=None
        )
        rows = [row for row in rows if getattr(row, key) in {None, least}]
    return min(rows, key=lambda row: row.span_in)


def _outside(key: str, value: float | str | None) -> str:
    words, unit = _WORDS[key]
    if value is None:
        return f"the table asks for the {words}, which the job does not say"
    shown = value if isinstance(value, str) else f"{value:g}{unit}"
    return f"{words} {shown} is outside the table"
