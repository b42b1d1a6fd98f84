"""Every piece of equipment hangs on a wall that is drawn, where its working space is judged."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.job.electrical_checks.ids import METER, PRODUCTION_METER, TAP
from planset.job.electrical_checks.walls import wall_tags
from planset.rules.circuits import nec
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design

_NOT_JUDGED = (METER, PRODUCTION_METER, TAP)  # the utility's, and what lies in a gutter


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look for each piece on the walls; ask where none is drawn, or of what is there already."""
    electrical = design.inputs.job.electrical
    if not electrical.walls:
        message = (
            "No wall with the equipment is drawn, so that nothing shows its working space; add "
            "electrical.walls, or ask whether a set without elevations is taken."
        )
        yield RULE.found(Outcome.ASK, citation, message, line=design.inputs.line_of("electrical"))
        return
    shown = {item.tag for wall in electrical.walls for item in wall.equipment}
    there = {panel.tag for panel in design.electrical.topology.panels if panel.existing}
    for tag in wall_tags(electrical):
        if tag in _NOT_JUDGED:
            continue
        outcome, change = Outcome.PASS, ""
        fact = f"{tag} hangs on a wall that is drawn"
        if tag not in shown:
            outcome = Outcome.ASK if tag in there else Outcome.FAIL
            fact = f"{tag} hangs on no wall that is drawn, so that nothing shows its working space"
            change = "add it to the equipment of its wall in electrical.walls, "
            change += f"tag: {tag}, with left, bottom, width, height and depth"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, change),
            objects=(tag,),
            line=design.inputs.line_of("electrical", "walls"),
        )


RULE = Rule(
    id="electrical.equipment-on-wall",
    title="Equipment on a wall elevation",
    subject="electrical",
    held_by="electrical",
    clauses=nec("working_depth"),
    check=check,
)
