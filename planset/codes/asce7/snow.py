"""Snow on roofs, as ASCE 7-16 and 7-22 share it: slope, exposure, density, unbalanced loads."""

from __future__ import annotations

import math
from dataclasses import dataclass

from planset.codes import _check

PANEL_THERMAL_FACTOR = 1.2
"""Thermal factor Ct of snow on panels, which have cold air below them (no unit).

Source: ASCE 7-16 and 7-22, Table 7.3-2, open air; that panels count as such: interpretation, as a
published attachment-spacing document takes it.
"""

LOW_SLOPE_BELOW_DEG = 15.0
"""Slope from which on the minimum of low slopes no longer holds [degrees].

Source: ASCE 7-16, 7.3.4; ASCE 7-22, 7.3.3 [from memory].
"""

UNBALANCED_SLOPES_DEG = (math.degrees(math.atan(0.5 / 12)), math.degrees(math.atan(7 / 12)))
"""Slopes of hip and gable roofs that need unbalanced snow, 1/2 in 12 to 7 in 12 [degrees].

Source: ASCE 7-16 and 7-22, 7.6.1.
"""

_NARROW_FT = 20.0
_BARE_FROM_DEG = 70.0
_EXPOSURE = {
    "B": {"fully": 0.9, "partially": 1.0, "sheltered": 1.2},
    "C": {"fully": 0.9, "partially": 1.0, "sheltered": 1.1},
    "D": {"fully": 0.8, "partially": 0.9, "sheltered": 1.0},
}
_FULL_UP_TO_DEG = {
    False: ((1.0, 30.0), (1.1, 37.5), (1.2, 45.0)),
    True: ((1.0, 5.0), (1.1, 10.0), (1.2, 15.0)),
}  # slippery or not: Ct and the slope up to which Cs is 1


@dataclass(frozen=True, slots=True)
class UnbalancedSnow:
    """Snow after wind has carried it over the ridge, on the horizontal projection, in outline.

    Attributes:
        windward_psf: On the windward slope [psf].
        leeward_psf: On the whole leeward slope [psf].
        surcharge_psf: On top of that beside the ridge [psf].
        surcharge_length_ft: How far from the ridge, in plan [ft].

    Source: ASCE 7-16 and 7-22, 7.6.1.
    """

    windward_psf: float
    leeward_psf: float
    surcharge_psf: float
    surcharge_length_ft: float


def exposure_factor(exposure: str, roof_exposure: str) -> float:
    """Exposure factor Ce (no unit).

    Args:
        exposure: Terrain "B", "C" or "D".
        roof_exposure: "fully", "partially" or "sheltered".

    Raises:
        ValueError: A word is unknown.

    Source: ASCE 7-16, Table 7.3-1; ASCE 7-22, Table 7.3-1, the same [from memory].
    """
    try:
        return _EXPOSURE[exposure][roof_exposure]
    except KeyError:
        msg = (
            f"exposure is {exposure!r} and the roof {roof_exposure!r} exposed; expected B, C or D "
            "and fully, partially or sheltered"
        )
        raise ValueError(msg) from None


def slope_factor(slope_deg: float, ct: float, *, slippery: bool) -> float:
    """Roof slope factor Cs: 1, then falling straight to 0 at 70 degrees (no unit).

    A slippery surface counts as such only where nothing keeps the snow from sliding off; over a
    warm roof (Ct up to 1.0) its insulation must also be R-20, or R-30 without ventilation.

    Args:
        slope_deg: Roof slope [degrees].
        ct: Thermal factor; between 1.0, 1.1 and 1.2 Cs is linear in it (no unit).
        slippery: Whether the surface is slippery and unobstructed.

    Raises:
        ValueError: Slope or thermal factor out of range.

    Source: ASCE 7-16 and 7-22, Figure 7.4-1 and 7.4; the insulation [from memory].
    """
    _check.within(slope_deg, 0.0, 90.0, "roof slope, degrees,")
    _check.within(ct, 0.8, 1.4, "thermal factor Ct")
    curves = _FULL_UP_TO_DEG[slippery]
    values = [_on_curve(slope_deg, full) for _, full in curves]
    place = min(max((ct - curves[0][0]) / 0.1, 0.0), 2.0)
    low = min(int(place), 1)
    return values[low] + (values[low + 1] - values[low]) * (place - low)


