"""What asks more never lowers a ratio, what holds less neither, with the edge factor everywhere.

Not so for the tributary area, with which the coefficients fall. The codes themselves say otherwise
in four places:

- exposure under snow: Ce is smaller on open ground (ASCE 7-16, Table 7.3-1; tested below);
- the lateral value of a thicker screw with the same thread: 8 D is deeper (NDS 12.1.4.6; tested
  below), and so is the tip, which counts only under 4 D, where nothing is allowed anyway;
- wood of another species for the rafter's own bending: its values do not go by density;
- rain on snow, which ends at 20 psf (ASCE 7-16, 7.10): for slopes under W / 50 degrees alone.
"""

import math
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import pytest
from houses import house
from hypothesis import given, settings
from hypothesis import strategies as st

from planset.codes.nds.species import specific_gravity
from planset.design.design import Design, build_design
from planset.design.loads import Loads
from planset.design.rafter import CHECKS
from planset.job.site import Snow

SNOW = {
    2016: Snow(roof_exposure="partially", thermal="heated", slides_clear=False),
    2022: Snow(roof_exposure="fully", thermal="ventilated", slides_clear=True, winter_wind=0.4),
}
FEW = settings(max_examples=15)  # each builds two whole designs
SPECIES = ("spruce-pine-fir-south", "spruce-pine-fir", "hem-fir", "douglas-fir-south",
           "douglas-fir-larch-north", "douglas-fir-larch", "southern-pine")  # fmt: skip
ROOFS = st.fixed_dictionaries(
    {
        "name": st.sampled_from(["gable-40x30", "hip-40x30-three", "tee-50x28", "shed-24x20"]),
        "pitch": st.floats(3 / 12, 0.57),
        "eave": st.floats(96, 360),
        "year": st.sampled_from([2016, 2022]),
        "spacing": st.sampled_from([24.0, 32.0, 48.0]),
    }
)


def design_of(roof: Mapping[str, Any], **changes: Any) -> Design:
    name, year = roof["name"], roof["year"]
    arrays = [array.id for array in house(None, name).job.arrays]
    pitch = {} if name == "tee-50x28" else {"roof.pitch": roof["pitch"]}  # its wing has its own
    places: dict[str, Any] = {
        **pitch,
        "building.eave_height": roof["eave"],
        **{f"arrays.{array}.mounting.attachment_spacing": roof["spacing"] for array in arrays},
        **{place.replace("__", "."): value for place, value in changes.items()},
    }
    codes = house(None, name).jurisdiction.codes
    loads = codes.loads.model_copy(update={"edition": year})
    places["jurisdiction.codes"] = codes.model_copy(update={"loads": loads})
    return build_design(house(places, name))


def ratios(design: Design) -> dict[tuple[str, ...], float]:
    """Every ratio of a design by what it is of."""
    assert not design.loads.reason
    found: dict[tuple[str, ...], float] = {}
    for array, loads, held in zip(
        design.mounted, design.loads.arrays, design.fastenings, strict=True
    ):
        connector = array.system.attachment
        for load, use in zip(loads.attachments, loads.lags, strict=True):
            found["uplift", load.attachment] = load.uplift_lb / connector.uplift.capacity
            found["down", load.attachment] = load.down_lb / connector.downward.capacity
            found["along", load.attachment] = load.along_lb / connector.along_slope.capacity
            pull = held.lag_capacity_lb
            found["withdrawal", load.attachment] = load.uplift_lb / pull if pull else math.inf
            found["lag", load.attachment] = math.inf if use.ratio is None else use.ratio
            found["plate", load.attachment] = load.down_lb / held.bearing_lb
        for rail in loads.rails:
            for side, check in (("up", rail.up), ("down", rail.down)):
                if check is not None:
                    found[f"rail {side}", rail.rail] = check.ratio
    found.update(_rafters(design.loads))
    return found


def _rafters(loads: Loads) -> dict[tuple[str, ...], float]:
    """Every check of every rafter span by the case that governs it."""
    found: dict[tuple[str, ...], float] = {}
    for use in loads.framing.rafters:
        for check in CHECKS:
            what = ("rafter", use.plane, str(use.rafter), str(use.from_in), check)
            found[what] = max(found.get(what, 0.0), use.check.named(check).ratio)
    return found


def never_less(mild: Design, severe: Design, *, only: tuple[str, ...] = ()) -> None:
    less, more = ratios(mild), ratios(severe)
    assert less.keys() == more.keys()
    for what, ratio in less.items():
        if not only or what[0] in only:
            assert more[what] >= ratio * (1 - 1e-9), what


# ---------------------------------------------------------------- what asks more


@FEW
@given(
    ROOFS, st.floats(85, 170), st.floats(1, 1.3), st.sampled_from("BCD"), st.sampled_from([0, 35])
)
def test_more_wind(
    roof: dict[str, Any], speed: float, times: float, exposure: str, snow: float
) -> None:
    site = {"site__exposure": exposure, "site__ground_snow": float(snow)}
    site["site__snow"] = SNOW[roof["year"]] if snow else None
    mild = design_of(roof, site__wind_speed=speed, **site)
    never_less(mild, design_of(roof, site__wind_speed=speed * times, **site))


@FEW
@given(ROOFS, st.floats(85, 200), st.sampled_from([("B", "C"), ("C", "D"), ("B", "D")]))
def test_more_open_ground(roof: dict[str, Any], speed: float, exposures: tuple[str, str]) -> None:
    mild, severe = (
        design_of(roof, site__wind_speed=speed, site__exposure=exposure) for exposure in exposures
    )
    never_less(mild, severe)


