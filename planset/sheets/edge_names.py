"""The name of every roof edge, written beside it."""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import suppress

from planset.drawing.flatten import rotated_text_box
from planset.drawing.geometry import Point, box_around, direction_deg, offset_left, readable
from planset.drawing.labels import Label, LabelPlacer, NoRoomError
from planset.drawing.page import View
from planset.drawing.primitives import Primitive, Text
from planset.drawing.text import NOTE_HEIGHT
from planset.roof.solid import Edge, EdgeKind, Roof
from planset.units import format_feet_inches

_LEADER = "A-ANNO-NOTE"
_GAP = 0.065  # between an edge and its name [paper in]
_SHARES = (0.62, 0.38, 0.72, 0.28, 0.5, 0.84, 0.16, *(n / 20 for n in range(1, 20)))
"""Parts of an edge's length at which its name is tried, best first."""


def edge_names(placer: LabelPlacer, roof: Roof, view: View, layer: str) -> Iterable[Primitive]:
    """Each name on the outer side of its edge where there is room, else on the inner side.

    Raises:
        NoRoomError: A name has no free place, nor one it could be led from.
    """
    middle = box_around(point for plane in roof.planes for point in plane.outline).center
    for edge in roof.edges:
        a, b = readable(*(view.on_paper.apply(point) for point in edge.plan))
        side = _outer_side(a, b, view.on_paper.apply(middle))
        sides = (side, -side)
        places = [_beside(edge, a, b, way, share, layer) for way in sides for share in _SHARES]
        shown = [text for text in places if view.frame.contains(rotated_text_box(text))]
        if shown:
            yield from _placed(placer, edge, shown, view)


def _placed(
    placer: LabelPlacer, edge: Edge, places: list[Text], view: View
) -> tuple[Primitive, ...]:
    """The name at one of its places; where words stand on all of them, led to its edge."""
    with suppress(NoRoomError):
        return (placer.place_first(places),)
    name, (a, b) = places[0], (view.on_paper.apply(point) for point in edge.plan)
    for share in _SHARES:
        anchor = _between(a, b, share)
        label = Label((name.text,), anchor, name.height, name.layer, _LEADER)
        with suppress(NoRoomError):
            return placer.place_near(label, view.frame, always_led=True)
    msg = f"no free place for the name {name.text!r}, nor for a leader to it"
    raise NoRoomError(msg)


def _outer_side(a: Point, b: Point, middle: Point) -> float:
    """1 when the outside lies left of a to b, seen from the roof's middle, else -1."""
    left = (b[0] - a[0]) * (middle[1] - a[1]) - (b[1] - a[1]) * (middle[0] - a[0])
    return -1.0 if left > 0 else 1.0


def _beside(edge: Edge, a: Point, b: Point, side: float, share: float, layer: str) -> Text:
    dx, dy = offset_left(a, b, side * (_GAP + NOTE_HEIGHT / 2))
    x, y = _between(a, b, share)
    return Text(_name(edge), (x + dx, y + dy), NOTE_HEIGHT, layer, "middle", direction_deg(a, b))


def _between(a: Point, b: Point, share: float) -> Point:
    return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)


def _name(edge: Edge) -> str:
    if edge.kind is EdgeKind.RIDGE:
        return f"RIDGE {format_feet_inches(edge.length_in, denominator=1)}"
    return edge.kind.upper()