def sloped_roof_psf(flat_psf: float, cs: float) -> float:
    """Sloped roof snow load ps = Cs pf, on the horizontal projection [psf].

    Args:
        flat_psf: Flat roof snow load pf [psf].
        cs: Roof slope factor (no unit).

    Raises:
        ValueError: A value is negative, or Cs over 1.

    Source: ASCE 7-16 and 7-22, Equation 7.4-1.
    """
    _check.not_negative(flat_psf, "flat roof snow load, psf,")
    _check.within(cs, 0.0, 1.0, "slope factor Cs")
    return cs * flat_psf


def density_pcf(ground_psf: float) -> float:
    """Snow density 0.13 pg + 14, not over 30 [lb per cu ft].

    Args:
        ground_psf: Ground snow load pg [psf].

    Raises:
        ValueError: Load negative.

    Source: ASCE 7-16 and 7-22, Equation 7.7-1.
    """
    _check.not_negative(ground_psf, "ground snow load, psf,")
    return min(0.13 * ground_psf + 14.0, 30.0)


def rain_reaches(slope_deg: float, eave_to_ridge_ft: float) -> bool:
    """Tell whether a roof is flat enough for the surcharge of rain on snow, slope < W / 50.

    Args:
        slope_deg: Roof slope [degrees].
        eave_to_ridge_ft: Distance W from eave to ridge in plan [ft].

    Raises:
        ValueError: Slope out of range or W not above zero.

    Source: ASCE 7-16 and 7-22, 7.10.
    """
    _check.within(slope_deg, 0.0, 90.0, "roof slope, degrees,")
    _check.above_zero(eave_to_ridge_ft, "distance from eave to ridge, ft,")
    return slope_deg < eave_to_ridge_ft / 50.0


def unbalanced(
    ground_psf: float,
    balanced_psf: float,
    slope_deg: float,
    eave_to_ridge_ft: float,
    drift_height_ft: float,
    importance: float,
    *,
    simple_rafters: bool,
) -> UnbalancedSnow | None:
    """Unbalanced snow on a hip or gable roof, in outline; None where the slope needs none.

    Args:
        ground_psf: Ground snow load pg [psf].
        balanced_psf: Sloped roof snow load ps [psf].
        slope_deg: Roof slope [degrees].
        eave_to_ridge_ft: Distance W from eave to ridge in plan [ft].
        drift_height_ft: Drift height hd for a fetch of W [ft].
        importance: Importance factor Is; 1.0 where the map holds it (no unit).
        simple_rafters: Whether simply supported members span from ridge to eave.

    Raises:
        ValueError: A value out of range.

    Source: ASCE 7-16 and 7-22, 7.6.1 and Figure 7.6-2; the loads of narrow roofs [from memory].
    """
    _check.not_negative(balanced_psf, "sloped roof snow load, psf,")
    _check.within(slope_deg, 0.0, 90.0, "roof slope, degrees,")
    _check.above_zero(eave_to_ridge_ft, "distance from eave to ridge, ft,")
    _check.not_negative(drift_height_ft, "drift height, ft,")
    density = density_pcf(ground_psf)
    flattest, steepest = UNBALANCED_SLOPES_DEG
    if not (_check.at_most(flattest, slope_deg) and _check.at_most(slope_deg, steepest)):
        return None
    if simple_rafters and _check.at_most(eave_to_ridge_ft, _NARROW_FT):
        return UnbalancedSnow(0.0, importance * ground_psf, 0.0, 0.0)
    run_per_rise = 1.0 / math.tan(math.radians(slope_deg))
    surcharge = drift_height_ft * density / math.sqrt(run_per_rise)
    length = 8.0 / 3.0 * drift_height_ft * math.sqrt(run_per_rise)
    return UnbalancedSnow(0.3 * balanced_psf, balanced_psf, surcharge, length)


def _on_curve(slope_deg: float, full_up_to_deg: float) -> float:
    falling = (_BARE_FROM_DEG - slope_deg) / (_BARE_FROM_DEG - full_up_to_deg)
    return min(max(falling, 0.0), 1.0)
