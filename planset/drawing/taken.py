"""What of a sheet is taken, by what may still cross it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from planset.drawing.flatten import Stroke, rotated_text_box, strokes, text_corners, texts
from planset.drawing.geometry import Box, Placement, Point
from planset.drawing.layers import MEDIUM
from planset.drawing.occupancy import Occupancy
from planset.drawing.places import CLEAR
from planset.drawing.primitives import Block, Dimension, Leader, Primitive, Text
from planset.drawing.text import SLACK


class Taken:
    """Five maps of one area; each holds what the one before it holds.

    Attributes:
        letters: Words.
        words: The room kept around words, the lines of dimensions and leaders.
        hard: Medium and wider pens, and fills that are no background of words.
        thin: Thinner pens.
        faint: Gray dashed ones.

    Args:
        area: The area covered [paper in].
    """

    def __init__(self, area: Box) -> None:
        self._area = area
        self.letters = Occupancy(area)
        self.words = Occupancy(area)
        self.hard = Occupancy(area)
        self.thin = Occupancy(area)
        self.faint = Occupancy(area)

    @property
    def _maps(self) -> tuple[Occupancy, ...]:
        return (self.letters, self.words, self.hard, self.thin, self.faint)

    def copy(self) -> Taken:
        """The same, to be marked by itself."""
        other = Taken(self._area)
        for known, taken in zip(other._maps, self._maps, strict=True):
            known.mark_all_of(taken)
        return other

    def draw(
        self, primitives: Iterable[Primitive], blocks: Mapping[str, Block], placement: Placement
    ) -> None:
        """Mark what is drawn.

        Args:
            primitives: What is drawn.
            blocks: The blocks that insertions name.
            placement: From their coordinates to paper.
        """
        parts = list(primitives)
        for text in texts(parts, placement, blocks):
            self.write(text)
        for part in parts:
            lines = isinstance(part, Dimension | Leader)
            for stroke in strokes([part], placement, blocks):
                maps = self._maps_of(stroke, annotation=lines)
                self._mark(self.hard.cells_of_path(stroke.points), maps)

    def reserve(self, box: Box) -> None:
        """Mark a box as a heavy pen would [paper in]."""
        self._mark(self.hard.cells_of_box(box), self._maps[2:])

    def reserve_ring(self, corners: Sequence[Point]) -> None:
        """Mark a convex polygon as a heavy pen would [paper in]."""
        self._mark(self.hard.cells_of_ring(corners), self._maps[2:])

    def write(self, text: Text, slack: float = 1.0) -> None:
        """Mark a text, turned as it is; its letters with so much slack, the room around with all.

        Args:
            text: The text.
            slack: How many times as wide its letters may be in another face.
        """
        self._mark(self.cells_of_text(text, SLACK, CLEAR), self._maps[1:])
        self.letters.mark_cells(self.cells_of_text(text, slack))

    def cells_of_text(
        self, text: Text, slack: float = 1.0, around: float = 0.0
    ) -> list[tuple[int, int]]:
        """The cells a text covers, with some room around it [in]."""
        if text.rotation_deg % 90:
            return self.hard.cells_of_ring(text_corners(text, slack, around))
        return self.hard.cells_of_box(rotated_text_box(text, slack).grown(around))

    def write_on(self, box: Box) -> None:
        """Mark a box of words, for a substituted face too [paper in]."""
        self._keep_off(box.grown(CLEAR))
        self.letters.mark_box(box)

    def lead(self, line: tuple[Point, ...], end: Box) -> None:
        """Mark a leader and what the mark at its end covers [paper in]."""
        self._mark(self.hard.cells_of_path(line), self._maps[1:])
        self._keep_off(end)

    def _keep_off(self, box: Box) -> None:
        self._mark(self.hard.cells_of_box(box), self._maps[1:])

    def _maps_of(self, stroke: Stroke, *, annotation: bool) -> tuple[Occupancy, ...]:
        """Where a stroke is marked; those of dimensions and leaders weigh as heavy."""
        if annotation:
            return self._maps[1:]
        layer = stroke.layer
        if layer.pen_mm >= MEDIUM or (stroke.filled and not layer.backs_text):
            return self._maps[2:]
        faint = layer.gray and layer.linetype != "CONTINUOUS"
        return (self.faint,) if faint else (self.thin, self.faint)

    def _mark(self, cells: list[tuple[int, int]], maps: tuple[Occupancy, ...]) -> None:
        """Mark cells in several maps, which all cover one area."""
        for occupancy in maps:
            occupancy.mark_cells(cells)
