"""Approved alternates: what the authority having jurisdiction accepts in place of a rule.

One answers a `fail`, or the question of an `ask`; never rapid shutdown, trusses without their
letter, or a part that is asked for more than it can carry. What is `open` it leaves open: nobody
has computed or documented the matter that it could be about.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from planset.errors import JobErrors
from planset.finding import Finding, Outcome
from planset.rules.registry import RULES
from planset.rules.rule import Rule

if TYPE_CHECKING:
    from planset.job.alternates import Alternate
    from planset.job.load import Inputs

_ANSWERED = (Outcome.FAIL, Outcome.ASK)
_NO_ANSWER = "An approved alternate is no answer to a demand over the capacity."
_STILL_OPEN = "The approved alternate leaves it open: nobody has computed or documented it."


def refuse_unusable(inputs: Inputs) -> None:
    """Refuse alternates for rules that are none, or that accept no alternate.

    Raises:
        JobErrors: With every such alternate of the job.
    """
    rules = {rule.id: rule for rule in RULES}
    problems = []
    for number, alternate in enumerate(inputs.job.alternates):
        rule = rules.get(alternate.rule)
        if rule is not None and rule.accepts_alternate:
            continue
        told = f"no rule has this id (got {alternate.rule})"
        mend = "write an id that `planset rules` lists"
        if rule is not None:
            told = f"{alternate.rule} accepts no alternate"
            mend = "take it out, and mend what the rule tells"
        problems.append(inputs.document.problem(("alternates", number, "rule"), told, mend))
    if problems:
        raise JobErrors(problems)


def accepted(
    rule: Rule, found: Iterable[Finding], alternates: Iterable[Alternate]
) -> Iterator[Finding]:
    """Yield the findings of a rule, those that an alternate answers as `alternate`."""
    alternate = next((one for one in alternates if one.rule == rule.id), None)
    for finding in found:
        if alternate is None or not rule.accepts_alternate:
            yield finding
        elif finding.outcome is Outcome.OPEN:
            yield replace(finding, message=f"{finding.message} {_STILL_OPEN}")
        elif finding.outcome not in _ANSWERED:
            yield finding
        elif _over_capacity(rule, finding):
            yield replace(finding, message=f"{finding.message} {_NO_ANSWER}")
        else:
            yield replace(finding, outcome=Outcome.ALTERNATE, message=_message(finding, alternate))


def _over_capacity(rule: Rule, finding: Finding) -> bool:
    """Tell whether a finding holds a structural demand over a capacity."""
    is_ratio = finding.limit == 1 and not finding.unit
    return rule.subject == "structure" and (finding.demand is not None or is_ratio)


def _message(finding: Finding, alternate: Alternate) -> str:
    approved = f"{alternate.date.isoformat()}, {alternate.reference}"
    if finding.outcome is Outcome.ASK:
        return f"{finding.message} Asked, and {alternate.approver} answered on {approved}."
    return (
        f"{finding.message.rstrip('.')}, or build by the alternate that {alternate.approver} "
        f"approved on {approved}."
    )
