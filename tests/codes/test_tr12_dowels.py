"""A dowel across a gap: AWC Technical Report 12 beside the equations of NDS 2018."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planset.codes.nds import lag_lateral
from planset.codes.tr12.dowels import InShear, gapped_yield_modes, lag_in_shear

DOWELS = {
    "dowel_in": st.floats(0.15, 0.6),
    "main_length_in": st.floats(0.5, 6),
    "side_length_in": st.floats(0.05, 3),
    "main_bearing_psi": st.floats(1500, 8000),
    "side_bearing_psi": st.floats(1500, 90_000),
    "yield_psi": st.floats(40_000, 100_000),
    "reductions": st.tuples(st.floats(2, 5), st.floats(2, 5), st.floats(2, 5)),
}


@given(st.fixed_dictionaries(DOWELS))
def test_without_a_gap_every_mode_is_that_of_the_nds(dowel: dict[str, float]) -> None:
    touching = lag_lateral.yield_modes(**dowel).by_mode
    gapped = gapped_yield_modes(InShear(**dowel, gap_in=0.0)).by_mode
    assert gapped.keys() == touching.keys()
    for mode, z_lb in touching.items():
        assert gapped[mode] == pytest.approx(z_lb, rel=1e-6), mode


@given(st.fixed_dictionaries(DOWELS), st.floats(0, 4), st.floats(0, 2))
def test_a_wider_gap_never_holds_more(
    dowel: dict[str, float], gap_in: float, wider_in: float
) -> None:
    near = gapped_yield_modes(InShear(**dowel, gap_in=gap_in)).by_mode
    far = gapped_yield_modes(InShear(**dowel, gap_in=gap_in + wider_in)).by_mode
    for mode, z_lb in near.items():
        assert 0 < far[mode] <= z_lb * (1 + 1e-9), mode
    assert (far["Im"], far["Is"]) == (near["Im"], near["Is"])  # no hinge, no arm


@given(st.fixed_dictionaries(DOWELS), st.floats(0, 4))
def test_harder_wood_and_a_deeper_dowel_never_hold_less(
    dowel: dict[str, float], gap_in: float
) -> None:
    weaker = gapped_yield_modes(InShear(**dowel, gap_in=gap_in)).lateral_lb
    for name in ("main_bearing_psi", "main_length_in", "yield_psi"):
        stronger = gapped_yield_modes(InShear(**{**dowel, name: dowel[name] * 1.2}, gap_in=gap_in))
        assert stronger.lateral_lb >= weaker * (1 - 1e-9), name


def test_a_screw_across_half_an_inch_by_hand() -> None:
    # 5/16 in lag, Dr 0.227, Fyb 60,000, through 1/4 in of A36 into Douglas fir, 1/2 in between:
    # qm 5600 x .227 = 1271.2, qs 87000 x .227 = 19749 lb/in, hinges 60000 x .227^3 / 6 = 116.97
    # lb in each; mode IV: A = 1/2542.4 + 1/39498 = 4.1864e-4, B = 0.5, C = 233.94;
    # P = (-.5 + sqrt(.25 + 4 x 4.1864e-4 x 233.94)) / 8.3728e-4
    #   = (-.5 + .80111) / 8.3728e-4 = 359.6 lb, over Rd 2.77 = 129.8 lb
    modes = gapped_yield_modes(lag_in_shear(0.50, 0.3125, 0.25, 87_000, 0.5))
    assert modes.governing == "IV"
    assert modes.lateral_lb == pytest.approx(129.8, rel=0.001)


def test_the_modes_of_that_screw_by_hand() -> None:
    # the same with lm 2.5: Im 1271.2 x 2.5 = 3178; Is 19749 x .25 = 4937; the rest by
    # A x^2 + B x = C with A of the members as above, halves of it where they crush at both ends
    qm, qs, hinge = 1271.2, 19749.0, 116.97
    expected = {"Im": qm * 2.5, "Is": qs * 0.25}
    for mode, a, b, c in (
        ("II", 1 / (4 * qs) + 1 / (4 * qm), 0.125 + 0.5 + 1.25, qs * 0.25**2 / 4 + qm * 2.5**2 / 4),
        ("IIIm", 1 / (2 * qs) + 1 / (4 * qm), 0.5 + 1.25, hinge + qm * 2.5**2 / 4),
        ("IIIs", 1 / (4 * qs) + 1 / (2 * qm), 0.125 + 0.5, qs * 0.25**2 / 4 + hinge),
        ("IV", 1 / (2 * qs) + 1 / (2 * qm), 0.5, 2 * hinge),
    ):
        expected[mode] = (-b + math.sqrt(b * b + 4 * a * c)) / (2 * a)
    modes = gapped_yield_modes(lag_in_shear(0.50, 0.3125, 0.25, 87_000, 0.5)).by_mode
    for mode, p_lb in expected.items():
        assert modes[mode] == pytest.approx(p_lb / 2.77, rel=0.001), mode


def test_without_a_deck_the_published_table_stands() -> None:
    # NDS Table 12K: 5/16 in in Douglas fir through 14 ga, 192 lb along the grain, printed 190
    modes = gapped_yield_modes(lag_in_shear(0.50, 0.3125, 0.075, 61_850, 0.0))
    assert modes.lateral_lb == pytest.approx(192, abs=0.5)
    across = gapped_yield_modes(lag_in_shear(0.50, 0.3125, 0.075, 61_850, 0.0, 90.0))
    assert across.lateral_lb == pytest.approx(132, abs=0.5)


@pytest.mark.parametrize(
    ("name", "value", "said"),
    [
        ("dowel_in", 0.0, "dowel or bearing length"),
        ("main_bearing_psi", -1.0, "strength"),
        ("gap_in", -0.1, "gap between members"),
    ],
)
def test_nonsense_is_refused(name: str, value: float, said: str) -> None:
    dowel = {
        "dowel_in": 0.227,
        "main_length_in": 2.5,
        "side_length_in": 0.25,
        "main_bearing_psi": 5600,
        "side_bearing_psi": 87_000,
        "yield_psi": 60_000,
        "gap_in": 0.5,
        "reductions": (2.77, 2.77, 2.77),
    }
    with pytest.raises(ValueError, match=said):
        gapped_yield_modes(InShear(**{**dowel, name: value}))
