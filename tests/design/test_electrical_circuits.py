"""Voltages and currents of strings and branches, and the devices they feed through.

"C-n" are rows of section 10 of the electrical study, with the published source of each there.
"""

from typing import Any

import pytest
from electrics import CONVERTERS, MICRO, electrical_of
from houses import house
from hypothesis import given
from hypothesis import strategies as st

from planset.design.electrical.devices import size_device
from planset.design.electrical.system import StringCircuit


def one_module(changes: dict[str, Any]) -> StringCircuit:
    """The string of a single module."""
    first, _ = house().job.electrical.strings
    sizes = {
        "arrays.A1.rows": 1,
        "arrays.A1.columns": 1,
        "electrical.strings": (first.model_copy(update={"modules": 1}),),
    }
    (string,) = electrical_of(sizes | changes).strings
    return string


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


def test_a_bifacial_rating_counts_where_there_is_one() -> None:
    # NEC 690.8 note, proposals for 2026: the bifacial nameplate current, where it is higher
    assert one_module({"module.bifacial_isc_a": 15.0}).maximum_current_a == pytest.approx(18.75)


@pytest.mark.parametrize(
    ("strings", "backfeed_a", "fuse_a"),
    [(1, 0, None), (2, 11.875, None), (3, 23.75, 15)],  # C-32, and C-20 for the 15 A
)
def test_parallel_strings(strings: int, backfeed_a: float, fuse_a: float | None) -> None:
    first, _ = house().job.electrical.strings
    shared = tuple(
        first.model_copy(update={"id": f"S{n}", "modules": 6, "input": 1})
        for n in range(1, strings + 1)
    )
    changes = {
        "electrical.strings": shared,
        "module.isc_a": 9.5,
        "module.imp_a": 9.0,
        "module.series_fuse_a": 20.0,
    }
    for string in electrical_of(changes).strings:
        assert string.backfeed_a == pytest.approx(backfeed_a)
        assert string.fuse_needed == (fuse_a is not None)
        assert string.fuse_a == fuse_a


def test_what_the_inverter_feeds_back_counts() -> None:
    changes = {"inverter.backfeed_a": 26.0, "module.series_fuse_a": 25.0}
    for string in electrical_of(changes).strings:
        assert (string.backfeed_a, string.fuse_needed) == (26, True)


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
def test_breaker(output_w: float, rated_a: float, minimum_a: float, standard_a: float) -> None:
    (device,) = electrical_of({"inverter.ac_current_a": output_w / 240}).devices
    assert device.current_a == pytest.approx(rated_a, abs=0.005)
    assert device.minimum_a == pytest.approx(minimum_a, abs=0.006)
    assert device.standard_a == standard_a
    assert (device.rating_a, device.stated) == (40, True)


@pytest.mark.parametrize(("current_a", "standard_a"), [(1600, 2000), (1601, None)])
def test_no_standard_rating_beyond_2000_a(current_a: float, standard_a: float | None) -> None:
    assert size_device("", current_a, None).standard_a == standard_a


@pytest.mark.parametrize(("unit_a", "most"), [(1.0, 16), (1.21, 13), (1.38, 11), (1.58, 10)])
def test_most_units_of_a_branch(unit_a: float, most: int) -> None:
    # C-30, on 20 A
    changes: dict[str, Any] = {
        "microinverter.ac_current_a": unit_a,
        "microinverter.max_per_branch": 40,
        "electrical.branches.B1.breaker": 20.0,
    }
    assert electrical_of(changes, MICRO).branches[0].most_units == most
    changes["microinverter.max_per_branch"] = 8
    assert electrical_of(changes, MICRO).branches[0].most_units == 8


def test_a_trunk_of_unknown_conductor_has_no_rise() -> None:
    unit = house(name=MICRO).microinverters["micro"]
    trunk = unit.trunk.model_copy(update={"conductor": "by its maker"})
    found = electrical_of({"microinverter.trunk": trunk}, MICRO)
    assert [branch.trunk for branch in found.branches] == [None, None]


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
    assert electrical_of(changes).voltage_limits == (("INV1", limit_v, named),)


def test_microinverters_have_limits_of_their_own() -> None:
    assert electrical_of({}, MICRO).voltage_limits == (
        ("B1", 60, "microinverter MICRO"),
        ("B2", 60, "microinverter MICRO"),
    )


def test_strings_take_as_many_modules_as_they_state() -> None:
    changes = {"electrical.strings.S1.modules": 12, "electrical.strings.S2.modules": 8}
    first, second = electrical_of(changes).strings
    assert (len(first.modules), len(second.modules)) == (12, 8)
    assert sorted((*first.modules, *second.modules)) == [f"M{n:02d}" for n in range(1, 21)]
    assert (first.input, second.input) == (1, 2)


def test_each_string_takes_modules_of_its_own_array() -> None:
    first, second = electrical_of({}, "gable-40x30-both").strings
    assert sorted(first.modules) == [f"M{n:02d}" for n in range(1, 21)]
    assert sorted(second.modules) == [f"M{n:02d}" for n in range(21, 41)]


@pytest.mark.parametrize("name", ["gable-40x30", CONVERTERS])
@given(st.integers(1, 19))
def test_every_module_is_in_one_string(name: str, first: int) -> None:
    changes = {
        "electrical.strings.S1.modules": first,
        "electrical.strings.S2.modules": 20 - first,
    }
    strings = electrical_of(changes, name).strings
    tags = [tag for string in strings for tag in string.modules]
    assert sorted(tags) == [f"M{n:02d}" for n in range(1, 21)]
    assert len(strings[0].modules) == first


@given(st.floats(-60, 35), st.floats(0.1, 30))
def test_colder_is_never_less(lowest_c: float, colder_by: float) -> None:
    warm = one_module({"site.lowest_ambient": lowest_c}).cold_voc_v
    cold = one_module({"site.lowest_ambient": lowest_c - colder_by}).cold_voc_v
    assert cold >= warm >= 37.1
