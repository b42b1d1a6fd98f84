"""Rafters under arrays, worked by hand on the base house.

It is a gable at 6:12, rafters 2x6 Douglas fir No. 2 at 24 in, 15 psf, held at 0, 90 and 180 in in
plan, without a ceiling; hooks here stand 48 in apart. Published rafters by themselves: tests of
`rafter` and `rafter_spans`.
"""

import math
from typing import Any

import pytest
from houses import house

from planset.design.design import Design, build_design
from planset.design.framing_loads import RafterUse
from planset.job.by_plane import EVERY_PLANE
from planset.job.engineering import Engineering
from planset.job.site import Snow

COS = 12 / math.hypot(12, 6)
S, AREA, INERTIA = 7.5625, 8.25, 20.796875
SNOW = Snow(roof_exposure="partially", thermal="heated", slides_clear=False)
SNOW_22 = Snow(roof_exposure="partially", thermal="heated", slides_clear=False, winter_wind=0.35)


SPACED = {"arrays.A1.mounting.attachment_spacing": 48.0}


def uses(changes: dict[str, Any] | None = None) -> tuple[RafterUse, ...]:
    """The cases that govern bending, span by span."""
    rafters = build_design(house({**SPACED, **(changes or {})})).loads.framing.rafters
    worst: dict[tuple[int, float], RafterUse] = {}
    for use in rafters:
        known = worst.get((use.rafter, use.from_in))
        if known is None or use.check.bending.ratio > known.check.bending.ratio:
            worst[use.rafter, use.from_in] = use
    return tuple(worst.values())


def supports(*places: float) -> dict[str, Any]:
    return {"framing.supports": {EVERY_PLANE: places}}


def by_22(changes: dict[str, Any]) -> Design:
    codes = house().jurisdiction.codes
    newer = codes.loads.model_copy(update={"edition": 2022})
    return build_design(
        house({**changes, "jurisdiction.codes": codes.model_copy(update={"loads": newer})})
    )


def test_the_bare_roof_governs_where_the_panels_are_lighter_than_people() -> None:
    # D 15 / cos = 16.77 psf and Lr 20 on 2 ft over 90 in: w 6.128 lb/in, M 6205 lb in, 820.5 psi;
    # Fb' 900 x 1.25 x 1.3 x 1.15 x 0.8 = 1345.5 psi
    (first, *_) = uses()
    load = (15 / COS + 20) * 24 / 144
    assert (first.plane, first.rafter, first.from_in, first.to_in) == ("front", 4, 0, 90)
    assert first.case == "D + Lr, no array"
    assert first.check.bending.demand == pytest.approx(load * 90**2 / 8 / S, rel=0.0005)
    assert first.check.bending.demand == pytest.approx(820.5, abs=0.5)
    assert first.check.bending.capacity == pytest.approx(1345.5, abs=0.1)
    # two equal spans, any handbook: 0.625 w L beside the middle support and 1.25 w L on it
    assert first.check.shear.demand == pytest.approx(1.5 * load * (0.625 * 90 - 5.5) / AREA)
    assert first.check.bearing.demand == pytest.approx(1.25 * load * 90 / 2.25)
    assert first.bears_at_in == 90
    sag = 5 * 20 * 24 / 144 * 90**4 / (384 * 0.9 * 1.6e6 * INERTIA)
    assert first.check.deflection.demand == pytest.approx(sag, rel=0.0005)
    assert first.check.deflection.capacity == 90 / 180


def test_a_tail_bears_on_the_wall_plate() -> None:
    # one span of 150 in beyond a tail of 30: w (30 + 75) + w 30^2 / 2 / 150 = 108 w
    (first, *_) = uses({**supports(30, 180), "framing.ceiling": "attached"})
    load = (15 / COS + 20) * 24 / 144
    assert first.case == "D + Lr, no array"
    assert first.check.bearing.demand == pytest.approx(load * 108 / 2.25)
    assert first.check.shear.demand == pytest.approx(1.5 * load * (78 - 5.5) / AREA)
    assert first.bears_at_in == 30


