"""Boxes of their own sizes packed on pages, close together and upright."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from planset.drawing.fit import ViewTooLargeError
from planset.drawing.free_boxes import left_of
from planset.drawing.geometry import Box, Point

_NOISE = 1e-9


@dataclass(frozen=True, slots=True)
class Packed:
    """Where a box stands.

    Attributes:
        page: Number of the page, the first is 0.
        corner: Its upper left corner [paper in].
    """

    page: int
    corner: Point


_Order = Callable[[Point], float]
_Choice = Callable[[Box, Point], tuple[float, float]]

_ORDERS: tuple[_Order, ...] = (
    lambda size: size[1],
    lambda size: size[0] * size[1],
    lambda size: size[0],
    lambda size: size[0] + size[1],
)
"""Which box comes first: the highest, the largest, the widest, that of the longest edge."""

_CHOICES: tuple[_Choice, ...] = (
    lambda free, _: (-free.y1, free.x0),
    lambda free, size: (min(free.width - size[0], free.height - size[1]), -free.y1),
)
"""Which free place is taken: the uppermost one, or the one that fits most closely."""


def packed(
    sizes: Sequence[Point], page: Box, gap: float, first: Sequence[Box] | None = None
) -> tuple[Packed, ...]:
    """Place boxes on the fewest pages that a few simple ways of packing find.

    Args:
        sizes: Width and height of each [in].
        page: What a page has [paper in].
        gap: Free between two boxes [in].
        first: What is free on a page before those, in boxes that may lie over each other; it is
            page 0 and may stay empty.

    Returns:
        A place for each, in the order of the sizes.

    Raises:
        ViewTooLargeError: A box is larger than a page.
    """
    for width, height in sizes:
        if width > page.width + _NOISE or height > page.height + _NOISE:
            msg = (
                f"what is {width:.1f} x {height:.1f} in does not fit {page.width:.1f} x "
                f"{page.height:.1f} in; give it a larger sheet"
            )
            raise ViewTooLargeError(msg)
    tries = [
        _packed(sizes, order, choice, page, gap, first) for order in _ORDERS for choice in _CHOICES
    ]
    return min(tries, key=lambda places: max((one.page for one in places), default=0))


def _packed(
    sizes: Sequence[Point],
    order: _Order,
    choice: _Choice,
    page: Box,
    gap: float,
    first: Sequence[Box] | None,
) -> tuple[Packed, ...]:
    """Boxes one after another, each on the first page that has a free place for it."""
    free = [[_with_gap(box, gap) for box in ((page,) if first is None else first)]]
    made: dict[int, Packed] = {}
    for number in sorted(range(len(sizes)), key=lambda n: -order(sizes[n])):
        size = (sizes[number][0] + gap, sizes[number][1] + gap)
        on, place = _place(free, size, choice)
        if place is None:
            free.append([_with_gap(page, gap)])
            on, place = len(free) - 1, free[-1][0]
        taken = Box(place.x0, place.y1 - size[1], place.x0 + size[0], place.y1)
        free[on] = left_of(free[on], taken)
        made[number] = Packed(on, (taken.x0, taken.y1))
    return tuple(made[number] for number in range(len(sizes)))


def _with_gap(box: Box, gap: float) -> Box:
    """A page that holds boxes which all have a gap at the right and below."""
    return Box(box.x0, box.y0 - gap, box.x1 + gap, box.y1)


def _place(free: list[list[Box]], size: Point, choice: _Choice) -> tuple[int, Box | None]:
    for number, places in enumerate(free):
        fitting = [
            one
            for one in places
            if size[0] <= one.width + _NOISE and size[1] <= one.height + _NOISE
        ]
        if fitting:
            return number, min(fitting, key=lambda one: choice(one, size))
    return 0, None
