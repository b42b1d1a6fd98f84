"""Primitives drawn on a PDF page with the pens of their layers."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping

from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pathobject import PDFPathObject

from planset.drawing.extent import BlockBoxes
from planset.drawing.geometry import Box, Placement, Point, box_around
from planset.drawing.layers import INHERITED, LAYERS, LINETYPES, Layer, Rgb
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
from planset.drawing.text import CAP_HEIGHT_EM, text_width

FACE = "Arimo"
POINTS = 72.0  # per inch
POINTS_PER_MM = POINTS / 25.4
BUTT, ROUND = 0, 1  # line caps and joins

QUARTER = math.pi / 2

Move = Callable[[Point], Point]

Targets = Mapping[tuple[str, int], str]
"""Per sheet and view (0 for the sheet) that a link may lead to, what to call it."""

_LEFT = {"left": 0.0, "center": 0.5, "right": 1.0, "middle": 0.5}


def destination(sheet: str, view: int = 0) -> str:
    """Key under which the file holds a place that links lead to."""
    return f"{view}/{sheet}" if view else sheet


class Plotter:
    """Draws primitives on the current page of a canvas.

    A plotter remembers the pen it set, so nothing else may change the canvas' state while it is
    in use.

    Args:
        canvas: The file.
        blocks: The blocks that insertions name.
        targets: Where links may lead; all others are left out.
        clip: What of the page shows [pt], and the boxes of the blocks: those that lie outside are
            left out.
    """

    def __init__(
        self,
        canvas: Canvas,
        blocks: Mapping[str, Block],
        targets: Targets,
        clip: tuple[Box, BlockBoxes] | None = None,
    ) -> None:
        self._canvas = canvas
        self._blocks = blocks
        self._targets = targets
        self._clip = clip
        self._pen: Layer | None = None
        self._fill: Rgb | None = None

    def draw(
        self, primitives: Iterable[Primitive], place: Placement, inherited: str = INHERITED
    ) -> None:
        """Draw the primitives in their order, all but those on layers that are not plotted.

        Args:
            primitives: What to draw.
            place: From their coordinates to points on the page.
            inherited: The layer that stands in for layer "0".

        Raises:
            ValueError: The drawing face lacks a character.
        """
        move = _mover(place)
        for part in primitives:
            match part:
                case Insert():
                    self._insert(part, place, inherited)
                case Link():
                    self._link(part, move)
                case Dimension() | Leader():
                    self.draw(part.marks, place, inherited)
                case _:
                    layer = LAYERS[inherited if part.layer == INHERITED else part.layer]
                    if layer.plotted:
                        self._shape(part, layer, move, place)

    def _shape(
        self,
        part: Line | Polyline | Circle | Area | Text,
        layer: Layer,
        move: Move,
        place: Placement,
    ) -> None:
        if isinstance(part, Area):
            self._use_fill(layer)
            path = self._canvas.beginPath()
            _add_polyline(path, [move(point) for point in part.points], (), closed=True)
            self._canvas.drawPath(path, stroke=0, fill=1)
        elif isinstance(part, Text):
            self._use_fill(layer)
            self._text(part, move(part.at), place)
        elif isinstance(part, Line):
            self._use_pen(layer)
            self._canvas.line(*move(part.a), *move(part.b))
        else:
            self._use_pen(layer)
            path = self._canvas.beginPath()
            if isinstance(part, Circle):
                _add_circle(path, move(part.center), part.radius * place.scale)
            else:
                _add_polyline(path, [move(p) for p in part.points], part.bulges, part.closed)
            self._canvas.drawPath(path, stroke=1, fill=0)

    def _text(self, part: Text, at: Point, place: Placement) -> None:
        """One line of text, as wide as the page believes, whatever reportlab may measure."""
        height = part.height * place.scale
        left = _LEFT[part.align] * text_width(part.text, height)
        down = height / 2 if part.align == "middle" else 0.0
        start = Placement(at, part.rotation_deg + place.rotation_deg)
        self._canvas.setFont(FACE, height / CAP_HEIGHT_EM)
        x, y = start.apply((-left, -down))
        if not start.rotation_deg:
            self._canvas.drawString(x, y, part.text)
            return
        turn = math.radians(start.rotation_deg)
        cos, sin = math.cos(turn), math.sin(turn)
        line = self._canvas.beginText()
        line.setTextTransform(cos, sin, -sin, cos, x, y)
        line.textOut(part.text)
        self._canvas.drawText(line)

    def _insert(self, part: Insert, place: Placement, inherited: str) -> None:
        layer = inherited if part.layer == INHERITED else part.layer
        inner = Placement(part.at, part.rotation_deg, part.scale).within(place)
        if self._shows(part.block, inner):
            self.draw(self._blocks[part.block].primitives, inner, layer)
        shown = [attribute.text for attribute in part.attributes if attribute.text]
        if shown:
            self.draw(shown, place, inherited)

    def _shows(self, block: str, place: Placement) -> bool:
        """Whether any of a block may show."""
        if self._clip is None:
            return True
        window, boxes = self._clip
        return boxes.meets(block, place, window)

    def _link(self, part: Link, move: Move) -> None:
        name = self._targets.get((part.sheet, part.view))
        if name is not None:
            box = box_around([move(part.lower_left), move(part.upper_right)])
            corners = (box.x0, box.y0, box.x1, box.y1)
            key = destination(part.sheet, part.view)
            self._canvas.linkRect(name, key, corners, relative=0, thickness=0)

    def _use_pen(self, pen: Layer) -> None:
        """Set what differs from the pen in hand."""
        held = self._pen
        if pen is held:
            return
        if held is None or pen.pen_mm != held.pen_mm:
            self._canvas.setLineWidth(pen.pen_mm * POINTS_PER_MM)
        if held is None or pen.color != held.color:
            if pen.rgb:
                self._canvas.setStrokeColorRGB(*_shares(pen.rgb))
            else:
                self._canvas.setStrokeGray(pen.gray)
        if held is None or pen.linetype != held.linetype:
            dashes = [length * POINTS for length in LINETYPES[pen.linetype]]
            self._canvas.setDash(dashes)
            self._canvas.setLineCap(BUTT if dashes else ROUND)  # round caps would close the gaps
        self._pen = pen

    def _use_fill(self, layer: Layer) -> None:
        if layer.color != self._fill:
            if layer.rgb:
                self._canvas.setFillColorRGB(*_shares(layer.rgb))
            else:
                self._canvas.setFillGray(layer.gray)
            self._fill = layer.color


def _shares(color: Rgb) -> tuple[float, float, float]:
    red, green, blue = color
    return red / 255, green / 255, blue / 255


def _mover(place: Placement) -> Move:
    """`place.apply`, with the sine and cosine worked out once for many points."""
    turn = math.radians(place.rotation_deg)
    cos, sin = place.scale * math.cos(turn), place.scale * math.sin(turn)
    x, y = place.at
    if not sin:
        return lambda point: (point[0] * cos + x, point[1] * cos + y)
    return lambda point: (
        point[0] * cos - point[1] * sin + x,
        point[0] * sin + point[1] * cos + y,
    )


def _add_polyline(
    path: PDFPathObject, points: list[Point], bulges: tuple[float, ...], closed: bool
) -> None:
    path.moveTo(*points[0])
    for index, end in enumerate(points[1:]):
        if bulges and bulges[index]:
            _add_bulge(path, points[index], end, bulges[index])
        else:
            path.lineTo(*end)
    if closed:
        if bulges and bulges[-1]:
            _add_bulge(path, points[-1], points[0], bulges[-1])
        path.close()


def _add_bulge(path: PDFPathObject, start: Point, end: Point, bulge: float) -> None:
    """An arc whose middle stands off its chord by `bulge` halves of the chord."""
    across, up = end[0] - start[0], end[1] - start[1]
    off = (1 - bulge * bulge) / (4 * bulge)  # of the center from the chord, in chords, to the left
    x = (start[0] + end[0]) / 2 - up * off
    y = (start[1] + end[1]) / 2 + across * off
    radius = math.hypot(start[0] - x, start[1] - y)
    begin = math.atan2(start[1] - y, start[0] - x)
    _add_arc(path, (x, y), radius, begin, 4 * math.atan(bulge))


def _add_circle(path: PDFPathObject, center: Point, radius: float) -> None:
    path.moveTo(center[0] + radius, center[1])
    _add_arc(path, center, radius, 0.0, 4 * QUARTER)
    path.close()


def _add_arc(path: PDFPathObject, center: Point, radius: float, begin: float, sweep: float) -> None:
    """An arc on from the current point, in curves of a quarter or less, true to 1/3000 radius.

    Args:
        path: The path to lengthen.
        center: Center [pt].
        radius: Radius [pt].
        begin: Direction of the current point from the center [rad].
        sweep: Angle to cover, counterclockwise when positive [rad].
    """
    count = math.ceil(abs(sweep) / QUARTER - 1e-9)
    step = sweep / count
    reach = radius * 4 / 3 * math.tan(step / 4)  # of the control points, along the tangents
    x, y = center
    for index in range(count):
        a, b = begin + index * step, begin + (index + 1) * step
        x0, y0 = x + radius * math.cos(a), y + radius * math.sin(a)
        x1, y1 = x + radius * math.cos(b), y + radius * math.sin(b)
        path.curveTo(
            x0 - reach * math.sin(a),
            y0 + reach * math.cos(a),
            x1 + reach * math.sin(b),
            y1 - reach * math.cos(b),
            x1,
            y1,
        )
