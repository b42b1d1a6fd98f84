"""E-101: circuits, boxes and raceways stand where the design has them, walls at true size."""

from __future__ import annotations

import math
import re
from itertools import combinations
from pathlib import Path

import pytest
from shapely import LineString

from planset.drawing.flatten import rotated_text_box, texts
from planset.drawing.geometry import Box, Placement, box_around
from planset.drawing.page import View
from planset.drawing.primitives import Dimension, Insert, Leader, Line, Polyline, Text
from planset.finding import Outcome
from planset.review.run import review
from planset.units import parse_length
from tests.sheets.drawn_sets import Made, made_of, on_sheet, own_sheet
from tests.sheets.roof_jobs import array, house, write

SHEET = "E-101"
EXAMPLES = ("tile-gable", "cross-gable", "shingle-hip", "flat-commercial", "battery-retrofit")


def views(made: Made) -> list[View]:
    return [view for page in made.pages(SHEET) for view in page.views]


def words(made: Made, view: View) -> list[Text]:
    return list(texts(view.annotation, Placement(), made.drawing.blocks))


def every_line(made: Made) -> list[str]:
    return [line for page in made.pages(SHEET) for line in made.lines(page.sheet)]


def plan_parts(made: Made) -> list[View]:
    return [view for view in views(made) if view.title.startswith("ROOF")]


# --- circuits ------------------------------------------------------------------------------


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_module_has_its_circuit_and_number_once(name: str) -> None:
    made = own_sheet(name)
    tagged = [
        (text, view) for view in plan_parts(made) for text in words(made, view) if "-" in text.text
    ]
    electrical = made.design.electrical
    placed = {module.id: (a, module) for a in made.design.arrays for module in a.modules}
    for circuit in (*electrical.strings, *electrical.branches):
        for number, tag in enumerate(circuit.modules, 1):
            wanted = f"{circuit.id}-{number}"
            found = [(t, v) for t, v in tagged if t.text.rstrip("+-") == wanted]
            assert len(found) == 1, wanted
            text, view = found[0]
            array, module = placed[tag]
            ring = [
                view.on_paper.apply(array.plane.to_plan(corner))
                for corner in module.surface.corners
            ]
            assert box_around(ring).holds(text.at), wanted


def test_a_string_is_marked_at_the_ends_where_its_conductors_leave() -> None:
    made = own_sheet("tile-gable")
    (view,) = plan_parts(made)
    tags = [text.text for text in words(made, view)]
    assert [tag for tag in tags if tag.startswith("S") and tag.endswith("+")] == ["S1-1+", "S2-1+"]
    ends = [tag for tag in tags if tag.startswith("S") and tag.endswith("-")]
    assert ends == ["S1-10-", "S2-10-"]


def test_a_branch_has_no_polarity() -> None:
    made = own_sheet("shingle-hip")
    tags = [text.text for view in plan_parts(made) for text in words(made, view)]
    assert "B1-1" in tags
    assert not [tag for tag in tags if tag.startswith("B1-") and tag.endswith(("+", "-"))]


@pytest.mark.parametrize(
    ("name", "device"),
    [("tile-gable", 20), ("cross-gable", 21), ("shingle-hip", 22), ("flat-commercial", 198)],
)
def test_a_device_is_marked_under_each_module_and_counted(name: str, device: int) -> None:
    # Every device of these examples takes one module, by its catalog entry.
    made = own_sheet(name)
    block = made.drawing.blocks["MODULE-DEVICES"].primitives
    assert len(block) == device == made.design.module_count
    assert made.design.electrical.shutdown.devices == device
    assert any(f"({device})" in line for line in every_line(made))


# --- where things are said to be -----------------------------------------------------------


@pytest.mark.parametrize(
    ("size", "said"), [("24x36", "WORKING SPACE"), ("11x17", "WORKING SPACE, SEE E-101.1")]
)
def test_the_legend_says_where_working_spaces_are(size: str, said: str) -> None:
    made = on_sheet("shingle-hip", size)  # on the small sheet its wall stands on a page of its own
    plan = made.lines("E-101")
    assert said in plan
    assert ("EAST WALL" in plan) == (size == "24x36")


