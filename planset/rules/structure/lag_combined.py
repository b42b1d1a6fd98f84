"""Lag screws hold pull and shear together, in every load combination at its own duration."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nds.clauses import nds_clauses
from planset.design.fastening import LagUse
from planset.finding import Finding
from planset.rules.lines import spacing_line
from planset.rules.ratios import not_computed, use_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Judge the attachment of each array whose screws are used most."""
    if missing := not_computed(RULE, design, citation):
        yield missing
        return
    for loads in design.loads.arrays:
        if loads.lags:  # layout.rails-under-modules fails an array without attachments
            worst = max(
                loads.lags, key=lambda use: float("inf") if use.ratio is None else use.ratio
            )
            yield _judged(design, citation, loads.array, worst)


def _judged(design: Design, citation: str, array: str, use: LagUse) -> Finding:
    outcome = use_outcome(use.ratio)
    fact = (
        f"{use.attachment} in zone {use.zone} takes {use.uplift_lb:.0f} lb uplift and "
        f"{use.along_lb:.0f} lb down the slope under {use.combination}; its screws hold "
        f"{use.withdrawal_lb:.0f} lb and {use.lateral_lb:.0f} lb"
    )
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, "set attachments closer, or choose more or longer lag screws"),
        measured=use.ratio,
        limit=1.0,
        objects=(array, use.attachment),
        line=spacing_line(design, array),
    )


RULE = Rule(
    id="structure.lag-combined",
    title="Lag screws in withdrawal and shear together",
    subject="structure",
    held_by="wood",
    clauses=nds_clauses("12.4.1"),
    check=check,
)
