"""Which strips, bands and corners of a roof carry which wind zone: the plans of the figures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from planset.codes import _table

OUTER = "outer"
"""The word for any free edge of the roof: eave, rake, high edge, roof edge or parapet.

Source: ASCE 7-16 and 7-22, Figure 30.3-2A, whose bands run around the whole roof.
"""


@dataclass(frozen=True, slots=True)
class Strip:
    """The points of a plane whose distance from an edge lies between two limits.

    Attributes:
        edge: Kind of edge, such as "eave", or OUTER.
        zone: Zone name of the figure.
        start: Where it begins, in plan from the edge, in multiples of the map's measure.
        end: Where it ends, alike.

    Source: ASCE 7-16 and 7-22, Figures 30.3-2 and 30.3-5.
    """

    edge: str
    zone: str
    start: float
    end: float


@dataclass(frozen=True, slots=True)
class Corner:
    """The points near both of two edges, at an end that they share.

    Attributes:
        edges: Kinds of the two edges, or OUTER twice.
        zone: Zone name of the figure.
        first: Greatest distance from the first edge, in plan, in multiples of the map's measure.
        second: Greatest distance from the second edge, alike.
        leg: Of an L: greatest distance from the nearer of the two edges, alike; None for a full
            rectangle.

    Source: ASCE 7-16 and 7-22, Figures 30.3-2 and 30.3-5.
    """

    edges: tuple[str, str]
    zone: str
    first: float
    second: float
    leg: float | None


@dataclass(frozen=True, slots=True)
class ZoneMap:
    """The zone plan of a figure; of regions that overlap, the one named last in `zones` holds.

    Attributes:
        zones: Zone names in order of precedence; how severe each is, its GCp tells.
        interior: Zone of what no strip and no corner reaches.
        measure: What distances multiply: the strip width "a" or the mean roof height "h".
        strips: Strips along edges.
        corners: Corners at the ends of edges.

    Source: ASCE 7-16 and 7-22, Figures 30.3-2 and 30.3-5.
    """

    zones: tuple[str, ...]
    interior: str
    measure: Literal["a", "h"]
    strips: tuple[Strip, ...]
    corners: tuple[Corner, ...]


def read_zone_maps(path: Path) -> Mapping[str, ZoneMap]:
    """Read the zone plans of an edition, figure to plan.

    Args:
        path: The CSV file; a line is the interior, a strip or a corner of one or more figures.

    Source: ASCE 7-16 and 7-22, Figures 30.3-2 and 30.3-5.
    """
    lines: dict[str, list[dict[str, str]]] = {}
    for row in _table.rows(path):
        for figure in row["figures"].split():
            lines.setdefault(figure, []).append(row)
    return {figure: _zone_map(rows) for figure, rows in lines.items()}


def _zone_map(rows: list[dict[str, str]]) -> ZoneMap:
    (head,) = (row for row in rows if row["region"] == "interior")
    strips = tuple(_strip(row) for row in rows if row["region"] == "strip")
    corners = tuple(_corner(row) for row in rows if row["region"] == "corner")
    interior, *others = head["zones"].split()
    measure: Literal["a", "h"] = "h" if head["measure"] == "h" else "a"
    return ZoneMap((interior, *others), interior, measure, strips, corners)


def _strip(row: dict[str, str]) -> Strip:
    return Strip(row["edges"], row["zones"], float(row["first"]), float(row["second"]))


def _corner(row: dict[str, str]) -> Corner:
    first, second = row["edges"].split("+")
    leg = float(row["leg"]) if row["leg"] else None
    return Corner((first, second), row["zones"], float(row["first"]), float(row["second"]), leg)
