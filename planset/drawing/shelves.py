"""Boxes side by side on shelves, shelf below shelf, page after page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planset.drawing.fit import ViewTooLargeError
from planset.drawing.geometry import Box, Point

_NOISE = 1e-9


@dataclass(frozen=True, slots=True)
class OnShelf:
    """Where a box stands.

    Attributes:
        page: Number of the page, the first is 0.
        corner: Its upper left corner [paper in].
    """

    page: int
    corner: Point


@dataclass(slots=True)
class _Column:
    """A part of a shelf as wide as the first box that stands in it, free from `top` to `foot`."""

    page: int
    x: float
    width: float
    shelf_top: float
    top: float
    foot: float

    def has_room(self, width: float, height: float) -> bool:
        return width <= self.width + _NOISE and height <= self.top - self.foot + _NOISE


def shelves(sizes: Sequence[Point], page: Box, gap: float) -> tuple[OnShelf, ...]:
    """Place boxes, the highest first, each where the first of the shelves has room for it.

    Boxes that are lower than their shelf stand one under another.

    Args:
        sizes: Width and height of each [in].
        page: What a page has [paper in].
        gap: Free between two boxes and between two shelves [in].

    Returns:
        A place for each, in the order of the sizes.

    Raises:
        ViewTooLargeError: A box is larger than a page.
    """
    made: dict[int, OnShelf] = {}
    columns: list[_Column] = []
    for number in sorted(range(len(sizes)), key=lambda n: -sizes[n][1]):
        width, height = sizes[number]
        if width > page.width + _NOISE or height > page.height + _NOISE:
            msg = (
                f"what is {width:.1f} x {height:.1f} in does not fit {page.width:.1f} x "
                f"{page.height:.1f} in; give it a larger sheet"
            )
            raise ViewTooLargeError(msg)
        column = next((one for one in columns if one.has_room(width, height)), None)
        if column is None:
            column = _new_column(columns, width, height, page, gap)
            columns.append(column)
        made[number] = OnShelf(column.page, (column.x, column.top))
        column.top -= height + gap
    return tuple(made[number] for number in range(len(sizes)))


def _new_column(
    columns: list[_Column], width: float, height: float, page: Box, gap: float
) -> _Column:
    """A column at the end of the first shelf with the width left, or the first of a new shelf."""
    last = {(column.page, column.foot): column for column in columns}
    for (number, foot), column in last.items():
        x = column.x + column.width + gap
        if x + width <= page.x1 + _NOISE:
            return _Column(number, x, width, column.shelf_top, column.shelf_top, foot)
    feet: dict[int, float] = {}
    for column in columns:
        feet[column.page] = min(column.foot, feet.get(column.page, column.foot))
    for number, foot in feet.items():
        if foot - gap - height >= page.y0 - _NOISE:
            return _shelf(number, page.x0, width, foot - gap, height)
    return _shelf(len(feet), page.x0, width, page.y1, height)


def _shelf(page: int, x: float, width: float, top: float, height: float) -> _Column:
    return _Column(page, x, width, top, top, top - height)
