"""Roofs by shape: what holds of every one, and cases worked out by hand."""

import math

import pytest
from hypothesis import given, settings
from roofs import roofs
from shapely import Point, Polygon, union_all

from planset.roof.edges import LEVEL_IN
from planset.roof.plane import Plane
from planset.roof.shapes import Dormer, MainRoof, RoofShapeError, Wing, shaped_roof
from planset.roof.solid import EdgeKind, Roof

SLIVERS_SQIN = 16.0  # a piece of a plane under 4 sq in is left out, and there may be a few

T_MAIN = MainRoof("gable", 600, 336, 0.5)
T_WING = Wing("wing", "front", 120, 240, 192, 0.5)


def areas(roof: Roof) -> dict[str, float]:
    """Plan areas in square feet."""
    return {plane.id: plane.plan_area_sqin / 144 for plane in roof.planes}


def outline(roof: Roof) -> float:
    """Area within the outline of the eaves [sq in]."""
    return float(union_all([Polygon(plane.outline) for plane in roof.planes]).area)


def kinds(roof: Roof) -> list[str]:
    return sorted(edge.kind for edge in roof.edges)


@settings(max_examples=150, deadline=None)
@given(roofs())
def test_planes_add_up_to_the_outline_of_the_eaves(drawn: tuple[Roof, MainRoof, tuple]) -> None:
    roof, main, wings = drawn
    assert roof.plan_area_sqin == pytest.approx(outline(roof), rel=1e-6, abs=SLIVERS_SQIN)
    footprint = main.length_in * main.depth_in
    if not wings:
        assert roof.plan_area_sqin == pytest.approx(footprint, rel=1e-6, abs=SLIVERS_SQIN)
    elif len(wings) == 1:
        outside = wings[0].width_in * wings[0].projection_in
        assert roof.plan_area_sqin == pytest.approx(footprint + outside, rel=1e-6, abs=SLIVERS_SQIN)


@settings(max_examples=150, deadline=None)
@given(roofs())
def test_surface_times_the_cosine_of_the_pitch_is_plan(drawn: tuple[Roof, MainRoof, tuple]) -> None:
    for plane in drawn[0].planes:
        on_surface = plane.surface_polygon.area
        cosine = math.cos(math.atan(plane.pitch))
        assert on_surface * cosine == pytest.approx(plane.plan_area_sqin, rel=1e-6)
        assert on_surface == pytest.approx(plane.surface_area_sqin, rel=1e-6)


@settings(max_examples=150, deadline=None)
@given(roofs())
def test_an_edge_is_the_same_from_both_sides(drawn: tuple[Roof, MainRoof, tuple]) -> None:
    roof = drawn[0]
    assert len({edge.id for edge in roof.edges}) == len(roof.edges)
    for edge in roof.edges:
        for name in edge.planes:
            plane = roof.plane(name)
            for end in (edge.a, edge.b):
                assert abs(plane.height_at(end[:2]) - end[2]) < LEVEL_IN
        if len(edge.planes) == 2:
            one, other = (roof.plane(name) for name in edge.planes)
            assert edge.kind is expected_kind(edge.a, edge.b, one, other)


def expected_kind(a: tuple, b: tuple, one: Plane, other: Plane) -> EdgeKind:
    """What a fold is, from the middles of the two planes' normals: told apart from `edges.py`.

    A fold is convex when a point of one plane beside it lies below the other plane's continuation.
    """
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    normal = (b[1] - a[1], a[0] - b[0])
    length = math.hypot(*normal)
    right = (middle[0] + normal[0] / length, middle[1] + normal[1] / length)
    left = (middle[0] - normal[0] / length, middle[1] - normal[1] / length)
    beside = right if Polygon(one.outline, one.holes).distance(Point(right)) < 1e-6 else left
    convex = one.height_at(beside) < other.height_at(beside)
    across = left if beside is right else right
    level = abs(a[2] - b[2]) < 1e-6
    falls_here = one.height_at(middle) > one.height_at(beside) + 1e-9
    falls_there = other.height_at(middle) > other.height_at(across) + 1e-9
    if level and falls_here and falls_there:
        return EdgeKind.RIDGE
    rises_here = one.height_at(middle) < one.height_at(beside) - 1e-9
    rises_there = other.height_at(middle) < other.height_at(across) - 1e-9
    if level and not (rises_here and rises_there):
        return EdgeKind.PITCH_BREAK
    return EdgeKind.HIP if convex else EdgeKind.VALLEY


def test_a_hip_roof() -> None:
    """fire-access.md, case 14: hip 40 x 30 ft, ridge 10 ft, trapezoids 375, triangles 225 sq ft."""
    roof = shaped_roof(MainRoof("hip", 480, 360, 0.5))
    assert areas(roof) == pytest.approx({"front": 375, "right": 225, "back": 375, "left": 225})
    (ridge,) = (edge for edge in roof.edges if edge.kind is EdgeKind.RIDGE)
    assert ridge.length_in == pytest.approx(120)
    assert kinds(roof) == ["eave"] * 4 + ["hip"] * 4 + ["ridge"]


