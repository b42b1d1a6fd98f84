"""E-701: every label of the design once, at full size, on the sheet that the schedule names."""

from __future__ import annotations

import re
from functools import cache
from itertools import pairwise

import pytest

from planset.design.design import build_design
from planset.drawing.geometry import Box, box_around
from planset.drawing.primitives import Area, Circle, Insert, Line, Polyline, Text
from planset.job.load import read_job
from planset.resources import all_symbols
from planset.sheets.context import SheetContext, SheetDrawing, continued_id
from planset.sheets.label_pictures import picture
from planset.sheets.label_sheet import ID, build
from tests.sheets.drawn_sets import EXAMPLES, title_block

NAMES = ("tile-gable", "shingle-hip", "cross-gable", "battery-retrofit", "flat-commercial")


@cache
def context(name: str, size: str = "11x17") -> SheetContext:
    design = build_design(read_job(EXAMPLES / name / "job.yaml"))
    return SheetContext(design, (), (), all_symbols(), title_block(size), "PRELIMINARY")


@cache
def drawn(name: str, size: str = "11x17") -> dict[str, SheetDrawing]:
    """The pages by sheet id."""
    pages = build(context(name, size))
    return {continued_id(ID, number): page for number, page in enumerate(pages)}


def texts(page: SheetDrawing) -> list[Text]:
    """What stands on a page, on its labels, too."""
    found: list[Text] = []
    for part in page.paper:
        if isinstance(part, Text):
            found.append(part)
        if isinstance(part, Insert):
            found += [value.text for value in part.attributes if value.text]
    return found


def labels_on(page: SheetDrawing) -> list[Insert]:
    return [part for part in page.paper if isinstance(part, Insert) and "LABEL-" in part.block]


def labeled(page: SheetDrawing) -> dict[str, str]:
    """Keys of the labels drawn on a page, each with its clause."""
    found = [re.fullmatch(r"(L\d+)   (.*)", text.text) for text in texts(page)]
    return {one[1]: one[2] for one in found if one}


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("size", ["11x17", "24x36"])
def test_each_label_stands_once_on_the_sheet_that_the_schedule_names(name: str, size: str) -> None:
    design, pages = context(name, size).design, drawn(name, size)
    where = {key: sheet for sheet, page in pages.items() for key in labeled(page)}
    assert sorted(where) == sorted(placed.key for placed in design.electrical.labels)
    assert len(where) > 5
    rows: dict[float, list[str]] = {}
    for page in pages.values():
        for text in texts(page):
            rows.setdefault(round(text.at[1], 6), []).append(text.text)
    for key, sheet in where.items():
        assert any(row[0] == key and sheet in row for row in rows.values())


@pytest.mark.parametrize("name", NAMES)
def test_the_words_of_each_label_are_drawn(name: str) -> None:
    pages = drawn(name).values()
    words = " ".join(t.text for page in pages for t in texts(page) if t.layer.startswith("E-LABL"))
    for placed in context(name).design.electrical.labels:
        for line in placed.lines:
            assert " ".join(line.split()) in words


def test_labels_keep_their_size_on_a_larger_sheet() -> None:
    """NEC 2023, 690.12(D)(2): 3/8 in; only the words beside them grow with the sheet."""
    for size in ("11x17", "24x36"):
        white = [
            t.height
            for page in drawn("cross-gable", size).values()
            for t in texts(page)
            if t.layer == "E-LABL-WHTE"
        ]
        assert set(white) == {0.375}


def test_the_directory_marks_the_boxes_on_the_roof() -> None:
    design = context("cross-gable").design
    (directory,) = [label for label in design.electrical.labels if label.name == "directory"]
    shown = picture("directory", design)
    assert shown is not None
    assert shown.width < 4
    (page,) = [page for page in drawn("cross-gable").values() if directory.key in labeled(page)]
    (block,) = [block for block in page.blocks if block.name == f"LABEL-{directory.key}"]
    circles = [part for part in block.primitives if isinstance(part, Circle)]
    boxes = design.inputs.job.electrical.junction_boxes
    assert len(circles) == 2 * (len(boxes) + 1)  # one more says what they are


