"""S-101: what is drawn and tagged, counted, noted, and that nothing on it collides."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from planset.design.design import Design, build_design
from planset.design.part_places import COUPLING, parts_of
from planset.design.racking import Attachment
from planset.drawing.flatten import rotated_text_box
from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Insert, Line, Text
from planset.errors import JobErrors
from planset.finding import Outcome
from planset.job.load import read_job
from planset.review.run import review
from planset.sheets.attachment_plan import build
from planset.sheets.attachment_plan_tables import diagonals, zone_counts
from planset.sheets.context import SheetContext, SheetEntry
from planset.sheets.part_symbols import COUPLING_RADIUS
from planset.sheets.racking_blocks import racking_block
from planset.sheets.slope_view import SlopeView
from planset.units import format_feet_inches, parse_length
from tests.example_job import edited
from tests.sheets.attachment_sheets import (
    attributes,
    drawn,
    example,
    lines,
    mounts_in,
    pages,
    plates,
    rows_under,
    tags,
    tapes_along,
    tapes_up,
    title_block,
    views,
    words,
)
from tests.sheets.drawn_sets import EXAMPLES, own_sheet, symbols
from tests.sheets.mounted_jobs import design_of

SIZES = ("11x17", "18x24", "24x36")
NAMES = ("tile-gable", "cross-gable", "shingle-hip", "shingle-across", "seam-across")
EVERY = [(name, size) for name in NAMES for size in SIZES]


def every_attachment(of: Design) -> list[Attachment]:
    return [one for rack in of.racking for one in rack.attachments]


@pytest.mark.parametrize(("name", "size"), EVERY)
def test_every_attachment_is_in_one_view_by_its_block(name: str, size: str) -> None:
    drawing = example(name, size)
    shown = [plates(drawing, view) for view in views(drawing)]
    counted = Counter(tag for found in shown for tag in found)
    assert counted == Counter(one.id for one in every_attachment(design_of(name)))
    for view, found in zip(views(drawing), shown, strict=True):
        assert all(view.frame.holds(point) for point in found.values())


@pytest.mark.parametrize(("name", "size"), EVERY)
def test_each_attachment_is_tagged_once_beside_its_plate(name: str, size: str) -> None:
    drawing = example(name, size)
    for view in views(drawing):
        up = all(rail.up for one in mounts_in(design_of(name), view) for rail in one.racking.rails)
        found = plates(drawing, view)
        written = words(view)
        for tag, (x, y) in found.items():
            (text,) = (part for part in written if part.text == tag)
            before = _left_of(text) if up else text.at
            near = min(found, key=lambda other: math.dist(found[other], before))
            assert near == tag
            assert text.at[0] - x < 0.4
            assert abs(text.at[1] - y) < 0.2


def _left_of(text: Text) -> Point:
    """Before a tag's first letter, where it touches the plate it names."""
    return (text.at[0] - 0.15, text.at[1])


@pytest.mark.parametrize(("name", "size"), EVERY)
def test_rails_are_tagged_and_what_they_stand_on_is_numbered(name: str, size: str) -> None:
    drawing = example(name, size)
    for view in views(drawing):
        written = Counter(text.text for text in words(view) if text.align == "middle")
        for one in mounts_in(design_of(name), view):
            assert all(written[rail.id] == 1 for rail in one.racking.rails)
            numbers = {str(item.line) for item in one.racking.attachments}
            assert all(written[number] == 1 for number in numbers)


@pytest.mark.parametrize(("name", "size"), EVERY)
def test_what_the_attachments_stand_on_is_drawn(name: str, size: str) -> None:
    for view in views(example(name, size)):
        shown = {part.block.partition("-")[0] for part in view.model if isinstance(part, Insert)}
        seams = name == "seam-across"
        assert ("SEAMS" in shown, "FRAMING" in shown) == (seams, not seams)
        assert tags(view)["SEAM" if seams else "RAFTER"] == 1


def test_one_rail_has_no_diagonals() -> None:
    for name in ("tile-gable", "shingle-across"):
        one = design_of(name).mounts[0]
        rack = one.racking
        held = tuple(item for item in rack.attachments if item.rail == rack.rails[0].id)
        alone = replace(rack, rails=rack.rails[:1], attachments=held)
        assert diagonals(replace(one, racking=alone)) == ()


@pytest.mark.parametrize(("name", "size"), EVERY)
def test_counts_of_the_tables_are_those_of_the_blocks(name: str, size: str) -> None:
    drawing, of = example(name, size), design_of(name)
    zones = {load.attachment: load.zone for load in of.loads.attachments}
    rows = [row for row in rows_under(drawing, "COUNTS") if row[0] != "TOTAL"]
    expected: list[list[str]] = []
    for one in of.mounts:
        block = drawing.blocks[racking_block(one.id)]
        plated = [part for part in block.primitives if isinstance(part, Insert)]
        shown = Counter(attributes(plated, "ZONE"))
        assert shown == Counter(zones[item.id] for item in one.racking.attachments)
        assert {zone: count for zone, _, count in zone_counts(of, one)} == shown
        expected += [
            [one.id, zone, str(rails), str(shown[zone])] for zone, rails, _ in zone_counts(of, one)
        ]
        expected.append([one.id, "ALL", str(len(one.racking.rails)), str(len(plated))])
    assert sorted(rows) == sorted(expected)


