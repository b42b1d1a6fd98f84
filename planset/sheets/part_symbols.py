"""Symbols of the parts on rails, in model inches about their middle, for a rail that runs right.

They are signs, not likenesses: large enough to be told apart at the scales of plans.
"""

from __future__ import annotations

from collections.abc import Callable
from types import MappingProxyType

from planset.design import part_places as parts
from planset.drawing.geometry import Box, Point
from planset.drawing.layers import INHERITED
from planset.drawing.primitives import Circle, Line, Polyline, Primitive

SPLICE_LAYER, HOLD_LAYER, TRIM_LAYER = "S-ROOF-SPLC", "S-ROOF-HOLD", "S-ROOF-TRIM"

COUPLING_RADIUS = 2.0
"""Of the circle of a coupling [in]."""

LAYER_OF = MappingProxyType(
    {
        parts.SPLICE: SPLICE_LAYER,
        parts.SPLICE_SEAT: SPLICE_LAYER,
        parts.FOOT: HOLD_LAYER,
        parts.COMBINED: HOLD_LAYER,
        parts.MID_CLAMP: HOLD_LAYER,
        parts.END_CLAMP: HOLD_LAYER,
        parts.COUPLING: HOLD_LAYER,
        parts.TRIM: TRIM_LAYER,
        parts.TRIM_JOINT: TRIM_LAYER,
        parts.TRIM_LOCK: TRIM_LAYER,
    }
)
"""Layer of every kind of part."""

ALONG_RAIL = frozenset({parts.SPLICE, parts.MID_CLAMP, parts.END_CLAMP})
"""Kinds whose symbol turns with the rail."""


def symbol_of(kind: str) -> list[Primitive]:
    """The symbol of a kind of part, on layer 0, about the origin [in].

    Raises:
        KeyError: It has none: a trim piece is drawn as long as it is.
    """
    return _SYMBOLS[kind]()


def trim_piece(length: float, depth: float) -> list[Primitive]:
    """A piece of trim in plan, about the origin [in]."""
    across, up = length / 2, depth / 2
    return [_ring((-across, -up), (across, -up), (across, up), (-across, up))]


def _ring(*corners: Point) -> Polyline:
    return Polyline(corners, INHERITED, closed=True)


def _box(across: float, up: float) -> Polyline:
    return Polyline(Box(-across, -up, across, up).corners, INHERITED, closed=True)


def _splice() -> list[Primitive]:
    """A sleeve over the rail with the butt in its middle."""
    return [_box(3.0, 1.6), Line((0.0, -3.0), (0.0, 3.0), INHERITED)]


def _splice_seat() -> list[Primitive]:
    """A square on its corner about the foot."""
    return [_ring((-3.6, 0.0), (0.0, -3.6), (3.6, 0.0), (0.0, 3.6))]


def _foot() -> list[Primitive]:
    return [_box(1.7, 1.7)]


def _combined() -> list[Primitive]:
    """A foot and a coupling in one: a square with its circle."""
    return [_box(2.4, 2.4), Circle((0.0, 0.0), 1.5, INHERITED)]


def _mid_clamp() -> list[Primitive]:
    """Two jaws on a stem."""
    jaws: list[Primitive] = [Line((x, -1.8), (x, 1.8), INHERITED) for x in (-1.6, 1.6)]
    return [*jaws, Line((-1.6, 0.0), (1.6, 0.0), INHERITED)]


def _end_clamp() -> list[Primitive]:
    """One jaw, crossed by its stem."""
    return [_box(1.0, 1.8), Line((-2.2, 0.0), (2.2, 0.0), INHERITED)]


def _coupling() -> list[Primitive]:
    return [Circle((0.0, 0.0), COUPLING_RADIUS, INHERITED)]


def _trim_joint() -> list[Primitive]:
    """A tick across the trim."""
    return [Line((0.0, -2.4), (0.0, 2.4), INHERITED)]


def _trim_lock() -> list[Primitive]:
    """A wedge below the front foot."""
    return [_ring((-1.6, -4.6), (1.6, -4.6), (0.0, -1.7))]


_SYMBOLS: MappingProxyType[str, Callable[[], list[Primitive]]] = MappingProxyType(
    {
        parts.SPLICE: _splice,
        parts.SPLICE_SEAT: _splice_seat,
        parts.FOOT: _foot,
        parts.COMBINED: _combined,
        parts.MID_CLAMP: _mid_clamp,
        parts.END_CLAMP: _end_clamp,
        parts.COUPLING: _coupling,
        parts.TRIM_JOINT: _trim_joint,
        parts.TRIM_LOCK: _trim_lock,
    }
)
