"""Rails spliced from stock: what a place must keep, and that no fewer pieces would do."""

from __future__ import annotations

from itertools import pairwise, product
from typing import Any

import pytest
from houses import house, placed_arrays, roof_of_house
from hypothesis import assume, given
from hypothesis import strategies as st

from planset.catalog.rail import Splice
from planset.design.holding import module_holding
from planset.design.place_racking import place_racking
from planset.design.racking import Racking
from planset.design.rail_pieces import RailPieces, rail_pieces
from planset.design.splicing import Section, fewest_splices, windows


def splice(**changes: Any) -> Splice:
    stated = {
        "name": "bar", "length": 8, "window_from": 0.15, "window_to": 0.30, "torque": "by hand",
        "document": "manual", "page": 1, **changes,
    }  # fmt: skip
    return Splice(**stated)


def made(
    supports: list[float], start: float, end: float, stock: float, **changes: Any
) -> tuple[float, ...] | None:
    bar = splice(**changes)
    allowed = windows(supports, bar, 3.0, ())
    section = Section(start, end, supports[0])
    return fewest_splices(section, tuple(allowed), stock, bar.length / 2)


EVERY_48 = [12.0, 60.0, 108.0, 156.0, 204.0]


@pytest.mark.parametrize(
    ("stock", "expected"),
    [
        (216, ()),
        # at 120 in one would be in reach; from 108 in to 156 in it may lie 7.2 to 14.4 in from
        # either, so at 122.4 in at most or 141.6 in at least
        (140, (122.4,)),
        (142, (142.0,)),
        (130, (122.4,)),
        (122, (122.0,)),
        # 100 in reaches the bay from 60 in to 108 in, at 100 in; 116 in are left
        (100, (100.0, 196.8)),
        (20, None),
    ],
)
def test_the_farthest_place_in_a_window(stock: float, expected: tuple[float, ...] | None) -> None:
    found = made(EVERY_48, 0, 216, stock)
    assert found is None if expected is None else found == pytest.approx(expected)


def test_the_splice_bar_keeps_off_the_attachments() -> None:
    # 0 to 0.05 of 48 in is within 2.4 in of an attachment whose half is 1.5 in; the bar's is 4 in
    assert made(EVERY_48, 0, 216, 140, window_from=0.0, window_to=0.05) is None
    assert made(EVERY_48, 0, 216, 140, window_from=0.0, window_to=0.12) == pytest.approx((113.76,))


def test_on_an_attachment_where_the_maker_allows_it() -> None:
    found = made(EVERY_48, 0, 216, 110, window_from=0.0, window_to=0.0, on_attachment=True)
    assert found == pytest.approx((108.0,))


def test_never_in_a_free_end_nor_without_an_attachment_past_it() -> None:
    # what lies past the last attachment is out of reach of no splice: 216 - 204 = 12 in
    assert made([12.0, 60.0], 0, 150, 75) is None
    # on the last attachment it would leave the end piece none of its own
    loose = made([12.0, 60.0, 108.0], 0, 120, 110, window_from=0, window_to=0, on_attachment=True)
    assert loose == pytest.approx((60.0,))


places = st.lists(st.floats(12, 60), min_size=1, max_size=6)


@given(
    places, st.floats(2, 20), st.floats(2, 20), st.floats(50, 200), st.booleans(),
    st.sampled_from([(0.0, 0.3), (0.15, 0.3), (0.2, 0.5)]),
)  # fmt: skip
def test_no_fewer_pieces_would_do(
    spans: list[float],
    low: float,
    high: float,
    stock: float,
    on_attachment: bool,
    window: tuple[float, float],
) -> None:
    supports = [low]
    for span in spans:
        supports.append(supports[-1] + span)
    end = supports[-1] + high
    shares = {"window_from": window[0], "window_to": window[1], "on_attachment": on_attachment}
    found = made(supports, 0, end, stock, **shares)
    if found is not None:
        assert_sound(found, supports, end, stock, window, on_attachment)
    # every combination of places a quarter of an inch apart, up to two splices
    fine = [n / 4 for n in range(int(end * 4) + 1)]
    fit = [x for x in fine if sound_place(x, supports, window, on_attachment)]
    fewest = found is not None and len(found)
    for count in (0, 1, 2):
        if fewest is not False and count >= fewest:
            return
        for chosen in product(fit, repeat=count):
            if list(chosen) != sorted(chosen) or too_long(chosen, end, stock - 1e-3):
                continue
            assert not own_attachments(chosen, supports, end, 1e-3), chosen


def sound_place(
    x: float, supports: list[float], window: tuple[float, float], on_attachment: bool
) -> bool:
    near = [(min(x - a, b - x), b - a) for a, b in pairwise(supports) if a - 1e-9 <= x <= b + 1e-9]
    if not near:
        return False
    if on_attachment and any(apart < 1e-6 for apart, _ in near):
        return True
    apart, span = max(near)
    inside = window[0] * span + 1e-3 <= apart <= window[1] * span - 1e-3
    return inside and (on_attachment or apart >= 1.5 + 4 + 1e-3)


def too_long(chosen: tuple[float, ...], end: float, stock: float) -> bool:
    return any(b - a > stock for a, b in pairwise((0, *chosen, end)))


