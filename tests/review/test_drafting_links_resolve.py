"""Links, view bubbles and callouts that lead nowhere, or without a link."""

import pytest
from review_pages import offences, page, plan, text

from planset.drawing.furniture import BUBBLE, bubble, view_title
from planset.drawing.primitives import Block, Circle, Insert, Line, Link, Primitive
from planset.review.drafting.links_resolve import RULE

SYMBOL = Block(BUBBLE, (Circle((0, 0), 0.25, "0"), Line((-0.25, 0), (0.25, 0), "0")))
DETAILS = page(views=(plan(), plan(number=2)), sheet="S-501")


def found(*paper: Primitive) -> list[tuple[str, ...]]:
    plans = (plan(), plan(number=2))
    return offences(RULE, page(*paper, views=plans), DETAILS, blocks=(SYMBOL,))


@pytest.mark.parametrize(
    "paper",
    [
        (Link((1, 1), (2, 2), "S-501"),),
        (Link((1, 1), (2, 2), "S-501", 2),),
        (*bubble((3, 3), "2", "S-501"), Link((2.7, 2.7), (3.3, 3.3), "S-501", 2)),
        bubble((3, 3), "2", "A-101"),
        view_title(1, "A-101", "DETAIL", plan().scale, (3, 3)),
        (
            text("SEE S-501, 2/S-501 AND SHEET A-101", 1, 1),
            Link((1.2, 1), (1.6, 1.1), "S-501"),
            Link((1.8, 1), (2.3, 1.1), "S-501", 2),
        ),
        (text("MODEL X-900 OF MAKER R-2/D-4", 1, 1),),  # no callout
    ],
    ids=["link", "link to a view", "bubble", "own bubble", "view title", "words", "other words"],
)
def test_what_leads_somewhere_passes(paper: tuple[Primitive, ...]) -> None:
    assert found(*paper) == []


@pytest.mark.parametrize(
    ("paper", "named"),
    [
        ((Link((1, 1), (2, 2), "S-502"),), ("S-502",)),
        ((Link((1, 1), (2, 2), "S-501", 3),), ("S-501", "3")),
        (bubble((3, 3), "1", "S-502"), ("S-502",)),
        (bubble((3, 3), "3", "S-501"), ("S-501", "3")),
        ((text("SEE S-502", 1, 1),), ("S-502",)),
        ((text("TYPICAL, 4/S-501", 1, 1),), ("S-501", "4")),
        ((text("SEE E-601.1", 1, 1),), ("E-601.1",)),
    ],
    ids=[
        "link",
        "view of a link",
        "sheet of a bubble",
        "view of a bubble",
        "words",
        "view in words",
        "part sheet",
    ],
)
def test_what_leads_nowhere_is_caught(paper: tuple[Primitive, ...], named: tuple[str, ...]) -> None:
    assert found(*paper) == [named]


@pytest.mark.parametrize(
    ("paper", "named"),
    [
        (bubble((3, 3), "2", "S-501"), ("S-501", "2")),
        ((*bubble((3, 3), "2", "S-501"), Link((2.7, 2.7), (3.3, 3.3), "S-501")), ("S-501", "2")),
        ((text("SEE S-501", 1, 1), Link((1, 3), (2, 3.1), "S-501")), ("S-501",)),
    ],
    ids=["none", "to the sheet only", "elsewhere"],
)
def test_a_callout_without_its_link_is_caught(
    paper: tuple[Primitive, ...], named: tuple[str, ...]
) -> None:
    assert found(*paper) == [named]


def test_bubble_pushed_off_its_words_is_caught() -> None:
    symbol, *words = bubble((3, 3), "1", "S-501")
    assert isinstance(symbol, Insert)
    pushed = Insert(BUBBLE, (3.4, 3), symbol.layer)
    assert found(pushed, *words) == [(BUBBLE,)]
