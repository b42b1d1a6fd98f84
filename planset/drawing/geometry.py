"""Points, boxes and placements shared by everything that is drawn."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

Point = tuple[float, float]


class Box(NamedTuple):
    """An axis-parallel rectangle; a named tuple, since the search for places makes so many.

    Attributes:
        x0: Left edge [in].
        y0: Lower edge [in].
        x1: Right edge [in].
        y1: Upper edge [in].
    """

    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def width(self) -> float:
        """Horizontal size [in]."""
        return self.x1 - self.x0

    @property
    def height(self) -> float:
        """Vertical size [in]."""
        return self.y1 - self.y0

    @property
    def center(self) -> Point:
        """Middle of the box [in]."""
        return ((self.x0 + self.x1) / 2, (self.y0 + self.y1) / 2)

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """The four corners, counterclockwise from the lower left."""
        return ((self.x0, self.y0), (self.x1, self.y0), (self.x1, self.y1), (self.x0, self.y1))

    def grown(self, by: float) -> Box:
        """The box with every edge moved outward by `by` inches (inward when negative)."""
        return Box(self.x0 - by, self.y0 - by, self.x1 + by, self.y1 + by)

    def moved(self, dx: float, dy: float) -> Box:
        """The box shifted by dx and dy inches."""
        return Box(self.x0 + dx, self.y0 + dy, self.x1 + dx, self.y1 + dy)

    def overlaps(self, other: Box) -> bool:
        """Whether the interiors of the two boxes share any point."""
        return (
            self.x0 < other.x1 and other.x0 < self.x1 and self.y0 < other.y1 and other.y0 < self.y1
        )

    def contains(self, other: Box, tolerance: float = 1e-6) -> bool:
        """Whether `other` lies inside this box, edges included."""
        return (
            other.x0 >= self.x0 - tolerance
            and other.y0 >= self.y0 - tolerance
            and other.x1 <= self.x1 + tolerance
            and other.y1 <= self.y1 + tolerance
        )

    def holds(self, point: Point, tolerance: float = 1e-6) -> bool:
        """Whether a point lies inside this box, edges included."""
        x, y = point
        return (
            self.x0 - tolerance <= x <= self.x1 + tolerance
            and self.y0 - tolerance <= y <= self.y1 + tolerance
        )

    def shared(self, other: Box) -> Box:
        """What two boxes share; turned inside out when they share nothing."""
        return Box(
            max(self.x0, other.x0),
            max(self.y0, other.y0),
            min(self.x1, other.x1),
            min(self.y1, other.y1),
        )


def box_around(points: Iterable[Point]) -> Box:
    """The smallest box that holds the points.

    Raises:
        ValueError: No point was given.
    """
    listed = list(points)
    if not listed:
        msg = "a box needs at least one point"
        raise ValueError(msg)
    xs = [x for x, _ in listed]
    ys = [y for _, y in listed]
    return Box(min(xs), min(ys), max(xs), max(ys))


def united(boxes: Iterable[Box]) -> Box:
    """The smallest box that holds all the boxes.

    Raises:
        ValueError: No box was given.
    """
    listed = list(boxes)
    if len(listed) == 1:
        return listed[0]
    return box_around(corner for box in listed for corner in ((box.x0, box.y0), (box.x1, box.y1)))


@dataclass(frozen=True, slots=True)
class Placement:
    """Where one coordinate system stands in another: scaled, then turned, then moved.

    Attributes:
        at: Where the origin lands [in].
        rotation_deg: Counterclockwise turn [deg].
        scale: Uniform factor, unitless.
    """

    at: Point = (0.0, 0.0)
    rotation_deg: float = 0.0
    scale: float = 1.0

    def apply(self, point: Point) -> Point:
        """The point of the inner system, in the outer one."""
        x, y = point[0] * self.scale, point[1] * self.scale
        if self.rotation_deg:
            cos, sin = _turn(self.rotation_deg)
            x, y = x * cos - y * sin, x * sin + y * cos
        return (x + self.at[0], y + self.at[1])

    def apply_all(self, points: Iterable[Point]) -> tuple[Point, ...]:
        """What `apply` makes of each point."""
        scale, (left, foot) = self.scale, self.at
        if not self.rotation_deg:
            return tuple([(x * scale + left, y * scale + foot) for x, y in points])
        cos, sin = _turn(self.rotation_deg)
        scaled = [(x * scale, y * scale) for x, y in points]
        return tuple([(x * cos - y * sin + left, x * sin + y * cos + foot) for x, y in scaled])

    def within(self, outer: Placement) -> Placement:
        """This placement as seen from the system that `outer` stands in."""
        return Placement(
            outer.apply(self.at),
            self.rotation_deg + outer.rotation_deg,
            self.scale * outer.scale,
        )


@lru_cache(maxsize=256)  # all points of a thing are turned alike
def _turn(rotation_deg: float) -> tuple[float, float]:
    """Cosine and sine."""
    angle = math.radians(rotation_deg)
    return math.cos(angle), math.sin(angle)


def distance(a: Point, b: Point) -> float:
    """Distance between two points [in]."""
    return math.hypot(b[0] - a[0], b[1] - a[1])


def direction_deg(a: Point, b: Point) -> float:
    """Direction from a to b, counterclockwise from the x axis [deg]."""
    return math.degrees(math.atan2(b[1] - a[1], b[0] - a[0]))


def readable(a: Point, b: Point) -> tuple[Point, Point]:
    """Both points in the order in which words along them are read from the bottom or the right."""
    angle = direction_deg(a, b)
    return (b, a) if angle > 90 + 1e-9 or angle <= -90 + 1e-9 else (a, b)


def toward(a: Point, b: Point, length: float) -> Point:
    """The point `length` inches from a in the direction of b."""
    whole = distance(a, b)
    if whole == 0:
        return a
    return (a[0] + (b[0] - a[0]) * length / whole, a[1] + (b[1] - a[1]) * length / whole)


def offset_left(a: Point, b: Point, by: float) -> Point:
    """The vector of length `by` that points left of the direction a to b."""
    whole = distance(a, b)
    return (-(b[1] - a[1]) * by / whole, (b[0] - a[0]) * by / whole)
