"""Buses that sources feed, the derated main, grounding path, shutdown and labels.

"C-n" are rows of section 10 of the electrical study, with the published source of each there.
"""

from __future__ import annotations

from typing import Any

import pytest
from electrics import CONVERTERS, HYBRID, MICRO, SUBPANEL, electrical_of
from houses import house

from planset.design.design import build_design
from planset.design.electrical.ratings import wire_size
from planset.design.electrical.system import BusLoad
from planset.job.electrical.service import ExistingSource


def service_bus(
    bus_a: float, main_a: float, output_a: float, changes: dict[str, Any] | None = None
) -> BusLoad:
    stated: dict[str, Any] = {
        "electrical.service.bus": bus_a,
        "electrical.service.main": main_a,
        "inverter.ac_current_a": output_a,
        "electrical.interconnection.breaker": None,
    }
    return electrical_of(stated | (changes or {})).buses[-1]


@pytest.mark.parametrize(
    ("bus_a", "main_a", "output_a", "demand_a", "limit_a", "holds"),
    [
        (200, 175, 50, 237.5, 240, True),  # C-36
        (225, 200, 48, 260, 270, True),  # C-41
        (200, 200, 31.67, 239.5875, 240, True),  # C-42
        (125, 125, 24.2, 155.25, 150, False),
    ],
)
def test_opposite_ends(
    bus_a: float, main_a: float, output_a: float, demand_a: float, limit_a: float, holds: bool
) -> None:
    chosen = service_bus(bus_a, main_a, output_a).chosen
    assert chosen.topic == "busbar_opposite_ends"
    assert chosen.demand_a == pytest.approx(demand_a)
    assert (chosen.limit_a, chosen.holds) == (limit_a, holds)


def test_the_reading_by_the_breaker_differs() -> None:
    # C-36: 175 + 70 = 245 A over 240 A
    by_device = service_bus(200, 175, 50).by_device
    assert by_device is not None
    assert (by_device.demand_a, by_device.limit_a, by_device.holds) == (245, 240, False)


def test_elsewhere_only_the_rating_counts() -> None:
    # C-42: at the opposite end only
    bus = service_bus(200, 200, 31.67, {"electrical.interconnection.position": "elsewhere"})
    assert [way.topic for way in bus.alternatives] == ["busbar_any_position"]
    assert not bus.chosen.holds
    assert bus.by_device is None


def test_sum_of_breakers_where_they_were_counted() -> None:
    changes = {
        "electrical.interconnection.position": "elsewhere",
        "electrical.service.load_breakers": 150.0,
    }
    bus = service_bus(200, 200, 31.67, changes)
    assert bus.chosen.topic == "busbar_sum_of_breakers"
    assert (bus.chosen.demand_a, bus.chosen.holds) == (190, True)


def test_center_fed_bus_of_a_dwelling() -> None:
    bus = service_bus(225, 200, 48, {"electrical.service.feed": "center"})
    assert bus.chosen.topic == "busbar_center_fed"
    assert (bus.chosen.limit_a, bus.by_device) == (270, None)


def test_sources_that_are_there_already_count() -> None:
    existing = ExistingSource.model_validate(
        {"name": "older array", "current": "16 A", "breaker": "20 A"}
    )
    bus = service_bus(200, 175, 31.67, {"electrical.service.existing_sources": (existing,)})
    # 175 + 1.25 x 47.67 = 234.6 A; by breakers 175 + 40 + 20
    assert bus.source_a == pytest.approx(47.67)
    assert bus.chosen.demand_a == pytest.approx(234.5875)
    assert bus.by_device is not None
    assert bus.by_device.demand_a == 235


def test_combiner_by_its_breakers() -> None:
    # C-45: 20 + 20 A on a bus of 100 A
    combiner, service = electrical_of({}, MICRO).buses
    assert (combiner.tag, service.tag) == ("AC1", "MSP")
    by_sum = next(way for way in combiner.alternatives if way.topic == "busbar_sum_of_breakers")
    assert (by_sum.demand_a, by_sum.limit_a, by_sum.holds) == (40, 100, True)
    assert combiner.main_a == 35  # the breaker at the point of connection protects lugs


def test_every_bus_upstream_of_a_subpanel() -> None:
    subpanel, service = electrical_of({}, SUBPANEL).buses
    assert (subpanel.tag, subpanel.main_a, subpanel.rating_a) == ("SP1", 100, 125)
    assert subpanel.chosen.demand_a == pytest.approx(139.5875)
    assert (service.tag, service.source_a) == ("MSP", 31.67)


def test_a_supply_side_tap_feeds_no_bus() -> None:
    assert electrical_of({}, CONVERTERS).buses == ()


