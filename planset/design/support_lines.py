"""The lines that attachments stand on: rafters at their surveyed spacing, or standing seams."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from planset.job.covering import StandingSeam
from planset.roof.plane import Plane, sides

if TYPE_CHECKING:
    from planset.catalog.mounting import MountingSystem
    from planset.job.framing import Framing
    from planset.job.load import Inputs


_MOST = 2_000  # lines of a plane, whatever the numbers


@dataclass(frozen=True, slots=True)
class SupportLine:
    """One rafter under a plane, or one seam on it.

    Attributes:
        plane: Id of the plane.
        number: Counted from the left rake, facing the plane from its eave.
        u_in: Centerline, distance from the left end of the eave [in].
        spans: The parts of that line on the plane, from the eave up [in].
    """

    plane: str
    number: int
    u_in: float
    spans: tuple[tuple[float, float], ...] = ()

    def reaches(self, v_in: float) -> bool:
        """Whether the line is on the plane at a distance from the eave [in]."""
        return any(low <= v_in <= high for low, high in self.spans)


def rafters_under(plane: Plane, framing: Framing) -> tuple[SupportLine, ...]:
    """Rafters of a plane at the surveyed spacing, from left to right; none where not surveyed."""
    first = framing.first_rafter_on(plane.id)
    return () if first is None else _lines(plane, first, framing.spacing)


def seams_on(plane: Plane, covering: StandingSeam) -> tuple[SupportLine, ...]:
    """Seams of a plane, from left to right; none where not surveyed."""
    first = covering.first_seam_on(plane.id)
    return () if first is None else _lines(plane, first, covering.seam_spacing)


def lines_for(inputs: Inputs, plane: Plane, system: MountingSystem) -> tuple[SupportLine, ...]:
    """What the attachments of a system stand on: seams for clamps on seams, else rafters."""
    covering, framing = inputs.job.roof.covering, inputs.job.framing
    if system.attachment.kind == "seam_clamp":
        return seams_on(plane, covering) if isinstance(covering, StandingSeam) else ()
    return rafters_under(plane, framing) if framing else ()


def _lines(plane: Plane, first: float, spacing: float) -> tuple[SupportLine, ...]:
    left = min(u for u, _ in plane.surface_outline)
    right = max(u for u, _ in plane.surface_outline)
    leftmost = 0 if left > -1e-9 else max(math.ceil((left - first) / spacing), -_MOST)
    count = math.floor((right - first) / spacing + 1e-9) + 1
    lines = (
        SupportLine(plane.id, number + 1, first + number * spacing)
        for number in range(leftmost, min(count, _MOST))
    )
    return tuple(replace(line, spans=_spans(plane, line.u_in)) for line in lines)


def _spans(plane: Plane, u: float) -> tuple[tuple[float, float], ...]:
    """The parts of a line up the slope that lie on the plane, from the eave up."""
    crossings = []
    for ring in plane.rings:
        for start, end in sides(ring):
            (u0, v0), (u1, v1) = plane.to_surface(start), plane.to_surface(end)
            if min(u0, u1) <= u < max(u0, u1):
                crossings.append(v0 + (v1 - v0) * (u - u0) / (u1 - u0))
    crossings.sort()
    return tuple(zip(crossings[::2], crossings[1::2], strict=False))
