"""Approved alternates answer what fails, and nothing that must not fail."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from planset.errors import JobErrors
from planset.finding import Finding, Outcome
from planset.job.alternates import Alternate
from planset.pipeline import Status, check, draw
from planset.rules.alternates import accepted
from planset.rules.registry import RULES
from planset.rules.rule import Rule
from tests.example_job import near_the_ridge

RIDGE = "fire.ridge-setback"
APPROVED = {
    "rule": RIDGE,
    "approver": "D. Ames, fire marshal",
    "date": "2026-10-02",
    "reference": "FM-26-118",
    "text": "12 in at the ridge, the attic being sprinklered",
}


def in_the_way(folder: Path) -> Path:
    """The example with its array 15 in from the ridge, its hooks still at the laps of the tile."""
    job = near_the_ridge(folder, 15.0)
    text, count = re.subn(r"first_attachment: \S+", "first_attachment: 2", job.read_text("utf-8"))
    assert count == 1
    job.write_text(text, "utf-8")
    return job


def written(folder: Path, **fields: str) -> Path:
    """The example with its array near the ridge, and an alternate."""
    job = in_the_way(folder)
    lines = "".join(f"    {key}: '{value}'\n" for key, value in (APPROVED | fields).items())
    entry = f"alternates:\n  -{lines[3:]}"
    job.write_text(job.read_text(encoding="utf-8") + entry, encoding="utf-8")
    return job


def rule(name: str) -> Rule:
    return next(rule for rule in RULES if rule.id == name)


def judged(name: str, outcome: Outcome, **numbers: float | str) -> Finding:
    finding = rule(name).found(outcome, "a book", "It is so; change it.", **numbers)  # type: ignore[arg-type]
    alternate = Alternate.model_validate({**APPROVED, "rule": name})
    (result,) = accepted(rule(name), [finding], [alternate])
    return result


def of_ridge(findings: tuple[Finding, ...]) -> Iterator[Finding]:
    return (finding for finding in findings if finding.rule == RIDGE)


def test_what_fails_is_drawn_under_an_alternate_and_refused_without(tmp_path: Path) -> None:
    assert draw(in_the_way(tmp_path), tmp_path / "out").status is Status.REFUSED
    drawn = draw(written(tmp_path), tmp_path / "out")
    assert drawn.status is not Status.REFUSED
    (found,) = of_ridge(drawn.checked.findings)
    assert found.outcome is Outcome.ALTERNATE
    assert found.measured == pytest.approx(15.0, abs=0.1)
    assert found.limit == 18.0
    assert found.message.endswith(
        ", or build by the alternate that D. Ames, fire marshal approved on 2026-10-02, FM-26-118."
    )


def test_an_alternate_for_another_rule_answers_nothing(tmp_path: Path) -> None:
    checked = check(written(tmp_path, rule="fire.edge-setback"))
    assert [finding.outcome for finding in of_ridge(checked.findings)] == [Outcome.FAIL]


NOT_ANSWERED = [one for one in Outcome if one not in (Outcome.FAIL, Outcome.ASK)]


@pytest.mark.parametrize("outcome", NOT_ANSWERED)
def test_what_does_not_fail_stays_as_it_is(outcome: Outcome) -> None:
    assert judged(RIDGE, outcome, measured=40.0, limit=36.0, unit="in").outcome is outcome


def test_a_question_is_answered_by_name_and_date() -> None:
    found = judged("structure.snow", Outcome.ASK)
    assert found.outcome is Outcome.ALTERNATE
    assert found.message == (
        "It is so; change it. Asked, and D. Ames, fire marshal answered on 2026-10-02, FM-26-118."
    )


def test_what_is_open_stays_open_and_says_so() -> None:
    found = judged("structure.snow", Outcome.OPEN)
    assert found.outcome is Outcome.OPEN
    assert found.message.endswith("leaves it open: nobody has computed or documented it.")


@pytest.mark.parametrize("outcome", list(Outcome))
@pytest.mark.parametrize("name", ["electrical.rapid-shutdown", "structure.trusses"])
def test_what_no_program_may_pass_stays_as_it_is(name: str, outcome: Outcome) -> None:
    found = judged(name, outcome)
    assert (found.outcome, found.message) == (outcome, "It is so; change it.")


@pytest.mark.parametrize("outcome", [Outcome.FAIL, Outcome.ASK])
@pytest.mark.parametrize(
    ("name", "numbers"),
    [
        ("structure.lag-withdrawal", {"measured": 1.2, "limit": 1.0, "demand": 12.0}),
        ("structure.lag-combined", {"measured": 1.2, "limit": 1.0}),
        ("structure.connector-uplift", {"limit": 1.0, "demand": 12.0, "use_unit": "lb"}),
    ],
)
def test_a_demand_over_the_capacity_accepts_none(
    name: str, numbers: dict[str, float], outcome: Outcome
) -> None:
    found = judged(name, outcome, **numbers)
    assert found.outcome is outcome
    assert found.message.endswith("no answer to a demand over the capacity.")


def test_a_structural_length_may_have_one() -> None:
    found = judged("structure.lag-spacing", Outcome.FAIL, measured=1.0, limit=1.25, unit="in")
    assert found.outcome is Outcome.ALTERNATE


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("electrical.rapid-shutdown", "electrical.rapid-shutdown accepts no alternate"),
        ("structure.trusses", "structure.trusses accepts no alternate"),
        ("fire.moat", "no rule has this id (got fire.moat)"),
    ],
)
def test_an_alternate_that_cannot_be_is_refused(name: str, told: str, tmp_path: Path) -> None:
    job = written(tmp_path, rule=name)
    with pytest.raises(JobErrors) as refused:
        check(job)
    (problem,) = refused.value.problems
    assert problem.message == told
    assert problem.field == "alternates.1.rule"
    assert "rule: " in job.read_text(encoding="utf-8").splitlines()[(problem.line or 0) - 1]
