"""Names of what a view of one plane shows of the others: obstructions and junction boxes."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from planset.design.design import Design
from planset.design.electrical.boxes import placed_boxes
from planset.drawing.geometry import Placement, Point
from planset.drawing.labels import Label, LabelPlacer
from planset.drawing.leader_course import ends_inside
from planset.drawing.text import MINIMUM_HEIGHT
from planset.roof.plane import Plane
from planset.sheets.electrical_blocks import on_roof
from planset.sheets.plan_turn import plane_rotation_deg
from planset.sheets.slope_view import SlopeView
from planset.sheets.unnamed import Marked, or_unnamed

_TEXT, _LEADER = "S-ANNO-TEXT", "S-ANNO-NOTE"


def names_beyond(
    placer: LabelPlacer, design: Design, on: SlopeView, *, boxes: bool
) -> Iterator[Marked]:
    """Name and plane of everything that stands on another plane of the same view, led to it.

    Args:
        placer: Knows of what is drawn.
        design: The design.
        on: The view.
        boxes: Whether it shows junction boxes.
    """
    seen: list[tuple[str, str, Plane, Point]] = [
        (item.id, item.id, item.plane, item.surface.center) for item in design.obstructions
    ]
    if boxes:
        seen += [(box.id, on_roof(box.id), box.plane, box.at) for box in placed_boxes(design)]
    for name, identity, plane, center in seen:
        at = _on_paper(on, plane.to_plan(center))
        if plane is not on.plane and ends_inside(on.view.frame, at):
            words = (name, f"{plane.id.upper()} PLANE")
            label = Label(words, at, MINIMUM_HEIGHT, _TEXT, _LEADER, names=identity, end="dot")
            place = partial(placer.place_near, label, on.view.frame)
            yield from or_unnamed(f"{name} ON THE {words[1]}", place)


def _on_paper(on: SlopeView, in_plan: Point) -> Point:
    (x, y), (x0, y0) = in_plan, on.plane.origin
    turn = Placement(rotation_deg=-plane_rotation_deg(on.plane))
    return on.view.on_paper.apply(turn.apply((x - x0, y - y0)))
