"""What G-002 says: a line for each rule and what it judged, and what asks for an answer."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from planset.finding import Finding, Outcome
from planset.rules.registry import RULES
from planset.rules.rule import COMMON_PRACTICE
from planset.sheets.context import SheetContext
from planset.sheets.findings_table import limit_words, result_word, value_words
from planset.sheets.shown_on import shown_on

Rows = list[tuple[str, ...]]

_NAMED = 4  # things a row names; further ones are counted
_ELSEWHERE = "-"
_MEANINGS = {
    Outcome.OPEN: " (not computed, or without its document: to be checked by hand)",
    Outcome.ASK: " (the code leaves it to the building department)",
    Outcome.ALTERNATE: " (the building department has approved something else, or answered)",
    Outcome.TIGHT: " (met, by less than 1 in of a clearance or 5 % of a capacity)",
    Outcome.NOT_APPLICABLE: " (does not apply)",
}


def subjects(context: SheetContext) -> Iterator[tuple[str, Rows]]:
    """Yield each subject with its rows: requirement, where, limit, value, clause, result, sheet."""
    named = {rule.id: rule.subject for rule in RULES}
    for subject in dict.fromkeys(named.values()):
        found = [
            finding
            for finding in context.findings
            if named.get(finding.rule) == subject and _applies(finding)
        ]
        yield subject, [_row(context, subject, group) for group in groups(found)]


def groups(findings: Iterable[Finding]) -> list[list[Finding]]:
    """Findings that share a row: of one rule, clause, limit and outcome, the worst first."""
    made: dict[object, list[Finding]] = {}
    for finding in findings:
        key = (finding.rule, finding.outcome, finding.limit, finding.unit, finding.citation)
        made.setdefault(key, []).append(finding)
    return [sorted(group, key=_beyond, reverse=True) for group in made.values()]


def _beyond(finding: Finding) -> float:
    """How far a value is beyond the limit of its row; below 0 where it is within."""
    if finding.measured is None or finding.limit is None:
        return -math.inf
    apart = abs(finding.measured - finding.limit)
    within = finding.outcome in (Outcome.PASS, Outcome.TIGHT) and not finding.exception
    return -apart if within else apart


def _row(context: SheetContext, subject: str, group: Sequence[Finding]) -> tuple[str, ...]:
    first = group[0]
    alike = [finding for finding in group if finding.measured == first.measured]
    objects = list(dict.fromkeys(name for finding in alike for name in finding.objects))
    where = ", ".join(objects[:_NAMED])
    if len(objects) > _NAMED:
        where += f" and {len(objects) - _NAMED} more"
    if len(group) > len(alike):
        where = f"{where} (worst of {len(group)})".strip()
    return (
        first.title.upper(),
        where or _ELSEWHERE,
        limit_words(first),
        value_words(first),
        first.citation,
        result_word(first.outcome),
        ", ".join(shown_on(context.others, subject, first)) or _ELSEWHERE,
    )


def asked(context: SheetContext) -> Rows:
    """Rows of what the building department is asked: the matter, the question, the clause."""
    found = [finding for finding in context.findings if finding.outcome is Outcome.ASK]
    return list(dict.fromkeys((one.title.upper(), one.message, one.citation) for one in found))


def alternates(context: SheetContext) -> Rows:
    """Rows of the approved alternates: rule, approver, date and reference, its words, its use."""
    titles = {rule.id: rule.title for rule in RULES}
    used = Counter(f.rule for f in context.findings if f.outcome is Outcome.ALTERNATE)
    left = {f.rule for f in context.findings if f.outcome in (Outcome.FAIL, Outcome.OPEN)}
    return [
        (
            titles.get(one.rule, one.rule).upper(),
            f"{one.approver}, {one.date.isoformat()}, {one.reference}",
            one.text,
            _use(used[one.rule], left=one.rule in left),
        )
        for one in context.design.inputs.job.alternates
    ]


def _use(stands_for: int, *, left: bool) -> str:
    """What an alternate does in this set: findings it stands for, and whether it leaves some."""
    if stands_for:
        return f"stands for {stands_for}" + (", not for all" if left else "")
    return "no answer here" if left else "not needed"


def answers(context: SheetContext) -> tuple[str, Rows]:
    """Title and rows of what the newest revision answers: comment, reply, and where it is seen."""
    revisions = context.design.inputs.job.revisions
    if not revisions:
        return "", []
    newest = revisions[-1]
    rows: Rows = [(one.number, one.comment, one.reply, one.sheet) for one in newest.answers]
    return f"ANSWERS TO CORRECTIONS, REVISION {newest.number}", rows


def idle(context: SheetContext) -> Rows:
    """Rows of what does not apply: the reason, and the rules it holds for."""
    reasons: dict[str, list[str]] = {}
    for finding in context.findings:
        if not _applies(finding):
            reasons.setdefault(finding.message, []).append(_idle_rule(finding))
    return [(reason, "; ".join(dict.fromkeys(rules))) for reason, rules in reasons.items()]


def counted(context: SheetContext) -> str:
    """How many findings have which outcome, and what the less usual ones mean."""
    counts = Counter(finding.outcome for finding in context.findings)
    told = [
        f"{counts[outcome]} {result_word(outcome)}{_MEANINGS.get(outcome, '')}"
        for outcome in Outcome
        if counts[outcome]
    ]
    return f"{len(context.findings)} FINDINGS: {'; '.join(told)}."


def _applies(finding: Finding) -> bool:
    return finding.outcome is not Outcome.NOT_APPLICABLE


def _idle_rule(finding: Finding) -> str:
    words = finding.title
    if finding.objects:
        words += f", {', '.join(finding.objects)}"
    told = finding.citation == COMMON_PRACTICE or finding.citation in finding.message
    return words if told else f"{words} ({finding.citation})"
