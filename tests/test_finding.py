"""The finding and its outcomes."""

import dataclasses
import json
import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planset.finding import Finding, Outcome, report_order, worst


def finding(outcome: Outcome, rule: str = "ridge-setback", **fields: Any) -> Finding:
    return Finding(
        rule=rule,
        title="Setback at the ridge",
        outcome=outcome,
        citation="IFC 2021, 1205.2.1",
        message="The array stays clear of the ridge.",
        **fields,
    )


def test_outcome_words() -> None:
    words = {outcome.value for outcome in Outcome}
    assert words == {"pass", "tight", "fail", "ask", "alternate", "open", "n/a"}
    assert str(Outcome.NOT_APPLICABLE) == "n/a"


def test_a_record_is_plain_json() -> None:
    found = finding(
        Outcome.TIGHT, measured=18.5, limit=18.0, unit="in", objects=("A1", "ridge"), line=98
    )
    assert json.loads(json.dumps(found.as_record())) == {
        "rule": "ridge-setback",
        "outcome": "tight",
        "measured": 18.5,
        "limit": 18.0,
        "unit": "in",
        "demand": None,
        "capacity": None,
        "use_unit": "",
        "exception": "",
        "citation": "IFC 2021, 1205.2.1",
        "objects": ["A1", "ridge"],
        "line": 98,
        "message": "The array stays clear of the ridge.",
    }


def test_a_use_is_carried_with_its_unit() -> None:
    found = finding(Outcome.PASS, demand=331.0, capacity=540.0, use_unit="lb")
    told = found.as_record()
    assert (told["demand"], told["capacity"], told["use_unit"]) == (331.0, 540.0, "lb")


@pytest.mark.parametrize("number", [math.nan, math.inf])
@pytest.mark.parametrize("field", ["measured", "limit", "demand", "capacity"])
def test_numbers_json_cannot_carry_are_refused(field: str, number: float) -> None:
    with pytest.raises(ValueError, match=f"ridge-setback: {field} is (nan|inf); use None"):
        finding(Outcome.PASS, **{field: number})


def test_a_finding_cannot_be_changed() -> None:
    with pytest.raises(dataclasses.FrozenInstanceError):
        finding(Outcome.FAIL).outcome = Outcome.PASS  # type: ignore[misc]


def test_worst_of_nothing_is_not_applicable() -> None:
    assert worst([]) is Outcome.NOT_APPLICABLE


@pytest.mark.parametrize(
    ("graver", "lighter"),
    [
        (Outcome.FAIL, Outcome.OPEN),
        (Outcome.OPEN, Outcome.ASK),
        (Outcome.ASK, Outcome.TIGHT),
        (Outcome.TIGHT, Outcome.PASS),
        (Outcome.PASS, Outcome.NOT_APPLICABLE),
    ],
)
def test_gravity(graver: Outcome, lighter: Outcome) -> None:
    assert worst([finding(lighter), finding(graver), finding(lighter)]) is graver


@given(st.lists(st.sampled_from(Outcome)))
def test_report_order_starts_with_the_worst_and_keeps_all(outcomes: list[Outcome]) -> None:
    findings = [finding(outcome, rule=f"r{place}") for place, outcome in enumerate(outcomes)]
    ordered = report_order(findings)
    assert sorted(f.rule for f in ordered) == sorted(f.rule for f in findings)
    assert all(worst(ordered[place:]) is f.outcome for place, f in enumerate(ordered))


def test_report_order_is_the_same_for_any_order_given() -> None:
    findings = [finding(Outcome.ASK, "b"), finding(Outcome.ASK, "a"), finding(Outcome.FAIL, "c")]
    assert report_order(findings) == report_order(findings[::-1])
    assert [f.rule for f in report_order(findings)] == ["c", "a", "b"]
