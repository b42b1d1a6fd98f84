"""Leads and array conductors are held at each module, and as closely as the edition says."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import clauses_of
from planset.codes.nec.wiring import longest_support_in
from planset.design.electrical.wire_clips import LEAST_PER_MODULE, clip_count
from planset.finding import Finding
from planset.rules.limits import at_least_outcome, at_most_outcome
from planset.rules.rule import COMMON_PRACTICE, Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look at the clips of a module, then at the distance between clips."""
    clips = design.inputs.job.electrical.wire_clips
    outcome = at_least_outcome(clips.per_module, LEAST_PER_MODULE)
    fact = (
        f"Each module has {clips.per_module} clip{'' if clips.per_module == 1 else 's'} for its "
        f"leads, {clip_count(design).total} clips are needed in all"
    )
    yield RULE.found(
        outcome,
        COMMON_PRACTICE,
        sentence(outcome, fact, f"give {LEAST_PER_MODULE}"),
        measured=float(clips.per_module),
        limit=float(LEAST_PER_MODULE),
        unit="clips",
        line=design.inputs.line_of("electrical", "wire_clips", "per_module"),
    )
    limit = longest_support_in(edition)
    if limit is not None:
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
    id="electrical.wire-clips",
    title="Wire clips",
    subject="electrical",
    held_by="electrical",
    clauses=clauses_of("NEC", {2017: "690.31", 2020: "690.31(C)", 2023: "690.31(C)"}),
    check=check,
)
