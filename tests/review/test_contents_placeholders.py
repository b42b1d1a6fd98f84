"""Words of the starter that are left in a job are told, each with its line."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from contents_of import EXAMPLES, submittal

from planset.finding import Outcome
from planset.job.placeholders import PLACEHOLDERS, placeholders_left
from planset.job.schema import STARTER
from planset.review.contents.placeholders import RULE
from planset.review.submittal import Submittal
from planset.source import read_yaml


def test_each_is_told_with_its_field_and_line(tmp_path: Path) -> None:
    subject, job = submittal("tile-gable"), tmp_path / "job.yaml"
    job.write_text("project:\n  drawn_by: your name\ncontractor:\n  name: Your  Company\n", "utf-8")
    inputs = replace(subject.inputs, document=read_yaml(job))
    found = list(RULE.check(Submittal(subject.sheets, inputs)))
    assert [(f.outcome, f.objects, f.line) for f in found] == [
        (Outcome.OPEN, ("project.drawn_by",), 2),
        (Outcome.OPEN, ("contractor.name",), 4),
    ]
    assert found[0].message == (
        'project.drawn_by still says "your name" as the starter does; write your own in its place.'
    )


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_examples_have_none(name: str) -> None:
    (found,) = RULE.check(submittal(name))
    assert found.outcome is Outcome.PASS


def test_all_are_words_of_the_starter() -> None:
    text = STARTER.read_text(encoding="utf-8").casefold()
    assert [words for words in PLACEHOLDERS if words not in text] == []
    told = {words.casefold() for _, words in placeholders_left(read_yaml(STARTER).data)}
    assert {"your name", "your company", "your license number"} <= told


def test_the_starter_claims_no_survey_that_nobody_made() -> None:
    document = read_yaml(STARTER)
    told = {document.field_name(location) for location, _ in placeholders_left(document.data)}
    assert {
        "utility",
        "site_plan.source",
        "framing.source",
        "survey.source",
        "electrical.service.fault_source",
        "electrical.service.source",
        "electrical.utility_rules.source",
    } <= told
