"""Tables packed into what is free: each of them once, inside of a page, over nothing."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Text
from planset.drawing.table import Column, Table, table
from planset.drawing.table_packing import Packer, Piece

AREA = Box(0, 0, 8, 5)
VIEW = Box(0, 3, 5, 5)
GAP = 0.2


def listing(name: str, rows: int) -> Piece:
    def lay(at: Point, width: float) -> Table:
        columns = (Column("NO.", 0.8), Column("WORDS", width - 0.8))
        body = [(f"{name}{number}", "words") for number in range(rows)]
        return table(name, columns, body, at, 0.1, "G-ANNO-TABL", "G-ANNO-TEXT")

    return Piece(lay, (2.5,), broken=True)


@given(st.lists(st.integers(1, 40), min_size=1, max_size=6), st.booleans())
def test_every_row_stands_once_inside_and_clear(counts: list[int], breaks: bool) -> None:
    packer = Packer(AREA, GAP, breaks=breaks)
    packer.add_page([VIEW])
    for number, rows in enumerate(counts):
        packer.place(listing("ABCDEF"[number], rows))
    for number, page in enumerate(packer.pages):
        boxes = [one.box for one in page]
        assert all(AREA.contains(box) for box in boxes)
        assert not any(a.overlaps(b) for a, b in combinations(boxes, 2))
        assert number > 0 or not any(box.overlaps(VIEW) for box in boxes)
    words = [
        part.text
        for page in packer.pages
        for one in page
        for part in one.primitives
        if isinstance(part, Text)
    ]
    for number, rows in enumerate(counts):
        for row in range(rows):
            assert words.count(f"{'ABCDEF'[number]}{row}") == 1
