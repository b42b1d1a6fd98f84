"""Grounding conductors and bonding jumpers by NEC article 250.

Sources: copies of NEC 2023 article 250, Tables 250.66, 250.102(C)(1) and 250.122.
"recomputed" rows were worked out apart from this program with the printed rule.
"""

from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planset.codes.nec import conductors, grounding, grounding_electrode


@pytest.mark.parametrize(
    ("device_a", "copper", "aluminum"),
    [
        # NEC 2023 Table 250.122
        (15, "14", "12"),
        (20, "12", "10"),
        (60, "10", "8"),
        (100, "8", "6"),
        (200, "6", "4"),
        (300, "4", "2"),
        (400, "3", "1"),
        (500, "2", "1/0"),
        (600, "1", "2/0"),
        (800, "1/0", "3/0"),
        (1000, "2/0", "4/0"),
        (1200, "3/0", "250"),
        (1600, "4/0", "350"),
        (2000, "250", "400"),
        # between two lines: the higher
        (1, "14", "12"),
        (25, "10", "8"),
        (35, "10", "8"),
        (40, "10", "8"),
        (70, "8", "6"),
    ],
)
def test_equipment_grounding(device_a: float, copper: str, aluminum: str) -> None:
    assert grounding.equipment_grounding_size(device_a) == copper
    assert grounding.equipment_grounding_size(device_a, "aluminum") == aluminum


def test_the_lines_of_equipment_grounding_end_at_their_ratings() -> None:
    # NEC 2023 Table 250.122: a rating just over a line takes the next one
    ends = [15, 20, 60, 100, 200, 300, 400, 500, 600, 800, 1000, 1200, 1600, 2000]
    for end, following in pairwise(ends):
        just_over = grounding.equipment_grounding_size(end + 0.5)
        assert just_over == grounding.equipment_grounding_size(following)
        assert just_over != grounding.equipment_grounding_size(end)


def test_equipment_grounding_is_no_larger_than_the_circuit() -> None:
    # 250.122(A): 12 AWG conductors on 30 A, as a motor might have, keep 12 AWG; recomputed
    assert grounding.equipment_grounding_size(30, circuit_size="12") == "12"
    assert grounding.equipment_grounding_size(30, circuit_size="8") == "10"


def test_a_string_without_device() -> None:
    # 690.45, recomputed: Isc 13.6 A, 17 A, 21.25 A, taken as 25 A: 10 AWG
    assumed_a = grounding.assumed_dc_device_a(1.25 * 13.6)
    assert assumed_a == 25
    assert grounding.equipment_grounding_size(assumed_a) == "10"


@pytest.mark.parametrize(
    ("size", "required", "installed", "grown"),
    [
        # recomputed: 26240 / 16510 = 1.589; 10380 x 1.589 = 16497 cmil, 8 AWG has 16510
        ("10", "8", "6", "8"),
        ("10", "8", "8", "10"),  # not increased
        ("10", "8", "4", "4"),  # 2.528, 26242 cmil: over 6 AWG, by 2 cmil
        ("8", "6", "4", "4"),  # 1.591, 26263 cmil: over 6 AWG, by 23 cmil
        ("12", "12", "10", "10"),  # no larger than the conductors
    ],
)
def test_increased_equipment_grounding(
    size: str, required: str, installed: str, grown: str
) -> None:
    assert grounding.increased_grounding_size(size, required, installed) == grown


@given(
    size=st.sampled_from(conductors.sizes()[2:10]),
    pair=st.tuples(
        st.sampled_from(conductors.sizes()[2:15]), st.sampled_from(conductors.sizes()[2:15])
    ),
)
def test_increase_is_the_smallest_in_proportion(size: str, pair: tuple[str, str]) -> None:
    required, installed = sorted(pair, key=conductors.area_cmil)
    least = (
        conductors.area_cmil(size)
        * conductors.area_cmil(installed)
        / conductors.area_cmil(required)
    )
    enough = [each for each in conductors.sizes() if conductors.area_cmil(each) >= least - 1e-6]
    found = grounding.increased_grounding_size(size, required, installed)
    assert found == min([*enough, installed], key=conductors.area_cmil)


