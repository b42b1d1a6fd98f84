"""Trusses are judged by their designer; what can be told without one is listed."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.screening.lists import TRUSS_LIST, Judged, judge
from planset.finding import Finding, Outcome
from planset.rules.rule import Rule

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """List what is met and what is not known of the roof, and ask for the letter."""
    framing = design.inputs.job.framing
    if framing is None or framing.kind != "truss" or not design.mounted:
        return
    facts = {
        "framing_spacing_in": framing.spacing,
        "array_psf": max(array.system.dead_load_psf for array in design.mounted),
        "roof_layers": float(design.inputs.job.roof.layers),
    }
    lines = judge(TRUSS_LIST, facts)
    met, not_met, unknown = (_words(lines, kind) for kind in ("met", "not met", "unknown"))
    message = (
        f"The roof is on trusses: met ({met}), not met ({not_met}), to be shown ({unknown}). Add "
        "the letter of the truss designer or an engineer to the set."
    )
    line = design.inputs.line_of("framing", "kind")
    yield RULE.found(Outcome.OPEN, citation, message, line=line)


def _words(lines: tuple[Judged, ...], outcome: str) -> str:
    return "; ".join(one.item.words for one in lines if one.outcome == outcome) or "nothing"


RULE = Rule(
    id="structure.trusses",
    title="Roof on trusses",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
