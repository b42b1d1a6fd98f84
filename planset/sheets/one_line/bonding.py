"""Which units are bonded to the ground buses, and by what."""

from __future__ import annotations

from planset.design.electrical.system import GroundingStep
from planset.sheets.one_line.ground import GroundBus
from planset.sheets.one_line.kinds import GROUNDED, IN_ARRAY, SOURCES_IN_ARRAY
from planset.sheets.one_line.node import Node


def mark_tapped(root: Node, known: GroundBus) -> None:
    """Decide which nodes are bonded to the ground bus, and what is written there.

    An enclosure that stands in several circuits is bonded once, below the lowest; so are the
    modules that share a box.

    Args:
        root: The tier; its nodes are changed.
        known: The grounding path; where it has no steps every enclosure is bonded.
    """
    steps, drawn = known.steps, known.drawn
    for node in root.walk():
        node.lowest = node.unit.kind in SOURCES_IN_ARRAY
        for child in node.children:
            for below in child.walk():
                below.toward = (*below.toward, *_names(node))
        for feed in node.feeds[:-1]:
            if feed is not None and feed.unit.kind in IN_ARRAY:
                feed.last_chain[-1].lowest = False
    taken: set[GroundingStep] = set()
    for node in _from_below(root):
        unit = node.unit
        node.tapped = unit.panel is not None or unit.kind in GROUNDED or node.lowest
        if not node.tapped or not steps:
            continue
        own = [s for s in steps if s not in taken and _is_of(node, s, drawn)]
        taken |= set(own)
        node.tapped = bool(own)
        node.said = tuple(_words(step, steps, drawn) for step in own)
        if unit.tag == known.service:
            node.said = tuple(_to_earth(steps, known.service))


def _names(node: Node) -> tuple[str, ...]:
    item = node.unit.item
    return (node.unit.tag, item.panel) if item and item.panel else (node.unit.tag,)


def _from_below(root: Node) -> list[Node]:
    """The nodes of a tree, those of lower rows first."""
    found = [root]
    for feed in reversed(root.feeds):
        if feed is not None:
            found += _from_below(feed)
    return found


def _is_of(node: Node, step: GroundingStep, drawn: frozenset[str]) -> bool:
    """Whether a step of the path starts at a node: at its enclosure, or at its modules."""
    if node.unit.kind in SOURCES_IN_ARRAY:
        return step.start not in drawn and step.end in node.toward
    return step.start in _names(node)


def _words(step: GroundingStep, steps: tuple[GroundingStep, ...], drawn: frozenset[str]) -> str:
    """The conductor of a step, with the lugs of the steps that lead to it within the array."""
    lugs, start = step.lugs, step.start
    while start not in drawn:
        before = [other for other in steps if other.end == start]
        lugs += sum(other.lugs for other in before)
        if not before:
            break
        start = before[0].start
    return (f"({lugs}) LUGS, " if lugs else "") + _brief(step.conductor)


def _to_earth(steps: tuple[GroundingStep, ...], service: str) -> list[str]:
    """What leads from the service panel to earth, step by step."""
    found: list[str] = []
    start = service
    while True:
        onward = [step for step in steps if step.start == start]
        if not onward or len(found) > len(steps):
            return found
        found += [f"{_brief(step.conductor)} TO {step.end}" for step in onward]
        start = onward[0].end


def _brief(conductor: str) -> str:
    """A conductor as on the diagram; the schedule writes it out."""
    for metal, letters in (("COPPER", "CU"), ("ALUMINUM", "AL")):
        conductor = conductor.replace(metal, letters)
    return conductor
