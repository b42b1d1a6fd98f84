"""All rules on one design: order, editions, and what no job can show."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from rule_cases import Case, Expected, build

from planset.catalog.fields import Sourced
from planset.citation import CodeEdition
from planset.design.design import Design, build_design
from planset.finding import Outcome
from planset.job.load import read_job
from planset.rules.electrical import battery_siting, busbar
from planset.rules.fire import ridge_setback
from planset.rules.registry import RULES
from planset.rules.rule import COMMON_PRACTICE, Rule, cite
from planset.rules.run import adopted_edition, judge, judge_by
from planset.rules.structure import added_gravity, added_mass, side_room

EXAMPLE = Path(__file__).parents[2] / "examples" / "tile-gable" / "job.yaml"
TRADE = Rule("layout.none", "Nothing", "layout", "", {}, lambda *_: ())


@pytest.fixture
def design() -> Design:
    return build(Case(Expected("pass")), TRADE, None)


def adopting(**catalog: object) -> Design:
    place = "jurisdictions/case-town.codes.electrical"
    changes = {f"{place}.{field}": value for field, value in catalog.items()}
    return build(Case(Expected("pass"), catalog=changes), TRADE, None)


def test_the_house_of_the_cases_fails_nothing(design: Design) -> None:
    found = judge(design)
    elsewhere = {rule.id for rule in RULES if rule.concerns == "other buildings"}
    idle = {f.rule for f in found if f.outcome is Outcome.NOT_APPLICABLE}
    assert idle == elsewhere | {  # one array, of ours, no parallels
        "fire.access-point",
        "fire.hip-valley-setback",
        "fire.array-size",
        "fire.between-arrays",
        "fire.edge-setback",
        "fire.three-sides",
        "structure.tile-flashing",  # hooks, no posts
        "fire.ground-access",  # no site plan
        "layout.driveway-side",
        "layout.property-setback",
        "layout.equipment-placed",
        "layout.arrays-apart",
        "layout.clamp-zone",  # nothing holds the modules
        "layout.module-gap",
        "layout.trim-overhang",
        "layout.stagger",
        "layout.splice-position",
        "layout.seam-profile",
        "electrical.directory-telephone",  # not in NEC 2020
        "electrical.parallel-strings",
        "electrical.modules-in-strings",
        "electrical.converter-input",  # strings without converters, on one inverter
        "electrical.converter-string",
        "electrical.microinverter-input",
        "electrical.branch-units",
        "electrical.trunk-rise",
        "electrical.branch-breaker",
        "electrical.box-over-wall",  # no run begins in the attic
        "electrical.dc-raceway",  # no conductor runs inside
        "electrical.production-meter",  # not asked for
        "electrical.feeder",  # a plain breaker on the load side
        "electrical.main-derate",
        "electrical.supply-side-sources",
        "electrical.tap-conductor",
        "electrical.tap-distance",
        "electrical.tap-disconnect",
        "electrical.tap-neutral",
        "electrical.tap-electrode",
        "electrical.fuses",  # none in its switch
        "electrical.output-device",  # its maker names no largest device
        "electrical.battery-listing",  # no battery
        "electrical.battery-port",
        "electrical.battery-voltage",
        "electrical.battery-disconnect",
        "electrical.battery-siting",
        "electrical.battery-shutdown",
        "electrical.backup-circuits",
        "electrical.backup-load",
        "electrical.backup-device",
        "electrical.working-space",  # no wall is drawn
        "electrical.handle-height",
        "layout.array-fit",
        "structure.by-others",
        "structure.edge-cantilever",
        "structure.edge-span",
        "structure.panel-clips",
        "structure.screening",
        "structure.snow",
        "structure.trusses",
    }
    passed = [f for f in found if f.outcome is Outcome.PASS]
    others = {(f.rule, f.outcome) for f in found if f.rule not in idle and f not in passed}
    assert others == {
        ("electrical.raceway-route", Outcome.ASK),  # its raceway has a length and no route
        ("electrical.disconnect-near-meter", Outcome.ASK),  # on no wall that is drawn
        ("electrical.equipment-on-wall", Outcome.ASK),
        ("electrical.lead-reach", Outcome.OPEN),  # no data sheet tells the length of leads
    }
    assert all(f.line and f.line > 1 for f in passed)


def test_every_rule_reports_in_the_order_of_the_registry(design: Design) -> None:
    assert list(dict.fromkeys(f.rule for f in judge(design))) == [rule.id for rule in RULES]


def test_the_same_design_is_judged_the_same(design: Design) -> None:
    assert judge(design) == judge(design)


def test_lines_are_those_of_the_job_file() -> None:
    text = EXAMPLE.read_text(encoding="utf-8").splitlines()
    found = judge(build_design(read_job(EXAMPLE)))
    lines = {f.rule: text[f.line - 1].split("#")[0].strip() for f in found if f.line}
    assert lines["fire.ridge-setback"].startswith("corner:")
    assert lines["electrical.source-device"].startswith("breaker:")
    assert lines["layout.rails-under-modules"].startswith("rail_every:")
    assert lines["electrical.string-voltage"].startswith("- {id: S")


def test_a_check_that_finds_nothing_is_not_applicable(design: Design) -> None:
    (found,) = judge_by(TRADE, design)
    assert (found.outcome, found.citation) == (Outcome.NOT_APPLICABLE, COMMON_PRACTICE)


def test_an_edition_without_the_rule_is_not_applicable() -> None:
    rule = replace(busbar.RULE, not_in=frozenset({CodeEdition("NEC", 2008)}))
    (found,) = judge_by(rule, adopting(edition=2008))
    assert (found.outcome, found.message) == (
        Outcome.NOT_APPLICABLE,
        "NEC 2008 has no such rule.",
    )


def test_an_edition_nobody_entered_is_open() -> None:
    (found,) = judge_by(busbar.RULE, adopting(edition=2026))
    assert found.outcome == Outcome.OPEN
    assert found.message.startswith(busbar.RULE.title)
    assert "planset has no clause of this rule for NEC 2026 yet;" in found.message


def test_a_rule_on_batteries_asks_nothing_of_a_job_without_them(design: Design) -> None:
    rule = replace(battery_siting.RULE, clauses={})
    (found,) = judge_by(rule, design)
    assert (found.outcome, found.message) == (
        Outcome.NOT_APPLICABLE,
        "Nothing in this job is subject to the rule.",
    )
    stored = build(Case(Expected("pass"), base="gable-40x30-hybrid"), TRADE, None)
    (found,) = judge_by(rule, stored)
    assert found.outcome is Outcome.OPEN


def test_a_code_of_another_name_is_open_though_the_year_is_known() -> None:
    (found,) = judge_by(busbar.RULE, adopting(code="CEC", edition=2020))
    assert (found.outcome, found.citation) == (Outcome.OPEN, "CEC 2020")


@pytest.mark.parametrize("rule", [added_gravity.RULE, added_mass.RULE], ids=lambda rule: rule.id)
def test_a_profile_without_a_code_of_existing_buildings_is_open(rule: Rule) -> None:
    town = "jurisdictions/case-town.codes.existing"
    (found,) = judge_by(rule, build(Case(Expected("open"), catalog={town: None}), TRADE, None))
    assert (found.outcome, found.citation) == (Outcome.OPEN, "no code adopted")
    assert found.message.endswith("ask which one is in force, and add it to the profile.")


def test_a_rule_without_a_code_is_held_by_none(design: Design) -> None:
    with pytest.raises(ValueError, match=r"no adopted code decides layout\.none"):
        adopted_edition(TRADE, design.inputs.jurisdiction)


def test_one_rule_is_held_by_the_document_that_judges(design: Design) -> None:
    town = design.inputs.jurisdiction
    assert adopted_edition(ridge_setback.RULE, town) == CodeEdition("IRC", 2021)
    by_fire = Sourced[Any](value="fire", source="Memo", date="2024-01-01")
    access = town.access.model_copy(update={"judged_by": by_fire})
    town = town.model_copy(update={"access": access})
    assert adopted_edition(ridge_setback.RULE, town) == CodeEdition("IFC", 2021)
    (found,) = judge_by(
        ridge_setback.RULE, replace(design, inputs=replace(design.inputs, jurisdiction=town))
    )
    assert found.citation == "IFC 2021 1205.2.1.2"


def test_what_mounting_by_others_leaves_undetermined_is_open() -> None:
    case = Case(Expected("open"), patch={"arrays.A1.mounting": "by_others"})
    design = build(case, TRADE, None)
    left = {
        finding.rule
        for finding in judge(design)
        if finding.outcome is Outcome.OPEN and "sealed sheets of the mounting" in finding.message
    }
    assert left == {
        "layout.fire-class",
        "layout.module-gap",
        "layout.bonding",
        "structure.roof-live-load",
        "structure.added-gravity",
        "structure.added-mass",
        "structure.wind-method",
    }


def test_a_screw_too_thick_for_the_rafter_fails(design: Design) -> None:
    thick = replace(design.fastenings[0], edge_distance_in=0.8, side_room_in=-0.05)
    mounts = (replace(design.mounts[0], fastening=thick),)
    (found,) = judge_by(side_room.RULE, replace(design, mounts=mounts))
    assert found.outcome == Outcome.FAIL
    assert found.measured == pytest.approx(0.75)


@pytest.mark.parametrize(
    ("document", "edition", "clause", "printed"),
    [
        ("IRC", 2021, "R324.6.2", "IRC 2021 R324.6.2"),
        ("ASCE 7", 2016, "29.4.4", "ASCE 7-16 29.4.4"),
        ("ASCE 7", 2005, "", "ASCE 7-05"),
        ("NEC", 2023, "", "NEC 2023"),
    ],
)
def test_citations(document: str, edition: int, clause: str, printed: str) -> None:
    assert cite(document, edition, clause) == printed
