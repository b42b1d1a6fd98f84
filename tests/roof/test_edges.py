"""Planes, edges and the way between plan and surface."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planset.roof.edges import roof_of
from planset.roof.plane import Plane, polygon_area
from planset.roof.shapes import gable_roof
from planset.roof.solid import EdgeKind, Roof

GABLE = gable_roof(480, 360, 0.5, 190)

lengths = st.floats(60, 2000)
pitches = st.floats(0.05, 2)
roofs = st.builds(gable_roof, lengths, lengths, pitches, st.floats(0, 360))
shares = st.tuples(st.floats(-0.5, 1.5), st.floats(-0.5, 1.5))


def inside(plane: Plane, share: tuple[float, float]) -> tuple[float, float]:
    """A plan point by its shares of the plane's size along and up, beyond it too."""
    corners = plane.surface_outline
    u, v = max(u for u, _ in corners), max(v for _, v in corners)
    return plane.to_plan((share[0] * u, share[1] * v))


def kinds(roof: Roof) -> dict[str, str]:
    return {edge.id: edge.kind for edge in roof.edges}


def test_edges_of_a_gable() -> None:
    assert kinds(GABLE) == {
        "front eave": "eave",
        "front rake left": "rake",
        "front rake right": "rake",
        "front-back ridge": "ridge",
        "back eave": "eave",
        "back rake left": "rake",
        "back rake right": "rake",
    }


@pytest.mark.parametrize(
    ("edge", "x"),
    [  # left and right as one faces the plane from its eave; the front eave runs along x
        ("front rake left", 0),
        ("front rake right", 480),
        ("back rake left", 480),
        ("back rake right", 0),
    ],
)
def test_left_is_left_from_the_eave(edge: str, x: float) -> None:
    (found,) = (e for e in GABLE.edges if e.id == edge)
    assert [end[0] for end in found.plan] == [x, x]


def test_the_ridge_is_shared_and_level() -> None:
    (ridge,) = GABLE.edges_of("back", EdgeKind.RIDGE)
    assert ridge.planes == ("front", "back")
    assert ridge.a[2] == ridge.b[2] == 90  # 180 in of run at 6:12
    assert ridge.length_in == 480
    assert (ridge,) == GABLE.edges_of("front", EdgeKind.RIDGE)
    assert len(GABLE.edges_of("front")) == 4


def test_rakes_have_their_true_length() -> None:
    for plane in GABLE.planes:
        for rake in GABLE.edges_of(plane.id, EdgeKind.RAKE):
            assert rake.length_in == pytest.approx(math.hypot(180, 90))


@pytest.mark.parametrize(
    ("pitch", "slope_ft"),
    [  # 15 ft of run, fire-access.md section 7: slope length at 6:12 and 8:12
        (6 / 12, 16.771),
        (8 / 12, 18.028),
    ],
)
def test_slope_length(pitch: float, slope_ft: float) -> None:
    (front, _) = gable_roof(480, 360, pitch, 180).planes
    top = max(v for _, v in front.surface_outline)
    assert top / 12 == pytest.approx(slope_ft, abs=0.0005)


@pytest.mark.parametrize(
    ("rise", "degrees"),
    [(3, 14.04), (4, 18.43), (5, 22.62), (6, 26.57), (7, 30.26), (8, 33.69), (12, 45)],
)  # structural.md section 9
def test_slope_in_degrees(rise: float, degrees: float) -> None:
    (front, _) = gable_roof(480, 360, rise / 12, 180).planes
    assert front.slope_deg == pytest.approx(degrees, abs=0.005)


@pytest.mark.parametrize("degrees", range(1, 60))
def test_a_whole_number_of_degrees_stays_one(degrees: int) -> None:
    # the figures of ASCE 7 change at 7, 20, 27 and 45 degrees, so noise must not move a slope
    (front, _) = gable_roof(480, 360, math.tan(math.radians(degrees)), 180).planes
    assert front.slope_deg == degrees


def test_planes_face_opposite_ways() -> None:
    assert [plane.azimuth_deg for plane in GABLE.planes] == [190, 10]
    assert [plane.along for plane in GABLE.planes] == [(1, 0), (-1, 0)]


def test_an_unknown_plane_is_a_key_error() -> None:
    with pytest.raises(KeyError):
        GABLE.plane("west")


