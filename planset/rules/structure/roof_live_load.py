"""Where modules stand low over the roof, nobody walks: no roof live load there."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.ibc.panel_live_load import CLAUSES, CLEAR_SPACE_IN
from planset.finding import Finding, Outcome
from planset.rules.lines import plane_line
from planset.rules.model_codes import with_california
from planset.rules.ratios import not_computed
from planset.rules.rule import Rule
from planset.units import format_feet_inches

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
        fact = f"Modules on {added.plane} stand {space} clear over the roof"
        if added.live_omitted:
            measured: float | None = added.clear_space_in
            done = f"{fact}, {most} at most: the roof live load is left out below them alone."
        else:
            measured = None
            done = f"{fact}, more than {most}: the roof live load is kept below them too."
        yield RULE.found(
            Outcome.PASS,
            citation,
            done,
            measured=measured,
            limit=None if measured is None else CLEAR_SPACE_IN,
            unit="in",
            objects=(added.plane,),
            line=plane_line(design, added.plane),
        )


RULE = Rule(
    id="structure.roof-live-load",
    title="Roof live load under modules",
    subject="structure",
    held_by="building",
    clauses=with_california("IBC", "CBC", CLAUSES),
    check=check,
    of_mounting=True,
)
