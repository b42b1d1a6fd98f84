"""S-501 of jobs with several details, deep rafters, clamps; and what other sheets say of them."""

from __future__ import annotations

from functools import cache
from typing import get_args

import pytest

from planset.drawing.flatten import texts
from planset.drawing.furniture import BUBBLE
from planset.drawing.geometry import Placement, box_around
from planset.drawing.primitives import Dimension, Insert, Leader, Line, Polyline, Text
from planset.job.covering import Covering
from planset.sheets.cover_words import _UNDERFOOT
from planset.sheets.details.detail import details_of
from tests.sheets.detail_jobs import CLIPS, detail_of, job_of, made_of_job, of_two_systems
from tests.sheets.drawn_sets import Made, example, own_sheet

SHEET = "S-501"
ALL = ("G-001", "A-101", "S-101", "S-501", "S-601")


@cache
def two(size: str = "11x17") -> Made:
    return made_of_job(of_two_systems(), size, ALL)


@cache
def on_seams(kind: str = "clamp") -> Made:
    return made_of_job(job_of(kind), "11x17", ("G-001", "S-501", "S-601"))


def one_line(made: Made, sheet: str) -> str:
    return " ".join(line for page in made.pages(sheet) for line in made.lines(page.sheet))


# --- one detail or several -----------------------------------------------------------------


def test_arrays_on_the_same_mounting_share_a_detail() -> None:
    made = own_sheet("cross-gable")
    (found,) = details_of(made.design)
    assert found.array_ids == {array.id for array in made.design.mounted}
    assert len(found.arrays) > 1
    assert len(made.pages(SHEET)[0].views) == 2
    assert sum(len(page.views) for page in made.pages(SHEET)) == 2


@pytest.mark.parametrize("size", ["11x17", "24x36"])
def test_every_system_has_a_pair_of_views_on_a_sheet_of_its_own(size: str) -> None:
    made = two(size)
    assert made.failures() == []
    first, second, *further = made.pages(SHEET)
    assert [page.sheet for page in (first, second)] == ["S-501", "S-501.1"]
    assert [view.title for view in (*first.views, *second.views)] == [
        "HOOK ON CURVED TILE, ALONG THE RAFTER",
        "ACROSS THE SLOPE",
        "STANDOFF ON CURVED TILE, ALONG THE RAFTER",
        "ACROSS THE SLOPE",
    ]
    assert not any(page.views for page in further)
    shown = [
        part.block
        for page in (first, second)
        for view in page.views
        for part in view.model
        if isinstance(part, Insert)
    ]
    assert len(set(shown)) == 4
    assert set(shown) <= set(made.drawing.blocks)


def test_loads_beside_a_detail_are_those_of_its_own_arrays() -> None:
    made = two()
    for found in details_of(made.design):
        loads = [load for load in made.design.loads.attachments if load.array in found.array_ids]
        assert loads
        worst = max(load.uplift_lb for load in loads)
        assert f"{worst:.0f}" in made.lines(found.sheet)


def test_callouts_on_the_roof_plan_lead_to_the_detail_of_the_attachment_they_touch() -> None:
    made = two()
    (view,) = made.page("A-101").views
    tags = {
        at.id: found.sheet
        for found in details_of(made.design)
        for one in found.mounts
        for at in one.racking.attachments
    }
    ids = {text.text for text in texts(view.annotation, Placement(), made.drawing.blocks)}
    assert {"S-501", "S-501.1"} <= ids
    bubbles = [p for p in view.annotation if isinstance(p, Insert) and p.block == BUBBLE]
    assert len(bubbles) == 2
    for bubble in bubbles:
        led = [
            part
            for part in view.annotation
            if isinstance(part, Leader)
            and part.names in tags
            and abs(part.points[0][0] - bubble.at[0]) < 0.4
            and abs(part.points[0][1] - bubble.at[1]) < 0.4
        ]
        inside = [
            part.text
            for part in view.annotation
            if isinstance(part, Text)
            and abs(part.at[0] - bubble.at[0]) < 0.01
            and abs(part.at[1] - bubble.at[1]) < 0.3
        ]
        assert [tags[leader.names] for leader in led] == [
            text for text in inside if text.startswith("S-")
        ]


