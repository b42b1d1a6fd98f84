"""The grounding path as buses of its own.

Below every band of the diagram runs a bus that takes the conductors of all enclosures of which the
band's lowest source is the lowest: nothing lies between them and it. The buses join in a riser
left of everything.
"""

from __future__ import annotations

from dataclasses import dataclass

from planset.design.electrical.system import GroundingStep
from planset.drawing.text import MINIMUM_HEIGHT, SLACK, text_width
from planset.sheets.one_line.kinds import SOURCES_IN_ARRAY
from planset.sheets.one_line.labels import PITCH
from planset.sheets.one_line.node import Node

BUS_DROP = 0.12  # of a ground bus below its band [in]
_UNDER_BUS = 0.05  # between a bus and the words under it [in]
_FOOT = 0.05
_APART = 0.08  # between words side by side [in]
_NOISE = 1e-6
ELECTRODE_DROP = 0.45  # of the electrode's symbol [in]
ELECTRODE_HALF = 0.22


@dataclass(frozen=True, slots=True)
class GroundBus:
    """What is known of the grounding path.

    Attributes:
        steps: Its steps.
        drawn: Tags of all that the diagram shows, panels too.
        service: Tag of the unit at which the electrode connects.
    """

    steps: tuple[GroundingStep, ...]
    drawn: frozenset[str]
    service: str


@dataclass(frozen=True, slots=True)
class Words:
    """A line of text under a ground bus.

    Attributes:
        text: What it says.
        x: Its left end [in].
        level: Line, counted from 0 downward.
    """

    text: str
    x: float
    level: int


@dataclass(frozen=True, slots=True)
class Channel:
    """A ground bus.

    Attributes:
        taps: The nodes bonded to it, from the left.
        words: What is written under it.
        electrode: The node under which the electrode stands, None without it.
        height: Height it takes below its band [in].
    """

    taps: tuple[Node, ...]
    words: tuple[Words, ...]
    electrode: Node | None
    height: float


def tap_x(node: Node) -> float:
    """Where the bonding conductor of a node leaves it [in]."""
    return node.x - 0.25 if node.unit.kind in SOURCES_IN_ARRAY else node.x


def ground_bus(band: Node, known: GroundBus, right: float) -> Channel:
    """The bus below a node and all that feeds it.

    Args:
        band: The node.
        known: The grounding path.
        right: Where words must end [in].
    """
    taps = tuple(sorted((n for n in band.last_chain if n.tapped), key=tap_x))
    if not taps:
        return Channel((), (), None, 0.0)
    electrode = next((n for n in taps if n.unit.tag == known.service), None)
    taken: list[list[tuple[float, float]]] = []
    if electrode is not None:
        at = tap_x(electrode)
        taken = [[(at - ELECTRODE_HALF, at + ELECTRODE_HALF)] for _ in range(4)]
    words = []
    for node in taps:
        for said in node.said:
            width = text_width(said, MINIMUM_HEIGHT) * SLACK
            beside = ELECTRODE_HALF + _APART if node is electrode else 0.0
            x = min(tap_x(node) + beside, right - width)
            if node is electrode and x < tap_x(node) + beside:
                x = tap_x(node) - beside - width
            words.append(Words(said, x, _level(taken, x, x + width)))
    levels = 1 + max((one.level for one in words), default=-1)
    height = BUS_DROP + _UNDER_BUS + levels * PITCH + _FOOT
    if electrode is not None:
        height = max(height, BUS_DROP + ELECTRODE_DROP + _FOOT)
    return Channel(taps, tuple(words), electrode, height)


def words_y(bus_y: float, level: int) -> float:
    """Baseline of a line under a bus [in]."""
    return bus_y - _UNDER_BUS - MINIMUM_HEIGHT - level * PITCH


def _level(taken: list[list[tuple[float, float]]], x0: float, x1: float) -> int:
    for number, spans in enumerate(taken):
        if all(x1 + _APART <= a + _NOISE or b + _APART <= x0 + _NOISE for a, b in spans):
            spans.append((x0, x1))
            return number
    taken.append([(x0, x1)])
    return len(taken) - 1
