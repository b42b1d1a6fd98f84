"""Wind on roofs by ASCE 7-16: velocity pressure (chapter 26), gable roof zones (chapter 30)."""

import math
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType

from planset.codes import _check, _table

DIRECTIONALITY = 0.85
"""Wind directionality factor Kd of buildings, cladding and rooftop panels (no unit).

`velocity_pressure_psf` holds it already; it is never applied again.

Source: ASCE 7-16, Table 26.6-1.
"""

TERRAIN = MappingProxyType({"B": (7.0, 1200.0), "C": (9.5, 900.0), "D": (11.5, 700.0)})
"""Power-law exponent alpha (no unit) and gradient height zg [ft] of each exposure.

Source: ASCE 7-16, Table 26.11-1.
"""

GABLE_ZONES = ("1", "2e", "2n", "2r", "3e", "3r")
"""Roof zones of a gable over 7 degrees.

1 is the interior, 2e the strip along an eave, 2n along a rake, 2r on each side of the ridge,
3e the corner of eave and rake, 3r the corner of ridge and rake.

Source: ASCE 7-16, Figures 30.3-2B, 30.3-2C and 30.3-2D.
"""

_LOWEST_HEIGHT_FT = 15.0


def exposure_coefficient(height_ft: float, exposure: str) -> float:
    """Velocity pressure exposure coefficient Kz, from the equation below the table.

    The raw equation: the lower bound of 0.70 that the main frame of a low building takes in
    exposure B is not applied.

    Args:
        height_ft: Height above ground z; for roof pressures the mean roof height [ft].
        exposure: "B", "C" or "D".

    Returns:
        Kz (no unit).

    Raises:
        ValueError: Exposure unknown, or height not between 0 and the gradient height.

    Source: ASCE 7-16, Table 26.10-1 note 1 and Table 26.11-1.
    """
    if exposure not in TERRAIN:
        msg = f"exposure is {exposure!r}; expected B, C or D; take it from the site survey"
        raise ValueError(msg)
    alpha, gradient_height_ft = TERRAIN[exposure]
    _check.above_zero(height_ft, "height above ground, ft,")
    _check.within(height_ft, 0.0, gradient_height_ft, "height above ground, ft,")
    z = max(height_ft, _LOWEST_HEIGHT_FT)
    return float(2.01 * (z / gradient_height_ft) ** (2.0 / alpha))


def ground_elevation_factor(elevation_ft: float) -> float:
    """Ground elevation factor Ke, for the thinner air of high ground.

    Taking 1.0 instead is allowed, and is conservative above sea level.

    Args:
        elevation_ft: Ground elevation above sea level, negative below it [ft].

    Returns:
        Ke (no unit).

    Raises:
        ValueError: No place on land has this elevation.

    Source: ASCE 7-16, Table 26.9-1 note 2.
    """
    _check.within(elevation_ft, -1500.0, 30000.0, "ground elevation, ft,")
    return math.exp(-0.0000362 * elevation_ft)


def velocity_pressure_psf(kz: float, kzt: float, ke: float, speed_mph: float) -> float:
    """Velocity pressure q = 0.00256 Kz Kzt Kd Ke V^2, with Kd = 0.85 inside.

    Args:
        kz: Exposure coefficient (no unit).
        kzt: Topographic factor, 1.0 only where no hill, ridge or escarpment counts (no unit).
        ke: Ground elevation factor (no unit).
        speed_mph: Basic wind speed V, 3-second gust of the risk category, strength level [mph].

    Returns:
        Velocity pressure [psf].

    Raises:
        ValueError: A factor or the speed is not above zero, or Kzt is under 1.

    Source: ASCE 7-16, Equation 26.10-1.
    """
    _check.above_zero(kz, "exposure coefficient Kz")
    _check.within(kzt, 1.0, math.inf, "topographic factor Kzt")
    _check.above_zero(ke, "ground elevation factor Ke")
    _check.above_zero(speed_mph, "basic wind speed, mph,")
    return 0.00256 * kz * kzt * DIRECTIONALITY * ke * speed_mph**2


