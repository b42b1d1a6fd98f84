"""Which rule of the code sizes the conductors of a segment, by its topic in `codes.nec.clauses`."""

from __future__ import annotations

from planset.design.electrical.topology import Segment


def conductor_topic(segment: Segment) -> str:
    """Circuit conductors: of alternating current, of batteries (article 706), of the array."""
    if segment.ac:
        return "ac_conductor"
    return "energy_storage_circuit" if segment.run == "battery" else "dc_conductor"


def grounding_topic(segment: Segment) -> str:
    """Equipment grounding conductors: 690.45 is for circuits of the array alone.

    Ahead of the service disconnect a supply-side bonding jumper takes their place.
    """
    if segment.supply_side:
        return "supply_bonding_jumper"
    array = not segment.ac and segment.run != "battery"
    return "dc_equipment_grounding" if array else "equipment_grounding"


def protection_topic(segment: Segment) -> str:
    """Overcurrent protection: service conductors have theirs at the load end."""
    return "supply_protection" if segment.supply_side else "conductor_protection"
