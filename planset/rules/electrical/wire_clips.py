"""The leads of each module are held by clips."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.wire_clips import LEAST_PER_MODULE, clip_count
from planset.finding import Finding
from planset.rules.limits import at_least_outcome
from planset.rules.rule import COMMON_PRACTICE, Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look at the number of clips for each module."""
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


RULE = Rule(
    id="electrical.wire-clips",
    title="Wire clips",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
