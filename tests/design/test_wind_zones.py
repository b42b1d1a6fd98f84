"""Wind zones as regions: rectangles by hand, and what holds on any roof."""

from __future__ import annotations

import math
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, box, union_all
from shapely import Point as Dot
from shapely.affinity import scale
from zone_maps import GABLE, MAPS, the_first

from planset.codes.asce7.standard import load_standard
from planset.design.wind_shape import (
    Family,
    building_size,
    figures_of,
    more_suction,
    plane_shape,
    zone_edges,
)
from planset.design.wind_zones import ZoneRegion, by_severity, zone_regions, zones_touched
from planset.drawing.geometry import Box
from planset.roof.edges import roof_of
from planset.roof.envelope import Slope, plane_on
from planset.roof.plane import Plane
from planset.roof.shapes import Dormer, MainRoof, Wing, gable_roof, shaped_roof
from planset.roof.solid import EdgeKind, Roof
from tests.roof.roofs import roofs

A_IN, H_IN = 40.0, 150.0


def regions_of(
    roof: Roof, plane: Plane, a_in: float = A_IN, h_in: float = H_IN
) -> tuple[ZoneRegion, ...]:
    """Return the zones of a plane by its own family."""
    shape = plane_shape(roof, plane, the_first)
    measure = h_in if shape.family is Family.FLAT else a_in
    return zone_regions(plane, shape.edges, MAPS[shape.family], measure)


def areas_in_plan(roof: Roof, plane: Plane) -> dict[str, float]:
    """Return the area of every zone in plan."""
    areas: dict[str, float] = {}
    for region in regions_of(roof, plane):
        areas[region.zone] = areas.get(region.zone, 0.0) + in_plan(plane, region).area
    return areas


def in_plan(plane: Plane, region: ZoneRegion) -> Polygon:
    rings = (region.surface.exterior, *region.surface.interiors)
    shell, *holes = ([plane.to_plan((u, v)) for u, v in ring.coords] for ring in rings)
    return Polygon(shell, holes)


def zone_at(plane: Plane, regions: tuple[ZoneRegion, ...], x: float, y: float) -> str:
    """Return the zone of a plan point, "" off the plane."""
    place = Dot(plane.to_surface((x, y)))
    return next((region.zone for region in regions if region.surface.covers(place)), "")


# ---------------------------------------------------------------- by hand


def test_zones_of_a_flat_roof() -> None:
    # 100 ft by 75 ft, h 12.5 ft: bands of 7.5 ft, legs 7.5 ft long and 2.5 ft wide
    roof = shaped_roof(MainRoof("flat", 1200, 900, 0))
    (plane,) = roof.planes
    (inner,) = (r.surface for r in regions_of(roof, plane) if r.zone == "1'")
    assert inner.equals(box(180, 180, 1020, 720))
    corners = sorted((r.surface for r in regions_of(roof, plane) if r.zone == "3"), key=str)
    assert len(corners) == 4
    leg = box(0, 0, 90, 30).union(box(0, 0, 30, 90))
    assert any(corner.normalize().equals(leg) for corner in corners)
    for at, zone in [((45, 29), "3"), ((45, 31), "2"), ((91, 29), "2"), ((91, 91), "1")]:
        assert zone_at(plane, regions_of(roof, plane), *at) == zone
    areas = areas_in_plan(roof, plane)
    assert areas["3"] == pytest.approx(4 * leg.area)
    assert areas["2"] == pytest.approx(1200 * 900 - 1020 * 720 - 4 * leg.area)
    assert areas["1"] == pytest.approx(1020 * 720 - 840 * 540)


def test_a_small_flat_roof_has_no_inner_zone() -> None:
    roof = shaped_roof(MainRoof("flat", 1200, 2.4 * H_IN, 0))  # least dimension 2.4 h
    assert "1'" not in areas_in_plan(roof, roof.planes[0])
    roof = shaped_roof(MainRoof("flat", 1200, 2.4 * H_IN + 12, 0))
    assert areas_in_plan(roof, roof.planes[0])["1'"] == pytest.approx((1200 - 2.4 * H_IN) * 12)


def test_zones_of_a_low_gable_run_around_its_outline_and_over_its_ridge() -> None:
    roof = gable_roof(1200, 400, 0.1, 180)  # 5.7 degrees, halves of 200 in, bands of 90 and 180 in
    front, back = roof.planes
    areas = areas_in_plan(roof, front)
    assert areas["3"] == pytest.approx(2 * (2 * 90 * 30 - 30 * 30))
    assert areas["2"] + areas["3"] == pytest.approx(1200 * 200 - 1020 * 110)
    assert areas["1'"] == pytest.approx((1200 - 360) * 20)
    assert areas_in_plan(roof, back) == pytest.approx(areas)


