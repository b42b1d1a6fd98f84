"""Voltages and currents of every circuit, and the load on the bus.

"C-n" and "X-1" are rows of section 10 of the electrical study, with the published source of each
there. The base house is X-1: two strings of ten modules of 400 W on an inverter of 7.6 kW.
"""

from typing import Any

import pytest
from houses import house, placed_arrays
from hypothesis import given
from hypothesis import strategies as st

from planset.design.circuits import Circuits, StringCircuit, build_circuits


def circuits_of(changes: dict[str, Any] | None = None, name: str = "gable-40x30") -> Circuits:
    inputs = house(changes, name)
    return build_circuits(inputs, placed_arrays(inputs))


def one_module(changes: dict[str, Any]) -> StringCircuit:
    """The string of a single module."""
    first, _ = house().job.electrical.strings
    sizes = {
        "arrays.A1.rows": 1,
        "arrays.A1.columns": 1,
        "electrical.strings": (first.model_copy(update={"modules": 1}),),
    }
    (string,) = circuits_of(sizes | changes).strings
    return string


def test_x_1_voltages() -> None:
    for string in circuits_of().strings:
        assert string.cold_voc_v == pytest.approx(407.06, abs=0.005)
        assert string.table_voc_v == pytest.approx(430.36, abs=0.005)
        assert string.hot_cell_c == 73
        assert string.hot_vmp_v == pytest.approx(259.4, abs=0.05)


def test_x_1_currents() -> None:
    found = circuits_of()
    assert [string.maximum_current_a for string in found.strings] == pytest.approx([17.0] * 2)
    assert found.output.rated_a == 31.67
    assert found.output.minimum_breaker_a == pytest.approx(39.58, abs=0.01)
    assert found.output.standard_breaker_a == 40
    assert found.output.breaker_a == 40


def test_x_1_bus() -> None:
    bus = circuits_of().bus
    assert bus.demand_a == pytest.approx(239.58, abs=0.01)
    assert bus.demand_by_breaker_a == 240
    assert bus.limit_a == 240
    assert bus.opposite_end


def test_x_1_power_and_limits() -> None:
    found = circuits_of()
    assert (found.dc_kw, found.ac_kw) == (8, 7.6)
    assert found.voltage_limit_v == 600
    assert found.mppt_low_v == 120


@pytest.mark.parametrize(
    ("voc_v", "percent_per_c", "lowest_c", "cold_v"),
    [
        (49.0, -0.24, -7.2, 52.79),  # C-1, printed
        (44.0, -0.30, -10, 48.62),  # C-2
        (49.5, -0.28, -5, 53.66),  # C-4, printed
        (49.5, -0.27, -10, 54.2),  # C-6, printed
        (37.1, -0.30, -17, 41.77),  # C-8
        (37.1, -0.30, 25, 37.1),  # C-15: at 25 C
        (37.1, -0.30, 30, 37.1),  # C-15: above, never under the rated voltage
    ],
)
def test_cold_voltage(voc_v: float, percent_per_c: float, lowest_c: float, cold_v: float) -> None:
    string = one_module(
        {
            "module.voc_v": voc_v,
            "module.voc_percent_per_c": percent_per_c,
            "site.lowest_ambient": lowest_c,
        }
    )
    assert string.cold_voc_v == pytest.approx(cold_v, rel=0.0005)


@pytest.mark.parametrize(
    ("voc_v", "lowest_c", "table_v"),
    [
        (44.0, -10, 50.16),  # C-3, factor 1.14
        (37.1, -17, 43.78),  # C-9, factor 1.18
        (37.1, -40, 37.1 * 1.25),  # the last line of Table 690.7(A)
        (37.1, -40.1, None),
    ],
)
def test_cold_voltage_by_the_table(voc_v: float, lowest_c: float, table_v: float | None) -> None:
    string = one_module({"module.voc_v": voc_v, "site.lowest_ambient": lowest_c})
    if table_v is None:
        assert string.table_voc_v is None
    else:
        assert string.table_voc_v == pytest.approx(table_v, abs=0.005)


def test_hot_voltage() -> None:
    # C-12: 31.0 V, -0.35 % per C, 38 C and 35 C more
    string = one_module({"module.vmp_v": 31.0, "module.power_percent_per_c": -0.35})
    assert string.hot_vmp_v == pytest.approx(25.79, abs=0.005)


@pytest.mark.parametrize(
    ("isc_a", "maximum_a"),
    [(8.8, 11.0), (5.46, 6.825), (7.2, 9.0)],  # C-17, E-2 and C-19
)
def test_string_current(isc_a: float, maximum_a: float) -> None:
    assert one_module({"module.isc_a": isc_a}).maximum_current_a == pytest.approx(maximum_a)


