"""Conductors, grounding conductors, raceways and drop of runs.

"C-n" are rows of section 10 of the electrical study, with the published source of each there.
"""

from __future__ import annotations

from typing import Any

import pytest
from electrics import CONVERTERS, HYBRID, MICRO, SUBPANEL, SYSTEMS, edition, electrical_of, run_of
from houses import house
from hypothesis import given
from hypothesis import strategies as st

from planset.codes.nec.conductors import area_cmil
from planset.design.design import build_design
from planset.design.electrical.system import ElectricalDesign
from planset.job.electrical.wiring import Run, Wiring
from planset.job.load import read_job
from tests.example_job import EXAMPLE

OPEN = {"electrical.wiring.dc.size": None, "electrical.wiring.array.size": None}


def places(*given_places: dict[str, Any]) -> tuple[Any, ...]:
    """Places as a job states them."""
    run = Run.model_validate(
        {"insulation": "THWN-2", "material": "copper", "raceway": "emt", "places": given_places},
        context={"units": "in"},
    )
    return run.places


def dc_on_roof(gap_in: float) -> dict[str, Any]:
    roof = {"place": "roof", "gap": f"{gap_in} in", "length": "40 ft"}
    return {"electrical.wiring.dc.places": places(roof), "electrical.wiring.dc.size": "10"}


@pytest.mark.parametrize(
    ("gap_in", "year", "ampacity_a"),
    [
        (1.0, 2020, 29.12),  # C-35: no adder from 7/8 in on
        (0.5, 2020, 16.0),  # C-35
        (0.8, 2017, 16.0),  # C-35c
        (0.8, 2020, 16.0),
        (0.8, 2023, 29.12),
    ],
)
def test_rooftop_adder(gap_in: float, year: int, ampacity_a: float) -> None:
    run = run_of(electrical_of(dc_on_roof(gap_in) | edition(year)), "dc")
    assert run.check.adjusted.ampacity_a == pytest.approx(ampacity_a)


def test_the_hottest_place_governs() -> None:
    mixed = places(
        {"place": "roof", "gap": "1 in", "length": "20 ft"},
        {"place": "attic", "ambient": "58 C", "length": "10 ft"},
        {"place": "wall", "length": "10 ft"},
    )
    run = run_of(electrical_of({"electrical.wiring.dc.places": mixed}), "dc")
    assert run.place == "attic at 58 C"
    # Table 310.15(B)(1), 56 to 60 C: 0.71; four conductors: 0.80
    assert run.check.adjusted.ampacity_a == pytest.approx(40 * 0.71 * 0.80)


def test_a_route_is_as_long_as_its_legs_on_the_roof() -> None:
    route = [{"along": 0, "up": 0}, {"along": 36, "up": 48}, {"along": 96, "up": 48}]
    roof = {"place": "roof", "gap": "1 in", "plane": "front", "route": route}
    run = run_of(electrical_of({"electrical.wiring.dc.places": places(roof)}), "dc")
    assert run.length_ft == 10  # 60 in and 60 in


def test_conductors_of_other_circuits_count() -> None:
    run = run_of(electrical_of({"electrical.wiring.dc.other_conductors": 4}), "dc")
    # Table 310.15(C)(1): eight conductors, 0.70; Table 5: nine of 0.0211 sq in
    assert run.current_carrying == 8
    assert run.check.adjusted.ampacity_a == pytest.approx(40 * 0.91 * 0.70)
    assert run.fill is not None
    assert run.fill.conductors_in2 == pytest.approx(9 * 0.0211)


def test_branches_out_of_one_box_share_a_raceway() -> None:
    first, second = electrical_of({}, MICRO).topology.segments_of("branch")
    for segment, other in ((first, second), (second, first)):
        run = segment.conductors
        assert run is not None
        assert (run.ungrounded, run.current_carrying) == (2, 4)
        assert run.shares_with == (other.tag,)
        assert run.fill is not None
        assert run.fill.conductors_in2 == pytest.approx(5 * 0.0211)  # Table 5: 10 AWG THWN-2


def test_circuits_out_of_several_boxes_share_the_end_of_a_raceway() -> None:
    found = build_design(read_job(EXAMPLE.parents[1] / "cross-gable" / "job.yaml")).electrical
    segments = found.topology.segments_of("dc")
    runs, tags = [s.conductors for s in segments], [s.tag for s in segments]
    assert len(runs) == 3
    for tag, run in zip(tags, runs, strict=True):
        assert run is not None
        # three circuits of two conductors; Table 5: 10 AWG THWN-2, and 12 AWG to ground them
        assert (run.ungrounded, run.current_carrying, run.shared_ft) == (2, 6, 20)
        assert run.fill is not None
        assert run.fill.conductors_in2 == pytest.approx(6 * 0.0211 + 0.0133)
        assert set(run.shares_with) == set(tags) - {tag}


