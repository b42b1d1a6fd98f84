"""What is left of boxes: all that is free, and nothing that is taken."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from planset.drawing.free_boxes import left_of
from planset.drawing.geometry import Box

PAGE = Box(0, 0, 6, 6)
_SPANS = st.tuples(st.integers(0, 6), st.integers(0, 6)).filter(lambda span: span[0] < span[1])
BOXES = st.builds(lambda x, y: Box(x[0], y[0], x[1], y[1]), _SPANS, _SPANS)


def free(taken: list[Box]) -> list[Box]:
    boxes = [PAGE]
    for box in taken:
        boxes = left_of(boxes, box)
    return boxes


@given(st.lists(BOXES, max_size=6), BOXES)
def test_a_box_is_held_by_one_that_is_left_exactly_if_nothing_there_is_taken(
    taken: list[Box], asked: Box
) -> None:
    held = any(box.contains(asked) for box in free(taken))
    assert held == (not any(box.overlaps(asked) for box in taken))


@given(st.lists(BOXES, max_size=6))
def test_no_box_that_is_left_holds_another(taken: list[Box]) -> None:
    left = free(taken)
    assert not any(a.contains(b) for a in left for b in left if a is not b)


def test_what_is_too_small_is_not_kept() -> None:
    assert left_of([PAGE], Box(0, 1, 6, 6), least=1.5) == []
    assert left_of([PAGE], Box(0, 2, 6, 6), least=1.5) == [Box(0, 0, 6, 2)]
