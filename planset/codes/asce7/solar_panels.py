"""Wind on solar panels parallel to the roof, 29.4.4 of ASCE 7-16 and 7-22."""

import math
from dataclasses import dataclass

from planset.codes import _check
from planset.codes.asce7.wind import VelocityPressure

EDGE_FACTOR_EXPOSED = 1.5
"""Array edge factor gamma_E of uplift on panels at an exposed edge (no unit).

Source: ASCE 7-16 and 7-22, 29.4.4.
"""

EDGE_FACTOR_INTERIOR = 1.0
"""Array edge factor gamma_E of uplift on other panels and of downward pressure (no unit).

Source: ASCE 7-16 and 7-22, 29.4.4; the downward case [from memory].
"""

MAXIMUM_HEIGHT_IN = 10.0
"""Greatest height h2 of the panel above the roof surface [in].

Source: ASCE 7-16 and 7-22, 29.4.4.
"""

MINIMUM_GAP_IN = 0.25
"""Least gap between panels, in both directions [in].

Source: ASCE 7-16 and 7-22, 29.4.4.
"""

MAXIMUM_CHORD_IN = 80.4
"""Greatest spacing of the gaps between panels, 6.7 ft in the book [in].

Source: ASCE 7-16 and 7-22, 29.4.4.
"""

MAXIMUM_TILT_DEG = 2.0
"""Greatest angle between panel and roof plane [degrees].

Source: ASCE 7-16 and 7-22, 29.4.4.
"""

CLEARANCE_PER_HEIGHT = 2.0
"""Least distance to a roof edge, gable ridge or hip ridge, as a multiple of h2 (no unit).

Source: ASCE 7-16 and 7-22, 29.4.4 [from memory].
"""

MINIMUM_CC_PRESSURE_PSF = 16.0
"""Least design pressure of components and cladding, in either direction [psf].

Source: ASCE 7-16 and 7-22, 30.2.2 [from memory].
"""


def pressure_equalization(area_sqft: float) -> float:
    """Panel pressure equalization factor gamma_a.

    Args:
        area_sqft: Effective wind area [sq ft].

    Returns:
        0.8 up to 10 sq ft, 0.4 from 100 sq ft on, linear in the logarithm between (no unit).

    Raises:
        ValueError: Area not above zero.

    Source: ASCE 7-16, Figure 29.4-8; ASCE 7-22, Figure 29.4-8, where one published answer of its
    guide fits the same curve.
    """
    _check.above_zero(area_sqft, "effective wind area, sq ft,")
    plotted = min(max(area_sqft, 10.0), 100.0)
    return 0.8 - 0.4 * math.log10(plotted / 10.0)


@dataclass(frozen=True, slots=True)
class PanelPressure:
    """Design pressure normal to a panel, negative away from the roof.

    Attributes:
        computed_psf: By the equation alone [psf].
        pressure_psf: Raised to the minimum where that is larger in size [psf].

    Source: ASCE 7-16 and 7-22, Equation 29.4-7 and 30.2.2.
    """

    computed_psf: float
    pressure_psf: float

    @property
    def minimum_governs(self) -> bool:
        """Whether the minimum is larger than the computed pressure."""
        return self.pressure_psf != self.computed_psf


def panel_pressure_psf(
    velocity: VelocityPressure, gcp: float, edge_factor: float, equalization: float
) -> float:
    """Design pressure normal to a panel, p = qh Kd (GCp) (gamma_E) (gamma_a), Kd once.

    Args:
        velocity: Velocity pressure at mean roof height, which knows whether it holds Kd.
        gcp: External pressure coefficient of the roof zone, negative for uplift (no unit).
        edge_factor: gamma_E, 1.5 or 1.0 (no unit).
        equalization: gamma_a; 1.0 where a limit of the method is not met (no unit).

    Returns:
        Pressure, negative for uplift, before any minimum [psf].

    Raises:
        ValueError: gamma_E neither 1.0 nor 1.5, or gamma_a not between 0.4 and 1.0.

    Source: ASCE 7-16 and 7-22, Equation 29.4-7; the place of gamma_E and gamma_a in the equation
    of 7-22 [from memory].
    """
    if edge_factor not in (EDGE_FACTOR_INTERIOR, EDGE_FACTOR_EXPOSED):
        msg = f"edge factor gamma_E is {edge_factor:g}; expected 1.5 at an exposed edge, else 1.0"
        raise ValueError(msg)
    _check.within(equalization, 0.4, 1.0, "pressure equalization factor gamma_a")
    return velocity.design_psf * gcp * edge_factor * equalization


