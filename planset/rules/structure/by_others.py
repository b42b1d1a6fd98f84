"""Arrays whose mounting another designer answers for."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Say for each such array what its designer must add."""
    for array in design.arrays:
        if array.mounting is not None:
            continue
        message = (
            f"The mounting of array {array.id} is by others; its attachments, loads and framing "
            "are not designed here. Have its designer add sealed sheets for them."
        )
        line = array_line(design, array.id, "mounting")
        yield RULE.found(Outcome.OPEN, citation, message, objects=(array.id,), line=line)


RULE = Rule(
    id="structure.by-others",
    title="Mounting by others",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
