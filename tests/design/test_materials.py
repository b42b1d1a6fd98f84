"""The bill of materials, against counts by hand from the jobs' own rows and columns.

Spares of 5 % and 2 %: common practice, no source.
"""

from __future__ import annotations

import math
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from shapely import Point

from planset.design.bonding import bonded_sections
from planset.design.conductor_materials import ELECTRICAL
from planset.design.design import Design, build_design
from planset.design.electrical.boxes import placed_boxes
from planset.design.electrical.leads import hops
from planset.design.electrical.lugs import lugs
from planset.design.electrical.wire_clips import WIRE_CLIP, clip_count, wire_clips
from planset.design.material_line import MaterialLine, spares_of
from planset.design.materials import bill_of_materials
from planset.job.load import read_job
from planset.job.materials import USUAL_SPARES
from tests.example_job import EXAMPLE, edited

EXAMPLES = EXAMPLE.parents[1]


@cache
def design(name: str) -> Design:
    return build_design(read_job(EXAMPLES / name / "job.yaml"))


def counts(lines: tuple[MaterialLine, ...]) -> dict[str, int | None]:
    """Quantities by item, sealing and equipment by product, those of two lines added up."""
    found: dict[str, int | None] = {}
    for line in lines:
        key = line.product if line.item == "Sealing" else line.item
        found[key] = (found.get(key) or 0) + line.quantity if line.quantity is not None else None
    return found


HAND = {
    # 4 rows of 5, landscape, 67.8 in wide, 1/2 in apart; 15 rails of 15'-1 7/8" from 16 ft stock,
    # 5 hooks on each; a foot where each rail crosses the 5 long edges; couplings on 5 edge lines at
    # 4 joints; trim along 341 in of front edge in 72 in pieces; one array, one lug.
    "tile-gable": {
        "Module": 20,
        "Attachment": 5 * 15,
        "Lag screw": 2 * 75,
        "butyl tape, 2 in wide": 7 * 75,
        "underlayment strip, 12 x 18 in": 75,
        "sealant for pilot holes": 15,
        "Rail, stock length 16'-0\"": 15,
        "Foot": 5 * 15,
        "Coupling": 5 * 4,
        "Trim, 6'-0\" piece": 5,
        "Trim joint": 4,
        "Trim lock": 15,
        "Grounding lug": 1,
    },
    # Portrait rows of 5, 6, 5 and landscape rows of 3, 2, 1, two rails under each; a mid clamp
    # between neighbors, an end clamp at both ends, a lug on every rail; 50 and 22 feet as the plan
    # places them.
    "shingle-hip": {
        "Module": 16 + 6,
        "Attachment": 50 + 22,
        "Lag screw": 2 * 72,
        "Flashing": 72,
        "sealant": 36,
        "Rail, stock length 14'-0\"": 16,
        "Splice": 6 + 2,
        "Mid clamp": 2 * (4 + 5 + 4) + 2 * (2 + 1),
        "End clamp": 12 * 2,
        "Grounding lug": 12,
    },
    # Rows of 3: three rows, then two and two, two rails to a row, each of two pieces whose sleeve
    # does not bond, so that each piece has a lug; 5 posts to a rail.
    "cross-gable": {
        "Module": 9 + 6 + 6,
        "Attachment": 5 * 14,
        "Lag screw": 2 * 70,
        "Flashing": 70,
        "base flashing, 12 x 12 in": 70,
        "storm collar": 70,
        "sealant": 42,
        "Rail, stock length 17'-0\"": 17,
        "Splice": 14,
        "Mid clamp": 2 * 14,
        "End clamp": 2 * 14,
        "Grounding lug": 14 + 14,
    },
    # Two portrait rows of 7, two rails under each of two pieces; 40 feet as the plan places them.
    "battery-retrofit": {
        "Module": 14,
        "Attachment": 40,
        "Lag screw": 2 * 40,
        "Flashing": 40,
        "sealant": 20,
        "Rail, stock length 14'-0\"": 8,
        "Splice": 4,
        "Mid clamp": 4 * 6,
        "End clamp": 4 * 2,
        "Grounding lug": 4,
    },
    # 8 rows of 9 twice, 6 rows of 9; what holds them is another designer's.
    "flat-commercial": {
        "Module": 72 + 72 + 54,
        "Attachments, rails and what holds the modules": None,
    },
}


