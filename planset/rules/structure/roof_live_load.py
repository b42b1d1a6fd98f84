"""Where modules stand low over the roof, nobody walks: no roof live load there."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import clauses_of
from planset.codes.ibc.panel_live_load import CLAUSES, CLEAR_SPACE_IN
from planset.finding import Finding, Outcome
from planset.rules.ratios import not_computed
from planset.rules.rule import Rule
from planset.units import format_feet_inches

_CALIFORNIAN = {2022: 2021, 2025: 2024}  # on which edition of the IBC the CBC stands

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Say for each plane whether the live load was left out under the modules."""
    if missing := not_computed(RULE, design, citation):
        yield missing
        return
    for added in design.loads.gravity:
        space = format_feet_inches(added.clear_space_in, rounding="up")
        most = format_feet_inches(CLEAR_SPACE_IN, rounding="down")
        done = "left out there" if added.live_omitted else "kept there"
        message = (
            f"Modules on {added.plane} stand {space} clear over the roof, {most} at most for a "
            f"place nobody enters; the roof live load is {done}, and the bare roof is judged with "
            "it in full."
        )
        yield RULE.found(
            Outcome.PASS,
            citation,
            message,
            measured=added.clear_space_in,
            limit=CLEAR_SPACE_IN,
            unit="in",
            objects=(added.plane,),
        )


RULE = Rule(
    id="structure.roof-live-load",
    title="Roof live load under modules",
    subject="structure",
    held_by="building",
    clauses={
        **clauses_of("IBC", CLAUSES),
        **clauses_of("CBC", {year: CLAUSES[base] for year, base in _CALIFORNIAN.items()}),
    },
    check=check,
)
