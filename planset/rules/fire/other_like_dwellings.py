"""A roof shaped like a dwelling's, where the official may let the rules for dwellings hold."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.limits import NOISE
from planset.rules.other_roof_access import clauses_of_topic, found_on
from planset.rules.rule import Rule
from planset.units import format_pitch

if TYPE_CHECKING:
    from planset.design.design import Design

_STEEP = 2 / 12  # the slope above which a roof is judged like a dwelling's [interpretation]


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Ask where arrays lie on steep planes; a roof of low slope is unlike a dwelling's."""
    steep = [found.plane for found in found_on(design).planes if found.plane.pitch > _STEEP + NOISE]
    if not steep:
        return
    pitch = format_pitch(max(plane.pitch for plane in steep))
    message = (
        f"The roof is pitched {pitch} like a dwelling's, and the fire code official may let the "
        "rules for dwellings hold; ask, and until then the rules for other buildings judge it."
    )
    names = tuple(plane.id for plane in steep)
    line = design.inputs.line_of("roof")
    yield RULE.found(Outcome.ASK, citation, message, objects=names, line=line)


RULE = Rule(
    id="fire.other-like-dwellings",
    title="Roof shaped like a dwelling's",
    subject="fire access",
    held_by="fire",
    clauses=clauses_of_topic("like_dwellings"),
    check=check,
    concerns="other buildings",
)
