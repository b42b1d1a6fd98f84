"""Wind, snow and weight on every attachment, against published calculations and by hand.

Sources, named again beside each row: ASCE 7-16 for the method. "Everett": permit calculation,
City of Everett, doc 1590007 page 14. "Santa Ana": permit calculation, City of Santa Ana, doc 370282
page 13; "Santa Ana B": doc 370639 page 6. "La Quinta": permit calculation, doc 606165. Where those
took a figure of another slope or left the edge factor out, the row holds the corrected value,
worked apart from this program. Tolerance 0.5 % unless said.
"""

import math
from dataclasses import replace
from typing import Any

import pytest
from houses import house, placed_arrays, roof_of_house
from shapely import box

from planset.codes.asce7.standard import load_standard
from planset.design.attachment_loads import AttachmentLoad, attachment_loads, least_dead_psf
from planset.design.design import build_design
from planset.design.racking import Attachment, Racking
from planset.design.snow import PlaneSnow, SnowCover
from planset.design.wind import BuildingWind, MethodCheck, building_wind
from planset.drawing.geometry import Box
from planset.job.engineering import Engineering
from planset.job.load import Inputs

ASCE16 = load_standard(2016)
HOLDS = MethodCheck("A1", 8, 99, 0.5, 70, ())
FAILS = MethodCheck("A1", 11, 99, 0.5, 70, ("height above roof",))
BIG = {"roof.ridge_length": 1200.0, "roof.depth": 1200.0, "roof.length": 1200.0}


def wind_on(inputs: Inputs) -> BuildingWind:
    wind = building_wind(inputs, ASCE16, roof_of_house(inputs), "")
    assert isinstance(wind, BuildingWind)
    return wind


def snow_of(load_psf: float) -> PlaneSnow:
    cover = SnowCover(1.2, load_psf, 1.0, load_psf, minimum_governs=False)
    return PlaneSnow("front", 1.0, 1.0, cover, cover, None, "")


def load_on(
    slope_deg: float,
    qh_psf: float,
    zone: str,
    area_sqft: float,
    *,
    dead_psf: float = 3.0,
    base: str = "gable-40x30",
    method: MethodCheck = HOLDS,
    snow: PlaneSnow | None = None,
) -> AttachmentLoad:
    """Loads of a single attachment of that area in the middle of a zone; all its dead load sure."""
    inputs = house(
        {
            "roof.pitch": math.tan(math.radians(slope_deg)),
            **{name: size for name, size in BIG.items() if _has(base, name)},
            "mounting.dead_load_psf": dead_psf,
            "module.weight": 1000.0,
        },
        base,
    )
    (array,) = placed_arrays(inputs)
    wind = wind_on(inputs)
    wind = replace(wind, velocity=replace(wind.velocity, q_psf=qh_psf))
    (plan, *_) = wind.planes[array.plane.id].plans
    (region, *_) = (region for region in plan.regions if region.zone == zone)
    (u, v), half = region.surface.representative_point().coords[0], math.sqrt(area_sqft * 144) / 2
    share = Box(u - half, v - half, u + half, v + half)
    assert region.surface.contains(box(share.x0, share.y0, share.x1, share.y1))
    return only(inputs, wind, share, method, snow)


def _has(base: str, place: str) -> bool:
    return place.split(".")[1] in type(house(None, base).job.roof).model_fields


def only(
    inputs: Inputs,
    wind: BuildingWind,
    share: Box,
    method: MethodCheck = HOLDS,
    snow: PlaneSnow | None = None,
) -> AttachmentLoad:
    (array,) = placed_arrays(inputs)
    attachment = Attachment("H01", "A1", "R1", 1, 60, 80, 80, share, share.height, share.width, 1.0)
    rack = Racking("A1", (), (attachment,))
    (load,) = attachment_loads(inputs, wind, array, rack, method, (), snow)
    return load


# ---------------------------------------------------------------- published calculations