def test_bands_of_a_flat_roof_do_not_stop_at_a_ridge() -> None:
    roof = gable_roof(1200, 240, 0.1, 180)  # halves of 120 in: each lies within 180 in of both
    areas = areas_in_plan(roof, roof.plane("front"))
    # of the half's 120 in the band of its own eave takes 90; the other eave's starts at 150
    assert areas["2"] + areas["3"] == pytest.approx(1200 * 120 - 1020 * 30)
    narrow = gable_roof(1200, 140, 0.1, 180)
    front = narrow.plane("front")
    far = [edge for edge in zone_edges(narrow, front, Family.FLAT) if not edge.own]
    over = {
        zone: sum(
            in_plan(front, r).area
            for r in zone_regions(front, far, MAPS[Family.FLAT], H_IN)
            if r.zone == zone
        )
        for zone in ("2", "3")
    }
    # halves of 70 in: the far eave's band of 90 reaches 20 in over the ridge, legs and all
    assert over == pytest.approx({"2": (1200 - 2 * 30) * 20, "3": 2 * 30 * 20})


def test_zones_of_a_hip() -> None:
    # 600 in by 400 in, a 40 in: in plan the strip of a hip measures 40 in square to it
    roof = shaped_roof(MainRoof("hip", 600, 400, 0.5))
    end, front = roof.plane("right"), roof.plane("front")
    areas = areas_in_plan(roof, end)
    root = A_IN * math.sqrt(2)
    # the end is a triangle of 400 in by 200 in; its strips leave one of (400 - 80 - 2 root) in
    base = 400 - 2 * A_IN - 2 * root
    assert areas["1"] == pytest.approx(base * base / 4)
    assert areas["3"] == pytest.approx(2 * A_IN**2 / 2)
    assert areas["2e"] == pytest.approx((400 - 2 * A_IN) * A_IN)
    assert sum(areas.values()) == pytest.approx(400 * 200 / 2)
    of_front = areas_in_plan(roof, front)
    assert of_front["3"] == pytest.approx(A_IN**2)
    wide, narrow = 600 - 2 * A_IN - 2 * root, 600 - 2 * (200 - A_IN) - 2 * root
    assert of_front["1"] == pytest.approx((wide + narrow) / 2 * (200 - 2 * A_IN))


def test_zones_of_a_shed() -> None:
    roof = shaped_roof(MainRoof("shed", 480, 360, 0.15))  # 8.5 degrees, high at the back
    (plane,) = roof.planes
    regions = regions_of(roof, plane)
    by_place = {
        (10, 10): "3", (79, 79): "3", (81, 79): "2", (240, 79): "2", (240, 81): "1",
        (79, 150): "2'", (79, 199): "2'", (79, 201): "3'", (81, 250): "1", (81, 281): "3'",
        (159, 281): "3'", (161, 281): "2'", (240, 281): "2'", (240, 279): "1",
        (470, 350): "3'", (470, 10): "3",
    }  # fmt: skip
    assert {at: zone_at(plane, regions, *at) for at in by_place} == by_place


def test_a_flat_roof_that_falls_more_is_a_shed_whatever_ends_it() -> None:
    shed = shaped_roof(MainRoof("shed", 480, 360, 0.15))
    flat = shaped_roof(MainRoof("flat", 480, 360, 0.15), parapet=True)
    assert areas_in_plan(flat, flat.planes[0]) == areas_in_plan(shed, shed.planes[0])


def test_more_severe_wins_on_a_narrow_plane() -> None:
    roof = gable_roof(480, 120, 0.5, 180)  # halves of 60 in: eave and ridge strips overlap by 20
    areas = areas_in_plan(roof, roof.plane("front"))
    assert areas == pytest.approx(
        {"3r": 2 * 40 * 40, "3e": 2 * 40 * 20, "2r": 400 * 40, "2e": 400 * 20}
    )
    plane, order = roof.plane("front"), ("1", "2r", "2n", "2e", "3r", "3e")
    regions = zone_regions(plane, zone_edges(roof, plane, Family.GABLE), GABLE, A_IN, order)
    widest = {region.zone: in_plan(plane, region).area for region in regions}
    assert widest["2e"] == pytest.approx(400 * 40)
    with pytest.raises(ValueError, match="zones 3r have no place in the order"):
        zone_regions(plane, (), GABLE, A_IN, order[:4] + order[5:])


