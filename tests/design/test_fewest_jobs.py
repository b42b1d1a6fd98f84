"""What a job asks of found layouts: pins, limits of the jurisdiction, messages, the same again."""

import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from fewest_jobs import ACROSS, SHINGLE, fewest, pinned
from houses import placed_arrays, roof_of_house

from planset.design.design import build_design
from planset.design.place_racking import place_racking
from planset.design.racking import Racking
from planset.errors import JobErrors, Problem
from planset.finding import Outcome
from planset.job.arrays import Pin
from planset.job.load import Inputs
from planset.rules.run import judge

STRUCTURAL = (
    "connector-uplift", "connector-downward", "connector-along-slope", "lag-withdrawal",
    "lag-combined", "plate-bearing", "rail-strength", "rail-deflection", "rail-span",
    "rail-cantilever", "tile-course", "tile-pan",
)  # fmt: skip
FEET = {"roof.covering": SHINGLE, "framing.first_rafter": 23.0}


def found(inputs: Inputs) -> Racking:
    (rack,) = place_racking(inputs, roof_of_house(inputs), placed_arrays(inputs))
    return rack


def problem_of(inputs: Inputs) -> Problem:
    with pytest.raises(JobErrors) as raised:
        found(inputs)
    (problem,) = raised.value.problems
    assert problem.line
    assert "A1" in problem.message or problem.field.startswith("arrays.A1")
    return problem


@pytest.mark.parametrize(
    ("name", "changes", "mounting"),
    [
        (None, {}, {}),
        (None, {"site.wind_speed": 120.0, "site.exposure": "C"}, {}),
        ("heron-tile", {"framing.spacing": 16.0}, {}),
        ("bittern-post", {}, ACROSS),
        ("bittern-post", {"framing.spacing": 16.0}, ACROSS | {"ratio_ceiling": 0.5}),
        ("plover-shingle", {"roof.covering": SHINGLE}, ACROSS),
        ("teal-up", FEET, {}),
    ],
)
@pytest.mark.parametrize("of", [None, "alta-rosa", "verdemar"])
def test_the_rules_find_nothing_wrong(
    name: str | None, changes: dict[str, Any], mounting: dict[str, Any], of: str | None
) -> None:
    inputs = fewest(changes, name, of=of, **mounting)
    design = build_design(inputs)
    ceiling = mounting.get("ratio_ceiling", 0.9) + 1e-9
    judged = 0
    for finding in judge(design):
        kind, _, rule = finding.rule.partition(".")
        if kind == "structure" and rule in STRUCTURAL:
            assert finding.outcome not in (Outcome.FAIL, Outcome.TIGHT), finding.message
            if finding.limit == 1.0 and finding.measured is not None:
                assert finding.measured <= ceiling, finding.message
                judged += 1
        if finding.rule == "layout.rails-under-modules":
            assert finding.outcome is not Outcome.FAIL, finding.message
        if finding.rule == "structure.review-limits" and "on an attachment" in finding.message:
            assert finding.outcome is Outcome.PASS, finding.message
    assert judged >= 6


def test_a_pinned_height_is_kept_and_the_others_follow() -> None:
    free = found(fewest(FEET, "teal-up"))
    line = free.attachments[0].line
    taken = {a.along_in for a in free.attachments if a.line == line}
    rack = found(pinned(fewest(FEET, "teal-up"), Pin(line=line, up=91.3125)))
    assert 91.3125 not in taken
    assert [(a.line, a.v_in) for a in rack.attachments if a.pinned] == [(line, 91.3125)]


def test_rails_go_where_a_line_is_pinned() -> None:
    inputs = fewest()
    lines = {a.line for a in found(inputs).attachments}
    missing = next(number for number in range(4, 18) if number not in lines)
    rack = found(pinned(inputs, Pin(line=missing, up=48.75)))
    assert missing in {a.line for a in rack.attachments}


@pytest.mark.parametrize(
    ("inputs", "pin", "says"),
    [
        (fewest(), Pin(line=99, up=60.0), "has no rafter 99"),
        (fewest(), Pin(line=1, up=60.0), "no rail on rafter 1 passes 5'-0\""),
        (fewest(), Pin(line=5, up=20.0), "no rail on rafter 5 passes 1'-8\""),
        (fewest(), Pin(line=5, up=55.0), "no hook can leave the tile 4'-7\""),
        (fewest({}, "bittern-post", **ACROSS), Pin(line=5, rail=9), "has 8 rails, no rail 9"),
        (fewest({}, "bittern-post", **ACROSS), Pin(line=1, rail=2), "does not cross rail 2"),
    ],
)
def test_a_pin_that_misses(inputs: Inputs, pin: Pin, says: str) -> None:
    problem = problem_of(pinned(inputs, pin))
    assert problem.field == "arrays.A1.mounting.pinned.1"
    assert says in problem.message
    assert problem.mend


@pytest.mark.parametrize(
    ("inputs", "says"),
    [
        (
            fewest({"framing.first_rafter": 12.0}, "heron-tile"),
            "span of a module edge|free end of a",
        ),
        (fewest({"framing.spacing": 60.0}, "bittern-post", of="port-larkin", **ACROSS), "bends"),
        (fewest({"mounting.rail.cantilever_share": 0.0}), "free end of a rail"),
        (fewest({"mounting.attachment.side_adjustment": 0.0}), "side adjustment"),
        (fewest({"mounting.attachment.arm_reach": 2.0}), "too short"),
        (fewest(ratio_ceiling=0.1), "ratio_ceiling 0.1"),
        (fewest({}, "bittern-post", **ACROSS, stagger=True), "stagger"),
        (fewest({}, of="alder-falls"), "loads of ASCE 7-10 are not computed yet"),
    ],
)
def test_what_is_in_the_way(inputs: Inputs, says: str) -> None:
    problem = problem_of(inputs)
    assert any(part in problem.message for part in says.split("|")), problem.message
    assert problem.field == "arrays.A1.mounting.fewest_attachments"
    assert problem.mend


def test_modules_off_their_plane_are_told_first() -> None:
    problem = problem_of(fewest({"arrays.A1.corner.along": 400.0}))
    assert problem.field == "arrays.A1.corner"
    assert "modules of array A1 run over the edge of plane front by" in problem.message


def test_the_dead_load_on_an_attachment_is_limited() -> None:
    free = fewest(FEET, "teal-up", of="port-larkin")
    review = free.jurisdiction.review
    (least,) = {len(found(free).attachments)}
    point = fewest().jurisdiction.review.point_load
    assert point
    limited = review.model_copy(update={"point_load": point.model_copy(update={"value": 25.0})})
    held = replace(free, jurisdiction=free.jurisdiction.model_copy(update={"review": limited}))
    assert len(found(held).attachments) > least


SCRIPT = """
import sys
sys.path.insert(0, {folder!r})
from fewest_jobs import ACROSS, fewest
from houses import placed_arrays, roof_of_house
from planset.design.place_racking import place_racking
posts = fewest({{"framing.spacing": 12.0}}, "bittern-post", stagger=True, **ACROSS)
for inputs in (fewest(), posts):
    print(place_racking(inputs, roof_of_house(inputs), placed_arrays(inputs)))
"""


def test_the_same_under_any_hash_seed() -> None:
    folder = Path(__file__).parent
    told = {
        subprocess.run(
            [sys.executable, "-c", SCRIPT.format(folder=str(folder))],
            env=os.environ | {"PYTHONHASHSEED": seed},
            cwd=folder.parents[1],
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("0", "77")
    }
    assert len(told) == 1
    assert "Racking" in told.pop()
