"""Findings as a sheet prints them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planset.drawing.primitives import Text
from planset.finding import Finding, Outcome
from planset.sheets.findings_table import findings_list, findings_table, one_per_rule


def finding(outcome: Outcome, measured: float | None, limit: float | None) -> Finding:
    return Finding(
        rule="electrical.some",
        title="Some rating",
        outcome=outcome,
        citation="NEC 2020 690.9(B)",
        message="One sentence.",
        measured=measured,
        limit=limit,
        unit="A",
    )


def inches(outcome: Outcome, measured: float, limit: float) -> Finding:
    return replace(finding(outcome, measured, limit), unit="in")


@pytest.mark.parametrize(
    ("outcome", "measured", "limit", "printed"),
    [
        (Outcome.PASS, 40.0, 39.6, ">= 39.6 A"),
        (Outcome.TIGHT, 40.0, 39.6, ">= 39.6 A"),
        (Outcome.FAIL, 39.0, 39.6, ">= 39.6 A"),
        (Outcome.PASS, 13.5, 20.0, "<= 20 A"),
        (Outcome.FAIL, 27.0, 20.0, "<= 20 A"),
        # nothing tells which side of the limit is the good one
        (Outcome.PASS, 20.0, 20.0, "20 A"),
        (Outcome.ASK, 27.0, 20.0, "20 A"),
        (Outcome.OPEN, None, 20.0, "20 A"),
        (Outcome.OPEN, None, None, "-"),
    ],
)
def test_a_limit_says_on_which_side_a_value_passes(
    outcome: Outcome, measured: float | None, limit: float | None, printed: str
) -> None:
    found = [finding(outcome, measured, limit)]
    made = findings_table("CHECKS", found, (0, 9), 8.0)
    words = [part.text for part in made.primitives if isinstance(part, Text)]
    assert printed in words


def test_a_list_gives_limit_value_and_result_in_one_line() -> None:
    found = [finding(Outcome.PASS, 40.0, 39.6)]
    made = findings_list("CHECKS", found, (0, 9), 4.0)
    words = [part.text for part in made.primitives if isinstance(part, Text)]
    assert words == [
        "CHECKS",
        "SOME RATING",
        "MIN. 39.6 A, IS 40 A: PASS",
        "NEC 2020 690.9(B)",
    ]


@pytest.mark.parametrize(
    ("outcome", "values", "limit", "shown"),
    [
        (Outcome.PASS, (92.0, 40.0, 51.0), 36.0, 40.0),  # at least: the narrowest
        (Outcome.PASS, (0.19, 0.27, 0.04), 1.0, 0.27),  # at most: the most used
        (Outcome.FAIL, (35.0, 30.0, 32.0), 36.0, 30.0),
        (Outcome.FAIL, (41.0, 44.0, 42.0), 36.0, 44.0),
    ],
)
def test_of_equal_outcomes_the_one_nearest_its_limit_or_most_beyond_it_is_shown(
    outcome: Outcome, values: tuple[float, ...], limit: float, shown: float
) -> None:
    (chosen,) = one_per_rule(finding(outcome, value, limit) for value in values)
    assert chosen.measured == shown


def test_the_gravest_outcome_is_shown_whatever_its_numbers() -> None:
    near = finding(Outcome.PASS, 36.1, 36.0)
    for grave in (finding(Outcome.FAIL, 20.0, 36.0), finding(Outcome.OPEN, None, None)):
        assert one_per_rule([near, grave]) == [grave]


def test_a_limit_of_nothing_hides_no_other() -> None:
    """No snow where none is required says nothing of the wind speed."""
    snow, wind = finding(Outcome.PASS, 0.0, 0.0), finding(Outcome.PASS, 115.0, 110.0)
    assert one_per_rule([snow, wind]) == [wind]


@pytest.mark.parametrize(
    ("outcome", "measured", "limit", "words"),
    [
        # what keeps to the printed limit keeps to the limit
        (Outcome.PASS, 13.2, 13.8, "MAX. 1'-1 3/4\", IS 1'-1 1/4\": PASS"),
        (Outcome.FAIL, 35.2, 13.8, "MAX. 1'-1 3/4\", IS 2'-11 1/4\": FAIL"),
        (Outcome.PASS, 36.8, 36.2, "MIN. 3'-0 1/4\", IS 3'-0 3/4\": PASS"),
        (Outcome.FAIL, 35.8, 36.2, "MIN. 3'-0 1/4\", IS 2'-11 3/4\": FAIL"),
        # halves of an inch from ten feet on
        (Outcome.PASS, 121.2, 121.8, "MAX. 10'-1 1/2\", IS 10'-1 1/2\": PASS"),
        (Outcome.PASS, 132.8, 132.2, "MIN. 11'-0 1/2\", IS 11'-0 1/2\": PASS"),
        (Outcome.FAIL, 131.8, 132.2, "MIN. 11'-0 1/2\", IS 10'-11 1/2\": FAIL"),
    ],
)
def test_lengths_are_rounded_to_the_safe_side(
    outcome: Outcome, measured: float, limit: float, words: str
) -> None:
    made = findings_list("CHECKS", [inches(outcome, measured, limit)], (0, 9), 4.0)
    assert words in [part.text for part in made.primitives if isinstance(part, Text)]
