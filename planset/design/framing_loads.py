"""Rafters under what stands on them now and what the arrays add, support by support.

Spans and loads are those of the horizontal projection, as in the span tables of the codes: a force
P normal to the roof bends a rafter like P / cos(slope) across its projection. Whether rafters run
through at inner supports or are lapped there is not known: every span bends as a simple beam, and
for bearing and shear they are taken as running through or as lapped, whichever is worse.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from planset.codes.ibc.panel_live_load import live_load_omitted
from planset.codes.ibc.roof_live_load import ROOF_LIVE_PSF
from planset.design.attachment_loads import AttachmentLoad
from planset.design.fastening import load_duration
from planset.design.racking import Attachment
from planset.design.rafter import CHECKS, RafterCheck, SpanEnds, check_rafter, ends_of_spans
from planset.design.rafter_basis import RafterValues, SpanLoads, rafter_values
from planset.design.snow import PlaneSnow
from planset.roof.plane import Plane

if TYPE_CHECKING:
    from planset.codes.asce7.load_combinations import Combination
    from planset.job.framing import Framing


@dataclass(frozen=True, slots=True)
class RafterUse:
    """One span of one rafter under a case that asks most of it in one check or more.

    Attributes:
        plane: Id of the plane.
        rafter: Number of the rafter.
        from_in: Lower support, in plan from the eave's edge [in].
        to_in: Upper support [in].
        bears_at_in: The one of the two that takes more [in].
        case: The loads, in words.
        loads: The loads in numbers.
        whole: The loads of every span of the rafter in that case, from the eave up.
        tail_lb_per_in: What lies on its tail then [lb/in].
        values: What the wood allows, and from what.
        check: What is asked of it and what it allows.
    """

    plane: str
    rafter: int
    from_in: float
    to_in: float
    bears_at_in: float
    case: str
    loads: SpanLoads
    whole: tuple[SpanLoads, ...]
    tail_lb_per_in: float
    values: RafterValues
    check: RafterCheck


@dataclass(frozen=True, slots=True)
class OnRafters:
    """What the rafters of one plane carry.

    Attributes:
        plane: The plane.
        framing: The framing.
        combinations: ASD combinations of the edition in force.
        attachments: Attachments on the plane's rafters, each with its loads.
        snow: Snow on the plane, None without any.
        clear_space_in: Between the roof and the underside of the modules [in].
        point_load_share: Part of an attachment's load that its own rafter takes, unitless.
    """

    plane: Plane
    framing: Framing
    combinations: tuple[Combination, ...]
    attachments: tuple[tuple[Attachment, AttachmentLoad], ...]
    snow: PlaneSnow | None
    clear_space_in: float
    point_load_share: float

    @property
    def supports_in(self) -> tuple[float, ...]:
        """Where the rafters bear, in plan from the eave's edge [in].

        Raises:
            ValueError: Nobody surveyed it.
        """
        supports = self.framing.supports_on(self.plane.id)
        if supports is None:
            msg = f"where the rafters of plane {self.plane.id} bear is not surveyed"
            raise ValueError(msg)
        return supports

    @property
    def beyond_supports(self) -> tuple[str, ...]:
        """Attachments on the rafters' tails, or above their last support."""
        supports = self.supports_in
        places = ((item.id, item.v_in / self.plane.slope_factor) for item, _ in self.attachments)
        return tuple(name for name, x in places if not supports[0] <= x <= supports[-1])


@dataclass(frozen=True, slots=True)
class _Span:
    """One span of one rafter with what lies over it, in plan from its lower support [in].

    `bare_share` is how much of the rafter's strip lies beside the modules where they cover it.
    """

    rafter: int
    start: float
    length: float
    covered: tuple[tuple[float, float], ...]
    bare_share: float
    held: tuple[tuple[float, AttachmentLoad], ...]


def rafter_uses(carried: OnRafters) -> tuple[RafterUse, ...]:
    """The cases that govern every span of every rafter that attachments stand on.

    Bending, shear, deflection and bearing may each have their own.

    Raises:
        ValueError: The table has no values of this species and grade, or the supports of the
            plane are not surveyed.
    """
    uses: list[RafterUse] = []
    for spans in _rafters(carried):
        judged: list[list[RafterUse]] = [[] for _ in spans]
        by_span = ([*_without_array(carried), *_with_array(carried, span)] for span in spans)
        for cases in zip(*by_span, strict=True):  # one case on all spans of the rafter
            lengths = [span.length for span in spans]
            whole, tail = tuple(case.loads for case in cases), cases[0].tail_lb_per_in
            loads = [on_span.total() for on_span in whole]
            ends = ends_of_spans(lengths, loads, carried.supports_in[0], tail)
            for own, span, case, at in zip(judged, spans, cases, ends, strict=True):
                own.append(_use(carried, span, case, whole, at))
        uses += dict.fromkeys(_governing(own, name) for own in judged for name in CHECKS)
    return tuple(uses)


def _use(
    carried: OnRafters, span: _Span, case: _Case, whole: tuple[SpanLoads, ...], ends: SpanEnds
) -> RafterUse:
    top = span.start + span.length
    lower, upper = ends.pressed_lb
    bears = span.start if lower >= upper else top
    values = rafter_values(carried.framing, span.length, case.duration)
    check = check_rafter(
        span.length,
        values.section,
        values.adjusted,
        case.loads.total(),
        case.loads.live(),
        stability=values.stability,
        deflection_limit=values.deflection_limit,
        bearing_in=values.bearing_in,
        ends=ends,
    )
    return RafterUse(
        carried.plane.id,
        span.rafter,
        span.start,
        top,
        bears,
        case.name,
        case.loads,
        whole,
        case.tail_lb_per_in,
        values,
        check,
    )


