"""Going down the columns of a page, and on to further pages."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import chain, repeat

from planset.drawing.geometry import Box, Point

_NOISE = 1e-9


class PagesFullError(ValueError):
    """The pages were too few for what flows over them."""


def first_then(first: tuple[Box, ...], following: tuple[Box, ...]) -> Iterator[tuple[Box, ...]]:
    """The columns of a first page, then those of as many further pages as may be needed."""
    return chain([first], repeat(following))


class ColumnCursor:
    """Where the next thing goes.

    Attributes:
        page: Number of the page, the first is 0.
        box: The column [paper in].
        y: Upper end of what is free in it [paper in].

    Args:
        pages: The columns of each page, as many pages as may be needed [paper in].
    """

    def __init__(self, pages: Iterable[tuple[Box, ...]]) -> None:
        self._columns: Iterator[tuple[int, Box]] = (
            (page, box) for page, boxes in enumerate(pages) for box in boxes
        )
        self._ahead = next(self._columns, None)
        self.advance()

    @property
    def corner(self) -> Point:
        """Upper left corner of what is free [paper in]."""
        return (self.box.x0, self.y)

    @property
    def room(self) -> float:
        """Height of what is free in the column [in]."""
        return self.y - self.box.y0

    def fits(self, height: float) -> bool:
        """Whether `height` inches are free in this column."""
        return self.room >= height - _NOISE

    def advance(self) -> None:
        """Go to the top of the next column.

        Raises:
            PagesFullError: There is none.
        """
        if self._ahead is None:
            msg = "the pages are too few for what is to stand on them; give more pages"
            raise PagesFullError(msg)
        self.page, self.box = self._ahead
        self.y = self.box.y1
        self._ahead = next(self._columns, None)

    def room_for(self, height: float) -> bool:
        """Go on to a column with `height` inches free.

        Returns:
            False when a whole column, this one or the next, is too short: what is so tall has to
            be broken, and the cursor stands at the top of a column.

        Raises:
            PagesFullError: The columns are used up.
        """
        while not self.fits(height):
            whole = self.y == self.box.y1
            if whole and (self._ahead is None or self._ahead[1].height < height - _NOISE):
                return False
            self.advance()
        return True

    def leave_short_columns(self, height: float) -> None:
        """Go on to a column of `height` inches on this page or the next, where there is one."""
        seen = [] if self._ahead is None else [self._ahead]
        while seen and seen[-1][0] == self.page and (more := next(self._columns, None)):
            seen.append(more)
        self._columns = chain(seen[1:], self._columns)
        if any(box.height >= height - _NOISE for _, box in seen):
            while not self.fits(height):
                self.advance()

    def take_rest_of_page(self) -> tuple[Box, ...]:
        """What is free on the page: the rest of this column, and the columns after it."""
        free = [Box(self.box.x0, self.box.y0, self.box.x1, max(self.y, self.box.y0))]
        page = self.page
        while self._ahead is not None and self._ahead[0] == page:
            self.advance()
            free.append(self.box)
        return tuple(free)
