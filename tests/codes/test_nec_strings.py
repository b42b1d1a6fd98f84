"""Voltages and lengths of strings, cell temperatures, currents and fuses of strings.

Sources, named again beside each row:
- "notes B": amozeshbargh.ir post-69; "open notes": published engineering notes, address not
  recorded; "NABCEP review" and "practice test A" are tested in test_nec.py.
- "Wiles": Code Calculations for an Off-Grid PV System; "solar fuses": solarsaarthi.com, selection
  and sizing of solar dc fuses (IEC); "package": constants of a public modeling package.
- NEC 2020 690.7, 690.8 and 690.9.
"recomputed" rows were worked out apart from this program with the printed formula.
"""

import math
from collections.abc import Callable

import pytest

from planset.codes.nec import (
    cell_temperature,
    circuit_current,
    overcurrent,
    string_fuses,
    string_length,
    voltage,
)


@pytest.mark.parametrize(
    ("limit_v", "module_v", "longest"),
    [
        (1000, 53.658, 18),  # notes B, printed 18; 18.64 recomputed
        (1500, 54.178, 27),  # open notes, printed 27; 27.69 recomputed
        (600, 54.178, 11),  # the same on a dwelling, recomputed 11.07
        (600, 41.77, 14),  # by coefficient, recomputed 14.36
        (600, 43.778, 13),  # by table: one module fewer, recomputed 13.71
        (600, 37.1 * 1.0972, 14),  # string inverter example by coefficient, recomputed 14.74
        (600, 37.1 * 1.16, 13),  # by table, recomputed 13.94
        (480, 34.79, 13),  # tracking range in the cold, recomputed 13.80
        (600, 60, 10),  # equality counts
        (600, 0.1 * 3 * 200, 10),  # in spite of rounding: 60.000000000000007
        (600, 601, 0),
    ],
)
def test_largest_string(limit_v: float, module_v: float, longest: int) -> None:
    assert string_length.largest_string(limit_v, module_v) == longest


@pytest.mark.parametrize(
    ("least_v", "module_v", "shortest"),
    [
        (200, 25.79, 8),  # cell 73 C, recomputed 7.75
        (200, 27.42, 8),  # cell 58 C, recomputed 7.29
        (120, 25.94, 5),  # string inverter example, recomputed 4.63
        (200, 25, 8),  # equality counts
        (60.000000000000007, 0.1 * 3 * 10, 20),
    ],
)
def test_smallest_string(least_v: float, module_v: float, shortest: int) -> None:
    assert string_length.smallest_string(least_v, module_v) == shortest


@pytest.mark.parametrize(
    ("percent", "expected"),
    [
        (voltage.percent_from_volts(-0.1113, 37.1), -0.30),  # recomputed: unit forms agree
        # -2.0 mV for each of 54 cells is -0.108 V, recomputed
        (voltage.percent_from_millivolts_per_cell(-2.0, 54, 37.1), 100 * -0.108 / 37.1),
    ],
)
def test_coefficient_forms(percent: float, expected: float) -> None:
    assert percent == pytest.approx(expected)


@pytest.mark.parametrize(
    ("percent", "lowest_c", "module_v"),
    [
        # Voc 37.1 V, recomputed
        (-0.30, -17, 41.77),
        (voltage.percent_from_volts(-0.1113, 37.1), -17, 41.77),
        (voltage.percent_from_millivolts_per_cell(-2.0, 54, 37.1), -11, 40.99),
        (-0.30, 25, 37.1),
        (-0.30, 40, 37.1),  # never under the rated voltage
    ],
)
def test_module_voltage_by_any_form(percent: float, lowest_c: float, module_v: float) -> None:
    assert voltage.open_circuit_voltage(37.1, percent, lowest_c) == pytest.approx(
        module_v, abs=0.005
    )


def test_ten_modules_of_the_string_inverter_example() -> None:
    # recomputed: factor 1.0972, 407.06 V; table 1.16, 430.36 V; hot 259.4 V, cold 347.9 V
    assert 10 * voltage.open_circuit_voltage(37.1, -0.27, -11) == pytest.approx(407.06, abs=0.005)
    assert 10 * 37.1 * voltage.table_factor(-11) == pytest.approx(430.36, abs=0.005)
    assert 10 * voltage.maximum_power_voltage(31, -0.34, 73) == pytest.approx(259.4, abs=0.05)
    assert 10 * voltage.maximum_power_voltage(31, -0.34, -11) == pytest.approx(347.9, abs=0.05)
    # notes B, printed: 38.9 V each, about 700 V for 18
    assert 18 * voltage.maximum_power_voltage(41.2, -0.28, 45) == pytest.approx(700.07, abs=0.005)


