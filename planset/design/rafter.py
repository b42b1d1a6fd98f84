"""A rafter under uniform and point loads, span by span: bending, shear, deflection, bearing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise

from planset.codes.nds.design_values import DesignValues
from planset.codes.nds.lumber import Section
from planset.design.beam import Beam, Loads, reactions_lb, solve
from planset.design.utilization import Utilization

_NOISE = 1e-9  # share of a moment that arithmetic may leave over a support


@dataclass(frozen=True, slots=True)
class SpanEnds:
    """What the rest of its rafter does at the ends of one span.

    Attributes:
        pressed_lb: Pressure on its lower and upper support, with all that the rafter lays there.
        shifts_lb: For each way to take the rafter what is added to the shear at the span's lower
            end, and taken from that at its upper one [lb].
    """

    pressed_lb: tuple[float, float] = (0.0, 0.0)
    shifts_lb: tuple[float, ...] = ()


ALONE = SpanEnds()
"""Of a span without neighbors."""


@dataclass(frozen=True, slots=True)
class RafterCheck:
    """What a rafter is asked and what it allows.

    Attributes:
        bending: Bending stress and Fb' [psi].
        shear: Shear stress and Fv' [psi].
        deflection: Deflection under the live load alone, and the limit [in].
        bearing: Pressure on the support and Fc_perp'; 0 asked where the rafter pulls up [psi].
    """

    bending: Utilization
    shear: Utilization
    deflection: Utilization
    bearing: Utilization

    @property
    def governing(self) -> str:
        """Name of the check with the greatest ratio."""
        return max(CHECKS, key=lambda name: self.named(name).ratio)

    @property
    def ratio(self) -> float:
        """The greatest ratio (no unit)."""
        return self.named(self.governing).ratio

    def named(self, check: str) -> Utilization:
        """One of the four by its name, of `CHECKS`."""
        found: Utilization = getattr(self, check)
        return found


CHECKS = ("bending", "shear", "deflection", "bearing")
"""What a rafter is checked for: the names of `RafterCheck`."""


def check_rafter(
    span_in: float,
    section: Section,
    adjusted: DesignValues,
    total: Loads,
    live: Loads,
    stability: float = 1.0,
    deflection_limit: float = 180.0,
    bearing_in: float = 1.5,
    bearing_area: float = 1.0,
    ends: SpanEnds = ALONE,
) -> RafterCheck:
    """Check a rafter between two supports, loads across its line.

    With the span and the loads both on the horizontal projection the span is the one of the code's
    tables. Point loads stand where they are: those of rows in line are not smeared.

    Args:
        span_in: Between supports [in].
        section: Section of the rafter, on edge.
        adjusted: Adjusted values of the combination, from `beam_values.adjusted`.
        total: All loads of the combination, upward ones negative.
        live: Those that deflection counts.
        stability: CL of moments that compress the lower edge, 1.0 where that is held, 0.0 where
            the rafter is too slender for any; the deck holds the upper one (no unit).
        deflection_limit: n of the limit, span over n.
        bearing_in: Length of the bearing along the rafter [in].
        bearing_area: Cb (no unit).
        ends: What the rest of the rafter does at its ends, as far as that is more.

    Returns:
        The four checks.

    Raises:
        ValueError: A size is not above zero, the stability out of 0 to 1, or a load beyond the
            span.
    """
    beam = Beam((span_in,))
    if not all(value > 0 for value in (deflection_limit, bearing_in, bearing_area)):
        msg = "deflection limit and bearing of a rafter are numbers above 0"
        raise ValueError(msg)
    if not 0 <= stability <= 1:
        msg = f"stability factor of a rafter is {stability:g}; expected 0 to 1"
        raise ValueError(msg)
    result, deflected = solve(beam, total), solve(beam, live)
    hogging = max(-result.hogging_lb_in - _NOISE * result.sagging_lb_in, 0.0)
    modulus = section.section_modulus_in3
    bending = (
        Utilization(result.sagging_lb_in / modulus, adjusted.fb_psi),
        Utilization(hogging / modulus, adjusted.fb_psi * stability),
    )
    shear = _shear_lb(span_in, section.width_in, total, ends.shifts_lb)
    stiffness = adjusted.e_psi * section.moment_of_inertia_in4
    return RafterCheck(
        bending=max(bending, key=lambda use: use.ratio),
        shear=Utilization(1.5 * shear / section.area_in2, adjusted.fv_psi),
        deflection=Utilization(
            deflected.stretches[0].deflection_lb_in3 / stiffness, span_in / deflection_limit
        ),
        bearing=Utilization(
            max(0.0, *ends.pressed_lb, *result.reactions_lb) / (section.thickness_in * bearing_in),
            adjusted.fc_perp_psi * bearing_area,
        ),
    )


def ends_of_spans(
    spans_in: Sequence[float],
    loads: Sequence[Loads],
    tail_in: float = 0.0,
    tail_lb_per_in: float = 0.0,
) -> list[SpanEnds]:
    """What the spans and the tail of one rafter do at each other's ends.

    Whether it runs through at a support or is lapped there is not known. On each support counts
    the greater of what both spans beside it lay there as simple beams, and what the beam that
    runs through does; the tail lies on the lowest, and relieves none of the others.

    Args:
        spans_in: The spans from the eave up [in].
        loads: The loads of each, places from its lower support.
        tail_in: The rafter below its lowest support [in].
        tail_lb_per_in: The load on that [lb/in].

    Raises:
        ValueError: A span is not above zero, or a load beyond its span.
    """
    alone = [reactions_lb(Beam((span,)), load) for span, load in zip(spans_in, loads, strict=True)]
    lapped = [high + low for (_, high), (low, _) in pairwise([(0.0, 0.0), *alone, (0.0, 0.0)])]
    tail = tail_in * tail_lb_per_in
    tips = tail * tail_in / 2.0 / spans_in[0]
    ways = [
        ([lapped[0] + tail + tips, lapped[1] - tips, *lapped[2:]], tail),
        (_through(spans_in, loads, 0.0, 0.0), 0.0),
        (_through(spans_in, loads, tail_in, tail_lb_per_in), tail),
    ]
    pressed = [max(on) for on in zip(lapped, *(reactions for reactions, _ in ways), strict=True)]
    # beyond a support the shear differs from a simple beam's by all that differs before it
    shifts = [
        tuple(
            accumulate(
                (at - own for at, own in zip(reactions, lapped, strict=True)), initial=-below
            )
        )[1:]
        for reactions, below in ways
    ]
    return [
        SpanEnds((pressed[place], pressed[place + 1]), tuple(way[place] for way in shifts))
        for place in range(len(alone))
    ]


def _through(
    spans_in: Sequence[float], loads: Sequence[Loads], tail_in: float, tail_lb_per_in: float
) -> tuple[float, ...]:
    """Reactions of the rafter that runs through all its spans [lb]."""
    starts = accumulate(spans_in, initial=tail_in)
    points = [
        (start + x, load)
        for start, on_span in zip(starts, loads, strict=False)
        for x, load in on_span.points
    ]
    uniform = loads[0].uniform_lb_per_in  # on all spans alike
    if tail_in:
        points.append((tail_in / 2.0, (tail_lb_per_in - uniform) * tail_in))
    return reactions_lb(Beam(tuple(spans_in), tail_in), Loads(uniform, tuple(points)))


def _shear_lb(span_in: float, depth_in: float, loads: Loads, shifts_lb: Sequence[float]) -> float:
    """Greatest shear that counts, of a simple span or one that runs through, NDS 2018 3.4.3.1.

    Within the depth d of a support the uniform load is left out and a point load at x counts x/d.
    """
    uniform = loads.uniform_lb_per_in * max(span_in / 2.0 - depth_in, 0.0)
    left = right = uniform
    for x, load in loads.points:
        counted = load * min(1.0, x / depth_in, (span_in - x) / depth_in)
        left += counted * (span_in - x) / span_in
        right += counted * x / span_in
    return max(max(abs(left + shift), abs(right - shift)) for shift in (0.0, *shifts_lb))
