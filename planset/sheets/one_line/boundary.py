"""The outline around an array, which is where its conductors must be safe after shutdown."""

from __future__ import annotations

from planset.drawing.geometry import Box, Point, united
from planset.drawing.text import MINIMUM_HEIGHT, wrap
from planset.sheets.one_line.kinds import SOURCES_IN_ARRAY
from planset.sheets.one_line.labels import PITCH
from planset.sheets.one_line.node import OUTLINE_PAD, Node

BOUNDARY_HEAD = 0.12  # of the outline over its highest words [in]
_CLEAR = 0.06  # between the words and lines beside them [in]
_UNDER = 0.1  # between the lowest symbol and the words [in]


def boundary(group: list[Node]) -> tuple[Box, Point, list[str]]:
    """The outline around nodes of one array, where its words begin, and those by line."""
    around = united(_box(node) for node in group)
    lowest = min((n for n in group if n.unit.kind in SOURCES_IN_ARRAY), key=lambda n: n.y)
    lines = _lines(lowest, around.x1 - around.x0)
    foot = _UNDER + len(lines) * PITCH
    outline = Box(around.x0 - OUTLINE_PAD, around.y0 - foot, around.x1 + OUTLINE_PAD, around.y1)
    return outline, (around.x0, around.y0 - _UNDER - MINIMUM_HEIGHT), lines


def boundary_foot(node: Node) -> float:
    """How far the outline may reach below the lowest string [in]."""
    return _UNDER + len(_lines(node, node.width)) * PITCH


def _lines(node: Node, width: float) -> list[str]:
    ids = ", ".join(sorted(node.arrays))
    words = f"ARRAY {ids} BOUNDARY" if ids else "ARRAY BOUNDARY"
    return wrap(words, MINIMUM_HEIGHT, width + OUTLINE_PAD - _CLEAR)


def _box(node: Node) -> Box:
    rise = 0.14 + node.label.height if node.label.height else 0.08
    return Box(node.x0, node.y + node.symbol.y0, node.x1, node.y + node.symbol.y1 + rise)
