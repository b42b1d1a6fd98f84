"""S-601: every figure on it is one of the findings; zones are drawn where they are."""

from __future__ import annotations

import math
import re
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from shapely import LineString, Polygon, polygonize, union_all

from planset.drawing.page import KEY_PLAN_SCALES
from planset.drawing.primitives import Insert, Polyline, Primitive, Text
from planset.finding import Finding
from planset.sheets.load_rows import figure
from planset.sheets.zone_plan import EDGE_LAYER, OUTLINE_LAYER, ZONES
from tests.example_job import edited, hip_by_others
from tests.sheets.drawn_sets import Made, example, made_of, on_sheet, own_sheet

SHEET = "S-601"
EVERY = ("tile-gable", "cross-gable", "shingle-hip", "flat-commercial")
MOUNTED = ("tile-gable", "cross-gable")
PAIR = re.compile(r"(\d+)/(\d+)")
QUANTITY = re.compile(r"([0-9.]+) (LB-FT|IN|PSI)")


@cache
def made(name: str) -> Made:
    return own_sheet(name)


@cache
def changed(*edits: tuple[str, str]) -> Made:
    with TemporaryDirectory() as folder:
        return made_of(edited(Path(folder), *edits))


def words(of: Made) -> list[Text]:
    return [text for page in of.pages(SHEET) for text in of.words(page.sheet)]


def used(of: Made) -> list[Finding]:
    return [finding for finding in of.findings if finding.demand is not None]


def beside(of: Made, cell: Text) -> str:
    """What stands next to a cell on its line of the table, to the right."""
    page = next(p for p in of.pages(SHEET) if cell in of.words(p.sheet))
    right = [
        text
        for text in of.words(page.sheet)
        if math.isclose(text.at[1], cell.at[1], abs_tol=1e-6) and text.at[0] > cell.at[0]
    ]
    return min(right, key=lambda text: text.at[0]).text


@pytest.mark.parametrize("name", MOUNTED)
def test_demand_capacity_and_ratio_are_those_of_one_finding(name: str) -> None:
    of = made(name)
    listed = {
        (figure(f.demand, "lb"), figure(f.capacity, "lb"), f"{f.measured:.2f}")
        for f in used(of)
        if f.use_unit == "lb" and f.measured is not None
    }
    cells = [text for text in words(of) if PAIR.fullmatch(text.text)]
    assert cells
    for cell in cells:
        demand, capacity = cell.text.split("/")
        assert (demand, capacity, beside(of, cell)) in listed


@pytest.mark.parametrize("name", MOUNTED)
def test_figures_of_rails_and_rafters_are_those_of_findings(name: str) -> None:
    of = made(name)
    listed = {
        f"{figure(value, f.use_unit)} {f.use_unit.upper()}"
        for f in used(of)
        for value in (f.demand, f.capacity)
    }
    printed = {text.text for text in words(of) if QUANTITY.fullmatch(text.text)}
    assert printed
    assert printed <= listed
    assert {f"{f.measured:.2f}" for f in used(of) if f.measured is not None} <= {
        text.text for text in words(of)
    } | {f"{f.measured:.2f}" for f in used(of) if f.use_unit == "lb"}


@pytest.mark.parametrize("name", MOUNTED)
def test_the_greatest_uplift_of_every_zone_stands_there(name: str) -> None:
    of = made(name)
    cells = {text.text for text in words(of)}
    for array in of.design.loads.arrays:
        for zone in {load.zone for load in array.attachments}:
            in_zone = [load for load in array.attachments if load.zone == zone]
            worst = max(in_zone, key=lambda load: load.uplift_lb)
            assert any(cell.startswith(f"{worst.uplift_lb:.0f}/") for cell in cells)
            assert worst.attachment in cells


def zone_lines(of: Made) -> list[Primitive]:
    """What the blocks of the zones of all planes draw."""
    blocks = of.drawing.blocks
    return [
        part
        for insert in blocks[ZONES].primitives
        if isinstance(insert, Insert)
        for part in blocks[insert.block].primitives
    ]


@pytest.mark.parametrize("name", EVERY)
def test_zones_cover_every_plane_with_an_array(name: str) -> None:
    of = made(name)
    outlines = [
        LineString(part.points)
        for part in zone_lines(of)
        if isinstance(part, Polyline) and part.layer == OUTLINE_LAYER
    ]
    drawn = union_all(polygonize(outlines).geoms)
    for array in of.design.arrays:
        plane = Polygon(array.plane.outline, array.plane.holes)
        assert plane.difference(drawn).area < 1  # sq in


def test_the_attachment_plan_of_a_plane_shows_no_zone_of_another() -> None:
    of = made("cross-gable")
    for view in of.page("S-101").views:
        plane = view.title.partition(" PLANE")[0].lower()
        shown = [part.block for part in view.model if isinstance(part, Insert)]
        assert [name for name in shown if name.startswith(ZONES)] == [f"{ZONES}-ON-{plane}"]


@pytest.mark.parametrize("name", EVERY)
def test_what_the_zones_of_a_plane_draw_lies_on_it(name: str) -> None:
    of = made(name)
    for plane in of.design.roof.planes:
        block = of.drawing.blocks.get(f"{ZONES}-ON-{plane.id}")
        ground = Polygon(plane.outline, plane.holes).buffer(0.2)
        for part in block.primitives if block else ():
            assert isinstance(part, Polyline)
            assert ground.covers(LineString(part.points))


