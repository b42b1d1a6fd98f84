"""Voltage, currents, overcurrent ratings, busbars and rapid shutdown by the NEC.

Sources, named again beside each row:
- NEC Table 690.7(A) and 240.6(A), the same in 2017, 2020 and 2023.
- "practice test A": peerlessinstitute.com solar C46 practice test; "NABCEP review":
  jeopardylabs.com nabcep-review-4; "notes B": amozeshbargh.ir post-69; "open notes":
  published engineering notes, address not recorded.
- "Home Power": PV circuit sizing article; "Wiles": Code Calculations for an Off-Grid PV System;
  "study guide": Study Guide for Photovoltaic System Installers, 2005.
- "2025 CEC notes": study notes on the 2025 California Electrical Code (NEC 2023), article 705.
- "Vail": permit B14-0266; "IAEI": IAEI magazine, September 2020, photo note.
"recomputed" rows were worked out apart from this program with the printed formula.
"""

import math

import pytest

from planset.codes.nec import (
    busbar,
    circuit_current,
    overcurrent,
    rapid_shutdown,
    voltage,
)


@pytest.mark.parametrize(
    ("warmest_c", "coldest_c", "factor"),
    [
        # NEC 2020 Table 690.7(A), every line
        (24, 20, 1.02),
        (19, 15, 1.04),
        (14, 10, 1.06),
        (9, 5, 1.08),
        (4, 0, 1.10),
        (-1, -5, 1.12),
        (-6, -10, 1.14),
        (-11, -15, 1.16),
        (-16, -20, 1.18),
        (-21, -25, 1.20),
        (-26, -30, 1.21),
        (-31, -35, 1.23),
        (-36, -40, 1.25),
    ],
)
def test_table_factor_lines(warmest_c: float, coldest_c: float, factor: float) -> None:
    assert voltage.table_factor(warmest_c) == factor
    assert voltage.table_factor(coldest_c) == factor
    # between two lines the colder one holds
    assert voltage.table_factor(warmest_c + 0.5) == factor


@pytest.mark.parametrize(
    ("lowest_c", "factor"),
    [
        (-5.4, 1.14),  # between two lines: the colder
        (-5.0, 1.12),  # end of a line
        (-0.1, 1.12),
        (24.9, 1.02),  # just under 25 C
        (25.0, 1.0),  # rated temperature
        (31.0, 1.0),  # no correction above it
        (-40.0, 1.25),  # end of the table
        (-17.0, 1.18),
    ],
)
def test_table_factor_boundaries(lowest_c: float, factor: float) -> None:
    assert voltage.table_factor(lowest_c) == factor


@pytest.mark.parametrize("lowest_c", [-40.1, -60.0, math.nan])
def test_table_factor_ends_at_minus_40(lowest_c: float) -> None:
    with pytest.raises(ValueError, match="ends at -40 C; use the module's"):
        voltage.table_factor(lowest_c)


def test_table_voltage() -> None:
    # Voc 44.0 V at -10 C by the table, recomputed: 50.16 V
    assert 44.0 * voltage.table_factor(-10) == pytest.approx(50.16, abs=0.005)


@pytest.mark.parametrize(
    ("voc", "coefficient", "lowest_c", "corrected", "tolerance"),
    [
        (49.0, -0.24, -7.2, 52.79, 0.005),  # NABCEP review, printed
        (44.0, -0.30, -10, 48.62, 0.005),  # practice test A inputs, recomputed
        (49.5, -0.28, -5, 53.66, 0.005),  # notes B, printed
        (49.5, -0.27, -10, 54.2, 0.05),  # open notes, printed
        (49.5, -0.27, -10, 54.178, 0.0005),  # the same recomputed
        (37.1, -0.30, -17, 41.77, 0.005),  # recomputed
        (37.1, 100 * -0.1113 / 37.1, -17, 41.77, 0.005),  # -0.1113 V/C, recomputed
        (37.1, 100 * -2.0 * 54 / 1000 / 37.1, -11, 40.99, 0.005),  # -2 mV/C and cell, 54 cells
        (37.1, -0.27, -11, 40.706, 0.0005),  # ten in series 407.06 V, recomputed
        (37.1, -0.27, 25, 37.1, 0.0005),  # rated temperature
        (37.1, -0.27, 35, 37.1, 0.0005),  # warmer: the rated voltage stands
    ],
)
def test_open_circuit_voltage(
    voc: float, coefficient: float, lowest_c: float, corrected: float, tolerance: float
) -> None:
    computed = voltage.open_circuit_voltage(voc, coefficient, lowest_c)
    assert computed == pytest.approx(corrected, abs=tolerance)


