"""The rafter holds the plate that is pressed on it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nds.clauses import nds_clauses
from planset.finding import Finding, Outcome
from planset.rules.lines import array_line
from planset.rules.ratios import not_computed, use_outcome, use_ratio
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Divide the greatest force toward the roof by the bearing under the plate."""
    if missing := not_computed(RULE, design, citation):
        yield missing
        return
    for one, loads in zip(design.mounts, design.loads.arrays, strict=True):
        held = one.fastening
        if held is None or not loads.attachments:
            continue
        line = array_line(design, held.array, "mounting", "system")
        worst = max(loads.attachments, key=lambda load: load.down_lb)
        objects = (held.array, worst.attachment)
        if not held.bearing_lb:
            message = (
                f"No bearing value of {design.inputs.framing.wood} "
                f"{design.inputs.framing.grade} is at hand for the plates of array {held.array}; "
                "survey the grade, or have the engineer check them by hand."
            )
            grade = design.inputs.line_of("framing", "grade")
            yield RULE.found(Outcome.OPEN, citation, message, objects=objects, line=grade)
            continue
        ratio = use_ratio(worst.down_lb, held.bearing_lb)
        outcome = use_outcome(ratio)
        fact = (
            f"{worst.attachment} presses {worst.down_lb:.0f} lb on its rafter, which holds "
            f"{held.bearing_lb:.0f} lb under the plate"
        )
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, "set attachments closer, or choose a larger plate"),
            measured=ratio,
            limit=1.0,
            demand=worst.down_lb,
            capacity=held.bearing_lb,
            use_unit="lb",
            objects=objects,
            line=line,
        )


RULE = Rule(
    id="structure.plate-bearing",
    title="Plate on the rafter, demand over capacity",
    subject="structure",
    held_by="wood",
    clauses=nds_clauses("3.10.2"),  # from memory
    check=check,
)
