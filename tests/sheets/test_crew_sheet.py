"""The crew sheet: what is stretched, built, set and signed, against the jobs' own measures."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

import pytest
import shapely
from shapely import LineString

from planset.design.electrical.boxes import placed_boxes
from planset.design.electrical.lugs import lugs
from planset.drawing.flatten import rotated_text_box
from planset.drawing.geometry import Box, distance
from planset.drawing.layers import LAYERS, LINETYPES
from planset.drawing.primitives import Insert, Line, Text
from planset.sheets.crew_lines import STRINGS, string_lines
from planset.sheets.crew_words import order_of_work
from planset.sheets.details.tables import settings
from planset.sheets.electrical_blocks import BOXES
from planset.sheets.legend import line
from planset.sheets.slope_view import SlopeView
from planset.sheets.words import capitals
from tests.example_job import edited
from tests.sheets.detail_jobs import KINDS, job_of, made_of_job
from tests.sheets.drawn_sets import Made, example, made_of, on_sheet, own_sheet

SHEET = "Z-101"
EVERY = ("tile-gable", "shingle-hip", "cross-gable", "flat-commercial")


def words(of: Made) -> str:
    """All that stands on the crew sheet and what runs over from it, in one line."""
    return " ".join(line for page in of.pages(SHEET) for line in of.lines(page.sheet))


def test_one_string_lines_up_the_rails_of_the_example() -> None:
    (string,) = string_lines(example().design.mounts[0])
    assert (string.first, string.last) == ("R1", "R15")
    assert string.brought == tuple(f"R{n}" for n in range(2, 15))
    # The frames begin 20 in up, the rails 1 in below them, on rafters 3 to 17 at 24 in from 12 in.
    assert string.a == pytest.approx((60, 19))
    assert string.b == pytest.approx((60 + 14 * 24, 19))


def test_rails_that_end_elsewhere_have_a_string_of_their_own() -> None:
    # Rows of 5, 6 and 5 from one left end: the middle row's rails end a module farther right.
    mount = own_sheet("shingle-hip").design.mounts[0]
    strings = {(one.first, one.last): one for one in string_lines(mount)}
    assert len(string_lines(mount)) == 3
    assert strings["R3", "R4"].brought == ()
    right = [one for one in string_lines(mount) if one.brought == ("R2", "R5")]
    assert [(one.first, one.last) for one in right] == [("R1", "R6")]


@pytest.mark.parametrize("name", ["cross-gable", "shingle-hip"])
def test_no_tag_of_an_attachment_stands_on_a_grounding_lug(name: str) -> None:
    of = own_sheet(name)
    roof = of.design.roof
    arrays = {one.array.id: one for one in of.design.mounts}
    tags, struck = 0, []
    for page in of.pages(SHEET):
        for view in page.views:
            plane = view.title.partition(" PLANE")[0].lower()
            on = SlopeView(roof.plane(plane), view)
            ours = [one for one in arrays.values() if one.array.plane.id == plane]
            ids = {item.id for one in ours for item in one.racking.attachments}
            words = [t for t in view.annotation if isinstance(t, Text) and t.text in ids]
            tags += len(words)
            rings = [
                Box(*on.at(*lug.at), *on.at(*lug.at)).grown(3.0 / view.scale.factor)
                for lug in lugs(of.design)
                if arrays[lug.array] in ours
            ]
            struck += [t.text for t in words if any(rotated_text_box(t).overlaps(r) for r in rings)]
    assert tags > 30
    assert not struck


def test_strings_and_both_diagonals_are_drawn_where_they_are_stretched() -> None:
    of = example()
    (view,) = [view for page in of.pages(SHEET) for view in page.views]
    lines = [part for part in view.annotation if isinstance(part, Line) and part.layer == STRINGS]
    level = [line for line in lines if abs(line.a[1] - line.b[1]) < 1e-6]
    assert len(level) == 1
    # Corner hooks 28 ft apart along the eave and 14 ft up a 5:12 slope, which plans foreshorten.
    run = 168 / (1 + (5 / 12) ** 2) ** 0.5
    for falls in (False, True):
        pieces = [line for line in lines if line not in level and _falls(line) == falls]
        ends = sorted(end for line in pieces for end in (line.a, line.b))
        length = distance(ends[0], ends[-1]) * view.scale.factor
        # From corner to corner, but for the tag of a corner that may cover its end.
        assert 0 <= (336**2 + run**2) ** 0.5 - length < 2 * 0.3 * view.scale.factor
        (x0, y0), (x1, y1) = ends[0], ends[-1]
        assert abs(y1 - y0) / (x1 - x0) == pytest.approx(run / 336)


def _falls(line: Line) -> bool:
    """Whether a line goes down toward the right."""
    return (line.b[1] - line.a[1]) * (line.b[0] - line.a[0]) < 0


def test_no_diagonal_strikes_through_a_tag() -> None:
    """Most of 75 tags 2 ft apart have no place beside the diagonals, which give way to them."""
    (view,) = [view for page in example().pages(SHEET) for view in page.views]
    lines = [part for part in view.annotation if isinstance(part, Line) and part.layer == STRINGS]
    tags = [rotated_text_box(part) for part in view.annotation if isinstance(part, Text)]
    met = [
        tag
        for tag in tags
        for line in lines
        if LineString((line.a, line.b)).intersects(shapely.box(tag.x0, tag.y0, tag.x1, tag.y1))
    ]
    assert met == []


def test_the_table_tells_the_diagonals_as_they_are_measured() -> None:
    of = example()
    assert words(of).count("31'-3 11/16\"") == 2  # (336^2 + 168^2)^(1/2) = 375.66 in


def test_a_kit_is_marked_from_its_lower_end() -> None:
    # First hook 7 in from the end, every 42 in; feet where the rail meets the long edges of frames
    # 44.6 in high, 1/2 in apart, the first 1 in from the end.
    said = words(example())
    assert 'ATTACHMENTS (5): 7", 4\'-1", 7\'-7", 11\'-1", 14\'-7"' in said
    assert 'FEET (5): 1", 3\'-9 7/8", 7\'-6 15/16", 11\'-4 1/16", 15\'-0 7/8"' in said


def test_a_spliced_kit_tells_what_carries_its_last_piece() -> None:
    said = words(own_sheet("cross-gable"))
    assert "b STANDS ON THE LAST 2 ATTACHMENTS" in said
    assert "b STANDS ON THE LAST ATTACHMENT" in said
    # R1 ends on its last post at 16'-4", the end of its sleeve of 12 in
    assert "SPLICE AT 15'-10\", OVER AN ATTACHMENT" in said


@pytest.mark.parametrize("name", EVERY)
def test_every_setting_and_torque_stands_there_with_its_document(name: str) -> None:
    of = own_sheet(name)
    said = words(of)
    for one in of.design.mounts:
        for _, setting in settings([one]):
            assert capitals(setting) in said


def test_nobody_signs_for_a_splice_where_no_rail_has_one() -> None:
    assert "SPLICE 12 FT-LB" not in words(example())
    assert "HERON SPLICE" not in words(example())
    assert "PLOVER SPLICE BAR SPLICE BOLTS 15 FT-LB" in words(own_sheet("shingle-hip"))


@pytest.mark.parametrize("name", EVERY)
def test_holds_come_first_last_and_before_modules(name: str) -> None:
    of = own_sheet(name)
    steps = order_of_work(of.design)
    assert steps[0].hold
    assert steps[-1].hold
    first_module = next(n for n, step in enumerate(steps) if step.words.startswith("Modules from"))
    assert any(step.hold for step in steps[1:first_module])
    said = words(of)
    assert len(re.findall(r"\bHOLD\b", said)) >= sum(step.hold for step in steps)
    assert "29 CFR 1926.501" in said
    assert "Modules are live in daylight" in said


def test_words_for_the_roof_are_large() -> None:
    beside_no_view = [page for page in example().pages(SHEET) if not page.views]
    heights = [
        part.height for page in beside_no_view for part in page.paper if isinstance(part, Text)
    ]
    assert len(heights) > 50
    assert min(heights) >= 1 / 8


def test_mounting_by_others_stops_the_work() -> None:
    said = words(own_sheet("flat-commercial"))
    assert "by the drawings of its designer" in said
    assert "KIT" not in said


@pytest.mark.parametrize("name", EVERY)
def test_every_junction_box_is_drawn_named_and_measured(name: str) -> None:
    of = own_sheet(name)
    shown = {box.plane.id for box in placed_boxes(of.design)}
    views = [view for page in of.pages(SHEET) for view in page.views]
    inserted = [p for v in views for p in v.model if isinstance(p, Insert) and p.block == BOXES]
    assert len(inserted) == len(shown)
    named = [p.text for v in views for p in v.annotation if isinstance(p, Text)]
    for box in placed_boxes(of.design):
        assert box.id in named


def test_a_box_is_measured_from_the_datum_of_its_array() -> None:
    # along: 404-1/2 in, up: 26 in, the front eave uninterrupted
    assert "JB1 A1 33'-8 1/2\" 2'-2\" S1, S2" in words(example())
    # The front eave between the wings starts where the western one ends: 2 ft and 24 ft along.
    of = own_sheet("cross-gable")
    (box,) = (box for box in placed_boxes(of.design) if box.id == "JB1")
    assert box.at[0] - 312 == pytest.approx(29)
    assert "JB1 A1 2'-5\" 3'-4\" S1" in words(of)


@pytest.mark.parametrize(
    ("name", "said"),
    [
        # 10 x 37.4 V, of the data sheet at 25 C; 10 devices that leave 0.7 V
        (
            "tile-gable",
            ("S1, S2 374.0 V each with cells at 25 C", "devices off: S1, S2 7.0 V each"),
        ),
        # 18 x 37.4 V, 18 x 0.7 V
        ("flat-commercial", ("S1-S11 673.2 V each", "devices off: S1-S11 12.6 V each")),
        # 9 and 6 converters that leave 1 V
        ("cross-gable", ("while they are off: S1 9.0 V and S2, S3 6.0 V each",)),
    ],
)
def test_the_string_test_tells_what_each_string_reads(name: str, said: tuple[str, ...]) -> None:
    of = own_sheet(name)
    (step,) = (s for s in order_of_work(of.design) if s.words.startswith("Home runs"))
    assert all(words in step.words for words in said)


@pytest.mark.parametrize("kind", KINDS)
def test_bonding_is_told_as_the_system_is_listed(kind: str) -> None:
    of = made_of_job(job_of(kind), sheets=("G-001", SHEET))
    system = of.design.mounts[0].array.system
    (step,) = (s for s in order_of_work(of.design) if s.words.startswith("Bonding"))
    assert system.bonding.listing in step.words
    assert f"{system.bonding.document}, page {system.bonding.page}" in step.words
    assert ("splices do not bond" in step.words) == bool(
        system.rail.splice and not system.bonding.splices_bond
    )
    assert any(s.words.startswith("Grounding conductor, ") for s in order_of_work(of.design))
    assert [text for text in of.failures() if "Sheet Z-" in text] == []


def test_a_screw_is_given_its_pilot_hole_and_its_length_in_the_wood() -> None:
    # less the plate, the deck, the felt and the tip (NDS 2018, Appendix L)
    held = example().design.mounts[0].fastening
    assert held is not None
    (step,) = (s for s in order_of_work(example().design) if "pilot holes" in s.words)
    assert "pilot holes 3/16 in" in step.words
    printed = re.search(r"3 1/2 in, (\d) (\d+)/(\d+) in of thread in the wood", step.words)
    assert printed
    whole, over, under = map(int, printed.groups())
    assert 0 <= held.penetration_in - (whole + over / under) < 1 / 16


def test_up_is_told_with_its_screws_and_the_window_of_an_arm() -> None:
    # Arm to plate 5-1/2 in, 1-1/4 in to a screw, 3-1/2 in to the next; arms 1 in below noses.
    steps = [step.words for step in order_of_work(example().design)]
    (mark,) = (words for words in steps if "UP is the" in words)
    assert 'UP is the face of the hook\'s arm; lags 6 3/4" and 10 1/4" above it.' in mark
    (window,) = (words for words in steps if "leaves at the lap" in words)
    assert 'its face 1/4" to 2 1/4" below the nose (1" as laid out)' in window


def test_posts_on_tile_are_told_their_lap_and_where_battens_are_cut_out() -> None:
    of = made_of_job(job_of("post on tile"), sheets=("G-001", SHEET))
    (fit,) = (one.post_fit for one in of.design.mounts)
    assert fit is not None
    steps = [step.words for step in order_of_work(of.design)]
    assert any("reaches 13 in up the slope from the post, 3 in or more" in words for words in steps)
    (battens,) = (words for words in steps if "meets a batten" in words)
    met = [post.attachment for post in fit.posts if post.on_batten_in > 0]
    assert met
    assert all(tag in battens for tag in (met[0], met[-1]))


def test_feet_on_shingles_are_told_how_far_their_rail_may_go() -> None:
    # A foot stands 3-1/4 to 4-3/8 in below a butt (test_detail_kinds), so a rail is at most
    # (5-5/8 - 1-1/8) / 2 = 2-1/4 in from such a place; 10 in inside a short edge it may go 6 in out
    # and 1 in in, of 4 to 11 in.
    job = job_of("foot")
    job["arrays"][0]["mounting"] = job["arrays"][0]["mounting"] | {"rail_inset": "10 in"}
    of = made_of_job(job, sheets=("G-001", SHEET))
    (words,) = (s.words for s in order_of_work(of.design) if "below the butt" in s.words)
    assert '3 1/4" to 4 3/8" below the butt of the course above' in words
    assert 'at most 2 1/4" toward the edge of its modules and 1" toward their middle' in words


def test_rails_up_the_slope_over_shingles_call_the_designer() -> None:
    of = made_of_job(job_of("foot, rails up"), sheets=("G-001", SHEET))
    (words,) = (s.words for s in order_of_work(of.design) if "below the butt" in s.words)
    assert "measure them before the first hole. Where a mark stands elsewhere, stop" in words


def test_a_roof_nobody_measured_still_tells_how_much_unevenness_is_taken_up() -> None:
    job = job_of("post on tile")
    job.pop("survey", None)
    of = made_of_job(job, sheets=("G-001", SHEET))
    assert any("takes up to 3/4 in of unevenness" in s.words for s in order_of_work(of.design))


def test_trim_is_cut_to_lengths_that_add_up_to_the_front_edge() -> None:
    one = example().design.mounts[0]
    pieces = [piece.u1_in - piece.u0_in for piece in one.holding.trim]
    assert sum(pieces) == pytest.approx(5 * 67.8 + 4 * 0.5)
    said = words(example())
    assert "TRIM, ARRAY A1" in said
    assert "1 5'-11 1/2\" 4'-9 1/2\" 1'-8\"" in said


def test_rails_that_are_alike_are_one_kit() -> None:
    assert "R1-R15 (15) 15'-1 7/8\"" in words(example())


@pytest.mark.parametrize("layer", [STRINGS, "S-ROOF-SEAM"])
def test_a_long_pattern_shows_in_the_legend(layer: str) -> None:
    drawn = line(layer)(Box(0.0, 0.0, 0.42, 0.12))
    pattern = LINETYPES[LAYERS[layer].linetype]
    assert len(drawn) == len(pattern) / 2 + 1
    ends = [(part.a[0], part.b[0]) for part in drawn if isinstance(part, Line)]
    assert ends[0][0] == 0.0
    assert ends[-1][1] == pytest.approx(0.42)
    assert all(right < left for (_, right), (left, _) in pairwise(ends))
    assert ends[0][1] - ends[0][0] > 1.4 * (ends[1][1] - ends[1][0])


@pytest.mark.parametrize("name", EVERY)
@pytest.mark.parametrize("size", ["11x17", "24x36"])
def test_page_review_finds_nothing(name: str, size: str) -> None:
    made = on_sheet(name, size)
    assert [text for text in made.failures() if "Sheet Z-" in text] == []


def test_a_bill_alone_is_a_file_too(tmp_path: Path) -> None:
    of = made_of(edited(tmp_path, ("E-701, Z-101, Z-601]", "E-701, Z-601]")))
    assert {page.sheet.partition(".")[0] for page in of.drawing.for_crew.pages} == {"Z-601"}
    assert of.failures() == []


@pytest.mark.parametrize(
    ("name", "mended", "located"),
    [
        ("tile-gable", "broken tiles replaced", "Locate rafters"),
        ("shingle-hip", "torn shingles replaced", "Locate rafters"),
        ("flat-commercial", "membrane mended by its roofer", "Locate framing"),
    ],
)
def test_words_name_the_roof_that_is_there(name: str, mended: str, located: str) -> None:
    made = own_sheet(name)
    assert mended in order_of_work(made.design)[-1].words
    plan = " ".join(line for page in made.pages("E-101") for line in made.lines(page.sheet))
    assert located in plan


def test_home_runs_share_a_page_where_they_alone_would_fill_one() -> None:
    made = own_sheet("tile-gable")
    (there,) = (
        p.sheet
        for p in made.pages("Z-101")
        if "HOME RUNS TO THE JUNCTION BOXES" in made.lines(p.sheet)
    )
    beside = {"COUNT BEFORE MODULES COVER THEM", "GROUNDING LUGS, ARRAY A1 (1)"}
    assert beside & set(made.lines(there))


def test_the_layout_of_modules_that_others_mount_says_what_its_marks_are() -> None:
    lines = own_sheet("flat-commercial").lines("Z-101.1")
    assert {"LEGEND", "MODULE", "WIRE CLIP", "JUNCTION BOX", "CLEARANCE"} <= {*lines}


@pytest.mark.parametrize("size", ["11x17", "24x36"])
def test_a_row_of_modules_is_named_in_one_piece(size: str) -> None:
    of = on_sheet("flat-commercial", size)  # 198 modules, rows of nine
    lines = [line for page in of.pages(SHEET) for line in of.lines(page.sheet)]
    assert {"M91-M99", "M100-M108", "M190-M198"} <= set(lines)
    assert of.failures() == []
