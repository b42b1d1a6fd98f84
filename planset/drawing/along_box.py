"""Places for a box along the sides of another, from its upper right corner on."""

from __future__ import annotations

from planset.drawing.geometry import Box

_STEP = 0.05  # between places [in]


def beside(box: Box, size: Box) -> list[Box]:
    """Boxes of a size right of another, then left of it."""
    levels = _steps(box.y1 - size.height, box.y0)
    return [_placed(x, y, size) for x in (box.x1, box.x0 - size.width) for y in levels]


def above_and_below(box: Box, size: Box) -> list[Box]:
    """Boxes of a size over another, then under it."""
    places = _steps(box.x1 - size.width, box.x0)
    return [_placed(x, y, size) for y in (box.y1, box.y0 - size.height) for x in places]


def inside(box: Box, size: Box) -> list[Box]:
    """Boxes of a size inside of another, along its top and foot, then along its sides."""
    if box.width < size.width or box.height < size.height:
        return []
    right, top = box.x1 - size.width, box.y1 - size.height
    places, levels = _steps(right, box.x0), _steps(top, box.y0)
    along = [_placed(x, y, size) for y in (top, box.y0) for x in places]
    return [*along, *(_placed(x, y, size) for x in (right, box.x0) for y in levels)]


def anywhere_in(box: Box, size: Box) -> list[Box]:
    """Boxes of a size all over another, row by row."""
    if box.width < size.width or box.height < size.height:
        return []
    levels, places = _steps(box.y1 - size.height, box.y0), _steps(box.x1 - size.width, box.x0)
    return [_placed(x, y, size) for y in levels for x in places]


def across(box: Box, size: Box, middle: float) -> list[Box]:
    """Boxes of a size over the lines of a low one; nothing where it is as high as they are.

    Args:
        box: What they stand across.
        size: Their size.
        middle: What of them stands at half the height of the box, as a part of their height.
    """
    if box.height > size.height:
        return []
    level = box.center[1] - middle * size.height
    return [_placed(x, level, size) for x in _steps(box.x1 - size.width, box.x0)]


def _placed(x: float, y: float, size: Box) -> Box:
    return Box(x, y, x + size.width, y + size.height)


def _steps(first: float, last: float) -> list[float]:
    return [first - n * _STEP for n in range(max(1, int((first - last) / _STEP) + 1))]
