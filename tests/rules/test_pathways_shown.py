"""What the rules say of pathways is what the plans show of them."""

from pathlib import Path

import pytest

from planset.design.access.area import AreaKind
from planset.design.access.pathways_needed import street_pathways
from planset.design.design import Design, build_design
from planset.finding import Outcome
from planset.job.load import read_job
from planset.rules.fire import pathway_per_plane, pathways_on_building, street_side_pathway
from planset.rules.roof_access import rules_in_force
from planset.rules.rule import Rule
from planset.rules.run import judge_by

EXAMPLES = Path(__file__).parents[2] / "examples"
HOUSES = ("tile-gable", "cross-gable", "battery-retrofit", "shingle-hip")
RULES = (street_side_pathway.RULE, pathways_on_building.RULE, pathway_per_plane.RULE)


def _design(house: str) -> Design:
    return build_design(read_job(EXAMPLES / house / "job.yaml"))


@pytest.mark.parametrize("house", HOUSES)
def test_every_plane_and_width_named_is_drawn(house: str) -> None:
    design = _design(house)
    drawn = [area for area in design.access_areas if area.kind is AreaKind.PATHWAY]
    for rule in RULES:
        for finding in judge_by(rule, design):
            assert finding.outcome is Outcome.PASS
            assert set(finding.objects) <= {area.plane for area in drawn}
            dimensioned = [area.available_in for area in drawn if area.plane in finding.objects]
            assert finding.measured == finding.limit or finding.measured in dimensioned


@pytest.mark.parametrize(
    ("house", "rule", "planes", "inches"),
    [  # worked out by hand from the corners of the arrays
        ("shingle-hip", street_side_pathway.RULE, {"front"}, 44.308),
        ("shingle-hip", pathways_on_building.RULE, {"front", "right"}, 44.308),
        ("cross-gable", street_side_pathway.RULE, {"front"}, 60.0),
        ("cross-gable", pathways_on_building.RULE, {"front", "east-right"}, 40.0),
        ("battery-retrofit", street_side_pathway.RULE, {"front"}, 141.3),
    ],
)
def test_the_rows_of_the_examples(house: str, rule: Rule, planes: set[str], inches: float) -> None:
    (finding,) = judge_by(rule, _design(house))
    assert set(finding.objects) == planes
    assert finding.measured == pytest.approx(inches, abs=1e-3)


def test_a_plane_that_falls_into_a_court_is_no_street_side() -> None:
    # The right slope of the west wing falls toward the driveway at the right; the east wing, 30 ft
    # wide, stands between. The right slope of the east wing falls toward it freely.
    design = _design("cross-gable")
    rules = rules_in_force(design)
    toward = street_pathways(design.inputs, design.roof, design.access, design.roof.planes, rules)
    named = {name for pathway in toward for name in pathway.planes}
    assert {"front", "east-right"} <= named
    assert "west-right" not in named
    assert max(strip.width_in for strip in design.access.strips_on("west-right")) > 36