@pytest.mark.parametrize("name", HAND)
def test_counts_are_those_by_hand(name: str) -> None:
    lines = [
        line
        for line in bill_of_materials(design(name))
        if line.group != ELECTRICAL and line.item != WIRE_CLIP
    ]
    assert counts(tuple(lines)) == HAND[name]


WIRED = {
    # Two strings of 10, 42 ft of two conductors each; 18 in and 122-1/2 in on the roof and 22 ft on
    # the wall for four; 4 ft and 6 ft for two.
    "tile-gable": {
        ("Rapid shutdown device", "Orrery Works RS-1"): 20,
        ("Junction box", "PV WIRE TO THWN-2, TYPE 4X"): 1,
        ("Inverter", "Orrery Works OE-7.6"): 1,
        ("Disconnect", "60 A, 240 V, 2P, TYPE 3R"): 1,
        ("Breaker", "40 A, 2P, 10 kAIC"): 1,
        ("PV wire, copper", "10 AWG"): 2 * 2 * 42,
        ("Bare grounding conductor, copper", "6 AWG"): 42,
        ("THWN-2, copper", "10 AWG"): 135,  # 4 x 33.71
        ("Grounding conductor, copper", "10 AWG"): 34 + 4 + 6,
        ("THWN-2, copper", "8 AWG"): 2 * (4 + 6),
        ("EMT", "1/2 in"): 34 + 4 + 6,
    },
    # Branches of 8, 8 and 6: 52 ft twice in one raceway from one box, 26 ft; 6 ft and 5 ft.
    # One step past a module spans a connector more; to the boxes B1 goes 234 in, B2 137 in and B3
    # 91 in, which is 4, 2 and 2 pitches of 72 in.
    "shingle-hip": {
        ("Microinverter", "Marrow Quay MQ-350"): 22,
        ("Trunk cable, by connectors", "MQ-T12"): 22 + 1 + 5,
        ("End cap of trunk cable", "MQ-T12"): 3,
        ("Cap of a free connector", "MQ-T12"): 1 + 5,
        ("Junction box", "TRUNK CABLE TO THWN-2, TYPE 4X"): 2,
        ("Breaker", "15 A, 2P, 10 kAIC"): 3,
        ("Production meter", "240 V, 1-PHASE"): None,
        ("Disconnect", "60 A, 240 V, 2P, TYPE 3R"): 1,
        ("Breaker", "45 A, 2P, 10 kAIC"): 1,
        ("AC combiner panel", "BUS 125 A, MAIN LUGS, 240 V, 1-PHASE, TYPE 3R"): 1,
        ("THWN-2, copper", "10 AWG"): 2 * 2 * 52 + 2 * 26,
        ("Grounding conductor, copper", "10 AWG"): 52 + 26 + 6 + 5,
        ("THWN-2, copper", "8 AWG"): 2 * (6 + 5),
        ("Bare grounding conductor, copper", "6 AWG"): None,
        ("EMT", "1/2 in"): 52 + 26 + 6 + 5,
    },
    # Three strings, each 30 ft under its array; 74, 116 and 20 ft in raceways, the last 20 ft of
    # them one for all three, with one grounding conductor; 4 ft and 6 ft, the latter with the
    # neutral that a connection ahead of the main brings (NEC 250.24(C)).
    "cross-gable": {
        ("Converter", "Dovetail Light DL-450"): 21,
        ("Junction box", "PV WIRE TO THWN-2, TYPE 4X"): 3,
        ("Inverter", "Dovetail Light DL-7.6K"): 1,
        ("Disconnect, fusible", "60 A, 240 V, 2P, TYPE 3R"): 1,
        ("Tap connector", "listed tap connectors on the service conductors"): 3,
        ("Fuse", "40 A, CLASS RK5, 250 V, 200 kAIC"): 2,
        ("PV wire, copper", "10 AWG"): 3 * 2 * 30,
        ("Bare grounding conductor, copper", "6 AWG"): 3 * 30,
        ("THWN-2, copper", "10 AWG"): 2 * (74 + 116 + 20),
        ("Grounding conductor, copper", "12 AWG"): 54 + 96 + 20,
        ("THWN-2, copper", "8 AWG"): 2 * 4,
        ("Grounding conductor, copper", "10 AWG"): 4,
        ("THWN-2, copper", "6 AWG"): 3 * 6,
        ("Grounding conductor, copper", "8 AWG"): 6,
        ("EMT", "3/4 in"): 54 + 96 + 20 + 6,
        ("EMT", "1/2 in"): 4,
    },
    # Eleven strings, 70 ft each; 791, 654 and 1291 in on the roof and 20 ft from the boxes of 4, 4
    # and 3 of them; three phases and a neutral for 8 ft and 18 ft. Strings of 18 take RHW-2, made
    # for 1000 V. NEC chapter 9, 40 % of EMT: 8 x 0.0260 + 0.0133 sq in are more than 0.213 of 3/4
    # in, and less than 0.346 of 1 in; 6 x 0.0260 + 0.0133 are less than 0.213.
    "flat-commercial": {
        ("Rapid shutdown device", "Orrery Works RS-2"): 198,
        ("Junction box", "PV WIRE TO RHW-2, TYPE 4X"): 3,
        ("Inverter", "Orrery Works OE-60"): 1,
        ("Disconnect", "100 A, 480 V, 3P, TYPE 3R"): 1,
        ("Breaker", "100 A, 3P, 35 kAIC"): 1,
        ("PV wire, copper", "10 AWG"): 11 * 2 * 70,
        ("Bare grounding conductor, copper", "6 AWG"): 3 * 70,
        ("RHW-2, copper", "12 AWG"): 688 + 596 + 766,  # 8 x 85.92, 8 x 74.5 and 6 x 127.58
        ("Grounding conductor, copper", "12 AWG"): 86 + 75 + 128,
        ("THWN-2, copper", "3 AWG"): 4 * (8 + 18),
        ("Grounding conductor, copper", "8 AWG"): 8 + 18,
        ("EMT", "1 in"): 86 + 75,
        ("EMT", "3/4 in"): 128,
        ("EMT", "1 1/4 in"): 8 + 18,
    },
    # Two strings of 7, 40 ft and 30 ft; 5 ft to the battery; with a neutral 12 ft of output, 5 ft
    # to the panel and 6 ft to the backup panel. 125 % of the 32 A it takes from the grid are 40 A,
    # of the 24.2 A of its backup output 30.25 A, above a main of 30 A.
    "battery-retrofit": {
        ("Rapid shutdown device", "Hearthkeep RS-3"): 14,
        ("Battery", "Hearthkeep HB-10"): 1,
        ("Main breaker", "40 A, 2P, 10 kAIC"): 1,
        ("Junction box", "PV WIRE TO THWN-2, TYPE 4X"): 1,
        ("Inverter", "Hearthkeep HK-5.8"): 1,
        ("Disconnect", "60 A, 240 V, 2P, TYPE 3R"): 1,
        ("Breaker", "40 A, 2P, 10 kAIC"): 1,
        ("Main breaker", "110 A, 2P, 10 kAIC"): 1,
        ("Backup panel", "BUS 100 A, MAIN 40 A, 240 V, 1-PHASE, TYPE 1"): 1,
        ("Breaker", "20 A, 1P"): 1,
        ("Breaker", "15 A, 1P"): 3,
        ("Breaker", "20 A, 2P"): 1,
        ("Auxiliary contact", "for DISC1, opens as that is opened"): 1,
        ("Emergency shutdown", "maintained stop button, off and on marked, TYPE 4X"): 1,
        ("THWN-2, copper", "14 AWG"): 2 * (11 + 8),
        ("PV wire, copper", "10 AWG"): 2 * 2 * 40,
        ("Bare grounding conductor, copper", "6 AWG"): 40,
        ("THWN-2, copper", "10 AWG"): 4 * 30 + 2 * 5,
        ("Grounding conductor, copper", "10 AWG"): 30 + 5 + 12 + 5 + 6,
        ("THWN-2, copper", "8 AWG"): 3 * (12 + 5 + 6),
        ("EMT", "1/2 in"): 30 + 5 + 11 + 8,
        ("EMT", "3/4 in"): 12 + 5 + 6,
    },
}


