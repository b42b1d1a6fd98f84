"""Load combinations of ASCE 7-16 and 7-22 as one attachment sees them.

Sources: ASCE 7-16, 2.3.1 and 2.4.1, as public pages print them; ASCE 7-22 2.4.1 equations 3a and
6a as a journal prints them. "synthetic": a full case worked out apart from this program; no
published source. The printed nets of permit calculations are in test_asce7_solar_panels.py.
"""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planset.codes.asce7.load_combinations import AttachmentLoads, loads_on_slope
from planset.codes.asce7.standard import Standard, load_standard

ASCE16, ASCE22 = load_standard(2016), load_standard(2022)
SIX_IN_TWELVE = math.degrees(math.atan(6 / 12))


def synthetic(area_sqft: float = 1.0) -> AttachmentLoads:
    """6:12, D 3.0 on the slope, ps 16.58, wind down 16 by the minimum and up 59.4 in zone 3r."""
    return loads_on_slope(
        area_sqft,
        SIX_IN_TWELVE,
        dead_psf=3.0,
        least_dead_psf=3.0,
        roof_live_psf=0.0,
        snow_psf=16.58,
        wind_down_psf=16.0,
        wind_up_psf=59.4,
    )


@pytest.mark.parametrize(
    ("text", "normal_psf", "along_psf"),
    [
        ("D + S", 15.95, 7.98),
        ("D + 0.75 (0.6 W) + 0.75 S", 19.83, 6.32),
        ("D + 0.6 W", 12.28, 1.34),
    ],
)
def test_synthetic_per_square_foot(text: str, normal_psf: float, along_psf: float) -> None:
    (found,) = (c for c in ASCE16.combine(synthetic()).loads if c.combination.text == text)
    assert found.normal_lb == pytest.approx(normal_psf, abs=0.007)  # its steps are rounded
    assert found.along_lb == pytest.approx(along_psf, abs=0.007)


def test_synthetic_per_attachment() -> None:
    found = ASCE16.combine(synthetic(10.83))
    assert found.down.normal_lb == pytest.approx(215, abs=0.5)
    assert found.down.combination.text == "D + 0.75 (0.6 W) + 0.75 S"
    assert found.along.along_lb == pytest.approx(86, abs=0.5)
    assert found.along.combination.text == "D + S"
    assert found.uplift.normal_lb == pytest.approx(-368, abs=0.8)
    assert found.uplift.combination.number == "7"


@pytest.mark.parametrize(
    ("standard", "texts"),
    [
        (
            ASCE16,
            (
                "D",
                "D + Lr",
                "D + S",
                "D + 0.6 W",
                "D + 0.75 (0.6 W) + 0.75 Lr",
                "D + 0.75 (0.6 W) + 0.75 S",
                "0.6 D + 0.6 W",
            ),
        ),
        (
            ASCE22,
            (
                "D",
                "D + Lr",
                "D + 0.7 S",
                "D + 0.6 W",
                "D + 0.75 (0.6 W) + 0.75 Lr",
                "D + 0.75 (0.6 W) + 0.75 (0.7 S)",
                "0.6 D + 0.6 W",
            ),
        ),
    ],
    ids=["7-16", "7-22"],
)
def test_the_text_and_the_factors_agree(standard: Standard, texts: tuple[str, ...]) -> None:
    combinations = standard.asd
    assert tuple(each.text for each in combinations) == texts
    for each in combinations:
        names = {"D": each.dead + each.least_dead, "Lr": each.roof_live, "S": each.snow}
        names["W"] = each.wind_down + each.wind_up
        for name, factor in names.items():
            assert written_factor(each.text, name) == pytest.approx(factor), (each.text, name)


@pytest.mark.parametrize("standard", [ASCE16, ASCE22], ids=["7-16", "7-22"])
def test_the_text_and_the_strength_factors_agree(standard: Standard) -> None:
    for each in standard.lrfd:
        assert written_factor(each.text, "D") == pytest.approx(each.dead + each.least_dead)
        assert written_factor(each.text, "S") == pytest.approx(each.snow)
        assert written_factor(each.text, "Lr") == pytest.approx(each.roof_live)
        assert written_factor(each.text, "W") == pytest.approx(each.wind_down + each.wind_up)


def written_factor(text: str, load: str) -> float:
    """The factor of a load in "D + 0.75 (0.6 W) + 0.75 S", 0 where it is not in it."""
    for term in text.split(" + "):
        *numbers, name = term.replace("(", "").replace(")", "").split()
        if name == load:
            return math.prod(float(number) for number in numbers)
    return 0.0


