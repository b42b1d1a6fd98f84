"""How many clips hold leads and array conductors."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.design.electrical.leads import hops
from planset.design.electrical.module_devices import circuit_modules
from planset.design.electrical.runs import place_length_ft
from planset.job.electrical.wiring import ArrayPlace

if TYPE_CHECKING:
    from planset.design.design import Design

LEAST_PER_MODULE = 2
"""Clips that hold the leads of a module (common practice, no source)."""

_INCHES_PER_FOOT = 12.0
_NOISE = 1e-9


@dataclass(frozen=True, slots=True)
class ClipCount:
    """Clips of the whole array.

    Attributes:
        at_modules: Along the leads from module to module.
        at_home_runs: Along the array conductors from the ends of circuits to their junction box.
    """

    at_modules: int
    at_home_runs: int

    @property
    def total(self) -> int:
        """All of them."""
        return self.at_modules + self.at_home_runs


def clip_count(design: Design) -> ClipCount:
    """Count the clips: those of the job at each module, more where its spacing asks for it."""
    clips = design.inputs.job.electrical.wire_clips
    circuits = circuit_modules(design)
    modules = sum(len(tags) for _, tags in circuits)
    more = sum(
        max(_spaced(hop.distance_in, clips.spacing) - clips.per_module, 0) for hop in hops(design)
    )
    run = design.inputs.job.electrical.wiring.array
    places = run.places if run else ()
    each = sum(
        _spaced(place_length_ft(place) * _INCHES_PER_FOOT, clips.spacing)
        for place in places
        if isinstance(place, ArrayPlace)
    )
    return ClipCount(modules * clips.per_module + more, each * len(circuits))


def _spaced(length_in: float, spacing_in: float) -> int:
    """Clips along a length, none farther than the spacing from the next."""
    return math.ceil(length_in / spacing_in - _NOISE)