@pytest.mark.parametrize("name", WIRED)
def test_the_electrical_part_is_that_by_hand(name: str) -> None:
    lines = [line for line in bill_of_materials(design(name)) if line.group == ELECTRICAL]
    labels = [line for line in lines if line.item.startswith("Label ")]
    others = {(line.item, line.product): line.quantity for line in lines if line not in labels}
    assert others == WIRED[name]
    assert [line.quantity for line in labels] == [
        label.quantity for label in design(name).electrical.labels
    ]


@pytest.mark.parametrize("name", WIRED)
def test_products_with_a_data_sheet_name_it(name: str) -> None:
    made = ("Rapid", "Converter", "Micro", "Inverter", "Battery", "Trunk", "Module")
    for line in bill_of_materials(design(name)):
        assert line.document or not line.item.startswith(made)


def test_what_others_mount_is_said_and_not_guessed() -> None:
    (line,) = (one for one in bill_of_materials(design("flat-commercial")) if one.quantity is None)
    assert line.total is None
    assert line.product == "BY OTHERS"
    assert line.counted == "NOT COUNTED: MOUNTING BY OTHERS, ARRAYS A1, A2, A3"
    assert not {"Attachment", "Lag screw", "Grounding lug"} & set(counts((line,)))


@pytest.mark.parametrize(
    ("count", "kind", "spare"),
    [(75, "small_parts", 4), (20, "small_parts", 1), (1, "small_parts", 1), (0, "small_parts", 0)]
    + [(75, "attachments", 2), (50, "attachments", 1), (51, "attachments", 2)]
    + [(20, "modules", 0), (15, "none", 0)],
)  # by hand: 5 %, 2 % and none, up to the next whole one
def test_spares_are_rounded_up(count: int, kind: Any, spare: int) -> None:
    assert spares_of(count, USUAL_SPARES, kind) == spare


