"""Roof access by IRC 2021, R324.6; ratios worked from the plan areas of a 40 x 30 ft roof.

Ratio limits: R324.6.2 (33 %) and R324.6.2.1 (66 % with sprinklers); "not more than" includes
equality, and neither is a third or two thirds.
"""

import math

import pytest

from planset.codes.irc import roof_access

ROOF_PLAN_SQFT = 1200.0


def setback(array_plan_sqft: float, *, sprinklered: bool) -> float:
    access = roof_access.roof_access(2021)
    ratio = 100 * array_plan_sqft / ROOF_PLAN_SQFT
    return roof_access.required_ridge_setback_in(access, ratio, sprinklered)


@pytest.mark.parametrize(
    ("array_plan_sqft", "sprinklered", "setback_in"),
    [
        # R324.6.2, no sprinklers
        (321.99, False, 18),  # 26.83 %
        (386.39, False, 18),  # 32.20 %
        (396.0, False, 18),  # 33.000 %, at the limit
        (396.1, False, 36),  # just over
        (400.0, False, 36),  # one third is over 33 %
        (590.32, False, 36),  # 49.19 %
        # R324.6.2.1, sprinklers
        (590.32, True, 18),  # 49.19 %
        (792.0, True, 18),  # 66.000 %, at the limit
        (800.0, True, 36),  # two thirds are over 66 %
        (837.18, True, 36),  # 69.76 %
        (0.0, False, 18),
        (1200.0, True, 36),
    ],
)
def test_ridge_setback(array_plan_sqft: float, sprinklered: bool, setback_in: float) -> None:
    assert setback(array_plan_sqft, sprinklered=sprinklered) == setback_in


def test_rounding_noise_does_not_move_the_limit() -> None:
    access = roof_access.roof_access(2021)
    assert roof_access.required_ridge_setback_in(access, 33 * (1 + 1e-12), False) == 18
    assert roof_access.required_ridge_setback_in(access, 33 * (1 + 1e-7), False) == 36


@pytest.mark.parametrize("ratio_percent", [-1.0, 100.1, math.nan])
def test_impossible_ratio_is_refused(ratio_percent: float) -> None:
    access = roof_access.roof_access(2021)
    with pytest.raises(ValueError, match="expected 0 to 100"):
        roof_access.required_ridge_setback_in(access, ratio_percent, False)


def test_numbers_of_2021() -> None:
    access = roof_access.roof_access(2021)
    assert access.edition == 2021
    assert access.pathway_width_in == 36  # R324.6.1
    assert access.pathways_on_building == 2  # R324.6.1
    assert (access.ridge_setback_low_in, access.ridge_setback_high_in) == (18, 36)  # R324.6.2
    assert access.area_limit_percent == 33  # R324.6.2
    assert access.area_limit_sprinklered_percent == 66  # R324.6.2.1
    assert access.exempt_slope == pytest.approx(2 / 12)  # R324.6 exception 3


def test_exempt_slope_does_not_reach_nine_and_a_half_degrees() -> None:
    # 9.5 degrees is 2.008:12, over 2:12
    assert math.tan(math.radians(9.5)) > roof_access.roof_access(2021).exempt_slope


def test_editions_are_those_of_the_table() -> None:
    assert roof_access.editions() == (2021,)


def test_unknown_edition_lists_the_known() -> None:
    with pytest.raises(ValueError, match="expected one of 2021"):
        roof_access.roof_access(2012)
