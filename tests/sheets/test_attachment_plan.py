"""S-101: every attachment is where its printed dimensions put it, and is counted once."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from planset.design.design import Design, build_design
from planset.design.layout import PlacedArray
from planset.design.racking import Attachment, Racking
from planset.drawing.dimension import ON_SLOPE
from planset.drawing.flatten import texts
from planset.drawing.geometry import Placement, Point
from planset.drawing.page import DrawingSet, Page, TitleBlock, View
from planset.drawing.primitives import Dimension, Insert, Text
from planset.errors import JobErrors
from planset.finding import Outcome
from planset.formats.dxf_read import read_title_block
from planset.job.load import read_job
from planset.resources import drawings_folder
from planset.review.run import review
from planset.rules.run import judge
from planset.sheets.attachment_plan import build
from planset.sheets.attachment_plan_tables import diagonals, zone_counts
from planset.sheets.context import SheetContext, SheetEntry
from planset.sheets.plan_blocks import racking_block
from planset.sheets.set import build_set
from planset.units import parse_length
from tests.example_job import edited
from tests.sheets.drawn_sets import EXAMPLES, symbols

SIZES = ("11x17", "18x24", "24x36")
NAMES = ("tile-gable", "cross-gable")
EVERY = [(name, size) for name in NAMES for size in SIZES]
HALF_INCH = 0.5


@cache
def design(name: str) -> Design:
    return build_design(read_job(EXAMPLES / name / "job.yaml"))


@cache
def title_block(size: str) -> TitleBlock:
    return read_title_block(drawings_folder("titleblocks") / f"strip-{size}.dxf")


def only_plan(of: Design) -> Design:
    """The same design with this sheet and the details it names."""
    job = of.inputs.job
    drafting = job.drafting.model_copy(update={"sheets": ("S-101", "S-501")})
    inputs = replace(of.inputs, job=job.model_copy(update={"drafting": drafting}))
    return replace(of, inputs=inputs)


def drawn(of: Design, size: str) -> DrawingSet:
    return build_set(only_plan(of), judge(of), symbols(), title_block(size), preliminary=True)


@cache
def example(name: str, size: str) -> DrawingSet:
    return drawn(design(name), size)


def pages(drawing: DrawingSet) -> list[Page]:
    return [page for page in drawing.pages if page.sheet.partition(".")[0] == "S-101"]


def views(drawing: DrawingSet) -> list[View]:
    return [view for page in pages(drawing) for view in page.views]


def racks_in(of: Design, view: View) -> list[tuple[PlacedArray, Racking]]:
    shown = {part.block for part in view.model if isinstance(part, Insert)}
    pairs = zip(of.mounted, of.racking, strict=True)
    return [pair for pair in pairs if racking_block(pair[0].id) in shown]


def plates(drawing: DrawingSet, view: View) -> dict[str, Point]:
    """Where the blocks of a view put each attachment on paper, by its id."""
    found: dict[str, Point] = {}
    for part in view.model:
        if isinstance(part, Insert) and part.block.startswith("RACKING-"):
            outer = Placement(part.at, part.rotation_deg, part.scale).within(view.on_paper)
            for plate in drawing.blocks[part.block].primitives:
                if isinstance(plate, Insert):
                    assert plate.identity not in found
                    found[plate.identity] = outer.apply(plate.at)
    return found


def tapes(view: View) -> tuple[list[Dimension], list[Dimension]]:
    """Dimensions along the eave, and up the slope."""
    made = [part for part in view.annotation if isinstance(part, Dimension)]
    return [d for d in made if not d.on_slope], [d for d in made if d.on_slope]


def printed(dimension: Dimension) -> float:
    return parse_length(dimension.text.removesuffix(ON_SLOPE).strip())


def lines(page: Page, drawing: DrawingSet) -> list[str]:
    return [text.text for text in texts(page.paper, Placement(), drawing.blocks)]


def tags(view: View) -> Counter[str]:
    return Counter(part.text for part in view.annotation if isinstance(part, Text))


def every_attachment(of: Design) -> list[Attachment]:
    return [one for rack in of.racking for one in rack.attachments]


@pytest.mark.parametrize(("name", "size"), EVERY)
def test_every_attachment_is_in_one_view_by_its_block(name: str, size: str) -> None:
    drawing = example(name, size)
    shown = [plates(drawing, view) for view in views(drawing)]
    counted = Counter(tag for found in shown for tag in found)
    assert counted == Counter(one.id for one in every_attachment(design(name)))
    for view, found in zip(views(drawing), shown, strict=True):
        assert all(view.frame.holds(point) for point in found.values())


@pytest.mark.parametrize(("name", "size"), EVERY)
def test_each_attachment_is_tagged_once_beside_its_plate(name: str, size: str) -> None:
    drawing = example(name, size)
    for view in views(drawing):
        found = plates(drawing, view)
        written = [part for part in view.annotation if isinstance(part, Text)]
        for tag, (x, y) in found.items():
            (text,) = (part for part in written if part.text == tag)
            near = min(found, key=lambda other: math.dist(found[other], _left_of(text)))
            assert near == tag
            assert text.at[0] - x < 0.4
            assert abs(text.at[1] - y) < 0.2


def _left_of(text: Text) -> Point:
    """Before a tag's first letter, where it touches the plate it names."""
    return (text.at[0] - 0.15, text.at[1])


