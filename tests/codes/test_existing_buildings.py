"""Live load under panels, limits for existing buildings, and screening lists.

Sources:
- IBC 2015 1607.12.5.1, up.codes/s/photovoltaic-panel-systems; IRC 2018 R324.4.1.1 and IBC 2024, as
  codecompliantdesign.mkapeb.com quotes them.
- IEBC 2018 503 (online.flipbuilder.com/mewf/quir page 44), 805.2 (City of Santa Ana, doc 375417
  page 201); Minnesota Rules 1311.0806.
- Screening lists: the heads of planset/codes/screening/criteria.csv.
"""

import math

import pytest

from planset.codes.ibc import panel_live_load
from planset.codes.iebc import gravity, lateral
from planset.codes.iebc.gravity import GravityLoads, load_increase
from planset.codes.irc import panel_live_load as irc_panel_live_load
from planset.codes.screening import lists


@pytest.mark.parametrize(("space_in", "omitted"), [(0, True), (6, True), (24, True), (24.1, False)])
def test_live_load_is_left_out_up_to_24_in(space_in: float, omitted: bool) -> None:
    assert panel_live_load.live_load_omitted(space_in) is omitted
    with_panels, without = panel_live_load.roof_cases(10, 3, 20, 0, space_in)
    assert with_panels.total_psf == (13 if omitted else 33)
    assert without.total_psf == 30  # as if the panels were not there


def test_snow_is_never_left_out() -> None:
    for cases in (panel_live_load.roof_cases, irc_panel_live_load.roof_cases):
        with_panels, without = cases(10, 3, 20, 25, 4)
        assert (with_panels.dead_psf, with_panels.live_psf, with_panels.snow_psf) == (13, 0, 25)
        assert (with_panels.panels, without.panels) == (True, False)
        assert without.total_psf == 35


def test_live_load_clauses() -> None:
    assert panel_live_load.CLAUSES[2018] == "1607.13.5.1"
    assert panel_live_load.CLAUSES[2021] == "1607.14.4.1"
    assert irc_panel_live_load.CLAUSES[2018] == "R324.4.1.1"
    with pytest.raises(ValueError, match="clear space"):
        panel_live_load.live_load_omitted(-1)
    with pytest.raises(ValueError, match="expected 0 or more"):
        irc_panel_live_load.roof_cases(10, -3, 20, 0, 4)


ROOF = GravityLoads(dead=10, live=20)


@pytest.mark.parametrize(
    ("altered", "basis", "share", "of"),
    [
        # the trap: 3 psf on D 10 + Lr 20 is 10 % of the total, 30 % of the dead load
        (GravityLoads(13, 20), "total", 0.10, "total"),
        (GravityLoads(13, 20), "each", 0.30, "dead"),
        # no live load under the panels: the total falls, the dead load still grows
        (GravityLoads(13, 0), "total", 0.0, "total"),
        (GravityLoads(13, 0), "each", 0.30, "dead"),
        (GravityLoads(10, 20, 5), "each", math.inf, "snow"),
    ],
)
def test_gravity_increase(altered: GravityLoads, basis: str, share: float, of: str) -> None:
    increase = load_increase(ROOF, altered, basis)  # type: ignore[arg-type]
    assert increase.share == pytest.approx(share)
    assert increase.of == of
    assert increase.exceeds is (share > 0.05)


def test_five_percent_itself_is_allowed() -> None:
    assert not load_increase(GravityLoads(10), GravityLoads(10.5), "each").exceeds
    assert load_increase(GravityLoads(10), GravityLoads(10.51), "each").exceeds
    assert not gravity.demand_capacity_increase(0.80, 0.84).exceeds
    assert gravity.demand_capacity_increase(0.80, 0.841).exceeds
    assert gravity.demand_capacity_increase(0.80, 0.6).share == 0


def test_live_and_snow_do_not_add_up() -> None:
    assert GravityLoads(10, 20, 25).total == 35


@pytest.mark.parametrize(
    ("group_r", "units", "framing", "holds"),
    [
        (True, 1, True, True),
        (True, 5, True, True),
        (True, 6, True, False),
        (False, 1, True, False),
        (True, 1, False, False),
        (True, None, True, None),
        (None, 6, None, False),
        (True, 1, None, None),
    ],
)
def test_dwelling_exception(
    group_r: bool | None, units: int | None, framing: bool | None, holds: bool | None
) -> None:
    computed = gravity.dwelling_exception(group_r=group_r, units=units, light_frame_or_irc=framing)
    assert computed is holds


