"""Loads and ratios of a whole job once more, plainly, from the published formulas alone.

Nothing of the program is used here, so that an error there has to be made twice to pass. Inches and
pounds; psf on loads. Sources: ASCE 7-16 and 7-22, 26.10, 29.4.4, 30.3, 7.3 to 7.6 and 2.4.1; NDS
2018, 3.3, 3.4, 12.1 to 12.4; AWC Technical Report 12; beam formulas of any handbook.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

Curve = tuple[float, float, float, float]
"""Area and GCp where a curve begins to fall, and where it ends."""

# D, least D, Lr, S, W down, W up, CD: ASCE 7-16, 2.4.1, and NDS Table 2.3.2
COMBINATIONS_16 = (
    (1, 0, 0, 0, 0, 0, 0.9),
    (1, 0, 1, 0, 0, 0, 1.25),
    (1, 0, 0, 1, 0, 0, 1.15),
    (1, 0, 0, 0, 0.6, 0, 1.6),
    (1, 0, 0.75, 0, 0.45, 0, 1.6),
    (1, 0, 0, 0.75, 0.45, 0, 1.6),
    (0, 0.6, 0, 0, 0, 0.6, 1.6),
)
# ASCE 7-22: the same with 0.7 S
COMBINATIONS_22 = tuple(
    (d, e, lr, 0.7 * s, wd, wu, cd) for d, e, lr, s, wd, wu, cd in COMBINATIONS_16
)


@dataclass(frozen=True)
class Lumber:
    """Rafters: thickness and depth, reference values with CF and Cr in Fb, spacing, supports."""

    thickness: float
    depth: float
    fb: float
    fv: float
    fc_perp: float
    e: float
    e_min: float
    spacing: float
    supports: tuple[float, ...]
    dead_psf: float


@dataclass(frozen=True)
class House:
    """What the arrays of a house share; snow on the horizontal projection."""

    rise_in_12: float
    design_psf: float  # velocity pressure with Kd
    down: tuple[Curve, ...]
    dead_psf: float
    least_dead_psf: float
    snow_on_modules: float
    snow_on_roof: float
    combinations: tuple[tuple[float, ...], ...]
    past: float  # rail end past the modules
    lateral: float  # Z of one screw

    @property
    def cos(self) -> float:
        return 12 / math.hypot(12, self.rise_in_12)

    @property
    def sin(self) -> float:
        return self.rise_in_12 / math.hypot(12, self.rise_in_12)


@dataclass(frozen=True)
class Field:
    """One array: its modules from left to right and low to high, its rails and hooks."""

    left: float
    right: float
    low: float
    high: float
    rails: tuple[float, ...]
    hooks: tuple[float, ...]
    zone: Callable[[float, float, float, float], str]
    gcp: Callable[[str, float], float]
    equalized: bool
    lumber: Lumber


@dataclass(frozen=True)
class Hook:
    """What one hook takes: normal, along and live of every combination, before continuity."""

    zone: str
    width: float
    length: float
    v: float
    factor: float
    normal: tuple[float, ...]
    along: tuple[float, ...]
    snow: float

    @property
    def uplift(self) -> float:
        return self.factor * max(0.0, *(-n for n in self.normal))

    @property
    def down(self) -> float:
        return self.factor * max(0.0, *self.normal)

    @property
    def slide(self) -> float:
        return self.factor * max(self.along)


def on_curve(area: float, curve: Curve) -> float:
    """GCp, straight over the logarithm of the area between the ends of a curve."""
    area1, gcp1, area2, gcp2 = curve
    if area <= area1:
        return gcp1
    if area >= area2:
        return gcp2
    return gcp1 + (gcp2 - gcp1) * math.log10(area / area1) / math.log10(area2 / area1)


def gamma_a(area: float) -> float:
    """Figure 29.4-8."""
    return 0.8 if area <= 10 else 0.4 if area >= 100 else 0.8 - 0.4 * math.log10(area / 10)


def strip(least: float, height: float) -> float:
    """Width a of the edge strips."""
    return max(min(0.1 * least, 0.4 * height), 0.04 * least, 36.0)


def every(first: float, step: float, low: float, high: float) -> tuple[float, ...]:
    """Places from the first on that lie from low to high."""
    places = (first + step * n for n in range(1000))
    return tuple(place for place in places if low - 1e-9 <= place <= high + 1e-9)


def halves(lines: tuple[float, ...], low: float, high: float) -> list[tuple[float, float]]:
    """Each line's share: half the way to its neighbors, all of the way to an end."""
    shares = []
    for n, line in enumerate(lines):
        start = low if n == 0 else (lines[n - 1] + line) / 2
        end = high if n == len(lines) - 1 else (line + lines[n + 1]) / 2
        shares.append((start, end))
    return shares


