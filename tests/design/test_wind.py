"""Wind on a building: pressure of the site, widths of the strips, limits of the panel method.

Sources beside each row: "La Quinta": permit calculation, doc 606165; "Everett": City of Everett,
doc 1590007 page 14; "Santa Ana": City of Santa Ana, doc 370282 page 13; "Santa Ana B": doc 370639
page 6. Tolerance 0.5 % unless said.
"""

import math
from dataclasses import replace
from typing import Any

import pytest
from houses import house, placed_arrays, roof_of_house
from hypothesis import given
from hypothesis import strategies as st
from shapely import box, union_all

from planset.codes.asce7.standard import load_standard
from planset.design.design import build_design
from planset.design.wind import BuildingWind, MethodCheck, building_wind, method_check, standard_of
from planset.design.wind_shape import Family, zone_edges
from planset.design.wind_zones import by_severity, zone_regions
from planset.job.load import Inputs
from planset.roof.plane import polygon_area
from planset.roof.shapes import gable_roof

ASCE16, ASCE22 = load_standard(2016), load_standard(2022)


def wind_on(inputs: Inputs) -> BuildingWind:
    wind = building_wind(inputs, ASCE16, roof_of_house(inputs), "")
    assert isinstance(wind, BuildingWind)
    return wind


@pytest.mark.parametrize(
    ("speed_mph", "exposure", "mean_height_ft", "elevation_ft", "qh_psf"),
    [
        (130, "C", 15, 2104, 28.93),  # La Quinta, printed Kz .85 and Ke .93
        (98, "C", 15, 0, 17.76),  # Everett, printed 17.8 with Kz .85
        (115, "C", 15, 115, 24.36),  # Santa Ana, printed 24.3
        (110, "B", 15, 0, 15.13),  # Santa Ana B prints 15.01 with Kz rounded to .57
        (115, "B", 18, 0, 17.42),  # synthetic house, Kz .605
    ],
)
def test_velocity_pressure(
    speed_mph: float, exposure: str, mean_height_ft: float, elevation_ft: float, qh_psf: float
) -> None:
    rise_ft = 15 * 0.5  # of the base house
    changes = {
        "site.wind_speed": speed_mph,
        "site.exposure": exposure,
        "site.elevation": elevation_ft * 12,
        "building.eave_height": (mean_height_ft - rise_ft / 2) * 12,
    }
    wind = wind_on(house(changes))
    assert wind.height_ft == pytest.approx(mean_height_ft)
    assert wind.velocity.q_psf == wind.velocity.design_psf == pytest.approx(qh_psf, rel=0.005)


def test_directionality_counts_once_in_either_edition() -> None:
    # 7-22: q has no Kd; 0.00256 x .573 x 110^2 = 17.75, times 0.85 in the pressure
    inputs = house()
    new = building_wind(inputs, ASCE22, roof_of_house(inputs), "")
    assert isinstance(new, BuildingWind)
    assert new.velocity.q_psf == pytest.approx(17.75, rel=0.005)
    assert new.velocity.design_psf == pytest.approx(0.85 * 17.75, rel=0.005)


def test_the_floor_of_exposure_b_where_the_jurisdiction_keeps_it() -> None:
    # Kz 0.70 for 0.575: 22 % more (ASCE 7-10, Table 30.3-1 [from memory])
    inputs = house()
    minimums = inputs.jurisdiction.minimums
    stated = minimums.wind_speed.model_copy(update={"value": True})
    changed = minimums.model_copy(update={"low_exposure_floor": stated})
    floored = replace(
        inputs, jurisdiction=inputs.jurisdiction.model_copy(update={"minimums": changed})
    )
    raised, plain = wind_on(floored).velocity, wind_on(inputs).velocity
    assert (raised.kz, raised.floor_used, plain.floor_used) == (0.70, True, False)
    assert raised.q_psf / plain.q_psf == pytest.approx(0.70 / 0.575, rel=0.005)


@pytest.mark.parametrize(
    ("length_ft", "depth_ft", "mean_height_ft", "strip_ft"),
    [
        (60, 45, 15, 4.5),  # La Quinta: 10 % of 45 ft
        (45, 60, 15, 4.5),  # the least dimension, whichever it is
        (40, 30, 13.75, 3),  # not under 3 ft
        (100, 80, 12, 4.8),  # 0.4 h, under 10 % of 80 ft and over 4 %
    ],
)  # ASCE 7-16, Figure 30.3-2B notation
def test_edge_strip(
    length_ft: float, depth_ft: float, mean_height_ft: float, strip_ft: float
) -> None:
    pitch = 0.25
    changes = {
        "roof.ridge_length": length_ft * 12,
        "roof.depth": depth_ft * 12,
        "roof.pitch": pitch,
        "building.eave_height": (mean_height_ft - depth_ft / 2 * pitch / 2) * 12,
    }
    assert wind_on(house(changes)).strip_in == pytest.approx(strip_ft * 12)


def test_height_of_the_guide_house() -> None:
    # Wind Loads guide to ASCE 7-16, chapter 8: eaves at 10 ft, half a span of 16 ft at 15 degrees;
    # printed 12.1 ft
    changes = {
        "roof.pitch": math.tan(math.radians(15)),
        "roof.depth": 32 * 12.0,
        "building.eave_height": 120.0,
    }
    assert wind_on(house(changes)).height_ft == pytest.approx(12.14, abs=0.005)


