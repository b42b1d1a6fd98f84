"""The lot: distances, bearings, equipment at its walls, the way of the fire service."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.affinity import translate
from shapely.geometry import LineString, Point, Polygon

from planset.design.site import Body, LotLine, Site
from planset.design.site_distances import (
    apart_in,
    in_the_way,
    nearest_points_to,
    rooms_in,
    to_street_in,
)
from planset.sheets.site_plan_dimensions import nearest_pairs
from planset.sheets.site_plan_labels import bearing_words
from tests.sheets.drawn_sets import own_sheet

Ring = tuple[tuple[float, float], ...]


def site(ring: Ring, setback_in: float = 60.0) -> Site:
    """A bare lot, its corners counterclockwise."""
    lines = tuple(
        LotLine(f"PL{n}", "side", a, b, setback_in)
        for n, (a, b) in enumerate(zip(ring, (*ring[1:], ring[0]), strict=True), 1)
    )
    return Site(lines, (), (), (), (), (), (), ((0.0, 0.0),))


@st.composite
def lots(draw: st.DrawFn) -> Ring:
    """Convex lots, counterclockwise, of corners on an ellipse."""
    parts = draw(st.lists(st.floats(1.0, 1.9), min_size=4, max_size=7))
    start = draw(st.floats(0, 1))
    turns = [start + 2 * math.pi * sum(parts[:n]) / sum(parts) for n in range(len(parts))]
    wide, deep = draw(st.floats(600, 3000)), draw(st.floats(600, 3000))
    return tuple((wide * math.cos(t), deep * math.sin(t)) for t in turns)


@st.composite
def lots_with_a_thing(draw: st.DrawFn) -> tuple[Ring, Ring]:
    """A lot, and a rectangle inside of it."""
    ring = draw(lots())
    lot = Polygon(ring)
    x, y = lot.centroid.x, lot.centroid.y
    reach = lot.exterior.distance(lot.centroid)  # to the nearest line
    wide, deep = (reach * draw(st.floats(0.05, 0.3)) for _ in "wd")
    x, y = x + reach * draw(st.floats(-0.3, 0.3)), y + reach * draw(st.floats(-0.3, 0.3))
    return ring, (
        (x - wide, y - deep),
        (x + wide, y - deep),
        (x + wide, y + deep),
        (x - wide, y + deep),
    )


@given(lots_with_a_thing())
def test_room_is_the_distance_of_shapely_inside_of_the_lot(both: tuple[Ring, Ring]) -> None:
    ring, thing = both
    for line in site(ring).lines:
        apart = Polygon(thing).distance(LineString((line.a, line.b)))
        assert rooms_in(site(ring), [thing], line)[0] == pytest.approx(apart)


@given(lots(), st.integers(0, 3), st.floats(20, 500), st.floats(20, 500))
def test_what_is_not_inside_of_the_lot_is_beyond_one_of_its_lines(
    ring: Ring, corner: int, wide: float, deep: float
) -> None:
    x, y = ring[corner]
    thing = ((x - wide, y - deep), (x + wide, y - deep), (x + wide, y + deep), (x - wide, y + deep))
    rooms = [rooms_in(site(ring), [thing], line)[0] for line in site(ring).lines]
    assert min(rooms) == pytest.approx(-max(Polygon(ring).distance(Point(p)) for p in thing))


@given(lots_with_a_thing(), st.floats(1, 2000))
def test_each_inch_toward_the_nearest_line_and_past_it_is_an_inch_less(
    both: tuple[Ring, Ring], out: float
) -> None:
    ring, thing = both
    line = min(site(ring).lines, key=lambda one: rooms_in(site(ring), [thing], one)[0])
    x, y = line.outward
    room = rooms_in(site(ring), [thing], line)[0]
    moved = translate(Polygon(thing), x * out, y * out)
    corners = tuple(moved.exterior.coords)[:-1]
    if out <= room:
        assert rooms_in(site(ring), [corners], line)[0] == pytest.approx(room - out, abs=1e-6)
    else:
        assert min(rooms_in(site(ring), [corners], one)[0] for one in site(ring).lines) < 1e-6


@given(lots_with_a_thing())
def test_a_dimension_runs_over_the_least_distance(both: tuple[Ring, Ring]) -> None:
    """Every way it may be drawn is as long as shapely's distance from walls to line."""
    ring, thing = both
    body = Body("B", (thing,))
    for line in site(ring).lines:
        segment = LineString((line.a, line.b))
        least = Polygon(thing).distance(segment)
        assert apart_in(body, line) == pytest.approx(least)
        assert math.dist(*nearest_points_to(body, line)) == pytest.approx(least)
        for here, there in nearest_pairs(body, line):
            assert math.dist(here, there) == pytest.approx(least, abs=0.011)
            assert segment.distance(Point(there)) == pytest.approx(0, abs=1e-6)


# By hand: the front faces 190 degrees, so the back lies toward 10 and the right toward 100.
@pytest.mark.parametrize(
    ("b", "bearing", "words"),
    [
        ((0, 100), 10, "N 10 DEG E"),
        ((100, 0), 100, "S 80 DEG E"),
        ((0, -100), 190, "S 10 DEG W"),
        ((-100, 0), 280, "N 80 DEG W"),
    ],
)
def test_bearings_count_from_true_north(b: tuple[float, float], bearing: float, words: str) -> None:
    line = LotLine("PL1", "side", (0.0, 0.0), b, 0.0)
    assert line.bearing_deg(190.0) == pytest.approx(bearing)
    assert bearing_words(bearing) == words


@pytest.mark.parametrize(
    ("bearing", "words"),
    [
        (0, "N 0 DEG E"),
        (90, "N 90 DEG E"),
        (180, "S 0 DEG W"),
        (270, "N 90 DEG W"),
        (359.8, "N 0 DEG E"),
    ],
)
def test_bearings_along_the_axes(bearing: float, words: str) -> None:
    assert bearing_words(bearing) == words


# --- examples ------------------------------------------------------------------------------


def of(name: str) -> Site:
    found = own_sheet(name).design.site
    assert found is not None
    return found


def test_places_are_measured_from_the_corner_of_the_walls() -> None:
    """44 by 34 ft of roof, 12 in of rake and 18 in of eave: walls from (12, 18) to (516, 390)."""
    found = of("tile-gable")
    assert found.lines[0].a == (12 - 15 * 12, 18 - 26 * 12)
    places = {one.id: one.at for one in found.equipment}
    # along the right wall from the front, along the left one from the back
    assert places["M1"] == (516, 18 + 180)
    assert places["GM"] == (12, 390 - 25 * 12)


def test_equipment_stands_on_the_wall_that_is_seen_from_its_side() -> None:
    """The east wing's wall at 84 ft 6 in, not the main house's, which ends at 87 ft."""
    found = of("cross-gable")
    assert {one.at[0] for one in found.equipment if one.id != "GM"} == {84.5 * 12}


def test_the_walk_ends_where_a_pathway_meets_the_eave() -> None:
    found = of("tile-gable")
    assert found.walk[-1] in found.access_points
    assert {y for _, y in found.access_points} == {0.0, 34 * 12.0}
    assert in_the_way(found) == ()
    assert to_street_in(found) == 0


def test_a_walk_through_the_house_is_told() -> None:
    through = replace(of("tile-gable"), walk=((264.0, -402.0), (264.0, 600.0)))
    assert in_the_way(through) == ("HOUSE",)