# A hip roof 40 ft by 30 ft at 6:12: ridge 10 ft, trapezoids of 375 sq ft and triangles of
# 225 sq ft in plan (fire-access.md, case 14).
HIP = roof_of(
    (
        Plane("south", ((0, 0), (480, 0), (300, 180), (180, 180)), 0.5, (0, -1), (0, 0), 0, 180),
        Plane("east", ((480, 0), (480, 360), (300, 180)), 0.5, (1, 0), (480, 0), 0, 90),
        Plane(
            "north", ((480, 360), (0, 360), (180, 180), (300, 180)), 0.5, (0, 1), (480, 360), 0, 0
        ),
        Plane("west", ((0, 360), (0, 0), (180, 180)), 0.5, (-1, 0), (0, 360), 0, 270),
    )
)


def test_edges_of_a_hip_roof() -> None:
    assert sorted(kinds(HIP).values()) == ["eave"] * 4 + ["hip"] * 4 + ["ridge"]
    (ridge,) = (edge for edge in HIP.edges if edge.kind is EdgeKind.RIDGE)
    assert ridge.length_in == 120
    assert ridge.planes == ("south", "north")
    hips = [edge.length_in for edge in HIP.edges if edge.kind is EdgeKind.HIP]
    assert hips == pytest.approx([math.hypot(180, 180, 90)] * 4)


def test_areas_of_a_hip_roof() -> None:
    areas = {plane.id: plane.plan_area_sqin / 144 for plane in HIP.planes}
    assert areas == {"south": 375, "east": 225, "north": 375, "west": 225}
    assert HIP.plan_area_sqin / 144 == 1200


def test_two_planes_that_rise_from_their_common_line_meet_in_a_valley() -> None:
    west = Plane("west", ((0, 0), (100, 100), (0, 100)), 0.5, (0, -1), (0, 0), 0, 180)
    east = Plane("east", ((0, 0), (100, 0), (100, 100)), 0.5, (-1, 0), (0, 100), 0, 270)
    found = kinds(roof_of((west, east)))
    assert found["west-east valley"] == "valley"
    assert sorted(found.values()) == ["high edge", "high edge", "rake", "rake", "valley"]


def test_planes_at_different_heights_share_no_edge() -> None:
    (front, back) = GABLE.planes
    raised = Plane("back", back.outline, 0.5, (0, 1), back.origin, 12, 10)
    found = kinds(roof_of((front, raised)))
    assert found["front headwall"] == "headwall"  # it ends at the wall that carries the back
    assert found["back high edge"] == "high edge"


def test_the_top_of_a_single_plane_is_a_high_edge() -> None:
    (front, _) = GABLE.planes
    assert sorted(kinds(roof_of((front,))).values()) == ["eave", "high edge", "rake", "rake"]


@given(roofs)
def test_surface_times_cosine_is_plan(roof: Roof) -> None:
    for plane in roof.planes:
        surface = polygon_area(plane.surface_outline)
        in_plan = surface * math.cos(math.atan(plane.pitch))
        assert in_plan == pytest.approx(plane.plan_area_sqin)


@given(roofs, shares)
def test_plan_to_surface_and_back(roof: Roof, share: tuple[float, float]) -> None:
    for plane in roof.planes:
        point = inside(plane, share)
        assert plane.to_plan(plane.to_surface(point)) == pytest.approx(point, abs=1e-6)


@given(roofs, shares, shares)
def test_distances_on_the_surface_are_true(
    roof: Roof, one: tuple[float, float], other: tuple[float, float]
) -> None:
    for plane in roof.planes:
        a, b = inside(plane, one), inside(plane, other)
        on_surface = math.dist(plane.to_surface(a), plane.to_surface(b))
        assert on_surface == pytest.approx(math.dist(plane.lift(a), plane.lift(b)), abs=1e-6)


@given(roofs, shares)
def test_lifting_follows_the_pitch(roof: Roof, share: tuple[float, float]) -> None:
    (front, back) = roof.planes
    x, y = inside(front, share)
    assert front.lift((x, y)) == pytest.approx((x, y, y * front.pitch), abs=1e-6)
    depth = back.origin[1]
    assert back.lift((x, y))[2] == pytest.approx((depth - y) * back.pitch, abs=1e-6)


@given(roofs)
def test_water_runs_down_the_plane(roof: Roof) -> None:
    for plane in roof.planes:
        (x, y), (dx, dy) = plane.origin, plane.downslope
        assert plane.lift((x + dx, y + dy))[2] == pytest.approx(-plane.pitch, abs=1e-6)
        assert math.hypot(dx, dy) == pytest.approx(1)


@given(roofs)
def test_every_side_is_one_edge(roof: Roof) -> None:
    assert len({edge.id for edge in roof.edges}) == len(roof.edges) == 7
    outside = sum(len(edge.planes) == 1 for edge in roof.edges)
    assert outside == 6
    total = sum(plane.plan_area_sqin for plane in roof.planes)
    assert total == pytest.approx(roof.plan_area_sqin)
