"""The access rules in force in a jurisdiction: which code judges, and what is amended."""

from pathlib import Path
from typing import Any

import pytest

from planset.catalog.access import (
    AMENDED_TOPICS,
    dwelling_edition,
    effective_access,
    effective_other_access,
    has_dwelling_access,
    readings,
)
from planset.catalog.fields import Sourced
from planset.catalog.jurisdiction import AdoptedCode, Jurisdiction
from planset.catalog.library import find
from planset.catalog.local_access import LocalAccess
from planset.citation import CodeEdition, read_edition
from planset.codes.roof_access import required_ridge_setback_in


def stated(value: object, source: str = "Ordinance 7") -> Sourced[Any]:
    return Sourced[Any](value=value, source=source, date="2024-01-01")


def town(residential: str = "IRC 2021", fire: str = "IFC 2021", **local: object) -> Jurisdiction:
    """An invented town with these codes and local values in force."""
    plain = find(Jurisdiction, "port-larkin", Path("nowhere"))
    codes = {
        "residential": adopted(plain.codes.residential, residential),
        "fire": adopted(plain.codes.fire, fire),
    }
    values = {name: stated(value) for name, value in local.items()}
    return plain.model_copy(
        update={
            "codes": plain.codes.model_copy(update=codes),
            "access": plain.access.model_copy(update=values),
        }
    )


def adopted(code: AdoptedCode, written: str) -> AdoptedCode:
    edition = read_edition(written)
    return code.model_copy(
        update={
            "code": edition.document,
            "edition": edition.year,
            "supplement": edition.supplement or None,
        }
    )


@pytest.mark.parametrize(
    ("residential", "fire", "judged_by", "edition"),
    [
        ("IRC 2021", "IFC 2021", None, "IRC 2021"),  # IFC 1205.2.1 exempts IRC buildings
        ("IRC 2021", "IFC 2018", "fire", "IFC 2018"),
        ("IRC 2021", "IFC 2018", "residential", "IRC 2021"),
        ("IRC 2012", "IFC 2012", None, "IFC 2012"),  # IRC 2012 has no section on access
        ("IRC 2012", "IFC 2012", "residential", "IRC 2012"),
        ("CRC 2022", "CFC 2022", None, "CRC 2022"),
        ("CRC 2016+2018", "CFC 2016+2018", None, "CRC 2016+2018"),
        ("CRC 2016+2018", "CFC 2016+2018", "fire", "CFC 2016+2018"),
        ("IRC 2018", "NFPA 1 2015", "fire", "NFPA 1 2015"),
    ],
)
def test_which_code_judges(
    residential: str, fire: str, judged_by: str | None, edition: str
) -> None:
    local = {} if judged_by is None else {"judged_by": judged_by}
    assert dwelling_edition(town(residential, fire, **local)) == read_edition(edition)


def test_an_edition_not_entered() -> None:
    old = town("IRC 2009")
    assert not has_dwelling_access(old)
    with pytest.raises(ValueError, match="IRC 2009 is not entered"):
        effective_access(old)
    assert not has_dwelling_access(town("IRC 2012", "NFPA 1 2018"))


def test_without_amendment_all_is_as_published() -> None:
    access = effective_access(town())
    assert access.code == access.model
    assert access.amended == {}
    assert access.cite("ridge") == "IRC 2021 R324.6.2"
    assert (access.edge_setback_in, access.between_arrays_in) == (0, 0)
    assert access.rules_off_when is None
    assert access.three_sides is None


def test_a_fixed_setback_is_replaced_whole() -> None:
    # a town on 2015 with 18 in: the amended 605.11.1.2.5 of Washington prints 18 in
    access = effective_access(town("IRC 2015", "IFC 2015", ridge_setback=18))
    for ratio in (10.0, 50.0, 90.0):
        assert required_ridge_setback_in(access.code, ratio, sprinklered=False) == 18
    assert access.model.ridge_setback_high_in == 36
    assert access.cite("ridge") == "IRC 2015 R324.7.2.5 as amended by Ordinance 7"
    assert access.cite_ridge(sprinklered=True) == access.cite("ridge")