@pytest.mark.parametrize(("name", "size"), EVERY)
def test_the_schedule_lists_every_rail(name: str, size: str) -> None:
    drawing, of = example(name, size), design_of(name)
    for one in of.mounts:
        rows = rows_under(drawing, f"RAILS AND ATTACHMENTS, ARRAY {one.id}")
        assert [row[0] for row in rows] == [rail.id for rail in one.racking.rails]
        for rail, (_, line, _, length, count, first_last) in zip(
            one.racking.rails, rows, strict=True
        ):
            held = one.racking.by_rail[rail.id]
            ends = dict.fromkeys((held[0].line, held[-1].line))
            assert line == "-".join(map(str, ends))
            assert parse_length(length) == pytest.approx(rail.length_in, abs=1 / 16)
            assert int(count) == len(held)
            tagged = dict.fromkeys((held[0].id, held[-1].id))
            assert first_last.replace(" ", "") == "-".join(tagged)


@pytest.mark.parametrize("parts", ["", "+parts"])
@pytest.mark.parametrize(("name", "size"), EVERY)
def test_nothing_is_to_mend(name: str, size: str, parts: str) -> None:
    found = review(example(name + parts, size))
    assert [f.message for f in found if f.outcome is Outcome.FAIL and "S-101" in f.message] == []


@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_left_unnamed_on_a_large_sheet(name: str) -> None:
    assert rows_under(example(name, "24x36"), "NO ROOM ON THE PLAN, SEE THE TABLES") == []


@pytest.mark.parametrize("size", SIZES)
def test_the_plan_of_the_example_takes_one_page(size: str) -> None:
    drawing = example("tile-gable", size)
    assert [len(page.views) for page in pages(drawing)].count(1) == 1
    if size == "24x36":
        assert len(pages(drawing)) == 1


def context_of(of: Design, *sheets: str) -> SheetContext:
    index = tuple(SheetEntry(sheet, "A SHEET") for sheet in sheets)
    return SheetContext(of, (), index, symbols(), title_block("24x36"), "PRELIMINARY")


def noted(of: Design, *sheets: str) -> str:
    """All words beside the views of the sheet."""
    built = build(context_of(of, *sheets))
    return " ".join(t.text for sheet in built for t in sheet.paper if isinstance(t, Text))


@pytest.mark.parametrize(("name", "size"), EVERY)
def test_what_rafters_bear_on_is_drawn_and_named(name: str, size: str) -> None:
    of, drawing = design_of(name), example(name, size)
    seams = name == "seam-across"
    for view in views(drawing):
        plane = mounts_in(of, view)[0].array.plane
        surveyed = of.inputs.job.framing.supports_on(plane.id) if of.inputs.job.framing else None
        shown = [part for part in view.model if getattr(part, "layer", "") == "S-ROOF-SUPT"]
        written = " ".join(text.text for text in words(view))
        if seams or not surveyed:
            assert not shown
            assert "SUPPORT" not in written
            continue
        (insert,) = shown
        assert isinstance(insert, Insert)
        block = drawing.blocks[insert.block]
        runs = {
            round(plane.to_surface(end)[1] / plane.slope_factor, 1)  # the ridge is not quite there
            for part in block.primitives
            if isinstance(part, Line)
            for end in (part.a, part.b)
        }
        assert runs == set(surveyed)
        for at in surveyed:
            assert f"SUPPORT {format_feet_inches(at)}" in written


def test_notes_name_only_sheets_of_the_set() -> None:
    of = design_of("tile-gable")
    alone = noted(of, "S-101")
    assert "Rafters as surveyed" in alone
    assert "S-501" not in alone
    assert "S-601" not in alone
    both = noted(of, "S-101", "S-501", "S-601")
    assert "S-501" in both
    assert "S-601" in both


def test_notes_fit_the_family_and_the_parts() -> None:
    up, across, seams = map(noted, map(design_of, ("tile-gable", "shingle-across", "seam-across")))
    assert "same distance along the eave" in up
    assert "Heron foot: 1 in or more off a rail's end" in up
    assert "Heron coupling: 1/2 in between frames" in up
    assert "same distance from the eave" in across
    assert "Plover mid clamp: 1/2 in between frames" in across
    assert "solid wood" in across
    assert "Seams as surveyed" in seams
    assert "rafter" not in seams.lower()
    assert all("29 CFR 1926.501" in words for words in (up, across, seams))


def test_what_was_surveyed_is_noted_with_what_the_crew_does_about_it() -> None:
    said = noted(design_of("seam-across"))
    assert "string line, 2026-11-17" in said
    assert "front plane: eave out of straight by 3/8 in, surface uneven by 3/4 in" in said
    assert "right plane: eave out of straight by 1/2 in" in said
    assert "Stretch a string between the ends of the eave" in said
    assert "no part adjusts in height" in said
    assert "Stretch a string between the ends of the eave" not in noted(design_of("shingle-across"))


