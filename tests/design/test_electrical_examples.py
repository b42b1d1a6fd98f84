"""Whole electrical designs.

"X-1", "X-2" and "X-3" are the constructed examples of section 10.6 of the electrical study, every
number of them recomputed there from the formula it names.
"""

import pytest
from electrics import CONVERTERS, MICRO, electrical_of, run_of, segment_of
from houses import house

from planset.design.electrical.drop_ways import drop_ways
from planset.job.electrical.service import MainDerate

X_1 = {
    "electrical.wiring.array.size": "10",
    "electrical.wiring.dc.trade_size": None,
    "inverter.neutral": True,
}


def test_x_1_strings() -> None:
    found = electrical_of(X_1)
    for string in found.strings:
        assert string.cold_voc_v == pytest.approx(407.06, abs=0.005)
        assert string.table_voc_v == pytest.approx(430.36, abs=0.005)
        assert string.hot_cell_c == 73
        assert string.hot_vmp_v == pytest.approx(259.4, abs=0.05)
        assert string.cold_vmp_v == pytest.approx(347.9, abs=0.05)
        assert string.maximum_current_a == pytest.approx(17.0)
        assert (string.fuse_needed, string.fuse_a, string.backfeed_a) == (False, None, 0)
    assert found.voltage_limits == (("INV1", 600, "a dwelling by 690.7 and inverter INV"),)
    assert (found.dc_kw, found.ac_kw) == (8, 7.6)


def test_x_1_dc_run() -> None:
    run = run_of(electrical_of(X_1), "dc")
    assert (run.size, run.size_stated, run.ungrounded, run.current_carrying) == ("10", True, 4, 4)
    assert run.check.adjusted.ampacity_a == pytest.approx(29.12)
    assert run.check.terminal_demand_a == pytest.approx(21.25)
    assert run.check.terminal_ampacity_a == 35
    assert run.check.holds
    assert run.place == "roof, 1 in above it"
    assert (run.grounding, run.grounding_reason) == ("10", "Table 250.122 for 25 A taken by 690.45")
    assert run.fill is not None
    assert run.fill.conductors_in2 == pytest.approx(0.1055)
    assert run.fill.raceway.trade_size == "1/2"
    assert run.length_ft == 60
    assert run.drop.drop_v == pytest.approx(1.92, abs=0.005)
    assert run.drop.percent == pytest.approx(0.62, abs=0.005)


def test_x_1_leaves_12_awg_where_no_size_is_fixed() -> None:
    run = run_of(electrical_of(X_1 | {"electrical.wiring.dc.size": None}), "dc")
    assert (run.size, run.size_stated) == ("12", False)
    assert run.check.adjusted.ampacity_a == pytest.approx(21.84)
    # 14 AWG carries 25 x 0.91 x 0.80 = 18.2 A there, yet 20 A only at its terminals
    assert run.governing == ("terminals",)


def test_x_1_a_fuse_of_25_a_forces_10_awg() -> None:
    # NEC 240.4(D): 12 AWG copper is protected at 20 A at most
    changes = X_1 | {
        "electrical.wiring.dc.size": None,
        "electrical.strings.S1.fuse": 25.0,
        "electrical.strings.S2.fuse": 25.0,
    }
    run = run_of(electrical_of(changes), "dc")
    assert (run.size, run.governing) == ("10", ("protection",))


def test_x_1_ac() -> None:
    found = electrical_of(X_1 | {"electrical.interconnection.breaker": None})
    (device,) = found.devices
    assert device.tag == "CB1"
    assert device.minimum_a == pytest.approx(39.58, abs=0.01)
    assert (device.standard_a, device.rating_a, device.stated) == (40, 40, False)
    output, connection = run_of(found, "output"), run_of(found, "connection")
    for run in (output, connection):
        assert (run.size, run.ungrounded, run.neutrals, run.grounding) == ("8", 2, 1, "10")
        assert run.check.terminal_ampacity_a == 50
        assert run.fill is not None
        assert run.fill.raceway.trade_size == "3/4"
        assert run.fill.share == pytest.approx(0.246, abs=0.0005)
    assert output.length_ft + connection.length_ft == 25
    assert output.drop.drop_v + connection.drop.drop_v == pytest.approx(1.235, abs=0.005)
    assert output.drop.percent + connection.drop.percent == pytest.approx(0.51, abs=0.006)


def test_x_1_bus() -> None:
    (bus,) = electrical_of(X_1).buses
    assert bus.chosen.topic == "busbar_opposite_ends"
    assert bus.chosen.demand_a == pytest.approx(239.58, abs=0.01)
    assert (bus.chosen.limit_a, bus.chosen.holds) == (240, True)
    assert bus.by_device is not None
    assert bus.by_device.demand_a == 240


def test_x_1_labels() -> None:
    labels = {label.name: label for label in electrical_of(X_1).labels}
    assert {
        "pv_disconnect",
        "line_and_load",
        "dc_raceway",
        "dc_voltage",
        "ac_output",
        "rapid_shutdown",
        "rapid_shutdown_switch",
        "directory",
        "do_not_relocate",
    } <= set(labels)
    assert "MAXIMUM DC VOLTAGE 407.1 V" in labels["dc_voltage"].lines
    assert "RATED AC OUTPUT CURRENT 31.67 A" in labels["ac_output"].lines
    assert "NOMINAL AC VOLTAGE 240 V" in labels["ac_output"].lines


