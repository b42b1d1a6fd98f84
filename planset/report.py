"""Findings and rules as lines for the terminal."""

from __future__ import annotations

import inspect
import textwrap
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby, zip_longest

from typer import style

from planset.finding import Finding, Outcome, report_order
from planset.review.page_rule import PageRule
from planset.review.registry import PAGE_RULES
from planset.rules.registry import RULES
from planset.rules.rule import Rule
from planset.sheets.words import measured

CAUTION = (
    "A plan set does not replace a licensed professional; the authority having jurisdiction and "
    "local code govern. On the roof: fall protection. At the wires: electric shock."
)

_COLORS = {
    Outcome.FAIL: "red",
    Outcome.OPEN: "magenta",
    Outcome.ASK: "cyan",
    Outcome.ALTERNATE: "blue",
    Outcome.TIGHT: "yellow",
    Outcome.PASS: "green",
    Outcome.NOT_APPLICABLE: None,
}
_SILENT = (Outcome.PASS, Outcome.NOT_APPLICABLE)
_NAMED = 3  # things a row names; further ones are counted
_GAP = "  "
_HEAD = ("result", "check", "is", "limit", "clause")
_SHARES = (0, 5, 0, 0, 4)
_RULE_SHARES = (0, 5, 4)

_NO_CODE = "jurisdiction, maker or trade practice"

Row = tuple[str, ...]

_ALL_RULES: tuple[Rule | PageRule, ...] = (*RULES, *PAGE_RULES)


def findings_lines(findings: Sequence[Finding], job: str, width: int) -> Iterator[str]:
    """Yield a table of all findings, what each says that is not well, and how many there are.

    Args:
        findings: In the order of the rules.
        job: The job file as the user named it.
        width: Columns of the terminal.
    """
    yield from _table(findings, width)
    yield ""
    for finding in report_order(findings):
        if finding.outcome not in _SILENT:
            yield from _message(finding, job, width)
            yield ""
    counts = Counter(finding.outcome for finding in findings)
    told = ", ".join(f"{counts[outcome]} {outcome}" for outcome in Outcome if counts[outcome])
    yield f"{len(findings)} findings: {told}"


def _table(findings: Sequence[Finding], width: int) -> Iterator[str]:
    subjects = [
        (subject, [_row(group) for group in _groups(found)])
        for subject, found in groupby(findings, _subject)
    ]
    rows = [row for _, rows in subjects for row in rows]
    widths = _widths([_HEAD, *rows], _SHARES, width)
    yield from _lines(_HEAD, widths)
    for subject, rows in subjects:
        yield ""
        yield style(subject.upper(), bold=True)
        for row in rows:
            first, *others = _lines(row, widths)
            yield _colored(Outcome(row[0])) + first[len(row[0]) :]
            yield from others


def _subject(finding: Finding) -> str:
    """Return the heading of a finding; the pages' rules are headed by their folder."""
    subjects = {rule.id: rule.subject for rule in RULES}
    return subjects.get(finding.rule) or finding.rule.partition(".")[0]


def _groups(findings: Iterable[Finding]) -> Iterable[list[Finding]]:
    """Return groups of findings that share a row, the one nearest to its limit first.

    What passes by one rule shares a row where the limit is one; all else only where it reads alike
    but for its objects.
    """
    groups: dict[object, list[Finding]] = {}
    for finding in findings:
        passed = finding.outcome is Outcome.PASS
        number = None if passed else finding.measured
        look = (finding.rule, finding.outcome, number, finding.limit, finding.unit)
        groups.setdefault((*look, finding.citation if passed else ""), []).append(finding)
    return (sorted(group, key=_margin) for group in groups.values())


def _margin(finding: Finding) -> float:
    """Return how far a value is from its limit, 0 where there is none."""
    if finding.measured is None or finding.limit is None:
        return 0.0
    return abs(finding.limit - finding.measured)


def _row(group: list[Finding]) -> Row:
    first = group[0]
    alike = [finding for finding in group if finding.measured == first.measured]
    objects = list(dict.fromkeys(name for finding in alike for name in finding.objects))
    named = ", ".join(objects[:_NAMED])
    if len(objects) > _NAMED:
        named += f" and {len(objects) - _NAMED} more"
    check = f"{first.title} ({named})" if named else first.title
    if len(group) > len(alike):
        check += f" and {len(group) - len(alike)} more"
    return (
        first.outcome.value,
        check,
        *_value_and_limit(first),
        first.citation,
    )


