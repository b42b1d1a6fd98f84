"""Panel systems over dwellings have a fire class, and its conditions hold."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.irc.panel_class import CLAUSES
from planset.finding import Finding
from planset.rules.model_codes import with_california
from planset.rules.panel_class import judged
from planset.rules.rule import Rule

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare module type and slope of each array with the conditions of the class."""
    yield from judged(RULE, design, citation)


RULE = Rule(
    id="layout.fire-class",
    title="Fire class of modules and mounting",
    subject="layout",
    held_by="residential",
    clauses=with_california("IRC", "CRC", CLAUSES),
    check=check,
    concerns="dwellings",
    of_mounting=True,
)