def test_what_stands_on_a_support_is_counted_once() -> None:
    # hooks at 48, 96 and 144 in up the slope; the purlin right under one of them, or just above
    heavy = {**SPACED, "mounting.dead_load_psf": 60.0, "site.wind_speed": 60.0}
    bears = []
    for at in (96 * COS, 96 * COS + 0.01):
        design = build_design(house({**heavy, **supports(0, at, 180)}))
        rafters = [use for use in design.loads.framing.rafters if use.rafter == 5]
        bears.append(max(use.check.bearing.demand for use in rafters))
    assert bears[0] == pytest.approx(bears[1], rel=0.001)


def test_every_rafter_under_a_rail_and_each_of_its_spans() -> None:
    design = build_design(house())
    found = {(use.rafter, use.from_in) for use in design.loads.framing.rafters}
    lines = {item.line for item in design.racking[0].attachments}
    assert found == {(rafter, low) for rafter in lines for low in (0, 90)}


def test_a_ceiling_asks_for_less_deflection() -> None:
    (first, *_) = uses({"framing.ceiling": "attached"})
    assert first.check.deflection.capacity == 90 / 240


def test_a_heavy_array_stands_where_its_hooks_stand() -> None:
    # 60 psf on the slope; hooks of the second rail at 48, 96 and 144 in up the slope, in plan 42.9,
    # 85.9 and 128.8, share 36, 48 and 60 in of 24 in; rails take 1.25 of it; D at CD 0.9
    found = {
        (u.rafter, u.from_in): u
        for u in uses({"mounting.dead_load_psf": 60.0, "site.wind_speed": 60.0})
    }
    use = found[5, 90.0]
    assert use.case == "D, array in place"
    a = 144 * COS - 90
    p = 60 * 24 * 60 / 144 * 1.25  # vertical on the projection: D cos / cos
    w = 15 / COS * 24 / 144
    x = a if p * (90 - a) / 90 < w * (90 - a) else a  # the moment peaks under the load
    moment = w * x * (90 - x) / 2 + p * x * (90 - x) / 90
    assert use.check.bending.demand == pytest.approx(moment / S, rel=0.0005)
    assert use.check.bending.capacity == pytest.approx(900 * 0.9 * 1.3 * 1.15 * 0.8)
    # deflection counts live load and snow alone, and there is none of either with D alone
    assert use.check.deflection.demand == 0


def test_the_deck_shares_a_point_load_where_the_engineer_says_so() -> None:
    heavy = {"mounting.dead_load_psf": 60.0, "site.wind_speed": 60.0}
    shared = Engineering(by="E. Strand, PE", point_load_share=0.5)
    for mild, full in zip(uses({**heavy, "engineering": shared}), uses(heavy), strict=True):
        assert mild.check.bending.ratio < full.check.bending.ratio


def test_uplift_bends_the_free_lower_edge() -> None:
    # 200 mph on light rafters: 0.6 D + 0.6 W lifts; the lower edge is free over 90 in: le = 1.84 x
    # 90 over lu / d 14.3, RB^2 = 165.6 x 5.5 / 2.25 = 404.8, FbE = 1.2 x 580000 x 0.9 / 404.8 =
    # 1547 psi, Fb* = 900 x 1.6 x 1.3 x 1.15 x 0.8 = 1722 psi, CL 0.770
    changes = {"site.wind_speed": 200.0, "framing.roof_dead_load": 5.0}
    lifted = [use for use in uses(changes) if use.case == "0.6 D + 0.6 W, array in place"]
    assert lifted
    ratio = 1547.4 / 1722.2
    middle = (1 + ratio) / 1.9
    factor = middle - math.sqrt(middle**2 - ratio / 0.95)
    assert lifted[0].check.bending.capacity == pytest.approx(1722.2 * factor, rel=0.001)
    braced = uses({**changes, "framing.ceiling": "attached"})
    held = [use for use in braced if use.case == "0.6 D + 0.6 W, array in place"]
    assert {round(use.check.bending.capacity) for use in held} == {1722}


def test_a_rafter_too_slender_to_be_lifted_holds_no_uplift() -> None:
    # 2x12 free over 24 ft: RB = sqrt(1.84 x 288 x 11.25) / 1.5 = 51.5, over 50 (NDS 3.3.3.7)
    changes = {
        "framing.member": "2x12",
        "roof.depth": 600.0,
        **supports(6, 294),
        "site.wind_speed": 200.0,
        "framing.roof_dead_load": 2.0,
        "mounting.dead_load_psf": 3.0,
    }
    worst = max(uses(changes), key=lambda use: use.check.ratio)
    assert worst.case == "0.6 D + 0.6 W, array in place"
    assert (worst.check.bending.capacity, worst.check.ratio) == (0, math.inf)
    # pressed alone it is as good as any
    calm = uses({**changes, "site.wind_speed": 60.0, "framing.roof_dead_load": 30.0})
    assert all(use.check.ratio < math.inf for use in calm)


