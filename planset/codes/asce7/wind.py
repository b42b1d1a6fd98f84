"""Velocity pressure and edge strips, as the editions of ASCE 7 since 2016 share them."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from planset.citation import CodeEdition
from planset.codes import _check

DIRECTIONALITY = 0.85
"""Wind directionality factor Kd of buildings, cladding and rooftop panels (no unit).

Source: ASCE 7-16 and 7-22, Table 26.6-1.
"""

LOW_EXPOSURE_FLOOR = 0.70
"""Kz that older practice takes at least below 30 ft in exposure B (no unit).

It belongs to the main frame of low buildings, not to cladding; taking it is conservative.

Source: ASCE 7-10, Table 30.3-1 [from memory].
"""

_LOWEST_HEIGHT_FT = 15.0
_FLOOR_BELOW_FT = 30.0


@dataclass(frozen=True, slots=True)
class VelocityPressure:
    """A velocity pressure that knows whether its edition has already put Kd into it.

    Attributes:
        edition: Edition it was computed by.
        height_ft: Height above ground z [ft].
        exposure: "B", "C" or "D".
        kz: Exposure coefficient, unitless.
        floor_used: Whether `kz` was raised to LOW_EXPOSURE_FLOOR.
        kzt: Topographic factor, unitless.
        ke: Ground elevation factor, unitless.
        kd: Directionality factor, unitless.
        kd_inside: Whether `q_psf` holds `kd`.
        speed_mph: Basic wind speed V [mph].
        q_psf: Velocity pressure as the edition prints it [psf].

    Source: ASCE 7-16, Equation 26.10-1, Kd inside; ASCE 7-22, Equation 26.10-1, Kd outside.
    """

    edition: CodeEdition
    height_ft: float
    exposure: str
    kz: float
    floor_used: bool
    kzt: float
    ke: float
    kd: float
    kd_inside: bool
    speed_mph: float
    q_psf: float

    def __post_init__(self) -> None:
        _check.above_zero(self.q_psf, "velocity pressure qh, psf,")

    @property
    def design_psf(self) -> float:
        """The velocity pressure with Kd in it exactly once [psf]."""
        return self.q_psf if self.kd_inside else self.q_psf * self.kd


def exposure_coefficient(
    height_ft: float, exposure: str, terrain: Mapping[str, tuple[float, float]], factor: float
) -> float:
    """Velocity pressure exposure coefficient Kz, factor x (z / zg)^(2 / alpha).

    Args:
        height_ft: Height above ground z; below 15 ft the value of 15 ft holds [ft].
        exposure: "B", "C" or "D".
        terrain: Exposure to power-law exponent alpha (no unit) and gradient height zg [ft].
        factor: The factor of the edition (no unit).

    Returns:
        Kz (no unit).

    Raises:
        ValueError: Exposure unknown, or height not between 0 and the gradient height.

    Source: ASCE 7-16 and 7-22, Table 26.10-1 note 1 and Table 26.11-1.
    """
    if exposure not in terrain:
        msg = f"exposure is {exposure!r}; expected B, C or D; take it from the site survey"
        raise ValueError(msg)
    alpha, gradient_height_ft = terrain[exposure]
    _check.above_zero(height_ft, "height above ground, ft,")
    _check.within(height_ft, 0.0, gradient_height_ft, "height above ground, ft,")
    z = max(height_ft, _LOWEST_HEIGHT_FT)
    return float(factor * (z / gradient_height_ft) ** (2.0 / alpha))


def floor_applies(height_ft: float, exposure: str, kz: float) -> bool:
    """Tell whether the floor of exposure B would raise a Kz.

    Args:
        height_ft: Height above ground [ft].
        exposure: "B", "C" or "D".
        kz: Exposure coefficient without the floor (no unit).

    Source: ASCE 7-10, Table 30.3-1 [from memory].
    """
    return exposure == "B" and height_ft < _FLOOR_BELOW_FT and kz < LOW_EXPOSURE_FLOOR


def ground_elevation_factor(elevation_ft: float) -> float:
    """Ground elevation factor Ke, for the thinner air of high ground.

    Taking 1.0 instead is allowed, and is conservative above sea level.

    Args:
        elevation_ft: Ground elevation above sea level, negative below it [ft].

    Returns:
        Ke (no unit).

    Raises:
        ValueError: No place on land has this elevation.

    Source: ASCE 7-16 and 7-22, Table 26.9-1 note 2.
    """
    _check.within(elevation_ft, -1500.0, 30000.0, "ground elevation, ft,")
    return math.exp(-0.0000362 * elevation_ft)


def velocity_pressure_without_kd_psf(kz: float, kzt: float, ke: float, speed_mph: float) -> float:
    """The part 0.00256 Kz Kzt Ke V^2 that both editions share, without directionality.

    Args:
        kz: Exposure coefficient (no unit).
        kzt: Topographic factor, 1.0 only where no hill, ridge or escarpment counts (no unit).
        ke: Ground elevation factor (no unit).
        speed_mph: Basic wind speed V, 3-second gust of the risk category, strength level [mph].

    Returns:
        Velocity pressure [psf].

    Raises:
        ValueError: A factor or the speed is not above zero, or Kzt is under 1.

    Source: ASCE 7-16 and 7-22, Equation 26.10-1.
    """
    _check.above_zero(kz, "exposure coefficient Kz")
    _check.within(kzt, 1.0, math.inf, "topographic factor Kzt")
    _check.above_zero(ke, "ground elevation factor Ke")
    _check.above_zero(speed_mph, "basic wind speed, mph,")
    return 0.00256 * kz * kzt * ke * speed_mph**2


def edge_strip_ft(least_dimension_ft: float, mean_roof_height_ft: float) -> float:
    """Width a of the roof zone strips, measured in plan from the roof edge.

    Args:
        least_dimension_ft: Least horizontal dimension of the building [ft].
        mean_roof_height_ft: Mean roof height h [ft].

    Returns:
        The smaller of 10 % of the dimension and 0.4 h, not under 4 % of the dimension or 3 ft [ft].

    Raises:
        ValueError: A length is not above zero.

    Source: ASCE 7-16 and 7-22, Figure 30.3-2B notation.
    """
    _check.above_zero(least_dimension_ft, "least horizontal dimension, ft,")
    _check.above_zero(mean_roof_height_ft, "mean roof height, ft,")
    width = min(0.10 * least_dimension_ft, 0.4 * mean_roof_height_ft)
    return max(width, 0.04 * least_dimension_ft, 3.0)
