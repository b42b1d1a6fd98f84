"""Beams on supports in a line: reactions, moments, shear and deflection, exact.

Any consistent lengths and forces serve; names say inches and pounds. Loads act downward, reactions
upward; a sagging moment is positive. Stiffness is the same throughout.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np

_CACHED = 4096  # beams that differ in spans or loads; an array repeats a few of them
_PLACE = 1e-9  # a load this share of the beam's length beyond its end stands on the end

_HALVINGS = 24  # to find where a beam is level; deflection is flat there, so the rest is nothing

_Quartic = tuple[float, float, float, float, float]


@dataclass(frozen=True, slots=True)
class Beam:
    """A beam and where it is held, measured from its left end.

    Attributes:
        spans_in: Clear distances between supports, at least one [in].
        left_in: Cantilever beyond the first support [in].
        right_in: Cantilever beyond the last support [in].

    Raises:
        ValueError: No span, a span not above zero, or a cantilever negative.
    """

    spans_in: tuple[float, ...]
    left_in: float = 0.0
    right_in: float = 0.0

    def __post_init__(self) -> None:
        if not self.spans_in or not all(0 < span < math.inf for span in self.spans_in):
            msg = f"spans are {self.spans_in}; expected one or more lengths above 0"
            raise ValueError(msg)
        if not all(0 <= end < math.inf for end in (self.left_in, self.right_in)):
            msg = f"cantilevers are {self.left_in:g} and {self.right_in:g}; expected 0 or more"
            raise ValueError(msg)

    @property
    def length_in(self) -> float:
        """From end to end [in]."""
        return self.left_in + sum(self.spans_in) + self.right_in

    @property
    def supports_in(self) -> tuple[float, ...]:
        """Places of the supports [in]."""
        return tuple(float(x) for x in self.left_in + np.cumsum((0.0, *self.spans_in)))


@dataclass(frozen=True, slots=True)
class Loads:
    """Loads on a beam, downward positive.

    Attributes:
        uniform_lb_per_in: Load on the whole length [lb/in].
        points: Place from the left end [in] and size [lb] of each concentrated load.
    """

    uniform_lb_per_in: float = 0.0
    points: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Stretch:
    """What happens in one span or cantilever.

    Attributes:
        length_in: Its length [in].
        cantilever: Whether it is one.
        sagging_lb_in: Greatest moment, 0 where none sags [lb in].
        hogging_lb_in: Least moment, 0 or below [lb in].
        shear_lb: Greatest shear without sign [lb].
        down_lb_in3: Greatest deflection downward times E I, 0 where none [lb in3].
        up_lb_in3: Greatest deflection upward times E I, 0 where none [lb in3].
    """

    length_in: float
    cantilever: bool
    sagging_lb_in: float
    hogging_lb_in: float
    shear_lb: float
    down_lb_in3: float
    up_lb_in3: float

    @property
    def deflection_lb_in3(self) -> float:
        """Greatest deflection either way times E I [lb in3]."""
        return max(self.down_lb_in3, self.up_lb_in3)


@dataclass(frozen=True, slots=True)
class BeamResult:
    """What the loads do to a beam.

    Attributes:
        reactions_lb: Upward force of each support, from the left [lb].
        stretches: Left cantilever if any, spans, right cantilever if any.
    """

    reactions_lb: tuple[float, ...]
    stretches: tuple[Stretch, ...]

    @property
    def sagging_lb_in(self) -> float:
        """Greatest moment anywhere, 0 where none sags [lb in]."""
        return max(stretch.sagging_lb_in for stretch in self.stretches)

    @property
    def hogging_lb_in(self) -> float:
        """Least moment anywhere, 0 or below [lb in]."""
        return min(stretch.hogging_lb_in for stretch in self.stretches)

    @property
    def shear_lb(self) -> float:
        """Greatest shear without sign anywhere [lb]."""
        return max(stretch.shear_lb for stretch in self.stretches)


@dataclass(frozen=True, slots=True)
class _Part:
    """One span or cantilever, seen from a support: x runs away from it.

    Moment m + v x - w x^2/2 - sum P <x - a>; slope and deflection times E I are its integrals from
    `slope` and 0, deflection upward.
    """

    length: float
    uniform: float
    points: tuple[tuple[float, float], ...]
    moment: float = 0.0
    shear: float = 0.0
    slope: float = 0.0

    def pieces(self) -> Iterator[tuple[float, float, _Quartic]]:
        """Between loads: from, to, and the deflection there as coefficients, highest first."""
        deflection = (-self.uniform / 24.0, self.shear / 6.0, self.moment / 2.0, self.slope, 0.0)
        start = 0.0
        for a, load in sorted(self.points):
            if a > start:
                yield start, a, deflection
                start = a
            share = load / 6.0
            c4, c3, c2, c1, c0 = deflection
            deflection = (
                c4, c3 - share, c2 + 3 * share * a, c1 - 3 * share * a**2, c0 + share * a**3
            )  # fmt: skip
        if self.length > start:
            yield start, self.length, deflection

    def stretch(self, *, cantilever: bool) -> Stretch:
        sagging = hogging = shear = down = up = 0.0
        for start, end, quartic in self.pieces():
            c4, c3, c2, _, _ = quartic
            shears = [24 * c4 * x + 6 * c3 for x in (start, end)]
            moments = [
                12 * c4 * x**2 + 6 * c3 * x + 2 * c2
                for x in _stations(start, end, _roots(0.0, 24 * c4, 6 * c3))
            ]
            sagging, hogging = max(sagging, *moments), min(hogging, *moments)
            shear = max(shear, *map(abs, shears))
            lifts = [_value(quartic, x) for x in _stations(start, end, _level(quartic, start, end))]
            down, up = max(down, -min(lifts)), max(up, *lifts)
        return Stretch(self.length, cantilever, sagging, hogging, shear, down, up)


def _stations(start: float, end: float, extremes: Iterable[float]) -> list[float]:
    """Both ends, and the extremes between them."""
    return [start, end, *(x for x in extremes if start < x < end)]


def _roots(a: float, b: float, c: float) -> tuple[float, ...]:
    """Real roots of a x^2 + b x + c, without cancellation; none where all is zero."""
    inside = b * b - 4 * a * c
    if inside < 0:
        return ()
    larger = -(b + math.copysign(math.sqrt(inside), b)) / 2
    return tuple(top / bottom for top, bottom in ((larger, a), (c, larger)) if bottom)


def _level(quartic: _Quartic, start: float, end: float) -> Iterator[float]:
    """Where the slope is zero: by halves between the zeros of the moment, its derivative."""
    c4, c3, c2, c1, _ = quartic

    def slope(x: float) -> float:
        return ((4 * c4 * x + 3 * c3) * x + 2 * c2) * x + c1

    turns = sorted(_stations(start, end, _roots(12 * c4, 6 * c3, 2 * c2)))
    for low, high in pairwise(turns):
        falling = slope(low) > slope(high)
        if slope(low) * slope(high) > 0:
            continue
        near, far = low, high
        for _ in range(_HALVINGS):
            middle = (near + far) / 2
            if (slope(middle) > 0) == falling:
                near = middle
            else:
                far = middle
        yield (near + far) / 2


def _value(quartic: _Quartic, x: float) -> float:
    c4, c3, c2, c1, c0 = quartic
    return (((c4 * x + c3) * x + c2) * x + c1) * x + c0


@lru_cache(maxsize=_CACHED)
def solve(beam: Beam, loads: Loads) -> BeamResult:
    """Solve a beam by the equation of three moments.

    Args:
        beam: Spans and cantilevers.
        loads: What stands on it.

    Returns:
        Reactions, and per span and cantilever moments, shear and deflection times E I.

    Raises:
        ValueError: A load is not finite or stands beyond the ends of the beam.
    """
    left, solved, right, reactions = _reacting(beam, loads)
    stretches = [part.stretch(cantilever=False) for part in solved]
    if left.length > 0:
        slope = -solved[0].slope
        stretches.insert(0, _held(left, _fixing(left), slope).stretch(cantilever=True))
    if right.length > 0:
        slope = _end_slope(solved[-1])
        stretches.append(_held(right, _fixing(right), slope).stretch(cantilever=True))
    return BeamResult(reactions, tuple(stretches))


@lru_cache(maxsize=_CACHED)
def reactions_lb(beam: Beam, loads: Loads) -> tuple[float, ...]:
    """Upward force of each support from the left, without what `solve` tells besides [lb].

    Raises:
        ValueError: As `solve`.
    """
    return _reacting(beam, loads)[-1]


def _reacting(beam: Beam, loads: Loads) -> tuple[_Part, list[_Part], _Part, tuple[float, ...]]:
    """The left cantilever, the spans with what bends them, the right cantilever, reactions."""
    left, spans, right = _parts(beam, loads)
    moments = _support_moments(beam, spans, _fixing(left), _fixing(right))
    solved = [_solved(part, moments[index], moments[index + 1]) for index, part in enumerate(spans)]
    reactions = np.zeros(len(beam.supports_in))
    for index, part in enumerate(solved):
        reactions[index] += part.shear
        reactions[index + 1] += _total(part) - part.shear
    reactions[0] += _total(left)
    reactions[-1] += _total(right)
    return left, solved, right, tuple(reactions.tolist())


def _parts(beam: Beam, loads: Loads) -> tuple[_Part, tuple[_Part, ...], _Part]:
    """The beam cut at its supports, each load in the part where it stands."""
    supports, length = beam.supports_in, beam.length_in
    slack = _PLACE * length
    numbers = [loads.uniform_lb_per_in, *(number for point in loads.points for number in point)]
    if not all(math.isfinite(number) for number in numbers):
        msg = "a load or its place is not a number; give every load in lb and in"
        raise ValueError(msg)
    cut: list[list[tuple[float, float]]] = [[] for _ in range(len(supports) + 1)]
    for place, load in loads.points:
        if not -slack <= place <= length + slack:
            msg = f"a load stands at {place:g} in; expected 0 to {length:g} in, the beam's length"
            raise ValueError(msg)
        cut[sum(place > support for support in supports)].append((place, load))
    uniform = loads.uniform_lb_per_in
    left = _Part(beam.left_in, uniform, tuple((supports[0] - x, p) for x, p in cut[0]))
    right = _Part(beam.right_in, uniform, tuple((x - supports[-1], p) for x, p in cut[-1]))
    spans = tuple(
        _Part(span, uniform, tuple((min(x - start, span), p) for x, p in points))
        for span, start, points in zip(beam.spans_in, supports[:-1], cut[1:-1], strict=True)
    )
    return left, spans, right


def _total(part: _Part) -> float:
    return part.uniform * part.length + sum(load for _, load in part.points)


def _fixing(part: _Part) -> float:
    """Moment at the support of a cantilever."""
    return -part.uniform * part.length**2 / 2.0 - sum(load * x for x, load in part.points)


def _support_moments(
    beam: Beam, spans: tuple[_Part, ...], first: float, last: float
) -> tuple[float, ...]:
    """Moments over the supports: one equation of three moments per inner support."""
    count = len(spans) + 1
    matrix, known = np.eye(count), np.zeros(count)
    known[0], known[-1] = first, last
    for index in range(1, count - 1):
        before, after = spans[index - 1], spans[index]
        matrix[index, index - 1 : index + 2] = (
            before.length,
            2.0 * (before.length + after.length),
            after.length,
        )
        known[index] = -_end_term(before, from_left=True) - _end_term(after, from_left=False)
    return tuple(np.linalg.solve(matrix, known).tolist())


def _end_term(part: _Part, *, from_left: bool) -> float:
    """Six times the moment area of a span's loads about one end, over its length."""
    length = part.length
    term = part.uniform * length**3 / 4.0
    for place, load in part.points:
        arm = place if from_left else length - place
        term += load * arm * (length**2 - arm**2) / length
    return term


def _solved(part: _Part, left: float, right: float) -> _Part:
    """A span with the moments at its ends: shear and slope at its left end."""
    length = part.length
    shear = part.uniform * length / 2.0 + (right - left) / length
    shear += sum(load * (length - x) / length for x, load in part.points)
    sag = left * length / 2.0 + shear * length**2 / 6.0 - part.uniform * length**3 / 24.0
    sag -= sum(load * (length - x) ** 3 for x, load in part.points) / (6.0 * length)
    return _Part(length, part.uniform, part.points, left, shear, -sag)


def _end_slope(part: _Part) -> float:
    length = part.length
    slope = part.slope + part.moment * length + part.shear * length**2 / 2.0
    slope -= part.uniform * length**3 / 6.0
    return slope - sum(load * (length - x) ** 2 for x, load in part.points) / 2.0


def _held(part: _Part, moment: float, slope: float) -> _Part:
    """A cantilever, seen from its support."""
    return _Part(part.length, part.uniform, part.points, moment, _total(part), slope)
