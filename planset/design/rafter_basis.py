"""What the check of a rafter rests on: the values its wood has there, and the loads on one span."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.codes.nds.beam_values import (
    Service,
    adjusted,
    beam_stability_factor,
    effective_length_in,
)
from planset.codes.nds.design_values import DesignValues, design_values, size_factor
from planset.codes.nds.lumber import Section, section
from planset.design.beam import Loads
from planset.design.lumber import WOOD_TEMPERATURE_F

if TYPE_CHECKING:
    from planset.job.framing import Framing

BEARING_IN = 1.5
"""Length of rafter on each support that nobody measured, a plate on edge: assumption [in]."""

_REPETITIVE_UP_TO_IN = 24.0  # NDS 2018, 4.3.9
_STRIP_IN = 3.0  # a load on part of a span is entered as forces so far apart


@dataclass(frozen=True, slots=True)
class RafterValues:
    """What the wood of a rafter allows over one span, and from what.

    Attributes:
        section: The section, on edge.
        reference: Values of the table.
        service: What they are adjusted by.
        adjusted: Values of the combination, before CL.
        effective_in: Effective length le of the lower edge, None where a ceiling holds it [in].
        stability: CL of moments that press the lower edge, 0 where it is too slender (no unit).
        deflection_limit: n of the limit, span over n.
        bearing_in: Length of the bearing along the rafter [in].
    """

    section: Section
    reference: DesignValues
    service: Service
    adjusted: DesignValues
    effective_in: float | None
    stability: float
    deflection_limit: float
    bearing_in: float


@dataclass(frozen=True, slots=True)
class SpanLoads:
    """Loads of one combination on one span, in plan from its lower support, upward negative.

    Attributes:
        dead_lb_per_in: Dead load over all of it [lb/in].
        live_lb_per_in: Roof live load or snow over all of it [lb/in].
        spread: Roof live load or snow on parts of it: from, to, load [in, in, lb/in].
        points: Forces of the attachments: place, force [in, lb].
        live_points: The snow in them, which deflection counts [in, lb].
    """

    dead_lb_per_in: float
    live_lb_per_in: float = 0.0
    spread: tuple[tuple[float, float, float], ...] = ()
    points: tuple[tuple[float, float], ...] = ()
    live_points: tuple[tuple[float, float], ...] = ()

    def total(self) -> Loads:
        """All of them, for a beam."""
        uniform = self.dead_lb_per_in + self.live_lb_per_in
        return Loads(uniform, (*_forces(self.spread), *self.points))

    def live(self) -> Loads:
        """Those that deflection counts, for a beam."""
        return Loads(self.live_lb_per_in, (*_forces(self.spread), *self.live_points))


def rafter_values(framing: Framing, span_in: float, load_duration: float) -> RafterValues:
    """What the rafters of a job allow over one span.

    Args:
        framing: The framing.
        span_in: The span, in plan [in].
        load_duration: CD of the combination (no unit).

    Raises:
        ValueError: The table has no values of this species and grade.
    """
    lumber = section(framing.member)
    reference = design_values(framing.wood, framing.grade, framing.member)
    service = Service(
        load_duration=load_duration,
        temperature_f=WOOD_TEMPERATURE_F,
        repetitive=framing.spacing <= _REPETITIVE_UP_TO_IN,
        size=size_factor(framing.wood, framing.member),
    )
    allowed = adjusted(reference, service)
    held = framing.ceiling == "attached"
    effective = None if held else effective_length_in(span_in, lumber)
    return RafterValues(
        lumber,
        reference,
        service,
        allowed,
        effective,
        _stability(allowed, effective, lumber),
        deflection_limit=240.0 if held else 180.0,
        bearing_in=BEARING_IN if framing.bearing is None else framing.bearing,
    )


def _stability(allowed: DesignValues, effective_in: float | None, lumber: Section) -> float:
    """CL of the lower edge, which is free where no ceiling holds it; 0 where it is too slender."""
    if effective_in is None:
        return 1.0
    try:
        return beam_stability_factor(allowed.fb_psi, allowed.e_min_psi, effective_in, lumber)
    except ValueError:  # over the greatest slenderness
        return 0.0


def _forces(spread: tuple[tuple[float, float, float], ...]) -> list[tuple[float, float]]:
    """Loads on parts of a span as forces in the middle of short strips."""
    forces = []
    for start, end, load in spread:
        count = max(math.ceil((end - start) / _STRIP_IN), 1)
        width = (end - start) / count
        forces += [(start + (n + 0.5) * width, load * width) for n in range(count)]
    return forces
