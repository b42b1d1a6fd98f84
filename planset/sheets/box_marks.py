"""Junction boxes on a plane seen from its eave: what is drawn of them, and their names."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from planset.design.design import Design
from planset.design.electrical.boxes import PlacedBox, placed_boxes
from planset.drawing.geometry import Box
from planset.drawing.labels import Label, LabelPlacer
from planset.drawing.leader_course import ends_inside
from planset.drawing.primitives import Insert, Line, Polyline, Primitive
from planset.drawing.text import MINIMUM_HEIGHT
from planset.roof.plane import Plane
from planset.sheets.electrical_blocks import BOXES, on_roof
from planset.sheets.slope_view import SlopeView, turned
from planset.sheets.unnamed import Marked, or_unnamed

BOX_LAYER = "E-POWR-EQPM"

_TEXT, _LEADER = "E-ANNO-TEXT", "E-ANNO-NOTE"


def boxes_shown(design: Design, plane: Plane) -> tuple[Insert, ...]:
    """The boxes as a view of a plane shows them; nothing where none stands on it."""
    return (turned(BOXES, plane, BOX_LAYER),) if _on(design, plane) else ()


def box_names(placer: LabelPlacer, design: Design, on: SlopeView) -> Iterator[Marked]:
    """The id of every box of the plane, led to it."""
    for box in _on(design, on.plane):
        drawn = on.box(box.surface)
        if ends_inside(on.view.frame, drawn.center):
            reach = max(drawn.width, drawn.height) / 2
            label = Label(
                *((box.id,), drawn.center, MINIMUM_HEIGHT, _TEXT, _LEADER),
                names=on_roof(box.id),
                offset=reach,
                end="dot",
            )
            place = partial(placer.place_near, label, on.view.frame)
            yield from or_unnamed(f"JUNCTION BOX {box.id}", place)


def box_sample(box: Box) -> list[Primitive]:
    """A junction box in a legend."""
    half = box.height / 2
    (x, y) = box.center
    a, b, c, d = Box(x - half, y - half, x + half, y + half).corners
    return [
        Polyline((a, b, c, d), BOX_LAYER, closed=True),
        Line(a, c, BOX_LAYER),
        Line(b, d, BOX_LAYER),
    ]


def _on(design: Design, plane: Plane) -> list[PlacedBox]:
    return [box for box in placed_boxes(design) if box.plane is plane]
