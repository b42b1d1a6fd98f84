"""Whole systems, every number one after the other, as far as the code alone decides them.

None of the three is published: all numbers were recomputed apart from this program. They test that
the clauses fit together.
"""

import pytest

from planset.codes.nec import (
    busbar_alternatives,
    circuit_current,
    grounding,
    main_derate,
    overcurrent,
    raceways,
    resistance,
    string_fuses,
    string_length,
    voltage,
)
from planset.codes.nec.adjusted_ampacity import Conditions, Wire
from planset.codes.nec.busbar_alternatives import Bus
from planset.codes.nec.cell_temperature import FIXED_RISE_C, cell_temperature_by_rise_c
from planset.codes.nec.conductor_size import Circuit, check_size, smallest_size
from planset.codes.nec.voltage_drop import daisy_chain_drop, segment_drop, total_percent

THWN_2 = Wire("copper", "THWN-2", 90)
ON_ROOF = Conditions(38, 4, gap_above_roof_in=1.0)


def test_string_inverter_dc_side() -> None:
    # two strings of ten modules, one per input; -11 C, 38 C, flush roof; 4 conductors in EMT
    module_v = voltage.open_circuit_voltage(37.1, -0.27, -11)
    assert 10 * module_v == pytest.approx(407.06, abs=0.005)
    assert string_length.largest_string(600, module_v) == 14
    assert string_length.largest_string(600, 37.1 * voltage.table_factor(-11)) == 13
    cell_c = cell_temperature_by_rise_c(38, FIXED_RISE_C["flush"])
    hot_v = voltage.maximum_power_voltage(31.0, -0.34, cell_c)
    assert cell_c == 73
    assert hot_v == pytest.approx(25.94, abs=0.005)
    assert string_length.smallest_string(120, hot_v) == 5

    current = circuit_current.string_maximum_a(13.60)
    assert current == pytest.approx(17.0)
    assert not string_fuses.device_required(1, 13.60, 25)
    assert string_fuses.smallest_string_fuse_a(13.60) == 25

    checks = {
        size: check_size(size, Circuit(current, 75), THWN_2, ON_ROOF, 2020) for size in ("12", "10")
    }
    for size, at_terminal, in_raceway in (("12", 25, 21.84), ("10", 35, 29.12)):
        assert checks[size].holds
        assert checks[size].terminal_demand_a == pytest.approx(21.25)
        assert checks[size].terminal_ampacity_a == at_terminal
        assert checks[size].adjusted.ampacity_a == pytest.approx(in_raceway)

    assert grounding.equipment_grounding_size(grounding.assumed_dc_device_a(current)) == "10"
    area = raceways.conductor_area_in2("10", "THWN-2")
    fill = raceways.smallest_raceway("emt", [area] * 5)
    assert (fill.raceway.trade_size, round(fill.conductors_in2, 4)) == ("1/2", 0.1055)
    ohm = resistance.dc_resistance_ohm_per_kft("10", "copper")
    drop = segment_drop(12.90, 60, ohm, 10 * 31.0, "dc")
    assert (round(drop.drop_v, 2), round(drop.percent, 2)) == (1.92, 0.62)


def test_string_inverter_ac_side() -> None:
    # 7.6 kW at 240 V, 25 ft, panel 200/200, breaker opposite the main
    current = circuit_current.inverter_current_from_power_a(7600, 240)
    least = overcurrent.continuous_minimum_a(current)
    breaker = overcurrent.next_standard_rating_a(least)
    assert current == pytest.approx(31.67, abs=0.005)
    assert (round(least, 2), breaker) == (39.58, 40)
    for terminal_c, at_terminal in ((60, 40), (75, 50)):
        sizing = smallest_size(
            Circuit(current, terminal_c, breaker), THWN_2, Conditions(30, 2), 2020
        )
        assert (sizing.size, sizing.check.terminal_ampacity_a) == ("8", at_terminal)
    assert grounding.equipment_grounding_size(breaker) == "10"
    areas = [raceways.conductor_area_in2("8", "THWN-2")] * 3
    areas.append(raceways.conductor_area_in2("10", "THWN-2"))
    fill = raceways.smallest_raceway("emt", areas)
    assert (fill.raceway.trade_size, round(100 * fill.share, 1)) == ("3/4", 24.6)
    ohm = resistance.ac_resistance_ohm_per_kft("8", "copper", "pvc")
    drop = segment_drop(current, 25, ohm, 240, "single_phase")
    assert drop.drop_v == pytest.approx(1.24, abs=0.006)
    assert drop.percent == pytest.approx(0.51, abs=0.006)
    bus = Bus(200, 200, current, "end", at_opposite_end=True, dwelling=True)
    opposite = busbar_alternatives.opposite_ends(bus, 2020)
    assert opposite.demand_a == pytest.approx(239.58, abs=0.005)
    assert opposite.holds


