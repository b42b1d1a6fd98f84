"""What clamps on seams pull on, the clips under the panels hold.

The whole uplift of the worst attachment is held against one clip, the nearest: the panel may spread
it over more, which nothing here tells (interpretation, on the safe side).
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.job.covering import StandingSeam
from planset.rules.lines import array_line
from planset.rules.ratios import not_computed, use_outcome, use_ratio
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Divide the uplift of the worst attachment of each array by what one clip holds."""
    covering = design.inputs.job.roof.covering
    clamped = [a.system.attachment.kind == "seam_clamp" for a in design.mounted]
    if not isinstance(covering, StandingSeam) or not any(clamped):
        return
    if missing := not_computed(RULE, design, citation):
        yield missing
        return
    where = design.inputs.line_of("roof", "covering")
    for array, loads in zip(design.mounted, design.loads.arrays, strict=True):
        if array.system.attachment.kind != "seam_clamp" or not loads.attachments:
            continue
        worst = max(loads.attachments, key=lambda load: load.uplift_lb)
        pulls = f"{worst.attachment} pulls {worst.uplift_lb:.0f} lb on the panels"
        objects = (array.id, worst.attachment)
        clips = covering.clips
        if clips is None:
            message = (
                f"{pulls}, and what their clips hold is not stated; ask the maker of the panels, "
                "and add clips with spacing, uplift and document to roof.covering."
            )
            yield RULE.found(Outcome.OPEN, citation, message, objects=objects, line=where)
            continue
        ratio = use_ratio(worst.uplift_lb, clips.uplift)
        outcome = use_outcome(ratio)
        fact = f"{pulls}, and one of their clips holds {clips.uplift:.0f} lb"
        yield RULE.found(
            outcome,
            clips.document,
            sentence(outcome, fact, "set attachments closer, so that each takes less"),
            measured=ratio,
            limit=1.0,
            demand=worst.uplift_lb,
            capacity=clips.uplift,
            use_unit="lb",
            objects=objects,
            line=array_line(design, array.id, "mounting", "attach_every"),
        )


RULE = Rule(
    id="structure.panel-clips",
    title="Clips of the roof panels in uplift",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