def edge_strip_ft(least_dimension_ft: float, mean_roof_height_ft: float) -> float:
    """Width a of the roof zone strips, measured in plan from the roof edge.

    Args:
        least_dimension_ft: Least horizontal dimension of the building [ft].
        mean_roof_height_ft: Mean roof height h [ft].

    Returns:
        The smaller of 10 % of the dimension and 0.4 h, not under 4 % of the dimension or 3 ft [ft].

    Raises:
        ValueError: A length is not above zero.

    Source: ASCE 7-16, Figure 30.3-2B notation.
    """
    _check.above_zero(least_dimension_ft, "least horizontal dimension, ft,")
    _check.above_zero(mean_roof_height_ft, "mean roof height, ft,")
    width = min(0.10 * least_dimension_ft, 0.4 * mean_roof_height_ft)
    return max(width, 0.04 * least_dimension_ft, 3.0)


def gable_figure(slope_deg: float) -> str:
    """The figure of gable roof coefficients that a slope takes.

    Args:
        slope_deg: Roof slope, over 7 up to 45 [degrees].

    Returns:
        Its number, such as "30.3-2B".

    Raises:
        ValueError: Slope outside the three figures.

    Source: ASCE 7-16, Figures 30.3-2B, 30.3-2C and 30.3-2D.
    """
    return _curves_of_slope(slope_deg)[0].figure


def gable_gcp_uplift(slope_deg: float, zone: str, area_sqft: float) -> float:
    """External pressure coefficient GCp away from a gable roof.

    Args:
        slope_deg: Roof slope, over 7 up to 45 [degrees].
        zone: One of GABLE_ZONES.
        area_sqft: Effective wind area [sq ft].

    Returns:
        GCp, negative (no unit).

    Raises:
        ValueError: Slope outside the three figures, zone unknown, or area not above zero.

    Source: ASCE 7-16, Figures 30.3-2B, 30.3-2C and 30.3-2D.
    """
    if zone not in GABLE_ZONES:
        msg = f"roof zone is {zone!r}; expected one of {', '.join(GABLE_ZONES)} on a gable roof"
        raise ValueError(msg)
    return _gcp(slope_deg, zone, area_sqft)


def gable_gcp_downward(slope_deg: float, area_sqft: float) -> float:
    """External pressure coefficient GCp toward a gable roof, the same in all zones.

    Args:
        slope_deg: Roof slope, over 7 up to 45 [degrees].
        area_sqft: Effective wind area [sq ft].

    Returns:
        GCp, positive (no unit).

    Raises:
        ValueError: Slope outside the three figures, or area not above zero.

    Source: ASCE 7-16, Figures 30.3-2B, 30.3-2C and 30.3-2D.
    """
    return _gcp(slope_deg, "downward", area_sqft)


@dataclass(frozen=True, slots=True)
class _Curve:
    figure: str
    slope_over_deg: float
    slope_to_deg: float
    zones: tuple[str, ...]
    area1_sqft: float
    gcp1: float
    area2_sqft: float
    gcp2: float

    def at(self, area_sqft: float) -> float:
        plotted = min(max(area_sqft, self.area1_sqft), self.area2_sqft)
        share = math.log(plotted / self.area1_sqft) / math.log(self.area2_sqft / self.area1_sqft)
        return self.gcp1 + (self.gcp2 - self.gcp1) * share


@cache
def _curves() -> tuple[_Curve, ...]:
    return tuple(
        _Curve(
            figure=row["figure"],
            slope_over_deg=float(row["slope_over_deg"]),
            slope_to_deg=float(row["slope_to_deg"]),
            zones=tuple(row["zones"].split()),
            area1_sqft=float(row["area1_sqft"]),
            gcp1=float(row["gcp1"]),
            area2_sqft=float(row["area2_sqft"]),
            gcp2=float(row["gcp2"]),
        )
        for row in _table.rows(Path(__file__).with_name("gable_gcp.csv"))
    )


def _curves_of_slope(slope_deg: float) -> tuple[_Curve, ...]:
    curves = tuple(c for c in _curves() if c.slope_over_deg < slope_deg <= c.slope_to_deg)
    if not curves:
        needed = "needs Figure 30.3-2A" if slope_deg <= 7 else "is beyond Figure 30.3-2D"
        msg = (
            f"roof slope is {slope_deg:g} degrees; the gable figures 30.3-2B to 30.3-2D hold over "
            f"7 up to 45; this slope {needed}, not in this table: ask the engineer of record"
        )
        raise ValueError(msg)
    return curves


def _gcp(slope_deg: float, zone: str, area_sqft: float) -> float:
    _check.above_zero(area_sqft, "effective wind area, sq ft,")
    curve = next(curve for curve in _curves_of_slope(slope_deg) if zone in curve.zones)
    return curve.at(area_sqft)