def _value_and_limit(finding: Finding) -> tuple[str, str]:
    close = finding.outcome is Outcome.TIGHT
    return (
        measured(finding.measured, finding.unit, "down", fine=close),
        measured(finding.limit, finding.unit, "up", fine=close),
    )


def _message(finding: Finding, job: str, width: int) -> Iterator[str]:
    word = finding.outcome.value
    head = f"{word}{_GAP}{finding.rule}, {finding.citation}"
    if finding.limit is not None:
        found, limit = _value_and_limit(finding)
        head += f": is {found}, limit {limit}"
    place = f"{job}:{finding.line}: " if finding.line is not None else ""
    first, *others = [*_indented(head, "", width), *_indented(place + finding.message, _GAP, width)]
    yield _colored(finding.outcome) + first.removeprefix(word)
    yield from others


def _indented(text: str, indent: str, width: int) -> list[str]:
    """Return the lines of a paragraph; names of files stay whole."""
    return textwrap.wrap(
        text,
        width,
        initial_indent=indent,
        subsequent_indent=_GAP,
        break_on_hyphens=False,
        break_long_words=False,
    )


def _colored(outcome: Outcome) -> str:
    return style(outcome.value, fg=_COLORS[outcome], bold=outcome is Outcome.FAIL)


# --- rules ---------------------------------------------------------------------------------


def rules_lines(width: int) -> Iterator[str]:
    """Yield every rule with what it stands on."""
    rows = [(rule.id, rule.title, _sources(rule)) for rule in _ALL_RULES]
    head = ("rule", "states", "from")
    widths = _widths([head, *rows], _RULE_SHARES, width)
    for row in (head, *rows):
        yield from _lines(row, widths)


def rule_lines(rule: Rule | PageRule) -> Iterator[str]:
    """Yield one rule with what it checks and how."""
    yield style(rule.id, bold=True)
    yield rule.title
    if isinstance(rule, Rule):
        yield from _clauses(rule) or [_NO_CODE]
        if rule.not_in:
            yield "not in " + ", ".join(map(str, sorted(rule.not_in)))
    else:
        yield rule.citation
    for source in (inspect.getmodule(rule.check), rule.check):
        yield ""
        yield inspect.getdoc(source) or ""


def rule_of(name: str) -> Rule | PageRule | None:
    """Return the rule of an id, None when there is none."""
    return {rule.id: rule for rule in _ALL_RULES}.get(name)


def _sources(rule: Rule | PageRule) -> str:
    """Return what a rule stands on, in a few words: of several documents only the names."""
    if isinstance(rule, PageRule):
        return rule.citation
    documents = sorted({edition.document for edition in rule.clauses})
    if len(documents) > 1:
        return ", ".join(documents)
    return "; ".join(_clauses(rule)) or _NO_CODE


def _clauses(rule: Rule) -> list[str]:
    """Return the clauses of each document, which is named once."""
    found = []
    for document, editions in groupby(sorted(rule.clauses), lambda edition: edition.document):
        first, *others = [edition.cite(rule.clauses[edition]) for edition in editions]
        found.append(", ".join([first, *(told.removeprefix(f"{document} ") for told in others)]))
    return found


# --- columns -------------------------------------------------------------------------------


def _widths(rows: Sequence[Row], shares: Sequence[int], width: int) -> list[int]:
    """Return the widths of columns: as wide as they need, or a share of what those leave."""
    needed = [max(map(len, column)) for column in zip(*rows, strict=True)]
    fixed = sum(need for need, share in zip(needed, shares, strict=True) if not share)
    rest = width - fixed - len(_GAP) * (len(shares) - 1)
    return [
        rest * share // sum(shares) if share else need
        for need, share in zip(needed, shares, strict=True)
    ]


def _lines(row: Row, widths: Sequence[int]) -> Iterator[str]:
    """Yield the lines of a row whose cells are wrapped to their columns."""
    cells = [textwrap.wrap(cell, width) for cell, width in zip(row, widths, strict=True)]
    for parts in zip_longest(*cells, fillvalue=""):
        padded = (part.ljust(width) for part, width in zip(parts, widths, strict=True))
        yield _GAP.join(padded).rstrip()
