"""A rail as a beam on its attachments, apart from what its maker's table says."""

from __future__ import annotations

import math
from dataclasses import dataclass

from planset.design.beam import Beam, Loads, solve
from planset.design.utilization import Utilization

ALUMINUM_PSI = 10.1e6
"""Modulus of elasticity of extruded aluminum, 6000 series [psi]; Aluminum Design Manual 2015,
Table A.3.1 [from memory]."""

ALUMINUM_PER_F = 13.1e-6
"""Thermal expansion of aluminum, share of its length per degree [1/F]; Aluminum Design Manual
2015, A.3.1 [from memory]."""


@dataclass(frozen=True, slots=True)
class RailSection:
    """Properties of a rail, as its maker states them.

    Attributes:
        moment_of_inertia_in4: I about the axis of bending [in4].
        sagging_lb_in: Allowable moment that bends the rail toward the roof between attachments,
            ASD [lb in].
        hogging_lb_in: Allowable moment the other way, ASD, without sign [lb in].
        elasticity_psi: E [psi].
    """

    moment_of_inertia_in4: float
    sagging_lb_in: float
    hogging_lb_in: float
    elasticity_psi: float = ALUMINUM_PSI


@dataclass(frozen=True, slots=True)
class RailCheck:
    """What a rail is asked and what it allows.

    Attributes:
        sagging: Greatest sagging moment and the allowable one [lb in].
        hogging: Greatest hogging moment and the allowable one [lb in].
        deflection: Deflection and limit of the stretch nearest to its limit [in].
    """

    sagging: Utilization
    hogging: Utilization
    deflection: Utilization

    @property
    def ratio(self) -> float:
        """The greatest ratio (no unit)."""
        return max(self.sagging.ratio, self.hogging.ratio, self.deflection.ratio)


def check_rail(
    beam: Beam,
    load_lb_per_in: float,
    rail: RailSection,
    *,
    continuous: bool = False,
    deflection_limit: float = 180.0,
) -> RailCheck:
    """Check a rail under a uniform load.

    Without continuity both moments of a span are w L^2 / 8, its deflection is that of a simple
    beam, and a cantilever bends beyond a span without load; where the rail that runs through
    has more, that counts. A cantilever's deflection is that of its load's direction, its limit
    2 a / n (common practice, no source).

    Args:
        beam: Attachments and cantilevers of the rail.
        load_lb_per_in: Load across the rail, upward negative [lb/in].
        rail: Section of the rail.
        continuous: Whether the engineer counts on the rail running through.
        deflection_limit: n of the limit, span over n.

    Returns:
        The three checks.

    Raises:
        ValueError: A property is not above zero or the load not a number.
    """
    properties = (
        rail.moment_of_inertia_in4,
        rail.sagging_lb_in,
        rail.hogging_lb_in,
        rail.elasticity_psi,
        deflection_limit,
    )
    if not all(0 < value < math.inf for value in properties):
        msg = "section, allowable moments and deflection limit of a rail are numbers above 0"
        raise ValueError(msg)
    if not math.isfinite(load_lb_per_in):
        msg = f"load of a rail is {load_lb_per_in:g} lb/in; expected a number"
        raise ValueError(msg)
    bents = [_continuous(beam, load_lb_per_in)]
    if not continuous:
        bents.append(_span_by_span(beam, load_lb_per_in))
    sagging = max(bent.sagging for bent in bents)
    hogging = max(bent.hogging for bent in bents)
    stiffness = rail.elasticity_psi * rail.moment_of_inertia_in4
    uses = [
        Utilization(deflection / stiffness, length / deflection_limit)
        for bent in bents
        for deflection, length in bent.deflections
    ]
    return RailCheck(
        Utilization(sagging, rail.sagging_lb_in),
        Utilization(hogging, rail.hogging_lb_in),
        max(uses, key=lambda use: use.ratio),
    )


@dataclass(frozen=True, slots=True)
class _Bent:
    """Both moments without sign, and per stretch deflection times E I and length of its limit."""

    sagging: float
    hogging: float
    deflections: list[tuple[float, float]]


def _continuous(beam: Beam, load: float) -> _Bent:
    result = solve(beam, Loads(load))
    deflections = []
    for stretch in result.stretches:
        if stretch.cantilever:
            tip = stretch.down_lb_in3 if load >= 0 else stretch.up_lb_in3
            deflections.append((tip, 2.0 * stretch.length_in))
        else:
            deflections.append((stretch.deflection_lb_in3, stretch.length_in))
    return _Bent(result.sagging_lb_in, -result.hogging_lb_in, deflections)


def _span_by_span(beam: Beam, load: float) -> _Bent:
    weight = abs(load)
    span_moment = weight * max(beam.spans_in) ** 2 / 8.0
    end_moment = weight * max(beam.left_in, beam.right_in) ** 2 / 2.0
    deflections = [(5.0 * weight * span**4 / 384.0, span) for span in beam.spans_in]
    for end, span in ((beam.left_in, beam.spans_in[0]), (beam.right_in, beam.spans_in[-1])):
        if end > 0:
            deflections.append((weight * end**3 * (end / 8.0 + span / 6.0), 2.0 * end))
    with_ends = max(span_moment, end_moment)
    sagging, hogging = (span_moment, with_ends) if load >= 0 else (with_ends, span_moment)
    return _Bent(sagging, hogging, deflections)


def thermal_movement_in(
    length_in: float, change_f: float, expansion_per_f: float = ALUMINUM_PER_F
) -> float:
    """How much a rail grows or shrinks between thermal breaks.

    Args:
        length_in: Length of the rail [in].
        change_f: Change of its temperature, without sign [F].
        expansion_per_f: Coefficient of thermal expansion [1/F].

    Returns:
        The movement [in].

    Raises:
        ValueError: A value is negative.
    """
    if not all(0 <= value < math.inf for value in (length_in, change_f, expansion_per_f)):
        msg = "length, change of temperature and expansion of a rail are numbers from 0"
        raise ValueError(msg)
    return expansion_per_f * length_in * change_f
