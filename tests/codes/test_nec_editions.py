"""What NEC 2017, 2020, 2023 and 2026 changed, and the clauses of each.

Sources: copies of the 2022 California Electrical Code (NEC 2020) and of NEC 2023, chapters 1 to 4;
study notes on articles 690 and 705 of the 2025 California Electrical Code (NEC 2023); code-change
courses for 2017 and 2023; a training blog for 705.11(C) in 2026. Most clauses of 2017 are from
memory, which `clauses.from_memory` tells of each.
"""

import re
from collections.abc import Callable

import pytest

from planset.codes.nec import (
    ampacity_factors,
    circuit_current,
    clauses,
    disconnects,
    energy_storage,
    string_fuses,
    supply_side,
    wiring,
)
from planset.codes.nec import working_space as space


@pytest.mark.parametrize(
    ("topic", "of_2017", "of_2020", "of_2023"),
    [
        ("voltage_limit", "690.7", "690.7", "690.7"),
        ("string_current", "690.8(A)(1)", "690.8(A)(1)(a)", "690.8(A)(1)"),
        ("dc_conductor", "690.8(B)", "690.8(B)", "690.8(B)"),
        ("ambient", "Table 310.15(B)(2)(a)", "Table 310.15(B)(1)", "Table 310.15(B)(1)(1)"),
        ("bundling", "Table 310.15(B)(3)(a)", "Table 310.15(C)(1)", "Table 310.15(C)(1)"),
        ("ampacity", "Table 310.15(B)(16)", "Table 310.16", "Table 310.16"),
        ("rooftop", "310.15(B)(3)(c)", "310.15(B)(2)", "310.15(B)(2)"),
        ("supply_side", "705.12(A)", "705.11", "705.11"),
        (
            "busbar_opposite_ends",
            "705.12(B)(2)(3)(b)",
            "705.12(B)(3)(2)",
            "705.12(B)(2)",
        ),
        ("feeder_tap", "705.12(B)(2)(2)", "705.12(B)(2)", "705.12(A)(3)"),
        ("ac_conductor", "705.60(B)", "705.28(B)", "705.28(B)"),
        ("ac_overcurrent_rating", "705.65", "705.30", "705.30(B)"),
        ("ac_disconnect", "705.22", "705.20", "705.20"),
        # seen in the copy of 2020; the others from memory
        ("array_wire", "690.31(C)(1)", "690.31(C)(1)", "690.31(C)(1)"),
        ("dc_in_building", "690.31(G)", "690.31(D)", "690.31(D)"),
        ("pv_disconnect_rating", "690.13(E)", "690.13(D)", "690.13(D)"),
        ("pv_disconnect_lock", "690.13(F)", "690.13(E)", "690.13(E)"),
        # the outputs by a trade article on 2020; 705.31 by practitioners' threads
        ("supply_sources", "705.12(A)", "705.11(A)", "705.11(B)"),
        ("energy_storage_circuit", "706.20", "706.30", "706.30"),
        ("energy_storage_voltage", "706.30(A)", "706.20(B)", "706.20(B)"),
    ],
)
def test_moved_clauses(topic: str, of_2017: str, of_2020: str, of_2023: str) -> None:
    found = [clauses.clause(topic, edition) for edition in (2017, 2020, 2023)]
    assert found == [of_2017, of_2020, of_2023]


def test_what_editions_lack() -> None:
    # 705.13, 690.8(A)(2), 24 in between supports, tables for over 90 C, 230.67, 230.85 and 706.15
    # with means outdoors are not in 2017, 705.11(C) not in 2023; of 2026 only 690.12 and 705.11(C)
    # are known
    def lacking(edition: int) -> set[str]:
        return {topic for topic in clauses.topics() if edition not in clauses.editions(topic)}

    assert lacking(2017) == {
        "converter_input_current",
        "high_temperature_ampacity",
        "busbar_feed_through",
        "emergency_disconnect",
        "surge_protection",
        "power_control",
        "wire_support",
        "energy_storage_shutdown",
    }
    assert lacking(2020) == set()
    assert lacking(2023) == {"supply_tap_reach"}
    assert set(clauses.topics()) - lacking(2026) == {"rapid_shutdown", "supply_tap_reach"}


def test_clauses_are_written_alike() -> None:
    form = re.compile(r"(?:Table |Equation )?\d{3}\.\d+(?:\([A-Za-z0-9]+\))*|Table \d of chapter 9")
    for topic in clauses.topics():
        for edition in clauses.editions(topic):
            assert form.fullmatch(clauses.clause(topic, edition)), topic


def test_what_is_from_memory_is_said() -> None:
    assert clauses.from_memory("rooftop", 2017)
    assert not clauses.from_memory("rooftop", 2020)
    assert not clauses.from_memory("busbar_opposite_ends", 2017)  # seen in a course and a thread


