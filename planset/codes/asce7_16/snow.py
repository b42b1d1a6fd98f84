"""Snow by ASCE 7-16, chapter 7: mapped loads of 50 years, an importance factor beside them."""

import math

from planset.codes import _check
from planset.codes.asce7 import snow

STRENGTH_LEVEL = False
"""Whether ground snow loads, and all that follows from them, are at strength level.

Source: ASCE 7-16, 7.2 and 2.3.1, where snow has a factor of 1.6.
"""

WINTER_WIND_NEEDED = False
"""Whether drifts need the winter wind parameter W2.

Source: ASCE 7-16, Figure 7.6-1.
"""

_IMPORTANCE = {"I": 0.8, "II": 1.0, "III": 1.1, "IV": 1.2}
_THERMAL = {"heated": 1.0, "ventilated": 1.1, "unheated": 1.2, "freezer": 1.3, "greenhouse": 0.85}
_LEAST_FETCH_FT = 20.0
_LIGHT_PSF = 20.0  # ground snow load up to which both the minimum and rain on snow go by it


def importance_factor(risk_category: str) -> float:
    """Importance factor Is (no unit).

    Args:
        risk_category: "I", "II", "III" or "IV".

    Raises:
        ValueError: Category unknown.

    Source: ASCE 7-16, Table 1.5-2 [from memory].
    """
    return _check.one_of(risk_category, _IMPORTANCE, "risk category")


def thermal_factor(condition: str) -> float:
    """Thermal factor Ct of a roof (no unit).

    Args:
        condition: "heated", "ventilated" (cold, over R-25 or more), "unheated" (open air too),
            "freezer" or "greenhouse" (heated all the time, under R-2).

    Raises:
        ValueError: Condition unknown.

    Source: ASCE 7-16, Table 7.3-2.
    """
    return _check.one_of(condition, _THERMAL, "thermal condition of the roof")


def flat_roof_psf(ground_psf: float, ce: float, ct: float, risk_category: str) -> float:
    """Flat roof snow load pf = 0.7 Ce Ct Is pg [psf].

    Args:
        ground_psf: Ground snow load pg of this edition's map [psf].
        ce: Exposure factor (no unit).
        ct: Thermal factor (no unit).
        risk_category: "I", "II", "III" or "IV".

    Raises:
        ValueError: A value out of range.

    Source: ASCE 7-16, Equation 7.3-1.
    """
    _check.not_negative(ground_psf, "ground snow load, psf,")
    _check.above_zero(ce, "exposure factor Ce")
    _check.above_zero(ct, "thermal factor Ct")
    return 0.7 * ce * ct * importance_factor(risk_category) * ground_psf


def minimum_psf(ground_psf: float, slope_deg: float, risk_category: str) -> float:
    """Least snow load pm of a low slope, 0 from 15 degrees on [psf].

    A load case of its own, not combined with drifts or unbalanced snow.

    Args:
        ground_psf: Ground snow load pg [psf].
        slope_deg: Roof slope [degrees].
        risk_category: "I", "II", "III" or "IV".

    Raises:
        ValueError: A value out of range.

    Source: ASCE 7-16, 7.3.4.
    """
    _check.not_negative(ground_psf, "ground snow load, psf,")
    _check.within(slope_deg, 0.0, 90.0, "roof slope, degrees,")
    if slope_deg >= snow.LOW_SLOPE_BELOW_DEG:
        return 0.0
    return importance_factor(risk_category) * min(ground_psf, _LIGHT_PSF)


def rain_on_snow_psf(
    ground_psf: float,
    slope_deg: float,
    eave_to_ridge_ft: float,
    risk_category: str,
) -> float:
    """Surcharge of rain on snow, to be added to the balanced load [psf].

    Args:
        ground_psf: Ground snow load pg [psf].
        slope_deg: Roof slope [degrees].
        eave_to_ridge_ft: Distance W from eave to ridge in plan [ft].
        risk_category: Of no effect in this edition.

    Raises:
        ValueError: A value out of range.

    Source: ASCE 7-16, 7.10.
    """
    _check.not_negative(ground_psf, "ground snow load, psf,")
    light = 0.0 < ground_psf <= _LIGHT_PSF
    return 5.0 if light and snow.rain_reaches(slope_deg, eave_to_ridge_ft) else 0.0


def drift_height_ft(
    ground_psf: float,
    fetch_ft: float,
    risk_category: str,
    winter_wind: float | None = None,
) -> float:
    """Height hd of a drift, (0.43 lu^(1/3) (pg + 10)^(1/4) - 1.5) sqrt(Is), not under 0 [ft].

    Args:
        ground_psf: Ground snow load pg [psf].
        fetch_ft: Length lu of the roof the snow comes from [ft]; one under 20 ft counts as that.
        risk_category: "I", "II", "III" or "IV".
        winter_wind: Of no effect in this edition.

    Raises:
        ValueError: A value out of range.

    Source: ASCE 7-16, 7.6.1 and Figure 7.6-1; the root of Is [from memory].
    """
    _check.not_negative(ground_psf, "ground snow load, psf,")
    _check.above_zero(fetch_ft, "fetch, ft,")
    fetch_ft = max(fetch_ft, _LEAST_FETCH_FT)
    height = 0.43 * math.cbrt(fetch_ft) * math.sqrt(math.sqrt(ground_psf + 10.0)) - 1.5
    return max(height * math.sqrt(importance_factor(risk_category)), 0.0)
