"""Attachments and rails under gravity, snow and downward wind. Not computed yet."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import clauses_of
from planset.finding import Finding, Outcome
from planset.rules.rule import Rule

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Say which loads the engineer must take by hand."""
    arrays = tuple(array.id for array in design.mounted)
    message = (
        "Loads toward the roof (dead load, ground snow of "
        f"{design.inputs.job.site.ground_snow:g} psf, downward wind) and along the slope are not "
        "computed yet; have the engineer check attachments and rails for them by hand."
    )
    line = design.inputs.line_of("site", "ground_snow")
    yield RULE.found(Outcome.OPEN, citation, message, objects=arrays, line=line)


RULE = Rule(
    id="structure.downward-load",
    title="Loads toward the roof",
    subject="structure",
    held_by="loads",
    clauses=clauses_of("ASCE 7", {2016: "2.4.1"}),
    check=check,
)