def numbers(edition: int) -> dict[str, object]:
    """Every number that depends on the edition, apart from labels and rapid shutdown."""
    return {
        "adder at 0.80 in": ampacity_factors.rooftop_adder_c(0.80, "THWN-2", edition),
        "adder at 0.50 in": ampacity_factors.rooftop_adder_c(0.50, "THWN-2", edition),
        "adder at 0.90 in": ampacity_factors.rooftop_adder_c(0.90, "THWN-2", edition),
        "input rating": circuit_current.converter_input_maximum_a(34, 30, 40, 40, edition),
        "tap, dwelling": supply_side.longest_tap_ft("dwelling", edition),
        "tap, other": supply_side.longest_tap_ft("other", edition),
        "wire support": wiring.longest_support_in(edition),
        "sources": supply_side.service_sources([40], [31], 200, 180, edition),
        "outdoor means": energy_storage.outdoor_means(edition) if edition > 2017 else None,
    }


@pytest.mark.parametrize(
    ("older", "newer", "changed"),
    [
        (2017, 2020, {"input rating", "tap, other", "wire support", "sources", "outdoor means"}),
        (2020, 2023, {"adder at 0.80 in", "tap, dwelling", "tap, other", "outdoor means"}),
    ],
)
def test_exactly_these_numbers_change(older: int, newer: int, changed: set[str]) -> None:
    before, after = numbers(older), numbers(newer)
    assert {name for name in before if before[name] != after[name]} == changed


@pytest.mark.parametrize(
    ("volts", "condition", "depth_in"),
    [
        # NEC 2023 Table 110.26(A)(1)
        (120, 1, 36),
        (120, 2, 36),
        (150, 3, 36),
        (151, 1, 36),
        (277, 2, 42),
        (600, 3, 48),
        (601, 1, 36),
        (1000, 2, 48),
        (1000, 3, 60),
    ],
)
def test_working_depth(volts: float, condition: int, depth_in: float) -> None:
    assert space.depth_in(volts, condition) == depth_in


def test_working_width_and_height() -> None:
    # 110.26(A)(2) and (3): 30 in, 6 1/2 ft, or the equipment; from memory
    assert (space.width_in(14), space.width_in(36)) == (30, 36)
    assert (space.height_in(72), space.height_in(90)) == (78, 90)


@pytest.mark.parametrize(
    ("voltage_v", "current_a", "metal", "arc_fault"),
    [
        # 690.31(D), 690.41(B) and 690.11 of NEC 2020
        (30, 8, False, False),
        (31, 5, True, False),
        (25, 9, True, False),
        (79.9, 8, True, False),
        (80, 8, True, True),
    ],
)
def test_thresholds(voltage_v: float, current_a: float, metal: bool, arc_fault: bool) -> None:
    assert wiring.needs_metal_raceway(voltage_v, current_a) is metal
    assert wiring.needs_arc_fault_protection(voltage_v) is arc_fault


@pytest.mark.parametrize(("current_a", "needed"), [(30, False), (30.1, True)])
def test_load_break(current_a: float, needed: bool) -> None:
    # 690.15 of NEC 2020 and 2023
    assert disconnects.needs_load_break(current_a) is needed


def test_fixed_numbers() -> None:
    # NEC 2020 690.12(C), 690.13, 690.15, 690.9(A) and 690.31; 706.1 and 706.15 of 2023; 706.20(B)
    # from memory
    assert (disconnects.MOST_DISCONNECTS, disconnects.MOST_INITIATION_DEVICES) == (6, 6)
    assert (disconnects.WITHIN_REACH_FT, disconnects.LOCKED_DOOR_V) == (10, 30)
    assert (string_fuses.ONE_END_FT, wiring.GROUPING_FT, wiring.GUARDED_V) == (10, 6, 30)
    assert (energy_storage.COVERED_KWH, energy_storage.DISCONNECT_FT) == (1, 10)
    assert (energy_storage.DWELLING_LIMIT_V, energy_storage.ENCLOSED_LIMIT_V) == (100, 600)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: clauses.clause("color", 2020), "expected one of voltage_limit"),
        (lambda: clauses.editions("color"), "expected one of voltage_limit"),
        (lambda: clauses.clause("power_control", 2017), "expected one of 2020, 2023"),
        (lambda: clauses.from_memory("rooftop", 2014), "expected one of 2017"),
        (lambda: wiring.longest_support_in(2014), "expected one of 2017"),
        (lambda: energy_storage.outdoor_means(2017), "expected one of 2020, 2023"),
        (lambda: space.depth_in(1001, 1), "expected 0 to 1000"),
        (lambda: space.depth_in(120, 4), "expected 1, 2 or 3"),
        (lambda: space.width_in(0), "expected a number above 0"),
    ],
)
def test_refusals(call: Callable[[], object], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        call()