def test_second_roof_covering() -> None:
    assert gravity.second_covering_exception(3.0, second_roof_covering=True)
    assert not gravity.second_covering_exception(3.1, second_roof_covering=True)
    assert not gravity.second_covering_exception(3.0, second_roof_covering=False)


def test_lateral_limit() -> None:
    assert lateral.may_stay(0.80, 0.88)
    assert not lateral.may_stay(0.80, 0.881)
    assert lateral.lateral_increase(0.80, 0.70) == 0
    assert (gravity.CLAUSES[2018], lateral.CLAUSES[2018]) == ("503.3", "503.4")


@pytest.mark.parametrize(
    "call",
    [
        lambda: load_increase(GravityLoads(0), GravityLoads(3), "total"),
        lambda: load_increase(GravityLoads(-1), GravityLoads(3)),
        lambda: gravity.demand_capacity_increase(0, 1),
        lambda: gravity.second_covering_exception(-1, second_roof_covering=True),
        lambda: lateral.may_stay(0, 1),
        lambda: lists.judge("balsa", {}),
    ],
)
def test_nonsense_is_refused(call: object) -> None:
    with pytest.raises(ValueError, match="expected"):
        call()  # type: ignore[operator]


CALIFORNIA = {
    "roof_layers": 1,
    "structure_sound": True,
    "parallel": True,
    "gap_in": 4.0,
    "within_roof_edges": True,
    "array_psf": 3.0,
    "roof_share": 0.4,
    "maker_tables_attached": True,
    "roof_plan_attached": True,
    "ground_snow_psf": 0.0,
    "exposure": "C",
    "wood_dwelling": True,
}


def outcomes(name: str, facts: dict[str, float | bool | str | None]) -> dict[str, str]:
    return {line.item.fact: line.outcome for line in lists.judge(name, facts)}


def test_a_list_that_is_met() -> None:
    assert set(outcomes("california", CALIFORNIA).values()) == {"met"}
    assert lists.overall(lists.judge("california", CALIFORNIA)) == "met"


@pytest.mark.parametrize(
    ("fact", "value"),
    [
        ("roof_layers", 2),
        ("gap_in", 1.9),
        ("gap_in", 10.1),
        ("array_psf", 4.01),
        ("roof_share", 0.51),
        ("ground_snow_psf", 5),
        ("exposure", "D"),
        ("parallel", False),
    ],
)
def test_one_line_that_is_not_met(fact: str, value: float | bool | str) -> None:
    facts = CALIFORNIA | {fact: value}
    found = outcomes("california", facts)
    assert found.pop(fact) == "not met"
    assert set(found.values()) == {"met"}
    assert lists.overall(lists.judge("california", facts)) == "not met"


def test_what_is_not_said_is_unknown_and_never_met() -> None:
    for name in lists.list_names():
        judged = lists.judge(name, {})
        assert {line.outcome for line in judged} == {"unknown"}
        assert lists.overall(judged) == "unknown"
    assert lists.overall(lists.judge("california", CALIFORNIA | {"gap_in": None})) == "unknown"


def test_limits_hold_with_equality() -> None:
    found = outcomes(
        "oregon",
        {"array_psf": 4.5, "framing_spacing_in": 24, "ground_snow_psf": 70, "exposure": "C"},
    )
    assert {found[f] for f in ("array_psf", "framing_spacing_in", "ground_snow_psf")} == {"met"}
    assert outcomes("simplified", {"spacing_in": 48.0, "height_in": 10})["spacing_in"] == "met"
    assert outcomes("simplified", {"spacing_in": 72.0})["spacing_in"] == "not met"


def test_a_fact_of_the_wrong_kind_is_refused() -> None:
    for wrong in ({"parallel": 1.0}, {"gap_in": True}, {"exposure": 3}, {"array_psf": "light"}):
        with pytest.raises(ValueError, match="does not answer"):
            lists.judge("california", wrong)


def test_trusses_get_a_list_and_a_letter() -> None:
    first = lists.items(lists.TRUSS_LIST)[0]
    assert first.fact == "truss_designer_letter"
    assert "letter" in first.words
    judged = lists.judge(lists.TRUSS_LIST, {"array_psf": 3.0, "structure_sound": True})
    assert lists.overall(judged) == "unknown"
    assert judged[0].outcome == "unknown"
