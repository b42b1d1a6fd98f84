"""Load combinations as one roof attachment sees them: normal to the roof and along its slope."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from planset.codes import _check, _table


@dataclass(frozen=True, slots=True)
class AttachmentLoads:
    """Unfactored loads on one attachment, all of them sizes; `loads_on_slope` makes them.

    Attributes:
        slope_deg: Slope of the roof [degrees].
        dead_lb: Largest credible dead load of the array, vertical [lb].
        least_dead_lb: Smallest credible dead load of the array, vertical [lb].
        roof_live_lb: Roof live load, vertical [lb].
        snow_lb: Snow load at the level of its edition, vertical [lb].
        wind_down_lb: Wind toward the roof, normal to it, strength level [lb].
        wind_up_lb: Wind away from the roof, normal to it, strength level [lb].

    Source: ASCE 7-16 and 7-22, 2.2.
    """

    slope_deg: float
    dead_lb: float
    least_dead_lb: float
    roof_live_lb: float
    snow_lb: float
    wind_down_lb: float
    wind_up_lb: float

    def __post_init__(self) -> None:
        _check.within(self.slope_deg, 0.0, 90.0, "roof slope, degrees,")
        for name in ("dead", "least_dead", "roof_live", "snow", "wind_down", "wind_up"):
            _check.not_negative(getattr(self, f"{name}_lb"), f"{name.replace('_', ' ')} load, lb,")
        if self.least_dead_lb > self.dead_lb:
            msg = (
                f"least dead load is {self.least_dead_lb:g} lb, over the largest of "
                f"{self.dead_lb:g} lb; expected the smaller of the two"
            )
            raise ValueError(msg)


@dataclass(frozen=True, slots=True)
class Combination:
    """One load combination.

    Attributes:
        method: "asd" or "lrfd".
        number: Its number in the edition, such as "7".
        text: As it is printed, for these loads.
        dead: Factor of the largest dead load.
        least_dead: Factor of the smallest dead load.
        roof_live: Factor of the roof live load.
        snow: Factor of the snow load.
        wind_down: Factor of wind toward the roof.
        wind_up: Factor of wind away from the roof.

    Source: ASCE 7-16 and 7-22, 2.3.1 and 2.4.1.
    """

    method: str
    number: str
    text: str
    dead: float
    least_dead: float
    roof_live: float
    snow: float
    wind_down: float
    wind_up: float

    @property
    def shortest_load(self) -> str:
        """The load of shortest duration in it: "wind", "roof live", "snow" or "dead"."""
        if self.wind_down or self.wind_up:
            return "wind"
        if self.roof_live:
            return "roof live"
        return "snow" if self.snow else "dead"


@dataclass(frozen=True, slots=True)
class CombinedLoad:
    """What one combination makes of the loads.

    Attributes:
        combination: The combination.
        normal_lb: Force normal to the roof, positive toward it [lb].
        along_lb: Force along the roof, positive down the slope [lb].

    Source: ASCE 7-16 and 7-22, 2.3.1 and 2.4.1.
    """

    combination: Combination
    normal_lb: float
    along_lb: float


@dataclass(frozen=True, slots=True)
class CombinedLoads:
    """All combinations of one attachment, in the order of the edition.

    The governing ones go by force alone; where capacity depends on the duration of load, every
    entry of `loads` must be checked against its own.

    Attributes:
        loads: What each makes of the loads.

    Source: ASCE 7-16 and 7-22, 2.3.1 and 2.4.1.
    """

    loads: tuple[CombinedLoad, ...]

    @property
    def uplift(self) -> CombinedLoad:
        """The one that pulls most, or presses least where none pulls."""
        return min(self.loads, key=lambda load: load.normal_lb)

    @property
    def down(self) -> CombinedLoad:
        """The one that presses most on the roof."""
        return max(self.loads, key=lambda load: load.normal_lb)

    @property
    def along(self) -> CombinedLoad:
        """The one with the largest force down the slope."""
        return max(self.loads, key=lambda load: load.along_lb)


def loads_on_slope(
    area_sqft: float,
    slope_deg: float,
    *,
    dead_psf: float,
    least_dead_psf: float,
    roof_live_psf: float,
    snow_psf: float,
    wind_down_psf: float,
    wind_up_psf: float,
) -> AttachmentLoads:
    """Loads on an attachment from those on its area.

    Args:
        area_sqft: Tributary area on the slope [sq ft].
        slope_deg: Slope of the roof [degrees].
        dead_psf: Largest dead load of the array, on the area on the slope [psf].
        least_dead_psf: Smallest, alike [psf].
        roof_live_psf: Roof live load, on the horizontal projection; 0 under modules [psf].
        snow_psf: Sloped roof snow load ps, on the horizontal projection [psf].
        wind_down_psf: Pressure toward the roof, its size [psf].
        wind_up_psf: Pressure away from the roof, its size [psf].

    Raises:
        ValueError: A load is negative, the area not above zero or the slope out of range.

    Source: ASCE 7-16 and 7-22, 7.4 (snow acts on the horizontal projection) and 2.2.
    """
    _check.above_zero(area_sqft, "tributary area, sq ft,")
    _check.within(slope_deg, 0.0, 90.0, "roof slope, degrees,")
    plan_sqft = area_sqft * math.cos(math.radians(slope_deg))
    return AttachmentLoads(
        slope_deg=slope_deg,
        dead_lb=dead_psf * area_sqft,
        least_dead_lb=least_dead_psf * area_sqft,
        roof_live_lb=roof_live_psf * plan_sqft,
        snow_lb=snow_psf * plan_sqft,
        wind_down_lb=wind_down_psf * area_sqft,
        wind_up_lb=wind_up_psf * area_sqft,
    )


def combine(loads: AttachmentLoads, combinations: Iterable[Combination]) -> CombinedLoads:
    """What each combination makes of the loads on an attachment.

    Args:
        loads: The loads.
        combinations: At least one.

    Source: ASCE 7-16 and 7-22, 2.3.1 and 2.4.1.
    """
    return CombinedLoads(tuple(_combined(loads, combination) for combination in combinations))


def read_combinations(path: Path, method: str) -> tuple[Combination, ...]:
    """Read the combinations of an edition.

    Args:
        path: The CSV file.
        method: "asd" or "lrfd".

    Source: ASCE 7-16 and 7-22, 2.3.1 and 2.4.1.
    """
    return tuple(
        Combination(
            method=method,
            number=row["number"],
            text=row["text"],
            dead=float(row["dead"]),
            least_dead=float(row["least_dead"]),
            roof_live=float(row["roof_live"]),
            snow=float(row["snow"]),
            wind_down=float(row["wind_down"]),
            wind_up=float(row["wind_up"]),
        )
        for row in _table.rows(path)
        if row["method"] == method
    )


def _combined(loads: AttachmentLoads, factors: Combination) -> CombinedLoad:
    vertical = (
        factors.dead * loads.dead_lb
        + factors.least_dead * loads.least_dead_lb
        + factors.roof_live * loads.roof_live_lb
        + factors.snow * loads.snow_lb
    )
    normal = factors.wind_down * loads.wind_down_lb - factors.wind_up * loads.wind_up_lb
    slope = math.radians(loads.slope_deg)
    return CombinedLoad(factors, vertical * math.cos(slope) + normal, vertical * math.sin(slope))
