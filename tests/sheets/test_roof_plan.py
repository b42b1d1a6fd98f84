"""A-101 of the example: what stands on it is what the design says, once."""

from __future__ import annotations

import math
from collections import Counter, defaultdict

import pytest

from planset.design.access.area import AccessArea
from planset.design.layout import surface_to_plan
from planset.drawing.flatten import text_corners, texts
from planset.drawing.geometry import Box, Placement, box_around
from planset.drawing.primitives import Dimension, Insert, Line, Text
from planset.drawing.region import Region
from planset.drawing.text import text_box
from planset.units import parse_length
from tests.sheets.drawn_sets import example

SHEET = "A-101"
PLAN_STEP_IN = 0.5  # dimensions of the plan are printed to the half inch
CLEAR_STEP_IN = 1 / 16  # what is clear, below 10 ft
KINDS = {"pathway": "FIRE ACCESS PATHWAY", "ridge setback": "RIDGE SETBACK"}


def annotated() -> list[str]:
    return [text.text for text in example().annotated(SHEET)]


def dimensions() -> list[Dimension]:
    (view,) = example().page(SHEET).views
    return [part for part in view.annotation if isinstance(part, Dimension)]


def printed(item: Dimension) -> float:
    """The figure of a dimension without the words after it [in]."""
    return parse_length(item.text.partition('"')[0] + '"', "in")


def chained(item: Dimension) -> bool:
    """Whether a dimension belongs to a chain, not to an area that fire access keeps free."""
    return not item.text.endswith(("CLEAR", "MIN."))


def in_plan(area: AccessArea) -> Box:
    return box_around(surface_to_plan(example().design.roof.plane(area.plane), area.surface))


def areas() -> list[AccessArea]:
    found = list(example().design.access_areas)
    # A pathway on each plane and a setback on both sides of the ridge.
    assert sorted(area.kind for area in found) == ["pathway"] * 2 + ["ridge setback"] * 2
    return found


# --- tags and names ------------------------------------------------------------------------


def test_every_module_tag_stands_once_in_its_module() -> None:
    (view,) = example().page(SHEET).views
    words = example().annotated(SHEET)
    modules = [module for array in example().design.arrays for module in array.modules]
    assert len(modules) == 20
    for array in example().design.arrays:
        for module in array.modules:
            (tag,) = (text for text in words if text.text == module.id)
            corners = surface_to_plan(array.plane, module.surface)
            box = box_around(view.on_paper.apply(corner) for corner in corners)
            assert box.contains(Box(*tag.at, *tag.at)), module.id


def test_every_obstruction_is_tagged_once() -> None:
    counted = Counter(annotated())
    assert {item.id: counted[item.id] for item in example().design.obstructions} == {
        "V1": 1,
        "SK1": 1,
    }


def test_every_edge_is_named() -> None:
    words = annotated()
    assert words.count("EAVE") == 2
    assert words.count("RAKE") == 4
    assert words.count("RIDGE 44'-0\"") == 1  # the ridge length of the job


def test_everything_of_the_design_is_inserted_once() -> None:
    made = example()
    parts = [part for block in made.drawing.blocks.values() for part in block.primitives]
    for page in made.drawing.pages:
        parts += page.paper
        parts += [part for view in page.views for part in (*view.model, *view.annotation)]
    found = Counter(part.identity for part in parts if isinstance(part, Insert) and part.identity)
    design = made.design
    ids = [module.id for array in design.arrays for module in array.modules]
    ids += [attachment.id for rack in design.racking for attachment in rack.attachments]
    ids += [item.id for item in design.obstructions]
    assert len(ids) > 20
    assert {name: found[name] for name in ids} == dict.fromkeys(ids, 1)


# --- fire access ---------------------------------------------------------------------------


@pytest.mark.parametrize("number", range(4))
def test_an_access_area_is_hatched_all_over_and_nowhere_else(number: int) -> None:
    area = in_plan(areas()[number])
    block = example().drawing.blocks["FIRE-ACCESS"].primitives
    hatch = [p for p in block if isinstance(p, Line) and p.layer == "F-ROOF-ACCS-PATT"]
    boxes = [box_around((line.a, line.b)) for line in hatch]
    # Areas cross at their corners, but no line belongs to none.
    assert all(any(in_plan(a).contains(box) for a in areas()) for box in boxes)
    inside = [box for box in boxes if area.contains(box)]
    covered = box_around(corner for box in inside for corner in box.corners)
    assert covered.grown(12.0).contains(area)
    # At 6 in (setbacks) or 9 in apart; words take the rest.
    assert (
        sum(math.dist(b.corners[0], b.corners[2]) for b in inside) * 9
        > area.width * area.height / 2
    )


def test_no_line_of_the_hatch_strikes_words() -> None:
    (view,) = example().page(SHEET).views
    block = example().drawing.blocks["FIRE-ACCESS"].primitives
    hatch = [p for p in block if isinstance(p, Line) and p.layer == "F-ROOF-ACCS-PATT"]
    ends = [(view.on_paper.apply(line.a), view.on_paper.apply(line.b)) for line in hatch]
    words = [*texts(view.annotation, Placement(), example().drawing.blocks)]
    struck = [
        text.text
        for text in words
        for a, b in ends
        if Region.of(text_corners(text)).crossed_by(a, b)
    ]
    assert struck == []
    assert any(text.text.startswith("RIDGE 44") for text in words)  # it stands on a hatch