@pytest.mark.parametrize("name", EVERY)
def test_a_zones_name_stands_in_its_zone_and_off_the_modules(name: str) -> None:
    of = made(name)
    (view,) = of.page(SHEET).views
    arrays = {array.id for array in of.design.arrays}
    written = [part for part in view.annotation if isinstance(part, Text)]
    names = [text for text in written if text.text not in arrays]
    assert names
    for text in names:
        at = ((text.at[0] - view.at[0]) * view.scale.factor + view.window.x0,
              (text.at[1] - view.at[1]) * view.scale.factor + view.window.y0)  # fmt: skip
        plane = next(
            plane
            for building in of.design.loads.buildings.values()
            for plane in of.design.roof.planes
            if plane.id in building.planes
            and Polygon(plane.outline).covers(Polygon([at, at, at]).centroid)
        )
        u, v = plane.to_surface(at)
        plan = of.design.loads.buildings[plane.building].planes[plane.id].plans[0]
        zones = [
            region.zone
            for region in plan.regions
            if region.surface.covers(Polygon([(u, v)] * 3).centroid)
        ]
        assert text.text in zones
        for array in of.design.arrays:
            assert array.plane.id != plane.id or not array.hardware.holds((u, v))


@pytest.mark.parametrize("name", ["cross-gable", "flat-commercial"])  # on the largest sheets
def test_every_array_has_its_name_on_one_of_its_modules(name: str) -> None:
    of = made(name)
    (view,) = of.page(SHEET).views
    for array in of.design.arrays:
        (text,) = (t for t in view.annotation if isinstance(t, Text) and t.text == array.id)
        at = ((text.at[0] - view.at[0]) * view.scale.factor + view.window.x0,
              (text.at[1] - view.at[1]) * view.scale.factor + view.window.y0)  # fmt: skip
        on = array.plane.to_surface(at)
        assert any(module.surface.holds(on) for module in array.modules)


def test_no_note_speaks_of_loads_or_rafters_that_are_not_on_the_sheet() -> None:
    said = " ".join(text.text for text in words(made("flat-commercial")))
    assert "Not valid until reviewed" in said
    assert "rafter" not in said.lower()
    assert "demands by allowable stress design" not in said
    assert "before edge factor" in said  # of the pressures for its engineer


def test_a_span_table_of_another_edition_says_that_it_covers_no_rail() -> None:
    hooks = Path(__file__).parents[1] / "design" / "cross-gable-hooks.yaml"
    of = made_of(hooks, "24x36")  # ASCE 7-22, its maker's table is by 7-16
    rails = sum(len(loads.rails) for loads in of.design.loads.arrays)
    assert any(text.text.startswith(f"{rails} OF {rails}") for text in words(of))


@pytest.mark.parametrize("sheet", ["11x17", "18x24", "24x36"])
@pytest.mark.parametrize("name", ["cross-gable", "flat-commercial"])
def test_the_zones_of_long_roofs_fit_every_sheet(name: str, sheet: str) -> None:
    of = on_sheet(name, sheet)
    (view,) = of.page(SHEET).views
    assert view.scale in KEY_PLAN_SCALES
    assert not [text for text in of.failures() if SHEET in text]


def test_a_job_by_others_has_criteria_and_no_demand() -> None:
    with TemporaryDirectory() as folder:
        of = made_of(hip_by_others(Path(folder)), "24x36")
    cells = {text.text for text in words(of)}
    assert {"SITE CRITERIA", "VELOCITY PRESSURE qh", "MOUNTING BY OTHERS"} <= cells
    assert not any(PAIR.fullmatch(cell) for cell in cells)


def test_more_wind_shows() -> None:
    calm = example()
    windy = changed(("wind_speed: 110 mph", "wind_speed: 130 mph"))

    def most(of: Made) -> int:
        return max(int(t.text.split("/")[0]) for t in words(of) if PAIR.fullmatch(t.text))

    assert most(windy) > 1.3 * most(calm)  # (130/110)^2 is 1.40, less what dead load takes


def test_pages_of_the_examples_have_nothing_to_mend() -> None:
    for name in EVERY:
        assert made(name).failures() == []


BY_TEST = (
    "obstructions:\n",
    "engineering: {by: A. Engineer, edge_factor: exposed_panels}\nobstructions:\n",
)


def test_modules_near_exposed_ends_are_crossed_and_listed() -> None:
    of = changed(BY_TEST)
    (loads,) = of.design.loads.arrays
    near = {module.module for module in loads.exposed if module.edge_factor > 1}
    crossed = [p for p in zone_lines(of) if p.layer == EDGE_LAYER]
    assert near
    assert len(crossed) == 2 * len(near)
    listed = {name.strip(",") for text in words(of) for name in text.text.split()}
    assert near <= listed


def test_without_the_engineers_choice_none_is_crossed() -> None:
    layers = {part.layer for part in zone_lines(example())}
    assert EDGE_LAYER not in layers


def test_a_species_nobody_knows_is_said() -> None:
    of = changed(("species: douglas-fir-larch", "species: unknown"))
    (said,) = (a.text for a in of.design.assumptions if "not known" in a.text)
    assert "spruce-pine-fir-south, the weakest" in said
    assert of.design.fastenings[0].gravity == 0.36  # NDS 2018, Table 12.3.3A
