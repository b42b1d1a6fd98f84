"""The same job under three editions of the NEC: what differs, and nothing else does."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from planset.design.design import Design, build_design
from planset.finding import Finding
from planset.job.load import Inputs, read_job
from planset.rules.run import judge

ROOT = Path(__file__).parents[1]
YEARS = (2017, 2020, 2023)

EVERYWHERE = {
    # 230.85 came in 2020
    "electrical.emergency-disconnect": ("n/a", "pass", "pass"),
    # 690.31 asks for supports every 24 in since 2020
    "electrical.wire-support": ("n/a", "pass", "pass"),
}
TAPPED = {
    "electrical.emergency-disconnect": ("n/a", "ask", "ask"),
    # 705.11(C) of 2020 limits the length to 10 ft at dwellings; 2023 dropped it
    "electrical.tap-distance": ("n/a", "pass", "n/a"),
    "electrical.wire-support": ("n/a", "pass", "pass"),
}
WITH_BATTERY = {
    "electrical.emergency-disconnect": ("n/a", "ask", "ask"),
    # 706.15 asks for it since 2023
    "electrical.battery-shutdown": ("n/a", "n/a", "pass"),
    "electrical.wire-support": ("n/a", "pass", "pass"),
}
DIFFERENCES = {
    "tile-gable": EVERYWHERE,
    "shingle-hip": EVERYWHERE,
    "cross-gable": TAPPED,
    "battery-retrofit": WITH_BATTERY,
    "flat-commercial": {"electrical.wire-support": ("n/a", "pass", "pass")},
}
"""Example to rule to its gravest outcome in each edition, where they are not all the same."""

CLAUSES = {
    "690.9(A)": ("690.9(A)", "690.9(A)(1)", "690.9(A)(1)"),
    "705.60(B)": ("705.60(B)", "705.28(B)", "705.28(B)"),
    "705.65": ("705.65", "705.30", "705.30(B)"),
    "210.19(A)": ("210.19(A)", "210.19(A)", "210.19"),
    "215.2(A)": ("215.2(A)", "215.2(A)", "215.2"),
    "705.12(B)(2)(3)(b)": ("705.12(B)(2)(3)(b)", "705.12(B)(3)(2)", "705.12(B)(2)"),
    "705.12(B)(2)(1)": ("705.12(B)(2)(1)", "705.12(B)(1)", "705.12(A)(1)"),
    "705.12(A)": ("705.12(A)", "705.11(A)", "705.11(A)"),
    "706.7": ("706.7", "706.15", "706.15"),
}
"""Clauses that moved, by their number of 2017 (tap conductors moved to 705.11(B) beside)."""


@cache
def read(example: str) -> Inputs:
    return read_job(ROOT / "examples" / example / "job.yaml")


def under(inputs: Inputs, year: int) -> Design:
    """The design of a job in a town that adopts an edition of the NEC."""
    codes = inputs.jurisdiction.codes
    electrical = codes.electrical.model_copy(update={"edition": year})
    adopted = codes.model_copy(update={"electrical": electrical})
    return build_design(
        replace(inputs, jurisdiction=inputs.jurisdiction.model_copy(update={"codes": adopted}))
    )


@cache
def found(example: str, year: int) -> tuple[Finding, ...]:
    return tuple(f for f in judge(under(read(example), year)) if f.rule.startswith("electrical."))


def outcomes(findings: tuple[Finding, ...]) -> dict[str, tuple[object, ...]]:
    """Rule to what it found, its words and clauses apart."""
    told: dict[str, list[object]] = {}
    for f in findings:
        values = (f.outcome.value, f.measured, f.limit, f.objects)
        told.setdefault(f.rule, []).append(values)
    return {rule: tuple(values) for rule, values in told.items()}


@pytest.mark.parametrize("example", DIFFERENCES)
def test_what_is_found_differs_where_the_editions_do(example: str) -> None:
    by_year = [outcomes(found(example, year)) for year in YEARS]
    rules = {rule for told in by_year for rule in told}
    differing = {
        rule: tuple(told[rule][0][0] for told in by_year)  # type: ignore[index]
        for rule in rules
        if len({told[rule] for told in by_year}) > 1
    }
    assert differing == DIFFERENCES[example]


def clause_of(finding: Finding, year: int) -> str:
    return finding.citation.removeprefix(f"NEC {year}").strip()


def test_clauses_move_as_listed() -> None:
    moved: dict[str, set[tuple[str, ...]]] = {}
    for first, *later in zip(*(found("tile-gable", year) for year in YEARS), strict=True):
        if not first.citation.startswith("NEC") or first.outcome.value == "n/a":
            continue
        clauses = tuple(clause_of(f, y) for f, y in zip((first, *later), YEARS, strict=True))
        if len(set(clauses)) > 1:
            moved.setdefault(clauses[0], set()).add(clauses)
    assert moved
    for clause, rows in moved.items():
        assert rows == {CLAUSES[clause]}