def hooks_of(house: House, field: Field) -> dict[tuple[int, int], Hook]:
    """Every hook, by the number of its rail and its number on it."""
    found = {}
    for i, (u0, u1) in enumerate(halves(field.rails, field.left, field.right)):
        for j, (v0, v1) in enumerate(halves(field.hooks, field.low, field.high)):
            zone = field.zone(u0, u1, v0 * house.cos, v1 * house.cos)
            area = (u1 - u0) * (v1 - v0) / 144
            equal = gamma_a(area) if field.equalized else 1.0
            up = max(-field.gcp(zone, area) * 1.5 * equal * house.design_psf, 16.0) * area
            plus = max(on_curve(area, curve) for curve in house.down)
            down = max(plus * equal * house.design_psf, 16.0) * area
            dead, least = house.dead_psf * area, house.least_dead_psf * area
            snow = house.snow_on_modules * area * house.cos  # vertical, on the projection
            normal, along = [], []
            for d, e, _, s, wd, wu, _ in house.combinations:
                vertical = d * dead + e * least + s * snow
                normal.append(vertical * house.cos + wd * down - wu * up)
                along.append(vertical * house.sin)
            factor = continuity(field, j)
            found[i, j] = Hook(
                zone, u1 - u0, v1 - v0, field.hooks[j], factor, tuple(normal), tuple(along), snow
            )
    return found


def continuity(field: Field, j: int) -> float:
    """Reaction of a rail on several hooks over the share of its length."""
    spans = len(field.hooks) - 1
    factor = {0: 1.0, 1: 1.0, 2: 1.25}.get(spans, 1.15)
    for end, beside, over in (
        (0, 1, field.hooks[0] - field.low),
        (spans, -2, field.high - field.hooks[-1]),
    ):
        if j == end and spans:
            span = abs(field.hooks[end] - field.hooks[beside])
            share = span / 2 + over
            factor = max(factor, (share + over**2 / (2 * span)) / share)
    return factor


def lag_ratio(house: House, hook: Hook, withdrawal: float, penetration_share: float) -> float:
    """Two 5/16 in screws, W pt of each [lb] without CD, at Ct 0.8."""
    worst = 0.0
    for n, (*_, cd) in enumerate(house.combinations):
        pull, push = max(-hook.normal[n], 0.0) * hook.factor, hook.along[n] * hook.factor
        root = 30_000 * math.pi * 0.227**2 / 4
        w = 2 * min(withdrawal * cd * 0.8, root)
        z = 2 * house.lateral * cd * 0.8 * penetration_share
        resultant = math.hypot(pull, push)
        cos2, sin2 = (push / resultant) ** 2, (pull / resultant) ** 2
        allowed = w * z / (w * cos2 + z * sin2)
        worst = max(worst, resultant / allowed, pull / w, push / z)
    return worst


def lateral_of_5_16(gravity: float, plate: float, plate_psi: float, gap: float) -> float:
    """Least Z of AWC Technical Report 12, Table 1-1 [from memory], 8 D deep, along the grain."""
    root, fyb, rd = 0.227, 60_000.0, 10 * 0.227 + 0.5
    qs, qm = plate_psi * root, 11_200 * gravity * root
    ls, lm, hinge = plate, 8 * 0.3125, fyb * root**3 / 6

    def root_of(a: float, b: float, c: float) -> float:
        return (-b + math.sqrt(b * b - 4 * a * c)) / (2 * a)

    modes = [
        qm * lm,
        qs * ls,
        root_of(1 / (4 * qs) + 1 / (4 * qm), ls / 2 + gap + lm / 2, -(qs * ls**2 + qm * lm**2) / 4),
        root_of(1 / (2 * qs) + 1 / (4 * qm), gap + lm / 2, -hinge - qm * lm**2 / 4),
        root_of(1 / (4 * qs) + 1 / (2 * qm), ls / 2 + gap, -qs * ls**2 / 4 - hinge),
        root_of(1 / (2 * qs) + 1 / (2 * qm), gap, -2 * hinge),
    ]
    return min(modes) / rd


def rail_ratio(house: House, field: Field, hooks: list[Hook], side: int) -> float:
    """Rail of I 0.46 in4 and 520 lb ft under its worst hook's load, span by span, L/180."""
    extreme = [min(h.normal) if side < 0 else max(h.normal) for h in hooks]
    load = max(max(side * n, 0.0) / h.length for n, h in zip(extreme, hooks, strict=True))
    span = max(b - a for a, b in pairwise(field.hooks))
    over = max(field.hooks[0] - field.low + house.past, field.high + house.past - field.hooks[-1])
    moment = max(load * span**2 / 8, load * over**2 / 2)
    ei = 10.1e6 * 0.46
    middle = 5 * load * span**4 / 384 / ei / (span / 180)
    # the end turns with the simple span beside it: w a^2/2 at its support
    tip = (load * over**4 / 8 + load * over**2 / 2 * span / 3 * over) / ei / (2 * over / 180)
    return max(moment / (520 * 12), middle, tip)


Ratios = dict[str, float]
"""Of bending, shear, deflection and bearing."""


