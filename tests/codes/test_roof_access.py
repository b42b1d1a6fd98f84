"""Roof access on dwellings by every edition; ratios are of plan areas of a 40 x 30 ft roof.

Ratio limits: IRC 2021 R324.6.2 (33 %) and R324.6.2.1 (66 % with sprinklers); "not more than"
includes equality, and neither is a third or two thirds.
"""

import math

import pytest

from planset.citation import CodeEdition, read_edition
from planset.codes.roof_access import (
    WITHOUT_ROOF_ACCESS,
    DwellingAccess,
    dwelling_access,
    dwelling_editions,
    required_ridge_setback_in,
)

ROOF_PLAN_SQFT = 1200.0

BY_SLOPE = (
    "IFC 2012", "IFC 2015", "IRC 2015", "CRC 2013", "CRC 2016", "CFC 2013", "CFC 2016",
    "NFPA 1 2015",
)  # fmt: skip
BY_AREA = (
    "IFC 2018", "IFC 2021", "IFC 2024", "IRC 2018", "IRC 2021", "IRC 2024",
    "CRC 2016+2018", "CRC 2019", "CRC 2022", "CRC 2025",
    "CFC 2016+2018", "CFC 2019", "CFC 2022", "CFC 2025",
)  # fmt: skip

by_slope = pytest.mark.parametrize("written", BY_SLOPE)
by_area = pytest.mark.parametrize("written", BY_AREA)


def access_of(written: str) -> DwellingAccess:
    return dwelling_access(read_edition(written))


def setback(written: str, array_plan_sqft: float, *, sprinklered: bool) -> float:
    ratio = 100 * array_plan_sqft / ROOF_PLAN_SQFT
    return required_ridge_setback_in(access_of(written), ratio, sprinklered)


@pytest.mark.parametrize(
    ("array_plan_sqft", "sprinklered", "setback_in"),
    [
        # IRC 2021 R324.6.2, IFC 2018 1204.2.1.2: no sprinklers
        (321.99, False, 18),  # 26.83 %
        (386.39, False, 18),  # 32.20 %
        (349.46, False, 18),  # 29.12 %
        (396.0, False, 18),  # 33.000 %, at the limit
        (396.1, False, 36),  # just over
        (400.0, False, 36),  # one third is over 33 %
        (590.32, False, 36),  # 49.19 %: between 33 and 66 % without sprinklers is 36 in
        # IRC 2021 R324.6.2.1, IFC 2018 1204.2.1.3: sprinklers
        (590.32, True, 18),  # 49.19 %
        (792.0, True, 18),  # 66.000 %, at the limit
        (800.0, True, 36),  # two thirds are over 66 %
        (837.18, True, 36),  # 69.76 %
        (0.0, False, 18),
        (1200.0, True, 36),
    ],
)
@by_area
def test_ridge_setback_by_area(
    written: str, array_plan_sqft: float, sprinklered: bool, setback_in: float
) -> None:
    assert setback(written, array_plan_sqft, sprinklered=sprinklered) == setback_in


@by_slope
def test_ridge_setback_without_a_ratio(written: str) -> None:
    # IFC 2012 605.11.3.2.4: no higher than 3 ft below the ridge; of 2015 from memory
    for array_plan_sqft in (0.0, 321.99, 396.0, 837.18):
        for sprinklered in (False, True):
            assert setback(written, array_plan_sqft, sprinklered=sprinklered) == 36
    assert access_of(written).area_limit(sprinklered=True) is None


def test_rounding_noise_does_not_move_the_limit() -> None:
    access = access_of("IRC 2021")
    assert required_ridge_setback_in(access, 33 * (1 + 1e-12), False) == 18
    assert required_ridge_setback_in(access, 33 * (1 + 1e-7), False) == 36


@pytest.mark.parametrize("ratio_percent", [-1.0, 100.1, math.nan])
def test_impossible_ratio_is_refused(ratio_percent: float) -> None:
    with pytest.raises(ValueError, match="expected 0 to 100"):
        required_ridge_setback_in(access_of("IRC 2021"), ratio_percent, False)


