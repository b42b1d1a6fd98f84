"""The outline around an array, which is where its conductors must be safe after shutdown."""

from __future__ import annotations

from planset.drawing.geometry import Box, Point, united
from planset.drawing.text import MINIMUM_HEIGHT, wrap
from planset.sheets.one_line.ground import tap_x
from planset.sheets.one_line.kinds import SOURCES_IN_ARRAY
from planset.sheets.one_line.labels import PITCH
from planset.sheets.one_line.node import Node

BOUNDARY_HEAD = 0.12  # of the outline over its highest words [in]
_PAD = 0.1
_CLEAR = 0.06  # between the words and lines beside them [in]
_WORDS = "ARRAY BOUNDARY"
_UNDER = 0.1  # between the lowest symbol and the words [in]


def boundary(group: list[Node]) -> tuple[Box, Point, list[str]]:
    """The outline around nodes of one box, where its words begin, and those by line."""
    around = united(_box(node) for node in group)
    lowest = min((n for n in group if n.unit.kind in SOURCES_IN_ARRAY), key=lambda n: n.y)
    left = _words_left(lowest, around.x0)
    lines = wrap(_WORDS, MINIMUM_HEIGHT, around.x1 + _PAD - left - _CLEAR)
    foot = _UNDER + len(lines) * PITCH
    outline = Box(around.x0 - _PAD, around.y0 - foot, around.x1 + _PAD, around.y1)
    return outline, (left, around.y0 - _UNDER - MINIMUM_HEIGHT), lines


def boundary_foot(node: Node) -> float:
    """How far the outline may reach below the lowest string [in]."""
    left = _words_left(node, node.x0)
    lines = wrap(_WORDS, MINIMUM_HEIGHT, node.x1 + _PAD - left - _CLEAR)
    return _UNDER + len(lines) * PITCH


def _words_left(lowest: Node, left: float) -> float:
    """Where the words begin: right of the bonding conductor, where there is one [in]."""
    return tap_x(lowest) + _CLEAR if lowest.tapped else left


def _box(node: Node) -> Box:
    rise = 0.14 + node.label.height if node.label.height else 0.08
    return Box(node.x0, node.y + node.symbol.y0, node.x1, node.y + node.symbol.y1 + rise)
