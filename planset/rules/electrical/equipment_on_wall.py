"""Equipment hangs on its wall: within it, each piece beside the others."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import TYPE_CHECKING

from planset.design.electrical.wall import on_wall_box
from planset.drawing.geometry import Box
from planset.finding import Finding, Outcome
from planset.job.electrical.wall import EquipmentWall
from planset.rules.rule import COMMON_PRACTICE, Rule

if TYPE_CHECKING:
    from planset.design.design import Design

_NOISE_IN = 1e-6


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look for pieces past an edge of their wall, on each other, or that no diagram knows."""
    topology = design.electrical.topology
    known = {*topology.by_tag, *(panel.tag for panel in topology.panels)}
    for number, wall in enumerate(design.inputs.job.electrical.walls):
        line = design.inputs.line_of("electrical", "walls", number, "equipment")
        tags = tuple(item.tag for item in wall.equipment)
        problems = [*_past_edges(wall), *_overlaps(wall)]
        problems += [
            (f"{tag} on {wall.name} is no equipment of the diagram", "use its tag there", (tag,))
            for tag in tags
            if tag not in known
        ]
        for fact, change, objects in problems:
            message = f"{fact}; {change}."
            yield RULE.found(Outcome.FAIL, COMMON_PRACTICE, message, objects=objects, line=line)
        if not problems:
            message = f"The equipment on {wall.name} hangs within it, each piece by itself."
            yield RULE.found(Outcome.PASS, COMMON_PRACTICE, message, objects=tags, line=line)


_Problem = tuple[str, str, tuple[str, ...]]


def _past_edges(wall: EquipmentWall) -> Iterator[_Problem]:
    whole = Box(0.0, 0.0, wall.width, wall.height)
    for item in wall.equipment:
        if not whole.contains(on_wall_box(item), _NOISE_IN):
            fact = f"{item.tag} reaches past an edge of {wall.name}"
            yield fact, "correct left, bottom, width or height", (item.tag,)


def _overlaps(wall: EquipmentWall) -> Iterator[_Problem]:
    for one, other in combinations(wall.equipment, 2):
        if on_wall_box(one).grown(-_NOISE_IN).overlaps(on_wall_box(other)):
            fact = f"{one.tag} and {other.tag} lie on each other on {wall.name}"
            yield fact, "move one of them", (one.tag, other.tag)


RULE = Rule(
    id="electrical.equipment-on-wall",
    title="Equipment on walls",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
