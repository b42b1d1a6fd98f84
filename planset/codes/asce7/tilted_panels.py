"""Wind on tilted panels over low-slope roofs, 29.4.3 of ASCE 7-16 and 7-22, in outline.

Friction, ballast, arrays near parapets and the shielding of inner rows are the engineer's.
"""

import math

from planset.codes import _check
from planset.codes.asce7.wind import VelocityPressure

MAXIMUM_ROOF_SLOPE_DEG = 7.0
"""Greatest roof slope of the method [degrees].

Source: ASCE 7-16 and 7-22, 29.4.3.
"""

_AREAS = (1.0, 500.0, 5000.0)
_NOMINAL = {
    "1": ((1.5, 0.35, 0.10), (2.0, 0.56, 0.30)),
    "2": ((2.0, 0.45, 0.15), (2.9, 0.65, 0.40)),
    "3": ((2.3, 0.50, 0.15), (3.5, 0.80, 0.50)),
}  # at 0 to 5 degrees and at 15 to 35 degrees


def method_limits(
    chord_ft: float, tilt_deg: float, low_edge_ft: float, high_edge_ft: float
) -> tuple[str, ...]:
    """Name each limit of the method that panels do not meet.

    Args:
        chord_ft: Panel chord length Lp [ft].
        tilt_deg: Angle between panel and roof [degrees].
        low_edge_ft: Height h1 of the low edge above the roof [ft].
        high_edge_ft: Height h2 of the high edge above the roof [ft].

    Returns:
        Of "panel chord", "tilt to roof", "height of the low edge" and "height of the high
        edge", those not met.

    Raises:
        ValueError: A length is negative or not a number.

    Source: ASCE 7-16, 29.4.3.
    """
    limits = {
        "panel chord": (chord_ft, 6.7),
        "tilt to roof": (tilt_deg, 35.0),
        "height of the low edge": (low_edge_ft, 2.0),
        "height of the high edge": (high_edge_ft, 4.0),
    }
    for name, (value, _) in limits.items():
        _check.not_negative(value, name)
    return tuple(name for name, pair in limits.items() if not _check.at_most(*pair))


def normalized_area(
    area_sqft: float, height_ft: float, longest_side_ft: float, shortest_side_ft: float
) -> float:
    """Normalized wind area An = 1000 A / max(Lb, 15)^2, Lb = min(0.4 sqrt(h WL), h, WS).

    Args:
        area_sqft: Effective wind area A [sq ft].
        height_ft: Mean roof height h [ft].
        longest_side_ft: Width of the building on its longest side, WL [ft].
        shortest_side_ft: Width of the building on its shortest side, WS [ft].

    Returns:
        An (no unit).

    Raises:
        ValueError: A value not above zero.

    Source: ASCE 7-16 and 7-22, Figure 29.4-7, second-hand.
    """
    _check.above_zero(area_sqft, "effective wind area, sq ft,")
    _check.above_zero(height_ft, "mean roof height, ft,")
    _check.above_zero(shortest_side_ft, "shortest side, ft,")
    _check.within(longest_side_ft, shortest_side_ft, math.inf, "longest side, ft,")
    length = min(0.4 * math.sqrt(height_ft * longest_side_ft), height_ft, shortest_side_ft)
    return 1000.0 * area_sqft / max(length, 15.0) ** 2


def nominal_coefficient(zone: str, tilt_deg: float, area: float) -> float:
    """Nominal net pressure coefficient (GCrn)nom, the same size up and down (no unit).

    Args:
        zone: Roof zone "1", "2" or "3".
        tilt_deg: Angle between panel and roof, 0 to 35 [degrees].
        area: Normalized wind area An (no unit).

    Returns:
        Linear in log(An), linear in the tilt between 5 and 15 degrees, constant outside.

    Raises:
        ValueError: Zone unknown, tilt out of range, or area not above zero.

    Source: ASCE 7-16, Figure 29.4-7.
    """
    if zone not in _NOMINAL:
        msg = f"roof zone is {zone!r}; expected 1, 2 or 3 for tilted panels"
        raise ValueError(msg)
    _check.within(tilt_deg, 0.0, 35.0, "tilt of panel to roof, degrees,")
    _check.above_zero(area, "normalized wind area")
    flat, steep = (_in_log_area(values, area) for values in _NOMINAL[zone])
    share = min(max((tilt_deg - 5.0) / 10.0, 0.0), 1.0)
    return flat + (steep - flat) * share


def net_coefficient(
    nominal: float, parapet_ft: float, height_ft: float, chord_ft: float, edge_factor: float
) -> float:
    """Net pressure coefficient GCrn = gamma_p gamma_c gamma_E (GCrn)nom (no unit).

    Args:
        nominal: (GCrn)nom (no unit).
        parapet_ft: Mean parapet height hpt above the roof [ft].
        height_ft: Mean roof height h [ft].
        chord_ft: Panel chord length Lp [ft].
        edge_factor: gamma_E (no unit).

    Raises:
        ValueError: A value out of range.

    Source: ASCE 7-16, Equation 29.4-6 and Figure 29.4-7.
    """
    _check.above_zero(nominal, "nominal coefficient")
    _check.not_negative(parapet_ft, "parapet height, ft,")
    _check.above_zero(height_ft, "mean roof height, ft,")
    _check.above_zero(chord_ft, "panel chord, ft,")
    _check.within(edge_factor, 1.0, 1.5, "edge factor gamma_E")
    parapet = min(1.2, 0.9 + parapet_ft / height_ft)
    chord = max(0.6 + 0.06 * chord_ft, 0.8)
    return parapet * chord * edge_factor * nominal


def pressure_psf(velocity: VelocityPressure, coefficient: float) -> float:
    """Design pressure p = qh Kd (GCrn), Kd once, the same size up and down [psf].

    Args:
        velocity: Velocity pressure at mean roof height, which knows whether it holds Kd.
        coefficient: GCrn (no unit).

    Raises:
        ValueError: Coefficient not above zero.

    Source: ASCE 7-16, Equation 29.4-5; ASCE 7-22, Equation 29.4-5 [from memory].
    """
    _check.above_zero(coefficient, "net pressure coefficient GCrn")
    return velocity.design_psf * coefficient


def _in_log_area(values: tuple[float, float, float], area: float) -> float:
    low = 0 if area < _AREAS[1] else 1
    plotted = min(max(area, _AREAS[0]), _AREAS[-1])
    share = math.log(plotted / _AREAS[low]) / math.log(_AREAS[low + 1] / _AREAS[low])
    return values[low] + (values[low + 1] - values[low]) * share