@pytest.mark.parametrize(("size", "needs"), [("10", True), ("8", True), ("6", False), ("4", False)])
def test_protection_of_exposed_conductors(size: str, needs: bool) -> None:
    # 250.120(C): smaller than 6 AWG
    assert grounding.needs_protection(size) is needs


@pytest.mark.parametrize(
    ("supply_copper", "supply_aluminum", "copper", "aluminum"),
    [
        # NEC 2023 Tables 250.66 and 250.102(C)(1), both ends of each line
        ("14", "12", "8", "6"),
        ("2", "1/0", "8", "6"),
        ("1", "2/0", "6", "4"),
        ("1/0", "3/0", "6", "4"),
        ("2/0", "4/0", "4", "2"),  # 4/0 aluminum service: 4 copper, 2 aluminum
        ("3/0", "250", "4", "2"),
        ("4/0", "300", "2", "1/0"),
        ("350", "500", "2", "1/0"),
        ("400", "600", "1/0", "3/0"),
        ("600", "900", "1/0", "3/0"),
        ("700", "1000", "2/0", "4/0"),
        ("1100", "1750", "2/0", "4/0"),
    ],
)
def test_electrode_and_jumper(
    supply_copper: str, supply_aluminum: str, copper: str, aluminum: str
) -> None:
    for supply, material in ((supply_copper, "copper"), (supply_aluminum, "aluminum")):
        for find in (
            grounding_electrode.grounding_electrode_size,
            grounding_electrode.supply_bonding_jumper_size,
        ):
            assert find(supply, material, "copper") == copper
            assert find(supply, material, "aluminum") == aluminum


def test_over_the_end_of_the_tables() -> None:
    # Table 250.66, last line; Table 250.102(C)(1), note 1: 12.5 % of 2000 kcmil is 250 kcmil
    assert grounding_electrode.grounding_electrode_size("1250", "copper") == "3/0"
    assert grounding_electrode.grounding_electrode_size("2000", "aluminum", "aluminum") == "250"
    assert grounding_electrode.supply_bonding_jumper_size("2000", "copper") == "250"
    with pytest.raises(ValueError, match="expected aluminum as the 2000"):
        grounding_electrode.supply_bonding_jumper_size("2000", "aluminum", "copper")


@pytest.mark.parametrize(
    ("electrode", "copper"),
    [
        # a 400 kcmil service asks for 1/0; rods never over 6 AWG, concrete 4 AWG (from memory)
        ("water_pipe", "1/0"),
        ("rod", "6"),
        ("concrete_encased", "4"),
    ],
)
def test_electrodes_that_ask_for_less(electrode: str, copper: str) -> None:
    found = grounding_electrode.grounding_electrode_size("400", "copper", "copper", electrode)
    assert found == copper


def test_a_small_service_keeps_its_size_to_a_rod() -> None:
    assert grounding_electrode.grounding_electrode_size("4", "copper", "copper", "rod") == "8"


@pytest.mark.parametrize(
    ("largest", "material", "size"),
    [
        # 250.166(B), from memory: the largest conductor, at least 8 copper or 6 aluminum
        ("10", "copper", "8"),
        ("6", "copper", "6"),
        ("10", "aluminum", "6"),
        ("4", "aluminum", "4"),
    ],
)
def test_dc_grounding_electrode(largest: str, material: str, size: str) -> None:
    assert grounding_electrode.dc_grounding_electrode_size(largest, material) == size


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: grounding.equipment_grounding_size(2001), "expected at most 2000 A"),
        (lambda: grounding.equipment_grounding_size(0), "expected a number above 0"),
        (lambda: grounding.equipment_grounding_size(20, "gold"), "expected one of copper"),
        (lambda: grounding.assumed_dc_device_a(0), "expected a number above 0"),
        (lambda: grounding.increased_grounding_size("10", "6", "8"), "expected 6 or larger"),
        (
            lambda: grounding_electrode.grounding_electrode_size("4", "gold"),
            "expected one of copper",
        ),
        (
            lambda: grounding_electrode.grounding_electrode_size("4", "copper", "copper", "wall"),
            "expected one of water_pipe",
        ),
        (
            lambda: grounding_electrode.dc_grounding_electrode_size("4", "gold"),
            "expected one of copper",
        ),
    ],
)
def test_refusals(call: Callable[[], object], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        call()