def test_each_box_leads_on_by_its_own_run() -> None:
    found = electrical_of({}, "gable-40x30-boxes")
    first, second = found.topology.segments_of("dc")
    assert first.conductors is not None
    assert second.conductors is not None
    assert (first.box, second.box) == ("JB1", "JB2")
    # by hand: 36 in + 20 ft; 36 + 200 in + 62 ft
    assert first.conductors.length_ft == pytest.approx(23.0)
    assert second.conductors.length_ft == pytest.approx(236 / 12 + 62)
    assert second.conductors.size == "8"
    share = second.conductors.drop.drop_v / first.conductors.drop.drop_v
    ohms = second.conductors.ohm_per_kft / first.conductors.ohm_per_kft
    assert share == pytest.approx(ohms * second.conductors.length_ft / 23.0)


def test_array_conductors_lie_in_free_air_with_6_awg_for_grounding() -> None:
    run = run_of(electrical_of(), "array")
    # Table 310.17, 10 AWG at 90 C: 55 A; 38 C: 0.91
    assert run.check.adjusted.ampacity_a == pytest.approx(55 * 0.91)
    assert (run.grounding, run.raceway, run.fill) == ("6", "", None)
    assert run.grounding_reason.startswith("exposed, 250.120(C)")


def test_grounding_grows_with_a_size_over_the_smallest() -> None:
    # C-59: 8 AWG raised to 6 AWG takes the 10 AWG of 40 A to 8 AWG
    run = run_of(electrical_of({"electrical.wiring.output.size": "6"}), "output")
    assert (run.needed_size, run.size, run.grounding) == ("8", "6", "8")
    assert run.grounding_reason.endswith("250.122(B) for 6 in place of 8")


def test_grounding_of_dc_does_not_grow() -> None:
    # NEC 690.45; C-58: 13.6 A, 25 A assumed, 10 AWG
    run = run_of(electrical_of({"electrical.wiring.dc.size": "6"}), "dc")
    assert (run.needed_size, run.grounding) == ("12", "10")


def test_a_stated_grounding_conductor_is_kept_beside_the_least() -> None:
    run = run_of(electrical_of({"electrical.wiring.dc.grounding": "12"}), "dc")
    assert (run.grounding, run.grounding_stated, run.grounding_least) == ("12", True, "10")


def test_a_stated_size_that_is_too_small_is_checked() -> None:
    run = run_of(electrical_of({"electrical.wiring.output.size": "10"}), "output")
    # C-28: 10 AWG is protected at 30 A at most
    assert run.check.tests == {"terminals": False, "conditions": True, "protection": False}
    assert run.governing == ()


def test_a_stated_trade_size_may_be_too_small() -> None:
    changes = {"electrical.wiring.dc.trade_size": "1/2", "electrical.wiring.dc.size": "8"}
    run = run_of(electrical_of(changes), "dc")
    assert run.fill is not None
    assert run.trade_size_stated
    assert not run.fill.holds


def test_terminals_are_the_lowest_of_wiring_and_inverter() -> None:
    run = run_of(electrical_of({"inverter.terminals_c": 60}), "output")
    # Table 310.16, 60 C: 8 AWG 40 A for 39.6 A; a connection away from the inverter stays at 75 C
    assert run.check.terminal_ampacity_a == 40
    connection = run_of(electrical_of({"inverter.terminals_c": 60}), "connection")
    assert connection.check.terminal_ampacity_a == 50


def test_battery_and_backup() -> None:
    found = electrical_of({}, HYBRID)
    battery, backup = run_of(found, "battery"), run_of(found, "backup")
    assert battery.check.demand_a == 30  # two units of 15 A
    assert battery.check.device_a == 60
    assert (backup.check.demand_a, backup.neutrals) == (31.67, 1)
    assert battery.check.holds
    assert backup.check.holds


def test_feeder_is_protected_by_its_breaker() -> None:
    run = run_of(electrical_of({}, SUBPANEL), "feeder")
    # Table 310.16: 3 AWG copper 100 A at 75 C; 250.122: 8 AWG for 100 A
    assert (run.size, run.grounding, run.check.device_a) == ("3", "8", 100)


def test_three_phases() -> None:
    # C-54 with Table 9: 8 AWG 0.78 ohm, 28 A, 100 ft, 208 V
    changes = {
        "electrical.service.phases": 3,
        "electrical.service.voltage": 208.0,
        "inverter.ac_current_a": 28.0,
        "electrical.wiring.output.size": "8",
        "electrical.wiring.output.places": places({"place": "wall", "length": "100 ft"}),
    }
    run = run_of(electrical_of(changes), "output")
    assert run.ungrounded == 3
    assert run.drop.drop_v == pytest.approx(3.78, abs=0.005)
    assert run.drop.percent == pytest.approx(1.82, abs=0.005)


def reasons(found: ElectricalDesign, run: str) -> set[str]:
    tags = {segment.tag for segment in found.topology.segments_of(run)}  # type: ignore[arg-type]
    assert all(segment.conductors is None for segment in found.topology.segments_of(run))  # type: ignore[arg-type]
    return {reason for tag, reason in found.not_sized if tag in tags}