@pytest.mark.parametrize("number", range(4))
def test_an_access_area_says_what_it_is(number: int) -> None:
    area = areas()[number]
    (view,) = example().page(SHEET).views
    place = box_around(view.on_paper.apply(corner) for corner in in_plan(area).corners)
    inside = " ".join(
        text.text
        for text in example().annotated(SHEET)
        if text.layer == "F-ANNO-TEXT" and place.contains(Box(*text.at, *text.at))
    )
    assert KINDS[area.kind] in inside
    # IRC 2021 R324.6.1: pathways 36 in; R324.6.2: 18 in up to 33 % of the roof in plan.
    assert area.required_in == {"pathway": 36, "ridge setback": 18}[area.kind]
    assert f"{area.required_in:g} in MIN." in inside


def test_the_area_ratio_is_that_of_the_design() -> None:
    access = example().design.access
    lines = example().lines(SHEET)
    ratio = 100 * access.array_plan_area_sqin / access.roof_plan_area_sqin
    after = {label: lines[lines.index(label) + 1] for label in ("AREA RATIO", "ROOF, PLAN")}
    assert after == {"AREA RATIO": f"{ratio:.1f} % OF 33 %", "ROOF, PLAN": f"{44 * 34:.1f} SQ FT"}


def test_the_clear_pathway_is_that_of_the_design() -> None:
    strip = example().design.access.strips_on("front")[0]
    (shown,) = (d for d in dimensions() if d.text.endswith("CLEAR") and not d.on_slope)
    assert 0 <= strip.width_in - printed(shown) < CLEAR_STEP_IN
    assert shown.value_in == pytest.approx(strip.width_in)


def test_the_ridge_clearance_is_that_of_the_design_rounded_down() -> None:
    (ridge,) = example().design.access.ridges
    (shown,) = (d for d in dimensions() if d.text.endswith("CLEAR") and d.on_slope)
    assert 0 <= ridge.clear_in - printed(shown) < CLEAR_STEP_IN
    # The list beside the plan says the same, and the legend why the chain to the frames does not.
    figure = shown.text.partition(" ON")[0]
    assert f"MIN. 1'-6\", IS {figure}: PASS" in example().lines(SHEET)
    assert "MODULE; CLEAR: TO RAILS" in example().lines(SHEET)
    assert shown.value_in == pytest.approx(ridge.clear_in)


def test_what_is_kept_free_where_no_modules_lie_is_dimensioned_too() -> None:
    least = [d for d in dimensions() if d.text.endswith("MIN.")]
    # IRC 2021 R324.6.1: pathways 36 in; R324.6.2: 18 in at the ridge, both on the back plane.
    assert sorted(d.value_in for d in least) == pytest.approx([18, 36])
    assert {d.text for d in least} == {"3'-0\" MIN.", "1'-6\" ON SLOPE MIN."}


# --- dimensions ----------------------------------------------------------------------------


def test_the_dimensions_along_the_eave_add_up_to_it() -> None:
    eave = example().design.inputs.job.roof.ridge_length
    rows: dict[float, list[Dimension]] = defaultdict(list)
    for item in dimensions():
        if chained(item) and item.line_a[1] == pytest.approx(item.line_b[1]):
            rows[round(item.line_a[1], 6)].append(item)
    parts, whole = sorted(rows.values(), key=len, reverse=True)
    assert [printed(item) for item in whole] == [eave] == [528]  # 44 ft, as the job says
    assert len(parts) == 3
    assert sum(item.value_in for item in parts) == pytest.approx(eave)
    assert sum(map(printed, parts)) == pytest.approx(eave, abs=len(parts) * PLAN_STEP_IN / 2)
    parts.sort(key=lambda item: min(item.line_a[0], item.line_b[0]))
    assert [min(p.line_a[0], p.line_b[0]) for p in parts[1:]] == pytest.approx(
        [max(p.line_a[0], p.line_b[0]) for p in parts[:-1]]
    )


def test_the_dimensions_up_the_slope_add_up_to_it() -> None:
    plane = example().design.roof.plane("front")
    slope = max(v for _, v in plane.surface_outline)
    assert slope == pytest.approx(204 * 13 / 12)  # 17 ft in plan at 5:12: 5, 12 and 13
    along = [d for d in dimensions() if d.on_slope and chained(d)]
    *parts, whole = sorted(d.value_in for d in along)
    assert whole == pytest.approx(slope)
    assert sum(parts) == pytest.approx(slope)


def test_no_support_of_rafters_strikes_through_the_words_of_a_plane() -> None:
    (view,) = example().page(SHEET).views
    design = example().design
    texts = [part for part in view.annotation if isinstance(part, Text) and "AZIM." in part.text]
    assert len(texts) == 2
    for support in design.bearings:
        plane = design.roof.plane(support.plane)
        for run in support.spans:
            line = box_around(view.on_paper.apply(plane.to_plan((u, support.v_in))) for u in run)
            assert not any(
                text_box(t.text, t.at, t.height, t.align).overlaps(line.grown(1e-3)) for t in texts
            )
