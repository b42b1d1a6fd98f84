"""Findings as a sheet prints them."""

from __future__ import annotations

import pytest

from planset.drawing.primitives import Text
from planset.finding import Finding, Outcome
from planset.sheets.findings_table import findings_list, findings_table


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
    made = findings_table("CHECKS", found, (0, 9), (3.0, 2.0, 1.0, 1.0, 1.0))
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
