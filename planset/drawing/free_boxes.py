"""What is left free of boxes as others are taken."""

from __future__ import annotations

from collections.abc import Sequence

from planset.drawing.geometry import Box

_NOISE = 1e-9


def left_of(boxes: Sequence[Box], taken: Box, least: float = 0.0) -> list[Box]:
    """The largest boxes left of some when another one is taken; they may lie over each other.

    Args:
        boxes: What is free [in].
        taken: What is taken [in].
        least: Side of the smallest box that is worth keeping [in].
    """
    left: list[Box] = []
    for one in boxes:
        if not one.grown(-_NOISE).overlaps(taken):
            left.append(one)
            continue
        left += [
            Box(one.x0, taken.y1, one.x1, one.y1),
            Box(one.x0, one.y0, one.x1, taken.y0),
            Box(one.x0, one.y0, taken.x0, one.y1),
            Box(taken.x1, one.y0, one.x1, one.y1),
        ]
    room = max(least, _NOISE)
    found = [one for one in left if min(one.width, one.height) > room]
    return [
        one
        for n, one in enumerate(found)
        if not any(
            other.contains(one) and (m < n or not one.contains(other))
            for m, other in enumerate(found)
            if m != n
        )
    ]