def test_snow_of_22_is_at_strength_level() -> None:
    # the same roof snow in strength (1.0 S) and allowable stress (0.7 S); 1.6 S and S in 7-16
    loads = replace(synthetic(), wind_down_lb=0.0, slope_deg=0.0)
    dead, snow = loads.dead_lb, loads.snow_lb
    assert ASCE16.combine(loads).down.normal_lb == pytest.approx(dead + snow)
    assert ASCE22.combine(loads).down.normal_lb == pytest.approx(dead + 0.7 * snow)
    strength16, strength22 = (s.combine(loads, s.lrfd).down.normal_lb for s in (ASCE16, ASCE22))
    assert strength16 == pytest.approx(1.2 * dead + 1.6 * snow)
    assert strength22 == pytest.approx(1.2 * dead + 1.0 * snow)


def test_strength_uplift_is_that_of_full_wind() -> None:
    # 0.9 D + 1.0 W, by hand with D normal 3 x 0.8944
    found = ASCE16.combine(synthetic(), ASCE16.lrfd).uplift
    assert found.normal_lb == pytest.approx(0.9 * 3.0 * 0.89443 - 59.4, abs=0.001)
    assert found.combination.number == "5"


def test_uplift_takes_the_smallest_dead_load_and_down_the_largest() -> None:
    loads = AttachmentLoads(0.0, 40.0, 30.0, 0.0, 0.0, 100.0, 100.0)
    found = ASCE16.combine(loads)
    assert found.uplift.normal_lb == pytest.approx(0.6 * 30 - 0.6 * 100)
    assert found.down.normal_lb == pytest.approx(40 + 0.6 * 100)


def test_snow_lies_on_the_horizontal_projection() -> None:
    # on a 60 degree slope: half the area in plan, half of that normal to the roof
    loads = loads_on_slope(
        10,
        60,
        dead_psf=0,
        least_dead_psf=0,
        roof_live_psf=0,
        snow_psf=20,
        wind_down_psf=0,
        wind_up_psf=0,
    )
    found = ASCE16.combine(loads).down
    assert loads.snow_lb == pytest.approx(100)
    assert found.normal_lb == pytest.approx(50)
    assert found.along_lb == pytest.approx(100 * math.sin(math.radians(60)))


@pytest.mark.parametrize(
    ("text", "shortest"),
    [
        ("D", "dead"),
        ("D + S", "snow"),
        ("D + Lr", "roof live"),
        ("D + 0.75 (0.6 W) + 0.75 S", "wind"),
        ("0.6 D + 0.6 W", "wind"),
    ],
)
def test_the_shortest_load_of_a_combination(text: str, shortest: str) -> None:
    (found,) = (each for each in ASCE16.asd if each.text == text)
    assert found.shortest_load == shortest


@pytest.mark.parametrize(
    "loads",
    [
        (91, 1, 1, 0, 0, 0, 0),
        (20, -1, -1, 0, 0, 0, 0),
        (20, 1, 1, -1, 0, 0, 0),
        (20, 1, 1, 0, math.nan, 0, 0),
        (20, 1, 1, 0, 0, -1, 0),
        (20, 1, 2, 0, 0, 0, 0),  # the least dead load over the largest
    ],
)
def test_loads_are_sizes(loads: tuple[float, ...]) -> None:
    with pytest.raises(ValueError, match="expected"):
        AttachmentLoads(*loads)


sizes = st.floats(0, 2000)


@given(st.sampled_from([ASCE16, ASCE22]), st.floats(0, 60), sizes, sizes, sizes, sizes, sizes)
def test_more_wind_or_snow_never_helps(
    standard: Standard, slope: float, dead: float, snow: float, up: float, down: float, more: float
) -> None:
    loads = AttachmentLoads(slope, dead, dead, 0.0, snow, down, up)
    base = standard.combine(loads)
    windier = standard.combine(replace(loads, wind_up_lb=up + more, wind_down_lb=down + more))
    snowier = standard.combine(replace(loads, snow_lb=snow + more))
    assert windier.uplift.normal_lb <= base.uplift.normal_lb
    assert windier.down.normal_lb >= base.down.normal_lb
    assert snowier.down.normal_lb >= base.down.normal_lb
    assert snowier.along.along_lb >= base.along.along_lb
    assert snowier.uplift.normal_lb == base.uplift.normal_lb or base.uplift.normal_lb >= 0