def test_a_pyramid_has_no_ridge() -> None:
    """fire-access.md, case 17: pyramid 30 x 30 ft, 900 sq ft."""
    roof = shaped_roof(MainRoof("hip", 360, 360, 0.5))
    assert areas(roof) == pytest.approx(dict.fromkeys(("front", "right", "back", "left"), 225))
    assert kinds(roof) == ["eave"] * 4 + ["hip"] * 4


def test_a_wing_is_counted_once() -> None:
    """fire-access.md, case 24: main 50 x 28 ft, wing 20 x 16 ft: 1,720 sq ft."""
    roof = shaped_roof(T_MAIN, (T_WING,))
    assert roof.plan_area_sqin / 144 == pytest.approx(1720)
    lying_on_the_main_roof = 240 / 2 * 240 / 2 / 144  # the triangle between the valleys
    assert lying_on_the_main_roof == 100
    assert kinds(roof).count("valley") == 2
    assert [e.id for e in roof.edges if e.kind is EdgeKind.EAVE and "front" in e.planes] == [
        "front eave left",
        "front eave right",
    ]


def test_valleys_of_equal_pitches_run_at_45_degrees() -> None:
    roof = shaped_roof(T_MAIN, (T_WING,))
    for valley in (edge for edge in roof.edges if edge.kind is EdgeKind.VALLEY):
        (ax, ay), (bx, by) = valley.plan
        assert abs(ax - bx) == pytest.approx(abs(ay - by)) == pytest.approx(120)


def test_a_wing_as_high_as_the_ridge_parts_the_slope() -> None:
    roof = shaped_roof(T_MAIN, (Wing("w", "front", 60, 336, 120, 0.5),))
    names = [plane.id for plane in roof.planes]
    assert names == ["front-1", "front-2", "back", "w-left", "w-right"]


def test_a_lower_wing_ends_at_a_wall() -> None:
    roof = shaped_roof(T_MAIN, (Wing("w", "front", 60, 240, 120, 0.5, False, -100),))
    found = {edge.id: edge.kind for edge in roof.edges}
    assert found["w-left sidewall"] == found["w-right sidewall"] == "sidewall"
    assert found["front eave"] == "eave"


def test_a_dormer_takes_a_hole_out_of_its_slope() -> None:
    roof = shaped_roof(T_MAIN, (), (Dormer("d", "gable", "back", 120, 84, 48, 60, 0.5),))
    back = roof.plane("back")
    assert len(back.holes) == 1
    taken = roof.plane("d-left").plan_area_sqin + roof.plane("d-right").plan_area_sqin
    assert back.plan_area_sqin == pytest.approx(600 * 168 - taken)
    found = {edge.id: edge.kind for edge in roof.edges}
    assert found["back headwall"] == "headwall"  # below its face
    assert found["back sidewall left"] == found["back sidewall right"] == "sidewall"
    assert found["back-d-left valley"] == found["back-d-right valley"] == "valley"
    assert found["d-left-d-right ridge"] == "ridge"


def test_a_shed_dormer_from_the_ridge() -> None:
    roof = shaped_roof(T_MAIN, (), (Dormer("d", "shed", "back", 120, 84, 48, 60, 0.2),))
    ridge_in = 84.0
    assert max(end[2] for edge in roof.edges for end in (edge.a, edge.b)) == pytest.approx(ridge_in)
    assert roof.plan_area_sqin == pytest.approx(600 * 336)


@pytest.mark.parametrize(("parapet", "kind"), [(True, "parapet"), (False, "roof edge")])
def test_a_flat_roof_has_edges_of_one_kind(parapet: bool, kind: str) -> None:
    roof = shaped_roof(MainRoof("flat", 600, 400, 0.02), parapet=parapet)
    assert [edge.id for edge in roof.edges] == [
        f"{side} {kind}" for side in ("front", "right", "back", "left")
    ]


@pytest.mark.parametrize(
    ("wings", "dormers", "place", "says"),
    [
        (
            (Wing("w", "front", 0, 400, 60, 0.5),),
            (),
            ("wings", 0),
            "its ridge stands 8'-4\" above the main eaves, over the main ridge at 7'-0\"",
        ),
        (
            (Wing("w", "left", 0, 100, 60, 0.5),),
            (),
            ("wings", 0, "side"),
            "the left of a gable roof has no eave",
        ),
        ((Wing("w", "front", 500, 200, 60, 0.5),), (), ("wings", 0), "ends 58'-4\" along the"),
        (
            (),
            (Dormer("d", "gable", "front", 60, 84, 48, 20, 0.5),),
            ("dormers", 0),
            "the roof at its face 2'-0\", so it has no face",
        ),
        (
            (),
            (Dormer("d", "shed", "front", 60, 84, 48, 60, 0.4),),
            ("dormers", 0),
            "whose ridge is at 7'-0\"",
        ),
    ],
)
def test_what_does_not_fit_is_refused_with_its_heights(
    wings: tuple[Wing, ...], dormers: tuple[Dormer, ...], place: tuple, says: str
) -> None:
    with pytest.raises(RoofShapeError, match=says.replace("(", r"\(")) as caught:
        shaped_roof(T_MAIN, wings, dormers)
    assert caught.value.place == place
