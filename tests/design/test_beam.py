"""Beams: handbook coefficients, statics, and the time they take.

Sources: coefficients of equal spans as in every steel handbook, such as AISC Manual 2017, Table
3-22c and 3-23, from memory; they are also those of the reference, recomputed.
"""

import math
import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planset.design.beam import Beam, BeamResult, Loads, solve

# spans: reactions / wL, sagging / wL2, hogging / wL2, deflection x EI / wL4
HANDBOOK = [
    (1, (0.5, 0.5), 0.125, 0.0, 0.0130),
    (2, (0.375, 1.25, 0.375), 0.0703, -0.125, 0.0054),
    (3, (0.4, 1.1, 1.1, 0.4), 0.080, -0.100, 0.0069),
    (4, (0.393, 1.143, 0.929, 1.143, 0.393), 0.077, -0.107, 0.0065),
]


def deflection(result: BeamResult) -> float:
    return max(stretch.deflection_lb_in3 for stretch in result.stretches)


@pytest.mark.parametrize(("spans", "reactions", "sagging", "hogging", "deflected"), HANDBOOK)
@pytest.mark.parametrize(("load", "span_in"), [(1.0, 1.0), (6.77, 48.0), (-2.5, 72.0)])
def test_handbook_coefficients(
    spans: int,
    reactions: tuple[float, ...],
    sagging: float,
    hogging: float,
    deflected: float,
    load: float,
    span_in: float,
) -> None:
    result = solve(Beam((span_in,) * spans), Loads(load))
    force, moment = load * span_in, load * span_in**2
    assert [r / force for r in result.reactions_lb] == pytest.approx(reactions, abs=0.0005)
    extremes = (sagging, hogging) if load > 0 else (hogging, sagging)  # uplift turns them round
    computed = (result.sagging_lb_in / moment, result.hogging_lb_in / moment)
    assert computed == pytest.approx(extremes, abs=0.0005)
    assert deflection(result) / abs(load * span_in**4) == pytest.approx(deflected, abs=0.00005)


def test_exact_fractions() -> None:
    two = solve(Beam((1.0, 1.0)), Loads(1.0))
    assert two.sagging_lb_in == pytest.approx(9 / 128)
    assert two.shear_lb == pytest.approx(5 / 8)
    assert deflection(solve(Beam((1.0,)), Loads(1.0))) == pytest.approx(5 / 384)


@pytest.mark.parametrize(("span_ft", "moment_lb_ft"), [(4, 162.5), (5, 253.9), (6, 365.6)])
def test_rail_moment(span_ft: int, moment_lb_ft: float) -> None:
    # 30 psf x 65/24 ft = 81.25 plf, w L^2 / 8, recomputed in the reference
    load = 30 * 65 / 24 / 12
    result = solve(Beam((12.0 * span_ft,)), Loads(load))
    assert result.sagging_lb_in / 12 == pytest.approx(moment_lb_ft, abs=0.05)


@pytest.mark.parametrize(("span_ft", "deflected_in"), [(4, 0.232), (6, 1.173)])
def test_rail_deflection(span_ft: int, deflected_in: float) -> None:
    # E 10.1e6 psi, I 0.20 in4, simple span, recomputed in the reference
    result = solve(Beam((12.0 * span_ft,)), Loads(81.25 / 12))
    assert deflection(result) / (10.1e6 * 0.20) == pytest.approx(deflected_in, abs=0.0005)


def test_cantilever() -> None:
    # 1.333 ft at 81.25 plf: 72.2 lb-ft, recomputed in the reference; the last reaction by the
    # formula of a simple span, w (L/2 + a) + w a^2 / 2L
    load, span, end = 81.25 / 12, 48.0, 12 * 1.333
    result = solve(Beam((span,), right_in=end), Loads(load))
    assert -result.hogging_lb_in / 12 == pytest.approx(72.2, abs=0.05)
    assert result.reactions_lb[1] == pytest.approx(
        load * (span / 2 + end) + load * end**2 / (2 * span)
    )
    assert result.stretches[-1].cantilever
    assert result.stretches[-1].hogging_lb_in == result.hogging_lb_in


