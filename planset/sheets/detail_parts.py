"""Parts that more than one attachment detail draws: wood, tile, screws, breaks."""

from __future__ import annotations

from dataclasses import dataclass

from planset.catalog.attachment import HookAttachment
from planset.codes.nds.lag_screws import lag_dimensions, thread_length_in
from planset.design.buildup import BuildUp, HookOnTile, TileCourse
from planset.design.layout import PlacedArray
from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Block, Line, Polyline, Primitive

CUT = "S-DETL-MCUT"
OUTLINE = "S-DETL-OTLN"
BEYOND = "S-DETL-MBND"
HIDDEN = "S-DETL-HIDN"
PATTERN = "S-DETL-PATT"

_HEAD_HEIGHT_PER_DIAMETER = 11 / 16  # hex head of a lag screw, ASME B18.2.1 (from memory)


@dataclass(frozen=True, slots=True)
class DrawnSection:
    """A section and the points that notes and dimensions name.

    Attributes:
        block: Its drawing.
        extent: What it covers [model in].
        points: Named points [model in].
    """

    block: Block
    extent: Box
    points: dict[str, Point]


def rectangle(box: Box, layer: str) -> Polyline:
    """A closed rectangle."""
    return Polyline(box.corners, layer, closed=True)


def break_line(x: float, y0: float, y1: float) -> Polyline:
    """A long break: a straight line with one zigzag in its middle."""
    middle, jog = (y0 + y1) / 2, 0.35
    points: tuple[Point, ...] = (
        (x, y0),
        (x, middle - jog),
        (x - jog, middle - jog / 2),
        (x + jog, middle + jog / 2),
        (x, middle + jog),
        (x, y1),
    )
    return Polyline(points, BEYOND)


def framing_lumber(box: Box) -> list[Primitive]:
    """Wood cut across its grain: the outline and both diagonals."""
    a, b, c, d = box.corners
    return [rectangle(box, CUT), Line(a, c, PATTERN), Line(b, d, PATTERN)]


def lag_screw(
    x: float, bearing: float, length_in: float, diameter_in: float
) -> tuple[Primitive, ...]:
    """A lag screw driven straight down.

    Args:
        x: Its axis [in].
        bearing: Height of the surface its head lies on [in].
        length_in: Nominal length [in].
        diameter_in: Nominal diameter [in].
    """
    size = lag_dimensions(diameter_in)
    half, root = diameter_in / 2, size.root_in / 2
    flats = (size.head_across_flats_in or diameter_in * 1.6) / 2
    head = Box(x - flats, bearing, x + flats, bearing + diameter_in * _HEAD_HEIGHT_PER_DIAMETER)
    thread_top = bearing - (length_in - thread_length_in(length_in))
    tip_top = bearing - length_in + size.tip_in
    point = bearing - length_in
    made: list[Primitive] = [
        rectangle(head, OUTLINE),
        rectangle(Box(x - half, thread_top, x + half, bearing), OUTLINE),
        Polyline(
            ((x - root, thread_top), (x - root, tip_top), (x, point), (x + root, tip_top))
            + ((x + root, thread_top),),
            BEYOND,
        ),
    ]
    pitch = 0.22
    y = thread_top - pitch / 2
    while y > tip_top:
        made.append(Line((x - half, y - 0.03), (x + half, y + 0.03), BEYOND))
        y -= pitch
    return tuple(made)


def hook_of(array: PlacedArray) -> HookAttachment:
    """The hook of an array that has hooks.

    Raises:
        ValueError: It has other attachments.
    """
    hook = array.system.attachment
    if not isinstance(hook, HookAttachment):
        msg = f"array {array.id} is not held by hooks"
        raise ValueError(msg)
    return hook


def passing(build_up: BuildUp) -> tuple[TileCourse, HookOnTile]:
    """The courses of a build-up with hooks, and how these pass them.

    Raises:
        ValueError: It has no hooks.
    """
    if build_up.course is None or build_up.hook is None:
        msg = f"array {build_up.array} is not held by hooks in tile"
        raise ValueError(msg)
    return build_up.course, build_up.hook