def test_the_crew_is_told_which_detail_is_of_which_array() -> None:
    assert "A1 1/S-501; A2 1/S-501.1." in one_line(two(), "S-101")
    assert "torques: 1/S-501." in one_line(example(), "S-101")


# --- rafters too deep to draw whole --------------------------------------------------------


@pytest.mark.parametrize("kind", ["hook", "foot", "post on tile"])
@pytest.mark.parametrize(("member", "depth"), [("2x10", 9.25), ("2x12", 11.25)])
def test_a_deep_rafter_is_cut_off_below_its_screws(kind: str, member: str, depth: float) -> None:
    # 2x10: 9-1/4 in, 2x12: 11-1/4 in (NDS Supplement 2018, Table 1A)
    made = detail_of(kind, "11x17", member)
    assert made.failures() == []
    parts = made.drawing.blocks["DETAIL-ALONG"].primitives
    lowest = min(
        box_around(part.points).y0
        for part in parts
        if isinstance(part, Polyline) and part.layer == "S-DETL-MBND" and len(part.points) == 5
    )
    below = min(part.a[1] for part in parts if isinstance(part, Line) and part.a[1] == part.b[1])
    breaks = [
        box_around(part.points)
        for part in parts
        if isinstance(part, Polyline)
        and part.points[0][1] == part.points[-1][1]
        and not part.closed
    ]
    (cut,) = [box for box in breaks if box.center[1] < lowest]
    assert -depth < cut.center[1] < lowest < 0
    assert below > cut.y0  # no foot of the rafter is drawn
    printed = [p.text for p in made.page(SHEET).views[0].annotation if isinstance(p, Dimension)]
    whole, quarter = divmod(depth, 1)
    assert quarter == 0.25
    assert f'{whole:.0f} 1/4"' not in printed  # what is not drawn is not dimensioned
    assert f"{whole:.0f} 1/4 in DEEP" in one_line(made, SHEET)


def test_a_rafter_that_is_drawn_whole_is_dimensioned() -> None:
    printed = [
        p.text
        for p in detail_of("foot").page(SHEET).views[0].annotation
        if isinstance(p, Dimension)
    ]
    assert '5 1/2"' in printed  # 2x6 (NDS Supplement 2018, Table 1A)
    assert "CUT OFF" not in one_line(detail_of("foot"), SHEET)


# --- clamps on seams on the other sheets ---------------------------------------------------


def test_load_tables_list_what_clamps_and_clips_hold() -> None:
    made = on_seams("clamp and clips")
    assert made.failures() == []
    said = one_line(made, "S-601")
    clamp = made.design.mounted[0].system.attachment
    held = {
        "UPLIFT": clamp.uplift,
        "DOWN": clamp.downward,
        "ALONG": clamp.along_slope,
    }
    for way, capacity in held.items():
        source = f"{capacity.document}, PAGE {capacity.page}".upper()
        assert f"DUNLIN CLAMP, {way} {capacity.capacity:.0f} {source}" in said
    source = CLIPS["document"].upper()
    assert f"PANEL CLIPS, UPLIFT 215 EACH, 24 in APART ALONG EVERY SEAM; {source}" in said
    assert "LAG" not in said.upper()


def test_load_tables_say_that_clips_are_not_stated() -> None:
    assert "PANEL CLIPS, UPLIFT OPEN NOT STATED IN THE JOB" in one_line(on_seams(), "S-601")


def test_the_cover_of_a_roof_of_panels_warns_of_panels_and_of_no_rafter() -> None:
    said = one_line(on_seams(), "G-001")
    assert "metal panels are slick" in said
    assert "misses its rafter" not in said
    assert "misses its rafter" in one_line(example(), "G-001")


def test_the_cover_knows_every_covering_underfoot() -> None:
    union, _ = get_args(Covering)
    kinds = {get_args(model.model_fields["kind"].annotation)[0] for model in get_args(union)}
    assert kinds == set(_UNDERFOOT)
