"""Handles of switches and breakers are within reach from the ground."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import clauses_of
from planset.codes.nec.working_space import HIGHEST_HANDLE_IN
from planset.design.electrical.wall import has_handle
from planset.finding import Finding, Outcome
from planset.job.electrical.wall import OnWall
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the top of each enclosure, which no handle of it is above."""
    for number, wall in enumerate(design.inputs.job.electrical.walls):
        for place, item in enumerate(wall.equipment):
            if has_handle(design, item.tag):
                line = design.inputs.line_of("electrical", "walls", number, "equipment", place)
                yield _judged(item, citation, line)


def _judged(item: OnWall, citation: str, line: int) -> Finding:
    """An enclosure that reaches over the limit may still have its handles below it."""
    top = item.bottom + item.height
    outcome = Outcome.PASS
    if top > HIGHEST_HANDLE_IN:
        outcome = Outcome.FAIL if item.bottom >= HIGHEST_HANDLE_IN else Outcome.ASK
    fact = (
        f"{item.tag} reaches from {item.bottom:g} to {top:g} in above grade; handles are no higher "
        f"than {HIGHEST_HANDLE_IN:g} in"
    )
    change = "hang it lower" if outcome is Outcome.FAIL else "hang it lower, or show its handles"
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=top,
        limit=HIGHEST_HANDLE_IN,
        unit="in",
        objects=(item.tag,),
        line=line,
    )


RULE = Rule(
    id="electrical.handle-height",
    title="Height of handles",
    subject="electrical",
    held_by="electrical",
    # from memory in all editions
    clauses=clauses_of("NEC", {2017: "404.8(A)", 2020: "404.8(A)", 2023: "404.8(A)"}),
    check=check,
)