def test_mounting_by_others_has_no_such_sheet() -> None:
    of = design_of("flat-commercial")
    assert not of.mounts
    assert build(context_of(of, "S-101")) == ()


def test_a_job_by_others_that_asks_for_it_is_told(tmp_path: Path) -> None:
    text = (EXAMPLES / "flat-commercial" / "job.yaml").read_text(encoding="utf-8")
    job = tmp_path / "job.yaml"
    job.write_text(text.replace("A-101, ", "A-101, S-101, "), encoding="utf-8")
    with pytest.raises(JobErrors) as caught:
        read_job(job)
    (problem,) = caught.value.problems
    assert "S-101 lays out attachments, and every mounting is by others" in problem.message


def changed(*edits: tuple[str, str]) -> Design:
    with TemporaryDirectory() as folder:
        return build_design(read_job(edited(Path(folder), *edits)))


CUT = ("gap: 1/2 in\n", "gap: 1/2 in\n    omit: [{row: 1, column: 3}]\n")
"""A module left out of the lowest row, so that the rails over it begin higher."""


def test_rails_that_begin_higher_have_heights_of_their_own() -> None:
    of = changed(CUT, ("modules: 10, input: 2", "modules: 9, input: 2"))
    drawing = drawn(of, "24x36")
    starts = {rail.start_in for rail in of.racking[0].rails}
    assert len(starts) == 2
    heights = rows_under(drawing, "HEIGHTS OF ATTACHMENTS, ON SLOPE")
    assert len(heights) >= 2
    assert len({row[1] for row in rows_under(drawing, "RAIL KITS, ARRAY A1")}) == 2
    (view,) = views(drawing)
    assert {one.id for one in every_attachment(of)} <= set(tags(view))
    assert [f.message for f in review(drawing) if f.outcome is Outcome.FAIL] == []


@pytest.mark.parametrize(
    "edits",
    [
        [("spacing: 24 in", "spacing: 16 in")],
        [("pitch: 5:12", "pitch: 11:12")],
        [("- id: A1\n    plane: front", "- id: A1\n    plane: back")],
        [("wind_speed: 110 mph", "wind_speed: 150 mph")],
    ],
    ids=["close rafters", "steep", "on the back plane", "windy"],
)
def test_variants_have_nothing_to_mend(edits: list[tuple[str, str]]) -> None:
    for size in ("11x17", "24x36"):
        drawing = drawn(changed(*edits), size)
        found = review(drawing)
        assert [f.message for f in found if f.outcome is Outcome.FAIL] == []
        for view in views(drawing):
            assert tapes_along(view)
            assert tapes_up(view)


@pytest.mark.parametrize("name", NAMES)
def test_the_notes_stand_once(name: str) -> None:
    for size in SIZES:
        drawing = example(name, size)
        said = [line for page in pages(drawing) for line in lines(page, drawing)]
        assert said.count("NOTES FOR THE CREW") == 1


@pytest.mark.parametrize("size", SIZES)
def test_no_tag_stands_on_a_coupling(size: str) -> None:
    drawing = example("tile-gable", size)
    one = design_of("tile-gable").mounts[0]
    for view in views(drawing):
        slope = SlopeView(one.array.plane, view)
        middles = [slope.at(p.u_in, p.v_in) for p in parts_of(one) if p.kind == COUPLING]
        assert middles
        radius = COUPLING_RADIUS / view.scale.factor
        circles = [Box(x, y, x, y).grown(radius) for x, y in middles]
        tagged = [text for text in words(view) if text.text in plates(drawing, view)]
        assert tagged
        assert not [
            text.text for text in tagged if any(map(rotated_text_box(text).overlaps, circles))
        ]


@pytest.mark.parametrize("size", SIZES)
def test_the_words_along_a_support_stand_beside_its_line(size: str) -> None:
    design = design_of("cross-gable")
    found = 0
    for view in views(example("cross-gable", size)):
        plane = mounts_in(design, view)[0].array.plane
        slope = SlopeView(plane, view)
        for support in (line for line in design.bearings if line.plane == plane.id):
            named = f"SUPPORT {format_feet_inches(support.from_eave_in)} "
            for text in words(view):
                if text.text.startswith(named):
                    found += 1
                    box = rotated_text_box(text)
                    runs = [[slope.at(u, support.v_in)[0] for u in run] for run in support.spans]
                    assert any(left <= box.x0 and box.x1 <= right for left, right in runs)
    assert found


def test_what_stands_on_another_plane_of_the_view_says_so() -> None:
    """Beyond the hip of A1's plane lie the vent and the box of the right one."""
    made = own_sheet("shingle-hip")
    for sheet, names in (("S-101", ["V1", "V2"]), ("Z-101.1", ["JB1", "JB2", "V1", "V2"])):
        (view,) = made.page(sheet).views
        words = [part.text for part in view.annotation if isinstance(part, Text)]
        assert sorted(w for w in words if w.startswith(("V", "JB"))) == names
        assert words.count("RIGHT PLANE") == len([name for name in names if name.endswith("2")])
