"""Velocity pressure by ASCE 7-16, chapter 26: Kd is inside it."""

from types import MappingProxyType

from planset.codes.asce7 import wind

TERRAIN = MappingProxyType({"B": (7.0, 1200.0), "C": (9.5, 900.0), "D": (11.5, 700.0)})
"""Power-law exponent alpha (no unit) and gradient height zg [ft] of each exposure.

Source: ASCE 7-16, Table 26.11-1.
"""

KD_INSIDE = True
"""Whether the velocity pressure holds the directionality factor.

Source: ASCE 7-16, Equation 26.10-1.
"""


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
    return wind.exposure_coefficient(height_ft, exposure, TERRAIN, 2.01)


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
    bare = wind.velocity_pressure_without_kd_psf(kz, kzt, ke, speed_mph)
    return bare * wind.DIRECTIONALITY