def test_a_valley_carries_no_strip_and_an_eave_runs_on_to_it() -> None:
    main = MainRoof("gable", 600, 360, 0.5)
    roof = shaped_roof(main, (Wing("w", "front", 120, 200, 120, 0.5),))
    front, left = roof.plane("front"), roof.plane("w-left")
    regions = regions_of(roof, front)
    assert zone_at(front, regions, 200, 85) == "1"  # 4 in beside the valley, above the eave strip
    assert zone_at(front, regions, 130, 30) == "2e"  # past the end of the eave, before the valley
    assert zone_at(left, regions_of(roof, left), 170, 40) == "1"
    assert zone_at(left, regions_of(roof, left), 130, -110) == "3e"
    assert zone_at(left, regions_of(roof, left), 210, -110) == "3r"


def test_a_strip_goes_on_over_a_change_of_pitch() -> None:
    def free(name: str, y0: float, y1: float, low: float, pitch: float, down: float) -> Plane:
        corners = ((0.0, y0), (480.0, y0), (480.0, y1), (0.0, y1))
        at = (0.0, y0 if down < 0 else y1)
        return plane_on(name, corners, Slope(name, (0.0, down), at, low, pitch), 180.0)

    kick = free("kick", 0, 24, 0, 0.25, -1)
    front = free("front", 24, 200, 6, 0.5, -1)
    back = free("back", 200, 400, 0, 94 / 200, 1)
    roof = roof_of((kick, front, back))
    assert {edge.kind for edge in roof.edges_of("kick")} >= {EdgeKind.PITCH_BREAK}
    regions = regions_of(roof, front)
    assert zone_at(front, regions, 240, 39) == "2e"  # 39 in from the eave, on the other plane
    assert zone_at(front, regions, 240, 41) == "1"
    assert zone_at(front, regions, 20, 39) == "3e"


def test_a_wall_carries_no_strip() -> None:
    main = MainRoof("gable", 600, 360, 0.5)
    dormer = Dormer("d", "gable", "front", 240, 120, 60, 60, 0.4)
    roof = shaped_roof(main, (), (dormer,))
    front = roof.plane("front")
    assert zone_at(front, regions_of(roof, front), 300, 55) == "1"  # below the dormer's face
    assert zone_at(front, regions_of(roof, front), 235, 80) == "1"  # beside it
    left = roof.plane("d-left")
    assert zone_at(left, regions_of(roof, left), 245, 65) == "3e"


def test_an_open_high_edge_counts_as_ridge_and_as_rake() -> None:
    # a clerestory: the front half rises above the back half
    half = plane_on(
        "half", ((0, 0), (480, 0), (480, 180), (0, 180)), Slope("h", (0, -1), (0, 0), 0, 0.5), 180
    )
    roof = roof_of((half,))
    kinds = [edge.kind for edge in zone_edges(roof, half, Family.GABLE)]
    assert sorted(kinds) == ["eave", "rake", "rake", "rake", "ridge"]
    regions = zone_regions(half, zone_edges(roof, half, Family.GABLE), GABLE, A_IN)
    assert zone_at(half, regions, 20, 170) == "3r"
    assert zone_at(half, regions, 240, 170) == "2r"


@pytest.mark.parametrize(
    ("roof", "slope_deg", "height_over_width", "order"),
    [
        # ASCE 7-16, Figure 30.3-2B: 3r -3.6, 2n 2r 3e -3.0, 1 2e -2.0
        ("gable", 18, None, ("1", "2e", "2n", "2r", "3e", "3r")),
        # Figure 30.3-2D at 10 sq ft: 3e -2.5 by its curve, 2n 3r -2.0, 1 2e 2r -1.8
        ("gable", 30, None, ("1", "2e", "2r", "2n", "3r", "3e")),
        # Figure 30.3-2E: 2e 3 -2.6, 2r -2.4, 1 -1.8; Figure 30.3-2F: 2r -2.4, 2e 3 -1.8, 1 -1.3
        ("hip", 18, 0.8, ("1", "2r", "2e", "3")),
        ("hip", 18, 0.5, ("1", "2e", "3", "2r")),
    ],
)
def test_zones_are_ranked_by_their_suction(
    roof: str, slope_deg: float, height_over_width: float | None, order: tuple[str, ...]
) -> None:
    figure = load_standard(2016).roof_figure(roof, slope_deg, height_over_width)
    assert by_severity(figure) == order


