"""Rails as beams; the section is invented, E and I are those of the reference's cases."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planset.design.beam import Beam, Loads, solve
from planset.design.rail import RailSection, check_rail, thermal_movement_in
from planset.design.utilization import Utilization

RAIL = RailSection(moment_of_inertia_in4=0.20, sagging_lb_in=4000, hogging_lb_in=3000)
LOAD = 81.25 / 12  # 30 psf x 65/24 ft, lb/in


@pytest.mark.parametrize(
    ("span_ft", "moment_lb_ft", "deflected_in", "limit_in"),
    # cases of the reference: wL2/8, and L/180 with E 10.1e6, I 0.20
    [(4, 162.5, 0.232, 0.267), (6, 365.6, 1.173, 0.400)],
)
def test_simple_span(
    span_ft: int, moment_lb_ft: float, deflected_in: float, limit_in: float
) -> None:
    check = check_rail(Beam((12.0 * span_ft,)), LOAD, RAIL)
    assert check.sagging.demand / 12 == pytest.approx(moment_lb_ft, abs=0.05)
    assert check.deflection.demand == pytest.approx(deflected_in, abs=0.0005)
    assert check.deflection.capacity == pytest.approx(limit_in, abs=0.0005)
    assert check.ratio == max(use.ratio for use in (check.sagging, check.hogging, check.deflection))


def test_without_continuity_both_moments_are_those_of_a_simple_span() -> None:
    check = check_rail(Beam((48.0, 60.0, 48.0)), LOAD, RAIL)
    assert check.sagging.demand == pytest.approx(LOAD * 60**2 / 8)
    assert check.hogging.demand == check.sagging.demand
    counted = check_rail(Beam((48.0, 60.0, 48.0)), LOAD, RAIL, continuous=True)
    assert counted.sagging.demand < check.sagging.demand
    assert counted.hogging.demand < check.hogging.demand
    assert counted.deflection.ratio < check.deflection.ratio


def test_cantilever() -> None:
    # case of the reference: 1.333 ft at 81.25 plf, 72.2 lb-ft; w a^4/8EI + w a^3 L/6EI
    end = 12 * 1.333
    check = check_rail(Beam((24.0,), right_in=end), LOAD, RAIL)
    assert check.hogging.demand / 12 == pytest.approx(72.2, abs=0.05)
    deflected = LOAD * end**3 * (end / 8 + 24 / 6) / (10.1e6 * 0.20)
    assert check.deflection.demand == pytest.approx(deflected)
    assert check.deflection.capacity == pytest.approx(2 * end / 180)


def test_uplift_turns_the_moments_round() -> None:
    beam = Beam((48.0, 48.0), left_in=12.0)
    down = check_rail(beam, LOAD, RAIL, continuous=True)
    up = check_rail(beam, -LOAD, RAIL, continuous=True)
    assert up.sagging.demand == pytest.approx(down.hogging.demand)
    assert up.hogging.demand == pytest.approx(down.sagging.demand)
    assert (up.sagging.capacity, up.hogging.capacity) == (4000, 3000)
    long_end = Beam((24.0,), right_in=40.0)
    assert check_rail(long_end, -LOAD, RAIL).sagging.demand == pytest.approx(LOAD * 800)


@given(
    st.lists(st.floats(24, 96), min_size=1, max_size=5).map(tuple),
    st.floats(0, 48),
    st.floats(0, 48),
    st.floats(-20, 20),
)
def test_the_safe_way_is_never_the_milder(
    spans: tuple[float, ...], left: float, right: float, load: float
) -> None:
    beam = Beam(spans, left, right)
    safe = check_rail(beam, load, RAIL)
    exact = check_rail(beam, load, RAIL, continuous=True)
    for name in ("sagging", "hogging", "deflection"):
        assert getattr(exact, name).ratio <= getattr(safe, name).ratio


def test_a_short_end_span_is_lifted_by_its_long_neighbor() -> None:
    # 2 M (24 + 96) = -w (24^3 + 96^3) / 4, M = -936 w; reaction 12 w - 936 w / 24 = -27 w: the
    # simple span would never tell that the cantilever beyond is pushed down
    beam = Beam((24.0, 96.0), left_in=6.0)
    through = solve(Beam((24.0, 96.0)), Loads(1.0))
    assert through.reactions_lb[0] == pytest.approx(-27)
    assert solve(beam, Loads(1.0)).stretches[0].down_lb_in3 > 6**3 * (6 / 8 + 24 / 6)
    assert check_rail(beam, 1.0, RAIL).ratio >= check_rail(beam, 1.0, RAIL, continuous=True).ratio


@given(
    st.floats(24, 96),
    st.floats(1, 24),
    st.floats(0, 24),
    st.floats(0, 20),
    st.floats(0, 5),
    st.booleans(),
)
def test_more_load_or_longer_spans_never_lower_the_ratio(
    span: float, longer: float, end: float, load: float, more: float, continuous: bool
) -> None:
    def ratio(length: float, uniform: float) -> float:
        beam = Beam((length, length), end)
        return check_rail(beam, uniform, RAIL, continuous=continuous).ratio

    assert ratio(span, load + more) >= ratio(span, load) * (1 - 1e-9)
    without_continuity = check_rail(Beam((span, span)), load, RAIL).ratio
    assert check_rail(Beam((span + longer,) * 2), load, RAIL).ratio >= without_continuity


@pytest.mark.parametrize(
    ("feet", "change_f", "movement_in"),
    # recomputed in the reference, alpha 13.1e-6
    [(40, 100, 0.629), (20, 120, 0.377)],
)
def test_thermal_movement(feet: float, change_f: float, movement_in: float) -> None:
    assert thermal_movement_in(12 * feet, change_f) == pytest.approx(movement_in, abs=0.0005)


def test_utilization() -> None:
    assert Utilization(50, 200).ratio == 0.25
    assert Utilization(50, 0).ratio == math.inf
    assert Utilization(0, 0).ratio == 0


def test_nonsense_is_refused() -> None:
    beam = Beam((48.0,))
    for name in ("moment_of_inertia_in4", "sagging_lb_in", "hogging_lb_in", "elasticity_psi"):
        with pytest.raises(ValueError, match="above 0"):
            check_rail(beam, LOAD, replace(RAIL, **{name: 0.0}))
    with pytest.raises(ValueError, match="expected a number"):
        check_rail(beam, math.nan, RAIL)
    with pytest.raises(ValueError, match="numbers from 0"):
        thermal_movement_in(-1, 100)