def with_minimum_pressure_psf(
    pressure_psf: float, minimum_psf: float = MINIMUM_CC_PRESSURE_PSF
) -> float:
    """Raise a design pressure to the least one of components and cladding, keeping its sign.

    Args:
        pressure_psf: Computed pressure, negative for uplift [psf].
        minimum_psf: The least pressure in size; 0 where the jurisdiction asks for none [psf].

    Returns:
        The pressure, at least the minimum in size [psf].

    Raises:
        ValueError: The pressure is zero or not a number, so its direction is unknown, or the
            minimum is negative.

    Source: ASCE 7-16 and 7-22, 30.2.2 [from memory].
    """
    _check.not_negative(minimum_psf, "minimum pressure, psf,")
    if pressure_psf == 0 or math.isnan(pressure_psf):
        msg = f"pressure is {pressure_psf:g} psf; expected a signed pressure, negative for uplift"
        raise ValueError(msg)
    return math.copysign(max(abs(pressure_psf), minimum_psf), pressure_psf)


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

    Source: ASCE 7-16 and 7-22, 29.4.4; the clearance [from memory].
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


def exposed_gap_in(height_above_roof_in: float) -> float:
    """Gap beyond which a panel's neighbor no longer shelters it, max(4 h2, 4 ft) [in].

    Args:
        height_above_roof_in: Top of panel above the roof surface, h2 [in].

    Raises:
        ValueError: Height negative or not a number.

    Source: ASCE 7-16 and 7-22, 29.4.4, second-hand by a Canadian guide with the same rule.
    """
    _check.not_negative(height_above_roof_in, "height above roof, in,")
    return max(4.0 * height_above_roof_in, 48.0)


def is_exposed(
    to_roof_edge_in: float,
    mean_roof_height_in: float,
    to_next_array_in: float,
    to_next_panel_in: float,
    height_above_roof_in: float,
) -> bool:
    """Tell whether a panel is exposed by the geometric test.

    Args:
        to_roof_edge_in: Distance d1 from the panel to the roof edge [in].
        mean_roof_height_in: Mean roof height h [in].
        to_next_array_in: Distance to the nearest adjacent array; infinite without one [in].
        to_next_panel_in: Distance to the next panel of the row; infinite without one [in].
        height_above_roof_in: Top of panel above the roof surface, h2 [in].

    Returns:
        d1 > 0.5 h, and a gap to array or panel over `exposed_gap_in`.

    Raises:
        ValueError: A distance is negative or not a number.

    Source: ASCE 7-16 and 7-22, 29.4.4 and definitions of 26.2; the "and" by a discussion of the
    standard's committee forum.
    """
    _check.above_zero(mean_roof_height_in, "mean roof height, in,")
    for name, distance in (
        ("distance to roof edge, in,", to_roof_edge_in),
        ("distance to the next array, in,", to_next_array_in),
        ("distance to the next panel, in,", to_next_panel_in),
    ):
        _check.within(distance, 0.0, math.inf, name)
    gap = exposed_gap_in(height_above_roof_in)
    return (
        to_roof_edge_in > 0.5 * mean_roof_height_in
        and max(to_next_array_in, to_next_panel_in) > gap
    )


def exposed_reach_in(chord_in: float) -> float:
    """How far gamma_E = 1.5 reaches in from the end of a row, 1.5 Lp [in].

    Args:
        chord_in: Panel chord length Lp [in].

    Raises:
        ValueError: Chord not above zero.

    Source: ASCE 7-16 and 7-22, 29.4.4.
    """
    _check.above_zero(chord_in, "panel chord, in,")
    return 1.5 * chord_in


def strict_edge_factor(exposed: bool, to_row_end_in: float, chord_in: float) -> float:
    """Array edge factor gamma_E of uplift by the geometric test (no unit).

    Without the test take EDGE_FACTOR_EXPOSED everywhere, which is safe.

    Args:
        exposed: What `is_exposed` says.
        to_row_end_in: Distance to the end of the row at an exposed edge of the array [in].
        chord_in: Panel chord length Lp [in].

    Raises:
        ValueError: A length negative or not a number.

    Source: ASCE 7-16 and 7-22, 29.4.4.
    """
    _check.within(to_row_end_in, 0.0, math.inf, "distance to the end of the row, in,")
    near = _check.at_most(to_row_end_in, exposed_reach_in(chord_in))
    return EDGE_FACTOR_EXPOSED if exposed and near else EDGE_FACTOR_INTERIOR