def test_raceways_that_leave_the_roof_together_share_a_leader() -> None:
    made = own_sheet("flat-commercial")
    (view,) = plan_parts(made)
    led = [part for part in view.annotation if isinstance(part, Leader)]
    assert len([part for part in led if part.names.startswith("RACEWAY-")]) == 1
    said = " ".join(text.text for text in words(made, view))
    assert "RACEWAYS OF RUNS DC FROM JB3, DC FROM JB1, DC FROM JB2 LEAVE THE ROOF HERE" in said


def test_the_height_of_working_spaces_stands_off_all_equipment() -> None:
    made = own_sheet("flat-commercial")
    (view,) = (view for view in views(made) if view.title == "EAST WALL")
    (height,) = (
        part
        for part in view.annotation
        if isinstance(part, Dimension) and part.text == "6'-6\"" and part.a[0] == part.b[0]
    )
    upright = [mark for mark in height.marks if isinstance(mark, Line) and mark.a[0] == mark.b[0]]
    (across,) = {round(mark.a[0], 6) for mark in upright}
    at = view.on_paper.apply((0.0, 0.0))[0]
    along_in = (across - at) * view.scale.factor
    boxes = equipment_boxes(made, 1).values()
    assert not any(box.x0 - 1.0 <= along_in <= box.x1 + 1.0 for box in boxes)  # an inch off


@pytest.mark.parametrize("size", ["18x24", "24x36"])
def test_a_wall_is_cut_at_whole_feet_from_its_ends(size: str) -> None:
    made = on_sheet("flat-commercial", size)
    said = " ".join(every_line(made))
    feet = [int(found) for found in re.findall(r"END OF WALL (\d+)'-0\" FROM HERE", said)]
    assert len(feet) == said.count("END OF WALL") == 2 * 2
    walls = made.design.inputs.job.electrical.walls
    for wall, left, right in zip(walls, feet[::2], feet[1::2], strict=True):
        assert left * 12 < min(item.left for item in wall.equipment)
        assert right * 12 < wall.width - max(item.left + item.width for item in wall.equipment)


# --- raceways ------------------------------------------------------------------------------


def test_the_legs_of_the_raceway_are_dimensioned_and_feed_the_drop() -> None:
    made = own_sheet("tile-gable")
    (view,) = plan_parts(made)
    shown = [part for part in view.annotation if isinstance(part, Dimension)]
    # By hand: from 26 in up to 8 in up, then from 404 1/2 in to 527 in along the eave.
    assert sorted(d.value_in for d in shown) == pytest.approx([18.0, 122.5])
    assert {d.text for d in shown} == {"1'-6\" ON SLOPE", "10'-2 1/2\""}
    wall_ft = 22.0  # of the job
    lengths = [
        segment.conductors.length_ft
        for segment in made.design.electrical.topology.segments_of("dc")
        if segment.conductors
    ]
    assert max(lengths) == pytest.approx((18.0 + 122.5) / 12 + wall_ft)


def test_a_leg_askew_on_the_slope_is_as_long_as_its_ends_are_apart_in_space() -> None:
    made = own_sheet("tile-gable")
    plane = made.design.roof.plane("front")
    a, b = (plane.lift(plane.to_plan(point)) for point in ((404.5, 26.0), (404.5, 8.0)))
    assert math.dist(a, b) == pytest.approx(18.0)


def test_boxes_and_raceway_stand_where_the_job_says() -> None:
    made = own_sheet("tile-gable")
    plane = made.design.roof.plane("front")
    (box,) = (p for p in made.drawing.blocks["JUNCTION-BOXES"].primitives if isinstance(p, Insert))
    # By hand: the front plane's eave runs along y = 0 from x = 0; up the slope counts by 12/13.
    assert box.at == pytest.approx((404.5, 26.0 * 12 / 13))
    (course,) = made.drawing.blocks["RACEWAY-DC-1"].primitives
    assert isinstance(course, Polyline)
    assert course.points[0] == pytest.approx(box.at)
    assert course.points[-1] == pytest.approx(plane.to_plan((527.0, 8.0)))


def test_array_conductors_end_at_their_box() -> None:
    made = own_sheet("cross-gable")
    runs = [p for p in made.drawing.blocks["HOME-RUNS"].primitives if isinstance(p, Line)]
    boxes = made.drawing.blocks["JUNCTION-BOXES"].primitives
    ends = [end for run in runs for end in (run.a, run.b)]
    assert len(boxes) == 3
    for box in boxes:
        assert isinstance(box, Insert)
        assert min(math.dist(end, box.at) for end in ends) == pytest.approx(0.0, abs=1e-3)


