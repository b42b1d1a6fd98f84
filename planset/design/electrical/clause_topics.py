"""Which rule of the code sizes the conductors of a segment, by its topic in `codes.nec.clauses`."""

from __future__ import annotations

from planset.design.electrical.topology import Segment


def conductor_topic(segment: Segment) -> str:
    """Circuit conductors: of alternating current, of batteries (article 706), of the array."""
    if segment.ac:
        return "ac_conductor"
    return "energy_storage_circuit" if segment.run == "battery" else "dc_conductor"


def grounding_topic(segment: Segment) -> str:
    """Equipment grounding conductors: 690.45 is for circuits of the array alone."""
    array = not segment.ac and segment.run != "battery"
    return "dc_equipment_grounding" if array else "equipment_grounding"
