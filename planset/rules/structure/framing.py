"""Rafters carry the added load. Not computed yet."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import clauses_of
from planset.finding import Finding, Outcome
from planset.rules.rule import Rule

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Say which rafters the engineer must check by hand."""
    framing = design.inputs.job.framing
    line = design.inputs.line_of("framing")
    if framing is None:
        message = (
            "The framing is by others; have its designer check bending, shear and deflection "
            "under the added load."
        )
        yield RULE.found(Outcome.OPEN, citation, message, line=line)
        return
    planes = tuple(sorted({array.plane.id for array in design.mounted}))
    message = (
        f"Rafters ({framing.member} {framing.species} {framing.grade} at {framing.spacing:g} in) "
        f"under the arrays on {', '.join(planes)} are not checked for the added load yet; have "
        "the engineer check bending, shear and deflection by hand."
    )
    yield RULE.found(Outcome.OPEN, citation, message, objects=planes, line=line)


RULE = Rule(
    id="structure.framing",
    title="Rafters under the added load",
    subject="structure",
    held_by="residential",
    clauses=clauses_of("IRC", {2021: "R324.4.1"}),  # from memory
    check=check,
)