@pytest.mark.parametrize(
    ("changes", "run", "said"),
    [
        ({"electrical.wiring.array.material": "aluminum"}, "array", "take copper"),
        ({"electrical.wiring.dc.insulation": "THHN"}, "dc", "wet place"),
        ({"electrical.wiring.dc.insulation": "PV wire"}, "dc", "outside diameter"),
        ({"electrical.wiring.dc.trade_size": "7/8"}, "dc", "trade size is 7/8"),
        ({"electrical.wiring.dc.size": "11"}, "dc", "'11'"),
        ({"electrical.wiring.dc": None}, "dc", "electrical.wiring has no dc"),
        ({"inverter.ac_current_a": 900.0}, "output", "use parallel or fewer circuits"),
    ],
)
def test_what_cannot_be_sized_is_told(changes: dict[str, Any], run: str, said: str) -> None:
    (reason,) = reasons(electrical_of(changes), run)
    assert said in reason


@pytest.mark.parametrize("name", SYSTEMS)
@pytest.mark.parametrize("year", [2014, 2026])
def test_an_edition_without_tables_sizes_nothing(name: str, year: int) -> None:
    found = electrical_of(edition(year), name)
    runs = [segment for segment in found.topology.segments if segment.run is not None]
    assert [tag for tag, _ in found.not_sized] == [segment.tag for segment in runs]
    assert all(f"NEC {year}" in reason for _, reason in found.not_sized)
    assert found.labels == ()


@pytest.mark.parametrize("name", SYSTEMS)
@pytest.mark.parametrize("year", [2017, 2020, 2023])
def test_every_system_is_sized(name: str, year: int) -> None:
    found = electrical_of(edition(year), name)
    assert found.not_sized == ()
    for segment in found.topology.segments:
        if segment.run is not None:
            assert segment.conductors is not None
            assert segment.conductors.check.holds


def areas(found: ElectricalDesign) -> list[float]:
    """Area of the conductors of every run, of their grounding and raceways, in order."""
    areas_found = []
    for segment in found.topology.segments:
        if (run := segment.conductors) is not None:
            areas_found += [area_cmil(run.size), area_cmil(run.grounding)]
            areas_found += [run.fill.raceway.area_in2] if run.fill else []
    return areas_found


def never_smaller(less: ElectricalDesign, more: ElectricalDesign) -> None:
    if less.not_sized or more.not_sized:
        assert {tag for tag, _ in less.not_sized} <= {tag for tag, _ in more.not_sized}
        return
    assert all(a <= b for a, b in zip(areas(less), areas(more), strict=True))


@pytest.mark.parametrize("name", SYSTEMS)
@given(st.floats(20, 50), st.floats(0.1, 20))
def test_hotter_is_never_smaller(name: str, high_c: float, hotter_by: float) -> None:
    wiring = opened(house(name=name).job.electrical.wiring)
    cool = electrical_of({**wiring, "site.high_ambient": high_c}, name)
    hot = electrical_of({**wiring, "site.high_ambient": high_c + hotter_by}, name)
    never_smaller(cool, hot)


@given(st.floats(5, 40), st.floats(0.1, 20))
def test_more_current_is_never_smaller(output_a: float, more_a: float) -> None:
    wiring = opened(house().job.electrical.wiring) | {"electrical.interconnection.breaker": None}
    less = electrical_of({**wiring, "inverter.ac_current_a": output_a})
    more = electrical_of({**wiring, "inverter.ac_current_a": output_a + more_a})
    never_smaller(less, more)


@given(st.integers(1, 19), st.floats(1, 200), st.floats(0.1, 100))
def test_longer_runs_and_strings_are_never_smaller(
    modules: int, length_ft: float, longer_ft: float
) -> None:
    def made(count: int, feet: float) -> ElectricalDesign:
        (place,) = places({"place": "wall", "length": "1 ft"})
        longer = (place.model_copy(update={"length": 12.0 * feet}),)
        return electrical_of(
            OPEN | {"electrical.strings.S1.modules": count, "electrical.wiring.dc.places": longer}
        )

    less, more = made(modules, length_ft), made(modules + 1, length_ft + longer_ft)
    never_smaller(less, more)
    assert more.strings[0].cold_voc_v > less.strings[0].cold_voc_v
    drops = [found.topology.segments_of("dc")[0].conductors for found in (less, more)]
    assert drops[0] is not None
    assert drops[1] is not None
    if drops[0].size == drops[1].size:
        assert drops[1].drop.drop_v > drops[0].drop.drop_v


def opened(wiring: Wiring) -> dict[str, Any]:
    """Changes that leave every size open."""
    named = [stated.name for stated in wiring.runs]
    fields = ("size", "grounding", "trade_size")
    return {f"electrical.wiring.{name}.{field}": None for name in named for field in fields}


def test_converters_in_any_edition_take_their_rated_output() -> None:
    for year in (2017, 2020, 2023):
        run = run_of(electrical_of(edition(year), CONVERTERS), "dc")
        assert run.check.demand_a == 15
