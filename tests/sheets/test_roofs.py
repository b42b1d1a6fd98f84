"""A-101 on roofs of every shape: nothing to mend, and what it shows is what the job says."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache
from itertools import combinations
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
import shapely

from planset.design.access.area import AccessArea, AreaKind
from planset.design.design import Design
from planset.design.layout import surface_to_plan
from planset.drawing.dimension import run_together
from planset.drawing.geometry import box_around
from planset.drawing.layers import INHERITED
from planset.drawing.primitives import Dimension, Insert, Line, Polyline
from planset.roof.solid import EdgeKind
from planset.sheets.access_areas import access_block, area_labels, area_texts
from planset.units import format_feet_inches
from tests.example_job import hip_by_others
from tests.sheets.drawn_sets import Made, made_of
from tests.sheets.roof_jobs import ROOFS, write

SHEET = "A-101"
HIP, STEP = "hip with arrays on three planes", "free planes with a step"
GARAGE, DORMERS = "house and turned garage", "gable with two dormers"
PYRAMID = "pyramid"
FLAT, CROSS = "flat with eight arrays", "cross gable with two wings"


@cache
def made(name: str) -> Made:
    with TemporaryDirectory() as folder:
        return made_of(write(ROOFS[name], Path(folder)))


def lines(name: str) -> list[str]:
    return [line for page in made(name).pages(SHEET) for line in made(name).lines(page.sheet)]


def drawn(name: str, block: str, layer: str) -> list[Line]:
    """Lines of a block, and of the blocks inserted in it, that are plotted by a layer's pen."""
    blocks = made(name).drawing.blocks
    lines = []
    for part in blocks[block].primitives:
        if isinstance(part, Insert):
            lines += drawn(name, part.block, layer)
            lines += drawn(name, part.block, INHERITED) if part.layer == layer else []
        elif isinstance(part, Line) and part.layer == layer:
            lines.append(part)
    return lines


def dimensions(name: str) -> list[Dimension]:
    views = [view for page in made(name).pages(SHEET) for view in page.views]
    return [part for view in views for part in view.annotation if isinstance(part, Dimension)]


@pytest.mark.parametrize("name", ROOFS)
def test_a_roof_has_nothing_to_mend(name: str) -> None:
    assert made(name).failures() == []


@pytest.mark.parametrize("name", ROOFS)
def test_every_plane_is_named_or_listed(name: str) -> None:
    words = {line.partition(", ")[0] for line in lines(name)}  # by itself or in one line with more
    for plane in made(name).design.roof.planes:
        assert f"{plane.id.upper()} PLANE" in words, plane.id


@pytest.mark.parametrize("name", ROOFS)
def test_no_dimension_runs_over_another(name: str) -> None:
    """Of two on one line no one can tell which ticks are whose."""
    for page in made(name).pages(SHEET):
        for view in page.views:
            placed = [part for part in view.annotation if isinstance(part, Dimension)]
            over = [(a.text, b.text) for a, b in combinations(placed, 2) if run_together(a, b)]
            assert over == []


def test_the_share_of_a_pathway_beside_a_hip_reads_as_required() -> None:
    """Its dimension gives the width its words give, up to the sixteenth, never less."""
    areas = [area for area in made(PYRAMID).design.access_areas if area.kind is AreaKind.PATHWAY]
    shares = [area.required_in for area in areas if area.required_in % 0.5 > 1e-6]
    assert shares, "a pathway on this roof straddles a hip"
    across = [d for d in dimensions(PYRAMID) if any(abs(d.value_in - w) < 0.01 for w in shares)]
    assert across
    for item in across:
        sixteenths = format_feet_inches(item.value_in, rounding="up")
        assert item.text == f"{sixteenths} ON SLOPE MIN."


