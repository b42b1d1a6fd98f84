"""The grounding path on the diagram: each conductor beside its circuit, from box to box.

A conductor that bonds two enclosures runs in a lane of its own under the wire between them, its
size under its middle, and the raceway of both; that of an array comes from the array's outline. At
the service, the bonding jumper, the neutral bar and the electrode stand one below another under the
enclosure.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from planset.design.electrical.system import GroundingStep
from planset.design.electrical.topology import Kind
from planset.drawing.text import MINIMUM_HEIGHT, SLACK, text_width
from planset.sheets.one_line.kinds import IN_ARRAY, SOURCES_IN_ARRAY
from planset.sheets.one_line.labels import PITCH
from planset.sheets.one_line.node import LANE_DROP, Node, words_width
from planset.sheets.one_line.units import Unit
from planset.sheets.one_line.wire_words import brief

_APART = 0.25  # between electrodes with their words [in]
_UNDER = 0.05  # between a lane and the words under it [in]
_FOOT = 0.04
JUMPER = 0.2  # from an enclosure to the neutral bar, and from there on [in]
BAR_HEIGHT = 0.1
ELECTRODE_HEIGHT = 0.45
BESIDE = 0.28  # from the middle of a bar or an electrode to the words beside it [in]


@dataclass(frozen=True, slots=True)
class GroundPath:
    """What is known of the grounding path.

    Attributes:
        steps: Its steps.
        enclosures: Tag of each piece of equipment to that of the panel or box it is in, or its own.
        arrays: Id of each string and branch to that of its array; empty where that is not known.
        bonds: Tag of each unit to the steps whose conductors run beside its way onward.
    """

    steps: tuple[GroundingStep, ...]
    enclosures: Mapping[str, str]
    arrays: Mapping[str, str]
    bonds: Mapping[str, tuple[GroundingStep, ...]] = field(default_factory=dict)


def bonded(root: Unit, path: GroundPath) -> GroundPath:
    """The path with the unit that each conductor runs from, the same wherever the tree is cut.

    A box that several circuits go through is bonded once, under the lowest of them; an array once
    to each box, under its lowest string.
    """
    drawn = frozenset(path.enclosures.values())
    bonds: dict[str, tuple[GroundingStep, ...]] = {}
    left = list(path.steps)
    for unit in _from_below(root):
        bonds[unit.tag] = tuple(step for step in left if _runs_under(unit, step, path, drawn))
        left = [step for step in left if step not in bonds[unit.tag]]
    return replace(path, bonds=bonds)


def mark_bonds(root: Node, path: GroundPath) -> None:
    """Tell every node of a tier which conductor bonds it onward, and which go to earth."""
    drawn = frozenset(path.enclosures.values())
    for node in root.walk():
        node.arrays = _arrays(node.unit, path)
        node.bonds = path.bonds[node.unit.tag]
        if not node.unit.continued:
            _mark_earth(path, node, drawn)
    for node in root.walk():
        brought = neutral_of_tap(node, path)
        if brought:
            brought[1].served = True
        node.lowest = node.unit.kind in SOURCES_IN_ARRAY
        rows = [feed for feed in node.feeds if feed is not None]
        for feed, below in zip(rows, rows[1:], strict=False):
            if feed.arrays == below.arrays and below.unit.kind in IN_ARRAY:
                feed.last_chain[-1].lowest = False
    _make_room(root, path)


def _make_room(root: Node, path: GroundPath) -> None:
    """Give what stands in rows the same room, so that the rows begin one below another."""
    strings = [node for node in root.walk() if node.unit.kind in IN_ARRAY]
    root.bond_room, root.words_room = _lane_width(root, path), words_width(root.over)
    for rows in (strings, *(node.children for node in root.walk())):
        room = max((_lane_width(node, path) for node in rows), default=0.0)
        words = max((words_width(node.over) for node in rows), default=0.0)
        for node in rows:
            node.bond_room = max(node.bond_room, room)
            node.words_room = max(node.words_room, words)


def _from_below(root: Unit) -> list[Unit]:
    """The units of a tree, those of lower rows first."""
    found = [root]
    for child in reversed(root.children):
        found += _from_below(child)
    return found


def _arrays(unit: Unit, path: GroundPath) -> frozenset[str]:
    """Arrays of the strings that a unit and what feeds it stand for."""
    if unit.kind not in IN_ARRAY:
        return frozenset()
    lowest = unit
    while lowest.children:
        lowest = lowest.children[-1]
    tags = [source.tag for source in lowest.rows or (lowest,)]
    return frozenset(path.arrays[tag] for tag in tags if tag in path.arrays)


def _runs_under(unit: Unit, step: GroundingStep, path: GroundPath, drawn: frozenset[str]) -> bool:
    """Whether the conductor of a step runs beside the way onward from a unit."""
    way = unit.onward
    if way is None or path.enclosures.get(way.end) != step.end:
        return False
    if unit.kind in IN_ARRAY:
        known = step.start.removeprefix("ARRAY ")
        return step.start not in drawn and (not path.arrays or known in _arrays(unit, path))
    return path.enclosures.get(unit.tag, unit.tag) == step.start


def _mark_earth(path: GroundPath, node: Node, drawn: frozenset[str]) -> None:
    """Find the steps from an enclosure to earth, and the neutral brought to its bar."""
    start = path.enclosures.get(node.unit.tag, node.unit.tag)
    if start not in drawn or node.unit.kind in IN_ARRAY or node.unit.kind is Kind.TAP:
        return
    to_bar = [step for step in path.steps if step.start == start and step.end not in drawn][:1]
    beyond = [step for step in path.steps if to_bar and step.start == to_bar[0].end]
    node.earth = (*to_bar, *(step for step in beyond if step.end not in drawn))
    node.neutral = next((step for step in beyond if step.end in drawn), None)


def neutral_of_tap(node: Node, path: GroundPath) -> tuple[GroundingStep, Node] | None:
    """The neutral from a tap to the bar of an enclosure that it feeds, and that enclosure."""
    if node.unit.kind is not Kind.TAP:
        return None
    for step in path.steps:
        for holder in node.walk():
            if step.start == node.unit.tag and holder.earth and holder.earth[0].end == step.end:
                return step, holder
    return None


def lane_words(node: Node, path: GroundPath) -> list[str]:
    """What stands under the lane of a node, or under its wire where no lane runs, line by line."""
    if node.beside and not node.bonds:  # rows so close have no room
        return []
    lines = []
    for step in node.bonds:
        lugs = _lugs(step, path.steps) if node.unit.kind in IN_ARRAY else step.lugs
        lines += [f"({lugs}) LUG{'S' if lugs > 1 else ''}"] if lugs else []
        lines += _bond_lines(step)
    return [*lines, *node.under]


def _bond_lines(step: GroundingStep) -> list[str]:
    """A conductor beside its circuit; ahead of the service disconnect it is a bonding jumper."""
    jumper = step.reason.startswith("supply-side bonding jumper")
    said = brief(step.conductor)
    return [said, "BONDING JUMPER"] if jumper else [f"{said} EGC"]


def _lugs(step: GroundingStep, steps: tuple[GroundingStep, ...]) -> int:
    """Lugs of a step and of those that lead to it within the array."""
    lugs, start = step.lugs, step.start
    for _ in steps:
        before = [other for other in steps if other.end == start]
        if not before:
            break
        lugs += sum(other.lugs for other in before)
        start = before[0].start
    return lugs


def _lane_width(node: Node, path: GroundPath) -> float:
    lines = lane_words(node, path)
    if node.neutral is not None:
        lines.append(earth_words(node.earth[0]))
    return max((_width(line) for line in lines), default=0.0)


def _width(words: str) -> float:
    return text_width(words, MINIMUM_HEIGHT) * SLACK


def lane_room(node: Node, path: GroundPath) -> float:
    """How far the lane of a node, its words included, reaches below its wires [in]."""
    lines = len(lane_words(node, path))
    drop = LANE_DROP if node.bonds else 0.0
    return drop + _UNDER + lines * PITCH + _FOOT if lines else 0.0


def lane_words_y(lane: float, level: int) -> float:
    """Baseline of a line under a lane [in]."""
    return lane - _UNDER - MINIMUM_HEIGHT - level * PITCH


def jumper(node: Node) -> float:
    """Length of the jumper from an enclosure to its bar; longer where words stand over the bar."""
    return node.sink + (JUMPER if node.neutral is None else JUMPER + PITCH)


def has_bar(node: Node) -> bool:
    """Whether an enclosure is bonded to a neutral bar, not to an electrode itself."""
    return len(node.earth) > 1 or node.neutral is not None


def earth_height(node: Node) -> float:
    """Height of what leads from the foot of an enclosure to earth [in]."""
    if not node.earth:
        return 0.0
    bar = jumper(node) + BAR_HEIGHT if has_bar(node) else node.sink
    electrode = JUMPER + ELECTRODE_HEIGHT if _has_electrode(node) else PITCH
    return bar + electrode + _FOOT


def _has_electrode(node: Node) -> bool:
    """Whether a conductor leads down from an enclosure or its bar; a neutral leads aside."""
    return node.neutral is None or len(node.earth) > 1


def earth_words(step: GroundingStep) -> str:
    """What stands beside a conductor to earth."""
    said = brief(step.conductor)
    jumper = step.reason.partition(",")[0]
    return f"{jumper.upper()}: {said}" if jumper.endswith("bonding jumper") else said


def earth_widths(node: Node) -> list[float]:
    """Widths of the words beside each way to earth, from its middle, and what parts them [in]."""
    return [
        max(_width(earth_words(step)), BESIDE + _width(step.end)) + _APART for step in node.earth
    ]


def earth_side(node: Node, right: float) -> float:
    """On which side of an enclosure its ways to earth are written: 1 at the right, -1 at the left.

    Args:
        node: The enclosure, in its column.
        right: Where words must end [in].
    """
    if node.neutral is not None:
        return 1.0
    widths = earth_widths(node)
    leftward = node.served or node.x + max(widths[0], sum(widths[1:])) > right
    return -1.0 if leftward else 1.0


def earth_fits(root: Node, left: float, right: float) -> bool:
    """Whether the words of all ways to earth of a tier in its columns keep to its width."""
    for node in root.walk():
        if node.earth:
            widths = earth_widths(node)
            side = earth_side(node, right)
            ends = [node.x + side * (max(widths[0], sum(widths[1:])) - _APART)]
            if node.neutral is not None:
                ends.append(node.x - sum(widths[1:]))
            if not all(left <= end <= right for end in ends):
                return False
    return True