def test_no_bus_in_an_edition_without_clauses() -> None:
    assert electrical_of({"jurisdiction.codes.electrical.edition": 2014}).buses == ()


@pytest.mark.parametrize(
    ("bus_a", "main_a", "output_a", "limit_a", "new_a"),
    [  # section 5.2 of the study, worked derates
        (200, 200, 48, 180, 175),
        (200, 200, 50, 177.5, 175),
        (200, 200, 60, 165, 150),
        (225, 225, 48, 210, 200),
        (125, 125, 24.2, 119.75, 110),
        (100, 100, 20, 95, 90),
    ],
)
def test_largest_smaller_main(
    bus_a: float, main_a: float, output_a: float, limit_a: float, new_a: float
) -> None:
    changes = {
        "electrical.service.bus": bus_a,
        "electrical.service.main": main_a,
        "inverter.ac_current_a": output_a,
        "electrical.main_derate.main": None,
    }
    derate = electrical_of(changes, HYBRID).derate
    assert derate is not None
    assert derate.limit_a == pytest.approx(limit_a)
    assert (derate.old_a, derate.new_a, derate.stated) == (main_a, new_a, False)


def test_no_main_is_small_enough() -> None:
    changes = {"inverter.ac_current_a": 300.0, "electrical.main_derate.main": None}
    derate = electrical_of(changes, HYBRID).derate
    assert derate is not None
    assert (derate.new_a, derate.limit_a) == (200, -135)


def test_grounding_path() -> None:
    steps = [(step.start, step.end) for step in electrical_of().grounding]
    assert steps == [
        ("MODULE FRAMES A1", "ARRAY A1"),
        ("ARRAY A1", "JB1"),
        ("JB1", "INV1"),
        ("INV1", "DISC1"),
        ("DISC1", "MSP"),
        ("MSP", "NEUTRAL"),
        ("NEUTRAL", "WATER PIPE ELECTRODE"),
        ("NEUTRAL", "GROUND ROD"),
    ]


def test_grounding_conductors() -> None:
    steps = {(step.start, step.end): step for step in electrical_of().grounding}
    assert steps["ARRAY A1", "JB1"].conductor == "6 AWG BARE COPPER"
    assert steps["JB1", "INV1"].conductor == "10 AWG COPPER"
    # C-60: 4 AWG copper for a 4/0 aluminum service
    reason = steps["NEUTRAL", "WATER PIPE ELECTRODE"].reason
    assert reason == "Table 250.66: 4 AWG copper for 4/0 AWG aluminum service conductors"


def test_what_caps_the_conductor_to_an_electrode() -> None:
    # NEC Table 250.66: 1/0 copper for 500 kcmil copper; 250.66(B): 4 AWG at most [from memory]
    changes = {
        "electrical.service.conductors.size": "500",
        "electrical.service.conductors.material": "copper",
        "electrical.service.electrode.kind": "concrete_encased",
    }
    steps = {(step.start, step.end): step for step in electrical_of(changes).grounding}
    reason = steps["NEUTRAL", "CONCRETE-ENCASED ELECTRODE"].reason
    assert reason == (
        "Table 250.66: 1/0 AWG copper for 500 kcmil copper service conductors; "
        "250.66(B) caps it at 4 AWG"
    )


@pytest.mark.parametrize(
    ("name", "panel", "device"),
    [
        ("gable-40x30", "MSP", "MSP-MAIN"),
        (MICRO, "AC1", "CB3"),  # lugs: the breaker of the service protects it
        (SUBPANEL, "SP1", "CB2"),  # lugs: the feeder's breaker does
    ],
)
def test_what_protects_a_bus(name: str, panel: str, device: str) -> None:
    bus = next(bus for bus in electrical_of({}, name).buses if bus.tag == panel)
    assert bus.protected_by == device


@pytest.mark.parametrize(
    ("name", "changes", "method", "per_circuit"),
    [
        ("gable-40x30", {}, "module_devices", (("S1", 10), ("S2", 10))),
        (CONVERTERS, {}, "converters", (("S1", 10), ("S2", 10))),
        (MICRO, {}, "microinverters", (("B1", 10), ("B2", 10))),
        ("gable-40x30", {"shutdown": None}, None, ()),
        (CONVERTERS, {"converter.shutdown": None}, None, ()),
        (MICRO, {"microinverter.shutdown": None}, None, ()),
    ],
)
def test_shutdown_method(
    name: str, changes: dict[str, Any], method: str | None, per_circuit: tuple[object, ...]
) -> None:
    shutdown = electrical_of(changes, name).shutdown
    assert (shutdown.method, shutdown.per_circuit) == (method, per_circuit)


