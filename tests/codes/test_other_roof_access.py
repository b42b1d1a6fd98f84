"""Roof access on buildings other than dwellings; lengths in feet become inches at the call."""

import pytest

from planset.citation import CodeEdition, read_edition
from planset.codes.other_roof_access import (
    OtherAccess,
    SmokeVentilation,
    cut_out_area_sqin,
    cut_outs,
    other_access,
    other_editions,
    perimeter_in,
    sections_along,
)

FT = 12.0
FIRE_CODES = tuple(e for e in other_editions() if e.document != "NFPA 1")


def access_of(written: str) -> OtherAccess:
    return other_access(read_edition(written))


def smoke_of(written: str) -> SmokeVentilation:
    smoke = access_of(written).smoke
    assert smoke is not None
    return smoke


@pytest.mark.parametrize(
    ("written", "axes_ft", "perimeter_ft"),
    [
        ("IFC 2018", (300, 200), 4),  # 1204.3.1: either axis up to 250 ft
        ("NFPA 1 2018", (300, 200), 6),  # both axes must be
        ("IFC 2018", (200, 120), 4),
        ("NFPA 1 2018", (200, 120), 4),
        ("IFC 2015", (300, 260), 6),
        ("IFC 2018", (251, 251), 6),
        ("IFC 2018", (250, 400), 4),
        ("IFC 2018", (400, 250), 4),
        ("NFPA 1 2018", (251, 251), 6),
        ("NFPA 1 2018", (250, 400), 6),
        ("NFPA 1 2018", (250, 250), 4),
        ("CFC 2022", (300, 200), 4),  # 1205.3.1
        ("IFC 2012", (300, 200), 4),
    ],
)
def test_perimeter(written: str, axes_ft: tuple[float, float], perimeter_ft: float) -> None:
    a, b = axes_ft
    assert perimeter_in(access_of(written), a * FT, b * FT) == perimeter_ft * FT


@pytest.mark.parametrize(
    ("free_ft", "gap_ft", "sections"),
    [
        (192, 8, 2),  # of a roof of 200 ft with 4 ft around; IFC 2018
        (112, 8, 1),
        (288, 8, 2),  # of a roof of 300 ft with 6 ft around; IFC 2015
        (248, 8, 2),
        (150, 8, 1),
        (150.1, 8, 2),
        (308, 8, 2),  # twice 150 and a gap
        (308.1, 8, 3),
        (304, 4, 2),
        (304.1, 4, 3),
    ],
)
def test_sections(free_ft: float, gap_ft: float, sections: int) -> None:
    # array section up to 150 ft in either axis: IFC 2015 605.11.1.3.3
    for written in ("IFC 2012", "IFC 2015", "IFC 2018", "IFC 2024", "CFC 2022"):
        assert sections_along(access_of(written), free_ft * FT, gap_ft * FT) == sections


def test_a_roof_of_200_by_120_ft_in_two_sections() -> None:
    # IFC 2018: 192 x 112 ft free, 8 ft option: two of 92 x 112 ft are 20,608 sq ft
    access, smoke = access_of("IFC 2018"), smoke_of("IFC 2018")
    around = perimeter_in(access, 200 * FT, 120 * FT)
    free, across = 200 * FT - 2 * around, 120 * FT - 2 * around
    count = sections_along(access, free, smoke.open_in)
    each = (free - (count - 1) * smoke.open_in) / count
    assert (each, across) == (92 * FT, 112 * FT)
    assert count * each * across / 144 == 20_608


def test_the_same_roof_with_cut_outs() -> None:
    # IFC 2018: 4 ft path of 112 ft, 6 cut-outs of 32 sq ft: 2 x 94 x 112 - 192 = 20,864 sq ft
    smoke = smoke_of("IFC 2018")
    count = cut_outs(smoke, 112 * FT)
    taken = count * cut_out_area_sqin(smoke) / 144
    each = (192 * FT - smoke.cut_outs_in) / 2
    assert (count, taken, each) == (6, 192, 94 * FT)
    assert 2 * each * 112 * FT / 144 - taken == 20_864


def test_a_roof_of_300_by_260_ft_in_four_sections() -> None:
    # IFC 2015: perimeter 6 ft, free 288 x 248 ft, 2 x 2 of 140 x 120 ft are 67,200 sq ft
    access, smoke = access_of("IFC 2015"), smoke_of("IFC 2015")
    around = perimeter_in(access, 300 * FT, 260 * FT)
    sides = []
    for axis in (300 * FT, 260 * FT):
        free = axis - 2 * around
        count = sections_along(access, free, smoke.open_in)
        assert count == 2
        sides.append((free - smoke.open_in) / count)
    assert sides == [140 * FT, 120 * FT]
    assert 4 * sides[0] * sides[1] / 144 == 67_200
    assert smoke.open_in >= access.centerline_pathway_in  # the gaps serve as center-line pathways