# ---------------------------------------------------------------- on any roof


@settings(max_examples=60, deadline=None)
@given(roofs(), st.floats(36, 120), st.floats(100, 700))
def test_zones_cover_every_plane_once(
    made: tuple[Roof, object, object], a: float, h: float
) -> None:
    roof = made[0]
    for plane in roof.planes:
        surfaces = [region.surface for region in regions_of(roof, plane, a, h)]
        whole = plane.surface_area_sqin
        assert all(surface.is_valid for surface in surfaces)
        assert sum(surface.area for surface in surfaces) == pytest.approx(whole, rel=1e-6)
        both = union_all(surfaces)
        assert both.area == pytest.approx(whole, rel=1e-6)
        assert both.symmetric_difference(plane.surface_polygon).area < 1e-6 * whole


@pytest.mark.parametrize("year", [2016, 2022])
@settings(max_examples=30, deadline=None)
@given(made=roofs())
def test_every_plane_that_figures_cover_takes_one_of_each_edition(
    year: int, made: tuple[Roof, object, object]
) -> None:
    roof, standard = made[0], load_standard(year)
    size = building_size(roof, 120, 0, 0)
    for plane in roof.planes:
        shape = plane_shape(roof, plane, more_suction(standard, size.height_to_width))
        if shape.reason:
            continue
        for family in shape.families:
            figure = standard.roof_figure(figures_of(family), plane.slope_deg, size.height_to_width)
            edges = zone_edges(roof, plane, family)
            regions = zone_regions(plane, edges, figure.zone_map, A_IN, by_severity(figure))
            assert {region.zone for region in regions} <= set(figure.zones)
            area = sum(region.surface.area for region in regions)
            assert area == pytest.approx(plane.surface_area_sqin, rel=1e-6)


@settings(max_examples=60, deadline=None)
@given(roofs(), st.floats(36, 80))
def test_every_strip_is_as_wide_as_a_in_plan(made: tuple[Roof, object, object], a: float) -> None:
    roof = made[0]
    carry = (EdgeKind.EAVE, EdgeKind.RAKE, EdgeKind.RIDGE, EdgeKind.HIP)
    for plane in roof.planes:
        shape = plane_shape(roof, plane, the_first)
        if shape.family not in (Family.GABLE, Family.HIP):
            continue
        regions = zone_regions(plane, shape.edges, MAPS[shape.family], a)
        outline = Polygon(plane.outline, plane.holes)
        for edge in roof.edges_of(plane.id):
            (x0, y0), (x1, y1) = edge.plan
            turn = 1 if edge.planes[0] == plane.id else -1
            length = math.dist(*edge.plan)
            nx, ny = -(y1 - y0) / length * turn, (x1 - x0) / length * turn
            for off in (a - 0.5, a + 0.5):
                x, y = (x0 + x1) / 2 + nx * off, (y0 + y1) / 2 + ny * off
                if not outline.buffer(-0.5).covers(Dot(x, y)) or edge.kind not in carry:
                    continue
                near = any(
                    Dot(x, y).distance(LineString(other.plan)) < 1.5 * a
                    for other in roof.edges
                    if other.id != edge.id
                )
                if off < a:
                    assert zone_at(plane, regions, x, y) != "1"
                elif not near:
                    assert zone_at(plane, regions, x, y) == "1"


@settings(max_examples=60, deadline=None)
@given(roofs(), st.floats(36, 120))
def test_a_mirrored_roof_has_mirrored_zones(made: tuple[Roof, object, object], a: float) -> None:
    roof = made[0]
    mirror = roof_of([mirrored(plane) for plane in roof.planes])
    for plane in roof.planes:
        there = mirror.plane(plane.id)
        mine, theirs = by_zone(roof, plane, a), by_zone(mirror, there, a)
        assert mine.keys() == theirs.keys()
        for zone, area in mine.items():
            turned = scale(area, -1, 1, origin=(0, 0))
            assert turned.symmetric_difference(theirs[zone]).area < 1.0


def mirrored(plane: Plane) -> Plane:
    """Return the plane of the roof seen in a mirror at x = 0."""

    def flip(ring: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], ...]:
        return tuple((-x, y) for x, y in reversed(ring))

    (x, y), (dx, dy) = plane.origin, plane.downslope
    slope = Slope(plane.id, (-dx, dy), (-x, y), plane.eave_height_in, plane.pitch)
    holes = tuple(flip(hole) for hole in plane.holes)
    return plane_on(plane.id, flip(plane.outline), slope, 180.0, holes)


