"""The site plan while words are put on it: where they may stand, and how they are led."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import pairwise

from planset.design.design import Design
from planset.design.site import Site
from planset.drawing.geometry import Box, Point, box_around
from planset.drawing.labels import Label, LabelPlacer, WithinEach, first_with_room
from planset.drawing.page import View
from planset.drawing.primitives import Primitive
from planset.drawing.region import Region
from planset.drawing.text import MINIMUM_HEIGHT
from planset.sheets.plan_walls import outside_of_roofs
from planset.sheets.site_blocks import setback_rings, street_edge
from planset.sheets.unnamed import Marked, or_unnamed

TEXT, LEADER = "C-ANNO-TEXT", "C-ANNO-NOTE"
_NEARBY = 1.3  # how far off words are sought first [paper in]


@dataclass(frozen=True, slots=True)
class OnSitePlan:
    """A site plan that takes words.

    Attributes:
        design: The design.
        site: Its lot.
        view: The view.
        placer: Knows of all that is drawn.
        free: Tells of boxes on paper whether they lie beside all roofs and on no line of the lot.
    """

    design: Design
    site: Site
    view: View
    placer: LabelPlacer
    free: WithinEach

    def box(self, corners: Iterable[Point]) -> Box:
        """Around corners in plan, on paper [in]."""
        return box_around(map(self.view.on_paper.apply, corners))

    def beside_lines(self, labels: Sequence[Label]) -> tuple[Primitive, ...]:
        """Words led to one of their anchors, outside of roofs and on no line of the lot.

        They stand nearby if they can, then anywhere, and on lines only for want of another place.

        Raises:
            NoRoomError: They have no place.
        """
        tries = []
        for reach, within in ((_NEARBY, self.free), (math.inf, self.free), (math.inf, None)):
            for label in labels:
                x, y = label.anchor
                near = Box(x - reach, y - reach, x + reach, y + reach)
                region = self.view.frame.shared(near)
                place = partial(self.placer.place_near, always_led=True, within=within)
                tries.append(partial(place, label, region))
        return first_with_room(tries)

    def led(
        self, words: str, anchors: Sequence[Point], layer: str = TEXT, offset: float = 0.0
    ) -> Iterator[Marked]:
        """Words led to one of several points of what they name.

        Args:
            words: The words, line by line.
            anchors: The points, best first [paper in].
            layer: Layer of the words.
            offset: How far the thing reaches from each of them [in].
        """
        lines = tuple(words.splitlines())
        labels = [
            Label(lines, at, MINIMUM_HEIGHT, layer, LEADER, offset=offset, end="dot")
            for at in anchors
        ]
        yield from or_unnamed(" ".join(lines), partial(self.beside_lines, labels))


def free_of_lines(design: Design, site: Site, view: View) -> WithinEach:
    """What tells of boxes on paper whether they lie beside all roofs and on no line of the lot."""
    at = view.on_paper.apply
    rings = [*site.driveways, *(ring for one in site.structures for ring in one.rings)]
    rings += setback_rings(site)
    outlines = [Region.of(map(at, ring)) for ring in rings]
    beside = outside_of_roofs(design.roof, view)
    lines = [*pairwise(site.walk), *((line.a, line.b) for line in site.lines)]
    lines += [edge for street in site.streets if (edge := street_edge(street))]
    drawn = [(at(a), at(b)) for a, b in lines]

    def off_lines(box: Box) -> bool:
        if any(one.meets(box) and not one.holds(box) for one in outlines):
            return False
        words = Region.of(box.corners)
        return not any(words.crossed_by(a, b) for a, b in drawn)

    return lambda boxes: [
        clear and off_lines(box) for box, clear in zip(boxes, beside(boxes), strict=True)
    ]