@pytest.mark.parametrize(
    ("listed_v", "maximum_v"),
    [
        (None, 720),  # 12 of 60 V with no method in the listing, recomputed: over 600 V
        (480, 480),  # the listing gives another maximum
    ],
)
def test_converter_string(listed_v: float | None, maximum_v: float) -> None:
    assert voltage.converter_string_maximum_v([60.0] * 12, listed_v) == maximum_v


def test_voltage_limits() -> None:
    # NEC 2020 690.7
    assert voltage.DWELLING_LIMIT_V == 600
    assert voltage.OTHER_BUILDING_LIMIT_V == 1000
    assert voltage.OFF_BUILDING_LIMIT_V == 1500


@pytest.mark.parametrize(
    ("cell_c", "expected_c"),
    [
        (cell_temperature.cell_temperature_by_rise_c(38, 35), 73),  # recomputed
        (cell_temperature.cell_temperature_by_rise_c(38, 20), 58),  # recomputed
        (cell_temperature.cell_temperature_by_noct_c(38, 45, 1000), 69.25),  # recomputed
        (cell_temperature.cell_temperature_by_noct_c(35, 45, 1000), 66.25),  # recomputed
        (cell_temperature.cell_temperature_by_noct_c(20, 45, 800), 45),  # its own definition
        # package, 1000 W/m2, 35 C, 1 m/s
        (
            cell_temperature.cell_temperature_by_model_c(35, 1000, 1, "open_rack_glass_polymer"),
            64.4,
        ),
        (
            cell_temperature.cell_temperature_by_model_c(35, 1000, 1, "close_mount_glass_glass"),
            84.5,
        ),
        (
            cell_temperature.cell_temperature_by_model_c(
                35, 1000, 1, "insulated_back_glass_polymer"
            ),
            92.5,
        ),
    ],
)
def test_cell_temperature(cell_c: float, expected_c: float) -> None:
    assert cell_c == pytest.approx(expected_c, abs=0.05)


def test_fixed_rises() -> None:
    # common practice, no source
    assert dict(cell_temperature.FIXED_RISE_C) == {"flush": 35, "raised": 30, "open": 25}


@pytest.mark.parametrize(
    ("isc_a", "fuse_a"),
    [
        (5.46, 10),  # Wiles, printed 8.52 A and a fuse in each string; next fuse size recomputed
        (9.5, 15),  # 14.84 A, recomputed
        (10.25, 20),  # 16.02 A, recomputed
        (13.6, 25),  # 21.25 A, recomputed
        (9.6, 15),  # exactly 15 A; limits of a published diagram's notes, from memory
    ],
)
def test_string_fuse(isc_a: float, fuse_a: float) -> None:
    assert string_fuses.smallest_string_fuse_a(isc_a) == fuse_a


def test_a_trade_size_of_12_a_is_no_standard_rating() -> None:
    # Isc 7.68 A: 12.0 A; fuses of 12 A are sold, but 240.6 goes from 10 to 15 A
    assert string_fuses.smallest_string_fuse_a(7.68) == 15


@pytest.mark.parametrize(
    ("strings", "isc_a", "module_fuse_a", "backfeed_a", "required"),
    [
        (1, 13.6, 25, 0.0, False),  # one string on an input
        (2, 9.5, 20, 11.875, False),  # recomputed 11.88
        (3, 9.5, 20, 23.75, True),  # recomputed: fuse each
        (10, 5.46, 15, 61.4, True),  # Wiles continued, recomputed; no module is fused so high
        # solar fuses printed 12.28 A, which is IEC's current without 1.25; corrected to the NEC
        (2, 12.28, 20, 15.35, False),
        (3, 8.0, 20, 20.0, False),  # equality counts
    ],
)
def test_string_device_required(
    strings: int, isc_a: float, module_fuse_a: float, backfeed_a: float, required: bool
) -> None:
    assert string_fuses.backfeed_a(strings, isc_a) == pytest.approx(backfeed_a, rel=0.001)
    assert string_fuses.device_required(strings, isc_a, module_fuse_a) is required


def test_other_sources_count_as_backfeed() -> None:
    # recomputed: 11.875 A and 10 A of an inverter pass 20 A
    assert string_fuses.backfeed_a(2, 9.5, 10) == 21.875
    assert string_fuses.device_required(2, 9.5, 20, 10) is True


def test_shared_device() -> None:
    # 690.8(D), recomputed: 20 A and 1.25 times one other string of 9.5 A
    assert string_fuses.shared_device_ampacity_a(20, 9.5) == 31.875


def test_combined_strings() -> None:
    # Wiles continued, recomputed: ten strings 68.25 A, 85.3 A, 90 A
    combined = circuit_current.combined_maximum_a([circuit_current.string_maximum_a(5.46)] * 10)
    assert combined == pytest.approx(68.25)
    least = overcurrent.continuous_minimum_a(combined)
    assert least == pytest.approx(85.3, abs=0.05)
    assert overcurrent.next_standard_rating_a(least) == 90