@pytest.mark.parametrize(
    ("name", "told", "filled"),
    [
        ("cross-gable", ["SERVICE", "PV SYSTEM DISCONNECT"], 1),
        (
            "battery-retrofit",
            [
                "SERVICE",
                "SOURCES DISCONNECT",
                "PV SYSTEM DISCONNECT",
                "BATTERY",
                "BATTERY SHUTDOWN",
            ],
            2,
        ),
    ],
)
def test_the_directory_marks_where_each_source_is_disconnected(
    name: str, told: list[str], filled: int
) -> None:
    design = context(name).design
    shown = picture("directory", design)
    assert shown is not None
    assert design.site is not None
    parts = shown.draw(Box(0.0, 0.0, shown.width, shown.height))
    words = [part.text for part in parts if isinstance(part, Text)]
    assert [text for text in words if text in told] == told
    # each mark stands on the plan and beside its word
    assert len([part for part in parts if isinstance(part, Area)]) == 2 * filled
    assert all(box_around(part.points).y0 >= 0 for part in parts if isinstance(part, Area))


def test_no_mark_at_a_wall_lies_on_another_in_the_directory() -> None:
    """ES1 stands 1'-1" from DISC1 and 1'-6" from BAT1: drawn to scale its mark would hide both."""
    design = context("battery-retrofit").design
    shown = picture("directory", design)
    assert shown is not None
    assert design.site is not None
    parts = shown.draw(Box(0.0, 0.0, shown.width, shown.height))
    (front,) = [part.at[1] for part in parts if isinstance(part, Text) and part.text == "FRONT"]
    marks = [
        box
        for part in parts
        if isinstance(part, Area | Polyline | Line)
        for box in [box_around(part.points if not isinstance(part, Line) else (part.a, part.b))]
        if box.y0 > front and round(box.width, 3) == round(box.height, 3) == 0.12
    ]
    levels = sorted({round(box.center[1], 4) for box in marks})
    assert len(levels) == 5  # the two strokes of a cross have one middle
    assert min(b - a for a, b in pairwise(levels)) > 0.12


@pytest.mark.parametrize("name", NAMES)
def test_each_label_is_one_block_that_says_what_it_is(name: str) -> None:
    inserts = [part for page in drawn(name).values() for part in labels_on(page)]
    listed = {f"LABEL-{label.key}": label for label in context(name).design.electrical.labels}
    assert sorted(insert.identity for insert in inserts) == sorted(listed)
    for insert in inserts:
        label = listed[insert.identity]
        values = {value.tag: value.value for value in insert.attributes}
        assert values["KEY"] == label.key
        assert values["QUANTITY"] == str(label.quantity)
        assert label.label.clause in values["CLAUSE"]


def test_the_words_stand_in_the_block_where_they_stand_in_the_insertion() -> None:
    """So that a program that sets the values of an insertion anew leaves them where they are."""
    for page in drawn("cross-gable").values():
        blocks = {block.name: block for block in page.blocks}
        for insert in labels_on(page):
            shown = [value for value in insert.attributes if value.text]
            assert shown
            for value, own in zip(shown, blocks[insert.block].written, strict=True):
                assert (value.tag, value.value) == (own.tag, own.value)
                assert value.text is not None
                assert own.text is not None
                moved = tuple(a + b for a, b in zip(own.text.at, insert.at, strict=True))
                assert value.text.at == pytest.approx(moved)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("size", ["11x17", "24x36"])
def test_no_label_touches_the_words_beside_it(name: str, size: str) -> None:
    """The frame of a label is a closed line on paper; headings have an inch of width at least."""
    for page in drawn(name, size).values():
        frames = [
            box_around(part.points)
            for part in page.paper
            if isinstance(part, Polyline) and part.closed
        ]
        for text in (part for part in page.paper if isinstance(part, Text)):
            if text.text not in {"NOTES", "LABEL SCHEDULE"}:
                continue
            x, y = text.at
            heading = Box(x, y, x + 1.0, y + text.height)
            assert not any(frame.grown(0.02).overlaps(heading) for frame in frames), text.text
