"""Access areas and packing brought to rest together."""

from collections.abc import Callable
from dataclasses import dataclass

import pytest

from planset.design.packing import Packing, Settled, pack, pack_until_stable


@dataclass(frozen=True)
class Count:
    count: int


def settle(
    required: Callable[[int], set[str]], fit: Callable[[frozenset[str]], int], rounds: int = 8
) -> Settled[str, Count]:
    return pack_until_stable(
        lambda packing: frozenset(required(packing.count)),
        lambda areas: Count(fit(areas)),
        most_rounds=rounds,
    )


def test_areas_that_do_not_depend_on_the_count() -> None:
    settled = settle(lambda _: {"ridge"}, lambda areas: 20 - 5 * len(areas))
    assert (settled.packing.count, settled.areas, settled.rounds) == (15, {"ridge"}, 2)
    assert settled.exact


def test_nothing_required() -> None:
    settled = settle(lambda _: set(), lambda _: 20)
    assert (settled.packing.count, settled.rounds) == (20, 1)


def test_more_modules_require_more() -> None:
    """20 require two areas, 14 with both still do."""
    settled = settle(
        lambda n: {"ridge", "path"} if n > 10 else {"ridge"}, lambda a: 20 - 3 * len(a)
    )
    assert (settled.packing.count, settled.areas) == (14, {"ridge", "path"})


def test_a_circle_ends_with_the_fullest_packing_that_keeps_out_of_what_it_requires() -> None:
    """20 modules require a path; the 9 that fit beside it do not, but keep out of it."""
    settled = settle(lambda n: {"path"} if n > 10 else set(), lambda a: 9 if a else 20)
    assert (settled.packing.count, settled.areas, settled.required) == (9, {"path"}, frozenset())
    assert not settled.exact


def test_a_circle_of_areas_that_do_not_hold_one_another_ends_with_all_of_them() -> None:
    """Over 10 modules require a wide setback, fewer a narrow one: 12 and 8 in turn, then 8."""
    settled = settle(
        lambda n: {"wide"} if n > 10 else {"narrow"}, lambda areas: 8 if "wide" in areas else 12
    )
    assert settled.packing.count == 8
    assert settled.areas == {"wide", "narrow"}
    assert settled.required == {"narrow"}


def test_areas_that_run_away_are_an_error() -> None:
    calls = iter(range(1000))
    with pytest.raises(RuntimeError, match="after 6 rounds"):
        settle(lambda _: {str(next(calls))}, lambda _: 1, rounds=3)


def test_a_setback_that_widens_above_33_percent_of_the_roof() -> None:
    """18 in below the ridge up to 33 % of the roof's plan area, 36 in above it.

    Source: IFC 2018, 1204.2.1.2. Hand count: of two planes of 300 by 140 in (level, for short)
    one has 7 by 2 modules of 41 by 50 in below either setback, 34 % of both.
    """

    def areas_of(packing: Packing) -> frozenset[float]:
        share = packing.count * 41 * 50 / (2 * 300 * 140)
        return frozenset({36.0 if share > 0.33 else 18.0})

    def pack_with(areas: frozenset[float]) -> Packing:
        setbacks = [[(0.0, 140 - s), (300.0, 140 - s), (300.0, 140.0), (0.0, 140.0)] for s in areas]
        outline = [(0.0, 0.0), (300.0, 0.0), (300.0, 140.0), (0.0, 140.0)]
        return pack(outline, setbacks, (41.0, 50.0), (0.5, 0.5))

    settled = pack_until_stable(areas_of, pack_with)
    assert (settled.packing.count, settled.areas) == (14, {36.0})
    assert settled.exact