@pytest.mark.parametrize(
    ("slope_deg", "qh_psf", "zone", "area_sqft", "pressure_psf"),
    [
        # Everett, 10.83 sq ft at 18 degrees, corrected to the figure of 7 to 20 degrees; it prints
        # 20.9, 52.4 and 75.4 psf, the coefficients of 20 to 27 degrees
        (18, 17.76, "1", 10.83, -41.9),
        (18, 17.76, "2n", 10.83, -61.8),
        (18, 17.76, "3r", 10.83, -74.1),
        # Santa Ana, 19.8 sq ft at 20 degrees, times the edge factor 1.5 left out there
        (20, 24.3, "1", 19.8, -33.2 * 1.5),
        (20, 24.3, "2r", 19.8, -42.7 * 1.5),
        (20, 24.3, "3r", 19.8, -50.9 * 1.5),
        # Santa Ana B, 12.7 sq ft, corrected to zone 2n of a gable of 7 to 20 degrees
        (15, 15.01, "2n", 12.7, -48.7),
        # synthetic house at 6:12, 10.83 sq ft, worked apart from this program
        (26.57, 17.42, "1", 10.83, -30.8),
        (26.57, 17.42, "2n", 10.83, -50.6),
        (26.57, 17.42, "3e", 10.83, -50.6),
        (26.57, 17.42, "3r", 10.83, -59.4),
    ],
)
def test_published_pressures(
    slope_deg: float, qh_psf: float, zone: str, area_sqft: float, pressure_psf: float
) -> None:
    load = load_on(slope_deg, qh_psf, zone, area_sqft)
    assert load.zone == zone
    assert load.area_sqft == pytest.approx(area_sqft)
    assert load.up.pressure_psf == pytest.approx(pressure_psf, rel=0.005)
    assert not load.up.minimum_governs


@pytest.mark.parametrize(
    ("zone", "area_sqft", "printed_psf", "logarithmic_psf"),
    [("2r", 11.42, -68.62, -65.9), ("1", 11.42, -47.89, -46.0)],
)
def test_la_quinta_is_not_interpolated_in_a_straight_line(
    zone: str, area_sqft: float, printed_psf: float, logarithmic_psf: float
) -> None:
    # La Quinta, hip of 23 degrees, qz 28.93: printed by straight lines, recomputed by the logarithm
    load = load_on(23, 28.93, zone, area_sqft, base="hip-40x30")
    assert load.figure == "30.3-2G"
    assert load.up.pressure_psf == pytest.approx(logarithmic_psf, rel=0.005)
    assert abs(load.up.pressure_psf) < 0.97 * abs(printed_psf)


@pytest.mark.parametrize(
    ("slope_deg", "qh_psf", "zone", "area_sqft", "dead_psf", "net_lb"),
    [
        # Everett, corrected pressures on 10.83 sq ft less its printed 16.6 lb of 0.6 D; it takes
        # all of D where we take D cos(slope), 0.8 lb less. It prints 119.5, 323.7 and 473.5 lb
        (18, 17.76, "1", 10.83, 2.55, 0.6 * 41.9 * 10.83 - 16.6 + 0.8),
        (18, 17.76, "2n", 10.83, 2.55, 0.6 * 61.8 * 10.83 - 16.6 + 0.8),
        (18, 17.76, "3r", 10.83, 2.55, 0.6 * 74.1 * 10.83 - 16.6 + 0.8),
        # Santa Ana with the edge factor, less its printed 35.6 lb: 2.1 lb less for the same reason.
        # It prints 358.0, 471.5 and 568.0 lb, without the edge factor
        (20, 24.3, "1", 19.8, 3.0, 1.5 * 393.6 - 35.6 + 2.1),
        (20, 24.3, "2r", 19.8, 3.0, 1.5 * 507.0 - 35.6 + 2.1),
        (20, 24.3, "3r", 19.8, 3.0, 1.5 * 603.6 - 35.6 + 2.1),
        # Santa Ana B: 12.7 x (0.6 x 48.7 - 0.6 x 2.9 cos 15); it prints 238.9 with GCp -2
        (15, 15.01, "2n", 12.7, 2.9, 12.7 * (0.6 * 48.7 - 0.6 * 2.9 * 0.9659)),
        # synthetic house at 6:12 with D cos(slope)
        (26.57, 17.42, "1", 10.83, 3.0, 183),
        (26.57, 17.42, "2n", 10.83, 3.0, 311),
        (26.57, 17.42, "3r", 10.83, 3.0, 368),
    ],
)
def test_published_net_uplift(
    slope_deg: float, qh_psf: float, zone: str, area_sqft: float, dead_psf: float, net_lb: float
) -> None:
    load = load_on(slope_deg, qh_psf, zone, area_sqft, dead_psf=dead_psf)
    assert load.uplift_lb == pytest.approx(net_lb, rel=0.005)
    assert load.loads.dead_lb == load.loads.least_dead_lb == pytest.approx(dead_psf * area_sqft)
    assert load.combined.uplift.combination.text == "0.6 D + 0.6 W"


