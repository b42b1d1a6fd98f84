"""The connector itself holds what presses on it, by its maker's documented capacity."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding
from planset.rules.connector import judged
from planset.rules.rule import Rule

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Divide the worst demand of each wind zone by the maker's allowable value."""
    yield from judged(
        RULE,
        design,
        citation,
        "toward the roof",
        lambda load: load.down_lb,
        lambda array: array.system.attachment.downward,
    )


RULE = Rule(
    id="structure.connector-downward",
    title="Connector pressed toward the roof, demand over capacity",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