@pytest.mark.parametrize(("name", "size"), EVERY)
def test_rails_are_tagged_and_rafters_numbered(name: str, size: str) -> None:
    drawing = example(name, size)
    for view in views(drawing):
        written = tags(view)
        for _, rack in racks_in(design(name), view):
            for rail in rack.rails:
                assert written[rail.id] == 1
                assert written[str(rack.by_rail[rail.id][0].line)] == 1


@pytest.mark.parametrize(("name", "size"), EVERY)
def test_printed_dimensions_alone_rebuild_every_attachment(name: str, size: str) -> None:
    """The requirement: each position within 1/2 in from what the tapes print."""
    drawing = example(name, size)
    for view in views(drawing):
        along, up = tapes(view)
        found = plates(drawing, view)
        for _, rack in racks_in(design(name), view):
            for one in rack.attachments:
                x, y = found[one.id]
                (across,) = (d for d in along if abs(d.b[0] - x) < 0.005)
                (height,) = (d for d in up if abs(d.b[1] - y) < 0.005)
                assert printed(across) == pytest.approx(one.u_in, abs=HALF_INCH)
                assert printed(height) == pytest.approx(one.v_in, abs=HALF_INCH)


@pytest.mark.parametrize(("name", "size"), EVERY)
def test_tapes_run_from_one_datum_and_say_what_lies_on_the_slope(name: str, size: str) -> None:
    for view in views(example(name, size)):
        along, up = tapes(view)
        assert len({d.a for d in along}) == 1
        assert len({d.a for d in up}) == 1
        assert all(d.text.endswith(ON_SLOPE) for d in up)
        origin = view.on_paper.apply((0.0, 0.0))  # the left end of the eave
        assert along[0].a[0] == pytest.approx(origin[0])
        assert up[0].a[1] == pytest.approx(origin[1])


@pytest.mark.parametrize("name", NAMES)
def test_diagonals_are_those_of_the_corners(name: str) -> None:
    of = design(name)
    drawing = example(name, "24x36")
    cells = [line for page in pages(drawing) for line in lines(page, drawing)]
    for array, rack in zip(of.mounted, of.racking, strict=True):
        us = [one.u_in for one in rack.attachments]
        vs = [one.v_in for one in rack.attachments]
        whole = math.hypot(max(us) - min(us), max(vs) - min(vs))
        both = diagonals((array, rack))
        assert [round(length, 6) for *_, length in both] == [round(whole, 6)] * 2
        for low, high, _ in both:
            row = cells.index(f"{low.id} TO {high.id}")
            assert parse_length(cells[row + 1]) == pytest.approx(whole, abs=1 / 32)


def test_one_rail_has_no_diagonals() -> None:
    of = design("tile-gable")
    rack = of.racking[0]
    held = tuple(one for one in rack.attachments if one.rail == rack.rails[0].id)
    alone = replace(rack, rails=rack.rails[:1], attachments=held)
    assert diagonals((of.mounted[0], alone)) == ()


