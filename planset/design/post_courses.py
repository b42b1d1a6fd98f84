"""Where posts stand among the courses of tile: how far their flashings run under the next one.

The flashing lies on the tile that the post comes out through and is lapped by the course above
it. A post that would cut the nose of a course comes out through that course. Distances are on
the surface, from the eave's edge up the slope [in].
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.catalog.attachment import StandoffAttachment
from planset.design.layout import PlacedArray
from planset.design.racking import Racking
from planset.design.tile_courses import Laps
from planset.job.by_plane import on_plane
from planset.job.covering import CurvedTile

if TYPE_CHECKING:
    from planset.job.load import Inputs

BATTEN_WIDTH_IN = 1.5
"""A 1x2 batten laid flat, its upper edge at the head of its tile (common practice, no source)."""

_NOISE_IN = 1e-9


@dataclass(frozen=True, slots=True)
class PostPlace:
    """How one post stands among the courses.

    Attributes:
        attachment: Its tag.
        below_in: From its middle up the slope to the nose of the course above [in].
        lap_in: How far its flashing runs under that course, negative where it ends short [in].
        on_batten_in: How much of its plate, along the rafter, would lie on a batten [in].
    """

    attachment: str
    below_in: float
    lap_in: float
    on_batten_in: float


@dataclass(frozen=True, slots=True)
class PostFit:
    """How the posts of an array stand among the courses.

    Attributes:
        array: Id of the array.
        post: What it is held by.
        laps: How far below a nose posts may stand that their flashings are lapped.
        clear: The same with their plates clear of battens.
        least_lap_in: Least a flashing must run under the course above [in].
        battens: Whether the tile lies on battens.
        posts: Its posts in order.
    """

    array: str
    post: StandoffAttachment
    laps: Laps
    clear: Laps
    least_lap_in: float
    battens: bool
    posts: tuple[PostPlace, ...]


def post_fit(inputs: Inputs, array: PlacedArray, rack: Racking) -> PostFit | None:
    """How the posts of an array stand among the courses of its plane.

    Args:
        inputs: The job.
        array: The array.
        rack: Its rails and attachments.

    Returns:
        None with other attachments, under another covering, and where the courses of the plane
        were not surveyed.
    """
    post, tile = array.system.attachment, inputs.job.roof.covering
    if not isinstance(post, StandoffAttachment) or not isinstance(tile, CurvedTile):
        return None
    first = on_plane(tile.first_course or {}, array.plane.id)
    if first is None:
        return None
    head_lap = tile.length - tile.exposure
    least_lap = head_lap if post.flashing_lap is None else post.flashing_lap
    radius, half_plate = post.post_diameter / 2, post.plate_length / 2
    most = min(post.flashing_above - least_lap, tile.exposure)
    laps = Laps(first, tile.exposure, radius, most)
    off_lower = tile.exposure - head_lap - half_plate
    off_upper = half_plate - (head_lap - BATTEN_WIDTH_IN)
    clear = Laps(first, tile.exposure, max(radius, off_upper), min(most, off_lower))
    posts = tuple(_placed(post, tile, first, item.id, item.v_in) for item in rack.attachments)
    return PostFit(
        array=array.id,
        post=post,
        laps=laps,
        clear=clear if tile.batten else laps,
        least_lap_in=least_lap,
        battens=tile.batten > 0,
        posts=posts,
    )


def _placed(
    post: StandoffAttachment, tile: CurvedTile, first_in: float, tag: str, v_in: float
) -> PostPlace:
    passed = (v_in + post.post_diameter / 2 - first_in) / tile.exposure
    nose = first_in + max(math.ceil(passed - _NOISE_IN), 0) * tile.exposure
    below = nose - v_in
    on_batten = _on_batten(post, tile, below) if tile.batten else 0.0
    return PostPlace(tag, below, post.flashing_above - below, on_batten)


def _on_batten(post: StandoffAttachment, tile: CurvedTile, below_in: float) -> float:
    """The most that the plate shares with one of the battens it may meet [in]."""
    low = tile.exposure - below_in - post.plate_length / 2
    high = low + post.plate_length
    upper_edge = tile.length - tile.exposure
    edges = [upper_edge + n * tile.exposure for n in (-1, 0, 1)]
    return max(0.0, *(min(high, edge) - max(low, edge - BATTEN_WIDTH_IN) for edge in edges))