def test_a_job_states_its_own_spares(tmp_path: Path) -> None:
    spares = "{small_parts: 0.1, attachments: 0, modules: 0.05, source: the shop}"
    job = edited(tmp_path, ("\ndrafting:\n", f"\nmaterials: {{spares: {spares}}}\n\ndrafting:\n"))
    lines = {line.item: line for line in bill_of_materials(build_design(read_job(job)))}
    assert (lines["Foot"].spare, lines["Foot"].total) == (8, 83)
    assert lines["Attachment"].spare == 0
    assert lines["Module"].spare == 1


# --- clips and lugs ------------------------------------------------------------------------


CLIPS = {
    # 4 on a frame, 68.3 in apart from the next at 22 in, and 3 up the 45.1 in to the second row of
    # each string. To the box from the ends of four rows: up 4.5 in, along 58.16 in, down to the
    # box's height 37.1, 82.2, 127.3, 172.4 in; what is past the frames, 6 in, has none.
    "tile-gable": (4 * 20 + 2 * 3, 5 + 7 + 9 + 11),
    # 3 on a frame, 45.1 in at 20 in. On frames toward the box 374.7, 104.1, 172.4 and 443.0 in.
    "battery-retrofit": (3 * 14, 19 + 6 + 9 + 23),
}


@pytest.mark.parametrize("name", CLIPS)
def test_clips_are_those_by_hand(name: str) -> None:
    count = clip_count(design(name))
    assert (count.at_modules, count.at_home_runs) == CLIPS[name]


@pytest.mark.parametrize("name", HAND)
def test_clips_keep_the_number_and_the_spacing_of_the_job(name: str) -> None:
    given = design(name).inputs.job.electrical.wire_clips
    placed = wire_clips(design(name))
    for array in design(name).arrays:
        for module in array.modules:
            mine = [place.at for place in placed if place.module == module.id]
            box = module.surface
            top = sorted(u for u, v in mine if v == box.y1 and u > box.x0)
            assert len(top) >= given.per_module
            assert all(u < box.x1 for u in top)
            assert all(b - a <= given.spacing + 1e-6 for a, b in pairwise(top))
            assert all(u == box.x0 for u, v in mine if v != box.y1)
    (line,) = (one for one in bill_of_materials(design(name)) if one.item == WIRE_CLIP)
    assert line.quantity == len(placed)