@pytest.mark.parametrize("name", EXAMPLES)
def test_array_conductors_are_drawn_once_where_they_lie_together(name: str) -> None:
    # Dashes of two lines in each other would read as one unbroken line, which is a raceway.
    made = own_sheet(name)
    runs = [p for p in made.drawing.blocks["HOME-RUNS"].primitives if isinstance(p, Line)]
    for one, other in combinations(runs, 2):
        shared = LineString([one.a, one.b]).intersection(LineString([other.a, other.b]))
        assert shared.length < 1e-3


def test_one_lug_is_shown_for_every_bonded_section() -> None:
    made = own_sheet("cross-gable")
    lugs = [
        part
        for array in made.design.arrays
        for part in made.drawing.blocks[f"WIRING-{array.id}"].primitives
        if isinstance(part, Insert) and part.block == "GROUNDING-LUG"
    ]
    steps = made.design.electrical.grounding
    assert len(lugs) == sum(step.lugs for step in steps) > 3
    rails = {
        rail.id: (one.array.plane, rail) for one in made.design.mounts for rail in one.racking.rails
    }
    for lug in lugs:
        tag = next(a.value for a in lug.attributes if a.tag == "RAIL")
        plane, rail = rails[tag]
        across, up = plane.to_surface(lug.at)
        along, beside = (up, across) if rail.up else (across, up)
        assert beside == pytest.approx(rail.line_in, abs=1e-6)
        assert rail.start_in - 1e-6 <= along <= rail.end_in + 1e-6


# --- walls ---------------------------------------------------------------------------------


def equipment_boxes(made: Made, number: int) -> dict[str, Box]:
    block = made.drawing.blocks[f"WALL-{number}"].primitives
    found = {}
    for part in block:
        if isinstance(part, Insert):
            (outline,) = made.drawing.blocks[part.block].primitives
            assert isinstance(outline, Polyline)
            found[part.identity.removesuffix("-WALL")] = box_around(outline.points)
    return found


@pytest.mark.parametrize("name", EXAMPLES)
def test_equipment_hangs_at_true_size_and_place(name: str) -> None:
    made = own_sheet(name)
    for number, wall in enumerate(made.design.inputs.job.electrical.walls, 1):
        drawn = equipment_boxes(made, number)
        assert set(drawn) == {item.tag for item in wall.equipment}
        for item in wall.equipment:
            box = drawn[item.tag]
            assert (box.x0, box.y0) == (item.left, item.bottom)
            assert (box.width, box.height) == pytest.approx((item.width, item.height))


@pytest.mark.parametrize("name", EXAMPLES)
def test_dimensions_on_walls_measure_what_is_drawn(name: str) -> None:
    made = own_sheet(name)
    for view in views(made):
        if view.title.startswith("ROOF"):
            continue
        for part in view.annotation:
            if isinstance(part, Dimension):
                drawn = math.dist(part.a, part.b) * view.scale.factor
                figure = parse_length(part.text.partition('"')[0] + '"', "in")
                assert figure == pytest.approx(drawn, abs=0.5)


def test_each_piece_is_named_in_elevation_and_in_plan() -> None:
    made = own_sheet("battery-retrofit")
    tags = {item.tag for wall in made.design.inputs.job.electrical.walls for item in wall.equipment}
    on_walls = [view for view in views(made) if not view.title.startswith("ROOF")]
    named = [text.text for view in on_walls for text in words(made, view)]
    assert tags == {"MSP", "M1", "DISC1", "ES1", "BLP", "INV1", "BAT1"}
    assert {tag: named.count(tag) for tag in tags} == dict.fromkeys(tags, 2)


def test_each_end_of_a_wall_is_told_over_the_line_it_speaks_of() -> None:
    made = own_sheet("cross-gable")
    (view,) = (view for view in views(made) if view.title == "EAST WALL OF THE GARAGE")
    middle = view.frame.center[0]
    told = {text.text: rotated_text_box(text) for text in words(made, view)}
    # The wall is 24 ft wide; 13 ft of it are shown, from 4 ft on.
    for line in ("LEFT END OF WALL", "4'-0\" FROM HERE"):
        assert told[line].x1 < middle
    for line in ("RIGHT END OF WALL", "7'-0\" FROM HERE"):
        assert told[line].x0 > middle