def by_zone(roof: Roof, plane: Plane, a: float) -> dict[str, Polygon]:
    found: dict[str, list[Polygon]] = {}
    for region in regions_of(roof, plane, a):
        found.setdefault(region.zone, []).append(in_plan(plane, region))
    return {zone: union_all(areas) for zone, areas in found.items() if union_all(areas).area > 1}


# ---------------------------------------------------------------- zones touched


def test_shares_of_the_zones_an_area_touches() -> None:
    roof = gable_roof(480, 360, 0.75, 180)  # slope factor 1.25, a 40 in: 50 in up the slope
    regions = regions_of(roof, roof.plane("front"))
    inside, at_rake, at_corner, beyond, off = zones_touched(
        regions,
        [
            Box(40, 50, 80, 90),  # to the very line of two strips
            Box(30, 60, 70, 100),
            Box(30, 40, 50, 60),
            Box(-10, 60, 10, 80),
            Box(600, 60, 640, 100),
        ],
    )
    assert (inside.shares, inside.off_plane) == ((("1", pytest.approx(1)),), pytest.approx(0))
    assert dict(at_rake.shares) == pytest.approx({"1": 0.75, "2n": 0.25})
    assert dict(at_corner.shares) == pytest.approx({"1": 0.25, "2e": 0.25, "2n": 0.25, "3e": 0.25})
    assert at_corner.zones == ("3e", "2n", "2e", "1")  # the most severe first
    assert (dict(beyond.shares), beyond.off_plane) == (
        {"2n": pytest.approx(0.5)},
        pytest.approx(0.5),
    )
    assert (off.zones, off.off_plane) == ((), 1.0)
    assert zones_touched(regions, []) == ()


@settings(max_examples=40, deadline=None)
@given(roofs(), st.floats(-200, 800), st.floats(-200, 800), st.floats(1, 200), st.floats(1, 200))
def test_shares_and_what_lies_off_make_one(
    made: tuple[Roof, object, object], u: float, v: float, width: float, height: float
) -> None:
    roof = made[0]
    for plane in roof.planes:
        area = Box(u, v, u + width, v + height)
        (touched,) = zones_touched(regions_of(roof, plane), [area])
        assert sum(share for _, share in touched.shares) + touched.off_plane == pytest.approx(1)
        on = plane.surface_polygon.intersection(box(u, v, u + width, v + height)).area
        assert touched.off_plane == pytest.approx(1 - on / (width * height), abs=1e-6)


def test_many_attachments_take_no_time() -> None:
    main = MainRoof("hip", 1200, 800, 0.5)
    wings = (Wing("w", "front", 120, 300, 200, 0.5), Wing("e", "back", 400, 300, 200, 0.5, True))
    dormers = (Dormer("d", "gable", "front", 700, 90, 60, 70, 0.4),)
    roof = shaped_roof(main, wings, dormers)
    assert len(roof.planes) >= 10
    started = time.process_time()
    for plane in roof.planes:
        regions = regions_of(roof, plane)
        boxes = [Box(u, v, u + 48, v + 40) for u in range(0, 450, 30) for v in range(0, 300, 30)]
        touched = zones_touched(regions, boxes)
        assert len(touched) == 150
    assert time.process_time() - started < 1.0


def test_no_zone_of_a_building_turned_thirty_degrees_has_a_spike() -> None:
    # The gable of 22 ft by 22 ft, its zones 36 in wide (ASCE 7-16, 26.2: a is 3 ft at least).
    turn = math.radians(-30)
    along, back = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))

    def at(right: float, up: float) -> tuple[float, float]:
        x, y = 384 + right * along[0] + up * back[0], 216 + right * along[1] + up * back[1]
        return (x, y)

    away = ((-back[0], -back[1]), back)
    corners = (
        ((0, 0), (264, 0), (264, 132), (0, 132)),
        ((264, 264), (0, 264), (0, 132), (264, 132)),
    )
    planes = [
        Plane(name, tuple(at(*c) for c in ring), 1 / 3, down, at(*ring[0]), 0, azimuth)
        for name, ring, down, azimuth in zip(
            ("front", "back"), corners, away, (131, 311), strict=True
        )
    ]
    roof = roof_of(planes)
    for plane in roof.planes:
        for region in regions_of(roof, plane, 36.0):
            assert in_plan(plane, region).is_valid
