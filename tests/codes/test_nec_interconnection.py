"""Connection to the service by NEC article 705: busbars, feeders, supply side, power control.

Sources, named again beside each row:
- "2025 CEC notes": study notes on the 2025 California Electrical Code (NEC 2023), article 705.
- "thread A": practitioners' thread on 705.12(B); "re-wrenches": an attachment of 2013 on a mailing
  list; "Vail": permit B14-0266, 2014; "course": code-change course, 705.12(A) of 2023;
  "training blog": 705.11(C) in 2020, 2023 and 2026.
"recomputed" rows were worked out apart from this program with the printed formula.
"""

import math
from collections.abc import Callable
from dataclasses import replace

import pytest

from planset.codes.nec import (
    busbar_alternatives,
    circuit_current,
    feeder,
    main_derate,
    overcurrent,
    power_control,
    supply_side,
)
from planset.codes.nec.busbar_alternatives import Bus, alternatives

BUS = Bus(200, 200, 7600 / 240, "end", at_opposite_end=True, dwelling=True)


@pytest.mark.parametrize(
    ("busbar_a", "main_a", "source_a", "demand_a", "by_120", "by_100"),
    [
        (200, 175, 50, 237.5, True, False),  # recomputed
        (200, 200, 32, 240.0, True, False),  # 2025 CEC notes: 32 A continuous, at the limit
        (225, 200, 48, 260.0, True, False),  # recomputed: 270 and 225
        (200, 200, 7600 / 240, 239.58, True, False),  # recomputed
        (125, 125, 24.2, 155.25, False, False),  # microinverter example, recomputed
        (125, 110, 24.2, 140.25, True, False),  # the same derated
        (200, 100, 48, 160, True, True),  # recomputed
    ],
)
@pytest.mark.parametrize("edition", [2017, 2020, 2023])
def test_both_busbar_sums(
    busbar_a: float,
    main_a: float,
    source_a: float,
    demand_a: float,
    by_120: bool,
    by_100: bool,
    edition: int,
) -> None:
    bus = replace(BUS, rating_a=busbar_a, main_a=main_a, source_a=source_a)
    any_position, opposite = alternatives(bus, edition)
    assert any_position.demand_a == opposite.demand_a == pytest.approx(demand_a, abs=0.005)
    assert any_position.limit_a == busbar_a
    assert opposite.limit_a == pytest.approx(1.2 * busbar_a)
    assert (opposite.holds, any_position.holds) == (by_120, by_100)


@pytest.mark.parametrize(
    ("edition", "clauses"),
    [
        # clauses (a), (b), (c), (d) of 2017 and their successors
        (
            2017,
            (
                "705.12(B)(2)(3)(a)",
                "705.12(B)(2)(3)(b)",
                "705.12(B)(2)(3)(c)",
                "705.12(B)(2)(3)(d)",
            ),
        ),
        (
            2020,
            ("705.12(B)(3)(1)", "705.12(B)(3)(2)", "705.12(B)(3)(3)", "705.12(B)(3)(4)"),
        ),
        (2023, ("705.12(B)(1)", "705.12(B)(2)", "705.12(B)(3)", "705.12(B)(4)")),
    ],
)
def test_clauses_of_the_alternatives(edition: int, clauses: tuple[str, ...]) -> None:
    at_end = alternatives(replace(BUS, devices_a=(40.0, 20.0)), edition)
    center = alternatives(replace(BUS, feed="center"), edition)
    found = (*(each.clause for each in at_end), center[-1].clause)
    assert found == clauses


@pytest.mark.parametrize(
    ("bus", "topics"),
    [
        (replace(BUS, at_opposite_end=False), ["any_position"]),
        (BUS, ["any_position", "opposite_ends"]),
        (
            replace(BUS, devices_a=(40.0,)),
            ["any_position", "opposite_ends", "sum_of_breakers"],
        ),
        # a center-fed bus may not use the ordinary 120 %
        (replace(BUS, feed="center"), ["any_position", "center_fed"]),
        (replace(BUS, feed="center", at_opposite_end=False), ["any_position"]),
        (replace(BUS, feed="center", dwelling=False), ["any_position"]),
    ],
)
def test_which_alternatives_a_bus_has(bus: Bus, topics: list[str]) -> None:
    found = [each.topic.removeprefix("busbar_") for each in alternatives(bus, 2020)]
    assert found == topics


def test_center_fed_has_the_same_sum() -> None:
    # recomputed: 239.58 A on 240 A
    found = busbar_alternatives.center_fed(replace(BUS, feed="center"), 2023)
    assert found.holds
    assert found.demand_a == pytest.approx(239.58, abs=0.005)


