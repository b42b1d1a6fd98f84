"""What a rail as one beam lays on its attachments."""

from itertools import accumulate, pairwise

import pytest
from houses import house
from hypothesis import given
from hypothesis import strategies as st
from naive import through

from planset.design.design import build_design
from planset.design.rail_shares import continuity, reaction_factors, reversals

Spans = tuple[float, ...]


def held(spans: Spans, left: float, right: float) -> tuple[list[float], float, float]:
    """Places of supports from the left end's, and where the load begins and ends."""
    places = list(accumulate(spans, initial=left))
    return places, 0.0, places[-1] + right


# any handbook's three-moment equation, worked by hand; uniform load
UNEQUAL = [
    # spans by turns: 41.9 in of load on the 32 in beside the second support, 38.6 beside the eighth
    ((16, 48, 16, 48, 16, 48, 16, 48), 6.2, 7.9, {1: 1.309, 7: 1.207}, {}),
    # M 224 over the middle: 32 + 224 / 16 + 224 / 48 = 50.67 of 32, and -6 of 8 at the short end
    ((16, 48), 0, 0, {0: 1.25, 1: 1.5833, 2: 1.25}, {0: 0.75}),
    # M 196.44 beside the long spans and -66.22 in the middle
    ((48, 16, 16, 48), 0, 0, {1: 1.7778, 3: 1.7778}, {2: 1.5}),
    # M 108.44 over both
    ((48, 16, 48), 0, 0, {0: 1.15, 1: 1.15, 2: 1.15, 3: 1.15}, {}),
]


@pytest.mark.parametrize(("spans", "left", "right", "factors", "turned"), UNEQUAL)
def test_unequal_spans(
    spans: Spans, left: float, right: float, factors: dict[int, float], turned: dict[int, float]
) -> None:
    found = continuity(*held(spans, left, right))
    for place, factor in factors.items():
        assert found[place] == pytest.approx(factor, abs=0.001), place
    back = reversals(*held(spans, left, right))
    assert back == pytest.approx([turned.get(n, 0.0) for n in range(len(back))], abs=0.001)


@pytest.mark.parametrize("spans", range(1, 9))
def test_equal_spans_keep_the_factor_of_the_table(spans: int) -> None:
    factor = {1: 1.0, 2: 1.25}.get(spans, 1.15)
    assert continuity(*held((40.0,) * spans, 0, 0)) == pytest.approx([factor] * (spans + 1))


@given(
    st.lists(st.floats(8, 72), min_size=1, max_size=9).map(tuple),
    st.floats(0, 40),
    st.floats(0, 40),
)
def test_no_attachment_is_asked_less_than_its_reaction(
    spans: Spans, left: float, right: float
) -> None:
    # slope deflection, as the second computation of whole jobs has it
    places, low, high = held(spans, left, right)
    shears = through(list(spans), [(1.0, [])] * len(spans), (left**2 / 2, right**2 / 2))
    reactions = [left + shears[0][0]]
    reactions += [a[1] + b[0] for a, b in pairwise(shears)]
    reactions.append(shears[-1][1] + right)
    lengths = [(a + b) / 2 for a, b in pairwise((2 * left, *spans, 2 * right))]
    assert sum(reactions) == pytest.approx(high - low)
    exact = [at / length for at, length in zip(reactions, lengths, strict=True)]
    assert reaction_factors(places, low, high) == pytest.approx(exact, abs=1e-5)
    for factor, back, own in zip(
        continuity(places, low, high), reversals(places, low, high), exact, strict=True
    ):
        assert factor >= max(own, 1.0) - 1e-5
        assert back == pytest.approx(max(-own, 0.0), abs=1e-5)


def test_a_load_that_ends_before_the_outer_support_is_taken_to_reach_it() -> None:
    places = [0.0, 40.0, 80.0, 120.0]
    assert reaction_factors(places, 3.0, 118.0) == reaction_factors(places, 0.0, 120.0)


def test_what_the_rail_turns_round_pulls_at_what_it_should_press() -> None:
    # hooks at 100, 120 and 140 in of a rail of 144: the middle one is levered up, by hand 350.6 in
    # of load on its 20; ends 420.1 on 110 and 74.5 on 14
    changes = {
        "arrays.A1.mounting.first_attachment": 100.0,
        "arrays.A1.mounting.attachment_spacing": 20.0,
    }
    design = build_design(house(changes))
    low, middle, high = design.loads.arrays[0].attachments[:3]
    assert [low.continuity, high.continuity] == pytest.approx([420.1 / 110, 74.5 / 14])
    assert (low.reversal, high.reversal) == (0, 0)
    assert (middle.continuity, middle.reversal) == pytest.approx((1.25, 350.5 / 20), rel=0.001)
    down, up = middle.combined.down.normal_lb, -middle.combined.uplift.normal_lb
    assert middle.uplift_lb == pytest.approx(max(down * middle.reversal, up * 1.25))
    assert middle.down_lb == pytest.approx(max(up * middle.reversal, down * 1.25))
    assert middle.pulled_by is middle.combined.down
    assert middle.pressed_by is middle.combined.uplift
    assert low.pulled_by is low.combined.uplift
    (told,) = (item.text for item in design.assumptions if "turns the rail's load" in item.text)
    assert middle.attachment in told
    # each combination once as it is and once turned round
    forces = middle.forces()
    assert len(forces) == 2 * len(middle.combined.loads)
    for (load, normal, along), (same, back, beside) in zip(forces[::2], forces[1::2], strict=True):
        assert load is same
        assert back == pytest.approx(-normal * middle.reversal / middle.continuity)
        assert along == beside == pytest.approx(load.along_lb * 1.25)
