"""The example's own pages with one mark pushed out of place: the right rule says so."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from planset.drawing.flatten import rotated_text_box, strokes
from planset.drawing.furniture import BUBBLE
from planset.drawing.geometry import Point, toward
from planset.drawing.layers import MEDIUM
from planset.drawing.page import Page, View
from planset.drawing.primitives import Dimension, Insert, Leader, Primitive, Text
from planset.finding import Outcome
from planset.review.drafting import (
    dimension_true,
    inside_drawing_area,
    leader_ends,
    links_resolve,
    text_on_line,
    text_on_text,
)
from planset.review.page_rule import PageRule
from planset.review.reviewed_page import reviewed_page
from tests.sheets.drawn_sets import example

SHEETS = ("A-101", "S-501", "E-601")
PUSHED_IN = 1.0  # on paper
STRETCHED_IN = 0.5  # of what is measured

Pushed = tuple[Primitive, Page]
"""A mark, and the page with that mark pushed."""


def with_annotation(page: Page, view: View, old: Primitive, new: Primitive) -> Page:
    parts = tuple(new if part is old else part for part in view.annotation)
    other = replace(view, annotation=parts)
    return replace(page, views=tuple(other if each is view else each for each in page.views))


def with_paper(page: Page, old: Primitive, new: Primitive) -> Page:
    return replace(page, paper=tuple(new if part is old else part for part in page.paper))


def missed(rule: PageRule, pushed: Iterator[Pushed]) -> list[Primitive]:
    """The marks whose pushing a rule did not see; some are pushed at all."""
    tried, left = 0, []
    for mark, page in pushed:
        tried += 1
        found = rule.judge(reviewed_page(page, example().drawing))
        if all(finding.outcome is Outcome.PASS for finding in found):
            left.append(mark)
    assert tried
    return left


def marks(sheet: str, kind: type[Primitive]) -> Iterator[tuple[Page, View, Primitive]]:
    page = example().page(sheet)
    for view in page.views:
        for part in view.annotation:
            if isinstance(part, kind):
                yield page, view, part


def labels(sheet: str) -> Iterator[tuple[Page, View, Text]]:
    for page, view, part in marks(sheet, Text):
        assert isinstance(part, Text)
        yield page, view, part


def heavy_point(view: View) -> Point:
    """A point in the middle of a medium or wider line that the view shows."""
    blocks = example().drawing.blocks
    for stroke in strokes(view.model, view.on_paper, blocks):
        a, b = stroke.points[:2]
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        if stroke.layer.pen_mm >= MEDIUM and view.frame.holds(middle):
            return middle
    raise AssertionError(view.title)


@pytest.mark.parametrize("sheet", SHEETS)
def test_a_label_on_another_is_seen(sheet: str) -> None:
    def pushed() -> Iterator[Pushed]:
        for page, view, text in labels(sheet):
            other = next(t for _, v, t in labels(sheet) if v is view and t is not text)
            onto = rotated_text_box(other).center
            yield text, with_annotation(page, view, text, replace(text, at=onto, align="middle"))

    assert missed(text_on_text.RULE, pushed()) == []


@pytest.mark.parametrize("sheet", SHEETS)
def test_a_label_on_a_heavy_line_is_seen(sheet: str) -> None:
    def pushed() -> Iterator[Pushed]:
        for page, view, text in labels(sheet):
            on_line = replace(text, at=heavy_point(view), align="middle")
            yield text, with_annotation(page, view, text, on_line)

    assert missed(text_on_line.RULE, pushed()) == []


@pytest.mark.parametrize("sheet", SHEETS)
def test_a_label_out_of_its_view_is_seen(sheet: str) -> None:
    def pushed() -> Iterator[Pushed]:
        for page, view, text in labels(sheet):
            outside = replace(text, at=(view.frame.x1, view.frame.y1), align="middle")
            yield text, with_annotation(page, view, text, outside)

    assert missed(inside_drawing_area.RULE, pushed()) == []


@pytest.mark.parametrize("sheet", ["A-101", "S-501"])
@pytest.mark.parametrize("end", ["a", "b", "line_b"])
def test_a_dimension_off_what_it_measures_is_seen(sheet: str, end: str) -> None:
    def pushed() -> Iterator[Pushed]:
        for page, view, part in marks(sheet, Dimension):
            assert isinstance(part, Dimension)
            near, far = (part.b, part.a) if end == "a" else (part.a, part.b)
            if end == "line_b":
                near, far = part.line_a, part.line_b
            farther = toward(far, near, -STRETCHED_IN / view.scale.factor)
            yield part, with_annotation(page, view, part, replace(part, **{end: farther}))

    assert missed(dimension_true.RULE, pushed()) == []


@pytest.mark.parametrize("sheet", SHEETS)
def test_a_view_bubble_off_its_words_is_seen(sheet: str) -> None:
    def pushed() -> Iterator[Pushed]:
        page = example().page(sheet)
        for part in page.paper:
            if isinstance(part, Insert) and part.block == BUBBLE:
                yield part, with_paper(page, part, moved(part))
        for _, view, part in marks(sheet, Insert):
            if isinstance(part, Insert) and part.block == BUBBLE:
                yield part, with_annotation(page, view, part, moved(part))

    assert missed(links_resolve.RULE, pushed()) == []


def moved(insert: Insert) -> Insert:
    return replace(insert, at=(insert.at[0] + PUSHED_IN, insert.at[1]))


@pytest.mark.parametrize("sheet", ["A-101", "S-501"])
def test_a_leader_off_what_it_names_is_seen(sheet: str) -> None:
    """An end on a named thing is pushed off it, any other out of its view."""

    def pushed() -> Iterator[Pushed]:
        for page, view, part in marks(sheet, Leader):
            assert isinstance(part, Leader)
            x, y = part.points[-1]
            end = (x, y + PUSHED_IN) if part.names else (view.frame.x1 + PUSHED_IN, y)
            off = replace(part, points=(*part.points[:-1], end))
            yield part, with_annotation(page, view, part, off)

    assert missed(leader_ends.RULE, pushed()) == []