@pytest.mark.parametrize(("length_ft", "count"), [(20, 1), (20.1, 2), (112, 6), (120, 6), (1, 1)])
def test_cut_outs_every_20_ft(length_ft: float, count: int) -> None:
    assert cut_outs(smoke_of("IFC 2018"), length_ft * FT) == count


@pytest.mark.parametrize("edition", FIRE_CODES, ids=str)
def test_around_a_hatch_of_3_by_3_ft(edition: CodeEdition) -> None:
    # 4 ft clear around it: 11 x 11 = 121 sq ft kept out
    side = 3 * FT + 2 * other_access(edition).hatch_clear_in
    assert side**2 / 144 == 121


@pytest.mark.parametrize("edition", FIRE_CODES, ids=str)
def test_numbers_of_every_edition(edition: CodeEdition) -> None:
    access = other_access(edition)
    assert (access.perimeter_in, access.perimeter_small_in, access.small_axis_in) == (72, 48, 3000)
    assert not access.small_takes_both_axes  # "either axis"
    assert access.greatest_section_in == 150 * FT
    assert access.straight_pathway_in == 48  # to standpipes and ventilation hatches
    assert access.smoke is not None
    assert access.smoke.open_in == 96  # option A
    assert access.smoke.beside_vents_in == 48  # B
    assert access.smoke.cut_outs_in == 48  # C
    assert cut_out_area_sqin(access.smoke) == 4 * FT * 8 * FT
    assert access.smoke.cut_out_every_in == 20 * FT  # from memory
    assert access.not_entered == frozenset()


@pytest.mark.parametrize(
    ("written", "centerline", "skylights", "around_vents"),
    [
        ("IFC 2012", 48, 48, 0),  # centre lines, skylights: from memory; 4 ft wide: interpretation
        ("IFC 2015", 48, 0, 0),  # 605.11.1.3.2
        ("IFC 2018", 0, 0, 48),  # paths at 150 ft in place of center lines; option B2
        ("IFC 2021", 0, 0, 48),
        ("IFC 2024", 0, 0, 48),
        ("CFC 2013", 48, 48, 0),
        ("CFC 2016", 48, 0, 0),
        ("CFC 2016+2018", 48, 0, 0),  # interpretation
        ("CFC 2019", 0, 0, 48),
        ("CFC 2022", 0, 0, 48),
        ("CFC 2025", 0, 0, 48),
    ],
)
def test_what_came_and_went(
    written: str, centerline: float, skylights: float, around_vents: float
) -> None:
    access = access_of(written)
    assert access.centerline_pathway_in == centerline
    assert access.skylight_pathway_in == skylights
    assert smoke_of(written).around_vents_in == around_vents
    assert ("centerline" in access.clauses) == bool(centerline)
    assert ("skylights" in access.clauses) == bool(skylights)


@pytest.mark.parametrize(
    ("written", "topic", "clause"),
    [
        ("IFC 2012", "perimeter", "605.11.3.3.1"),
        ("IFC 2012", "centerline", "605.11.3.3.2"),
        ("IFC 2012", "smoke_ventilation", "605.11.3.3.3"),
        ("IFC 2015", "perimeter", "605.11.1.3.1"),
        ("IFC 2015", "centerline", "605.11.1.3.2"),
        ("IFC 2015", "sections", "605.11.1.3.3"),
        ("IFC 2018", "perimeter", "1204.3.1"),
        ("IFC 2018", "sections", "1204.3.2"),
        ("IFC 2018", "smoke_ventilation", "1204.3.3"),
        ("IFC 2018", "like_dwellings", "1204.3"),
        ("IFC 2021", "hatch", "1205.3.2"),
        ("CFC 2022", "perimeter", "1205.3.1"),
    ],
)
def test_clauses(written: str, topic: str, clause: str) -> None:
    assert access_of(written).clauses[topic] == clause


def test_of_nfpa_1_the_perimeter_alone_is_entered() -> None:
    access = access_of("NFPA 1 2018")
    assert set(access.clauses) == {"scope", "perimeter"}
    assert access.not_entered == {
        "centerline", "sections", "standpipes", "skylights", "hatch", "smoke_ventilation",
    }  # fmt: skip
    assert access.smoke is None
    with pytest.raises(ValueError, match="greatest section of NFPA 1 2018"):
        sections_along(access, 100 * FT, 8 * FT)


def test_an_edition_not_entered_lists_those_that_are() -> None:
    with pytest.raises(ValueError, match=r"IRC 2021 is not entered; expected one of IFC 2012"):
        access_of("IRC 2021")