def _governing(judged: list[RafterUse], check: str) -> RafterUse:
    return max(judged, key=lambda use: use.check.named(check).ratio)


@dataclass(frozen=True, slots=True)
class _Case:
    """One combination on one span: its loads, CD, and what lies on the rafter's tail.

    No module is there.
    """

    name: str
    loads: SpanLoads
    duration: float
    tail_lb_per_in: float


def _without_array(carried: OnRafters) -> Iterator[_Case]:
    """The roof as it is, which the codes ask for beside the roof with its panels."""
    per_in = carried.framing.spacing / 144
    for factors in carried.combinations:
        live_psf = _open_air_psf(carried, factors)
        if live_psf and not factors.wind_down:
            live, dead = live_psf * per_in, factors.dead * _dead_psf(carried) * per_in
            duration = load_duration(factors.shortest_load)
            name = f"{factors.text}, no array"
            yield _Case(name, SpanLoads(dead, live), duration, dead + live)


def _with_array(carried: OnRafters, span: _Span) -> Iterator[_Case]:
    cos = math.cos(math.radians(carried.plane.slope_deg))
    per_in = carried.framing.spacing / 144
    under = 0.0 if live_load_omitted(carried.clear_space_in) else ROOF_LIVE_PSF
    for factors in carried.combinations:
        dead = (factors.dead + factors.least_dead) * _dead_psf(carried) * per_in
        open_air = _open_air_psf(carried, factors) * per_in
        shaded = factors.roof_live * under * per_in
        below = shaded + (open_air - shaded) * span.bare_share
        spread = [
            (*part, load)
            for parts, load in ((_uncovered(span), open_air), (span.covered, below))
            for part in parts
            if load
        ]
        points, live_points = [], []
        for place, load in span.held:
            share = carried.point_load_share * load.continuity
            (combined,) = (c for c in load.combined.loads if c.combination == factors)
            points.append((place, combined.normal_lb / cos * share))
            live_points.append((place, factors.snow * load.loads.snow_lb * share))
        loads = SpanLoads(dead, 0.0, tuple(spread), tuple(points), tuple(live_points))
        duration = load_duration(factors.shortest_load)
        name = f"{factors.text}, array in place"
        yield _Case(name, loads, duration, dead + open_air)


def _open_air_psf(carried: OnRafters, factors: Combination) -> float:
    """Live load and snow of a combination where no module lies [psf]."""
    snow = carried.snow.on_roof_psf if carried.snow else 0.0
    return factors.roof_live * ROOF_LIVE_PSF + factors.snow * snow


def _dead_psf(carried: OnRafters) -> float:
    """The roof's own weight on the horizontal projection [psf]."""
    return carried.framing.roof_dead_load * carried.plane.slope_factor


def _uncovered(span: _Span) -> tuple[tuple[float, float], ...]:
    bounds = [0.0, *(end for part in span.covered for end in part), span.length]
    gaps = zip(bounds[::2], bounds[1::2], strict=True)
    return tuple((start, end) for start, end in gaps if end > start)


def _rafters(carried: OnRafters) -> Iterator[tuple[_Span, ...]]:
    """The spans of every rafter that attachments stand on, from the eave up."""
    by_rafter: dict[int, list[tuple[Attachment, AttachmentLoad]]] = {}
    for item, load in carried.attachments:
        by_rafter.setdefault(item.line, []).append((item, load))
    for rafter, held in sorted(by_rafter.items()):
        yield tuple(_spans(carried, rafter, held))


def _spans(
    carried: OnRafters, rafter: int, held: list[tuple[Attachment, AttachmentLoad]]
) -> Iterator[_Span]:
    slope, supports = carried.plane.slope_factor, carried.supports_in
    covers = _joined([(i.tributary.y0 / slope, i.tributary.y1 / slope) for i, _ in held])
    places = [(item.v_in / slope, load) for item, load in held]
    bare = _bare_share(held[0][0].u_in, carried.framing.spacing, held)
    for low, high in pairwise(supports):
        covered = tuple(
            (max(a, low) - low, min(b, high) - low) for a, b in covers if min(b, high) > max(a, low)
        )
        inside = tuple(  # what stands on a support is of the span above it, if there is one
            (x - low, load) for x, load in places if low <= x < high or x == high == supports[-1]
        )
        yield _Span(rafter, low, high - low, covered, bare, inside)


def _bare_share(line: float, width: float, held: list[tuple[Attachment, AttachmentLoad]]) -> float:
    """The share of a rafter's strip, so wide about its line, that the narrowest cover leaves."""
    left, right = line - width / 2, line + width / 2
    covers = (min(i.tributary.x1, right) - max(i.tributary.x0, left) for i, _ in held)
    return 1.0 - min(min(covers) / width, 1.0)


def _joined(parts: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Parts of a line that touch as one, in order."""
    joined: list[tuple[float, float]] = []
    for start, end in sorted(parts):
        if joined and start <= joined[-1][1] + 1e-9:
            joined[-1] = (joined[-1][0], max(joined[-1][1], end))
        else:
            joined.append((start, end))
    return joined