X_2 = {
    "microinverter.max_per_branch": 20,
    "electrical.service.bus": 125.0,
    "electrical.service.main": 125.0,
    "arrays.A1.rows": 2,  # each branch a row, so that every unit is one connector from the next
    "arrays.A1.columns": 10,
    "arrays.A1.orientation": "portrait",
    # the box within a connector of the first unit of both rows, as the example has it
    "electrical.junction_boxes.JB1.at.up": 118.0,
}


def test_x_2_branches() -> None:
    found = electrical_of(X_2, MICRO)
    assert len(found.branches) == 2
    for branch in found.branches:
        assert branch.maximum_current_a == pytest.approx(12.1)
        assert (branch.least_breaker_a, branch.breaker_a) == (20, 20)
        assert branch.most_units == 13
        assert branch.trunk is not None
        assert branch.trunk.drop.drop_v == pytest.approx(1.58, abs=0.005)
        assert branch.trunk.length_ft == 60
    assert found.source_a == pytest.approx(24.2)
    assert [device.rating_a for device in found.devices] == [20, 20, 35]
    assert found.devices[-1].minimum_a == pytest.approx(30.25)


def test_x_2_home_run() -> None:
    run = run_of(electrical_of(X_2, MICRO), "branch")
    assert (run.size, run.length_ft) == ("10", 50)
    # the example takes 1.24 ohm of Table 8 and so 1.50 V; alternating current goes by the 1.2 ohm
    # of Table 9, steel: 2 x 50 x 12.1 x 1.2 / 1000
    assert run.drop.drop_v == pytest.approx(1.452)


def test_x_2_from_source_to_service() -> None:
    topology = electrical_of(X_2, MICRO).topology
    way = next(way for way in drop_ways(topology) if way.source == "B1")
    trunk, home_run = way.segments[:2]
    assert trunk.drop is not None
    assert home_run.drop is not None
    # 1.28 % with the 1.50 V of Table 8; with Table 9, (1.58 + 1.452) / 240
    assert trunk.drop.percent + home_run.drop.percent == pytest.approx(1.264, abs=0.001)
    beyond = [step.drop.percent for step in way.segments[2:] if step.drop is not None]
    assert way.percent == pytest.approx(trunk.drop.percent + home_run.drop.percent + sum(beyond))


def test_x_2_bus_fails_without_a_smaller_main() -> None:
    bus = electrical_of(X_2, MICRO).buses[-1]
    assert (bus.tag, bus.chosen.limit_a, bus.chosen.holds) == ("MSP", 150, False)
    assert bus.chosen.demand_a == pytest.approx(155.25)


def test_x_2_derated_main() -> None:
    change = MainDerate.model_validate(
        {
            "interrupting": "10000 A",
            "calculation": {
                "load": "104 A",
                "method": "220.83",
                "document": "load sheet",
                "date": "2026-01-01",
            },
        }
    )
    found = electrical_of(X_2 | {"electrical.main_derate": change}, MICRO)
    assert found.derate is not None
    assert found.derate.limit_a == pytest.approx(119.75)
    assert (found.derate.old_a, found.derate.new_a, found.derate.stated) == (125, 110, False)
    bus = found.buses[-1]
    assert (bus.main_a, bus.chosen.holds) == (110, True)
    main = found.topology.by_tag["MSP-MAIN"]
    assert (main.rating_a, main.existing) == (110, False)


def test_x_3_converters() -> None:
    first, _ = house(name=CONVERTERS).job.electrical.strings
    changes = {
        "inverter.fixed_dc_v": 380.0,
        "electrical.strings": (first.model_copy(update={"modules": 12}),),
        "electrical.wiring.dc.size": "12",
    }
    found = electrical_of(changes, CONVERTERS)
    (string,) = found.strings
    assert string.power_w == 4800
    assert string.operating_a == pytest.approx(12.63, abs=0.005)
    assert string.maximum_current_a == 15
    assert string.cold_voc_v == 480
    assert {string.hot_vmp_v, string.cold_vmp_v, string.operating_v} == {380}
    run = run_of(found, "dc")
    assert run.check.terminal_demand_a == 18.75
    assert (run.size, run.check.terminal_ampacity_a, run.check.holds) == ("12", 25, True)


def test_converters_without_a_listed_maximum_add_up() -> None:
    # C-16: twelve of 60 V are 720 V
    first, _ = house(name=CONVERTERS).job.electrical.strings
    changes = {
        "converter.string_max_v": None,
        "electrical.strings": (first.model_copy(update={"modules": 12}),),
    }
    assert electrical_of(changes, CONVERTERS).strings[0].cold_voc_v == 720


def test_supply_side_conductors_are_6_awg_at_least() -> None:
    # C-46
    found = electrical_of({}, CONVERTERS)
    run = run_of(found, "connection")
    assert (run.size, run.governing) == ("6", ("minimum",))
    # NEC Table 250.102(C)(1): 8 AWG copper for supply conductors to 2 AWG copper
    assert run.grounding == "8"
    assert segment_of(found, "connection").device_a == 40
