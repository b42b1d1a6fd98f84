"""Straight ways to the roof edge from what the fire service comes to, and room around hatches.

A path leads square to an edge of the plane and touches what it serves [interpretation].
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from shapely import box

from planset.design.access.other.lanes import Axis, free_within, spans
from planset.design.layout import PlacedArray, PlacedObstruction
from planset.drawing.geometry import Box

Toward = Literal["front", "right", "back", "left"]


@dataclass(frozen=True, slots=True)
class StraightPath:
    """A straight way from something on the roof to its edge.

    Attributes:
        item: Where it starts.
        toward: Where it leads, facing the plane from its eave.
        strip: The way on the plane, of no width where there is none, (u, v) [in].
        width_in: Its clear width [in].
    """

    item: PlacedObstruction
    toward: Toward
    strip: Box
    width_in: float


@dataclass(frozen=True, slots=True)
class HatchAccess:
    """What is clear around a roof hatch.

    Attributes:
        path: A straight way from it to the edge.
        array: Id of the nearest array.
        clear_in: From the hatch to that array; 0 where it lies over the hatch [in].
    """

    path: StraightPath
    array: str
    clear_in: float


def hatch_access(
    item: PlacedObstruction,
    inside: Box,
    blocked: tuple[Box, ...],
    least_in: float,
    arrays: tuple[PlacedArray, ...],
) -> HatchAccess:
    """Measure around a hatch; arguments as of `straight_path`, and the arrays of its plane."""
    area = item.surface
    body = box(area.x0, area.y0, area.x1, area.y1)
    clear = {array.id: float(array.occupied.distance(body)) for array in arrays}
    nearest = min(clear, key=clear.__getitem__)
    path = straight_path(item, inside, blocked, least_in)
    return HatchAccess(path, nearest, clear[nearest])


def straight_path(
    item: PlacedObstruction, inside: Box, blocked: tuple[Box, ...], least_in: float
) -> StraightPath:
    """The shortest of the ways to the four sides that are wide enough, else the widest.

    Args:
        item: Where it starts.
        inside: The roof within its edges or parapets, (u, v) [in].
        blocked: Modules with their rails, and other obstructions that close a way [in].
        least_in: Least width of a way, and how far to each side of the item one may reach [in].
    """
    ways = [_way(item, inside, blocked, least_in, toward) for toward in _TOWARD]
    enough = [way for way in ways if way.width_in >= least_in]
    return min(enough, key=_length) if enough else max(ways, key=lambda way: way.width_in)


_TOWARD: tuple[Toward, ...] = ("front", "right", "back", "left")


def _length(way: StraightPath) -> float:
    return way.strip.height if way.toward in ("front", "back") else way.strip.width


def _way(
    item: PlacedObstruction,
    inside: Box,
    blocked: tuple[Box, ...],
    least_in: float,
    toward: Toward,
) -> StraightPath:
    at, runs_up = item.surface, toward in ("front", "back")
    low, high = (at.x0, at.x1) if runs_up else (at.y0, at.y1)
    least, most = (inside.x0, inside.x1) if runs_up else (inside.y0, inside.y1)
    window = (max(low - least_in, least), min(high + least_in, most))
    strip = _strip(at, inside, window, toward)
    axis: Axis = "up" if runs_up else "along"
    taken = spans((box for box in blocked if box.overlaps(strip)), axis)
    free = [(a, b) for a, b in free_within(window, taken) if a <= high and b >= low]
    a, b = max(free, key=lambda span: span[1] - span[0], default=(low, low))
    return StraightPath(item, toward, _strip(at, inside, (a, b), toward), b - a)


def _strip(at: Box, inside: Box, across: tuple[float, float], toward: Toward) -> Box:
    """From something to one side of the roof."""
    a, b = across
    match toward:
        case "front":
            return Box(a, inside.y0, b, at.y0)
        case "back":
            return Box(a, at.y1, b, inside.y1)
        case "left":
            return Box(inside.x0, a, at.x0, b)
        case "right":
            return Box(at.x1, a, inside.x1, b)
