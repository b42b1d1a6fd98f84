"""Roof access for the fire service on dwellings, by every residential and fire code."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from types import MappingProxyType

from planset.citation import CodeEdition
from planset.codes import _check, _table

_FOLDERS = {"IRC": "irc", "IFC": "ifc", "CRC": "crc", "CFC": "cfc", "NFPA 1": "nfpa1"}


@dataclass(frozen=True, slots=True)
class DwellingAccess:
    """The numbers of one edition's rules for roof access on dwellings.

    There are two kinds: until 2015 each slope with modules needs pathways of its own and the ridge
    setback is fixed; since 2018 the building needs pathways and the setback goes by area.

    Attributes:
        edition: Document and year.
        pathway_width_in: Least clear width of a pathway from eave to ridge [in].
        pathways_on_building: Least number of pathways on the building, 0 where none are asked for.
        separate_planes: Whether those must lie on separate roof planes.
        street_side: Whether one of those must lie on a street or driveway side.
        pathways_per_plane_hip: Pathways for each plane with modules, on a hip roof.
        pathways_per_plane_single_ridge: The same on a roof with a single ridge.
        adjacent_plane_counts: Whether such a pathway may lie on an adjacent plane or straddle both.
        ridge_setback_low_in: Setback each side of a horizontal ridge up to the area limit [in].
        ridge_setback_high_in: Setback above the area limit, or always without a limit [in].
        area_limit_percent: Arrays over roof, both in plan, where the setback changes [%]; None
            where it is fixed.
        area_limit_sprinklered_percent: The same in a dwelling with sprinklers [%]; None where
            sprinklers change nothing.
        ridge_at_a_point: Whether the setback also holds where a plane meets a ridge in one point,
            as the triangle of a hip roof does.
        hip_valley_setback_in: Distance to a hip or valley with modules on both sides [in]; 0
            where there is no such rule.
        escape_pathway_in: Width of the pathway to an escape opening, below which no modules may
            lie [in]; 0 where there is no such rule.
        greatest_array_side_in: Greatest side of one array [in]; 0 where there is no such rule.
        exempt_slope: Slope up to which a plane is exempt (rise over run).
        clauses: Topic to clause; a topic the edition has no rule for is left out. Topics: scope,
            access_points, array_size, pathways_on_building, street_side, pathway_per_plane,
            pathway_per_plane_hip, hip_valley, ridge, ridge_sprinklered, escape_openings.

    Source: IFC 2012, 605.11.3.2; IFC 2015, 605.11.1.2 [from memory]; IFC 2018, 1204.2; IFC 2021
    and 2024, 1205.2; IRC 2015, R324.7 [from memory]; IRC 2018 and 2021, R324.6; IRC 2024, R329.6.
    """

    edition: CodeEdition
    pathway_width_in: float
    pathways_on_building: int
    separate_planes: bool
    street_side: bool
    pathways_per_plane_hip: int
    pathways_per_plane_single_ridge: int
    adjacent_plane_counts: bool
    ridge_setback_low_in: float
    ridge_setback_high_in: float
    area_limit_percent: float | None
    area_limit_sprinklered_percent: float | None
    ridge_at_a_point: bool
    hip_valley_setback_in: float
    escape_pathway_in: float
    greatest_array_side_in: float
    exempt_slope: float
    clauses: Mapping[str, str]

    def area_limit(self, sprinklered: bool) -> float | None:
        """Arrays over roof, both in plan, where the setback changes [%]; None where it is fixed.

        Source: IRC 2021, R324.6.2 and R324.6.2.1.
        """
        if sprinklered and self.area_limit_sprinklered_percent is not None:
            return self.area_limit_sprinklered_percent
        return self.area_limit_percent

    def pathways_per_plane(self, *, hip_roof: bool) -> int:
        """Pathways each plane with modules needs.

        Source: IFC 2012, 605.11.3.2.1 and 605.11.3.2.2; IRC 2021, R324.6.1.
        """
        return self.pathways_per_plane_hip if hip_roof else self.pathways_per_plane_single_ridge


@cache
def _editions() -> Mapping[CodeEdition, DwellingAccess]:
    tables = _table.adopted(_FOLDERS, "roof_access")
    return MappingProxyType(
        {edition: _access(edition, *columns) for edition, columns in tables.items()}
    )


def _access(
    edition: CodeEdition, row: Mapping[str, str], clauses: Mapping[str, str]
) -> DwellingAccess:
    return DwellingAccess(
        edition=edition,
        pathway_width_in=float(row["pathway_width_in"]),
        pathways_on_building=int(row["pathways_on_building"]),
        separate_planes=_yes(row["separate_planes"]),
        street_side=_yes(row["street_side"]),
        pathways_per_plane_hip=int(row["pathways_per_plane_hip"]),
        pathways_per_plane_single_ridge=int(row["pathways_per_plane_single_ridge"]),
        adjacent_plane_counts=_yes(row["adjacent_plane_counts"]),
        ridge_setback_low_in=float(row["ridge_setback_low_in"]),
        ridge_setback_high_in=float(row["ridge_setback_high_in"]),
        area_limit_percent=_limit(row.get("area_limit_percent")),
        area_limit_sprinklered_percent=_limit(row.get("area_limit_sprinklered_percent")),
        ridge_at_a_point=_yes(row["ridge_at_a_point"]),
        hip_valley_setback_in=float(row["hip_valley_setback_in"]),
        escape_pathway_in=float(row["escape_pathway_in"]),
        greatest_array_side_in=float(row["greatest_array_side_in"]),
        exempt_slope=float(Fraction(row["exempt_slope"])),
        clauses=MappingProxyType(dict(clauses)),
    )


def _yes(text: str) -> bool:
    return {"yes": True, "no": False}[text]


def _limit(text: str | None) -> float | None:
    return None if text is None else float(text)


WITHOUT_ROOF_ACCESS = frozenset({CodeEdition("IRC", 2012)})
"""Editions that have no section on roof access at all.

