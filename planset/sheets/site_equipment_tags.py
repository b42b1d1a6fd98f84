"""Tags of equipment on the site plan: a row of them beside each wall, in the order of the marks."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import pairwise

from planset.design.site import OnSite
from planset.drawing.geometry import Box, Point
from planset.drawing.labels import Label, first_with_room
from planset.drawing.text import MINIMUM_HEIGHT, SLACK, text_width
from planset.sheets.site_blocks import equipment_block, mark_box
from planset.sheets.site_words import LEADER, TEXT, OnSitePlan
from planset.sheets.unnamed import Marked, or_unnamed

_OFF = (0.25, 0.1, 0.4, 0.55)  # of a row of tags from the roof's edge [paper in]
_BETWEEN = 0.14  # two tags of a row [paper in]
_HALF_HIGH = 0.7 * MINIMUM_HEIGHT  # of a tag with its descenders
_GIVE = 0.035  # by which a tag may stand off its place in the row [paper in]


def equipment_tags(plan: OnSitePlan) -> Iterator[Marked]:
    """The tag of each piece of equipment, led to its mark."""
    roof = plan.design.inputs.job.roof
    overhang = max(roof.eave_overhang, roof.rake_overhang) / plan.view.scale.factor
    for outward in dict.fromkeys(item.outward for item in plan.site.equipment):
        row = [item for item in plan.site.equipment if item.outward == outward]
        row.sort(key=lambda item: _along(item.at, item.outward))
        for item, place in _from_the_middle(list(zip(row, _row(row, plan), strict=True))):
            label = _label(item, plan)
            tries = [
                partial(
                    plan.placer.place_near,
                    label,
                    _beside(label, place, outward, overhang + off),
                    always_led=True,
                    within=plan.free,
                )
                for off in _OFF
            ]
            tries.append(partial(plan.beside_lines, [label]))
            yield from or_unnamed(f"EQUIPMENT {item.id}", partial(first_with_room, tries))


def _from_the_middle(row: list[tuple[OnSite, float]]) -> list[tuple[OnSite, float]]:
    """The middle one first, so that the leaders of the others come from outside of it."""
    half = (len(row) - 1) / 2
    order = sorted(range(len(row)), key=lambda number: abs(number - half))
    return [row[number] for number in order]


def _along(point: Point, outward: Point) -> float:
    return point[1] if outward[0] else point[0]


def _row(row: list[OnSite], plan: OnSitePlan) -> list[float]:
    """Where along their wall the middles of the tags stand, none nearer to another than it may."""
    marks = [_along(plan.box(mark_box(item).corners).center, item.outward) for item in row]
    halves = [_half_along(item) for item in row]
    places = marks[:1]
    for mark, (before, half) in zip(marks[1:], pairwise(halves), strict=True):
        places.append(max(mark, places[-1] + before + half + _BETWEEN))
    shift = sum(m - p for m, p in zip(marks, places, strict=True)) / len(row)
    return [place + shift for place in places]


def _half_along(item: OnSite) -> float:
    if item.outward[0]:
        return _HALF_HIGH
    return text_width(item.id, MINIMUM_HEIGHT) * SLACK / 2


def _beside(label: Label, place: float, outward: Point, off: float) -> Box:
    """The place of a tag, a little larger than it."""
    (x, y), (nx, ny) = label.anchor, outward
    half = text_width(label.lines[0], MINIMUM_HEIGHT) * SLACK / 2
    at = (x + nx * (off + half), place) if nx else (place, y + ny * off)
    wide, high = half + _GIVE, _HALF_HIGH + _GIVE
    return Box(at[0] - wide, at[1] - high, at[0] + wide, at[1] + high)


def _label(item: OnSite, plan: OnSitePlan) -> Label:
    box = plan.box(mark_box(item).corners)
    return Label(
        (item.id,),
        box.center,
        MINIMUM_HEIGHT,
        TEXT,
        LEADER,
        names=equipment_block(item.id),
        offset=max(box.width, box.height) / 2,
        end="dot",
    )