@pytest.mark.parametrize(
    ("devices_a", "rating_a", "holds"),
    [
        ((20.0, 20.0), 100, True),  # AC combiner, recomputed: 40 A, main excluded
        ((20.0,) * 5, 100, True),  # equality counts
        ((20.0,) * 5 + (15.0,), 100, False),
    ],
)
def test_sum_of_breakers(devices_a: tuple[float, ...], rating_a: float, holds: bool) -> None:
    bus = replace(BUS, rating_a=rating_a, main_a=60, source_a=32, devices_a=devices_a)
    found = busbar_alternatives.sum_of_breakers(bus, 2020)
    assert found.demand_a == sum(devices_a)
    assert found.limit_a == rating_a
    assert found.holds is holds


@pytest.mark.parametrize(
    ("busbar_a", "main_a", "breaker_a"),
    [
        # 2025 CEC notes, printed
        (100, 100, 20),
        (125, 100, 50),
        (125, 125, 25),
        (200, 150, 90),  # re-wrenches, printed too
        (200, 175, 65),
        (200, 200, 40),
        (225, 175, 95),
        (225, 200, 70),
        (225, 225, 45),
    ],
)
def test_largest_source_device(busbar_a: float, main_a: float, breaker_a: float) -> None:
    found = busbar_alternatives.largest_source_device_a(busbar_a, main_a)
    assert found == pytest.approx(breaker_a)
    at_limit = replace(BUS, rating_a=busbar_a, main_a=main_a)
    assert busbar_alternatives.by_device_rating(at_limit, [breaker_a], 2023).holds
    assert not busbar_alternatives.by_device_rating(at_limit, [breaker_a + 5], 2023).holds


@pytest.mark.parametrize(
    ("main_a", "source_a", "breaker_a", "by_current", "by_breaker"),
    [
        (175, 50, 70, True, False),  # recomputed: the two readings part
        (200, 48, 60, False, False),  # thread A, printed: 60 A breaker, 200 A main fails
        (175, 48, 60, True, True),  # 175 A main passes
        (200, 32, 40, True, True),  # 2025 CEC notes
    ],
)
def test_both_readings(
    main_a: float, source_a: float, breaker_a: float, by_current: bool, by_breaker: bool
) -> None:
    bus = replace(BUS, main_a=main_a, source_a=source_a)
    assert busbar_alternatives.opposite_ends(bus, 2020).holds is by_current
    assert busbar_alternatives.by_device_rating(bus, [breaker_a], 2020).holds is by_breaker


@pytest.mark.parametrize(
    ("busbar_a", "source_a", "limit_a", "rating_a"),
    [
        # recomputed: 1.2 B - 1.25 S, never over the bus
        (200, 7600 / 240, 200, 200),  # 200.4 A: no derate
        (200, 48, 180, 175),
        (200, 50, 177.5, 175),
        (200, 60, 165, 150),
        (225, 48, 210, 200),
        (125, 24.2, 119.75, 110),
        (100, 20, 95, 90),
    ],
)
def test_derated_main(busbar_a: float, source_a: float, limit_a: float, rating_a: float) -> None:
    found = main_derate.derated_main(busbar_a, source_a, rating_a)
    assert found.limit_a == pytest.approx(limit_a)
    assert found.rating_a == rating_a
    assert found.holds  # load equal to the rating
    assert not main_derate.derated_main(busbar_a, source_a, rating_a + 0.1).holds


@pytest.mark.parametrize(
    ("reach_ft", "edition", "least_a"),
    [
        (25, 2023, 80),  # course: (200 + 40) / 3, by the source's device, 40 A
        (25, 2020, (200 + 40) / 3),  # by 1.25 times 32 A, the same; from memory
        (25, 2017, (200 + 40) / 3),
        (10, 2017, 24),  # (200 + 40) / 10, from memory
        (10, 2020, 24),
    ],
)
def test_taps(reach_ft: float, edition: int, least_a: float) -> None:
    assert feeder.tap_minimum_a(200, 32, 40, reach_ft, edition) == pytest.approx(least_a)


def test_taps_count_sources_differently() -> None:
    # recomputed: 31.67 A on 45 A: 239.58 / 3 until 2020, 245 / 3 since 2023
    assert feeder.tap_minimum_a(200, 7600 / 240, 45, 25, 2020) == pytest.approx(79.86, abs=0.005)
    assert feeder.tap_minimum_a(200, 7600 / 240, 45, 25, 2023) == pytest.approx(81.67, abs=0.005)


def test_feeder() -> None:
    # 705.12(A) of 2023, recomputed with 32 A on a 100 A feeder
    assert feeder.feeder_minimum_a(32) == 40
    assert feeder.beyond_connection_minimum_a(100, 32) == 140


@pytest.mark.parametrize(
    ("place", "edition", "longest_ft"),
    [
        # training blog: 2020, dropped in 2023, back in 2026
        ("dwelling", 2017, 10),  # 705.31, practitioners' threads of 2014 and 2017
        ("other", 2017, 10),
        ("dwelling", 2020, 10),
        ("dwelling", 2023, None),
        ("dwelling", 2026, 10),
        ("other", 2020, 16.5),
        ("other", 2023, None),
        ("other", 2026, 16.5),
        ("engineered", 2020, None),
        ("engineered", 2026, 66),
    ],
)
def test_supply_tap_length(place: str, edition: int, longest_ft: float | None) -> None:
    assert supply_side.longest_tap_ft(place, edition) == longest_ft


