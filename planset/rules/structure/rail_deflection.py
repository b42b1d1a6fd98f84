"""Rails sag no more between their attachments than their maker allows."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.utilization import Utilization
from planset.finding import Finding
from planset.rules.lines import spacing_line
from planset.rules.ratios import not_computed, use_outcome, use_ratio
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Judge the rail of each array that comes nearest to its limit."""
    if missing := not_computed(RULE, design, citation):
        yield missing
        return
    for array, loads in zip(design.mounted, design.loads.arrays, strict=True):
        checks = [
            (check.deflection, use)
            for use in loads.rails
            for check in (use.up, use.down)
            if check is not None
        ]
        if not checks:
            continue  # structure.rail-strength tells of rails on a single attachment
        bent, use = max(checks, key=lambda one: one[0].ratio)
        yield _judged(design, array.id, array.system.document, use.rail, bent)


def _judged(design: Design, array: str, document: str, rail: str, bent: Utilization) -> Finding:
    ratio = use_ratio(bent.demand, bent.capacity)
    outcome = use_outcome(ratio)
    fact = f"Rail {rail} bends {bent.demand:.3f} in, {bent.capacity:.3f} in at most"
    return RULE.found(
        outcome,
        document,
        sentence(outcome, fact, "set attachments or rails closer, or choose a stiffer rail"),
        measured=ratio,
        limit=1.0,
        demand=bent.demand,
        capacity=bent.capacity,
        use_unit="in",
        objects=(array, rail),
        line=spacing_line(design, array),
    )


RULE = Rule(
    id="structure.rail-deflection",
    title="Rail deflection, demand over limit",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