@FEW
@given(ROOFS, st.floats(85, 200), st.floats(0, 240))
def test_a_higher_roof(roof: dict[str, Any], speed: float, higher: float) -> None:
    mild = design_of(roof, site__wind_speed=speed, site__exposure="C")
    severe = design_of(
        {**roof, "eave": roof["eave"] + higher}, site__wind_speed=speed, site__exposure="C"
    )
    never_less(mild, severe)


@FEW
@given(ROOFS, st.floats(1, 80), st.floats(0, 40), st.floats(85, 140))
def test_more_snow(roof: dict[str, Any], ground: float, more: float, speed: float) -> None:
    site = {"site__snow": SNOW[roof["year"]], "site__wind_speed": speed}
    mild = design_of(roof, site__ground_snow=ground, **site)
    never_less(mild, design_of(roof, site__ground_snow=ground + more, **site))


@FEW
@given(ROOFS, st.floats(85, 200), st.floats(1, 2))
def test_a_hill(roof: dict[str, Any], speed: float, kzt: float) -> None:
    flat = design_of(roof, site__wind_speed=speed)
    never_less(flat, design_of(roof, site__wind_speed=speed, site__topographic_factor=kzt))


# ---------------------------------------------------------------- what holds less

LAG = ("withdrawal", "lag")


@FEW
@given(ROOFS, st.floats(3, 6), st.floats(0, 2), st.floats(85, 170))
def test_a_shorter_screw(roof: dict[str, Any], length: float, longer: float, speed: float) -> None:
    # a 2x8 is deep enough that no point comes out below: a thread beyond the rafter holds nothing
    wood = {"framing__member": "2x8", "site__wind_speed": speed}
    long = design_of(roof, mounting__attachment__lags__length=length + longer, **wood)
    short = design_of(roof, mounting__attachment__lags__length=length, **wood)
    assert short.fastenings[0].penetration_in <= long.fastenings[0].penetration_in
    never_less(long, short)


@FEW
@given(ROOFS, st.floats(0, 1.5), st.floats(0, 1), st.floats(85, 170))
def test_a_thicker_deck(roof: dict[str, Any], deck: float, thicker: float, speed: float) -> None:
    wood = {"framing__member": "2x8", "site__wind_speed": speed}
    thin = design_of(roof, framing__sheathing=deck, **wood)
    never_less(thin, design_of(roof, framing__sheathing=deck + thicker, **wood), only=LAG)


@FEW
@given(ROOFS, st.sampled_from(range(len(SPECIES) - 1)), st.floats(85, 170))
def test_lighter_wood(roof: dict[str, Any], n: int, speed: float) -> None:
    lighter, denser = SPECIES[n : n + 2]
    assert specific_gravity(lighter) < specific_gravity(denser)
    never_less(
        design_of(roof, framing__species=denser, site__wind_speed=speed),
        design_of(roof, framing__species=lighter, site__wind_speed=speed),
        only=LAG,
    )


@FEW
@given(ROOFS, st.floats(3, 8), st.sampled_from([(0.25, 0.3125), (0.3125, 0.375), (0.375, 0.4375),
                                                (0.4375, 0.5)]))  # fmt: skip
def test_a_thinner_screw(roof: dict[str, Any], length: float, sizes: tuple[float, float]) -> None:
    wood = {"framing__member": "2x12", "mounting__attachment__lags__length": length}
    thin, thick = (
        design_of(roof, mounting__attachment__lags__diameter=size, **wood) for size in sizes
    )
    never_less(thick, thin, only=("withdrawal",))


# ---------------------------------------------------------------- where the codes say otherwise

PLAIN = {"name": "gable-40x30", "pitch": 0.5, "eave": 120.0, "year": 2016, "spacing": 48.0}


def test_open_ground_sheds_snow() -> None:
    # ASCE 7-16, Table 7.3-1, partially exposed: Ce 1.0 in C, 0.9 in D
    site = {"site__ground_snow": 35.0, "site__snow": SNOW[2016], "site__wind_speed": 85.0}
    mild, open_ground = (design_of(PLAIN, site__exposure=letter, **site) for letter in "CD")
    kept, shed = (one.loads.snow["front"].panels.flat_psf for one in (mild, open_ground))
    assert shed == pytest.approx(0.9 * kept)
    load, less = (one.loads.attachments[0].along_lb for one in (mild, open_ground))
    assert less < load


def test_a_thicker_screw_needs_more_depth_across_its_axis() -> None:
    # 2.0625 in of thread (3/8: 2.03) are .825 of 8 x 5/16 and .677 of 8 x 3/8 in
    thin, thick = (
        design_of(PLAIN, mounting__attachment__lags__diameter=size).fastenings[0]
        for size in (0.3125, 0.375)
    )
    assert thin.penetration_factor == pytest.approx(0.825)
    assert thick.penetration_factor == pytest.approx(0.677, abs=0.0005)
    assert thick.lateral_capacity_lb(1.6) < thin.lateral_capacity_lb(1.6)
    assert thick.lag_capacity_lb > thin.lag_capacity_lb
    # 8 D deep, the thicker one holds no less
    deep = [replace(one, penetration_factor=1.0).lateral_capacity_lb(1.6) for one in (thin, thick)]
    assert deep[1] > deep[0]
