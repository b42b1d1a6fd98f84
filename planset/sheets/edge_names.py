"""The name of every roof edge, written along it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from contextlib import suppress
from functools import partial

from planset.drawing.flatten import rotated_text_box
from planset.drawing.geometry import Point, direction_deg, distance, offset_left, readable
from planset.drawing.labels import Label, LabelPlacer, NoRoomError, WithinEach
from planset.drawing.page import View
from planset.drawing.primitives import Primitive, Text
from planset.drawing.text import NOTE_HEIGHT, SLACK, text_width
from planset.roof.solid import Edge, EdgeKind, Roof
from planset.sheets.plan_walls import outside_of_roofs
from planset.sheets.unnamed import Marked, led_from_outside, or_unnamed
from planset.units import format_feet_inches

_LEADER = "A-ANNO-NOTE"
_GAP = 0.065  # between an edge and its name [paper in]
_SHARES = (0.62, 0.38, 0.72, 0.28, 0.5, 0.84, 0.16, *(n / 20 for n in range(1, 20)))
"""Parts of an edge's length at which its name is tried, best first."""
_LED_TRIED = 7  # of these parts, for a leader
_ONE_LINE_IN = 1.0  # edges whose ends are no farther apart in plan are drawn as one line
_SHORT = 0.3  # an edge no longer than this on paper is part of what stands beside it [in]


def edge_names(placer: LabelPlacer, roof: Roof, view: View, layer: str) -> Iterator[Marked]:
    """Each name on the outer side of its edge where there is room, else on the inner side.

    Edges that lie over each other, as a dormer's eave over the wall it covers, have their names
    in one.
    """
    outside = outside_of_roofs(roof, view)
    for edges in _drawn_as_one(roof):
        edge = edges[0]
        a, b = readable(*(view.on_paper.apply(point) for point in edge.plan))
        if distance(a, b) < _SHORT:
            continue
        name = " / ".join(dict.fromkeys(edge_name(item) for item in edges))
        side = _outer_side(edge, view, a)
        sides = (side, -side)
        places = places_along(name, a, b, layer, sides)
        shown = [text for text in places if view.frame.contains(rotated_text_box(text))]
        if shown:
            yield from or_unnamed(
                f"{name}: {edge.id}", partial(_placed, placer, (a, b), shown, view, outside)
            )


def _drawn_as_one(roof: Roof) -> list[list[Edge]]:
    """The edges, those together that have one line in plan; shorter ones last."""
    groups: list[list[Edge]] = []
    for edge in roof.edges:
        group = next((g for g in groups if _same_line(g[0], edge)), None)
        if group is None:
            groups.append([edge])
        else:
            group.append(edge)
    return groups


def _same_line(one: Edge, other: Edge) -> bool:
    (a, b), (c, d) = one.plan, other.plan
    apart = min(
        max(math.dist(a, c), math.dist(b, d)),
        max(math.dist(a, d), math.dist(b, c)),
    )
    return apart < _ONE_LINE_IN


def _placed(
    placer: LabelPlacer,
    ends: tuple[Point, Point],
    places: list[Text],
    view: View,
    outside: WithinEach,
) -> tuple[Primitive, ...]:
    """The name at one of its places; where words stand on all of them, led to its edge."""
    name, (a, b) = places[0], ends
    if text_width(name.text, NOTE_HEIGHT) * SLACK <= distance(a, b):
        with suppress(NoRoomError):
            return (placer.place_first(places),)
    for share in _SHARES[:_LED_TRIED]:
        anchor = _between(a, b, share)
        label = Label((name.text,), anchor, name.height, name.layer, _LEADER)
        with suppress(NoRoomError):
            return led_from_outside(placer, label, view.frame, outside)
    msg = f"no free place for the name {name.text!r}, nor for a leader to it"
    raise NoRoomError(msg)


def _outer_side(edge: Edge, view: View, a: Point) -> float:
    """1 when the outside lies left of the way the name is read, else -1.

    A plane lies left of its sides. Of an edge between two planes the upper side is tried first.
    """
    if len(edge.planes) > 1:
        return 1.0
    first = view.on_paper.apply(edge.plan[0])
    return -1.0 if distance(first, a) < distance(view.on_paper.apply(edge.plan[1]), a) else 1.0


def places_along(name: str, a: Point, b: Point, layer: str, sides: Sequence[float]) -> list[Text]:
    """Where the name of an edge may stand along it, best first.

    Args:
        name: The name.
        a: The end it is read from [paper in].
        b: The other end [paper in].
        layer: Layer of the name.
        sides: 1 left of the way from a to b, -1 right of it, in the order tried.
    """
    return [_beside(name, a, b, way, share, layer) for way in sides for share in _SHARES]


def _beside(name: str, a: Point, b: Point, side: float, share: float, layer: str) -> Text:
    dx, dy = offset_left(a, b, side * (_GAP + NOTE_HEIGHT / 2))
    x, y = _between(a, b, share)
    return Text(name, (x + dx, y + dy), NOTE_HEIGHT, layer, "middle", direction_deg(a, b))


def _between(a: Point, b: Point, share: float) -> Point:
    return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)


def edge_name(edge: Edge) -> str:
    """What an edge is called on a plan, a ridge with its length."""
    if edge.kind is EdgeKind.RIDGE:
        return f"RIDGE {format_feet_inches(edge.length_in, denominator=1)}"
    return edge.kind.upper()
