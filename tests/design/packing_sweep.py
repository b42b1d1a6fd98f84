"""A slow and simple count of modules, and random planes to compare with.

The count shares nothing with the packing: per row, what of the blocked area reaches into the
strip the row would take is projected on the eave, and offsets are tried one by one.
"""

import math
import random
from collections.abc import Sequence

import numpy as np
import shapely

from planset.drawing.geometry import Point

TOUCH = 1e-6


def blocked_area(outline: Sequence[Point], keep_outs: Sequence[Sequence[Point]]) -> shapely.Geometry:
    """All that a module must not cover, well around the outline."""
    roof = shapely.Polygon(outline)
    around = shapely.box(*roof.bounds).buffer(500, join_style="mitre")
    taken = shapely.union_all([shapely.Polygon(corners) for corners in keep_outs])
    return around.difference(roof.difference(taken))


def closed_to_corners(blocked: shapely.Geometry, low: float, high: float, across: float) -> np.ndarray:
    """From and to of the places along the eave where a module in a strip would be blocked."""
    west, _, east, _ = blocked.bounds
    strip = shapely.box(west, low + TOUCH, east, high - TOUCH)
    parts = [p for p in shapely.get_parts(strip.intersection(blocked)) if p.area > 0]
    reach = np.array([(p.bounds[0], p.bounds[2]) for p in parts]).reshape(-1, 2)
    return reach + [TOUCH - across, -TOUCH]


def sweep(
    outline: Sequence[Point],
    keep_outs: Sequence[Sequence[Point]],
    module: tuple[float, float],
    gap: tuple[float, float],
    past: float,
    step: float,
) -> tuple[int, int]:
    """Most modules on a grid at any multiple of a step, and where the corner is a sixteenth too."""
    blocked = blocked_area(outline, keep_outs)
    west, south, east, north = shapely.Polygon(outline).bounds
    across, up = module[0] + gap[0], module[1] + gap[1]
    offsets = np.arange(math.floor(west / step), math.ceil((west + across) / step)) * step
    columns = np.arange(math.ceil((east - west) / across) + 1)
    u = offsets[:, None] + columns * across
    best = stated = 0
    for start in np.arange(math.floor(south / step), math.ceil((south + up) / step)) * step:
        rows = start + np.arange(math.ceil((north - south) / up) + 1) * up
        free = np.ones((len(offsets), len(rows), len(columns)), bool)
        for row, v in enumerate(rows):
            closed = closed_to_corners(blocked, v - past, v + module[1] + past, module[0])
            hit = (u[:, :, None] > closed[:, 0]) & (u[:, :, None] < closed[:, 1])
            free[:, row] = ~hit.any(axis=2)
        counts = free.sum(axis=(1, 2))
        corner_u = offsets + free.any(axis=1).argmax(axis=1) * across
        corner_v = rows[free.any(axis=2).argmax(axis=1)]
        good = whole_sixteenths(corner_u) & whole_sixteenths(corner_v)
        best, stated = max(best, counts.max()), max(stated, counts[good].max(initial=0))
    return int(best), int(stated)


def whole_sixteenths(lengths: np.ndarray) -> np.ndarray:
    return np.abs(lengths * 16 - np.round(lengths * 16)) < 1e-6


def random_plane(seed: int) -> tuple[list[Point], list[list[Point]], tuple[float, float]]:
    """An outline, keep-outs and a module: a hip, a triangle, a plane cut by a valley, or any."""
    dice = random.Random(seed)
    width, height = dice.uniform(180, 520), dice.uniform(120, 330)
    a, b = sorted(dice.uniform(0, width) for _ in range(2))
    notch = dice.uniform(0.3, 0.8) * height
    outline = dice.choice([
        [(0, 0), (width, 0), (width, height), (0, height)],
        [(0, 0), (width, 0), (b, height), (a, height)],
        [(0, 0), (width, 0), (a, height)],
        [(a, 0), (b, 0), (width, height), (0, height)],
        [(0, 0), (a, 0), ((a + b) / 2, notch), (b, 0), (width, 0), (width, height), (0, height)],
        [(0, 0), (width, 0), (width, notch), (b, notch), (b, height), (0, height)],
    ])  # fmt: skip
    keep_outs = [ring(dice, width, height) for _ in range(dice.randrange(4))]
    module = dice.choice([(41.0, 66.0), (66.0, 41.0), (44.65, 67.83), (dice.uniform(35, 80), dice.uniform(35, 80))])
    return [(float(u), float(v)) for u, v in outline], keep_outs, module


def ring(dice: random.Random, width: float, height: float) -> list[Point]:
    corners, radius = dice.choice([4, 8, 24]), dice.uniform(4, 40)
    u, v = dice.uniform(0, width), dice.uniform(0, height)
    angles = [math.tau * (n + 0.5) / corners for n in range(corners)]
    return [(u + radius * math.cos(t), v + radius * math.sin(t)) for t in angles]
