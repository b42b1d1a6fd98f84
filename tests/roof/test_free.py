"""Planes given one by one, and buildings placed beside each other."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planset.roof.edges import roof_of
from planset.roof.free import downslope_of, free_plane, misfits, overlap_sqin
from planset.roof.placing import joined, placed
from planset.roof.plane import Plane, Ring
from planset.roof.shapes import gable_roof

FRONT: Ring = ((0, 0), (480, 0), (480, 180), (0, 180))
BACK: Ring = ((0, 180), (480, 180), (480, 360), (0, 360))


def front(pitch: float = 0.5, lowest: float = 0) -> Plane:
    return free_plane("front", FRONT, pitch, 180, lowest, 180)


def back(pitch: float = 0.5, lowest: float = 0) -> Plane:
    return free_plane("back", BACK, pitch, 0, lowest, 180)


def test_two_planes_make_the_gable_they_describe() -> None:
    given_ = {edge.id: edge.kind for edge in roof_of((front(), back())).edges}
    assert given_ == {edge.id: edge.kind for edge in gable_roof(480, 360, 0.5, 180).edges}
    assert not list(misfits((front(), back())))


def test_heights_that_disagree_name_both_planes_and_both_heights() -> None:
    (misfit,) = misfits((front(), back(lowest=24)))
    assert misfit.planes == ("front", "back")
    assert misfit.message == (
        'planes front and back meet from (40\'-0", 15\'-0") to (0", 15\'-0"), where front stands '
        "7'-6\" to 7'-6\" high and back 9'-6\" to 9'-6\""
    )
    assert "steps" in misfit.mend


def test_a_wall_between_them_may_be_stated() -> None:
    steps = frozenset({frozenset({"front", "back"})})
    assert not list(misfits((front(), back(lowest=24)), steps))
    kinds = {edge.id: edge.kind for edge in roof_of((front(), back(lowest=24))).edges}
    assert kinds["front headwall"] == "headwall"
    assert kinds["back high edge"] == "high edge"


@pytest.mark.parametrize("off", [0.4, -0.4])
def test_a_rounded_survey_is_no_misfit(off: float) -> None:
    assert not list(misfits((front(), back(lowest=off))))


def test_planes_that_overlap() -> None:
    twin = free_plane("twin", FRONT, 0.5, 180, 0, 180)
    assert "overlap by 600.0 sq ft" in next(misfits((front(), twin))).message


@pytest.mark.parametrize("corners", [((0, 0), (1, 0), (2, 0)), ((0, 0), (9, 9), (9, 0), (0, 9))])
def test_an_outline_that_is_none(corners: Ring) -> None:
    with pytest.raises(ValueError, match="enclose no area, or its outline crosses itself"):
        free_plane("p", corners, 0.5, 180, 0, 180)


@given(st.floats(0, 360), st.floats(0, 360))
def test_bearings_come_back(faces: float, front_faces: float) -> None:
    plane = free_plane("p", FRONT, 0.5, faces, 0, front_faces)
    turned = (plane.azimuth_deg - faces + 180) % 360 - 180
    assert turned == pytest.approx(0, abs=1e-6)


def test_the_front_falls_to_the_front() -> None:
    assert downslope_of(180, 180) == pytest.approx((0, -1))
    assert downslope_of(90, 180) == pytest.approx((1, 0))  # east lies right of a south front


@given(st.floats(-180, 180), st.floats(-500, 500), st.floats(-500, 500))
def test_a_building_keeps_its_shape_where_it_stands(turn: float, x: float, y: float) -> None:
    house, garage = gable_roof(480, 360, 0.5, 180), gable_roof(240, 240, 0.5, 180 - turn)
    both = joined((house, placed(garage, "garage", (x, y), turn, 12)))
    assert [plane.id for plane in both.planes_of("garage")] == ["garage-front", "garage-back"]
    assert both.plan_area_of("garage") == pytest.approx(240 * 240)
    assert both.plan_area_of("") == pytest.approx(480 * 360)
    ridge = next(edge for edge in both.edges if edge.id == "garage-front-back ridge")
    assert ridge.a[2] == pytest.approx(12 + 60)
    assert ridge.planes == ("garage-front", "garage-back")
    for plane in both.planes_of("garage"):
        heading = math.degrees(math.atan2(plane.downslope[0], -plane.downslope[1]))
        off = (180 - heading - plane.azimuth_deg + 180) % 360 - 180
        assert off == pytest.approx(0, abs=1e-6)


def test_buildings_that_stand_in_each_other() -> None:
    house = gable_roof(480, 360, 0.5, 180)
    garage = placed(gable_roof(240, 240, 0.5, 180), "g", (420, 0), 0, 0)
    assert overlap_sqin(house.planes, garage.planes) == pytest.approx(60 * 240)