@pytest.mark.parametrize(
    ("local", "ratio", "sprinklered", "setback"),
    [
        ({"ridge_setback": 12}, 33, False, 12),
        ({"ridge_setback": 12}, 34, False, 36),
        ({"ridge_setback": 18, "ridge_setback_high": 18}, 90, False, 18),  # as in Virginia
        ({"area_limit": 25}, 25, False, 18),
        ({"area_limit": 25}, 26, False, 36),
        ({"area_limit": 25}, 26, True, 18),
        ({"area_limit_sprinklered": 33}, 34, True, 36),
    ],
)
def test_ridge_amendments(
    local: dict[str, float], ratio: float, sprinklered: bool, setback: float
) -> None:
    access = effective_access(town(**local))
    assert required_ridge_setback_in(access.code, ratio, sprinklered) == setback
    for topic in ("ridge", "ridge_sprinklered"):
        assert access.cite(topic).endswith("as amended by Ordinance 7")


def test_a_ratio_brought_to_a_code_without_one() -> None:
    access = effective_access(town("IRC 2015", area_limit=33, ridge_setback=18))
    assert required_ridge_setback_in(access.code, 33, sprinklered=True) == 18
    assert required_ridge_setback_in(access.code, 34, sprinklered=True) == 36


def test_a_rule_only_the_jurisdiction_has_is_cited_alone() -> None:
    access = effective_access(town(hip_valley_setback=18))
    assert access.code.hip_valley_setback_in == 18
    assert access.cite("hip_valley") == "Ordinance 7"
    assert effective_access(town()).cite("hip_valley") == "IRC 2021"


def test_several_local_texts_are_all_cited() -> None:
    plain = town(ridge_setback=12)
    high = stated(40, source="Memo 3")
    local = plain.access.model_copy(update={"ridge_setback_high": high})
    both = effective_access(plain.model_copy(update={"access": local}))
    assert both.cite("ridge") == "IRC 2021 R324.6.2 as amended by Ordinance 7 and Memo 3"


def test_readings_and_their_defaults() -> None:
    plain = readings(town())
    assert (plain.pathway_on_overhang, plain.street_angle_deg) == (False, 60)
    # interpretations of texts that are silent
    assert plain.ridges == "all"
    assert not plain.far_side_of_ridge_is_adjacent
    assert plain.pathway_serves_planes == 2
    assert plain.ratio_base == "roof"
    assert plain.shed_high_edge == "ask"
    assert plain.centerline_pathways == "always"
    assert plain.smoke_ventilation == ("A", "B", "B2", "C")
    said = {
        "ridges": "highest",
        "far_side_of_ridge_is_adjacent": True,
        "pathway_serves_planes": 3,
        "ratio_base": "plane",
        "shed_high_edge": "edge",
        "centerline_pathways": "over_150_ft",
        "smoke_ventilation": ("A",),
    }
    given = readings(town(**said))
    assert {name: getattr(given, name) for name in said} == said


def test_amended_topics_are_fields_of_a_profile() -> None:
    assert set(AMENDED_TOPICS) <= set(LocalAccess.model_fields)


def test_rules_of_states() -> None:
    # WAC 51-54A-1204: 33 %, 1,000 sq ft, 18 in; arrays of 150 ft, 3 ft apart
    washington = effective_access(find(Jurisdiction, "sound-harbor", Path("nowhere")))
    off = washington.rules_off_when
    assert off is not None
    assert (off.sprinklered, off.ratio, off.area, off.ridge_setback) == (True, 33, 1000, 18)
    assert (washington.code.greatest_array_side_in, washington.between_arrays_in) == (1800, 36)
    # Oregon solar code 304.9: 36 in on three sides; 25 %, 1,000 sq ft, 12 in
    oregon = effective_access(find(Jurisdiction, "timber-gap", Path("nowhere"))).three_sides
    assert oregon is not None
    assert (oregon.width, oregon.area, oregon.ratio, oregon.ridge_setback) == (36, 1000, 25, 12)
    assert oregon.eave_slope == pytest.approx(2 / 12)


def test_other_buildings_are_the_fire_codes() -> None:
    assert effective_other_access(town("IRC 2021", "IFC 2018")).edition == CodeEdition("IFC", 2018)
    with pytest.raises(ValueError, match="NFPA 1 2015 is not entered"):
        effective_other_access(town(fire="NFPA 1 2015"))