@by_area
def test_numbers_by_area(written: str) -> None:
    access = access_of(written)
    assert access.edition == read_edition(written)
    assert access.pathway_width_in == 36  # IRC 2018 R324.6.1
    assert access.pathways_on_building == 2  # R324.6.1
    assert access.separate_planes  # R324.6.1
    assert access.street_side  # R324.6.1
    assert access.pathways_per_plane(hip_roof=True) == 1  # R324.6.1
    assert access.pathways_per_plane(hip_roof=False) == 1
    assert access.adjacent_plane_counts  # R324.6.1: same, adjacent or straddling
    assert (access.area_limit(sprinklered=False), access.area_limit(sprinklered=True)) == (33, 66)
    assert access.hip_valley_setback_in == 0  # no hip or valley rule any more
    assert not access.ridge_at_a_point  # a setback at a ridge, not below its height
    assert access.escape_pathway_in == 36  # IRC 2018, page 111
    assert access.greatest_array_side_in == 0
    assert access.exempt_slope == pytest.approx(2 / 12)  # R324.6 exception 3


@by_slope
def test_numbers_by_slope(written: str) -> None:
    access = access_of(written)
    assert access.edition == read_edition(written)
    assert access.pathway_width_in == 36  # IFC 2012 605.11.3.2.1: 3 ft
    assert access.pathways_on_building == 0
    assert not access.separate_planes
    assert not access.street_side
    assert access.pathways_per_plane(hip_roof=True) == 1  # 605.11.3.2.1
    assert access.pathways_per_plane(hip_roof=False) == 2  # 605.11.3.2.2
    assert not access.adjacent_plane_counts  # on each slope that carries modules
    assert access.hip_valley_setback_in == 18  # 605.11.3.2.3, with modules on both sides
    assert access.ridge_at_a_point  # no higher than 3 ft below the ridge
    assert access.escape_pathway_in == 0
    assert access.exempt_slope == pytest.approx(2 / 12)


@pytest.mark.parametrize(
    ("written", "side_in"),
    [
        ("IFC 2012", 0),
        ("IFC 2015", 1800),  # 605.11.1.2.1, 150 ft, from memory
        ("IRC 2015", 1800),  # from memory
        ("CFC 2016", 1800),  # a summary of the 2016 cycle: 150 ft each axis
        ("CRC 2013", 0),
        ("NFPA 1 2015", 0),
    ],
)
def test_greatest_array_on_a_dwelling(written: str, side_in: float) -> None:
    assert access_of(written).greatest_array_side_in == side_in
    assert ("array_size" in access_of(written).clauses) == bool(side_in)


def test_a_valley_with_modules_on_both_sides() -> None:
    # 17 in fail by one inch in 2012; in 2018 there is no rule
    assert access_of("IFC 2012").hip_valley_setback_in - 17 == 1
    assert access_of("IRC 2018").hip_valley_setback_in == 0


def test_exempt_slope_does_not_reach_nine_and_a_half_degrees() -> None:
    # 9.5 degrees is 2.008:12, over 2:12
    slope = math.tan(math.radians(9.5))
    assert 12 * slope == pytest.approx(2.008, abs=5e-4)
    assert all(slope > dwelling_access(edition).exempt_slope for edition in dwelling_editions())


