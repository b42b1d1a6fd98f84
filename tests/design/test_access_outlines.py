"""Clear strips on roofs of any outline.

"Case n" is a row of the check cases in section 7 of the fire access study.
"""

from __future__ import annotations

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from planset.design.access.geometry import access_geometry
from planset.design.access.strips import clear_strips, edge_strips
from planset.roof.shapes import MainRoof, Wing, shaped_roof
from planset.roof.solid import Roof

HIP = shaped_roof(MainRoof("hip", 480, 360, 0.5))
NOTHING = shapely.Polygon()


@pytest.mark.parametrize(("width_in", "clear_in"), [(144, 16.50), (120, 25.44)])
def test_cases_14_and_16_distance_from_the_hip(width_in: float, clear_in: float) -> None:
    array = shapely.box(180 - width_in / 2, 24, 180 + width_in / 2, 96)
    sides = edge_strips(HIP, HIP.plane("right"), array)
    assert [side.width_in for side in sides] == pytest.approx([clear_in] * 2, abs=0.005)


def test_case_24_a_wing_is_counted_once() -> None:
    wing = Wing("wing", "front", 180, 240, 192, 0.5)
    roof = shaped_roof(MainRoof("gable", 600, 336, 0.5), (wing,))
    access = access_geometry(roof, (), (), 0.0, count_overhang=False)
    assert access.roof_plan_area_sqin / 144 == pytest.approx(1720)


def test_case_15_a_strip_that_straddles_adds_both_sides() -> None:
    # 16.50 in on the triangle and 19.50 in on the trapezoid are 36 in: section 2.8, "straddling"
    triangle, trapezoid = HIP.plane("right"), HIP.plane("front")
    near = shapely.box(108, 24, 252, 96)
    u1 = 480 - (19.50 + 60 * 180 / 270) / (201.246 / 270)  # 60 in up, 19.50 in from the hip
    sides = {
        side.plane: side.width_in
        for plane, block in ((triangle, near), (trapezoid, shapely.box(200, 24, u1, 60)))
        for side in edge_strips(HIP, plane, block)
        if side.edge == "front-right hip"
    }
    assert sides == pytest.approx({"right": 16.50, "front": 19.50}, abs=0.005)


def test_edge_case_10_a_strip_across_a_hip_is_as_wide_as_both_sides_all_the_way() -> None:
    # low on the one side and high on the other something touches the hip: nothing is contiguous
    low, high = shapely.box(440, 0, 480, 40), shapely.box(100, 90, 130, 150)
    clear = [
        side.width_in
        for plane, block in ((HIP.plane("front"), low), (HIP.plane("right"), high))
        for side in edge_strips(HIP, plane, block)
        if side.edge == "front-right hip"
    ]
    assert clear == pytest.approx([0, 0], abs=1e-6)


def test_edge_case_18_a_strip_along_a_hip_is_as_wide_as_square_to_it() -> None:
    # section 4.1: 18 in square to a hip at 6:12 are 24.15 in along the eave
    hip_u = 90 * 180 / 201.246  # where the hip of the left side is 90 in up
    block = shapely.box(hip_u + 24.15, 60, hip_u + 60, 90)
    widths = {side.edge: side.width_in for side in edge_strips(HIP, HIP.plane("front"), block)}
    assert widths["front-left hip"] == pytest.approx(18.0, abs=0.005)


@pytest.mark.parametrize(
    ("left", "parts"),
    [
        (0.0, [(60, 480, ""), (0, 60, "porch")]),
        (200.0, [(260, 480, ""), (0, 200, ""), (200, 260, "porch")]),
    ],
)
def test_edge_case_11_a_strip_is_parted_where_it_ends_over_a_lower_roof(
    left: float, parts: list[tuple[float, float, str]]
) -> None:
    porch = Wing("porch", "front", left, 60, 100, 0.5, eave_above_in=-60)
    roof = shaped_roof(MainRoof("gable", 480, 360, 0.5), (porch,))
    strips = clear_strips(roof, roof.plane("front"), NOTHING)
    found = [(s.surface.x0, s.surface.x1, s.unfinished) for s in strips]
    for (u0, u1, amiss), (x0, x1, name) in zip(
        sorted(found), sorted(parts, key=lambda part: part[0]), strict=True
    ):
        assert (u0, u1) == pytest.approx((x0, x1), abs=0.01)
        assert bool(amiss) == bool(name)
        assert name in amiss


@st.composite
def roofs(draw: st.DrawFn) -> Roof:
    length, depth = draw(st.floats(240, 900)), draw(st.floats(240, 600))
    pitch = draw(st.floats(0.2, 1.0))
    main = MainRoof(draw(st.sampled_from(("gable", "hip"))), length, depth, pitch)
    if main.kind == "hip" or draw(st.booleans()):
        return shaped_roof(main)
    width = draw(st.floats(0.3, 0.9)) * min(length, depth)
    left = draw(st.floats(0.05, 0.95)) * (length - width)
    return shaped_roof(main, (Wing("wing", "front", left, width, 150.0, pitch),))


shares = st.tuples(*[st.floats(0.0, 1.0)] * 4)


@given(roofs(), shares, shares)
def test_an_obstruction_never_widens_a_strip(
    roof: Roof, first: tuple[float, ...], second: tuple[float, ...]
) -> None:
    for plane in roof.planes:
        u0, v0, u1, v1 = plane.surface_polygon.bounds

        def block(share: tuple[float, ...]) -> shapely.Polygon:
            u = u0 + share[0] * (u1 - u0)  # noqa: B023 - used at once
            v = v0 + share[1] * (v1 - v0)  # noqa: B023 - used at once
            return shapely.box(u, v, u + 1 + 60 * share[2], v + 1 + 60 * share[3])

        one = block(first)
        both = shapely.union_all([one, block(second)])
        before, after = clear_strips(roof, plane, one), clear_strips(roof, plane, both)
        widest = [max((s.width_in for s in strips), default=0) for strips in (before, after)]
        assert widest[1] <= widest[0] + 1e-6
        assert widest[0] <= u1 - u0 + 1e-6
        assert not any(
            shapely.box(s.surface.x0, s.surface.y0, s.surface.x1, s.surface.y1)
            .intersection(plane.surface_polygon)
            .intersection(both)
            .area
            > 0.01
            for s in after
        )
        along = edge_strips(roof, plane, one), edge_strips(roof, plane, both)
        for wide, narrow in zip(*along, strict=True):
            assert narrow.width_in <= wide.width_in + 1e-6


@given(st.floats(240, 900), st.floats(240, 600), shares)
def test_mirrored_roofs_have_mirrored_strips(
    length: float, depth: float, share: tuple[float, ...]
) -> None:
    roof = shaped_roof(MainRoof("hip", length, depth, 0.5))
    plane = roof.plane("front")
    _, _, u1, v1 = plane.surface_polygon.bounds
    u, v, width = share[0] * u1, share[1] * v1, 1 + 60 * share[2]
    here, there = (
        clear_strips(roof, plane, shapely.box(a, v, a + width, v + 20)) for a in (u, u1 - u - width)
    )
    assert sorted(s.width_in for s in here) == pytest.approx(
        sorted(s.width_in for s in there), abs=1e-6
    )
