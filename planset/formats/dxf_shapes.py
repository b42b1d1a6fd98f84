"""Primitives as DXF entities, in one layout or block at a time."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from ezdxf.entities.insert import Insert as DxfInsert
from ezdxf.layouts.base import BaseLayout

from planset.drawing.geometry import Placement, Point, direction_deg, distance
from planset.drawing.layers import UNPLOTTED
from planset.drawing.primitives import (
    Area,
    Attribute,
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
from planset.drawing.text import text_width
from planset.errors import PlansetError
from planset.formats.dxf_dimensions import BYLAYER_COLOR, TEXT_STYLE, DimensionSize, measured_text
from planset.formats.dxf_document import APPID, DxfDocument

AS_DRAWN = Placement()
INVISIBLE = 1  # ATTRIB, ATTDEF flag 70
CONSTANT = 2  # ATTDEF flag 70: the value of every insertion, none of which has an ATTRIB for it
DASHES_RUN_THROUGH = 128  # LWPOLYLINE flag 70: the linetype runs on through vertices
ALIGNED_DIMENSION = 1 + 32 + 128  # DIMENSION flag 70: a block of its own, figure placed by user

# Group codes 72 and 73 (74 in ATTRIB) of a text, and the place of its anchor, in widths from the
# left and in heights from the baseline.
_JUSTIFIED = {"left": (0, 0), "center": (1, 0), "right": (2, 0), "middle": (1, 2)}
_ANCHOR = {"left": (0.0, 0.0), "center": (0.5, 0.0), "right": (1.0, 0.0), "middle": (0.5, 0.5)}


class ShapeWriter:
    """Writes primitives into one layout or block.

    Args:
        document: The file.
        layout: Where the entities go.
        place: From the primitives' coordinates to the layout's; never turned.
        length_factor: True length of what the layout draws an inch long.
    """

    def __init__(
        self,
        document: DxfDocument,
        layout: BaseLayout,
        place: Placement = AS_DRAWN,
        length_factor: float = 1.0,
    ) -> None:
        self._document = document
        self._layout = layout
        self._place = place
        self._scale = place.scale
        self._length_factor = length_factor

    def write(self, primitives: Iterable[Primitive]) -> None:
        """Write the primitives in their order, which is the order of drawing.

        Raises:
            PlansetError: A text holds what DXF would read as a code.
            ValueError: The drawing face lacks a character.
        """
        for part in primitives:
            match part:
                case Line():
                    self._line(part)
                case Polyline():
                    self._polyline(part)
                case Circle():
                    self._circle(part)
                case Area():
                    self._area(part)
                case Text():
                    self._layout.new_entity("TEXT", self.text_attributes(part))
                case Dimension():
                    self._dimension(part)
                case Leader():
                    self.write(part.marks)
                case Insert():
                    self._insert(part)
                case Link():
                    pass  # DXF has no form for a link to another sheet

    def _line(self, part: Line) -> None:
        apply = self._place.apply
        attributes = {"layer": self._layer(part), "start": apply(part.a), "end": apply(part.b)}
        self._layout.new_entity("LINE", attributes)

    def _polyline(self, part: Polyline) -> None:
        points = [self._place.apply(point) for point in part.points]
        bulges = part.bulges or (0.0,) * len(points)
        self._layout.add_lwpolyline(
            [(x, y, bulge) for (x, y), bulge in zip(points, bulges, strict=True)],
            format="xyb",
            close=part.closed,
            dxfattribs={"layer": self._layer(part), "flags": DASHES_RUN_THROUGH},
        )

    def _circle(self, part: Circle) -> None:
        attributes = {
            "layer": self._layer(part),
            "center": self._place.apply(part.center),
            "radius": part.radius * self._scale,
        }
        self._layout.new_entity("CIRCLE", attributes)

    def _area(self, part: Area) -> None:
        points = [self._place.apply(point) for point in part.points]
        attributes = {"layer": self._layer(part)}
        if len(points) == 3:
            self._layout.add_solid(points, attributes)
        elif len(points) == 4 and _is_convex(points):
            first, second, third, fourth = points
            self._layout.add_solid([first, second, fourth, third], attributes)
        else:
            hatch = self._layout.add_hatch(color=BYLAYER_COLOR, dxfattribs=attributes)
            hatch.paths.add_polyline_path(points, is_closed=True)
            # One reader silently drops the entity that follows a hatch; this one may go.
            self._layout.add_point(points[0], {"layer": self._document.layer(UNPLOTTED)})

    def text_attributes(self, part: Text) -> dict[str, Any]:
        """What TEXT, ATTRIB and ATTDEF say alike of a line of text."""
        across, up = _JUSTIFIED[part.align]
        anchor = self._place.apply(part.at)
        height = part.height * self._scale
        attributes: dict[str, Any] = {
            "layer": self._layer(part),
            "style": TEXT_STYLE,
            "text": encoded(part.text),
            "insert": anchor,
            "height": height,
        }
        if part.rotation_deg:
            attributes["rotation"] = part.rotation_deg
        if part.align != "left":
            wide, high = _ANCHOR[part.align]
            start = (-wide * text_width(part.text, height), -high * height)
            attributes["insert"] = Placement(anchor, part.rotation_deg).apply(start)
            attributes |= {"align_point": anchor, "halign": across, "valign": up}
        return attributes

    def _dimension(self, part: Dimension) -> None:
        """A dimension whose picture is what the page drew, so that every reader shows the same."""
        document, apply = self._document, self._place.apply
        picture = document.doc.blocks.new_anonymous_block(type_char="D")
        ShapeWriter(document, picture, self._place).write(part.marks)
        size = DimensionSize(self._scale, part.text_height, self._length_factor, part.running)
        length = distance(part.a, part.b) * self._scale * self._length_factor
        text = measured_text(part, length) if document.formats_figures else part.text
        attributes = {
            "layer": self._layer(part),
            "dimstyle": document.dimension_style(size),
            "geometry": picture.name,
            "dimtype": ALIGNED_DIMENSION,
            "defpoint": apply(part.line_b),
            "defpoint2": apply(part.a),
            "defpoint3": apply(part.b),
            "text_midpoint": apply(part.text_at),
            "angle": direction_deg(part.a, part.b),
            "text": encoded(text),
            "actual_measurement": length,
        }
        turn = _turn_of_figure(part) if part.running else 0.0
        if turn:  # a level figure says nothing: its style has it level
            attributes["text_rotation"] = turn
        dimension = self._layout.new_entity("DIMENSION", attributes)
        if part.on_slope:
            dimension.set_xdata(APPID, [(1000, "on slope"), (1040, part.value_in)])

    def _insert(self, part: Insert) -> None:
        scale = part.scale * self._scale
        attributes: dict[str, Any] = {"layer": self._layer(part)}
        if part.rotation_deg:
            attributes["rotation"] = part.rotation_deg
        if scale != 1:
            attributes |= {"xscale": scale, "yscale": scale, "zscale": scale}
        insert = self._layout.add_blockref(part.block, self._place.apply(part.at), attributes)
        for attribute in part.attributes:
            self._attribute(insert, part, attribute)
        if insert.seqend is not None:
            # One reader takes the name of layer "0" in it for the end of the entity that follows.
            insert.seqend.dxf.layer = self._document.layer(UNPLOTTED)
        if part.identity:
            insert.set_xdata(APPID, [(1000, "id"), (1000, part.identity)])

    def _attribute(self, insert: DxfInsert, part: Insert, attribute: Attribute) -> None:
        written = attribute.text or self._hidden(part, attribute)
        attributes = self.text_attributes(written)
        if not attribute.text:
            attributes["flags"] = INVISIBLE
        at, text = attributes.pop("insert"), attributes.pop("text")
        insert.add_attrib(attribute.tag, text, at, attributes)

    def _hidden(self, part: Insert, attribute: Attribute) -> Text:
        values, place = (
            self._document.hidden_values[part.block],
            Placement(part.at, part.rotation_deg, part.scale),
        )
        return values.text(attribute.tag, attribute.value, place)

    def _layer(self, part: Line | Polyline | Circle | Area | Text | Dimension | Insert) -> str:
        return self._document.layer(part.layer)


def encoded(text: str) -> str:
    """A line of text as DXF writes it.

    Raises:
        PlansetError: It holds two percent signs in a row, which DXF reads as a code.
    """
    if "%%" in text:
        msg = f'text {text!r} holds "%%", which a drawing file reads as a code; write a single "%"'
        raise PlansetError(msg)
    return text.replace("^", "^ ")


def _turn_of_figure(part: Dimension) -> float:
    return next(mark.rotation_deg for mark in part.marks if isinstance(mark, Text))


def _is_convex(corners: list[Point]) -> bool:
    """Whether the outline turns the same way at every corner."""
    turns = []
    for index, (x, y) in enumerate(corners):
        before, after = corners[index - 1], corners[(index + 1) % len(corners)]
        turns.append((x - before[0]) * (after[1] - y) - (y - before[1]) * (after[0] - x))
    return all(turn >= 0 for turn in turns) or all(turn <= 0 for turn in turns)