def test_voltage_left_after_shutdown() -> None:
    # one module of 37.1 V at -11 C: 40.71 V; ten converters of 1 V
    assert electrical_of().shutdown.left_inside_v == pytest.approx(40.706, abs=0.0005)
    converters = electrical_of({}, CONVERTERS).shutdown
    assert converters.left_outside_v == 10
    assert converters.left_inside_v == pytest.approx(40.706, abs=0.0005)


def labels(changes: dict[str, Any] | None = None, name: str = "gable-40x30") -> dict[str, Any]:
    return {label.name: label for label in electrical_of(changes, name).labels}


def test_labels_are_numbered_on() -> None:
    keys = [label.key for label in electrical_of().labels]
    assert keys == [f"L{number}" for number in range(1, len(keys) + 1)]


def test_raceway_labels_are_at_most_10_ft_apart() -> None:
    # NEC 690.31(D)(2): 40 ft take 5, 20 ft take 3, and the cover of the box 1
    label = labels()["dc_raceway"]
    assert (label.equipment, label.quantity) == (("JB1",), 9)
    assert label.quantity_reason.startswith("1 on JB1; 5 on segment 3, roof 40 ft; 3 on segment 3")


def test_the_2017_voltage_label_tells_currents() -> None:
    changes = {"jurisdiction.codes.electrical.edition": 2017}
    assert "MAXIMUM CIRCUIT CURRENT 17.00 A" in labels(changes)["dc_voltage"].lines
    words = labels(changes, CONVERTERS)["dc_voltage"].lines
    assert "MAXIMUM OUTPUT CURRENT OF DC-TO-DC CONVERTERS 15.00 A" in words


def test_directory_stands_at_the_system_disconnect_in_2017_only() -> None:
    for year, tags in ((2017, ("MSP", "DISC1")), (2020, ("MSP",)), (2023, ("MSP",))):
        found = labels({"jurisdiction.codes.electrical.edition": year})
        assert found["directory"].equipment == tags


@pytest.mark.parametrize(
    ("name", "changes", "there", "missing"),
    [
        (MICRO, {}, {"ac_output"}, {"dc_raceway", "dc_voltage", "polarity"}),
        (CONVERTERS, {}, {"dc_voltage"}, {"do_not_relocate", "multiple_sources"}),
        (HYBRID, {}, {"storage_disconnect"}, {"arc_flash", "fault_current"}),
        ("gable-40x30", {"shutdown": None}, set(), {"rapid_shutdown", "rapid_shutdown_switch"}),
        ("gable-40x30", {"building.use": "other"}, {"arc_flash", "fault_current"}, set()),
    ],
)
def test_which_labels(
    name: str, changes: dict[str, Any], there: set[str], missing: set[str]
) -> None:
    found = set(labels(changes, name))
    assert there <= found
    assert not missing & found


def test_the_sum_rule_brings_its_label() -> None:
    changes = {
        "electrical.interconnection.position": "elsewhere",
        "electrical.service.load_breakers": 150.0,
    }
    found = labels(changes)
    assert found["sum_of_breakers"].equipment == ("MSP",)
    assert "do_not_relocate" not in found


def test_fuse_holders_are_not_for_load() -> None:
    changes = {"electrical.strings.S1.fuse": 25.0}
    assert labels(changes)["not_load_break"].equipment == ("JB1",)


def test_labels_go_on_what_there_is() -> None:
    for name in ("gable-40x30", MICRO, CONVERTERS, HYBRID, SUBPANEL):
        found = electrical_of({}, name)
        known = set(found.topology.by_tag)
        known |= {panel.tag for panel in found.topology.panels}
        for label in found.labels:
            assert set(label.equipment) <= known
            assert label.quantity > 0
            assert label.lines


@pytest.mark.parametrize(
    ("size", "words"), [("10", "10 AWG"), ("4/0", "4/0 AWG"), ("250", "250 kcmil")]
)
def test_sizes_carry_their_unit(size: str, words: str) -> None:
    assert wire_size(size) == words


@pytest.mark.parametrize(
    ("name", "lugs"),
    [
        ("gable-40x30", 1),  # one block of modules, a lug for each array by the listing
        # two rails under each of four rows, each of two pieces that their splice does not bond
        ("gable-40x30-across", 16),
    ],
)
def test_lugs_are_those_of_the_listing(name: str, lugs: int) -> None:
    design = build_design(house(name=name))
    (step,) = (step for step in design.electrical.grounding if step.lugs)
    assert (step.start, step.end) == ("RAILS A1", "ARRAY A1")
    assert step.lugs == lugs


def test_a_service_size_of_no_table_stops_nothing() -> None:
    found = electrical_of({"electrical.service.conductors.size": "odd"})
    assert found.grounding[-3].conductor == "EXISTING, AS THE TABLE ASKS OR LARGER"
    assert "not known here" in found.grounding[-1].reason
