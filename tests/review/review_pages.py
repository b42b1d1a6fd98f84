"""Small pages by hand for the review rules: a sheet of 11 by 8 in with one title block."""

from __future__ import annotations

from dataclasses import replace

from planset.drawing.geometry import Box
from planset.drawing.page import DrawingSet, FieldPlace, Page, Scale, TitleBlock, View
from planset.drawing.primitives import Attribute, Block, Insert, Line, Polyline, Primitive, Text
from planset.finding import Finding, Outcome
from planset.review.page_rule import PageRule
from planset.review.reviewed_page import reviewed_page

THIN, MEDIUM, WIDE = "G-ANNO-TABL", "A-ROOF-OBST", "A-ROOF-OTLN"
TEXT = "G-ANNO-TEXT"
PLAN = Scale(48, '1/4" = 1\'-0"')

NUMBER = FieldPlace((8.5, 0.3), 0.25, "left", "G-ANNO-TTLB-TEXT", Box(8.4, 0.2, 9.9, 0.7))
BORDER = Block(
    "BORDER",
    (
        Polyline(((0, 0), (11, 0), (11, 8), (0, 8)), "G-ANNO-TTLB", closed=True),
        Line((8, 0), (8, 8), "G-ANNO-TTLB"),
        Polyline(((8.2, 1), (10.8, 1), (10.8, 3), (8.2, 3)), "G-ANNO-TTLB-LINE", closed=True),
    ),
    attribute_tags=("SHEET_ID",),
)
TITLE_BLOCK = TitleBlock(
    "BORDER",
    11.0,
    8.0,
    BORDER,
    {"SHEET_ID": NUMBER},
    drawing_area=Box(0.5, 0.5, 7.5, 7.5),
    seal_area=Box(8.2, 1, 10.8, 3),
    approval_area=Box(8.2, 4, 10.8, 6),
)

# Seven by five feet of roof with a module on it; at 1:48 its frame is 1 to 3 by 1 to 3 in.
MODULE = Block("MODULE", (Polyline(((0, 0), (40, 0), (40, 20), (0, 20)), "0", closed=True),))
ROOF = Block(
    "ROOF",
    (
        Polyline(((0, 0), (84, 0), (84, 60), (0, 60)), WIDE, closed=True),
        Insert("MODULE", (20, 20), "E-SOLR-PANL"),
    ),
)


def titled(sheet: str = "A-101") -> Insert:
    """The title block with the sheet's id in its one field."""
    number = Text(sheet, NUMBER.at, NUMBER.height, NUMBER.layer, NUMBER.align)
    return Insert(
        "BORDER", (0, 0), "G-ANNO-TTLB", attributes=(Attribute("SHEET_ID", sheet, number),)
    )


def plan(*annotation: Primitive, **changes: object) -> View:
    """A view of the roof, its window 6 in wider than the roof each way and 24 in higher."""
    view = View(
        1,
        "ROOF PLAN",
        PLAN,
        Box(-6, -6, 90, 90),
        (1.0, 1.0),
        (Insert("ROOF", (0, 0), "0"),),
        annotation,
    )
    return replace(view, **changes)  # type: ignore[arg-type]


def text(words: str, x: float, y: float, *, turned: float = 0.0, height: float = 0.1) -> Text:
    """One line of text on paper."""
    return Text(words, (x, y), height, TEXT, "left", turned)


def drawing(*pages: Page, blocks: tuple[Block, ...] = ()) -> DrawingSet:
    """A set of these pages."""
    used = {block.name: block for block in (BORDER, MODULE, ROOF, *blocks)}
    return DrawingSet("SET", "A. DRAFTER", "a set", {"BORDER": TITLE_BLOCK}, used, pages)


def page(*paper: Primitive, views: tuple[View, ...] = (), sheet: str = "A-101") -> Page:
    """A page with its title block."""
    return Page(sheet, "A PAGE", "BORDER", views, (titled(sheet), *paper))


def judged(
    rule: PageRule, subject: Page, *others: Page, blocks: tuple[Block, ...] = ()
) -> tuple[Finding, ...]:
    """What a rule finds on a page of a set."""
    made = drawing(subject, *others, blocks=blocks)
    findings = rule.judge(reviewed_page(subject, made))
    assert all(finding.rule == rule.id and finding.message.endswith(".") for finding in findings)
    assert all(finding.objects[0] == subject.sheet for finding in findings)
    return findings


def offences(
    rule: PageRule, subject: Page, *others: Page, blocks: tuple[Block, ...] = ()
) -> list[tuple[str, ...]]:
    """The offending things of each offence; none for a page that is in order."""
    findings = judged(rule, subject, *others, blocks=blocks)
    if [finding.outcome for finding in findings] == [Outcome.PASS]:
        return []
    assert all(finding.outcome is Outcome.FAIL for finding in findings)
    return [finding.objects[1:] for finding in findings]
