"""The labels that the adopted edition asks for on a system."""

from __future__ import annotations

from collections.abc import Iterator

from planset.codes.nec.labels import Label, labels
from planset.design.electrical.label_lines import lines_of
from planset.design.electrical.label_places import Places, places_of
from planset.design.electrical.label_purpose import purposes
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
        for lines, places in _worded(label, system):
            found.append(
                PlacedLabel(
                    key=f"L{len(found) + 1}",
                    name=name,
                    label=label,
                    lines=lines,
                    equipment=places.equipment,
                    quantity=places.quantity,
                    quantity_reason=places.reason,
                )
            )
    return tuple(found)


def _worded(label: Label, system: LabelSystem) -> Iterator[tuple[tuple[str, ...], Places]]:
    """The words and places of a label; what a disconnect serves differs from one to the next."""
    if label.name == "purpose":
        for words, tags in purposes(system).items():
            yield words, Places(tags, len(tags))
        return
    places = places_of(label, system)
    if places.quantity:
        yield lines_of(label, system), places
