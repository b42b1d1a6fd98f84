"""How many modules were fitted to a plane, and how many could be at most."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Say for each fitted array what was found, its place and the bound that was proven."""
    for fit in design.fits:
        yield RULE.found(
            Outcome.PASS,
            citation,
            f"Array {fit.array} holds {fit.count} modules: {fit.described}.",
            measured=float(fit.count),
            limit=None if fit.bound is None else float(fit.bound),
            unit="modules",
            objects=(fit.array,),
            line=array_line(design, fit.array, "as_many_as_fit"),
        )


RULE = Rule(
    id="layout.array-fit",
    title="As many modules as fit",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