@pytest.mark.parametrize(
    ("vmp", "coefficient", "cell_c", "corrected", "tolerance"),
    [
        (41.2, -0.28, 45, 38.9, 0.05),  # notes B, printed
        (41.2, -0.28, 45, 38.893, 0.0005),  # the same recomputed
        (31.0, -0.35, 73, 25.79, 0.005),  # recomputed
        (31.0, -0.35, 58, 27.42, 0.005),  # recomputed
        (31.0, -0.34, 73, 25.94, 0.005),  # recomputed
        (31.0, -0.34, -11, 34.79, 0.005),  # ten in series 347.9 V, recomputed
    ],
)
def test_maximum_power_voltage(
    vmp: float, coefficient: float, cell_c: float, corrected: float, tolerance: float
) -> None:
    computed = voltage.maximum_power_voltage(vmp, coefficient, cell_c)
    assert computed == pytest.approx(corrected, abs=tolerance)


@pytest.mark.parametrize(
    ("rated_v", "coefficient", "temperature_c"),
    [
        (0.0, -0.3, -10),
        (37.1, 0.3, -10),  # sign lost
        (37.1, 0.0, -10),
        (37.1, -110.0, -10),  # mV/C given for %/C
        (37.1, -1.01, -10),  # more than any silicon module
        (37.1, -0.3, -200),
        (37.1, -0.3, math.nan),
    ],
)
def test_module_voltages_refuse(rated_v: float, coefficient: float, temperature_c: float) -> None:
    with pytest.raises(ValueError, match="expected"):
        voltage.open_circuit_voltage(rated_v, coefficient, temperature_c)
    with pytest.raises(ValueError, match="expected"):
        voltage.maximum_power_voltage(rated_v, coefficient, temperature_c)


@pytest.mark.parametrize(
    ("module_v", "limit_v", "longest"),
    [
        # longest string, floor(limit / module voltage)
        (voltage.open_circuit_voltage(49.5, -0.28, -5), voltage.OTHER_BUILDING_LIMIT_V, 18),
        (voltage.open_circuit_voltage(49.5, -0.27, -10), voltage.DWELLING_LIMIT_V, 11),
        (voltage.open_circuit_voltage(37.1, -0.30, -17), voltage.DWELLING_LIMIT_V, 14),
        (37.1 * voltage.table_factor(-17), voltage.DWELLING_LIMIT_V, 13),  # one less by table
    ],
)
def test_voltage_limits_give_the_string_lengths(
    module_v: float, limit_v: float, longest: int
) -> None:
    # first row: notes B, printed 18; the others recomputed
    assert math.floor(limit_v / module_v) == longest


@pytest.mark.parametrize(
    ("isc", "maximum", "rating_basis", "tolerance"),
    [
        (8.8, 11.0, 13.75, 0.005),  # Home Power, printed
        (5.46, 6.825, 8.52, 0.015),  # Wiles, printed 8.52 (exact 8.531)
        (7.2, 9.0, 11.25, 0.005),  # study guide, printed 9; 11.25 recomputed
        (9.5, 11.875, 14.84, 0.005),  # recomputed
        (10.25, 12.81, 16.02, 0.005),  # recomputed
        (13.6, 17.0, 21.25, 0.005),  # recomputed
    ],
)
def test_string_current(isc: float, maximum: float, rating_basis: float, tolerance: float) -> None:
    current = circuit_current.string_maximum_a(isc)
    assert current == pytest.approx(maximum, abs=0.005)
    assert overcurrent.continuous_minimum_a(current) == pytest.approx(rating_basis, abs=tolerance)


@pytest.mark.parametrize(
    ("rated", "minimum", "breaker"),
    [
        (7600 / 240, 39.58, 40),  # IAEI, printed 40 A
        (16 * 1.0, 20.0, 20),  # Vail, printed 20 A: equality counts
        (50 * 1.0, 62.5, 70),  # Vail, printed 62.5 and 70 A
        (25 * 1.0, 31.25, 35),  # recomputed
        # watts over 240 V, recomputed
        (3000 / 240, 15.63, 20),
        (3800 / 240, 19.79, 20),
        (5000 / 240, 26.04, 30),
        (6000 / 240, 31.25, 35),
        (10000 / 240, 52.08, 60),
        (11400 / 240, 59.38, 60),
        (12.1, 15.125, 20),
        (24.2, 30.25, 35),
    ],
)
def test_inverter_output_breaker(rated: float, minimum: float, breaker: float) -> None:
    current = circuit_current.inverter_output_maximum_a(rated)
    least = overcurrent.continuous_minimum_a(current)
    assert current == rated
    assert least == pytest.approx(minimum, abs=0.006)
    assert overcurrent.next_standard_rating_a(least) == breaker


@pytest.mark.parametrize(
    ("minimum", "rating"),
    [
        (1.0, 15),
        (15.0, 15),
        (15.01, 20),
        (14.84, 15),
        (16.02, 20),
        (21.25, 25),
        (85.3, 90),
        (1.25 * 1.6 * 10, 20),  # rounding noise does not push to the next size
        (40 * (1 + 1e-12), 40),
        (801, 1000),
        (2000, 2000),
    ],
)
def test_next_standard_rating(minimum: float, rating: float) -> None:
    assert overcurrent.next_standard_rating_a(minimum) == rating