def test_what_an_access_dimension_measures_lies_on_the_roof() -> None:
    """Setbacks along hips, which end in a corner; IFC 2012 605.11.3.2.3 asks for them."""
    with TemporaryDirectory() as folder:
        hip = made_of(hip_by_others(Path(folder), "alder-falls"), "24x36")
    (view,) = hip.page(SHEET).views
    corners = [plane.outline for plane in hip.design.roof.planes]
    shapes = [shapely.Polygon([view.on_paper.apply(p) for p in outline]) for outline in corners]
    roof = shapely.unary_union(shapes).buffer(0.01)
    ends = [
        end
        for part in view.annotation
        if isinstance(part, Dimension) and part.text.endswith(("CLEAR", "MIN."))
        for end in (part.a, part.b)
    ]
    assert ends
    assert all(roof.covers(shapely.Point(end)) for end in ends)


@pytest.mark.parametrize("name", ROOFS)
def test_every_array_is_dimensioned_both_ways_or_listed(name: str) -> None:
    """Its width along the eave, and its height on the slope."""
    values = [item.value_in for item in dimensions(name)]
    listed = "DIMENSIONS NOT DRAWN" in lines(name)
    for array in made(name).design.arrays:
        for size in (array.frames.width, array.frames.height):
            found = any(value == pytest.approx(size) for value in values)
            assert found or listed, (array.id, size)


@pytest.mark.parametrize("name", ROOFS)
def test_every_edge_has_the_pen_of_its_kind(name: str) -> None:
    layers = {
        EdgeKind.HIP: "A-ROOF-RIDG",
        EdgeKind.VALLEY: "A-ROOF-VLLY",
        EdgeKind.HEADWALL: "A-ROOF-WALL",
        EdgeKind.SIDEWALL: "A-ROOF-WALL",
        EdgeKind.PARAPET: "A-ROOF-OTLN",
    }
    for kind, layer in layers.items():
        edges = [edge for edge in made(name).design.roof.edges if edge.kind is kind]
        ends = {(line.a, line.b) for line in drawn(name, "ROOF", layer)}
        assert all(edge.plan in ends for edge in edges), kind


# --- walls ---------------------------------------------------------------------------------


def walls(name: str) -> list[tuple[tuple[float, float], ...]]:
    block = made(name).drawing.blocks["WALLS"].primitives
    return [part.points for part in block if isinstance(part, Polyline)]


def test_walls_stand_in_from_every_eave_of_a_hip_roof() -> None:
    (outline,) = walls(HIP)
    assert sorted(outline) == [(18, 18), (18, 414), (630, 18), (630, 414)]  # 54 x 36 ft, 18 in


def test_walls_go_around_the_wings_of_a_cross_gable() -> None:
    (outline,) = walls(CROSS)
    # Twelve corners: the house's four, and four at each of the two wings.
    assert len(outline) == 12
    low = [x for x, y in outline if y == pytest.approx(-120 + 12)]  # a gable end, rake 12 in
    assert sorted(low) == pytest.approx([48 + 18, 48 + 192 - 18])  # eaves of the wing, 18 in
    high = [x for x, y in outline if y == pytest.approx(384 + 96 - 18)]  # a hipped end, eave
    assert len(high) == 2


def test_each_building_has_its_walls() -> None:
    areas = sorted(polygon_area(ring) for ring in walls(GARAGE))
    # 24 x 22 ft and 48 x 30 ft, set in by their rakes and eaves
    assert areas == pytest.approx([(288 - 24) * (264 - 24), (576 - 24) * (360 - 36)], rel=1e-6)


def polygon_area(ring: tuple[tuple[float, float], ...]) -> float:
    pairs = zip(ring, ring[1:] + ring[:1], strict=True)
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)) / 2


def test_a_parapet_shows_its_thickness() -> None:
    inner = [end for line in drawn(FLAT, "ROOF", "A-ROOF-PRPT") for end in (line.a, line.b)]
    box = box_around(inner)
    assert (box.x0, box.y0, box.x1, box.y1) == pytest.approx((8, 8, 2392, 1432))


