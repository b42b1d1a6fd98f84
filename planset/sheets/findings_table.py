"""Findings as tables, the same words on every sheet."""

from __future__ import annotations

import math
from collections.abc import Iterable

from planset.drawing.geometry import Point
from planset.drawing.table import Column, Table
from planset.finding import Finding, Outcome, worst
from planset.sheets.note_table import fitted_table, note_table
from planset.sheets.words import measured
from planset.units import Rounding

_AT_LEAST, _AT_MOST = ">=", "<="  # plain letters: DXF readers differ on others
_IN_WORDS = {_AT_LEAST: "MIN.", _AT_MOST: "MAX.", "": "LIMIT"}
_NONE = "NO CHECK APPLIES"


def findings_table(title: str, findings: Iterable[Finding], top_left: Point, width: float) -> Table:
    """Check, clause, limit, value and result, a line per rule.

    Args:
        title: Words above the table.
        findings: What to list.
        top_left: Upper left corner [paper in].
        width: Width of the table [in].
    """
    titles = ("CHECK", "CLAUSE OR DOCUMENT", "LIMIT", "IS", "RESULT")
    rows = [
        (
            finding.title.upper(),
            finding.citation,
            limit_words(finding),
            value_words(finding),
            result_word(finding.outcome),
        )
        for finding in one_per_rule(findings)
    ] or [(_NONE, "-", "-", "-", "-")]
    return fitted_table(title, titles, rows, top_left, width, left=2)


def findings_list(
    title: str,
    findings: Iterable[Finding],
    top_left: Point,
    width: float,
    *,
    first: Iterable[str] = (),
) -> Table:
    """The same in one narrow column: check, values and result, clause.

    Args:
        title: Words above the list.
        findings: What to list.
        top_left: Upper left corner [paper in].
        width: Width of the column [in].
        first: What else is found, each a row above the findings.
    """
    listed = [*first, *(_stacked(finding) for finding in one_per_rule(findings))]
    rows = [(words,) for words in listed or [_NONE]]
    columns = (Column("", width),)
    return note_table(title, columns, rows, top_left)


def one_per_rule(findings: Iterable[Finding]) -> list[Finding]:
    """Of each rule that applies, the finding that matters most.

    Of the gravest outcome it is the one with the least left to its limit or the most beyond it,
    as a share of the limit; one without numbers, or of a limit of 0, only where all are.
    """
    by_rule: dict[str, list[Finding]] = {}
    for finding in findings:
        if finding.outcome is not Outcome.NOT_APPLICABLE:
            by_rule.setdefault(finding.rule, []).append(finding)
    chosen = []
    for group in by_rule.values():
        outcome = worst(group)
        chosen.append(max((one for one in group if one.outcome is outcome), key=_urgency))
    return chosen


def limit_words(finding: Finding) -> str:
    """A limit as a table prints it, with the side on which a value passes."""
    return f"{_side(finding)} {_limit(finding)}".strip()


def value_words(finding: Finding) -> str:
    """A value as a table prints it: a length rounded toward the side on which it fails.

    One beyond its limit that passes by an exception says so.
    """
    rounding: Rounding = "up" if _side(finding) == _AT_MOST else "down"
    value = measured(finding.measured, finding.unit, rounding, fine=_close(finding))
    return f"{value}, EXCEPTED" if finding.exception else value


def _limit(finding: Finding) -> str:
    """The limit: a length rounded to the safe side, so that what keeps to it passes."""
    rounding: Rounding = "down" if _side(finding) == _AT_MOST else "up"
    return measured(finding.limit, finding.unit, rounding, fine=_close(finding))


def _close(finding: Finding) -> bool:
    """Whether a value is so near its limit that the half inch would blur which is more."""
    return finding.outcome is Outcome.TIGHT


def _urgency(finding: Finding) -> float:
    """The share of its limit that a value is beyond it; below 0 where it is within."""
    measured, limit = finding.measured, finding.limit
    if measured is None or not limit:
        return -math.inf
    apart = abs(measured - limit) / abs(limit)
    within = finding.outcome in (Outcome.PASS, Outcome.TIGHT) and not finding.exception
    return -apart if within else apart


def result_word(outcome: Outcome) -> str:
    """An outcome as a sheet prints it."""
    return outcome.value.upper()


def _side(finding: Finding) -> str:
    """On which side of its limit a value passes, where the finding tells."""
    if finding.limit is None or finding.measured is None or finding.measured == finding.limit:
        return ""
    over = finding.measured > finding.limit
    match finding.outcome:
        case Outcome.PASS if finding.exception:
            return _AT_MOST if over else _AT_LEAST
        case Outcome.PASS | Outcome.TIGHT:
            return _AT_LEAST if over else _AT_MOST
        case Outcome.FAIL | Outcome.ALTERNATE:
            return _AT_MOST if over else _AT_LEAST
    return ""


def _stacked(finding: Finding) -> str:
    result = result_word(finding.outcome)
    if finding.measured is not None and finding.limit is not None:
        limit, value = _limit(finding), value_words(finding)
        result = f"{_IN_WORDS[_side(finding)]} {limit}, IS {value}: {result}"
    return f"{finding.title.upper()}\n{result}\n{finding.citation}"
