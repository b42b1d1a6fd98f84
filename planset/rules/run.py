"""Every rule on one design."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.catalog.access import dwelling_edition
from planset.catalog.jurisdiction import AdoptedCode, Jurisdiction
from planset.citation import CodeEdition
from planset.finding import Finding, Outcome
from planset.rules.alternates import accepted
from planset.rules.registry import RULES
from planset.rules.rule import COMMON_PRACTICE, Rule

if TYPE_CHECKING:
    from planset.design.design import Design

_NOTHING = "Nothing in this job is subject to the rule."


def judge(design: Design) -> tuple[Finding, ...]:
    """Return the findings of every rule on a design, in the order of the registry.

    What fails under an approved alternate of the job is reported as such.
    """
    alternates = design.inputs.job.alternates
    return tuple(
        finding for rule in RULES for finding in accepted(rule, judge_by(rule, design), alternates)
    )


def judge_by(rule: Rule, design: Design) -> tuple[Finding, ...]:
    """Return the findings of one rule, at least one.

    A rule that is for other buildings or things, or that the adopted edition does not have, is
    `n/a`; one whose clause in that edition is not known to this program is `open`, never silently
    passed.
    """
    if not rule.held_by:
        return _checked(rule, design, COMMON_PRACTICE, 0)
    adopted = adopted_edition(rule, design.inputs.jurisdiction)
    if adopted is None:
        message = (
            f"{rule.title}: the jurisdiction's profile names no code that decides this; ask which "
            "one is in force, and add it to the profile."
        )
        return (rule.found(Outcome.OPEN, "no code adopted", message),)
    if message := _why_idle(rule, design):
        clause = rule.clauses.get(adopted, "")
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


def _why_idle(rule: Rule, design: Design) -> str:
    """Why a design is not subject to a rule in any edition, "" where that is not known."""
    if rule.concerns not in ("", _kind_of_building(design)):
        return f"The rule is for {rule.concerns}, and this is none."
    return _NOTHING if rule.is_idle and rule.is_idle(design) else ""


def _kind_of_building(design: Design) -> str:
    return "other buildings" if design.inputs.job.building.use == "other" else "dwellings"


def _checked(rule: Rule, design: Design, citation: str, edition: int) -> tuple[Finding, ...]:
    found = (*rule.check(design, citation, edition), *_by_others(rule, design, citation))
    return found or (rule.found(Outcome.NOT_APPLICABLE, citation, _NOTHING),)


def _by_others(rule: Rule, design: Design, citation: str) -> tuple[Finding, ...]:
    """Say of a rule on mounting what it leaves to whoever mounts arrays by others."""
    names = tuple(array.id for array in design.arrays if array.mounting is None)
    if not rule.of_mounting or not names:
        return ()
    message = (
        f"{rule.title}: the mounting of {', '.join(names)} is by others, and this is determined on "
        "the sealed sheets of the mounting; have its designer show it there."
    )
    return (rule.found(Outcome.OPEN, citation, message, objects=names),)


def adopted_edition(rule: Rule, jurisdiction: Jurisdiction) -> CodeEdition | None:
    """Return the edition a jurisdiction adopts of the code that decides a rule, None where none.

    Raises:
        ValueError: No adopted code decides this rule.
    """
    if not rule.held_by:
        msg = f"no adopted code decides {rule.id}"
        raise ValueError(msg)
    if rule.held_by == "dwelling access":
        return dwelling_edition(jurisdiction)
    adopted: AdoptedCode | None = getattr(jurisdiction.codes, rule.held_by)
    return adopted.code_edition if adopted else None