def test_cantilever_deflection_by_the_handbook() -> None:
    # a load at the tip: P a^2 (L + a) / 3EI there, P a L^2 / (9 sqrt(3) EI) in the span
    result = solve(Beam((60.0,), right_in=20.0), Loads(points=((80.0, 100.0),)))
    span, overhang = result.stretches
    assert overhang.deflection_lb_in3 == pytest.approx(100 * 20**2 * 80 / 3)
    assert span.deflection_lb_in3 == pytest.approx(100 * 20 * 60**2 / (9 * math.sqrt(3)))


def test_point_load_by_the_handbook() -> None:
    # P at a from the left of a simple span, b from the right: M = P a b / L; greatest deflection
    # P b (L^2 - b^2)^1.5 / (9 sqrt(3) L EI) for b < a
    result = solve(Beam((100.0,)), Loads(points=((60.0, 50.0),)))
    assert result.sagging_lb_in == pytest.approx(50 * 60 * 40 / 100)
    expected = 50 * 40 * (100**2 - 40**2) ** 1.5 / (9 * math.sqrt(3) * 100)
    assert deflection(result) == pytest.approx(expected)
    assert result.shear_lb == pytest.approx(30)


def test_a_load_over_a_support_goes_straight_into_it() -> None:
    for place, index in ((10.0, 0), (60.0, 1), (110.0, 2)):
        beam = Beam((50.0, 50.0), left_in=10.0, right_in=5.0)
        result = solve(beam, Loads(points=((place, 80.0),)))
        assert result.reactions_lb[index] == pytest.approx(80)
        assert result.sagging_lb_in == pytest.approx(0, abs=1e-9)


def test_unequal_spans_by_hand() -> None:
    # spans 4 and 6, w = 1: 2 M (4 + 6) = -(4^3 + 6^3) / 4, M = -3.5
    result = solve(Beam((4.0, 6.0)), Loads(1.0))
    assert result.hogging_lb_in == pytest.approx(-3.5)
    assert result.reactions_lb == pytest.approx((2 - 3.5 / 4, 5 + 3.5 / 4 + 3.5 / 6, 3 - 3.5 / 6))


lengths = st.floats(6, 120)
ends = st.one_of(st.just(0.0), st.floats(1, 40))
beams = st.builds(Beam, st.lists(lengths, min_size=1, max_size=6).map(tuple), ends, ends)


@st.composite
def loaded(draw: st.DrawFn) -> tuple[Beam, Loads]:
    beam = draw(beams)
    share = st.floats(0, 1)
    size = st.floats(-500, 500)
    points = draw(st.lists(st.tuples(share, size), max_size=4))
    placed = tuple((place * beam.length_in, load) for place, load in points)
    return beam, Loads(draw(st.floats(-20, 20)), placed)


@given(loaded())
def test_equilibrium(case: tuple[Beam, Loads]) -> None:
    beam, loads = case
    result = solve(beam, loads)
    total = loads.uniform_lb_per_in * beam.length_in + sum(p for _, p in loads.points)
    about = loads.uniform_lb_per_in * beam.length_in**2 / 2 + sum(x * p for x, p in loads.points)
    size = abs(loads.uniform_lb_per_in) * beam.length_in + sum(abs(p) for _, p in loads.points)
    assert sum(result.reactions_lb) == pytest.approx(total, abs=1e-7 * (1 + size))
    turned = sum(x * r for x, r in zip(beam.supports_in, result.reactions_lb, strict=True))
    assert turned == pytest.approx(about, abs=1e-6 * (1 + size) * beam.length_in)


