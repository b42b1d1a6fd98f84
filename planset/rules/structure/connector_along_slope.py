"""The connector itself holds what slides down the slope, by its maker's documented capacity."""

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
        "down the slope",
        lambda load: load.along_lb,
        lambda array: array.system.attachment.along_slope,
    )


RULE = Rule(
    id="structure.connector-along-slope",
    title="Connector along the slope, demand over capacity",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