def test_clips_keep_their_distance_from_module_to_module() -> None:
    (array,) = design("tile-gable").arrays
    placed = wire_clips(design("tile-gable"))
    top = array.modules[0].surface.y1
    first_row = sorted(place.at[0] for place in placed if place.module and place.at[1] == top)
    assert len(first_row) == 20
    apart = {round(b - a, 6) for a, b in pairwise(first_row)}
    assert apart == {round(68.3 / 4, 6)}
    frames = [module.surface for module in array.modules]
    assert all(any(f.x0 < u < f.x1 for f in frames) for u in first_row)


@pytest.mark.parametrize("name", HAND)
def test_no_clip_stands_off_the_frames(name: str) -> None:
    arrays = {array.id: array for array in design(name).arrays}
    for place in wire_clips(design(name)):
        field = arrays[place.array].field
        assert field.distance(Point(place.at)) < 1e-6, place


def test_a_step_to_another_row_takes_clips_up_the_left_edge(tmp_path: Path) -> None:
    """Portrait rows of 7, strings of 10 and 4: a step of 68.3 in up at 20 in takes 4."""
    job = EXAMPLES / "battery-retrofit" / "job.yaml"
    text = job.read_text(encoding="utf-8")
    text = text.replace("modules: 7, input: 1", "modules: 10, input: 1")
    text = text.replace("modules: 7, input: 2", "modules: 4, input: 2")
    changed = tmp_path / "job.yaml"
    changed.write_text(text, encoding="utf-8")
    made = build_design(read_job(changed))
    up = [hop for hop in hops(made) if hop.distance_in > 60]
    assert up
    assert clip_count(made).at_modules == 3 * 14 + 4 * len(up)


def test_a_lug_is_clear_of_splices_and_at_the_end_toward_the_box() -> None:
    made = design("cross-gable")
    found = lugs(made)
    boxes = {box.array: box.at for box in placed_boxes(made)}
    for one in made.mounts:
        splice = one.array.system.rail.splice
        assert splice is not None
        mine = [lug for lug in found if lug.array == one.id]
        assert sum(len(lug.modules) for lug in mine) >= len(one.array.modules)
        for lug in mine:
            beside = [s.along_in for s in one.rails.splices if s.rail == lug.rail]
            assert all(abs(lug.along_in - at) >= splice.length / 2 - 1e-6 for at in beside)
            (ends,) = (
                section.ends
                for section in bonded_sections(one)
                if section.modules == lug.modules and section.ends[0][0] == lug.rail
            )
            (_, low), (_, high) = ends
            assert low - 1e-6 <= lug.along_in <= high + 1e-6
            (rail,) = (rail for rail in one.racking.rails if rail.id == lug.rail)
            near, far = sorted((low, high), key=lambda u: math.dist(rail.at(u), boxes[one.id]))
            if lug.clear:  # one without its room sits where there is most
                assert abs(lug.along_in - near) <= abs(lug.along_in - far)


def test_a_lug_leaves_its_width_to_posts_sleeves_and_clamps() -> None:
    # R1: its first post 4 in from its left end, the last at 16'-4", each on a plate of 3 in; a lug
    # of 2 in with 2 in beside it is 4 + 1.5 + 3 and 196 + 1.5 + 3 in from the rail's left end.
    made = design("cross-gable")
    (rail,) = (rail for one in made.mounts for rail in one.racking.rails if rail.id == "R1")
    own = [lug for lug in lugs(made) if lug.rail == "R1"]
    assert [lug.along_in - rail.start_in for lug in own] == pytest.approx([8.5, 200.5])
    assert all(lug.clear for lug in own)
    # R11: the sleeve ends at 202 in on a post, a clamp of 5 in at 206.65 in begins 0.65 in from
    # its plate.
    found = {lug.rail: lug for lug in lugs(made) if len(lug.modules) == 1}
    assert not found["R11"].clear
    (rail,) = (rail for one in made.mounts for rail in one.racking.rails if rail.id == "R11")
    assert found["R11"].along_in - rail.start_in == pytest.approx((203.5 + 204.15) / 2)
    # the outer clamp of shingle-hip's R7 sits 1-1/2 in from its end, its next part farther off
    hip = {lug.rail: lug for lug in lugs(design("shingle-hip"))}
    for one in design("shingle-hip").mounts:
        for rail in one.racking.rails:
            at = hip[rail.id].along_in
            assert all(abs(h.u_in - at) > 5.49 for h in one.holding.holders if h.rail == rail.id)