@pytest.mark.parametrize(
    ("written", "topic", "clause"),
    [  # the citation drifts: 605.11, 1204, 1205; R324.7, R324.6, R329.6
        ("IFC 2012", "pathway_per_plane_hip", "605.11.3.2.1"),
        ("IFC 2012", "pathway_per_plane", "605.11.3.2.2"),
        ("IFC 2012", "hip_valley", "605.11.3.2.3"),
        ("IFC 2012", "ridge", "605.11.3.2.4"),
        ("IFC 2012", "access_points", "605.11.3.1"),
        ("IFC 2015", "pathway_per_plane_hip", "605.11.1.2.2"),
        ("IFC 2015", "pathway_per_plane", "605.11.1.2.3"),
        ("IFC 2015", "hip_valley", "605.11.1.2.4"),
        ("IFC 2015", "ridge", "605.11.1.2.5"),
        ("IFC 2018", "pathways_on_building", "1204.2.1.1"),
        ("IFC 2018", "street_side", "1204.2.1.1"),
        ("IFC 2018", "ridge", "1204.2.1.2"),
        ("IFC 2018", "ridge_sprinklered", "1204.2.1.3"),
        ("IFC 2018", "escape_openings", "1204.2.2"),
        ("IFC 2021", "pathways_on_building", "1205.2.1.1"),
        ("IFC 2021", "ridge", "1205.2.1.2"),
        ("IFC 2024", "ridge", "1205.2.1.2"),
        ("IRC 2015", "scope", "R324.7"),
        ("IRC 2018", "pathways_on_building", "R324.6.1"),
        ("IRC 2018", "ridge", "R324.6.2"),
        ("IRC 2018", "ridge_sprinklered", "R324.6.2.1"),
        ("IRC 2021", "pathway_per_plane", "R324.6.1"),
        ("IRC 2021", "ridge", "R324.6.2"),
        ("IRC 2021", "escape_openings", "R324.6.3"),  # from memory
        ("IRC 2024", "pathways_on_building", "R329.6.1"),
        ("IRC 2024", "ridge", "R329.6.2"),
        ("IRC 2024", "ridge_sprinklered", "R329.6.2.1"),
        ("CRC 2013", "ridge", "R331"),
        ("CRC 2022", "ridge", "R324.6.2"),
        ("CRC 2025", "scope", "R329.6"),  # from memory
        ("CFC 2019", "ridge", "1204.2.1.2"),
        ("CFC 2022", "pathways_on_building", "1205.2.1.1"),
        ("NFPA 1 2015", "access_points", "11.12.2.2.1.3"),
        ("NFPA 1 2015", "ridge", "11.12.2.2"),
    ],
)
def test_clauses(written: str, topic: str, clause: str) -> None:
    assert access_of(written).clauses[topic] == clause


def test_a_topic_has_a_clause_where_there_is_a_rule() -> None:
    for access in map(dwelling_access, dwelling_editions()):
        has = access.clauses
        assert {"scope", "pathway_per_plane", "pathway_per_plane_hip", "ridge"} <= set(has)
        assert ("pathways_on_building" in has) == (access.pathways_on_building > 0)
        assert ("street_side" in has) == access.street_side
        assert ("ridge_sprinklered" in has) == (access.area_limit_sprinklered_percent is not None)
        assert ("hip_valley" in has) == (access.hip_valley_setback_in > 0)
        assert ("escape_openings" in has) == (access.escape_pathway_in > 0)


def test_california_takes_the_numbers_of_its_base() -> None:
    # cycles and base years: 2013 on 2012, 2016 on 2015, 2018 rules by supplement, 2019, 2022, 2025
    for written, base in (
        ("CFC 2013", "IFC 2012"),
        ("CFC 2016", "IFC 2015"),
        ("CFC 2016+2018", "IFC 2018"),
        ("CFC 2019", "IFC 2018"),
        ("CFC 2022", "IFC 2021"),
        ("CFC 2025", "IFC 2024"),
        ("CRC 2013", "IFC 2012"),
        ("CRC 2022", "IRC 2021"),
        ("CRC 2025", "IRC 2024"),
    ):
        ours, theirs = access_of(written), access_of(base)
        for field in DwellingAccess.__slots__:
            if field not in ("edition", "clauses"):
                assert getattr(ours, field) == getattr(theirs, field), (written, field)


def test_editions_are_these() -> None:
    assert {*BY_SLOPE, *BY_AREA} == {
        f"{e.document} {e.year}" + (f"+{e.supplement}" if e.supplement else "")
        for e in dwelling_editions()
    }
    assert len(dwelling_editions()) == len(BY_SLOPE) + len(BY_AREA)


def test_irc_2012_has_no_such_section() -> None:
    assert {CodeEdition("IRC", 2012)} == WITHOUT_ROOF_ACCESS
    assert WITHOUT_ROOF_ACCESS.isdisjoint(dwelling_editions())


@pytest.mark.parametrize("written", ["IRC 2012", "IRC 2009", "NFPA 1 2018", "CFC 2013+2018"])
def test_an_edition_not_entered_lists_those_that_are(written: str) -> None:
    with pytest.raises(ValueError, match=r"is not entered; expected one of IRC 2015, IRC 2018"):
        access_of(written)