def test_santa_ana_exceeds_its_hook_once_the_edge_factor_counts() -> None:
    # recomputed 556 / 726 / 871 lb in zones 1 / 2 / 3 against the hook's 658 lb, printed 358 / 472
    # / 568; of all D where we take its part square to the roof, within 0.5 % in all zones
    nets = [load_on(20, 24.36, zone, 19.8).uplift_lb for zone in ("1", "2r", "3r")]
    assert nets == pytest.approx([556, 726, 871], rel=0.005)
    assert [net > 658 for net in nets] == [False, True, True]


def test_the_synthetic_house_under_snow() -> None:
    # reference, end to end 5: ps 16.58 on modules, D 3.0, wind down 7.2 raised to 16 psf, 10.83
    # sq ft: 215 lb toward the roof and 86 lb down the slope; down GCp .527 at gamma_a .786
    load = load_on(26.57, 17.42, "1", 10.83, snow=snow_of(16.58))
    assert load.gcp_down == pytest.approx(0.527, abs=0.0005)
    assert load.down.computed_psf == pytest.approx(7.2, abs=0.05)
    assert load.down.pressure_psf == 16
    assert load.down_lb == pytest.approx(215, abs=0.5)
    assert load.along_lb == pytest.approx(86, abs=0.5)
    assert load.combined.down.combination.text == "D + 0.75 (0.6 W) + 0.75 S"
    assert load.combined.along.combination.text == "D + S"


# ---------------------------------------------------------------- by hand


def test_the_least_pressure_of_16_psf_governs_in_light_wind() -> None:
    # ASCE 7-16, 30.2.2: 6 x 1.5 x 1.5 x 0.8 is 10.8 psf
    load = load_on(24, 6.0, "1", 9.0)
    assert load.up.minimum_governs
    assert load.up.pressure_psf == -16
    assert load.uplift_lb == pytest.approx(9 * (9.6 - 1.8 * math.cos(math.radians(24))))


def test_a_heavy_array_in_light_wind_is_not_pulled() -> None:
    assert load_on(24, 6.0, "1", 9.0, dead_psf=30.0).uplift_lb == 0


def test_only_the_modules_hold_down_and_all_of_the_array_presses() -> None:
    # 36 lb on 71.6 in by 35.625 in: 2.032 psf of 3 psf
    inputs = house({"module.weight": 36.0})
    (array,) = placed_arrays(inputs)
    assert least_dead_psf(array) == pytest.approx(36 / (71.6 * 35.625 / 144))
    load = only(inputs, wind_on(inputs), Box(60, 60, 96, 96))
    assert load.loads.least_dead_lb == pytest.approx(2.0323 * 9, rel=0.0005)
    assert load.loads.dead_lb == pytest.approx(27)


def test_modules_heavier_than_the_stated_array_count_no_more_than_that() -> None:
    (array,) = placed_arrays(house({"module.weight": 500.0}))
    assert least_dead_psf(array) == 3


def test_an_attachment_takes_the_worst_zone_it_touches() -> None:
    inputs = house()
    wind = wind_on(inputs)
    by_zone = {}
    cases = [
        ("1", Box(36, 60, 72, 100)),
        ("2n", Box(35.9, 60, 72, 100)),  # a tenth of an inch into the rake strip
        ("2e", Box(36, 40, 72, 100)),  # a quarter of an inch into the eave strip, of the same curve
        ("3e", Box(35.9, 40, 72, 100)),
        ("3r", Box(35.9, 40, 72, 162)),
        ("3r", Box(600, 60, 636, 100)),  # off the plane
    ]
    for zone, share in cases:
        load = only(inputs, wind, share)
        assert load.zone == zone
        by_zone[zone] = load.uplift_lb
    assert by_zone["2n"] > by_zone["1"]