@pytest.mark.parametrize(("name", "size"), EVERY)
def test_counts_of_the_tables_are_those_of_the_blocks(name: str, size: str) -> None:
    drawing, of = example(name, size), design(name)
    zones = {load.attachment: load.zone for load in of.loads.attachments}
    for pair in zip(of.mounted, of.racking, strict=True):
        array, rack = pair
        block = drawing.blocks[racking_block(array.id)]
        plated = [part for part in block.primitives if isinstance(part, Insert)]
        shown = Counter(
            next(a.value for a in part.attributes if a.tag == "ZONE") for part in plated
        )
        assert {zone: count for zone, _, count in zone_counts(of, pair)} == shown
        assert shown == Counter(zones[one.id] for one in rack.attachments)
        cells = [line for page in pages(drawing) for line in lines(page, drawing)]
        rows = list(zip(cells, cells[1:], cells[2:], cells[3:], strict=False))
        for zone, rails, count in zone_counts(of, pair):
            assert (array.id, zone, str(rails), str(count)) in rows
        assert (array.id, "ALL", str(len(rack.rails)), str(len(plated))) in rows


@pytest.mark.parametrize(("name", "size"), EVERY)
def test_the_schedule_lists_every_rail(name: str, size: str) -> None:
    drawing, of = example(name, size), design(name)
    cells = [line for page in pages(drawing) for line in lines(page, drawing)]
    for rack in of.racking:
        for rail in rack.rails:
            row = cells.index(rail.id)
            rafter, along, length, count, first_last = cells[row + 1 : row + 6]
            held = [one.id for one in rack.attachments if one.rail == rail.id]
            assert int(rafter) == rack.by_rail[rail.id][0].line
            assert parse_length(along) == pytest.approx(rail.line_in, abs=1 / 32)
            assert parse_length(length) == pytest.approx(rail.length_in, abs=1 / 16)
            assert int(count) == len(held)
            assert first_last == f"{held[0]}-{held[-1]}"


@pytest.mark.parametrize(("name", "size"), EVERY)
def test_nothing_is_to_mend(name: str, size: str) -> None:
    found = review(example(name, size))
    assert [f.message for f in found if f.outcome is Outcome.FAIL and "S-101" in f.message] == []


@pytest.mark.parametrize("size", SIZES)
def test_the_example_takes_one_page(size: str) -> None:
    assert len(pages(example("tile-gable", size))) == 1


def test_notes_name_only_sheets_of_the_set() -> None:
    context = SheetContext(
        design("tile-gable"),
        (),
        (SheetEntry("S-101", "ATTACHMENT PLAN"),),
        symbols(),
        title_block("24x36"),
        "PRELIMINARY",
    )
    written = [t.text for sheet in build(context) for t in sheet.paper if isinstance(t, Text)]
    assert any("Rafters as surveyed" in line for line in written)
    assert not any("S-501" in line or "S-601" in line for line in written)


def test_mounting_by_others_has_no_such_sheet() -> None:
    index = (SheetEntry("S-101", "ATTACHMENT PLAN"),)
    of = design("shingle-hip")
    assert not of.mounted
    context = SheetContext(of, (), index, symbols(), title_block("24x36"), "PRELIMINARY")
    assert build(context) == ()


def test_a_job_by_others_that_asks_for_it_is_told(tmp_path: Path) -> None:
    text = (EXAMPLES / "shingle-hip" / "job.yaml").read_text(encoding="utf-8")
    job = tmp_path / "job.yaml"
    job.write_text(text.replace("[G-001, A-101, ", "[G-001, A-101, S-101, "), encoding="utf-8")
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
    (page,) = pages(drawing)
    cells = lines(page, drawing)
    starts = {rail.start_in for rail in of.racking[0].rails}
    assert len(starts) == 2
    first = cells.index("UP FROM THE EAVE")
    rows = [cell for cell in cells[first:] if cell.startswith("A1")]
    assert len(rows) >= 2
    (view,) = page.views
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
            along, up = tapes(view)
            assert along
            assert up
