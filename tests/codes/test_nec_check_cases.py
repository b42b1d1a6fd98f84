"""Published numbers that no other table holds, or holds in part only.

Sources, named again beside each row: "NABCEP review", jeopardylabs.com nabcep-review-4; "open
notes", published engineering notes, address not recorded; "steel tube", a trade body's conduit fill
question; "IAEI", IAEI magazine, September 2020, photo note; "study guide", Study Guide for
Photovoltaic System Installers, 2005; "guidebook", California Solar Permitting Guidebook slides,
2015. "recomputed" rows were worked out apart from this program with the printed formula.
"""

import pytest

from planset.codes.nec import (
    busbar_alternatives,
    circuit_current,
    conductor_protection,
    overcurrent,
    raceways,
    string_fuses,
    voltage,
)
from planset.codes.nec.adjusted_ampacity import Conditions, Wire
from planset.codes.nec.busbar_alternatives import Bus
from planset.codes.nec.conductor_size import Circuit, check_size


@pytest.mark.parametrize(
    ("percent_per_c", "lowest_c", "factor", "tolerance"),
    [
        (-0.24, -7.2, 1.0773, 5e-5),  # NABCEP review, printed: a rise of 7.73 %
        (-0.30, -10, 1.105, 5e-7),  # practice test inputs, recomputed
        (-0.27, -10, 1.0945, 5e-7),  # open notes, printed
        (-0.27, -11, 1.0972, 5e-7),  # string inverter example, recomputed
    ],
)
def test_factors_of_the_cold(
    percent_per_c: float, lowest_c: float, factor: float, tolerance: float
) -> None:
    found = voltage.open_circuit_voltage(100.0, percent_per_c, lowest_c) / 100.0
    assert found == pytest.approx(factor, abs=tolerance)


def test_a_string_of_converters_without_a_listed_maximum() -> None:
    # recomputed, a hypothetical rating: twelve of 60 V make 720 V, over the 600 V of a dwelling
    assert voltage.converter_string_maximum_v([60.0] * 12, None) > voltage.DWELLING_LIMIT_V
    assert voltage.converter_string_maximum_v([60.0] * 12, 480.0) < voltage.DWELLING_LIMIT_V


@pytest.mark.parametrize(
    ("count", "size", "area_in2"),
    [(3, "12", 0.0399), (4, "10", 0.0844), (8, "8", 0.2928)],  # steel tube, printed
)
def test_parts_of_a_fill(count: int, size: str, area_in2: float) -> None:
    assert count * raceways.conductor_area_in2(size, "THWN-2") == pytest.approx(area_in2, abs=5e-5)


def test_10_awg_on_40_a_is_refused() -> None:
    # IAEI, printed: 30 A at most on 10 AWG, by 240.4(D)(7); 7.6 kW at 240 V asks for 40 A
    assert conductor_protection.largest_device_a("10", "copper", 40) == 30
    check = check_size(
        "10", Circuit(7600 / 240, 75, 40), Wire("copper", "THWN-2", 90), Conditions(30, 2), 2020
    )
    assert check.tests["protection"] is False


def test_both_readings_of_a_bus_are_told() -> None:
    # recomputed: 62.5 + 175 = 237.5 of 240 A by the text; a breaker of 70 A, where 65 A are left
    bus = Bus(200, 175, 50, "end", at_opposite_end=True, dwelling=True)
    by_text = busbar_alternatives.opposite_ends(bus, 2023)
    by_breakers = busbar_alternatives.by_device_rating(bus, [70], 2023)
    assert (by_text.demand_a, by_text.limit_a, by_text.holds) == (237.5, 240, True)
    assert (by_breakers.demand_a, by_breakers.limit_a, by_breakers.holds) == (245, 240, False)


def test_module_of_the_study_guide() -> None:
    # study guide, printed 21.0 V and -0.5 %/C: 24.675 V at -10 C, recomputed
    assert voltage.open_circuit_voltage(21.0, -0.5, -10) == pytest.approx(24.675)


def test_bounds_of_the_guidebook() -> None:
    # guidebook, printed: Isc up to 10 A, so that 15.625 A ask for 20 A fuses; a bus up to 225 A
    # with a breaker of 60 A at most, which leaves a main of 200 A by either reading; recomputed
    least = overcurrent.continuous_minimum_a(circuit_current.string_maximum_a(10.0))
    assert least == pytest.approx(15.625)
    assert string_fuses.smallest_string_fuse_a(10.0) == 20
    bus = Bus(225, 200, 10_000 / 240, "end", at_opposite_end=True, dwelling=True)
    assert busbar_alternatives.opposite_ends(bus, 2020).holds
    assert busbar_alternatives.by_device_rating(bus, [60], 2020).holds


def test_the_factor_is_156_and_a_quarter_percent() -> None:
    # recomputed: 1.5625 x 8.81 A is 13.766 A; with the 156 % of speech it would be 13.744 A
    least = overcurrent.continuous_minimum_a(circuit_current.string_maximum_a(8.81))
    assert least == pytest.approx(13.765625)
