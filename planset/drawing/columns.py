"""Columns of pages: going down one after another, or filling the first that has room."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import chain, repeat

from planset.drawing.geometry import Box, Point

_NOISE = 1e-9
_TOO_FEW = "the pages are too few for what is to stand on them; give more pages"


class PagesFullError(ValueError):
    """The pages were too few for what flows over them."""


def first_then(first: tuple[Box, ...], following: tuple[Box, ...]) -> Iterator[tuple[Box, ...]]:
    """The columns of a first page, then those of as many further pages as may be needed."""
    return chain([first], repeat(following))


def side_by_side(box: Box, least: float, gap: float) -> tuple[Box, ...]:
    """As many columns of one width side by side as a box has room for, at least one.

    Args:
        box: What they fill [paper in].
        least: Least width of a column [in].
        gap: Free between two [in].
    """
    count = max(int((box.width + gap) / (least + gap)), 1)
    width = (box.width - (count - 1) * gap) / count
    lefts = [box.x0 + n * (width + gap) for n in range(count)]
    return tuple(Box(left, box.y0, left + width, box.y1) for left in lefts)


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
            raise PagesFullError(_TOO_FEW)
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

    def take_rest_of_page(self) -> tuple[Box, ...]:
        """What is free on the page: the rest of this column, and the columns after it."""
        free = [Box(self.box.x0, self.box.y0, self.box.x1, max(self.y, self.box.y0))]
        page = self.page
        while self._ahead is not None and self._ahead[0] == page:
            self.advance()
            free.append(self.box)
        return tuple(free)


@dataclass(slots=True)
class OpenColumn:
    """A column with what is free in it.

    Attributes:
        page: Number of its page, the first is 0.
        box: The column [paper in].
        y: Upper end of what is free in it [paper in].
    """

    page: int
    box: Box
    y: float

    @property
    def corner(self) -> Point:
        """Upper left corner of what is free [paper in]."""
        return (self.box.x0, self.y)

    @property
    def room(self) -> float:
        """Height of what is free [in]."""
        return self.y - self.box.y0

    @property
    def whole(self) -> bool:
        """Whether nothing stands in it."""
        return self.y == self.box.y1

    @property
    def free(self) -> Box:
        """What is free [paper in]."""
        return Box(self.box.x0, self.box.y0, self.box.x1, max(self.y, self.box.y0))

    def fits(self, height: float) -> bool:
        """Whether `height` inches are free."""
        return self.room >= height - _NOISE


class OpenColumns:
    """The columns of all pages opened so far, for what goes into the first that has room.

    Attributes:
        opened: The columns, page after page.

    Args:
        pages: The columns of each page, as many pages as may be needed [paper in].
    """

    def __init__(self, pages: Iterable[tuple[Box, ...]]) -> None:
        self._pages = iter(pages)
        self._ahead = next(self._pages, None)
        self._count = 0
        self.opened: list[OpenColumn] = []
        self.open_page()

    def next_holds(self, height: float) -> bool:
        """Whether a column of the next page is so high [in]."""
        return any(box.height >= height - _NOISE for box in self._ahead or ())

    def open_page(self) -> None:
        """Open the columns of the next page.

        Raises:
            PagesFullError: There is none.
        """
        if self._ahead is None:
            raise PagesFullError(_TOO_FEW)
        self.opened += [OpenColumn(self._count, box, box.y1) for box in self._ahead]
        self._count += 1
        self._ahead = next(self._pages, None)

    def rest(self) -> tuple[Box, ...]:
        """What is free on the last page: of the last column in use, and the columns after it."""
        return tuple(column.free for column in self._last())

    def ends(self, pages: int) -> tuple[tuple[Box, ...], ...]:
        """What is free below what stands in each other column, on each of so many pages."""
        last = self._last()
        used = [one for one in self.opened if not any(one is other for other in last)]
        return tuple(
            tuple(one.free for one in used if one.page == page and one.room > 0.0)
            for page in range(pages)
        )

    def _last(self) -> list[OpenColumn]:
        columns = [column for column in self.opened if column.page == self._count - 1]
        while len(columns) > 1 and not all(column.whole for column in columns[1:]):
            columns = columns[1:]
        return columns