def test_supply_side() -> None:
    # 705.11 of 2023: 6 AWG copper, 4 AWG aluminum; 230.79(D): 60 A
    assert supply_side.smallest_conductor("copper") == "6"
    assert supply_side.smallest_conductor("aluminum") == "4"
    assert supply_side.disconnect_minimum_a(20) == 60
    assert supply_side.disconnect_minimum_a(70) == 70


@pytest.mark.parametrize(
    ("edition", "total_a", "limit_a"),
    [
        # 705.12(A) of 2017, from memory: ratings of the devices, and of the service
        (2017, 100, 200),
        # 705.11(A) of 2020, trade article: outputs, and ampacity of the service conductors
        (2020, 77, 180),
        (2023, 77, 180),  # 705.11(B), from memory
    ],
)
def test_sources_on_a_service(edition: int, total_a: float, limit_a: float) -> None:
    found = supply_side.service_sources([60, 40], [47, 30], 200, 180, edition)
    assert (found.total_a, found.limit_a) == (total_a, limit_a)


@pytest.mark.parametrize(
    ("rating_a", "available_a", "suffices"),
    [(10_000, 10_000, True), (10_000, 10_001, False), (22_000, 14_500, True)],
)
def test_interrupting_rating(rating_a: float, available_a: float, suffices: bool) -> None:
    # 110.9, from memory
    assert overcurrent.interrupts(rating_a, available_a) is suffices


def test_power_control() -> None:
    # 705.13 of 2020, from memory: setting and uncontrolled sources together
    assert power_control.controlled_demand_a(24, [16, 10]) == 50
    assert [power_control.permitted(year) for year in (2017, 2020, 2023)] == [False, True, True]


def test_vail_total() -> None:
    # Vail, printed: 16 A on a branch, 20 A; 50 A in all, 62.5 A, 70 A breaker
    branch = circuit_current.microinverter_branch_maximum_a(16, 1.0)
    assert overcurrent.continuous_minimum_a(branch) == 20
    total = circuit_current.combined_maximum_a([1.0] * 50)
    assert overcurrent.continuous_minimum_a(total) == 62.5
    assert overcurrent.next_standard_rating_a(62.5) == 70
    # four 20 A breakers, printed
    assert math.ceil(50 / circuit_current.largest_microinverter_branch(20, 1.0)) == 4


def test_the_smallest_breaker_of_25_units() -> None:
    # re-wrenches, printed 31.25 A and a 40 A breaker: it complies; the smallest is 35 A
    least = overcurrent.continuous_minimum_a(25 * 1.0)
    assert least == 31.25
    assert overcurrent.next_standard_rating_a(least) == 35


@pytest.mark.parametrize(
    ("limit_a", "fuse", "rating_a"),
    [(180, False, 175), (15, False, 15), (14, True, 10), (601, True, 601), (601, False, 600)],
)
def test_largest_standard_rating(limit_a: float, fuse: bool, rating_a: float) -> None:
    # 240.6(A); fuses alone have 1, 3, 6, 10 and 601 A
    assert overcurrent.largest_standard_rating_a(limit_a, fuse=fuse) == rating_a


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: replace(BUS, feed="top"), "expected end or center"),
        (lambda: replace(BUS, rating_a=0), "expected a number above 0"),
        (
            lambda: busbar_alternatives.opposite_ends(replace(BUS, feed="center"), 2020),
            "expected a bus fed at its other end",
        ),
        (lambda: busbar_alternatives.center_fed(BUS, 2020), "expected a center-fed one"),
        (lambda: busbar_alternatives.sum_of_breakers(BUS, 2020), "expected all of their ratings"),
        (lambda: alternatives(BUS, 2014), "expected one of 2017, 2020, 2023"),
        (lambda: main_derate.derated_main(200, 48, 0), "expected a number above 0"),
        (lambda: main_derate.derated_main(20, 19, 10), "expected at least 15 A"),
        (lambda: feeder.tap_minimum_a(200, 32, 40, 10, 2023), "expected one of 2017 10 ft"),
        (lambda: supply_side.longest_tap_ft("barn", 2020), "expected one of dwelling"),
        (lambda: supply_side.longest_tap_ft("dwelling", 2014), "expected one of 2017"),
        (lambda: supply_side.service_sources([], [], 200, 180, 2014), "expected one of 2017"),
        (lambda: supply_side.service_sources([0], [], 200, 180, 2017), "expected a number above 0"),
        (lambda: supply_side.smallest_conductor("gold"), "expected one of copper"),
        (lambda: overcurrent.interrupts(10_000, 0), "expected a number above 0"),
        (lambda: power_control.controlled_demand_a(0, []), "expected a number above 0"),
    ],
)
def test_refusals(call: Callable[[], object], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        call()
