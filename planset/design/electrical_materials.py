"""The electrical equipment of the bill, from what the topology names."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.circuits import Circuits
from planset.design.material_line import MaterialLine, spares_of
from planset.design.topology import Equipment, Kind, Topology
from planset.job.materials import Spares

if TYPE_CHECKING:
    from planset.job.load import Inputs

ELECTRICAL = "ELECTRICAL"

_NEW = (Kind.JUNCTION_BOX, Kind.INVERTER, Kind.DISCONNECT, Kind.BREAKER)
"""What this job adds, strings and shutdown devices apart, which are counted by modules."""


def electrical_lines(
    inputs: Inputs, circuits: Circuits, topology: Topology, spares: Spares
) -> Iterator[MaterialLine]:
    """Shutdown devices, then the new equipment; what is there already is left out."""
    device = inputs.shutdown
    if device is not None:
        each = device.modules_per_device
        count = sum(math.ceil(len(string.modules) / each) for string in circuits.strings)
        yield MaterialLine(
            group=ELECTRICAL,
            item="Rapid shutdown device",
            product=f"{device.maker} {device.model}",
            document=device.document,
            quantity=count,
            spare=spares_of(count, spares, "modules"),
            unit="each",
            counted=f"1 PER {each} MODULES OF A STRING" if each > 1 else "1 PER MODULE",
        )
    for kind in _NEW:
        for item in topology.of_kind(kind):
            yield _equipment(inputs, item)


def _equipment(inputs: Inputs, item: Equipment) -> MaterialLine:
    """One piece of equipment; the inverter alone is named by the job as a product."""
    named = item.kind is Kind.INVERTER
    return MaterialLine(
        group=ELECTRICAL,
        item="Inverter" if named else item.name,
        product=item.name if named else ", ".join(item.ratings[:1]),
        document=inputs.inverter.document if named else "",
        quantity=1,
        spare=0,
        unit="each",
        counted=f"{item.tag} OF THE ONE-LINE DIAGRAM",
    )