def test_beyond_the_method_the_equalization_is_dropped() -> None:
    # 10.83 sq ft: 0.786 goes to 1.0, and nothing else changes
    kept, dropped = (load_on(26.57, 17.42, "2n", 10.83, method=m) for m in (HOLDS, FAILS))
    assert kept.equalization == pytest.approx(0.786, abs=0.0005)
    assert dropped.equalization == 1
    assert dropped.edge_factor == kept.edge_factor == 1.5
    assert dropped.up.computed_psf == pytest.approx(kept.up.computed_psf / 0.786, rel=0.001)
    assert dropped.uplift_lb > kept.uplift_lb


def test_a_job_beyond_the_method_loses_the_equalization_everywhere() -> None:
    design = build_design(house())
    beyond = build_design(house({"mounting.attachment.arm_rise": 8.5}))
    (limits,) = [loads.method.unmet for loads in beyond.loads.arrays]
    assert limits == ("height above roof", "clearance to edge and ridge")
    pairs = zip(design.loads.attachments, beyond.loads.attachments, strict=True)
    for kept, dropped in pairs:
        assert kept.equalization < dropped.equalization == 1.0
        assert dropped.uplift_lb > kept.uplift_lb


@pytest.mark.parametrize(("kept", "pressure_psf"), [(None, -16), (20.0, -20), (0.0, -10.8)])
def test_the_jurisdiction_sets_the_least_pressure(kept: float | None, pressure_psf: float) -> None:
    # 6 x 1.5 x 1.5 x 0.8 = 10.8 psf in zone 1
    inputs = house()
    minimums = inputs.jurisdiction.minimums
    stated = None
    if kept is not None:
        stated = minimums.wind_speed.model_copy(update={"value": kept})
    inputs = replace(
        inputs,
        jurisdiction=inputs.jurisdiction.model_copy(
            update={"minimums": minimums.model_copy(update={"panel_pressure": stated})}
        ),
    )
    wind = wind_on(inputs)
    wind = replace(wind, velocity=replace(wind.velocity, q_psf=6.0))
    load = only(inputs, wind, Box(60, 60, 96, 96))
    assert load.up.pressure_psf == pytest.approx(pressure_psf)


def test_an_attachment_beyond_the_modules_has_no_load() -> None:
    # two hooks on a rail end of 20 in: the first has no share of the modules
    changes: dict[str, Any] = {
        "mounting.rail.past_module": 20.0,
        "arrays.A1.mounting.first_attachment": 0.0,
        "arrays.A1.mounting.attachment_spacing": 8.0,
    }
    design = build_design(house(changes))
    (rack,) = design.racking
    idle = {item.id for item in rack.attachments if item.tributary_sqft == 0}
    assert idle
    loaded = {load.attachment for load in design.loads.attachments}
    assert loaded == {item.id for item in rack.attachments} - idle


def test_the_geometric_test_lowers_the_factor_inside_alone() -> None:
    # modules are 71.6 in long, so 1.5 reaches 107.4 in from an exposed end. On a tall house rakes
    # and eave, nearer than h / 2, shelter; the ridge, which is no roof edge, does not: all but the
    # lowest row, 108 in from the top, keep 1.5. On a low one the ends beside the rakes do so too
    chosen = Engineering(by="E. Strand, PE", edge_factor="exposed_panels")
    strictly = {"engineering": chosen, "arrays.A1.mounting.attachment_spacing": 48.0}
    tall = build_design(house({**strictly, "building.eave_height": 600.0}))
    low = build_design(house({**strictly, "building.eave_height": 60.0}))
    mild = [sum(load.edge_factor == 1 for load in one.loads.attachments) for one in (tall, low)]
    assert mild[0] == len(tall.racking[0].rails)  # the lowest hook of every rail
    assert 0 < mild[1] < mild[0]
    default = {**strictly, "engineering": None}
    safe = build_design(house({**default, "building.eave_height": 60.0}))
    for strict, full in zip(low.loads.attachments, safe.loads.attachments, strict=True):
        assert full.edge_factor == 1.5
        assert strict.uplift_lb <= full.uplift_lb
        assert strict.down_lb == full.down_lb  # 1.5 is for uplift alone


def test_without_loads_there_are_no_attachment_loads() -> None:
    loads = build_design(house({"roof.pitch": 1.5})).loads
    assert "slopes 56.3 deg" in loads.reason
    assert (loads.arrays, loads.attachments, loads.framing.rafters) == ((), (), ())