def test_standard_ratings_as_printed() -> None:
    # NEC 2020 240.6(A), up to 2000 A
    printed = """15 20 25 30 35 40 45 50 60 70 80 90 100 110 125 150 175 200 225 250 300 350 400
        450 500 600 700 800 1000 1200 1600 2000"""
    assert list(overcurrent.standard_ratings_a()) == [float(text) for text in printed.split()]


@pytest.mark.parametrize("minimum", [0.0, -20.0, 2000.1, math.nan])
def test_next_standard_rating_refuses(minimum: float) -> None:
    with pytest.raises(ValueError, match="least rating"):
        overcurrent.next_standard_rating_a(minimum)


def test_currents_refuse() -> None:
    with pytest.raises(ValueError, match="expected"):
        circuit_current.string_maximum_a(0)
    with pytest.raises(ValueError, match="expected"):
        circuit_current.inverter_output_maximum_a(-1)
    with pytest.raises(ValueError, match="expected"):
        overcurrent.continuous_minimum_a(-1)


@pytest.mark.parametrize(
    ("busbar_a", "main_a", "largest_breaker_a"),
    [
        # 2025 CEC notes, table of largest back-fed breakers, printed
        (100, 100, 20),
        (125, 100, 50),
        (125, 125, 25),
        (200, 150, 90),
        (200, 175, 65),
        (200, 200, 40),
        (225, 175, 95),
        (225, 200, 70),
        (225, 225, 45),
    ],
)
def test_busbar_limit(busbar_a: float, main_a: float, largest_breaker_a: float) -> None:
    assert busbar.busbar_limit_a(busbar_a) - main_a == pytest.approx(largest_breaker_a)


@pytest.mark.parametrize(
    ("busbar_a", "main_a", "inverter_a", "demand_a", "passes"),
    [
        (200, 175, 50, 237.5, True),  # recomputed; by the breaker rating it would fail
        (200, 200, 32, 240.0, True),  # 2025 CEC notes, 32 A continuous: at the limit
        (200, 200, 32.1, 240.125, False),
        (225, 200, 48, 260.0, True),  # recomputed
        (200, 200, 7600 / 240, 239.58, True),  # recomputed
        (125, 125, 24.2, 155.25, False),  # recomputed
        (125, 110, 24.2, 140.25, True),  # the same with the main derated
    ],
)
def test_busbar_demand(
    busbar_a: float, main_a: float, inverter_a: float, demand_a: float, passes: bool
) -> None:
    demand = busbar.busbar_demand_a(main_a, inverter_a)
    assert demand == pytest.approx(demand_a, abs=0.005)
    assert (demand <= busbar.busbar_limit_a(busbar_a)) == passes


@pytest.mark.parametrize(
    ("busbar_a", "inverter_a", "largest_main_a"),
    [
        # largest main breaker, 1.2 B - 1.25 S, recomputed
        (200, 48, 180),
        (200, 50, 177.5),
        (200, 60, 165),
        (225, 48, 210),
        (125, 24.2, 119.75),
        (100, 20, 95),
    ],
)
def test_main_breaker_derate(busbar_a: float, inverter_a: float, largest_main_a: float) -> None:
    room = busbar.busbar_limit_a(busbar_a) - busbar.busbar_demand_a(0, inverter_a)
    assert room == pytest.approx(largest_main_a)


def test_busbar_refuses() -> None:
    with pytest.raises(ValueError, match="expected"):
        busbar.busbar_limit_a(0)
    with pytest.raises(ValueError, match="expected"):
        busbar.busbar_demand_a(-200, 32)
    with pytest.raises(ValueError, match="expected"):
        busbar.busbar_demand_a(200, -32)


@pytest.mark.parametrize(
    ("edition", "label_clause"),
    # NEC 690.12(B) of each edition; the label moved in 2023
    [(2017, "690.56(C)"), (2020, "690.56(C)"), (2023, "690.12(D)")],
)
def test_rapid_shutdown(edition: int, label_clause: str) -> None:
    assert rapid_shutdown.requirement(edition) == rapid_shutdown.RapidShutdown(
        edition=edition,
        boundary_in=12,  # 1 ft from the array in all directions
        outside_limit_v=30,
        outside_time_s=30,
        inside_limit_v=80,
        inside_time_s=30,
        label_clause=label_clause,
    )


@pytest.mark.parametrize("edition", [2014, 2026])
def test_rapid_shutdown_refuses_other_editions(edition: int) -> None:
    with pytest.raises(ValueError, match="expected one of 2017, 2020, 2023"):
        rapid_shutdown.requirement(edition)
