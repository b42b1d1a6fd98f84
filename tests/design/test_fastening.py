"""Lag screws of an attachment in the job's framing, by hand and by published values.

Sources beside each number: "synthetic": a case worked apart from this program; NDS 2018; "Santa
Ana" and "Santa Ana B": permit calculations, City of Santa Ana, doc 370282 page 13 and doc 370639
page 6.
"""

import math
from dataclasses import replace
from typing import Any

import pytest
from houses import house, placed_arrays
from hypothesis import given
from hypothesis import strategies as st

from planset.design.design import build_design
from planset.design.fastening import Fastening, fastening, lag_use, load_duration


def held(changes: dict[str, Any]) -> Fastening:
    inputs = house(changes)
    (array,) = placed_arrays(inputs)
    return fastening(inputs, array)


def test_two_lag_screws_of_the_base_house() -> None:
    # synthetic: one 5/16 x 3-1/2 screw with 2.0625 in of thread in Douglas fir holds 878 lb in
    # wind; Ct 0.8 of a hot attic
    found = held({})
    assert found.penetration_in == 2.0625
    assert found.lag_capacity_lb == pytest.approx(2 * 878 * 0.8, rel=0.001)
    assert found.covered_in == 0.25 + 0.0625 + 0.5
    assert found.gap_in == 0.0625 + 0.5
    assert found.minimum_in == 1.25  # 4 D, NDS 2018, 12.1.4.6


def test_weaker_wood_holds_less() -> None:
    # synthetic: the same screw in spruce-pine-fir holds 676 lb
    found = held({"framing.species": "spruce-pine-fir"})
    assert found.lag_capacity_lb == pytest.approx(2 * 676 * 0.8, rel=0.001)


def test_a_longer_screw_by_its_thread() -> None:
    # synthetic: 5/16 x 4 through 1 in has 2.3125 in, 984 lb; "embedment 3.0 x 266 x 1.6", 1277 lb,
    # would be 30 % too much
    found = held({"mounting.attachment.lags.length": 4.0, "framing.sheathing": 0.6875})
    assert found.covered_in == 1.0
    assert found.penetration_in == 2.3125
    assert found.lag_capacity_lb == pytest.approx(2 * 984 * 0.8, rel=0.001)


@pytest.mark.parametrize(
    ("penetration_in", "temperature", "capacity_lb"),
    [
        (2.5, 1.0, 2128),  # Santa Ana: 266 x 2.5 x 1.6 on two screws
        (3.25, 0.8, 2213.12),  # Santa Ana B, Ct 0.8
    ],
)
def test_published_withdrawal(
    penetration_in: float, temperature: float, capacity_lb: float
) -> None:
    found = replace(
        held({}),
        withdrawal_lb_per_in=266,  # as printed; Table 12.2A
        penetration_in=penetration_in,
        temperature=temperature,
    )
    assert found.lag_capacity_lb == pytest.approx(capacity_lb, abs=0.5)


def test_a_deep_thread_is_as_strong_as_its_root() -> None:
    # 30,000 psi x pi 0.227^2 / 4 = 1214 lb, under 266 x 4 x 1.6 = 1702 lb: the steel governs, and
    # neither duration nor temperature changes it
    found = replace(held({}), penetration_in=4.0, temperature=1.0)
    assert found.lag_capacity_lb == pytest.approx(2 * 1214, rel=0.001)


@pytest.mark.parametrize(
    ("member", "length_in", "penetration_in"),
    [
        # 2x4, 0.8125 in above it. 3-1/2: T 2.25 less the tip, inside
        ("2x4", 3.5, 2.25 - 3 / 16),
        # 5: thread from 5 - 3 - 0.8125 = 1.1875 in to the lower side at 3.5 in; the tip is outside
        ("2x4", 5.0, 3.5 - 1.1875),
        # 9: thread of 5 in begins 3.1875 in down, so that 0.3125 in of it holds
        ("2x4", 9.0, 3.5 - 3.1875),
        # 10: the thread of 5.25 in begins 3.9375 in down, below the rafter
        ("2x4", 10.0, 0.0),
        ("2x6", 9.0, 5.5 - 3.1875),
    ],
)
def test_thread_below_the_rafter_holds_nothing(
    member: str, length_in: float, penetration_in: float
) -> None:
    found = held({"framing.member": member, "mounting.attachment.lags.length": length_in})
    assert found.penetration_in == pytest.approx(penetration_in)


def test_a_screw_that_stays_above_the_rafter_holds_nothing() -> None:
    design = build_design(house({"framing.sheathing": 3.0}))
    (found,) = design.fastenings
    assert (found.penetration_in, found.lag_capacity_lb) == (0, 0)
    assert {use.ratio for use in design.loads.arrays[0].lags} == {None}