def test_microinverters() -> None:
    # 20 units of 1.21 A, panel 125/125, two branches of ten
    assert circuit_current.largest_microinverter_branch(20, 1.21) == 13
    branch = circuit_current.microinverter_branch_maximum_a(10, 1.21)
    assert branch == pytest.approx(12.1)
    assert overcurrent.continuous_minimum_a(branch) == pytest.approx(15.125)
    assert overcurrent.next_standard_rating_a(overcurrent.continuous_minimum_a(branch)) == 20
    total = circuit_current.combined_maximum_a([branch, branch])
    assert total == pytest.approx(24.2)
    assert overcurrent.next_standard_rating_a(overcurrent.continuous_minimum_a(total)) == 35
    trunk = smallest_size(Circuit(branch, 75, 20), THWN_2, Conditions(30, 2), 2020)
    assert trunk.size == "12"

    bus = Bus(125, 125, total, "end", at_opposite_end=True, dwelling=True)
    failed = busbar_alternatives.opposite_ends(bus, 2020)
    assert (round(failed.demand_a, 2), failed.limit_a, failed.holds) == (155.25, 150.0, False)
    derated = main_derate.derated_main(125, total, 110)
    assert (round(derated.limit_a, 2), derated.rating_a, derated.holds) == (119.75, 110, True)
    assert not main_derate.derated_main(125, total, 111).holds

    chain = daisy_chain_drop(10, 1.21, 6, resistance.dc_resistance_ohm_per_kft("12", "copper"), 240)
    home_run = segment_drop(
        branch, 50, resistance.dc_resistance_ohm_per_kft("10", "copper"), 240, "single_phase"
    )
    assert (round(chain.drop_v, 2), round(home_run.drop_v, 2)) == (1.58, 1.50)
    assert total_percent([chain, home_run]) == pytest.approx(1.28, abs=0.005)


def test_fixed_voltage_converters() -> None:
    # 12 modules of 400 W at 380 V, converters of 15 A; the maximum voltage is the listing's
    assert circuit_current.converter_string_operating_a(4800, 380) == pytest.approx(
        12.63, abs=0.005
    )
    current = circuit_current.converter_output_maximum_a(15)
    check = check_size("12", Circuit(current, 75), THWN_2, Conditions(30, 2), 2020)
    assert check.terminal_demand_a == 18.75
    assert check.terminal_ampacity_a == 25
    assert check.holds
    assert voltage.converter_string_maximum_v([60.0] * 12, listed_v=480) == 480


def test_bounds_of_a_published_standard_plan() -> None:
    # California permitting guidebook, printed: 10 kW on at most a 60 A breaker, factors 1.12 and
    # 1.14; 41.67 A and 52.08 A recomputed
    current = circuit_current.inverter_current_from_power_a(10_000, 240)
    least = overcurrent.continuous_minimum_a(current)
    assert (round(current, 2), round(least, 2)) == (41.67, 52.08)
    assert overcurrent.next_standard_rating_a(least) == 60
    assert (voltage.table_factor(-5), voltage.table_factor(-10)) == (1.12, 1.14)


def test_study_guide_module() -> None:
    # study guide for installers, 2005, printed 9 A; recomputed 11.25 A and 15 A
    current = circuit_current.string_maximum_a(7.2)
    assert current == pytest.approx(9.0)
    least = overcurrent.continuous_minimum_a(current)
    assert least == pytest.approx(11.25)
    assert overcurrent.next_standard_rating_a(least) == 15
