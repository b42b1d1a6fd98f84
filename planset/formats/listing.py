"""A sheet as text, a line per primitive: what a test keeps and a diff shows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from planset.drawing.geometry import Point
from planset.drawing.page import Page, View
from planset.drawing.primitives import (
    Area,
    Block,
    Circle,
    Dimension,
    Insert,
    Leader,
    Line,
    Link,
    Polyline,
    Primitive,
    Text,
)
from planset.formats.block_order import blocks_behind

INDENT = "  "


def listing(page: Page, blocks: Mapping[str, Block]) -> str:
    """The sheet in words and numbers, coordinates rounded to 0.001 in.

    Args:
        page: The sheet.
        blocks: All blocks by name; those the sheet uses are listed after it.

    Returns:
        Lines, each ended: the sheet, its views with what they show, the paper, the blocks.

    Raises:
        KeyError: A block is inserted that is not there.
    """
    lines = [f"sheet {page.sheet} |{page.title}| titleblock={page.titleblock}"]
    for view in page.views:
        lines.extend(_view_lines(view))
    lines.append("paper")
    lines.extend(_indented(page.paper, 1))
    everything = [*page.paper, *(part for v in page.views for part in (*v.model, *v.annotation))]
    for block in blocks_behind(everything, blocks):
        named = [*block.attribute_tags, *(attribute.tag for attribute in block.written)]
        tags = f" tags={','.join(named)}" if named else ""
        tags += "".join(f" {value.tag}=|{value.value}|" for value in block.constants)
        lines.append(f"block {block.name} |{block.description}|{tags}")
        lines.extend(_indented(block.primitives, 1))
    return "\n".join(lines) + "\n"


def _view_lines(view: View) -> Iterator[str]:
    window = f"{_xy(view.window.corners[0])}..{_xy(view.window.corners[2])}"
    scale = f"scale |{view.scale.label}| 1:{_number(view.scale.factor)}"
    yield f"view {view.number} |{view.title}| {scale} window {window} at {_xy(view.at)}"
    yield f"{INDENT}model"
    yield from _indented(view.model, 2)
    yield f"{INDENT}annotation"
    yield from _indented(view.annotation, 2)


def _indented(primitives: Iterable[Primitive], depth: int) -> Iterator[str]:
    for part in primitives:
        for line in _lines(part):
            yield INDENT * depth + line


def _lines(part: Primitive) -> Iterator[str]:
    """The line of a primitive, then indented those of what it carries."""
    match part:
        case Line():
            yield f"line {part.layer} {_path((part.a, part.b))}"
        case Polyline():
            bulges = f" bulges {' '.join(map(_number, part.bulges))}" if part.bulges else ""
            closed = " closed" if part.closed else ""
            yield f"polyline {part.layer} {_path(part.points)}{closed}{bulges}"
        case Circle():
            yield f"circle {part.layer} {_xy(part.center)} radius {_number(part.radius)}"
        case Area():
            yield f"area {part.layer} {_path(part.points)}"
        case Text():
            yield _text(part)
        case Dimension():
            yield _dimension(part)
            yield from _indented(part.marks, 1)
        case Leader():
            names = f" names {part.names}" if part.names else ""
            yield f"leader {part.layer} {_path(part.points)} {part.end}{names}"
            yield from _indented(part.marks, 1)
        case Insert():
            yield from _insert(part)
        case Link():
            target = f"{part.view}/{part.sheet}" if part.view else part.sheet
            yield f"link {_xy(part.lower_left)}..{_xy(part.upper_right)} to {target}"


def _text(part: Text) -> str:
    turned = f" turned {_number(part.rotation_deg)}" if part.rotation_deg else ""
    height = f"height {_number(part.height)}"
    return f"text {part.layer} {_xy(part.at)} {height} {part.align}{turned} |{part.text}|"


def _dimension(part: Dimension) -> str:
    measured = f"{_path((part.a, part.b))} drawn {_path((part.line_a, part.line_b))}"
    figure = f"|{part.text}| at {_xy(part.text_at)} height {_number(part.text_height)}"
    slope = " on slope" if part.on_slope else ""
    return f"dimension {part.layer} {measured} {figure} value {_number(part.value_in)}{slope}"


def _insert(part: Insert) -> Iterator[str]:
    turned = f" turned {_number(part.rotation_deg)}" if part.rotation_deg else ""
    scaled = f" scaled {_number(part.scale)}" if part.scale != 1 else ""
    identity = f" id {part.identity}" if part.identity else ""
    yield f"insert {part.layer} {part.block} at {_xy(part.at)}{turned}{scaled}{identity}"
    for attribute in part.attributes:
        written = f" {_text(attribute.text)}" if attribute.text else ""
        yield f"{INDENT}attribute {attribute.tag}=|{attribute.value}|{written}"


def _path(points: Iterable[Point]) -> str:
    return " ".join(map(_xy, points))


def _xy(point: Point) -> str:
    return f"{_number(point[0])},{_number(point[1])}"


def _number(value: float) -> str:
    """Rounded to thousandths, without trailing zeros and without a negative zero."""
    return f"{round(value, 3) + 0.0:.3f}".rstrip("0").rstrip(".")
