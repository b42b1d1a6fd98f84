"""Strokes gathered block by block, then put on paper, made into shapes and cut all at once."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import repeat

import numpy as np
import shapely
from numpy.typing import NDArray

from planset.drawing.geometry import Box, Placement
from planset.drawing.layers import Layer
from planset.review.plotted import Ink

_NOISE_IN = 1e-6


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line or a fill in the coordinates of the block that draws it.

    Attributes:
        points: Its course, (x, y) in rows; that of a fill ends where it began.
        layer: Whose pen draws it.
        filled: Whether it is an area.
    """

    points: NDArray[np.float64]
    layer: Layer
    filled: bool = False


@dataclass(slots=True)
class Strokes:
    """Strokes in the order in which they are drawn."""

    _drawn: list[Stroke] = field(default_factory=list)
    _identities: list[str] = field(default_factory=list)
    _placements: list[Placement] = field(default_factory=list)

    def __len__(self) -> int:
        """How many there are."""
        return len(self._drawn)

    def add(self, strokes: Sequence[Stroke], placement: Placement, identity: str) -> None:
        """Add what a block draws.

        Args:
            strokes: In its coordinates.
            placement: From these to paper.
            identity: Id of the design object they belong to, "" for none.
        """
        self._drawn += strokes
        self._identities += repeat(identity, len(strokes))
        self._placements += repeat(placement, len(strokes))

    def ink(self, frame: Box | None = None) -> Iterator[Ink | None]:
        """What each stroke leaves on paper, None where a frame cuts off all of it."""
        if not self._drawn:
            return
        shapes = self._shapes()
        shown = _cut(shapes, frame) if frame else repeat(True)
        for stroke, shape, identity, is_shown in zip(
            self._drawn, shapes, self._identities, shown, strict=False
        ):
            yield Ink(shape, stroke.layer, stroke.filled, identity) if is_shown else None

    def _shapes(self) -> NDArray[np.object_]:
        counts = [len(stroke.points) for stroke in self._drawn]
        of = np.repeat(np.arange(len(counts)), counts)
        points = self._on_paper(of)
        filled = np.array([stroke.filled for stroke in self._drawn])
        shapes = np.empty(len(counts), dtype=object)
        for kind, make in ((~filled, shapely.linestrings), (filled, _polygons)):
            if kind.any():
                numbers = kind.cumsum() - 1
                shapes[kind] = make(points[kind[of]], indices=numbers[of][kind[of]])
        return shapes

    def _on_paper(self, of: NDArray[np.int64]) -> NDArray[np.float64]:
        """All points on paper, as `Placement.apply` moves one."""
        turns: dict[float, tuple[float, float]] = {}
        for placement in self._placements:
            angle = placement.rotation_deg
            if angle not in turns:
                turns[angle] = (math.cos(math.radians(angle)), math.sin(math.radians(angle)))
        moves = [(*one.at, one.scale, *turns[one.rotation_deg]) for one in self._placements]
        to_x, to_y, scale, cos, sin = np.array(moves)[of].T
        x, y = np.concatenate([stroke.points for stroke in self._drawn]).T * scale
        return np.column_stack((x * cos - y * sin + to_x, x * sin + y * cos + to_y))


def _polygons(points: NDArray[np.float64], indices: NDArray[np.int64]) -> NDArray[np.object_]:
    made: NDArray[np.object_] = shapely.polygons(shapely.linearrings(points, indices=indices))
    return made


def _cut(shapes: NDArray[np.object_], frame: Box) -> NDArray[np.bool_]:
    """Cut shapes in place at a frame, and tell which of them it shows."""
    x0, y0, x1, y1 = shapely.bounds(shapes).T
    whole = (x0 >= frame.x0 - _NOISE_IN) & (y0 >= frame.y0 - _NOISE_IN)
    whole &= (x1 <= frame.x1 + _NOISE_IN) & (y1 <= frame.y1 + _NOISE_IN)
    shapes[~whole] = shapely.clip_by_rect(shapes[~whole], frame.x0, frame.y0, frame.x1, frame.y1)
    shown: NDArray[np.bool_] = ~shapely.is_empty(shapes)
    return shown
