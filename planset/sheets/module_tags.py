"""Tags of modules, and the names of arrays."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import suppress
from functools import partial

from planset.design.layout import PlacedArray, PlacedModule, surface_to_plan
from planset.drawing.flatten import rotated_text_box
from planset.drawing.geometry import Box, Point, box_around, direction_deg, offset_left, readable
from planset.drawing.labels import Label, LabelPlacer, NoRoomError, WithinEach
from planset.drawing.page import View
from planset.drawing.primitives import Primitive, Text
from planset.drawing.text import MINIMUM_HEIGHT, SLACK, text_box
from planset.roof.plane import Plane
from planset.sheets.context import SheetContext
from planset.sheets.plan_walls import outside_of_roofs
from planset.sheets.unnamed import Marked, led_from_outside, or_unnamed

_TAG = "E-SOLR-IDEN"
_LEADER = "A-ANNO-NOTE"
_IN_MODULE = 0.06  # kept free between a tag and its module [paper in]
_LIFTS = (0.0, 0.15, -0.15, 0.3, -0.3)  # parts of a module's size by which a tag may step aside
_OFF_TAG = (0.4, -0.3)  # of a leader's end from the middle of a module, in sizes of it
_BESIDE = 0.06  # from an array to its name [paper in]
_BESIDE_SHARES = (0.5, 0.3, 0.7, 0.15, 0.85, 0.4, 0.6)
_SQUARE = 1e-9


def module_tags(placer: LabelPlacer, context: SheetContext, view: View) -> Iterator[Primitive]:
    """A tag in every module of the arrays whose modules have room for one."""
    for array in context.design.arrays:
        shown = _shown(array, view)
        if shown and _tagged(array, shown, view):
            for module in shown:
                # What stands in its way is told of by a rule; the tag of its neighbors tells of it.
                with suppress(NoRoomError):
                    yield from _tag(placer, array.plane, module, view)


def array_names(placer: LabelPlacer, context: SheetContext, view: View) -> Iterator[Marked]:
    """The tags of an array whose modules have none, and the name of each of several arrays."""
    arrays = context.design.arrays
    outside = outside_of_roofs(context.design.roof, view)
    for array in arrays:
        shown = _shown(array, view)
        if not shown:
            continue
        words = f"ARRAY {array.id}"
        if not _tagged(array, shown, view):
            first, last = array.modules[0], array.modules[-1]
            words = f"{words}: {first.id} TO {last.id}" if len(array.modules) > 1 else first.id
        elif len(arrays) < 2 or shown[-1] is not array.modules[-1]:
            continue
        yield from or_unnamed(words, partial(_named, placer, words, array, shown, view, outside))


def _shown(array: PlacedArray, view: View) -> list[PlacedModule]:
    return [
        module
        for module in array.modules
        if view.frame.contains(on_paper(view, array.plane, module.surface))
    ]


def _tagged(array: PlacedArray, shown: list[PlacedModule], view: View) -> bool:
    """Whether the tags of all modules fit into them."""
    size = shown[0].surface
    width = size.width / view.scale.factor - 2 * _IN_MODULE
    height = size.height / array.plane.slope_factor / view.scale.factor - 2 * _IN_MODULE
    if _upright(array.plane) and abs(array.plane.along[0]) < 0.5:
        width, height = height, width
    boxes = [text_box(m.id, (0.0, 0.0), MINIMUM_HEIGHT, "middle", slack=SLACK) for m in shown]
    return all(box.width <= width and box.height <= height for box in boxes)


def _upright(plane: Plane) -> bool:
    """Whether modules on a plane lie square to the sheet."""
    return min(map(abs, plane.along)) < _SQUARE


def _tag(
    placer: LabelPlacer, plane: Plane, module: PlacedModule, view: View
) -> Iterable[Primitive]:
    if _upright(plane):
        box = on_paper(view, plane, module.surface)
        label = Label((module.id,), box.center, MINIMUM_HEIGHT, _TAG, _LEADER)
        return placer.place_inside(label, box)
    ends = readable(*(plane.to_plan((u, 0.0)) for u in (0.0, 1.0)))
    turn, box = direction_deg(*ends), module.surface
    places = [
        Text(
            module.id,
            view.on_paper.apply(plane.to_plan(_off_middle(box, right, up))),
            MINIMUM_HEIGHT,
            _TAG,
            "middle",
            turn,
        )
        for right in _LIFTS
        for up in _LIFTS
    ]
    return (placer.place_first(places),)


def _off_middle(box: Box, right: float, up: float) -> Point:
    x, y = box.center
    return (x + right * box.width, y + up * box.height)


def _named(
    placer: LabelPlacer,
    words: str,
    array: PlacedArray,
    modules: list[PlacedModule],
    view: View,
    outside: WithinEach,
) -> tuple[Primitive, ...]:
    """Words along a side of the array, else led to one of its modules.

    Raises:
        NoRoomError: They have no free place.
    """
    beside = [text for text in _beside(words, array, view) if _in_view(text, view)]
    if beside:
        with suppress(NoRoomError):
            return (placer.place_first(beside),)
    for module in (modules[0], modules[len(modules) // 2], modules[-1]):
        at = array.plane.to_plan(_off_middle(module.surface, *_OFF_TAG))
        anchor = view.on_paper.apply(at)
        label = Label((words,), anchor, MINIMUM_HEIGHT, _TAG, _LEADER, names=module.id, end="dot")
        with suppress(NoRoomError):
            return led_from_outside(placer, label, view.frame, outside)
    msg = f"no free place for the label {words!r}"
    raise NoRoomError(msg)


def _in_view(text: Text, view: View) -> bool:
    return view.frame.contains(rotated_text_box(text))


def _beside(words: str, array: PlacedArray, view: View) -> Iterator[Text]:
    """Above and below the array, then along its sides."""
    plane, box = array.plane, array.hardware
    low_left, low_right, high_right, high_left = (
        view.on_paper.apply(plane.to_plan(corner)) for corner in box.corners
    )
    for start, end in (
        (high_right, high_left),
        (low_left, low_right),
        (high_left, low_left),
        (low_right, high_right),
    ):
        dx, dy = offset_left(start, end, -_BESIDE - MINIMUM_HEIGHT / 2)
        turn = direction_deg(*readable(start, end))
        for share in _BESIDE_SHARES:
            x, y = (a + share * (b - a) for a, b in zip(start, end, strict=True))
            yield Text(words, (x + dx, y + dy), MINIMUM_HEIGHT, _TAG, "middle", turn)


def on_paper(view: View, plane: Plane, surface: Box) -> Box:
    """The box on the sheet around a part of a plane [paper in]."""
    return box_around(view.on_paper.apply(corner) for corner in surface_to_plan(plane, surface))
