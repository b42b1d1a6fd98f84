"""Loads and ratios of a whole job once more, plainly, from the published formulas alone.

Nothing of the program is used here, so that an error there has to be made twice to pass. Inches and
pounds; psf on loads. Sources: ASCE 7-16 and 7-22, 26.10, 29.4.4, 30.3, 7.3 to 7.6 and 2.4.1; NDS
2018, 3.3, 3.4, 12.1 to 12.4; AWC Technical Report 12; beam formulas of any handbook.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
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
    """Reaction of a rail on several hooks over the share of its length.

    At least 1.25 on two spans and 1.15 on more; never less than the whole beam's own reaction.
    """
    spans = len(field.hooks) - 1
    factor = {0: 1.0, 1: 1.0, 2: 1.25}.get(spans, 1.15)
    if not spans:
        return factor
    over = field.hooks[0] - field.low, field.high - field.hooks[-1]
    lengths = [b - a for a, b in pairwise(field.hooks)]
    shears = through(lengths, [(1.0, [])] * spans, (over[0] ** 2 / 2, over[1] ** 2 / 2))
    start, end = halves(field.hooks, field.low, field.high)[j]
    reaction = over[0] if j == 0 else shears[j - 1][1]
    reaction += over[1] if j == spans else shears[j][0]
    factor = max(factor, reaction / (end - start))
    if j in (0, spans):  # its end as that of a simple span
        span, beyond = (lengths[0], over[0]) if j == 0 else (lengths[-1], over[1])
        share = span / 2 + beyond
        factor = max(factor, (share + beyond**2 / (2 * span)) / share)
    return factor


Placed = list[tuple[float, float]]
"""Forces with their places."""


def alone(length: float, uniform: float, points: Placed) -> tuple[float, float]:
    """Both reactions of a simple beam."""
    right = uniform * length / 2 + sum(p * x / length for x, p in points)
    return uniform * length + sum(p for _, p in points) - right, right


def through(
    lengths: list[float], loads: list[tuple[float, Placed]], hogging: tuple[float, float]
) -> list[tuple[float, float]]:
    """What supports give to both ends of each span of one beam, by slope deflection.

    EI is 1; end moments are clockwise, and `hogging` are those of cantilevers at the two ends.
    """
    count = len(lengths) + 1
    stiffness, known = np.zeros((count, count)), np.zeros(count)
    fixed = []
    for k, (length, (uniform, points)) in enumerate(zip(lengths, loads, strict=True)):
        left = -uniform * length**2 / 12
        right = -left
        for x, p in points:
            left -= p * x * (length - x) ** 2 / length**2
            right += p * x**2 * (length - x) / length**2
        fixed.append((left, right))
        stiffness[k, k] += 4 / length
        stiffness[k + 1, k + 1] += 4 / length
        stiffness[k, k + 1] += 2 / length
        stiffness[k + 1, k] += 2 / length
        known[k] -= left
        known[k + 1] -= right
    known[0] -= hogging[0]
    known[-1] += hogging[1]
    turn = np.linalg.solve(stiffness, known)
    found = []
    for k, (length, load) in enumerate(zip(lengths, loads, strict=True)):
        moments = sum(fixed[k]) + 6 * (turn[k] + turn[k + 1]) / length
        left, right = alone(length, *load)
        found.append((left - moments / length, right + moments / length))
    return found


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
        spans = list(pairwise(lumber.supports))
        by_span = [list(_cases(house, field, own, low, high, bare)) for low, high in spans]
        found: list[Ratios] = [{} for _ in spans]
        for cases in zip(*by_span, strict=True):
            ends = _ends(lumber, cases)
            for of_span, (low, high), case, end in zip(found, spans, cases, ends, strict=True):
                for name, ratio in _checks(lumber, high - low, case, end):
                    of_span[name] = max(of_span.get(name, 0.0), ratio)
        for (low, _), of_span in zip(spans, found, strict=True):
            yield i, low, of_span


@dataclass(frozen=True)
class SpanCase:
    """A combination on one span: uniform load, all forces, live ones, what lies on the tail, CD."""

    uniform: float
    total: Placed
    live: Placed
    tail: float
    cd: float


def _cases(
    house: House, field: Field, own: list[Hook], low: float, high: float, bare: float
) -> Iterator[SpanCase]:
    lumber = field.lumber
    per = lumber.spacing / 144
    dead = lumber.dead_psf / house.cos * per
    start, end = field.low * house.cos - low, field.high * house.cos - low
    for n, (d, e, lr, s, wd, _, cd) in enumerate(house.combinations):
        open_air = (lr * 20 + s * house.snow_on_roof) * per
        if open_air and not wd:  # as if there were no array
            whole = _spread(0, high - low, open_air)
            uniform = d * dead + open_air
            yield SpanCase(uniform, [], whole, uniform, cd)
        live = _spread(0, min(start, high - low), open_air) + _spread(
            max(end, 0), high - low, open_air
        )
        live += _spread(max(start, 0), min(end, high - low), open_air * bare)
        points = [
            (h.v * house.cos - low, h.normal[n] * h.factor / house.cos, s * h.snow * h.factor)
            for h in own
            if low < h.v * house.cos < high
        ]
        yield SpanCase(
            (d + e) * dead,
            live + [(x, p) for x, p, _ in points],
            live + [(x, p) for x, _, p in points],
            (d + e) * dead + open_air,
            cd,
        )


@dataclass(frozen=True)
class Ends:
    """Pressures on the two supports of a span, and both shears, each way to take the rafter."""

    pressed: list[float]
    shears: list[tuple[float, float]]


def _ends(lumber: Lumber, cases: tuple[SpanCase, ...]) -> list[Ends]:
    """Simple spans, and one beam, with the tail below the lowest support and without."""
    lengths = [b - a for a, b in pairwise(lumber.supports)]
    loads = [(case.uniform, case.total) for case in cases]
    tail = cases[0].tail * lumber.supports[0]
    moment = tail * lumber.supports[0] / 2
    simple = [alone(length, *load) for length, load in zip(lengths, loads, strict=True)]
    tipped = [(simple[0][0] + moment / lengths[0], simple[0][1] - moment / lengths[0])]
    ways = [
        (simple, 0.0),
        ([*tipped, *simple[1:]], tail),
        (through(lengths, loads, (0, 0)), 0.0),
        (through(lengths, loads, (moment, 0)), tail),
    ]
    found = []
    for k in range(len(lengths)):
        pressed = []
        for way, below in ways:
            pressed.append(way[k][0] + (way[k - 1][1] if k else below))
            pressed.append(way[k][1] + (way[k + 1][0] if k + 1 < len(way) else 0))
        found.append(Ends(pressed, [way[k] for way, _ in ways]))
    return found


def _spread(start: float, end: float, load: float) -> list[tuple[float, float]]:
    """A load on a part of a span as forces half an inch apart, none where it has no length."""
    if end <= start or not load:
        return []
    count = math.ceil((end - start) * 2)
    step = (end - start) / count
    return [(start + (k + 0.5) * step, load * step) for k in range(count)]


def _checks(
    lumber: Lumber, span: float, case: SpanCase, at_ends: Ends
) -> Iterator[tuple[str, float]]:
    uniform, total, live, cd = case.uniform, case.total, case.live, case.cd
    lumber = _hot(lumber)
    modulus, inertia = (
        lumber.thickness * lumber.depth**2 / 6,
        lumber.thickness * lumber.depth**3 / 12,
    )
    fb = lumber.fb * cd
    _, moments = _bent(span, uniform, total)
    yield "bending", moments.max() / modulus / fb
    yield "bending", -moments.min() / modulus / (fb * _stability(lumber, span, fb))
    at = lumber.depth
    # what lies within d of an end is taken off the shear there, a force at x but for x / d
    near = [uniform * at + sum(p * max(0, 1 - x / at) * (span - x) / span for x, p in total)]
    near.append(uniform * at + sum(p * max(0, 1 - (span - x) / at) * x / span for x, p in total))
    far = [sum(p * max(0, 1 - (span - x) / at) * (span - x) / span for x, p in total)]
    far.append(sum(p * max(0, 1 - x / at) * x / span for x, p in total))
    counted = [
        abs(end - beside - beyond)
        for ends in at_ends.shears
        for end, beside, beyond in zip(ends, near, far, strict=True)
    ]
    shear = 1.5 * max(counted) / (lumber.thickness * lumber.depth)
    yield "shear", shear / (lumber.fv * cd)
    yield "bearing", max(0, *at_ends.pressed) / (lumber.thickness * 1.5) / lumber.fc_perp
    places, bent = _bent(span, 0.0, live)
    step = places[1]
    turn = np.concatenate(([0.0], np.cumsum((bent[1:] + bent[:-1]) / 2) * step))
    fall = np.concatenate(([0.0], np.cumsum((turn[1:] + turn[:-1]) / 2) * step))
    sag = np.abs(fall - fall[-1] * places / span).max() / (lumber.e * inertia)
    yield "deflection", sag / (span / 180)  # no ceiling


def _hot(lumber: Lumber) -> Lumber:
    """Its values at 100 to 125 F, dry: Ct 0.8, of E and Emin 0.9, NDS Table 2.3.3 from memory."""
    return replace(
        lumber,
        fb=lumber.fb * 0.8,
        fv=lumber.fv * 0.8,
        fc_perp=lumber.fc_perp * 0.8,
        e=lumber.e * 0.9,
        e_min=lumber.e_min * 0.9,
    )


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