def rafter_ratios(
    house: House, field: Field, hooks: dict[tuple[int, int], Hook]
) -> Iterator[tuple[int, float, Ratios]]:
    """Number of the rail over it, lower support, and the greatest ratios of each rafter span."""
    lumber = field.lumber
    for i, (u0, u1) in enumerate(halves(field.rails, field.left, field.right)):
        line = field.rails[i]
        seen = min(u1, line + lumber.spacing / 2) - max(u0, line - lumber.spacing / 2)
        bare = 1 - min(seen / lumber.spacing, 1)
        own = [hooks[i, j] for j in range(len(field.hooks))]
        for low, high in pairwise(lumber.supports):
            found: Ratios = {}
            for name, ratio in _span_ratios(house, field, own, low, high, bare):
                found[name] = max(found.get(name, 0.0), ratio)
            yield i, low, found


def _span_ratios(
    house: House, field: Field, own: list[Hook], low: float, high: float, bare: float
) -> Iterator[tuple[str, float]]:
    lumber = field.lumber
    per = lumber.spacing / 144
    dead = lumber.dead_psf / house.cos * per
    start, end = field.low * house.cos - low, field.high * house.cos - low
    for n, (d, e, lr, s, wd, _, cd) in enumerate(house.combinations):
        open_air = (lr * 20 + s * house.snow_on_roof) * per
        if open_air and not wd:  # as if there were no array
            whole = _spread(0, high - low, open_air)
            yield from _checks(lumber, high - low, d * dead + open_air, [], whole, cd)
        live = _spread(0, min(start, high - low), open_air) + _spread(
            max(end, 0), high - low, open_air
        )
        live += _spread(max(start, 0), min(end, high - low), open_air * bare)
        points = [
            (h.v * house.cos - low, h.normal[n] * h.factor / house.cos, s * h.snow * h.factor)
            for h in own
            if low < h.v * house.cos < high
        ]
        yield from _checks(
            lumber,
            high - low,
            (d + e) * dead,
            live + [(x, p) for x, p, _ in points],
            live + [(x, p) for x, _, p in points],
            cd,
        )


def _spread(start: float, end: float, load: float) -> list[tuple[float, float]]:
    """A load on a part of a span as forces half an inch apart, none where it has no length."""
    if end <= start or not load:
        return []
    count = math.ceil((end - start) * 2)
    step = (end - start) / count
    return [(start + (k + 0.5) * step, load * step) for k in range(count)]


def _checks(
    lumber: Lumber,
    span: float,
    uniform: float,
    total: list[tuple[float, float]],
    live: list[tuple[float, float]],
    cd: float,
) -> Iterator[tuple[str, float]]:
    modulus, inertia = (
        lumber.thickness * lumber.depth**2 / 6,
        lumber.thickness * lumber.depth**3 / 12,
    )
    fb = lumber.fb * cd
    _, moments = _bent(span, uniform, total)
    yield "bending", moments.max() / modulus / fb
    yield "bending", -moments.min() / modulus / (fb * _stability(lumber, span, fb))
    at = lumber.depth
    ends = [uniform * (span / 2 - at)] * 2
    for x, p in total:
        counted = p * min(1, x / at, (span - x) / at)
        ends[0] += counted * (span - x) / span
        ends[1] += counted * x / span
    shear = 1.5 * max(abs(v) for v in ends) / (lumber.thickness * lumber.depth)
    yield "shear", shear / (lumber.fv * cd)
    left = uniform * span / 2 + sum(p * (span - x) / span for x, p in total)
    right = uniform * span + sum(p for _, p in total) - left
    yield "bearing", max(left, right, 0) / (lumber.thickness * 1.5) / lumber.fc_perp
    places, bent = _bent(span, 0.0, live)
    step = places[1]
    turn = np.concatenate(([0.0], np.cumsum((bent[1:] + bent[:-1]) / 2) * step))
    fall = np.concatenate(([0.0], np.cumsum((turn[1:] + turn[:-1]) / 2) * step))
    sag = np.abs(fall - fall[-1] * places / span).max() / (lumber.e * inertia)
    yield "deflection", sag / (span / 180)  # no ceiling


def _bent(
    span: float, uniform: float, points: list[tuple[float, float]]
) -> tuple[np.ndarray, np.ndarray]:
    x = np.linspace(0, span, 2001)
    moment = uniform * x * (span - x) / 2
    for a, p in points:
        moment += np.where(x < a, p * (span - a) * x / span, p * a * (span - x) / span)
    return x, moment


def _stability(lumber: Lumber, span: float, fb_star: float) -> float:
    """CL with the lower edge free over the whole span, NDS 3.3.3."""
    ratio = span / lumber.depth
    length = (
        2.06 * span
        if ratio < 7
        else 1.63 * span + 3 * lumber.depth
        if ratio <= 14.3
        else 1.84 * span
    )
    slender = length * lumber.depth / lumber.thickness**2
    quotient = 1.2 * lumber.e_min / slender / fb_star
    half = (1 + quotient) / 1.9
    return half - math.sqrt(half**2 - quotient / 0.95)
