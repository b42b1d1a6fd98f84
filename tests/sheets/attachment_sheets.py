"""What is drawn and printed on S-101, read back from its pages."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import cache
from itertools import pairwise

from planset.design.design import Design
from planset.design.mounted import Mounted
from planset.drawing.dimension import ON_SLOPE
from planset.drawing.flatten import texts
from planset.drawing.geometry import Placement, Point
from planset.drawing.page import DrawingSet, Page, TitleBlock, View
from planset.drawing.primitives import Dimension, Insert, Line, Polyline, Text
from planset.drawing.table import CONTINUED
from planset.formats.dxf_read import read_title_block
from planset.resources import drawings_folder
from planset.rules.run import judge
from planset.sheets.racking_blocks import racking_block
from planset.sheets.set import build_set
from planset.units import parse_length
from tests.sheets.drawn_sets import symbols
from tests.sheets.mounted_jobs import design_of

_NEAR = 0.02  # on paper, between what belongs to one line [in]
_TABLE = "G-ANNO-TABL"
_TABLE_OF_MARKS = "SEE TABLE OF MARKS"


@cache
def title_block(size: str) -> TitleBlock:
    return read_title_block(drawings_folder("titleblocks") / f"strip-{size}.dxf")


def only_plan(of: Design) -> Design:
    """The same design with this sheet and, under hooks, the details it names."""
    job = of.inputs.job
    hooks = all(one.array.system.attachment.kind == "hook" for one in of.mounts)
    sheets = ("S-101", "S-501") if hooks else ("S-101",)
    drafting = job.drafting.model_copy(update={"sheets": sheets})
    inputs = replace(of.inputs, job=job.model_copy(update={"drafting": drafting}))
    return replace(of, inputs=inputs)


def drawn(of: Design, size: str) -> DrawingSet:
    return build_set(only_plan(of), judge(of), symbols(), title_block(size), preliminary=True)


@cache
def example(name: str, size: str) -> DrawingSet:
    return drawn(design_of(name), size)


def pages(drawing: DrawingSet) -> list[Page]:
    return [page for page in drawing.pages if page.sheet.partition(".")[0] == "S-101"]


def views(drawing: DrawingSet) -> list[View]:
    return [view for page in pages(drawing) for view in page.views]


def mounts_in(of: Design, view: View) -> list[Mounted]:
    shown = {part.block for part in view.model if isinstance(part, Insert)}
    return [one for one in of.mounts if racking_block(one.id) in shown]


def plates(drawing: DrawingSet, view: View) -> dict[str, Point]:
    """Where the blocks of a view put each attachment on paper, by its id."""
    found: dict[str, Point] = {}
    for part in view.model:
        if isinstance(part, Insert) and part.block.startswith("RACKING-"):
            outer = Placement(part.at, part.rotation_deg, part.scale).within(view.on_paper)
            for plate in drawing.blocks[part.block].primitives:
                if isinstance(plate, Insert):
                    assert plate.identity not in found
                    found[plate.identity] = outer.apply(plate.at)
    return found


def dimensions(view: View) -> list[Dimension]:
    return [part for part in view.annotation if isinstance(part, Dimension)]


def tapes_along(view: View) -> dict[Point, list[Dimension]]:
    """Running dimensions along the eave, by the datum they start from."""
    found: dict[Point, list[Dimension]] = {}
    datums = {text.at for text in words(view) if text.text.startswith("DATUM")}
    for one in dimensions(view):
        beside = ((one.a[0] - 0.1, one.a[1] - 0.2) for _ in range(not one.on_slope))
        if any(_same(at, datum) for at in beside for datum in datums):
            found.setdefault(one.a, []).append(one)
    return found


def tapes_up(view: View) -> list[Dimension]:
    return [one for one in dimensions(view) if one.on_slope]


def to_right_end(view: View) -> list[Dimension]:
    """Dimensions along the eave that start from no datum."""
    running = [one for tape in tapes_along(view).values() for one in tape]
    return [one for one in dimensions(view) if not one.on_slope and one not in running]


def rails_of(view: View, datum: Point) -> list[str] | None:
    """The rails named beside the datum of a tape; None where it names none, being for any."""
    at = (datum[0] - 0.1, datum[1] - 0.2)
    (title,) = (text for text in words(view) if _same(text.at, at))
    if title.text == "DATUM":
        return None
    named: list[str] = []
    level = at[1]
    for text in sorted(words(view), key=lambda text: -text.at[1]):
        if abs(text.at[0] - at[0]) < _NEAR and 0 < level - text.at[1] < 0.2:
            named.append(text.text)
            level = text.at[1]
    listed = " ".join(named)
    return None if listed == _TABLE_OF_MARKS else expanded(listed)


def words(view: View) -> list[Text]:
    return [part for part in view.annotation if isinstance(part, Text)]


def tags(view: View) -> Counter[str]:
    return Counter(text.text for text in words(view))


def printed(dimension: Dimension) -> float:
    return parse_length(dimension.text.removesuffix(ON_SLOPE).strip())


def lines(page: Page, drawing: DrawingSet) -> list[str]:
    return [text.text for text in texts(page.paper, Placement(), drawing.blocks)]


def rows_under(drawing: DrawingSet, title: str) -> list[list[str]]:
    """Cells of a table without its heading, by its title, read off its ruled lines."""
    found: list[list[str]] = []
    for page in pages(drawing):
        for part in page.paper:
            if isinstance(part, Text) and part.text in (title, title + CONTINUED):
                found += list(_cells(page, part))[1:]
    return found


def titles(drawing: DrawingSet, start: str) -> list[str]:
    """Titles of tables that start with some words, each once."""
    found = [
        part.text.removesuffix(CONTINUED)
        for page in pages(drawing)
        for part in page.paper
        if isinstance(part, Text) and part.text.startswith(start)
    ]
    return list(dict.fromkeys(found))


def _cells(page: Page, title: Text) -> Iterator[list[str]]:
    frames = [
        part.points
        for part in page.paper
        if isinstance(part, Polyline) and part.layer == _TABLE and part.closed
    ]
    below = [
        ring
        for ring in frames
        if abs(ring[0][0] - title.at[0]) < _NEAR and ring[2][1] < title.at[1]
    ]
    (x0, y0), _, (x1, y1), _ = max(below, key=lambda ring: ring[2][1])
    rules = [part for part in page.paper if isinstance(part, Line) and part.layer == _TABLE]
    inside = [
        rule
        for rule in rules
        if x0 - _NEAR < rule.a[0] < x1 + _NEAR and y0 - _NEAR < rule.a[1] < y1 + _NEAR
    ]
    ys = sorted({y0, y1, *(r.a[1] for r in inside if r.a[1] == r.b[1])}, reverse=True)
    xs = sorted({x0, x1, *(r.a[0] for r in inside if r.a[0] == r.b[0])})
    for top, foot in pairwise(ys):
        yield [
            " ".join(
                text.text
                for text in sorted(_texts(page), key=lambda text: -text.at[1])
                if left < text.at[0] < right and foot < text.at[1] < top
            )
            for left, right in pairwise(xs)
        ]


def _texts(page: Page) -> list[Text]:
    return [part for part in page.paper if isinstance(part, Text)]


def expanded(listed: str) -> list[str]:
    """Every tag of a list such as `R1-R4, R7`."""
    found: list[str] = []
    for part in (part.strip() for part in listed.split(",")):
        ends = [re.fullmatch(r"(\D*)(\d+)(\D*)", end.strip()) for end in part.split("-")]
        assert all(ends), listed
        (head, low, tail), *last = (end.groups() for end in ends if end)
        high = last[0][1] if last else low
        found += [f"{head}{number:0{len(low)}d}{tail}" for number in range(int(low), int(high) + 1)]
    return found


def attributes(inserts: Iterable[Insert], tag: str) -> list[str]:
    return [one.value for part in inserts for one in part.attributes if one.tag == tag]


def _same(a: Point, b: Point) -> bool:
    return abs(a[0] - b[0]) < 1e-6 and abs(a[1] - b[1]) < 1e-6