def own_attachments(
    chosen: tuple[float, ...], supports: list[float], end: float, slack: float
) -> bool:
    bars = [-4.0, *chosen, end + 4.0]  # no bar at the rail's ends
    return all(
        any(a + 4 + slack <= s <= b - 4 - slack for s in supports) for a, b in pairwise(bars)
    )


def assert_sound(
    found: tuple[float, ...],
    supports: list[float],
    end: float,
    stock: float,
    window: tuple[float, float],
    on_attachment: bool,
) -> None:
    assert not too_long(found, end, stock + 1e-5)
    assert own_attachments(found, supports, end, -1e-5)
    for x in found:
        spans = [(a, b) for a, b in pairwise(supports) if a - 1e-5 <= x <= b + 1e-5]
        assert spans, "in a free end"
        on_one = any(abs(x - s) < 1e-5 for s in supports)
        if on_one:
            assert on_attachment or window[0] == 0
        else:
            ((a, b),) = spans
            apart = min(x - a, b - x)
            assert window[0] * (b - a) - 1e-5 <= apart <= window[1] * (b - a) + 1e-5
        if not on_attachment:
            assert min(abs(x - s) for s in supports) >= 1.5 + 4 - 1e-5


def of_house(changes: dict[str, Any], name: str) -> tuple[Racking, RailPieces]:
    inputs = house(changes, name)
    arrays = placed_arrays(inputs)
    (rack,) = place_racking(inputs, roof_of_house(inputs), arrays)
    return rack, rail_pieces(arrays[0], rack, module_holding(arrays[0], rack))


def test_a_rail_within_the_stock_is_one_piece() -> None:
    rack, found = of_house({}, "gable-40x30-feet")
    assert [p.id for p in found.pieces] == [rail.id for rail in rack.rails]
    assert not found.splices
    assert not found.unspliced


def test_long_rails_across_are_spliced_in_turn() -> None:
    # 362 in from stock of 230 in: anywhere from 191 to 289 in, where there is more than one bay
    rack, found = of_house({"mounting.rail.stock_length": 230.0}, "gable-40x30-across")
    for rail in rack.rails:
        own = [p for p in found.pieces if p.rail == rail.id]
        assert [p.id for p in own] == [f"{rail.id}a", f"{rail.id}b"]
        assert sum(p.length_in for p in own) == pytest.approx(rail.length_in)
        assert max(p.length_in for p in own) <= 230
    held = rack.by_rail
    for one, other in pairwise(rack.rails):
        at, beside = (
            next(s.along_in for s in found.splices if s.rail == r.id) for r in (one, other)
        )
        places = [item.along_in for item in held[other.id]]
        low = max(p for p in places if p <= beside)
        high = min(p for p in places if p >= beside)
        assert not low < at < high


def test_what_cannot_be_spliced_is_said() -> None:
    without = {"mounting.rail.splice": None}
    rack, found = of_house(without, "gable-40x30-across")
    assert found.unspliced == tuple(rail.id for rail in rack.rails)
    assert [p.length_in for p in found.pieces] == [rail.length_in for rail in rack.rails]


def test_a_splice_keeps_off_feet_without_a_part_for_it() -> None:
    # rails from 35 to 181 in on hooks at 48, 108 and 168 in; a piece of 109 in ends at 144 in, and
    # the foot at 144 in keeps the middle of the splice 5 in off
    stock = {"mounting.rail.stock_length": 109.0, "mounting.rail.splice": splice(window_to=0.5)}
    _, clear = of_house(stock, "gable-40x30-feet")
    feet = [36 + 36.125 * n - 0.25 for n in range(1, 4)]
    assert clear.splices
    assert all(abs(s.along_in - foot) >= 4 + 1 - 1e-6 for s in clear.splices for foot in feet)
    stock["mounting.foot.splice_piece"] = "seat"
    _, seated = of_house(stock, "gable-40x30-feet")
    assert any(abs(s.along_in - foot) < 5 for s in seated.splices for foot in feet)


def test_no_rail_is_longer_than_heat_lets_it_be() -> None:
    # rails of 362 in
    for longest, made_of_pieces in ((362.0, True), (361.0, False)):
        bar = splice(expansion_after=longest, expansion_gap=0.5, window_from=0.05, window_to=0.5)
        rack, found = of_house({"mounting.rail.splice": bar}, "gable-40x30-across")
        assert bool(found.splices) is made_of_pieces
        assert found.unspliced == (() if made_of_pieces else tuple(r.id for r in rack.rails))


@given(st.integers(1, 3), st.integers(2, 4), st.floats(60, 250))
def test_pieces_make_up_their_rails(first: int, every: int, stock: float) -> None:
    changes = {
        "arrays.A1.mounting.first_line": first,
        "arrays.A1.mounting.attach_every": every,
        "mounting.rail.stock_length": stock,
    }
    rack, found = of_house(changes, "gable-40x30-across")
    assume(all(rack.by_rail.values()))
    for rail in rack.rails:
        own = [p for p in found.pieces if p.rail == rail.id]
        assert own[0].start_in == rail.start_in
        assert own[-1].end_in == rail.end_in
        assert all(a.end_in == b.start_in for a, b in pairwise(own))
        if rail.id not in found.unspliced:
            assert max(p.length_in for p in own) <= stock + 1e-6
