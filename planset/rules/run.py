"""Every rule on one design."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.registry import RULES
from planset.rules.rule import COMMON_PRACTICE, Rule, cite

if TYPE_CHECKING:
    from planset.design.design import Design


def judge(design: Design) -> tuple[Finding, ...]:
    """Return the findings of every rule on a design, in the order of the registry."""
    return tuple(finding for rule in RULES for finding in judge_by(rule, design))


def judge_by(rule: Rule, design: Design) -> tuple[Finding, ...]:
    """Return the findings of one rule, at least one.

    A rule the adopted edition does not have is `n/a`; one whose clause in that edition is not
    known to this program is `open`, never silently passed.
    """
    if not rule.document:
        return _checked(rule, design, COMMON_PRACTICE, 0)
    code, edition = _adopted(rule.document, design)
    if code == rule.document and edition in rule.clauses:
        return _checked(rule, design, cite(code, edition, rule.clauses[edition]), edition)
    adopted = cite(code, edition)
    if code == rule.document and edition in rule.not_in:
        message = f"{adopted} has no such rule."
        return (rule.found(Outcome.NOT_APPLICABLE, adopted, message),)
    message = (
        f"planset has no clause of this rule for {adopted} yet; check it by hand against the "
        "adopted book."
    )
    return (rule.found(Outcome.OPEN, adopted, message),)


def _checked(rule: Rule, design: Design, citation: str, edition: int) -> tuple[Finding, ...]:
    nothing = "Nothing in this job is subject to the rule."
    found = tuple(rule.check(design, citation, edition))
    return found or (rule.found(Outcome.NOT_APPLICABLE, citation, nothing),)


def _adopted(document: str, design: Design) -> tuple[str, int]:
    """Code and edition the jurisdiction adopts where a rule of `document` would apply."""
    codes = design.inputs.jurisdiction.codes
    adopted = {
        "IRC": codes.residential,
        "ASCE 7": codes.loads,
        "NDS": codes.wood,
        "NEC": codes.electrical,
    }[document]
    return adopted.code, adopted.edition