@given(loaded())
def test_symmetry(case: tuple[Beam, Loads]) -> None:
    beam, loads = case
    mirrored = Beam(beam.spans_in[::-1], beam.right_in, beam.left_in)
    points = tuple((beam.length_in - x, p) for x, p in loads.points)
    there = solve(beam, loads)
    back = solve(mirrored, Loads(loads.uniform_lb_per_in, points))
    near = 1e-6 * (1 + abs(there.sagging_lb_in) + abs(there.hogging_lb_in))
    assert back.reactions_lb[::-1] == pytest.approx(there.reactions_lb, rel=1e-6, abs=1e-5)
    assert back.sagging_lb_in == pytest.approx(there.sagging_lb_in, abs=near)
    assert back.hogging_lb_in == pytest.approx(there.hogging_lb_in, abs=near)
    for one, other in zip(there.stretches, back.stretches[::-1], strict=True):
        assert other.deflection_lb_in3 == pytest.approx(one.deflection_lb_in3, rel=1e-5, abs=1e-2)


@given(
    beams,
    st.floats(-20, 20),
    st.lists(st.tuples(st.floats(0, 1), st.floats(-500, 500)), max_size=4),
)
def test_superposition(beam: Beam, load: float, points: list[tuple[float, float]]) -> None:
    placed = tuple((place * beam.length_in, p) for place, p in points)
    both = solve(beam, Loads(load, placed)).reactions_lb
    parts = [solve(beam, Loads(load)).reactions_lb]
    parts += [solve(beam, Loads(points=(point,))).reactions_lb for point in placed]
    added = [sum(values) for values in zip(*parts, strict=True)]
    assert both == pytest.approx(added, rel=1e-7, abs=1e-5)


@given(loaded(), st.floats(0.1, 10))
def test_twice_the_load_twice_of_everything(case: tuple[Beam, Loads], factor: float) -> None:
    beam, loads = case
    more = Loads(loads.uniform_lb_per_in * factor, tuple((x, p * factor) for x, p in loads.points))
    once, scaled = solve(beam, loads), solve(beam, more)
    assert scaled.sagging_lb_in == pytest.approx(once.sagging_lb_in * factor, rel=1e-6, abs=1e-6)
    assert scaled.shear_lb == pytest.approx(once.shear_lb * factor, rel=1e-6, abs=1e-6)


@given(beams, st.floats(0.5, 20))
def test_the_deflected_beam_lies_on_its_supports(beam: Beam, load: float) -> None:
    """Cut into many point loads the beam bends alike, and no support moves."""
    count = 400
    step = beam.length_in / count
    points = tuple(((index + 0.5) * step, load * step) for index in range(count))
    smooth, rough = solve(beam, Loads(load)), solve(beam, Loads(points=points))
    size = load * beam.length_in
    assert rough.reactions_lb == pytest.approx(smooth.reactions_lb, abs=0.02 * size)
    assert deflection(rough) == pytest.approx(deflection(smooth), rel=0.05)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: Beam(()), "spans are"),
        (lambda: Beam((48.0, 0.0)), "spans are"),
        (lambda: Beam((math.nan,)), "spans are"),
        (lambda: Beam((48.0,), left_in=-1), "cantilevers are"),
        (lambda: solve(Beam((48.0,)), Loads(points=((49.0, 1.0),))), "stands at 49 in"),
        (lambda: solve(Beam((48.0,)), Loads(math.nan)), "not a number"),
        (lambda: solve(Beam((48.0,)), Loads(points=((1.0, math.inf),))), "not a number"),
    ],
)
def test_nonsense_is_refused(make: object, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        make()  # type: ignore[operator]


def test_a_large_array_takes_little_time() -> None:
    # 300 different rails of five spans, 1,500 attachments and more; 2 s is all the loads may take
    start = time.perf_counter()
    for index in range(300):
        solve(Beam((48.0 + index / 100,) * 5, 12.0, 15.0), Loads(6.77))
    assert time.perf_counter() - start < 2.0