def test_a_flat_slope_takes_the_eave_height() -> None:
    # ASCE 7-16, 26.2: up to 10 degrees the eave height is h
    inputs = house({"roof.pitch": math.tan(math.radians(9)), "building.eave_height": 240.0})
    assert wind_on(inputs).height_ft == 20


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({}, ""),
        ({"roof.pitch": 1.0}, ""),  # 45 degrees is the end of Figure 30.3-2D
        ({"roof.pitch": 1.01}, "slopes 45.3 deg"),
        ({"roof.pitch": math.tan(math.radians(7))}, ""),  # Figure 30.3-2A holds up to there
        ({"building.eave_height": 720.0}, "over the 60 ft of the figures"),
    ],
)
def test_reasons_not_to_compute(changes: dict[str, Any], reason: str) -> None:
    loads = build_design(house(changes)).loads
    assert reason in loads.reason
    assert bool(loads.reason) is bool(reason)
    assert bool(loads.attachments) is not bool(reason)


def test_the_edition_is_the_one_adopted() -> None:
    assert standard_of(house()) is ASCE16
    codes = house().jurisdiction.codes
    older = codes.loads.model_copy(update={"edition": 2010})
    inputs = house({"jurisdiction.codes": codes.model_copy(update={"loads": older})})
    assert standard_of(inputs) is None
    assert build_design(inputs).loads.reason == "loads of ASCE 7-10 are not computed yet"


# ---------------------------------------------------------------- zones of a gable


def regions_of(roof: Any, plane: Any, strip_in: float) -> list[tuple[str, Any]]:
    figure = ASCE16.roof_figure("gable", plane.slope_deg)
    edges = zone_edges(roof, plane, Family.GABLE)
    regions = zone_regions(plane, edges, figure.zone_map, strip_in, by_severity(figure))
    return [(region.zone, region.surface) for region in regions]


def test_zones_of_a_gable() -> None:
    # strip of 36 in, 36 x 1.118 = 40.25 in up the slope of 201.2 in
    roof = gable_roof(480, 360, 0.5, 180)
    zones = regions_of(roof, roof.plane("front"), 36)
    assert all(surface.equals(box(*surface.bounds)) for _, surface in zones)
    up, top = 36 * math.hypot(1, 0.5), 180 * math.hypot(1, 0.5)
    boxes = {
        zone: [
            (x0, x1, y0, y1) for name, s in zones for x0, y0, x1, y1 in [s.bounds] if name == zone
        ]
        for zone, _ in zones
    }
    assert boxes["1"] == [pytest.approx((36, 444, up, top - up))]
    assert boxes["2e"] == [pytest.approx((36, 444, 0, up))]
    assert boxes["2r"] == [pytest.approx((36, 444, top - up, top))]
    assert boxes["2n"] == [
        pytest.approx((0, 36, up, top - up)),
        pytest.approx((444, 480, up, top - up)),
    ]
    assert boxes["3e"] == [pytest.approx((0, 36, 0, up)), pytest.approx((444, 480, 0, up))]
    assert boxes["3r"] == [
        pytest.approx((0, 36, top - up, top)),
        pytest.approx((444, 480, top - up, top)),
    ]


@given(st.floats(60, 2000), st.floats(60, 2000), st.floats(0.125, 1), st.floats(36, 120))
def test_zones_make_the_whole_plane(
    length: float, depth: float, pitch: float, strip: float
) -> None:
    roof = gable_roof(length, depth, pitch, 180)
    for plane in roof.planes:
        areas = [surface for _, surface in regions_of(roof, plane, strip)]
        whole = polygon_area(plane.surface_outline)
        assert sum(area.area for area in areas) == pytest.approx(whole)
        assert union_all(areas).area == pytest.approx(whole)


# ---------------------------------------------------------------- limits of the method


def method_of(changes: dict[str, Any], height_in: float) -> MethodCheck:
    inputs = house(changes)
    (array,) = placed_arrays(inputs)
    return method_check(roof_of_house(inputs), array, height_in)


@pytest.mark.parametrize(
    ("changes", "clearance_in"),
    [
        ({}, 180 - 180 / math.hypot(1, 0.5)),  # the ridge, in plan
        ({"arrays.A1.corner.up": 9.0}, 9 / math.hypot(1, 0.5)),  # the eave, in plan
        ({"arrays.A1.corner.along": 4.0}, 4),  # the left rake
        ({"arrays.A1.corner.along": 113.0}, 7),  # the right rake
        ({"arrays.A1.corner.along": 130.0}, -10),  # over it
    ],
)
def test_clearance_to_the_nearest_edge(changes: dict[str, Any], clearance_in: float) -> None:
    assert method_of(changes, 8).clearance_in == pytest.approx(clearance_in)


@pytest.mark.parametrize(
    ("changes", "height_in", "unmet"),
    [
        ({}, 9.5, ()),  # 2 x 9.5 in to the ridge, 19.003 in off in plan
        ({}, 9.51, ("clearance to edge and ridge",)),
        ({}, 10.1, ("height above roof", "clearance to edge and ridge")),
        ({"arrays.A1.corner.up": 17.8}, 8, ("clearance to edge and ridge",)),  # 15.92 in plan
        ({"arrays.A1.gap": 0.2}, 8, ("gap between panels",)),
        ({"arrays.A1.row_gap": 0.2}, 8, ("gap between panels",)),
        ({"module.width": 80.5, "arrays.A1.corner.along": 30.0}, 8, ("panel chord",)),
        ({}, -1, ()),  # below the tile: another rule fails it
    ],
)  # ASCE 7-16, 29.4.4
def test_limits_of_the_method(
    changes: dict[str, Any], height_in: float, unmet: tuple[str, ...]
) -> None:
    method = method_of(changes, height_in)
    assert method.unmet == unmet
    assert method.holds is not bool(unmet)
