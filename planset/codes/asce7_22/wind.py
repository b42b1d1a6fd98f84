"""Velocity pressure by ASCE 7-22, chapter 26: Kd comes with the pressure equations instead."""

from types import MappingProxyType

from planset.codes.asce7 import wind

TERRAIN = MappingProxyType({"B": (7.5, 3280.0), "C": (9.8, 2460.0), "D": (11.5, 1935.0)})
"""Power-law exponent alpha (no unit) and gradient height zg [ft] of each exposure.

Source: ASCE 7-22, Table 26.11-1, second-hand from public test code of the edition.
"""

KD_INSIDE = False
"""Whether the velocity pressure holds the directionality factor.

Source: ASCE 7-22, Equation 26.10-1; a public worked example prints p = qh Kd (...).
"""


def exposure_coefficient(height_ft: float, exposure: str) -> float:
    """Velocity pressure exposure coefficient Kz, from the equation below the table.

    Args:
        height_ft: Height above ground z; for roof pressures the mean roof height [ft].
        exposure: "B", "C" or "D".

    Returns:
        Kz (no unit).

    Raises:
        ValueError: Exposure unknown, or height not between 0 and the gradient height.

    Source: ASCE 7-22, Table 26.10-1 note 1 and Table 26.11-1.
    """
    return wind.exposure_coefficient(height_ft, exposure, TERRAIN, 2.41)


def velocity_pressure_psf(kz: float, kzt: float, ke: float, speed_mph: float) -> float:
    """Velocity pressure q = 0.00256 Kz Kzt Ke V^2, without Kd.

    Args:
        kz: Exposure coefficient (no unit).
        kzt: Topographic factor, 1.0 only where no hill, ridge or escarpment counts (no unit).
        ke: Ground elevation factor (no unit).
        speed_mph: Basic wind speed V, 3-second gust of the risk category, strength level [mph].

    Returns:
        Velocity pressure, to be multiplied by Kd in every pressure equation [psf].

    Raises:
        ValueError: A factor or the speed is not above zero, or Kzt is under 1.

    Source: ASCE 7-22, Equation 26.10-1.
    """
    return wind.velocity_pressure_without_kd_psf(kz, kzt, ke, speed_mph)