Source: IRC 2012, seen second-hand to have no counterpart of R324.7 in IRC 2015.
"""


def dwelling_editions() -> tuple[CodeEdition, ...]:
    """The editions whose rules for dwellings are entered.

    Source: IRC 2021, R324.6; IFC 2021, 1205.2.
    """
    return tuple(_editions())


def dwelling_access(edition: CodeEdition) -> DwellingAccess:
    """The rules of an edition for roof access on dwellings.

    Args:
        edition: A residential or fire code, such as IRC 2021.

    Raises:
        ValueError: Edition not entered.

    Source: IRC 2021, R324.6, R324.6.1, R324.6.2 and R324.6.2.1; the other editions by their tables.
    """
    if edition not in _editions():
        known = ", ".join(map(str, dwelling_editions()))
        msg = f"roof access on dwellings by {edition} is not entered; expected one of {known}"
        raise ValueError(msg)
    return _editions()[edition]


def required_ridge_setback_in(
    access: DwellingAccess, area_ratio_percent: float, sprinklered: bool
) -> float:
    """Setback on both sides of a horizontal ridge.

    Args:
        access: The edition's numbers.
        area_ratio_percent: All arrays over the whole roof, both in plan view [%].
        sprinklered: Whether the dwelling has a sprinkler system by NFPA 13D or P2904.

    Returns:
        Low setback up to and including the area limit, high setback above it or without one [in].

    Raises:
        ValueError: Ratio not between 0 and 100 %.

    Source: IRC 2021, R324.6.2 and R324.6.2.1; IFC 2012, 605.11.3.2.4.
    """
    _check.within(area_ratio_percent, 0.0, 100.0, "array area over roof area, percent,")
    limit = access.area_limit(sprinklered)
    if limit is not None and _check.at_most(area_ratio_percent, limit):
        return access.ridge_setback_low_in
    return access.ridge_setback_high_in
