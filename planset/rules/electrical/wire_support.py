"""Exposed conductors in the array are supported as closely as the edition says."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.wiring import longest_support_in
from planset.finding import Finding
from planset.rules.circuits import nec, nec_without
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the distance between clips; of conductors of 8 AWG and smaller in 2023."""
    clips, limit = design.inputs.job.electrical.wire_clips, longest_support_in(edition)
    if limit is None:
        return
    outcome = at_most_outcome(clips.spacing, limit)
    fact = f"Clips stand {clips.spacing:g} in apart, where {limit:g} in is the most"
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, f"set electrical.wire_clips.spacing to {limit:g} in or less"),
        measured=clips.spacing,
        limit=limit,
        unit="in",
        line=design.inputs.line_of("electrical", "wire_clips", "spacing"),
    )


RULE = Rule(
    id="electrical.wire-support",
    title="Support of array conductors",
    subject="electrical",
    held_by="electrical",
    clauses=nec("wire_support"),
    check=check,
    not_in=nec_without("wire_support"),
)
