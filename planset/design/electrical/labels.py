"""The labels that the adopted edition asks for on a system."""

from __future__ import annotations

from planset.codes.nec.labels import labels
from planset.design.electrical.label_lines import lines_of
from planset.design.electrical.label_places import places_of
from planset.design.electrical.label_system import LabelSystem
from planset.design.electrical.system import PlacedLabel


def placed_labels(system: LabelSystem) -> tuple[PlacedLabel, ...]:
    """Labels with words, places and numbers, keyed L1, L2 ...; none of an edition not known."""
    edition = system.inputs.jurisdiction.codes.electrical.edition
    try:
        asked = labels(edition)
    except ValueError:
        return ()
    found: list[PlacedLabel] = []
    for name, label in asked.items():
        places = places_of(label, system)
        if places.quantity:
            found.append(
                PlacedLabel(
                    key=f"L{len(found) + 1}",
                    name=name,
                    label=label,
                    lines=lines_of(label, system),
                    equipment=places.equipment,
                    quantity=places.quantity,
                    quantity_reason=places.reason,
                )
            )
    return tuple(found)
