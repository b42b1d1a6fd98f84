"""Wind on solar panels parallel to the roof by ASCE 7-16, 29.4.4."""

import math

from planset.codes import _check

EDGE_FACTOR_EXPOSED = 1.5
"""Array edge factor gamma_E of uplift on panels at an exposed edge (no unit).

Source: ASCE 7-16, 29.4.4.
"""

EDGE_FACTOR_INTERIOR = 1.0
"""Array edge factor gamma_E of uplift on other panels and of downward pressure (no unit).

Source: ASCE 7-16, 29.4.4; the downward case [from memory].
"""

MAXIMUM_HEIGHT_IN = 10.0
"""Greatest height h2 of the panel above the roof surface [in].

Source: ASCE 7-16, 29.4.4.
"""

MINIMUM_GAP_IN = 0.25
"""Least gap between panels, in both directions [in].

Source: ASCE 7-16, 29.4.4.
"""

MAXIMUM_CHORD_IN = 80.4
"""Greatest spacing of the gaps between panels, 6.7 ft in the book [in].

Source: ASCE 7-16, 29.4.4.
"""

MAXIMUM_TILT_DEG = 2.0
"""Greatest angle between panel and roof plane [degrees].

Source: ASCE 7-16, 29.4.4.
"""

CLEARANCE_PER_HEIGHT = 2.0
"""Least distance to a roof edge, gable ridge or hip ridge, as a multiple of h2 (no unit).

Source: ASCE 7-16, 29.4.4 [from memory].
"""

MINIMUM_CC_PRESSURE_PSF = 16.0
"""Least design pressure of components and cladding, in either direction [psf].

Source: ASCE 7-16, 30.2.2 [from memory].
"""


def pressure_equalization(area_sqft: float) -> float:
    """Panel pressure equalization factor gamma_a.

    Args:
        area_sqft: Effective wind area [sq ft].

    Returns:
        0.8 up to 10 sq ft, 0.4 from 100 sq ft on, linear in the logarithm between (no unit).

    Raises:
        ValueError: Area not above zero.

    Source: ASCE 7-16, Figure 29.4-8.
    """
    _check.above_zero(area_sqft, "effective wind area, sq ft,")
    plotted = min(max(area_sqft, 10.0), 100.0)
    return 0.8 - 0.4 * math.log10(plotted / 10.0)


def panel_pressure_psf(qh_psf: float, gcp: float, edge_factor: float, equalization: float) -> float:
    """Design pressure normal to a panel, p = qh (GCp) (gamma_E) (gamma_a).

    Args:
        qh_psf: Velocity pressure at mean roof height, Kd included [psf].
        gcp: External pressure coefficient of the roof zone, negative for uplift (no unit).
        edge_factor: gamma_E, 1.5 or 1.0 (no unit).
        equalization: gamma_a; 1.0 where a limit of the method is not met (no unit).

    Returns:
        Pressure, negative for uplift, before any minimum [psf].

    Raises:
        ValueError: Velocity pressure not above zero, gamma_E neither 1.0 nor 1.5, or gamma_a not
            between 0.4 and 1.0.

    Source: ASCE 7-16, Equation 29.4-7.
    """
    _check.above_zero(qh_psf, "velocity pressure qh, psf,")
    if edge_factor not in (EDGE_FACTOR_INTERIOR, EDGE_FACTOR_EXPOSED):
        msg = f"edge factor gamma_E is {edge_factor:g}; expected 1.5 at an exposed edge, else 1.0"
        raise ValueError(msg)
    _check.within(equalization, 0.4, 1.0, "pressure equalization factor gamma_a")
    return qh_psf * gcp * edge_factor * equalization


def with_minimum_pressure_psf(pressure_psf: float) -> float:
    """Raise a design pressure to the least one of components and cladding, keeping its sign.

    Args:
        pressure_psf: Computed pressure, negative for uplift [psf].

    Returns:
        The pressure, at least 16 in size [psf].

    Raises:
        ValueError: The pressure is zero or not a number, so its direction is unknown.

    Source: ASCE 7-16, 30.2.2 [from memory].
    """
    if pressure_psf == 0 or math.isnan(pressure_psf):
        msg = f"pressure is {pressure_psf:g} psf; expected a signed pressure, negative for uplift"
        raise ValueError(msg)
    return math.copysign(max(abs(pressure_psf), MINIMUM_CC_PRESSURE_PSF), pressure_psf)


def method_limits(
    height_above_roof_in: float,
    gap_in: float,
    chord_in: float,
    clearance_in: float,
    tilt_deg: float,
) -> tuple[str, ...]:
    """Name each limit of the parallel-panel method that an array does not meet.

    Args:
        height_above_roof_in: Top of panel above the roof surface, h2 [in].
        gap_in: Least gap between neighboring panels [in].
        chord_in: Largest panel dimension between two gaps [in].
        clearance_in: Least distance from the array to a roof edge, ridge or hip [in].
        tilt_deg: Angle between panel and roof plane [degrees].

    Returns:
        Of "height above roof", "gap between panels", "panel chord", "clearance to edge and
        ridge" and "tilt to roof", those not met; empty when gamma_a may be used.

    Raises:
        ValueError: A length is negative or not a number.

    Source: ASCE 7-16, 29.4.4; the clearance [from memory].
    """
    _check.not_negative(height_above_roof_in, "height above roof, in,")
    _check.not_negative(gap_in, "gap between panels, in,")
    _check.above_zero(chord_in, "panel chord, in,")
    _check.within(tilt_deg, -90.0, 90.0, "tilt of panel to roof, degrees,")
    _check.within(clearance_in, -math.inf, math.inf, "clearance to edge and ridge, in,")
    met = {
        "height above roof": _check.at_most(height_above_roof_in, MAXIMUM_HEIGHT_IN),
        "gap between panels": _check.at_most(MINIMUM_GAP_IN, gap_in),
        "panel chord": _check.at_most(chord_in, MAXIMUM_CHORD_IN),
        "clearance to edge and ridge": _check.at_most(
            CLEARANCE_PER_HEIGHT * height_above_roof_in, clearance_in
        ),
        "tilt to roof": _check.at_most(abs(tilt_deg), MAXIMUM_TILT_DEG),
    }
    return tuple(name for name, holds in met.items() if not holds)
