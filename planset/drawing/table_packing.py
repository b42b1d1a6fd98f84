"""Tables and notes packed into what views leave free of a page, and on to further pages."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from planset.drawing.free_boxes import left_of
from planset.drawing.geometry import Box
from planset.drawing.stack import TableAt
from planset.drawing.table import Breakable, Table

_NOISE = 1e-9
_FEW_ROWS = 3  # of a table at least, where it is broken
_LEAST_SIDE = 0.5  # of a free box that is worth keeping [in]


@dataclass(frozen=True, slots=True)
class Piece:
    """Something to be placed whole, or broken between rows where it is a table that allows it.

    Attributes:
        lay: Lays it out at an upper left corner, in a width.
        widths: Widths that it may have, those to be tried first before others [in].
        broken: Whether it may go on elsewhere, its heading repeated.
    """

    lay: TableAt
    widths: tuple[float, ...]
    broken: bool = False


@dataclass
class Packer:
    """Places pieces one after another, each as high up on the first page that has room for it.

    Attributes:
        area: What a further page has free [paper in].
        gap: Kept free around every piece [in].
        breaks: Whether a table may be broken to fill a page; one taller than a page is in any case.
        pages: What has been placed on each page.
        free: The largest boxes that are free on each page; they overlap [paper in].
    """

    area: Box
    gap: float
    breaks: bool = True
    pages: list[list[Table]] = field(default_factory=list)
    free: list[list[Box]] = field(default_factory=list)

    def add_page(self, taken: Iterable[Box] = ()) -> None:
        """A page, on which some boxes are taken already; the gap is not added to them."""
        boxes = [self.area]
        for box in taken:
            boxes = left_of(boxes, box, _LEAST_SIDE)
        self.pages.append([])
        self.free.append(boxes)

    def place(self, piece: Piece) -> None:
        """Place a piece; one that is larger than a whole page runs past its foot."""
        heights = {width: piece.lay((0.0, 0.0), width).box.height for width in piece.widths}
        for page in range(len(self.pages)):
            found = self._whole(page, heights)
            if found is not None:
                box, width = found
                self._put(page, piece.lay((box.x0, box.y1), width))
                return
        if piece.broken and (self.breaks or min(heights.values()) > self.area.height):
            self._place_broken(piece)
            return
        self.add_page()
        self._put(-1, piece.lay((self.area.x0, self.area.y1), piece.widths[0]))

    def _whole(self, page: int, heights: dict[float, float]) -> tuple[Box, float] | None:
        """The highest place on a page, at the first width for which there is one."""
        for width, height in heights.items():
            room = (width - _NOISE, height - _NOISE)
            fitting = [b for b in self.free[page] if b.width >= room[0] and b.height >= room[1]]
            if fitting:
                return max(fitting, key=lambda box: (box.y1, -box.x0)), width
        return None

    def _place_broken(self, piece: Piece) -> None:
        for page, boxes in enumerate(self.free):
            for width in piece.widths:
                wide = [box for box in boxes if box.width >= width - _NOISE]
                tallest = max(wide, key=lambda box: box.height, default=None)
                if tallest is not None and self._cut_into(page, tallest, piece, width):
                    return
        self.add_page()
        if not self._cut_into(-1, self.area, piece, piece.widths[0]):
            self._put(-1, piece.lay((self.area.x0, self.area.y1), piece.widths[0]))

    def _cut_into(self, page: int, box: Box, piece: Piece, width: float) -> bool:
        """Place the rows that a box has room for and then the rest; whether there is such room."""
        spec = piece.lay((0.0, 0.0), width).spec
        if spec is None:
            return False
        first, rest = spec.cut(box.height)
        table = first.at((box.x0, box.y1))
        if len(first.rows) < _FEW_ROWS or table.box.height > box.height + _NOISE:
            return False
        self._put(page, table)
        if rest is not None:
            self.place(Piece(_relaid(rest), (width,), broken=True))
        return True

    def _put(self, page: int, table: Table) -> None:
        self.pages[page].append(table)
        self.free[page] = left_of(self.free[page], table.box.grown(self.gap), _LEAST_SIDE)


def _relaid(spec: Breakable) -> TableAt:
    return lambda at, _: spec.at(at)
