"""Which figures of roof zones a plane takes, and the sizes of a building, by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from houses import house
from hypothesis import given, settings
from zone_maps import the_first

from planset.codes.asce7.standard import load_standard
from planset.design.wind import size_of
from planset.design.wind_shape import Family, PlaneShape, building_size, more_suction, plane_shape
from planset.job.load import Inputs
from planset.job.other_buildings import OtherBuilding, Place
from planset.job.solid import roof_solid
from planset.roof.edges import roof_of
from planset.roof.envelope import Body, Slope, plane_on, planes_of
from planset.roof.placing import placed
from planset.roof.plane import Plane
from planset.roof.shapes import Dormer, MainRoof, Wing, shaped_roof
from planset.roof.solid import Roof
from tests.roof.roofs import roofs


def pitch_of(slope_deg: float) -> float:
    return math.tan(math.radians(slope_deg))


def main_of(kind: str, slope_deg: float, length: float = 600, depth: float = 400) -> Roof:
    return shaped_roof(MainRoof(kind, length, depth, pitch_of(slope_deg)))  # type: ignore[arg-type]


def shapes_of(roof: Roof) -> dict[str, PlaneShape]:
    return {plane.id: plane_shape(roof, plane, the_first) for plane in roof.planes}


# ---------------------------------------------------------------- plain roofs


@pytest.mark.parametrize(
    ("kind", "slope_deg", "family", "reason"),
    [
        ("gable", 7.1, "gable", ""),
        ("gable", 7, "flat", ""),  # Figure 30.3-2A up to 7 degrees
        ("gable", 45, "gable", ""),
        ("gable", 45.1, "gable", "plane front slopes 45.1 deg, over the 45 deg of the figures"),
        ("hip", 26, "hip", ""),
        ("hip", 6, "flat", ""),
        ("hip", 50, "hip", "plane front slopes 50.0 deg, over the 45 deg of the figures"),
        ("shed", 3, "flat", ""),  # Figure 30.3-5A over 3 degrees
        ("shed", 3.1, "monoslope", ""),
        ("shed", 30, "monoslope", ""),
        (
            "shed",
            30.1,
            "monoslope",
            "plane front slopes 30.1 deg, over the 30 deg of the monoslope figures",
        ),
        ("flat", 0, "flat", ""),
        ("flat", 9, "monoslope", ""),
    ],
)
def test_plain_roofs(kind: str, slope_deg: float, family: str, reason: str) -> None:
    shape = shapes_of(main_of(kind, slope_deg))["front"]
    assert (shape.family, shape.reason, shape.assumptions) == (family, reason, ())


def test_a_pyramid_is_a_hip() -> None:
    shapes = shapes_of(main_of("hip", 20, 400, 400)).values()
    assert {(shape.family, shape.assumptions) for shape in shapes} == {(Family.HIP, ())}


# ---------------------------------------------------------------- roofs that mix


def test_a_roof_that_mixes_is_judged_plane_by_plane() -> None:
    main = MainRoof("gable", 600, 360, 0.5)
    wings = (Wing("w", "front", 120, 200, 120, 0.5), Wing("e", "back", 330, 180, 150, 0.6, True))
    shapes = shapes_of(shaped_roof(main, wings))
    assert {name: str(shape.family) for name, shape in shapes.items()} == {
        "front": "gable",
        "back": "gable",
        "w-left": "gable",
        "w-right": "gable",
        "e-left": "hip",
        "e-right": "hip",
        "e-end": "hip",
    }
    for shape in shapes.values():
        (only,) = shape.assumptions
        assert only.startswith("The figures draw plain roofs; each plane is judged by its own")
        assert "Valleys" in only


def test_a_plane_that_is_neither_takes_what_the_caller_finds_more_severe() -> None:
    # the middle of the front, between two wings that reach the ridge, has neither rake nor hip
    main = MainRoof("gable", 900, 360, 0.5)
    wings = (Wing("w", "front", 60, 360, 120, 0.5), Wing("e", "front", 480, 360, 120, 0.5))
    roof = shaped_roof(main, wings)
    (middle,) = (
        plane
        for plane in roof.planes
        if plane.id.startswith("front")
        and 420 < sum(x for x, _ in plane.outline) / len(plane.outline) < 480
    )
    asked: list[tuple[tuple[Family, ...], float]] = []

    def choose(families: tuple[Family, ...], slope_deg: float) -> Family:
        asked.append((families, slope_deg))
        return Family.HIP

    shape = plane_shape(roof, middle, choose)
    assert asked == [((Family.GABLE, Family.HIP), middle.slope_deg)]
    assert shape.family is Family.HIP
    assert shape.assumptions[-1] == (
        f"Plane {middle.id} is bounded by eave, ridge, valley, which is neither a gable nor a "
        "hip: hip figures taken."
    )


def test_a_hip_at_one_end_and_a_gable_at_the_other_is_neither() -> None:
    main = MainRoof("hip", 600, 400, 0.5).body
    half = Body(main.footprint, tuple(one for one in main.slopes if one.id != "left"))
    roof = roof_of(planes_of((half,), 180.0))
    shapes = shapes_of(roof)
    assert shapes["right"].family is Family.HIP
    assert shapes["right"].assumptions == ()
    assert shapes["front"].family is Family.GABLE  # the first of both
    assert shapes["front"].assumptions == (
        "Plane front is bounded by eave, rake, ridge, hip, which is neither a gable nor a hip: "
        "gable figures taken.",
    )
    # a hip counts as ridge and as rake there, so that the corner at the eave is marked
    assert sorted(edge.kind for edge in shapes["front"].edges) == [
        "eave",
        "rake",
        "rake",
        "ridge",
        "ridge",
    ]


@pytest.mark.parametrize(
    ("pitch", "asked"),
    [
        (0.25, (Family.GABLE, Family.HIP, Family.MONOSLOPE)),
        (0.7, (Family.GABLE, Family.HIP)),  # 35 degrees, over the monoslope figures
    ],
)
def test_a_roof_that_leans_on_a_wall_may_be_a_monoslope(
    pitch: float, asked: tuple[Family, ...]
) -> None:
    porch = rectangle("porch", 0, 480, -100, 0, -1, 0, pitch)
    house_plane = rectangle("front", 0, 480, 0, 180, -1, 130)
    seen = []

    def choose(families: tuple[Family, ...], slope_deg: float) -> Family:
        seen.append((families, slope_deg))
        return families[-1]

    roof = roof_of((porch, house_plane))
    assert plane_shape(roof, porch, choose).family is asked[-1]
    assert seen == [(asked, porch.slope_deg)]


def rectangle(
    name: str,
    x0: float,
    x1: float,
    y0: float,
    y1: float,
    down: float,
    low: float = 0.0,
    pitch: float = 0.5,
) -> Plane:
    corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    at = (x0, y0 if down < 0 else y1)
    return plane_on(name, corners, Slope(name, (0.0, down), at, low, pitch), 180.0)


@pytest.mark.parametrize(("wall_in", "told"), [(60, False), (119, False), (121, True)])
def test_a_roof_of_several_levels_is_not_covered(wall_in: float, told: bool) -> None:
    # a porch of 100 in falls from the wall of a house; Figure 30.3-3 begins at 10 ft
    porch = rectangle("porch", 0, 480, -100, 0, -1, 0, 0.25)
    front = rectangle("front", 0, 480, 0, 180, -1, 25 + wall_in)
    back = rectangle("back", 0, 480, 180, 360, 1, 25 + wall_in)
    shapes = shapes_of(roof_of((porch, front, back)))
    assert bool(shapes["porch"].reason) is told
    assert (shapes["front"].reason, shapes["back"].reason) == ("", "")
    if told:
        assert shapes["porch"].reason == (
            "a wall of 10'-1\" rises from plane porch: a roof of several levels"
        )
    assert shapes["porch"].assumptions[-1] == (
        "A wall rises from plane porch (porch headwall); no strip along it."
    )


def test_a_lower_pitch_before_a_gable_goes_by_the_gable() -> None:
    kick = rectangle("kick", 0, 480, 0, 60, -1, 0, 0.25)
    front = rectangle("front", 0, 480, 60, 240, -1, 15)
    back = rectangle("back", 0, 480, 240, 450, 1)
    shapes = shapes_of(roof_of((kick, front, back)))
    assert shapes["kick"].family is Family.GABLE
    assert shapes["kick"].assumptions[-1] == (
        "Plane kick is bounded by eave, rake, pitch break and goes on at another pitch: "
        "gable figures taken."
    )
    assert shapes["front"].assumptions == shapes["back"].assumptions
    assert len(shapes["front"].assumptions) == 1  # the slopes differ


@settings(max_examples=60)
@given(roofs())
def test_every_plane_has_figures_or_a_reason(made: tuple[Roof, object, object]) -> None:
    roof = made[0]
    for plane in roof.planes:
        shape = plane_shape(roof, plane, the_first)
        steep = plane.slope_deg > 45 or (shape.family == "monoslope" and plane.slope_deg > 30)
        assert bool(shape.reason) is steep or "several levels" in shape.reason


@pytest.mark.parametrize(
    ("year", "slope_deg", "families", "worse"),
    [
        # ASCE 7-16: gable -3.6 (Figure 30.3-2B, 3r) against hip -2.6 (2E); -3.0 (2C) and -2.0 (2G)
        (2016, 18, (Family.HIP, Family.GABLE), Family.GABLE),
        (2016, 26, (Family.HIP, Family.GABLE), Family.GABLE),
        # ASCE 7-16 at 45 degrees: hip 3 -2.8 at 10 sq ft (2H/2I) against gable 3e -2.5 (2D)
        (2016, 45, (Family.GABLE, Family.HIP), Family.HIP),
        (2022, 18, (Family.HIP, Family.GABLE, Family.MONOSLOPE), Family.GABLE),
    ],
)
def test_the_family_whose_worst_zone_pulls_most(
    year: int, slope_deg: float, families: tuple[Family, ...], worse: Family
) -> None:
    assert more_suction(load_standard(year), 0.6)(families, slope_deg) is worse


def test_a_plane_too_steep_for_figures_asks_for_none() -> None:
    main = MainRoof("hip", 600, 400, 1.2).body
    half = Body(main.footprint, tuple(one for one in main.slopes if one.id != "left"))
    roof = roof_of(planes_of((half,), 180.0))
    shape = plane_shape(roof, roof.plane("front"), more_suction(load_standard(2016), 0.6))
    assert shape.families == (Family.GABLE, Family.HIP)
    assert "over the 45 deg" in shape.reason


# ---------------------------------------------------------------- sizes


@pytest.mark.parametrize(
    ("kind", "slope_deg", "mean_in"),
    [
        ("gable", 45, 120 + 200 / 2),  # half of the rise of 200 in
        ("gable", 10, 120),  # 26.2: the eave height up to 10 degrees
        ("gable", 10.1, 120 + 200 * pitch_of(10.1) / 2),
        ("hip", 45, 120 + 200 / 2),
        ("shed", 20, 120 + 400 * pitch_of(20) / 2),
        ("flat", 0, 120),
    ],
)
def test_mean_roof_height(kind: str, slope_deg: float, mean_in: float) -> None:
    size = building_size(main_of(kind, slope_deg), 120, 0, 12)
    assert size.mean_roof_height_in == pytest.approx(mean_in)
    assert size.least_dimension_in == pytest.approx(400)
    assert size.least_width_in == pytest.approx(376)
    assert size.height_to_width == pytest.approx(mean_in / 376)


def test_a_pyramid_rises_to_its_apex() -> None:
    size = building_size(main_of("hip", 45, 400, 400), 120, 0, 0)
    assert size.mean_roof_height_in == pytest.approx(120 + 200 / 2)


def test_the_least_dimension_is_the_shorter_side_around_the_roof_however_it_is_turned() -> None:
    main = MainRoof("gable", 600, 360, 0.5)
    roof = shaped_roof(main, (Wing("w", "front", 120, 200, 120, 0.5),))
    assert building_size(roof, 120, 0, 0).least_dimension_in == pytest.approx(480)
    turned = placed(roof, "g", (1000.0, 200.0), 31.0, 0.0)
    assert building_size(turned, 120, 0, 0).least_dimension_in == pytest.approx(480)


@pytest.mark.parametrize(
    ("eave_in", "reason"),
    [
        (620, ""),  # 620 + 100 in are 60 ft
        (621, "the mean roof height is 60.1 ft, over the 60 ft of the figures"),
        (-1, "the eave line does not stand above the ground"),
    ],
)
def test_heights_the_figures_do_not_cover(eave_in: float, reason: str) -> None:
    assert building_size(main_of("gable", 45), eave_in, 0, 0).reason == reason


def with_garage(eave_above: float) -> Inputs:
    inputs = house()
    garage = OtherBuilding(
        id="garage",
        use="detached_garage",
        at=Place(right=900, back=0),
        eave_above=eave_above,
        roof=inputs.job.roof.model_copy(
            update={"ridge_length": 240.0, "depth": 200.0, "eave_overhang": 6.0}
        ),
    )
    return replace(inputs, job=inputs.job.model_copy(update={"other_buildings": (garage,)}))


def test_other_buildings_have_sizes_of_their_own() -> None:
    inputs = with_garage(-24.0)
    roof = roof_solid(inputs.job.roof, inputs.job.other_buildings)
    size = size_of(inputs, roof, "garage")
    assert size.mean_roof_height_in == pytest.approx(120 - 24 + 100 * 0.5 / 2)
    assert (size.least_dimension_in, size.least_width_in) == pytest.approx((200, 188))
    assert size.assumptions == (
        "The ground at garage is taken to lie level with that at the house.",
    )
    own = size_of(inputs, roof)
    assert own == size_of(house(), house().job.roof.solid)
    assert own.assumptions == ()


def test_planes_of_another_building_are_judged_alone() -> None:
    inputs = with_garage(0.0)
    roof = roof_solid(inputs.job.roof, inputs.job.other_buildings).over("garage")
    shape = plane_shape(roof, roof.plane("garage-front"), the_first)
    assert (shape.family, shape.assumptions) == (Family.GABLE, ())
    assert len(shape.edges) == 4


def test_a_dormer_takes_figures_of_its_own() -> None:
    main = MainRoof("hip", 600, 400, 0.5)
    roof = shaped_roof(main, (), (Dormer("d", "gable", "front", 240, 100, 60, 60, 0.4),))
    shapes = shapes_of(roof)
    assert shapes["front"].family is Family.HIP
    assert shapes["d-left"].family is Family.GABLE
    assert any("A wall rises from plane front" in text for text in shapes["front"].assumptions)
