"""Allowable stress load combinations of ASCE 7-16 as one roof attachment sees them."""

import math

from planset.codes import _check


def asd_uplift_lb(dead_lb: float, wind_uplift_lb: float) -> float:
    """Net uplift of combination 7, 0.6 D + 0.6 W, with all of the dead load against the wind.

    Args:
        dead_lb: Smallest credible dead load of the array on the attachment, positive [lb].
        wind_uplift_lb: Wind force away from the roof at strength level, positive [lb].

    Returns:
        0.6 W - 0.6 D, positive when the attachment is pulled [lb].

    Raises:
        ValueError: A load is negative.

    Source: ASCE 7-16, 2.4.1 combination 7.
    """
    return asd_uplift_normal_lb(dead_lb, 0.0, wind_uplift_lb)


def asd_uplift_normal_lb(dead_lb: float, slope_deg: float, wind_uplift_lb: float) -> float:
    """Net uplift of combination 7 normal to the roof, where only D cos(slope) resists the wind.

    Args:
        dead_lb: Smallest credible dead load of the array on the attachment, positive [lb].
        slope_deg: Roof slope, 0 to 90 [degrees].
        wind_uplift_lb: Wind force normal to and away from the roof, strength level, positive [lb].

    Returns:
        0.6 W - 0.6 D cos(slope), positive when the attachment is pulled [lb].

    Raises:
        ValueError: A load is negative or the slope out of range.

    Source: ASCE 7-16, 2.4.1 combination 7.
    """
    _check.not_negative(dead_lb, "dead load, lb,")
    _check.not_negative(wind_uplift_lb, "wind uplift, lb,")
    _check.within(slope_deg, 0.0, 90.0, "roof slope, degrees,")
    return 0.6 * wind_uplift_lb - 0.6 * dead_lb * math.cos(math.radians(slope_deg))
