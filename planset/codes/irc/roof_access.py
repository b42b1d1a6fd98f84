"""Roof access for the fire service on dwellings by the IRC."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path
from types import MappingProxyType

from planset.codes import _check, _table


@dataclass(frozen=True, slots=True)
class RoofAccess:
    """The numbers of one edition's rule for roof access.

    Attributes:
        edition: Year of the code.
        pathway_width_in: Least width of a pathway from eave to ridge [in].
        pathways_on_building: Least number of pathways, on separate roof planes.
        ridge_setback_low_in: Setback each side of a horizontal ridge up to the area limit [in].
        ridge_setback_high_in: Setback above the area limit [in].
        area_limit_percent: Arrays over roof, both in plan, where the setback changes [%].
        area_limit_sprinklered_percent: The same in a dwelling with sprinklers [%].
        exempt_slope: Slope up to which a roof is exempt (rise over run).

    Source: IRC 2021, R324.6, R324.6.1, R324.6.2 and R324.6.2.1.
    """

    edition: int
    pathway_width_in: float
    pathways_on_building: int
    ridge_setback_low_in: float
    ridge_setback_high_in: float
    area_limit_percent: float
    area_limit_sprinklered_percent: float
    exempt_slope: float

    def area_limit(self, sprinklered: bool) -> float:
        """Arrays over roof, both in plan, where the setback changes [%].

        Source: IRC 2021, R324.6.2 and R324.6.2.1.
        """
        return self.area_limit_sprinklered_percent if sprinklered else self.area_limit_percent


@cache
def _editions() -> Mapping[int, RoofAccess]:
    rows = _table.rows(Path(__file__).with_name("roof_access.csv"))
    return MappingProxyType({int(row["edition"]): _access(row) for row in rows})


def _access(row: Mapping[str, str]) -> RoofAccess:
    return RoofAccess(
        edition=int(row["edition"]),
        pathway_width_in=float(row["pathway_width_in"]),
        pathways_on_building=int(row["pathways_on_building"]),
        ridge_setback_low_in=float(row["ridge_setback_low_in"]),
        ridge_setback_high_in=float(row["ridge_setback_high_in"]),
        area_limit_percent=float(row["area_limit_percent"]),
        area_limit_sprinklered_percent=float(row["area_limit_sprinklered_percent"]),
        exempt_slope=float(Fraction(row["exempt_slope"])),
    )


def editions() -> tuple[int, ...]:
    """Years of the editions in the table.

    Source: IRC 2021, R324.6.
    """
    return tuple(_editions())


def roof_access(edition: int) -> RoofAccess:
    """The roof access numbers of an edition.

    Args:
        edition: Year of the IRC, such as 2021.

    Returns:
        The numbers of that edition.

    Raises:
        ValueError: Edition not in the table.

    Source: IRC 2021, R324.6, R324.6.1, R324.6.2 and R324.6.2.1.
    """
    if edition not in _editions():
        known = ", ".join(str(year) for year in editions())
        msg = f"IRC edition is {edition}; expected one of {known}; no other is covered yet"
        raise ValueError(msg)
    return _editions()[edition]


def required_ridge_setback_in(
    access: RoofAccess, area_ratio_percent: float, sprinklered: bool
) -> float:
    """Setback on both sides of a horizontal ridge.

    Args:
        access: The edition's numbers.
        area_ratio_percent: All arrays over the whole roof, both in plan view [%].
        sprinklered: Whether the dwelling has a sprinkler system by NFPA 13D or P2904.

    Returns:
        Low setback up to and including the area limit, high setback above it [in].

    Raises:
        ValueError: Ratio not between 0 and 100 %.

    Source: IRC 2021, R324.6.2 and R324.6.2.1.
    """
    _check.within(area_ratio_percent, 0.0, 100.0, "array area over roof area, percent,")
    if _check.at_most(area_ratio_percent, access.area_limit(sprinklered)):
        return access.ridge_setback_low_in
    return access.ridge_setback_high_in
