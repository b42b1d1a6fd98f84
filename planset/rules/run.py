"""Every rule on one design."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.catalog.access import dwelling_edition
from planset.catalog.jurisdiction import Jurisdiction
from planset.citation import CodeEdition
from planset.finding import Finding, Outcome
from planset.rules.registry import RULES
from planset.rules.rule import COMMON_PRACTICE, Rule

if TYPE_CHECKING:
    from planset.design.design import Design


def judge(design: Design) -> tuple[Finding, ...]:
    """Return the findings of every rule on a design, in the order of the registry."""
    return tuple(finding for rule in RULES for finding in judge_by(rule, design))


def judge_by(rule: Rule, design: Design) -> tuple[Finding, ...]:
    """Return the findings of one rule, at least one.

    A rule that is for other buildings, or that the adopted edition does not have, is `n/a`; one
    whose clause in that edition is not known to this program is `open`, never silently passed.
    """
    if not rule.held_by:
        return _checked(rule, design, COMMON_PRACTICE, 0)
    adopted = adopted_edition(rule, design.inputs.jurisdiction)
    if rule.concerns not in ("", _kind_of_building(design)):
        clause = rule.clauses.get(adopted, "")
        message = f"The rule is for {rule.concerns}, and this is none."
        return (rule.found(Outcome.NOT_APPLICABLE, adopted.cite(clause), message),)
    if adopted in rule.clauses:
        return _checked(rule, design, adopted.cite(rule.clauses[adopted]), adopted.year)
    if adopted in rule.not_in:
        message = f"{adopted} has no such rule."
        return (rule.found(Outcome.NOT_APPLICABLE, adopted.cite(), message),)
    message = (
        f"{rule.title}: planset has no clause of this rule for {adopted} yet; check it by hand "
        "against the adopted book."
    )
    return (rule.found(Outcome.OPEN, adopted.cite(), message),)


def _kind_of_building(design: Design) -> str:
    return "other buildings" if design.inputs.job.building.use == "other" else "dwellings"


def _checked(rule: Rule, design: Design, citation: str, edition: int) -> tuple[Finding, ...]:
    nothing = "Nothing in this job is subject to the rule."
    found = tuple(rule.check(design, citation, edition))
    return found or (rule.found(Outcome.NOT_APPLICABLE, citation, nothing),)


def adopted_edition(rule: Rule, jurisdiction: Jurisdiction) -> CodeEdition:
    """Return the edition a jurisdiction adopts of the code that decides a rule.

    Raises:
        ValueError: No adopted code decides this rule.
    """
    codes = jurisdiction.codes
    match rule.held_by:
        case "dwelling access":
            return dwelling_edition(jurisdiction)
        case "fire":
            return codes.fire.code_edition
        case "residential":
            return codes.residential.code_edition
        case "loads":
            return codes.loads.code_edition
        case "wood":
            return codes.wood.code_edition
        case "electrical":
            return codes.electrical.code_edition
        case "":
            msg = f"no adopted code decides {rule.id}"
            raise ValueError(msg)