@pytest.mark.parametrize(
    ("edition", "device_a", "maximum_a"),
    [
        # 690.8(A)(2), since 2020; recomputed: 34 A by modules, 30 A rated input, 40 A conductors
        (2017, 40, 34),
        (2020, 40, 30),
        (2023, 40, 30),
        (2020, 45, 34),  # the device does not protect the conductors
    ],
)
def test_converter_input(edition: int, device_a: float, maximum_a: float) -> None:
    found = circuit_current.converter_input_maximum_a(34, 30, device_a, 40, edition)
    assert found == maximum_a


def test_converter_string_current() -> None:
    # optimizer example, recomputed: 12 of 400 W at 380 V operate at 12.63 A; maximum 15 A, 18.75 A
    assert circuit_current.converter_string_operating_a(4800, 380) == pytest.approx(
        12.63, abs=0.005
    )
    assert circuit_current.converter_output_maximum_a(15) == 15
    assert overcurrent.continuous_minimum_a(15) == 18.75


@pytest.mark.parametrize(
    ("unit_a", "most"),
    [
        # floor(16 / unit) on 20 A, recomputed
        (1.00, 16),
        (1.21, 13),
        (1.38, 11),
        (1.45, 11),
        (1.58, 10),
        (1.60, 10),  # exactly 20 A
        (17.0, 0),
    ],
)
def test_largest_microinverter_branch(unit_a: float, most: int) -> None:
    assert circuit_current.largest_microinverter_branch(20, unit_a) == most
    if most:
        assert 1.25 * circuit_current.microinverter_branch_maximum_a(most, unit_a) <= 20 + 1e-9
    assert 1.25 * circuit_current.microinverter_branch_maximum_a(most + 1, unit_a) > 20


@pytest.mark.parametrize(
    ("units_between", "line_a"),
    [
        # recomputed: five of 1 A between each pair of lines make 5 sqrt(3) A
        ((5, 5, 5), 8.660),
        ((6, 5, 5), 9.539),
        ((4, 0, 0), 4.0),  # a single-phase branch
        ((4, 4, 0), 6.928),
    ],
)
def test_three_phase_branch(units_between: tuple[int, int, int], line_a: float) -> None:
    found = circuit_current.three_phase_branch_maximum_a(units_between, 1.0)
    assert found == pytest.approx(line_a, abs=0.0005)


@pytest.mark.parametrize(
    ("power_w", "voltage_v", "phases", "current_a"),
    [
        # recomputed
        (7600, 240, 1, 31.67),
        (11400, 240, 1, 47.5),
        (10000, 240, 1, 41.67),  # bound of a California standard plan: 60 A breaker
        (10000, 208, 3, 10000 / 208 / math.sqrt(3)),
    ],
)
def test_current_from_power(
    power_w: float, voltage_v: float, phases: int, current_a: float
) -> None:
    found = circuit_current.inverter_current_from_power_a(power_w, voltage_v, phases)
    assert found == pytest.approx(current_a, abs=0.005)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: string_length.largest_string(0, 40), "expected a number above 0"),
        (lambda: string_length.smallest_string(200, 0), "expected a number above 0"),
        (lambda: voltage.converter_string_maximum_v([], None), "expected at least one"),
        (lambda: voltage.converter_string_maximum_v([60], 0), "expected a number above 0"),
        (lambda: voltage.percent_from_volts(-0.1, 0), "expected a number above 0"),
        (
            lambda: voltage.percent_from_millivolts_per_cell(-2, 0, 37),
            "expected a number above 0",
        ),
        (lambda: cell_temperature.cell_temperature_by_noct_c(38, 85, 800), "expected 20 to 80"),
        (lambda: cell_temperature.cell_temperature_by_rise_c(38, -1), "expected 0 or more"),
        (
            lambda: cell_temperature.cell_temperature_by_model_c(38, 800, 1, "tile"),
            "expected one of open_rack_glass_glass",
        ),
        (lambda: string_fuses.backfeed_a(0, 9.5), "expected a number above 0"),
        (lambda: string_fuses.device_required(2, 9.5, 0), "expected a number above 0"),
        (lambda: circuit_current.combined_maximum_a([]), "expected at least one"),
        (
            lambda: circuit_current.three_phase_branch_maximum_a((0, 0, 0), 1.0),
            "expected a number above 0",
        ),
        (
            lambda: circuit_current.three_phase_branch_maximum_a((1, -1, 1), 1.0),
            "expected 0 or more",
        ),
        (lambda: circuit_current.combined_maximum_a([1, 0]), "expected a number above 0"),
        (
            lambda: circuit_current.converter_input_maximum_a(34, 30, 40, 40, 2014),
            "expected one of 2017",
        ),
        (
            lambda: circuit_current.inverter_current_from_power_a(7600, 240, 2),
            "expected 1 or 3",
        ),
    ],
)
def test_refusals(call: Callable[[], object], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        call()