@pytest.mark.parametrize(
    ("output_w", "rated_a", "minimum_a", "standard_a"),
    [  # C-28 and C-29, at 240 V
        (3000, 12.5, 15.63, 20),
        (3800, 15.83, 19.79, 20),
        (5000, 20.83, 26.04, 30),
        (6000, 25.0, 31.25, 35),
        (7600, 31.67, 39.58, 40),
        (10000, 41.67, 52.08, 60),
        (11400, 47.5, 59.38, 60),
    ],
)
def test_inverter_breaker(
    output_w: float, rated_a: float, minimum_a: float, standard_a: float
) -> None:
    output = circuits_of({"inverter.ac_current_a": output_w / 240}).output
    assert output.rated_a == pytest.approx(rated_a, abs=0.005)
    assert output.minimum_breaker_a == pytest.approx(minimum_a, abs=0.006)
    assert output.standard_breaker_a == standard_a


@pytest.mark.parametrize(("rated_a", "standard_a"), [(1600, 2000), (1601, None)])
def test_no_standard_rating_beyond_2000_a(rated_a: float, standard_a: float | None) -> None:
    assert circuits_of({"inverter.ac_current_a": rated_a}).output.standard_breaker_a == standard_a


@pytest.mark.parametrize(
    ("bus_a", "main_a", "output_a", "demand_a", "limit_a"),
    [
        (200, 175, 50, 237.5, 240),  # C-36
        (225, 200, 48, 260, 270),  # C-41
        (200, 200, 31.67, 239.5875, 240),  # C-42
        (125, 125, 24.2, 155.25, 150),
    ],
)
def test_bus(bus_a: float, main_a: float, output_a: float, demand_a: float, limit_a: float) -> None:
    changes = {
        "electrical.service.bus": bus_a,
        "electrical.service.main": main_a,
        "inverter.ac_current_a": output_a,
        "electrical.interconnection.position": "elsewhere",
    }
    bus = circuits_of(changes).bus
    assert bus.demand_a == pytest.approx(demand_a)
    assert bus.limit_a == limit_a
    assert not bus.opposite_end


HIGH = {"inverter.max_dc_v": 1500.0, "module.max_system_v": 1500.0, "shutdown.max_system_v": 1500.0}


@pytest.mark.parametrize(
    ("changes", "limit_v", "named"),
    [
        # NEC 690.7: 600 V on one- and two-family dwellings, 1000 V on other buildings
        (HIGH, 600, "a dwelling by 690.7"),
        ({**HIGH, "building.use": "two_family_dwelling"}, 600, "a dwelling by 690.7"),
        ({**HIGH, "building.use": "townhouse"}, 600, "a dwelling by 690.7"),
        ({**HIGH, "building.use": "other"}, 1000, "a building by 690.7"),
        ({**HIGH, "inverter.max_dc_v": 500.0}, 500, "inverter INV"),
        ({**HIGH, "module.max_system_v": 500.0}, 500, "module BLOCK"),
        ({**HIGH, "shutdown.max_system_v": 500.0}, 500, "device DEV"),
        ({**HIGH, "inverter.max_dc_v": 600.0}, 600, "a dwelling by 690.7 and inverter INV"),
        ({**HIGH, "shutdown": None, "building.use": "other"}, 1000, "a building by 690.7"),
    ],
)
def test_who_limits_the_voltage(changes: dict[str, Any], limit_v: float, named: str) -> None:
    found = circuits_of(changes)
    assert (found.voltage_limit_v, found.voltage_limited_by) == (limit_v, named)


def test_the_inverter_must_work_and_start() -> None:
    assert circuits_of({"inverter.start_v": 140.0}).mppt_low_v == 140
    assert circuits_of({"inverter.start_v": 90.0}).mppt_low_v == 120


def test_strings_take_the_modules_in_order() -> None:
    changes = {"electrical.strings.S1.modules": 12, "electrical.strings.S2.modules": 8}
    first, second = circuits_of(changes).strings
    assert first.modules == tuple(f"M{n:02d}" for n in range(1, 13))
    assert second.modules == tuple(f"M{n:02d}" for n in range(13, 21))
    assert (first.input, second.input) == (1, 2)


def test_each_string_takes_modules_of_its_own_array() -> None:
    first, second = circuits_of({}, "gable-40x30-both").strings
    assert first.modules == tuple(f"M{n:02d}" for n in range(1, 21))
    assert second.modules == tuple(f"M{n:02d}" for n in range(21, 41))


@given(st.integers(1, 19))
def test_every_module_is_in_one_string(first: int) -> None:
    changes = {
        "electrical.strings.S1.modules": first,
        "electrical.strings.S2.modules": 20 - first,
    }
    strings = circuits_of(changes).strings
    tags = [tag for string in strings for tag in string.modules]
    assert tags == [f"M{n:02d}" for n in range(1, 21)]
    for string in strings:
        assert string.cold_voc_v == pytest.approx(len(string.modules) * 40.706, abs=0.01)


@given(st.floats(-60, 60), st.floats(0.1, 30))
def test_colder_is_never_less(lowest_c: float, colder_by: float) -> None:
    warm = one_module({"site.lowest_ambient": lowest_c}).cold_voc_v
    cold = one_module({"site.lowest_ambient": lowest_c - colder_by}).cold_voc_v
    assert cold >= warm >= 37.1