def test_a_piece_over_a_wider_one_has_its_height_dimensioned() -> None:
    made = own_sheet("cross-gable")
    assert "NOT NAMED ON THE VIEWS" not in every_line(made)
    (view,) = (view for view in views(made) if view.title == "EAST WALL OF THE GARAGE")
    heights = [part.text for part in view.annotation if isinstance(part, Dimension)]
    assert "4'-6\"" in heights  # the meter, 54 in, over the tap 24 in wide


# --- tables, notes -------------------------------------------------------------------------


def test_cautions_and_counts_stand_on_the_sheet() -> None:
    made = own_sheet("tile-gable")
    said = " ".join(every_line(made))
    for needed in ("SHOCK:", "licensed electrician", "Locate rafters", "seal every penetration"):
        assert needed in said
    # By hand: 20 modules 68.3 in apart take 4 clips each at 22 in, two steps of 45.1 in up 3 each;
    # from the ends of four rows to the edge at the box 101.3, 146.4, 191.5 and 236.6 in: 5, 7, 9
    # and 11.
    assert "118 in all, 86 on frames and 32 along" in said


def test_the_trunk_to_each_box_is_told_in_its_pitch() -> None:
    said = " ".join(every_line(own_sheet("shingle-hip")))
    # By hand: 234.1, 136.7 and 90.9 in (tests/design/test_naive_numbers.py).
    for way in ("B1 19.5 ft to JB1, 4 x", "B2 11.4 ft to JB1, 2 x", "B3 7.6 ft to JB2, 2 x"):
        assert way in said


def test_the_equipment_table_tells_where_each_box_stands() -> None:
    said = " ".join(every_line(own_sheet("tile-gable")))
    assert "33'-8 1/2\" ALONG THE EAVE FROM ITS LEFT END" in said  # 404 1/2 in


@pytest.mark.parametrize("size", ["11x17", "18x24", "24x36"])
@pytest.mark.parametrize("name", EXAMPLES)
def test_review_finds_nothing(name: str, size: str) -> None:
    made = on_sheet(name, size)
    faults = [f.message for f in review(made.drawing) if f.outcome is Outcome.FAIL]
    assert [message for message in faults if SHEET in message] == []


def test_what_stands_at_a_match_line_is_named_where_its_leader_may_end(tmp_path: Path) -> None:
    """Part 1 ends 1 in past the middle of OB2, at a scale where a dot reaches 2 in."""
    roof = {"shape": "gable", "ridge_length": 540, "depth": 216, "pitch": "11:12"}
    at = {"OB1": 120, "OB2": 257, "OB3": 400}
    vents = [
        {
            "id": name,
            "kind": "plumbing_vent",
            "plane": "front",
            "center": {"along": along, "up": 72},
            "clearance": 6,
            "diameter": 3,
        }
        for name, along in at.items()
    ]
    beside = array("A1", "back", 1, 3, (200, 60)) | {"orientation": "portrait"}
    job = house(roof | {"eave_overhang": 0}, [beside], obstructions=vents)
    job["drafting"]["sheets"] = ["G-001", SHEET]
    made = made_of(write(job, tmp_path))
    parts = plan_parts(made)
    assert len(parts) == 2
    assert [[t.text for t in words(made, p) if t.text in at] for p in parts] == [
        ["OB1"],
        ["OB2", "OB3"],
    ]
    assert made.failures() == []


def test_heights_on_a_wall_indoors_are_above_the_floor() -> None:
    made = own_sheet("battery-retrofit")
    below = [
        [text.text for text in words(made, view) if text.text in ("GRADE", "FLOOR")]
        for view in views(made)
        if view.title in ("EAST WALL, OUTDOORS", "EAST WALL OF THE GARAGE, INDOORS")
    ]
    assert below == [["GRADE"], ["FLOOR"]]
    told = " ".join(every_line(made))
    assert "3'-8\" ABOVE GRADE" in told  # MSP, 44 in, outdoors
    assert "1'-0\" ABOVE FLOOR" in told  # BAT1, 12 in, in the garage


def test_the_name_of_a_full_plane_stands_in_one_line_rather_than_on_lines() -> None:
    """Three lines beside the skylight would lie on its clearance and on the fire access."""
    named = [
        text
        for part in plan_parts(own_sheet("tile-gable"))
        for text in words(own_sheet("tile-gable"), part)
        if text.text.startswith("FRONT PLANE")
    ]
    assert [text.text for text in named] == ["FRONT PLANE, 5:12, AZIM. 190 DEG"]
