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
