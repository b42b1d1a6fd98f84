"""Lag screws pulled out and pushed aside at once, by NDS 2018."""

import math

from planset.codes import _check


def combined_capacity_lb(withdrawal_lb: float, lateral_lb: float, angle_deg: float) -> float:
    """Allowable resultant Z'_alpha of one screw under withdrawal and lateral load together.

    Args:
        withdrawal_lb: Adjusted withdrawal value W' p [lb].
        lateral_lb: Adjusted lateral value Z' [lb].
        angle_deg: Angle alpha between load and surface of the wood, 90 a pure pull [deg].

    Returns:
        W'p Z' / (W'p cos^2 alpha + Z' sin^2 alpha) [lb].

    Raises:
        ValueError: A value is not above zero or the angle outside 0 to 90.

    Source: NDS 2018, Equation 12.4-1.
    """
    _check.above_zero(withdrawal_lb, "withdrawal capacity, lb,")
    _check.above_zero(lateral_lb, "lateral capacity, lb,")
    _check.within(angle_deg, 0.0, 90.0, "angle of load to wood, deg,")
    angle = math.radians(angle_deg)
    across, out = math.cos(angle) ** 2, math.sin(angle) ** 2
    return withdrawal_lb * lateral_lb / (withdrawal_lb * across + lateral_lb * out)


def combined_ratio(
    uplift_lb: float, shear_lb: float, withdrawal_lb: float, lateral_lb: float
) -> float:
    """Resultant of a pull and a shear over what the screws allow in that direction.

    Where withdrawal holds over twice the lateral value the equation alone would let a little
    uplift lower the ratio of the shear; so neither load by itself may have a greater ratio.

    Args:
        uplift_lb: Pull along the screws, 0 where they are pressed [lb].
        shear_lb: Shear across them [lb].
        withdrawal_lb: Adjusted withdrawal capacity of the same screws [lb].
        lateral_lb: Adjusted lateral capacity of the same screws [lb].

    Returns:
        Demand over capacity, 1 or less holds; 0 without a load (no unit).

    Raises:
        ValueError: A load is negative or a capacity not above zero.

    Source: NDS 2018, 12.4.1; that neither load alone governs less is an interpretation.
    """
    _check.not_negative(uplift_lb, "uplift, lb,")
    _check.not_negative(shear_lb, "shear, lb,")
    angle = math.degrees(math.atan2(uplift_lb, shear_lb))
    allowed_lb = combined_capacity_lb(withdrawal_lb, lateral_lb, angle)
    resultant = math.hypot(uplift_lb, shear_lb) / allowed_lb
    return max(resultant, uplift_lb / withdrawal_lb, shear_lb / lateral_lb)


def linear_ratio(
    uplift_lb: float, shear_lb: float, withdrawal_lb: float, lateral_lb: float
) -> float:
    """The plain sum of both ratios, never below `combined_ratio`.

    Args:
        uplift_lb: Pull along the screws, 0 where they are pressed [lb].
        shear_lb: Shear across them [lb].
        withdrawal_lb: Adjusted withdrawal capacity of the same screws [lb].
        lateral_lb: Adjusted lateral capacity of the same screws [lb].

    Returns:
        U / W'p + V / Z', 1 or less holds (no unit).

    Raises:
        ValueError: A load is negative or a capacity not above zero.

    Source: NDS 2018, 12.4.1, made simpler to the safe side: an interpretation.
    """
    _check.not_negative(uplift_lb, "uplift, lb,")
    _check.not_negative(shear_lb, "shear, lb,")
    _check.above_zero(withdrawal_lb, "withdrawal capacity, lb,")
    _check.above_zero(lateral_lb, "lateral capacity, lb,")
    return uplift_lb / withdrawal_lb + shear_lb / lateral_lb
