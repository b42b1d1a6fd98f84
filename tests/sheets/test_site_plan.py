"""C-101: what stands on it, to scale, on sheets of every size."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import ezdxf
import pytest
from ezdxf.document import Drawing as Dxf
from shapely.geometry import LineString, Polygon

from planset.design.design import Design
from planset.design.site import Site
from planset.drawing.page import SITE_SCALES, DrawingSet, Page
from planset.drawing.primitives import Dimension, Insert, Text
from planset.finding import Outcome
from planset.formats.dxf_write import write_dxf
from planset.review.run import review
from planset.rules.run import judge
from planset.sheets.set import build_set
from planset.units import format_feet_inches, parse_length
from tests.formats.dxf_checks import figure
from tests.sheets.drawn_sets import own_sheet, symbols, title_block

NAMES = ("tile-gable", "shingle-hip", "cross-gable", "flat-commercial", "battery-retrofit")
SIZES = ("11x17", "18x24", "24x36")


@cache
def alone(name: str, size: str) -> DrawingSet:
    """The site plan of an example without the other sheets."""
    design = own_sheet(name).design
    job = design.inputs.job
    only = job.drafting.model_copy(update={"sheets": ("C-101",)})
    inputs = replace_job(design, drafting=only)
    return build_set(inputs, judge(inputs), symbols(), title_block(size), preliminary=True)


def replace_job(design: Design, **changes: object) -> Design:
    from dataclasses import replace

    job = design.inputs.job.model_copy(update=changes)
    return replace(design, inputs=replace(design.inputs, job=job))


def page(name: str, size: str = "24x36") -> Page:
    return alone(name, size).pages[0]


def site(name: str) -> Site:
    found = own_sheet(name).design.site
    assert found is not None
    return found


def dimensions(name: str, size: str) -> list[Dimension]:
    (view,) = page(name, size).views
    return [part for part in view.annotation if isinstance(part, Dimension)]


def written(name: str, size: str = "24x36") -> set[str]:
    made = page(name, size)
    parts = [*made.paper, *(part for view in made.views for part in view.annotation)]
    return {part.text for part in parts if isinstance(part, Text)}


by_name = pytest.mark.parametrize("name", NAMES)
by_size = pytest.mark.parametrize("size", SIZES)


@by_name
@by_size
def test_nothing_to_mend_on_any_sheet(name: str, size: str) -> None:
    found = [f.message for f in review(alone(name, size)) if f.outcome is Outcome.FAIL]
    assert found == []


@by_name
@by_size
def test_it_is_drawn_to_a_standard_scale(name: str, size: str) -> None:
    (view,) = page(name, size).views
    assert view.scale in SITE_SCALES
    assert f"SCALE: {view.scale.label}" in written(name, size)
    assert {"TRUE", "NORTH"} <= written(name, size)


@by_name
@by_size
def test_walls_to_every_property_line_are_dimensioned_or_listed(name: str, size: str) -> None:
    house, *_ = site(name).buildings
    walls = Polygon(house.rings[0])
    drawn = [item.text for item in dimensions(name, size)]
    for line in site(name).lines:
        apart = walls.distance(LineString((line.a, line.b)))
        parts = 16 if apart < 120 else 2  # in the inch, below 10 ft and above
        figure = format_feet_inches(apart, denominator=parts, rounding="down")
        assert f"{figure} CLEAR" in drawn or f"HOUSE TO {line.id}" in written(name, size)
        assert figure in written(name, size)  # in the table


@by_name
def test_no_dimension_states_more_than_is_there(name: str) -> None:
    """Rounded down to the half inch: never more, and less by under a half."""
    for item in dimensions(name, "24x36"):
        assert -1e-6 <= item.value_in - parse_length(item.text.removesuffix(" CLEAR")) < 0.5


@by_name
def test_lot_street_and_equipment_are_named(name: str) -> None:
    words = written(name)
    for line in site(name).lines:
        assert any(text.startswith(f"{line.id}  ") for text in words)
    for street in site(name).streets:
        assert street.name.upper() in words
    assert {one.id for one in site(name).equipment} <= words
    (view,) = page(name).views
    marks = {part.identity for part in view.model if isinstance(part, Insert) and part.identity}
    assert marks == {f"SITE-{one.id}" for one in site(name).equipment}


def test_what_was_not_found_is_said() -> None:
    words = " ".join(sorted(written("shingle-hip")))
    assert "Looked for on the site: no other" in words


# --- read from the DXF ---------------------------------------------------------------------


@pytest.fixture(scope="module")
def dxf(tmp_path_factory: pytest.TempPathFactory) -> Dxf:
    path = Path(tmp_path_factory.mktemp("site")) / "planset.dxf"
    write_dxf(alone("tile-gable", "11x17"), path)
    return ezdxf.readfile(path)


def test_lot_lines_are_as_long_as_the_job_says(dxf: Dxf) -> None:
    """Corners of the job: 77 ft, the root of 3 and 100, of 74 and 2, 102 ft."""
    lines = dxf.blocks["PROPERTY"].query("LINE")
    lengths = sorted(line.dxf.start.distance(line.dxf.end) / 12 for line in lines)
    expected = sorted([77.0, (3**2 + 100**2) ** 0.5, (74**2 + 2**2) ** 0.5, 102.0])
    assert lengths == pytest.approx(expected)


def test_walls_and_lot_line_are_as_far_apart_as_dimensioned(dxf: Dxf) -> None:
    """26 ft from the front line to the front wall, 15 ft from the left line to the left wall."""
    (walls,) = dxf.blocks["WALLS"].query("LWPOLYLINE")
    corners = [(x, y) for x, y, *_ in walls.get_points()]
    lot = [point for line in dxf.blocks["PROPERTY"].query("LINE") for point in (line.dxf.start,)]
    assert min(y for _, y in corners) - min(p.y for p in lot) == pytest.approx(26 * 12)
    assert min(x for x, _ in corners) - min(p.x for p in lot) == pytest.approx(15 * 12)


def test_dimensions_measure_what_they_print(dxf: Dxf) -> None:
    """The job's own 26 and 15 ft; the others by hand from the corners of walls and lot."""
    found = dxf.modelspace().query("DIMENSION")
    printed = {figure(one).removesuffix(" CLEAR") for one in found}
    assert {"26'-0\"", "15'-0\"", "18'-3\"", "43'-5\""} <= printed
    for one in found:
        measured = one.dxf.defpoint2.distance(one.dxf.defpoint3)
        assert -1e-3 <= measured - parse_length(figure(one).removesuffix(" CLEAR")) < 0.5
