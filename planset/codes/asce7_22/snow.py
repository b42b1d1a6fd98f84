"""Snow by ASCE 7-22, chapter 7: mapped loads at strength level, one map per risk category.

A ground snow load of an older map with these factors, or one of these maps with older factors,
gives a wrong load: the job's load must be of this edition.
"""

import math

from planset.codes import _check
from planset.codes.asce7 import snow

STRENGTH_LEVEL = True
"""Whether ground snow loads, and all that follows from them, are at strength level.

Source: ASCE 7-22, 7.2 and 2.4.1, where snow has a factor of 0.7.
"""

WINTER_WIND_NEEDED = True
"""Whether drifts need the winter wind parameter W2.

Source: ASCE 7-22, Figure 7.6-1.
"""

_LARGEST_MINIMUM_PSF = {"I": 25.0, "II": 30.0, "III": 35.0, "IV": 40.0}
_THERMAL = {"heated": 1.2, "ventilated": 1.2, "unheated": 1.2, "freezer": 1.3, "greenhouse": 0.85}


def importance_factor(risk_category: str) -> float:
    """The importance factor, 1.0: the map of the risk category holds it (no unit).

    Args:
        risk_category: "I", "II", "III" or "IV".

    Raises:
        ValueError: Category unknown.

    Source: ASCE 7-22, Equation 7.3-1, which has none.
    """
    _check.one_of(risk_category, _LARGEST_MINIMUM_PSF, "risk category")
    return 1.0


def thermal_factor(condition: str) -> float:
    """Thermal factor Ct of a roof (no unit).

    Heated roofs without ventilation take 1.0 to 1.2 by insulation and ground snow in the book;
    here they take 1.2, the upper end.

    Args:
        condition: "heated", "ventilated", "unheated" (open air too), "freezer" or "greenhouse".

    Raises:
        ValueError: Condition unknown.

    Source: ASCE 7-22, Table 7.3-2; freezer and greenhouse [from memory].
    """
    return _check.one_of(condition, _THERMAL, "thermal condition of the roof")


def flat_roof_psf(ground_psf: float, ce: float, ct: float, risk_category: str) -> float:
    """Flat roof snow load pf = 0.7 Ce Ct pg, at strength level [psf].

    Args:
        ground_psf: Ground snow load pg of this edition's map of the risk category [psf].
        ce: Exposure factor (no unit).
        ct: Thermal factor (no unit).
        risk_category: "I", "II", "III" or "IV".

    Raises:
        ValueError: A value out of range.

    Source: ASCE 7-22, Equation 7.3-1.
    """
    _check.not_negative(ground_psf, "ground snow load, psf,")
    _check.above_zero(ce, "exposure factor Ce")
    _check.above_zero(ct, "thermal factor Ct")
    return 0.7 * ce * ct * importance_factor(risk_category) * ground_psf


def minimum_psf(ground_psf: float, slope_deg: float, risk_category: str) -> float:
    """Least snow load pm of a low slope, 0 from 15 degrees on, at strength level [psf].

    A load case of its own, not combined with drifts or unbalanced snow.

    Args:
        ground_psf: Ground snow load pg [psf].
        slope_deg: Roof slope [degrees].
        risk_category: "I", "II", "III" or "IV".

    Raises:
        ValueError: A value out of range.

    Source: ASCE 7-22, 7.3.3; its upper limits 25, 30, 35 and 40 psf [from memory].
    """
    _check.not_negative(ground_psf, "ground snow load, psf,")
    _check.within(slope_deg, 0.0, 90.0, "roof slope, degrees,")
    largest = _check.one_of(risk_category, _LARGEST_MINIMUM_PSF, "risk category")
    return min(ground_psf, largest) if slope_deg < snow.LOW_SLOPE_BELOW_DEG else 0.0


def rain_on_snow_psf(
    ground_psf: float, slope_deg: float, eave_to_ridge_ft: float, risk_category: str
) -> float:
    """Surcharge of rain on snow, to be added to the balanced load, at strength level [psf].

    Args:
        ground_psf: Ground snow load pg [psf].
        slope_deg: Roof slope [degrees].
        eave_to_ridge_ft: Distance W from eave to ridge in plan [ft].
        risk_category: "I", "II", "III" or "IV".

    Raises:
        ValueError: A value out of range.

    Source: ASCE 7-22, 7.10; that it ends at the largest minimum of 7.3.3 [from memory].
    """
    _check.not_negative(ground_psf, "ground snow load, psf,")
    largest = _check.one_of(risk_category, _LARGEST_MINIMUM_PSF, "risk category")
    light = 0.0 < ground_psf <= largest
    return 8.0 if light and snow.rain_reaches(slope_deg, eave_to_ridge_ft) else 0.0


def drift_height_ft(
    ground_psf: float, fetch_ft: float, risk_category: str, winter_wind: float | None = None
) -> float:
    """Height hd of a drift, 1.5 sqrt(pg^0.74 lu^0.70 W2^1.7 / density) [ft].

    The least fetch of the edition before is gone (C7.7).

    Args:
        ground_psf: Ground snow load pg [psf].
        fetch_ft: Length lu of the roof the snow comes from [ft].
        risk_category: Its map gives `ground_psf`.
        winter_wind: Winter wind parameter W2, the share of the winter with wind over 10 mph.

    Raises:
        ValueError: W2 missing, or a value out of range.

    Source: ASCE 7-22, Equation 7.6-1 [from memory]; a published example agrees.
    """
    importance_factor(risk_category)
    _check.not_negative(ground_psf, "ground snow load, psf,")
    _check.above_zero(fetch_ft, "fetch, ft,")
    if winter_wind is None:
        msg = "winter wind parameter W2 is missing; take it from ASCE 7-22 Figure 7.6-1"
        raise ValueError(msg)
    _check.within(winter_wind, 0.0, 1.0, "winter wind parameter W2")
    carried = ground_psf**0.74 * fetch_ft**0.70 * winter_wind**1.7
    return 1.5 * math.sqrt(carried / snow.density_pcf(ground_psf))
