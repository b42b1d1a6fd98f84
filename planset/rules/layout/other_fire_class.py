"""Panel systems over other buildings have a fire class, and its conditions hold."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.ibc.panel_class import CLAUSES
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
    id="layout.other-fire-class",
    title="Fire class of modules and mounting",
    subject="layout",
    held_by="building",
    clauses=with_california("IBC", "CBC", CLAUSES),
    check=check,
    concerns="other buildings",
    of_mounting=True,
)
