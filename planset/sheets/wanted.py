"""A dimension that a plan should show, and the ways in which it may be drawn."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from planset.drawing.primitives import Dimension

LAYER = "A-ANNO-DIMS"


@dataclass(frozen=True, slots=True)
class Wanted:
    """A dimension that the plan should show.

    Attributes:
        name: What it measures, for the table of those there was no room to draw.
        ways: How it may be drawn, best first.
        dispensable: Whether it may be left out without a word, as what it says stands elsewhere.
    """

    name: str
    ways: tuple[Dimension, ...]
    dispensable: bool = False


def distinct(ways: Iterable[Dimension]) -> tuple[Dimension, ...]:
    """The ways without repeats: a figure that fits its span stands in it either way.

    All that else is drawn of a dimension follows from what two ways are told apart by.
    """
    made: dict[tuple[object, ...], Dimension] = {}
    for way in ways:
        made.setdefault((way.a, way.b, way.line_a, way.line_b, way.text, way.text_at), way)
    return tuple(made.values())