def test_room_beside_and_between_the_screws() -> None:
    # NDS 2018, Table 12.5.1E, from memory: 1.5 D to the edge, 4 D in a row; 0.75 - 0.47 = 0.28 in
    found = held({})
    assert found.side_room_in == pytest.approx(0.28, abs=0.005)
    assert (found.spacing_in, found.minimum_spacing_in) == (3, 1.25)
    assert held({"mounting.attachment.lags.count": 1}).spacing_in is None


def test_lead_hole_for_the_wood_of_the_rafter() -> None:
    # NDS 2018, 12.1.4.2, from memory: 5/16 in takes 0.125 to 0.219 in up to G 0.50
    found = held({})
    assert found.pilot_in == 0.1875
    assert found.pilot_range_in == pytest.approx((0.125, 0.21875))


def test_the_deck_between_plate_and_rafter_costs_lateral_strength() -> None:
    # NDS 2018: 270 lb for 1/4 in of A36 flat on Douglas fir (recomputed, mode IV); across 9/16 in
    # that holds nothing, mode IV: q 1271.2 and 19749 lb/in, both hinges 701.8 lb in,
    # P = (-g + sqrt(g^2 + 4 A C)) / 2 A with A .00041866, C 1403.7, over Rd 2.77: 120.3 lb
    bare = held({"framing.sheathing": 0.0, "framing.underlayment": 0.0})
    decked = held({})
    assert bare.lateral_lb == pytest.approx(270, abs=1)
    assert decked.lateral_lb == pytest.approx(120.3, rel=0.001)
    assert (bare.yield_mode, decked.yield_mode) == ("IV", "IV")
    # 2.0625 in of 8 D = 2.5 in
    assert decked.penetration_factor == pytest.approx(0.825)
    assert decked.lateral_capacity_lb(1.0) == pytest.approx(2 * 120.3 * 0.8 * 0.825, rel=0.001)


def test_the_plate_presses_on_the_rafter() -> None:
    # Fc_perp 625 psi x 0.8 on 1-1/2 in by 6 in; a plate wider than the rafter bears on the rafter
    assert held({}).bearing_lb == pytest.approx(625 * 0.8 * 1.5 * 6)
    assert held({"mounting.attachment.plate_width": 4.0}).bearing_lb == pytest.approx(4500)
    assert held({"framing.grade": "unheard of"}).bearing_lb == 0


@pytest.mark.parametrize(
    ("load", "factor"), [("dead", 0.9), ("snow", 1.15), ("roof live", 1.25), ("wind", 1.6)]
)
def test_load_duration(load: str, factor: float) -> None:  # NDS 2018, Table 2.3.2
    assert load_duration(load) == factor


def test_pull_and_shear_together_by_hand() -> None:
    # the base house's first hook, by the equation of NDS 12.4.1: R / (W Z / (W cos2 + Z sin2))
    design = build_design(house())
    load, found = design.loads.attachments[0], design.fastenings[0]
    use = lag_use(load, found)
    assert use.combination == "0.6 D + 0.6 W"
    assert use.uplift_lb == pytest.approx(load.uplift_lb)
    w, z = found.withdrawal_capacity_lb(1.6), found.lateral_capacity_lb(1.6)
    assert (use.withdrawal_lb, use.lateral_lb) == (w, z)
    resultant = math.hypot(use.uplift_lb, use.along_lb)
    cos2, sin2 = (use.along_lb / resultant) ** 2, (use.uplift_lb / resultant) ** 2
    assert use.ratio == pytest.approx(resultant * (w * cos2 + z * sin2) / (w * z))


def test_no_combination_asks_more_than_the_one_named() -> None:
    design = build_design(house({"mounting.dead_load_psf": 20.0, "site.wind_speed": 60.0}))
    found = design.fastenings[0]
    for load in design.loads.attachments:
        use = lag_use(load, found)
        # a heavy array in light wind slides: D alone at CD 0.9, shear over 0.9 Z'
        assert use.combination == "D"
        assert use.uplift_lb == 0
        sliding = load.loads.dead_lb * math.sin(math.radians(load.loads.slope_deg))
        assert use.along_lb == pytest.approx(sliding * load.continuity)
        assert use.ratio == pytest.approx(use.along_lb / found.lateral_capacity_lb(0.9))


@given(st.floats(1.5, 12), st.sampled_from(["2x4", "2x6", "2x8", "2x10", "2x12"]))
def test_thread_is_never_more_than_what_is_there(length_in: float, member: str) -> None:
    found = held({"framing.member": member, "mounting.attachment.lags.length": length_in})
    inside = min(length_in - found.covered_in, {"2x4": 3.5}.get(member, 11.25))
    assert 0 <= found.penetration_in <= max(inside, 0)