# --- words ---------------------------------------------------------------------------------


def test_sides_openings_and_buildings_are_named() -> None:
    words = lines(HIP)
    assert words.count("STREET SIDE") == 2
    assert words.count("DRIVEWAY") == 1
    assert {"EERO", "WINDOW BELOW", "DOOR BELOW"} <= set(words)
    assert {"HOUSE", "DETACHED GARAGE"} <= set(lines(GARAGE))


def test_a_wall_between_two_roofs_is_named_once_with_the_eave_above_it() -> None:
    words = lines(STEP)
    assert words.count("HEADWALL / EAVE") == 1


def test_the_areas_of_each_building_are_told() -> None:
    words = lines(GARAGE)
    assert "1440.0 SQ FT" in words  # 48 x 30 ft
    assert "528.0 SQ FT" in words  # 24 x 22 ft


def test_mountings_by_others_draw_no_racking_and_are_told() -> None:
    inserted = [part for view in made(HIP).page(SHEET).views for part in view.model]
    blocks = [part.block for part in inserted if isinstance(part, Insert)]
    assert not any(block.startswith("RACKING") for block in blocks)
    assert "ALL BY OTHERS" in lines(HIP) or {"ALL BY", "OTHERS"} <= set(lines(HIP))


# --- access areas of any outline --------------------------------------------------------------


def slanting(kind: AreaKind) -> AccessArea:
    """A strip along the left hip of the front plane, on the slope: the hip rises u = v / factor."""
    factor = math.hypot(12, 6) / 12
    outline = ((0.0, 0.0), (40.0, 0.0), (40 + 216.0, 216 * factor), (216.0, 216 * factor))
    length = math.hypot(1, factor)
    normal = (factor / length, -1 / length)
    width = 40 * factor / length
    start = (108.0, 108 * factor)
    across = (start, (start[0] + width * normal[0], start[1] + width * normal[1]))
    return AccessArea(kind, "front", outline, across, width, width)


@pytest.mark.parametrize("kind", AreaKind)
def test_an_area_along_a_hip_is_hatched_within_its_outline(kind: AreaKind) -> None:
    design = with_areas(slanting(kind))
    labels = area_labels(design, 48.0)
    block = access_block(design, labels, 48.0)
    plane = design.roof.plane("front")
    outline = [plane.to_plan(corner) for corner in slanting(kind).outline]
    box = box_around(outline).grown(1e-6)
    hatch = [part for part in block.primitives if isinstance(part, Line)]
    assert len(hatch) > 20
    for line in hatch:
        assert box.holds(line.a)
        assert box.holds(line.b)
        for x, y in (line.a, line.b):  # between the hip, x = y, and 40 in to its right
            assert -1e-6 <= x - y <= 40 + 1e-6


def test_the_words_of_an_area_along_a_hip_run_along_it() -> None:
    design = with_areas(slanting(AreaKind.HIP_VALLEY_SETBACK))
    (label,) = area_labels(design, 48.0)
    assert label.turn_deg == pytest.approx(45)
    assert label.lines == ("HIP/VALLEY SETBACK 29 7/8 in MIN. ON SLOPE",)
    (view,) = made(HIP).page(SHEET).views
    (text,) = area_texts((label,), view)
    assert text.rotation_deg == pytest.approx(45)


def with_areas(*areas: AccessArea) -> Design:

    return replace(made(HIP).design, access_areas=areas, arrays=())


def test_modules_of_a_turned_building_are_drawn_where_they_lie() -> None:
    array = made(GARAGE).design.arrays[1]
    block = made(GARAGE).drawing.blocks["ARRAY-A2"].primitives
    inserts = [part for part in block if isinstance(part, Insert)]
    for module, insert in zip(array.modules, inserts, strict=True):
        assert insert.at == pytest.approx(surface_to_plan(array.plane, module.surface)[0])
        assert insert.rotation_deg == pytest.approx(30)  # front azimuth 160, of the house 190
