"""What the rules for roofs of buildings other than dwellings share."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.citation import CodeEdition
from planset.codes.other_roof_access import other_access, other_editions
from planset.finding import Finding, Outcome
from planset.rules.rule import Rule

if TYPE_CHECKING:
    from planset.design.access.other.geometry import OtherRoofAccess
    from planset.design.design import Design

_EXEMPT_GROUP = "U"


def clauses_of_topic(topic: str) -> dict[CodeEdition, str]:
    """Return the clauses of a topic in the editions that have it."""
    rules = map(other_access, other_editions())
    return {item.edition: item.clauses[topic] for item in rules if topic in item.clauses}


def without_topic(topic: str) -> frozenset[CodeEdition]:
    """Return the editions that are known to have no rule of a topic."""
    rules = map(other_access, other_editions())
    return frozenset(
        item.edition
        for item in rules
        if topic not in item.clauses and topic not in item.not_entered
    )


def found_on(design: Design) -> OtherRoofAccess:
    """Return what was measured on the roof.

    Raises:
        ValueError: The rule was asked about a dwelling, or an edition that is not entered.
    """
    if design.other_access is None:
        msg = "the roof was not measured by the rules for other buildings"
        raise ValueError(msg)
    return design.other_access


def exempt(rule: Rule, design: Design, citation: str) -> Finding | None:
    """Return the finding that takes the place of a judgement on a structure of Group U.

    Detached structures of that group that nobody lives in are exempt; the job does not tell
    whether this is one. Source: IFC 2018, 1204.2, exception 1 [from memory].
    """
    if design.inputs.job.building.occupancy != _EXEMPT_GROUP:
        return None
    message = (
        "A detached structure of Group U that is not habitable is exempt from the rules for roof "
        "access; ask the fire code official whether this is one."
    )
    line = design.inputs.line_of("building", "occupancy")
    return rule.found(Outcome.ASK, citation, message, line=line)
