"""The example on sheets of every size: well filled, at standard scales and heights."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from planset.design.design import Design
from planset.drawing.flatten import rotated_text_box, strokes, texts
from planset.drawing.furniture import BUBBLE, title_place
from planset.drawing.geometry import Box, Placement, box_around, united
from planset.drawing.page import DrawingSet, Page, TitleBlock
from planset.drawing.primitives import Insert, Text
from planset.drawing.text import MINIMUM_HEIGHT, NOTE_HEIGHT
from planset.formats.dxf_read import read_title_block
from planset.resources import all_symbols, drawings_folder
from planset.rules.run import judge
from planset.sheets.context import SheetContext, SheetDrawing, SheetEntry
from planset.sheets.lettering import at_largest_lettering, beside_views
from planset.sheets.set import build_set
from tests.example_job import example_design

SIZES = ("11x17", "18x24", "24x36")
LARGER = SIZES[1:]


@cache
def design() -> Design:
    return example_design()


@cache
def title_block(size: str) -> TitleBlock:
    return read_title_block(drawings_folder("titleblocks") / f"strip-{size}.dxf")


def context(size: str) -> SheetContext:
    index = (SheetEntry("G-001", "COVER SHEET"),)
    return SheetContext(design(), (), index, {}, title_block(size), "PRELIMINARY")


@cache
def example(size: str) -> DrawingSet:
    found = judge(design())
    return build_set(design(), found, all_symbols(), title_block(size), preliminary=True)


def page(size: str, sheet: str) -> Page:
    (found,) = (page for page in example(size).pages if page.sheet == sheet)
    return found


def written(page: Page) -> list[Text]:
    """What is written beside the views, the title block apart."""
    return [part for part in page.paper if isinstance(part, Text)]


# --- scales ------------------------------------------------------------------------------

# The roof is 44'-0" long, the section along the rafter 28 in, and the drawing areas 12.5, 18.3
# and 27.5 in wide, with 2.6 to 3.2 in for the plan's tables and 5 in or more for the notes at
# both sides of the section: 22 in of roof at 1/2" and 11 in at 1/4", and 14 in of section at
# half size and 7 in at quarter size, are the most that fit.
SCALES = {
    "11x17": ('3/16" = 1\'-0"', '3" = 1\'-0"'),
    "18x24": ('1/4" = 1\'-0"', '3" = 1\'-0"'),
    "24x36": ('1/2" = 1\'-0"', '6" = 1\'-0"'),
}


@pytest.mark.parametrize("size", SIZES)
def test_views_take_the_largest_standard_scale_that_fits(size: str) -> None:
    shown = [page(size, sheet).views[0].scale.label for sheet in ("A-101", "S-501")]
    assert tuple(shown) == SCALES[size]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("sheet", ["A-101", "S-501"])
def test_a_title_stands_near_its_view(size: str, sheet: str) -> None:
    made = page(size, sheet)
    bubbles = [p.at for p in made.paper if isinstance(p, Insert) and p.block == BUBBLE]
    assert len(bubbles) == len(made.views)
    for (x, y), view in zip(bubbles, made.views, strict=True):
        assert 0.25 < view.frame.y0 - y < 1.0
        assert abs(x - view.frame.x0) < 0.5


def test_a_title_keeps_to_the_place_of_its_view() -> None:
    place = Box(1, 1, 11, 9)
    filling, centered = Box(1, 1.72, 11, 9), Box(4, 4, 8, 7)
    assert title_place(place, filling) == pytest.approx((1.3, 1.36))
    assert title_place(place, centered) == pytest.approx((4.15, 3.15))


# --- lettering ---------------------------------------------------------------------------

# Usual heights: notes 3/32, then 1/8, 5/32 and 3/16 in; where prints of half the size are
# planned, 1/8 to 3/16 in (12 Miss. Code R. 3-20-500.14). Here the least is 0.1 in.
HEIGHTS = {"11x17": NOTE_HEIGHT, "18x24": 1 / 8, "24x36": 3 / 16}


# The cover says on one page what fills two or three of 11x17, so it stands a step lower.
COVER_HEIGHTS = HEIGHTS | {"18x24": NOTE_HEIGHT, "24x36": 5 / 32}

# At 5/32 in the diagram has its ratings at the symbols and takes one sheet more than at the least
# height, which is the most it may.
DIAGRAM_HEIGHTS = HEIGHTS | {"24x36": 5 / 32}


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize(
    ("sheet", "height"), [("G-001", COVER_HEIGHTS), ("E-601", DIAGRAM_HEIGHTS)]
)
def test_words_take_a_standard_height_for_the_sheet(
    size: str, sheet: str, height: dict[str, float]
) -> None:
    pages = [one for one in example(size).pages if one.sheet.partition(".")[0] == sheet]
    heights = [round(text.height, 6) for one in pages for text in written(one)]
    most = max(heights, key=heights.count)
    assert most == round(height[size], 6)
    assert min(heights) == pytest.approx(height[size] / NOTE_HEIGHT * MINIMUM_HEIGHT, rel=0.07)


@pytest.mark.parametrize(("size", "height"), [("11x17", 0.1), ("18x24", 0.125), ("24x36", 0.125)])
def test_notes_beside_views_are_at_most_a_step_larger(size: str, height: float) -> None:
    assert beside_views(context(size)) * NOTE_HEIGHT == pytest.approx(height)


def shown_as(size: str, least: float) -> tuple[float, int]:
    """Height and pages of a sheet that needs one page in an area so wide, else two."""

    def lay_out(given: SheetContext) -> tuple[SheetDrawing, ...]:
        area = given.area
        text = Text("A", (area.x0, area.y0), NOTE_HEIGHT, "G-ANNO-TEXT")
        page = SheetDrawing((), (text,))
        return (page,) if area.width >= least else (page, page)

    made = at_largest_lettering(context(size), lay_out)
    (text,) = made[0].paper
    assert isinstance(text, Text)
    # what is laid out at a corner of the smaller area stands at that of the sheet
    area = context(size).area
    assert text.at == pytest.approx((area.x0, area.y0))
    return text.height, len(made)


@pytest.mark.parametrize(
    ("size", "least", "height", "pages"),
    [
        # the area of 24x36 is 27.2 in wide: 14.5 at 3/16, 17.4 at 5/32, 21.8 at 1/8
        ("24x36", 14.0, 3 / 16, 1),
        ("24x36", 15.0, 5 / 32, 1),
        ("24x36", 18.0, 1 / 8, 1),
        ("24x36", 22.0, 1 / 10, 1),
        ("24x36", 99.0, 3 / 16, 2),  # no height saves a page
        # words grow no more than the sheet: 18x24 is 1.47 times as wide as 11x17
        ("18x24", 0.0, 1 / 8, 1),
        ("11x17", 0.0, 1 / 10, 1),
    ],
)
def test_the_largest_height_with_the_fewest_pages(
    size: str, least: float, height: float, pages: int
) -> None:
    drawn, needed = shown_as(size, least)
    assert drawn == pytest.approx(height)
    assert needed == pages


# --- the whole page ----------------------------------------------------------------------


def drawn_box(size: str, sheet: str) -> Box:
    """Around everything on a sheet but its title block."""
    made, blocks = page(size, sheet), example(size).blocks
    paper = [part for part in made.paper if not is_title_block(part, size)]
    layers = [(paper, Placement())]
    for view in made.views:
        layers += [(list(view.model), view.on_paper), (list(view.annotation), Placement())]
    boxes = []
    for parts, placement in layers:
        boxes += [box_around(stroke.points) for stroke in strokes(parts, placement, blocks)]
        boxes += [rotated_text_box(text) for text in texts(parts, placement, blocks)]
    return united(boxes)


def is_title_block(part: object, size: str) -> bool:
    return isinstance(part, Insert) and part.block == f"strip-{size}"


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("sheet", ["G-001", "A-101", "S-501", "E-601"])
def test_a_page_is_filled(size: str, sheet: str) -> None:
    """Nearly as wide as the drawing area, and two thirds of its height, the cover half of it."""
    area, drawn = title_block(size).drawing_area, drawn_box(size, sheet)
    assert drawn.width >= 0.85 * area.width
    assert drawn.height >= (1 / 2 if sheet == "G-001" else 2 / 3) * area.height


@pytest.mark.parametrize("size", LARGER)
def test_the_columns_of_the_cover_end_nearly_level(size: str) -> None:
    area, words = title_block(size).drawing_area, written(page(size, "G-001"))
    feet = []
    for number in range(3):
        left = area.x0 + number * area.width / 3
        column = [t.at[1] for t in words if left <= t.at[0] < left + area.width / 3]
        feet.append(min(column))
    assert max(feet) - min(feet) < area.height / 5


@pytest.mark.parametrize("size", LARGER)
def test_a_larger_sheet_takes_no_more_pages(size: str) -> None:
    assert len(example(size).pages) <= len(example("11x17").pages)


def test_tables_that_fill_the_details_run_over() -> None:
    size = "11x17"
    (loads,) = design().loads.arrays
    known = loads.attachments
    many = tuple(replace(known[n % len(known)], zone=f"Z{n:02}") for n in range(40))
    in_many_zones = (replace(loads, attachments=many),)
    windy = replace(design(), loads=replace(design().loads, arrays=in_many_zones))
    made = build_set(windy, judge(windy), all_symbols(), title_block(size), preliminary=True)
    over = [page for page in made.pages if page.sheet.startswith("S-501")]
    assert [page.sheet for page in over] == ["S-501", "S-501.1"]
    zones = {text.text for page in over for text in written(page) if text.text.startswith("Z")}
    assert {demand.zone for demand in many} <= zones
    area = title_block(size).drawing_area
    for sheet in over:
        assert all(area.contains(rotated_text_box(text)) for text in written(sheet))
