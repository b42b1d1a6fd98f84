"""Rafters as simple beams under uniform and point loads."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planset.codes.ibc.rafter_spans import rafter_span
from planset.codes.nds import lumber
from planset.codes.nds.beam_values import Service, adjusted
from planset.codes.nds.design_values import DesignValues, design_values
from planset.design.beam import Loads
from planset.design.rafter import check_rafter, ends_of_spans

# reference: 2x6 DF-L on the older basis of 875, CD 1.25, CF 1.3, Cr 1.15: Fb' 1635, M 1030 lb-ft
SECTION = lumber.section("2x6")
OLDER = DesignValues(875, 180, 625, 1.6e6, 580e3)
VALUES = adjusted(OLDER, Service(load_duration=1.25, size=1.3, repetitive=True))


def pli(psf: float, spacing_in: float = 24) -> float:
    return psf * spacing_in / 144


def test_the_full_synthetic_case() -> None:
    # reference, end to end 5: 2x6 at 24 in, 11 ft, D 10 + 3, Lr 20: M 998 of 1030 lb-ft
    check = check_rafter(132, SECTION, VALUES, Loads(pli(33)), Loads(pli(20)))
    moment = check.bending.demand * SECTION.section_modulus_in3 / 12
    allowed = check.bending.capacity * SECTION.section_modulus_in3 / 12
    assert moment == pytest.approx(998, abs=0.5)
    assert allowed == pytest.approx(1030, abs=0.5)
    assert check.bending.ratio == pytest.approx(998.25 / 1030.4, abs=0.001)
    assert check.governing == "bending"
    assert check.ratio == check.bending.ratio


def test_shear_deflection_and_bearing_by_hand() -> None:
    # w 5.5 lb/in over 132 in: V at d 5.5 x (66 - 5.5) = 332.75, fv 1.5 x 332.75 / 8.25 = 60.5;
    # 5 x 3.333 x 132^4 / (384 x 1.6e6 x 20.797) = 0.396 in of 132 / 180; R 363 / (1.5 x 1.5)
    check = check_rafter(132, SECTION, VALUES, Loads(pli(33)), Loads(pli(20)))
    assert check.shear.demand == pytest.approx(60.5, abs=0.05)
    assert check.shear.capacity == pytest.approx(225)
    assert check.deflection.demand == pytest.approx(0.396, abs=0.0005)
    assert check.deflection.capacity == pytest.approx(132 / 180)
    assert check.bearing.demand == pytest.approx(161.3, abs=0.05)
    assert check.bearing.capacity == 625


def test_the_rows_in_line_load_their_rafters_twice() -> None:
    # reference: attachments 48 in apart on rafters at 24 in: twice on one, none on the next.
    # 3 psf x 48 in on two rails that carry 66 in each, by hand: P = 3 x 48 x 66 / 144 = 66 lb
    dead, spots = Loads(pli(10)), ((33.0, 66.0), (99.0, 66.0))
    shared = check_rafter(132, SECTION, VALUES, Loads(pli(13)), dead)
    in_line = check_rafter(132, SECTION, VALUES, Loads(pli(10), spots), dead)
    roof_alone = pli(10) * 132**2 / 8
    moment = in_line.bending.demand * SECTION.section_modulus_in3
    assert moment == pytest.approx(roof_alone + 66 * 33)  # P a for two loads at a from the ends
    assert in_line.bending.demand > shared.bending.demand


def test_a_point_load_beside_the_support_counts_little_in_shear() -> None:
    # NDS 3.4.3.1: within d a load counts x / d. At 1.375 in of d 5.5: 100 x .25 x 130.625 / 132
    near = check_rafter(132, SECTION, VALUES, Loads(points=((1.375, 100),)), Loads())
    assert near.shear.demand == pytest.approx(1.5 * 24.74 / 8.25, abs=0.001)
    right = check_rafter(132, SECTION, VALUES, Loads(points=((130.625, 100),)), Loads())
    assert right.shear.demand == pytest.approx(near.shear.demand)


@pytest.mark.parametrize(
    ("spans", "middle", "shears"),
    [
        # any handbook's table of continuous beams, uniform load: reactions and shears by w L
        ((100, 100), [0.5, 1.25, 0.5], [0.625, 0.625]),
        ((100, 100, 100), [0.5, 1.1, 1.1, 0.5], [0.6, 0.5, 0.6]),
        # 1 to 2, by the three-moment equation: M = 9/24 w L^2, so the shorter span's 0.875 and the
        # longer's 1.1875 w L bear on it
        ((100, 200), [0.5, 2.0625, 1.0], [0.875, 1.1875]),
    ],
)
def test_both_spans_bear_on_an_inner_support(
    spans: tuple[float, ...], middle: list[float], shears: list[float]
) -> None:
    ends = ends_of_spans(spans, [Loads(2.0)] * len(spans))
    for place, (span, end) in enumerate(zip(spans, ends, strict=True)):
        assert end.pressed_lb == pytest.approx((200 * middle[place], 200 * middle[place + 1]))
        check = check_rafter(span, SECTION, VALUES, Loads(2.0), Loads(), ends=end)
        asked = 1.5 * (200 * shears[place] - 2 * 5.5) / 8.25
        assert check.shear.demand == pytest.approx(asked)
        bears = 200 * max(middle[place : place + 2])
        assert check.bearing.demand == pytest.approx(bears / 2.25)


def test_lapped_rafters_bear_where_running_through_would_relieve_them() -> None:
    # a load on one span alone lifts the far end of the beam that runs through: the support there
    # keeps what its own simple span lays on it, here nothing, and the near one P / 2
    ends = ends_of_spans((100, 100), [Loads(points=((50, 80.0),)), Loads()])
    # handbook: reactions 13/32, 22/32 and -3/32 of P
    assert ends[0].pressed_lb == pytest.approx((40, 55))
    assert ends[1].pressed_lb == pytest.approx((55, 0))


def test_the_tail_lies_on_the_lowest_support_and_relieves_no_other() -> None:
    # w 2 over a span of 100 and a tail of 20: 100 + 40 + 40 x 10 / 100 on it, 100 at the other end
    (end,) = ends_of_spans((100,), [Loads(2.0)], 20, 2.0)
    assert end.pressed_lb == pytest.approx((144, 100))
    check = check_rafter(100, SECTION, VALUES, Loads(2.0), Loads(), ends=end)
    assert check.shear.demand == pytest.approx(1.5 * (104 - 11) / 8.25)
    # on two spans the middle support keeps 1.25 w L
    low, high = ends_of_spans((100, 100), [Loads(2.0)] * 2, 20, 2.0)
    assert low.pressed_lb[1] == high.pressed_lb[0] == pytest.approx(250)
    assert low.pressed_lb[0] > 143.9


def test_uplift_bends_as_well_and_rests_on_nothing() -> None:
    down = check_rafter(132, SECTION, VALUES, Loads(3.0), Loads())
    up = check_rafter(132, SECTION, VALUES, Loads(-3.0), Loads(), stability=0.54)
    assert up.bending.demand == pytest.approx(down.bending.demand)
    assert up.bending.capacity == pytest.approx(0.54 * down.bending.capacity)
    assert up.bearing.ratio == 0
    assert up.shear.demand == pytest.approx(down.shear.demand)


def test_a_pull_in_the_middle_compresses_the_free_edge_under_a_load_that_still_presses() -> None:
    # w L 300 lb down, P 200 lb up in the middle: M = 300 x 132 / 8 - 200 x 132 / 4 = -1650 lb in
    mixed = Loads(300 / 132, ((66.0, -200.0),))
    check = check_rafter(132, SECTION, VALUES, mixed, Loads(), stability=0.5)
    assert check.bending.demand == pytest.approx(1650 / 7.5625, rel=0.001)
    assert check.bending.capacity == pytest.approx(0.5 * VALUES.fb_psi)


def test_the_deck_holds_the_upper_edge_and_a_slender_rafter_holds_no_pull() -> None:
    down = check_rafter(132, SECTION, VALUES, Loads(3.0), Loads(), stability=0.0)
    assert down.bending.capacity == pytest.approx(VALUES.fb_psi)
    up = check_rafter(132, SECTION, VALUES, Loads(-3.0), Loads(), stability=0.0)
    assert up.bending.capacity == 0
    assert up.ratio == math.inf


@given(
    st.sampled_from(["2x4", "2x6", "2x8", "2x10", "2x12"]),
    st.floats(12, 24),
    st.floats(5, 25),
    st.floats(20, 60),
)
def test_it_agrees_with_the_span_model(
    nominal: str, spacing_in: float, dead_psf: float, live_psf: float
) -> None:
    section = lumber.section(nominal)
    values = adjusted(design_values("hem-fir", "No. 2", nominal), Service(1.25, repetitive=True))
    span = rafter_span(section, values, dead_psf, live_psf, spacing_in, 180)
    total = Loads(pli(dead_psf + live_psf, spacing_in))
    live = Loads(pli(live_psf, spacing_in))
    bent = check_rafter(12 * span.bending_ft, section, values, total, live)
    assert bent.bending.ratio == pytest.approx(1)
    sagged = check_rafter(12 * span.deflection_ft, section, values, total, live)
    assert sagged.deflection.ratio == pytest.approx(1)


@given(st.floats(0, 20), st.floats(0, 5), st.floats(0, 132), st.floats(0, 300), st.floats(0, 100))
def test_more_load_never_lowers_a_ratio(
    load: float, more: float, place: float, point: float, heavier: float
) -> None:
    less = check_rafter(132, SECTION, VALUES, Loads(load, ((place, point),)), Loads(load))
    greater = check_rafter(
        132, SECTION, VALUES, Loads(load + more, ((place, point + heavier),)), Loads(load + more)
    )
    for name in ("bending", "shear", "deflection", "bearing"):
        assert getattr(greater, name).ratio >= getattr(less, name).ratio * (1 - 1e-9)


def test_nonsense_is_refused() -> None:
    for wrong in ({"bearing_area": 0.0}, {"deflection_limit": -180.0}, {"bearing_in": 0.0}):
        with pytest.raises(ValueError, match="above 0"):
            check_rafter(132, SECTION, VALUES, Loads(1), Loads(1), **wrong)
    for stability in (-0.1, 1.1):
        with pytest.raises(ValueError, match="expected 0 to 1"):
            check_rafter(132, SECTION, VALUES, Loads(1), Loads(1), stability=stability)
    with pytest.raises(ValueError, match="spans are"):
        check_rafter(0, SECTION, VALUES, Loads(1), Loads(1))
    with pytest.raises(ValueError, match="stands at"):
        check_rafter(132, SECTION, VALUES, Loads(points=((140, 5),)), Loads(1))
