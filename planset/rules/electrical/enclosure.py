"""Enclosures in the rain keep it out."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.catalog.enclosure import OUTDOORS
from planset.design.electrical.enclosures import enclosure_types
from planset.finding import Finding, Outcome
from planset.rules.circuits import nec
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the type of each on the roof or on a wall outdoors; ask where one is not stated."""
    electrical = design.inputs.job.electrical
    types = enclosure_types(design.inputs)
    outdoors = [box.id for box in electrical.junction_boxes]
    for number, wall in enumerate(electrical.walls):
        outdoors += [item.tag for item in wall.equipment if wall.exposure == "outdoors"]
        if wall.exposure is None:
            fact = f"Whether rain reaches {wall.name} is not stated"
            change = "state exposure of the wall, outdoors or indoors"
            yield RULE.found(
                Outcome.ASK,
                citation,
                sentence(Outcome.ASK, fact, change),
                line=design.inputs.line_of("electrical", "walls", number),
            )
    for tag in outdoors:
        if tag in types:
            yield _judged(design, citation, tag, types[tag])


def _judged(design: Design, citation: str, tag: str, stated: str | None) -> Finding:
    outcome, change = Outcome.ASK, "ask the maker, and add enclosure to it in the job or catalog"
    fact = f"{tag} stands outdoors, and the type of its enclosure is not stated"
    if stated is not None:
        outcome = Outcome.PASS if stated in OUTDOORS else Outcome.FAIL
        change = "choose an enclosure for the rain, as type 3R"
        fact = f"{tag} stands outdoors in an enclosure of type {stated}"
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        objects=(tag,),
        line=design.inputs.line_of("electrical"),
    )


RULE = Rule(
    id="electrical.enclosure",
    title="Enclosures outdoors",
    subject="electrical",
    held_by="electrical",
    clauses=nec("enclosure_type"),
    check=check,
)
