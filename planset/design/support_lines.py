"""The lines that attachments stand on: rafters at their surveyed spacing, or standing seams.

And the lines that rafters bear on.
"""

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
_AT_TOP_IN = 1.0  # a support so near to the upper edge of a plane is the one at that edge


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


@dataclass(frozen=True, slots=True)
class BearingLine:
    """Where the rafters of a plane bear: a wall plate, a purlin, a ridge.

    Attributes:
        plane: Id of the plane.
        from_eave_in: Distance from the eave's edge, in plan [in].
        v_in: The same on the surface [in].
        spans: The parts of that line on the plane, from left to right [in].
    """

    plane: str
    from_eave_in: float
    v_in: float
    spans: tuple[tuple[float, float], ...]


def bearings_under(plane: Plane, framing: Framing) -> tuple[BearingLine, ...]:
    """The supports of a plane's rafters from the eave up; none where not surveyed."""
    top = max(v for _, v in plane.surface_outline)
    found = []
    for at in framing.supports_on(plane.id) or ():
        v = at * plane.slope_factor
        if abs(v - top) <= _AT_TOP_IN:
            v = top
        spans = _crossed(plane, min(v, top - 1e-6), across=True)
        found.append(BearingLine(plane.id, at, v, spans))
    return tuple(found)


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
    return tuple(replace(line, spans=_crossed(plane, line.u_in, across=False)) for line in lines)


def _crossed(plane: Plane, at: float, *, across: bool) -> tuple[tuple[float, float], ...]:
    """The parts of a line on the plane: at a v across it from the left, or at a u up the slope."""
    crossings = []
    for ring in plane.rings:
        for start, end in sides(ring):
            ends = [plane.to_surface(start), plane.to_surface(end)]
            (a0, b0), (a1, b1) = [point[::-1] for point in ends] if across else ends
            if min(a0, a1) <= at < max(a0, a1):
                crossings.append(b0 + (b1 - b0) * (at - a0) / (a1 - a0))
    crossings.sort()
    return tuple(zip(crossings[::2], crossings[1::2], strict=False))
