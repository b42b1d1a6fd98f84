"""The electrical design of a house of the tests."""

from __future__ import annotations

from typing import Any

from houses import house, placed_arrays

from planset.design.electrical.build import build_electrical
from planset.design.electrical.conductors import SizedRun
from planset.design.electrical.system import ElectricalDesign
from planset.design.electrical.topology import Segment

MICRO = "gable-40x30-micro"
CONVERTERS = "gable-40x30-converters"
HYBRID = "gable-40x30-hybrid"
SUBPANEL = "gable-40x30-subpanel"
SYSTEMS = ("gable-40x30", MICRO, CONVERTERS, HYBRID, SUBPANEL)


def electrical_of(
    changes: dict[str, Any] | None = None, name: str = "gable-40x30"
) -> ElectricalDesign:
    """Return the electrical design of a house with fields changed (`houses.house`)."""
    inputs = house(changes, name)
    return build_electrical(inputs, placed_arrays(inputs), ())


def run_of(found: ElectricalDesign, run: str) -> SizedRun:
    """Return the conductors of the first segment of a run."""
    conductors = segment_of(found, run).conductors
    assert conductors is not None, found.not_sized
    return conductors


def segment_of(found: ElectricalDesign, run: str) -> Segment:
    """Return the first segment of a run."""
    return next(segment for segment in found.topology.segments if segment.run == run)


def edition(year: int) -> dict[str, Any]:
    """Return the change that adopts an edition of the NEC."""
    return {"jurisdiction.codes.electrical.edition": year}
