"""A slow and simple count of modules, and random planes to compare with.

The count shares nothing with the packing: per row, what of the blocked area reaches into the
strip the row would take is projected on the eave, and offsets are tried one by one.
"""

import math
import random
from dataclasses import dataclass

import numpy as np
import shapely

from planset.drawing.geometry import Point

TOUCH = 1e-6


@dataclass(frozen=True)
class Case:
    """A plane to pack, in the order of `pack`'s arguments."""

    outline: list[Point]
    keep_outs: list[list[Point]]
    module: tuple[float, float]
    gap: tuple[float, float]
    past: float


def blocked_area(case: Case) -> shapely.Geometry:
    """All that a module must not cover, well around the outline."""
    roof = shapely.Polygon(case.outline)
    around = shapely.box(*roof.bounds).buffer(500, join_style="mitre")
    taken = shapely.union_all([shapely.Polygon(corners) for corners in case.keep_outs])
    return around.difference(roof.difference(taken))


def closed_to_corners(
    blocked: shapely.Geometry, low: float, high: float, across: float
) -> np.ndarray:
    """From and to of the places along the eave where a module in a strip would be blocked."""
    west, _, east, _ = blocked.bounds
    strip = shapely.box(west, low + TOUCH, east, high - TOUCH)
    parts = [p for p in shapely.get_parts(strip.intersection(blocked)) if p.area > 0]
    reach = np.array([(p.bounds[0], p.bounds[2]) for p in parts]).reshape(-1, 2)
    return reach + [TOUCH - across, -TOUCH]


def sweep(case: Case, step: float) -> tuple[int, int]:
    """Most modules on a grid at any multiple of a step, and where the corner is a sixteenth too."""
    blocked = blocked_area(case)
    west, south, east, north = shapely.Polygon(case.outline).bounds
    across, up = case.module[0] + case.gap[0], case.module[1] + case.gap[1]
    offsets = np.arange(math.floor(west / step), math.ceil((west + across) / step)) * step
    columns = np.arange(math.ceil((east - west) / across) + 1)
    u = offsets[:, None] + columns * across
    best = stated = 0
    for start in np.arange(math.floor(south / step), math.ceil((south + up) / step)) * step:
        rows = start + np.arange(math.ceil((north - south) / up) + 1) * up
        free = np.ones((len(offsets), len(rows), len(columns)), bool)
        for row, v in enumerate(rows):
            low, high = v - case.past, v + case.module[1] + case.past
            closed = closed_to_corners(blocked, low, high, case.module[0])
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


def random_plane(dice: random.Random) -> Case:
    """A hip, a triangle, a plane cut by a valley, or another, with up to three obstructions."""
    width, height = dice.uniform(180, 520), dice.uniform(120, 330)
    a, b = dice.uniform(0.05, 0.45) * width, dice.uniform(0.55, 0.95) * width
    notch = dice.uniform(0.3, 0.8) * height
    outline = dice.choice([
        [(0, 0), (width, 0), (width, height), (0, height)],
        [(0, 0), (width, 0), (b, height), (a, height)],
        [(0, 0), (width, 0), (dice.uniform(-0.2, 1.2) * width, height)],
        [(a, 0), (b, 0), (width, height), (0, height)],
        [(0, 0), (a, 0), ((a + b) / 2, notch), (b, 0), (width, 0), (width, height), (0, height)],
        [(0, 0), (width, 0), (width, notch), (b, notch), (b, height), (0, height)],
    ])  # fmt: skip
    keep_outs = [ring(dice, width, height) for _ in range(dice.randrange(4))]
    any_size = (dice.uniform(35, 80), dice.uniform(35, 80))
    module = dice.choice([(41.0, 66.0), (66.0, 41.0), (44.65, 67.83), any_size])
    outline = [(float(u), float(v)) for u, v in outline]
    gap, past = dice.choice([(0.5, 0.5), (1.0, 0.375)]), dice.choice([0.0, 1.0, 2.5])
    return Case(outline, keep_outs, module, gap, past)


def ring(dice: random.Random, width: float, height: float) -> list[Point]:
    corners, radius = dice.choice([4, 8, 24]), dice.uniform(4, 40)
    u, v = dice.uniform(0, width), dice.uniform(0, height)
    angles = [math.tau * (n + 0.5) / corners for n in range(corners)]
    return [(u + radius * math.cos(t), v + radius * math.sin(t)) for t in angles]
