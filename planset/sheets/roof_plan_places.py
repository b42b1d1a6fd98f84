"""Where the roof plan may stand over its tables, at a larger scale than beside them.

A column of tables takes its width from a house that is wide and low, and leaves the sheet empty
above and below the plan.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from planset.drawing.fit import Margins
from planset.drawing.geometry import Box, Point
from planset.drawing.page import PLAN_SCALES

_LEAST_SIDE = 0.75  # beside the roof, for two lines of dimensions [paper in]
_ABOVE_TITLE = 0.49  # of the middle of the title's bubble below the plan [paper in]
_TITLE = (7.6, 0.9)  # width and height of title, scale bar and north arrow [paper in]
_BELOW = 0.15  # free between the plan and what stands below it [paper in]


@dataclass(frozen=True, slots=True)
class PlaceOverTables:
    """A place for the plan at the top of its sheet.

    Attributes:
        margins: Room around the roof [paper in].
        frame: What the plan covers [paper in].
        tight: Whether its sides have less room than was asked for.
    """

    margins: Margins
    frame: Box
    tight: bool

    @property
    def title_at(self) -> Point:
        """The middle of the bubble of the plan's title [paper in]."""
        return (self.frame.x0 + 0.45, self.frame.y0 - _ABOVE_TITLE)

    @property
    def taken(self) -> tuple[Box, Box]:
        """What plan and title leave no room for tables in [paper in]."""
        width, height = _TITLE
        x, y = self.frame.x0, self.frame.y0
        return (self.frame._replace(y0=y - _BELOW), Box(x, y - height, x + width, y))


def places_over_tables(
    extent: Box, wanted: Margins, area: Box, beside: float
) -> Iterator[PlaceOverTables]:
    """Places at larger scales than beside the tables, the largest first.

    At each scale the sides take what they ask for, then share what the sheet has.

    Args:
        extent: The roof [model in].
        wanted: Room that dimensions and names ask for [paper in].
        area: What the sheet has [paper in].
        beside: Factor of the scale beside the tables [model in per paper in].
    """
    for scale in PLAN_SCALES:
        if scale.factor >= beside:
            return
        height = extent.height / scale.factor + wanted.top + wanted.bottom
        free = area.width - extent.width / scale.factor
        if height > area.height - _TITLE[1] or free < 2 * _LEAST_SIDE:
            continue
        asked = wanted.left + wanted.right
        half = math.floor(free / 2 * 1e6) / 1e6  # so that the scale fits what it was found for
        for left, right in ((wanted.left, wanted.right), (half, half)):
            width = extent.width / scale.factor + left + right
            if left + right <= free:
                frame = Box(area.x0, area.y1 - height, area.x0 + width, area.y1)
                margins = replace(wanted, left=left, right=right)
                yield PlaceOverTables(margins, frame, tight=free < asked)