def test_snow_bends_bare_rafters_by_the_factor_of_the_edition() -> None:
    # 40 psf on the ground: 7-16 D + S; 7-22 holds strength level, D + 0.7 S
    changes = {"site.ground_snow": 40.0, "mounting.dead_load_psf": 0.1, "module.weight": 1.0}
    old = build_design(house({**changes, "site.snow": SNOW}))
    new = by_22({**changes, "site.snow": SNOW_22})
    for design, name, factor in ((old, "D + S", 1.0), (new, "D + 0.7 S", 0.7)):
        psf = design.loads.snow["front"].on_roof_psf
        cases = {use.case: use for use in design.loads.framing.rafters if use.from_in == 0}
        bare = cases.get(f"{name}, no array")
        if bare is None:  # modules carry a little more: then at least that much
            bare = cases[f"{name}, array in place"]
            assert bare.check.bending.demand >= _bent(factor * psf) * (1 - 1e-9)
        else:
            assert bare.check.bending.demand == pytest.approx(_bent(factor * psf))


def _bent(live_psf: float) -> float:
    return (15 / COS + live_psf) * 24 / 144 * 90**2 / 8 / S


def test_beside_the_last_module_half_a_strip_stays_bare() -> None:
    # an array of no weight, hooks every 8 in: it hands snow on as if it lay on the rafters
    base = {
        "site.ground_snow": 40.0,
        "site.snow": SNOW.model_copy(update={"thermal": "unheated"}),  # Ct 1.2 as on modules
        "mounting.dead_load_psf": 0.01,
        "module.weight": 0.1,
        "site.wind_speed": 60.0,
        "arrays.A1.corner.up": 0.0,
        "arrays.A1.mounting.first_attachment": 4.0,
        "arrays.A1.mounting.attachment_spacing": 8.0,
        # the modules end an inch past the rail: 13 in of its strip of 24 in lie under them
        "arrays.A1.corner.along": 83.0,
    }
    design = build_design(house(base))
    rafters = [use for use in design.loads.framing.rafters if use.from_in == 0]
    assert design.racking[0].attachments[0].tributary.width == pytest.approx(13)
    first, second = rafters[:2]
    # both carry snow on the whole strip; rails hand it on 1.15 times, the bare part as it is
    assert first.case == second.case == "D + S, array in place"
    snow, dead = design.loads.snow["front"].on_roof_psf, 15 / COS
    beside = dead + snow * (1.15 * 13 / 24 + 11 / 24)
    ratio = beside / (dead + snow * 1.15)
    assert first.check.bending.ratio / second.check.bending.ratio == pytest.approx(ratio, rel=0.005)


def test_live_load_stays_under_panels_that_people_can_get_under() -> None:
    # clear space over 24 in: the live load stays where the modules are (IBC 2015, 1607.12.5.1)
    high = {"mounting.attachment.arm_rise": 30.0}
    (low, *_), (tall, *_) = uses(), uses(high)
    assert low.case == "D + Lr, no array"
    assert tall.case == "D + Lr, array in place"
    assert tall.check.ratio > low.check.ratio


def test_hooks_beyond_the_last_support_are_told() -> None:
    design = build_design(house(supports(20, 90, 180)))
    told = set(design.loads.framing.beyond_supports)
    # lowest hooks stand 48 in up the slope, 42.9 in in plan; move the wall plate past them
    assert told == set()
    design = build_design(house(supports(45, 90, 180)))
    lowest = {item.id for item in design.racking[0].attachments if item.v_in == 48}
    assert set(design.loads.framing.beyond_supports) == lowest


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"framing.kind": "truss"}, "on trusses"),
        ({"framing.grade": "unheard of"}, "no design values of douglas-fir-larch unheard of"),
    ],
)
def test_what_is_not_computed_says_why(changes: dict[str, Any], said: str) -> None:
    framing = build_design(house(changes)).loads.framing
    assert framing.rafters == ()
    assert said in framing.reasons["front"]
