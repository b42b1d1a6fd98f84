"""From the inverters and branches to the point of connection."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.design.electrical import ratings
from planset.design.electrical.devices import Devices
from planset.design.electrical.draft import Draft, circuit
from planset.design.electrical.panels import PanelParts, add_breaker, add_panel
from planset.design.electrical.sources import Source
from planset.design.electrical.topology import Equipment, Kind, RunName, Segment

if TYPE_CHECKING:
    from planset.job.electrical.electrical import Electrical
    from planset.job.load import Inputs


@dataclass(frozen=True, slots=True)
class Way:
    """Where a circuit has got to.

    Attributes:
        tag: The piece it leaves.
        circuit: What it carries on.
    """

    tag: str
    circuit: Segment


def output_way(inputs: Inputs, source: Source, tag: str) -> Way:
    """The output of an inverter, or a branch past its box."""
    boxes = {item.id: item.junction_box for item in inputs.job.electrical.branches}
    box = boxes.get(source.id, "")
    words = "MICROINVERTER BRANCH" if box else "INVERTER OUTPUT"
    run: RunName = "branch" if box else "output"
    return Way(tag, _ac(inputs, words, run, source.circuit_a, neutral=source.neutral, box=box))


def combine(
    draft: Draft,
    inputs: Inputs,
    sources: tuple[Source, ...],
    ways: list[Way],
    devices: Devices,
) -> list[Way]:
    """Lead the sources into the combiner, and return the way out; unchanged without one."""
    combiner = inputs.job.electrical.combiner
    if combiner is None:
        return ways
    service = inputs.job.electrical.service
    parts = PanelParts(
        combiner.id,
        "AC COMBINER PANEL",
        combiner.bus,
        combiner.main,
        service.poles,
        combiner.interrupting,
        combiner.location,
        ratings.phases(service),
        existing=False,
        main_existing=False,
    )
    for source in sources:
        device = devices.of_sources[source.id]
        name = f"BREAKER OF {source.id}"
        add_breaker(draft, parts, device.tag, name, device.rating_a, combiner.interrupting)
    add_panel(draft, parts)
    for source, way in zip(sources, ways, strict=True):
        draft.connect(way.tag, devices.of_sources[source.id].tag, way.circuit)
    total_a = math.fsum(source.circuit_a for source in sources)
    neutral = any(source.neutral for source in sources)
    words = "COMBINED INVERTER OUTPUT"
    return [Way(parts.head, _ac(inputs, words, "combined", total_a, neutral=neutral))]


def to_disconnect(
    draft: Draft, inputs: Inputs, sources: tuple[Source, ...], ways: list[Way], devices: Devices
) -> Way:
    """Lead on over the production meter to the disconnect, and return the way out of that."""
    electrical = inputs.job.electrical
    service, meter = electrical.service, electrical.production_meter
    if meter is not None:
        owner = f"{meter.owner.upper()}-OWNED"
        lines = (ratings.phases(service), owner)
        draft.add(Equipment("M2", Kind.METER, "PRODUCTION METER", lines, meter.location))
    draft.add(_disconnect(inputs, devices))
    first = "M2" if meter is not None else "DISC1"
    numbers = [draft.connect(way.tag, first, way.circuit) for way in ways]
    total_a = math.fsum(source.circuit_a for source in sources)
    neutral = any(source.neutral for source in sources)
    if meter is not None:
        last = ways[-1].circuit
        run = last.run or "output"
        on = _ac(
            inputs,
            last.circuit,
            run,
            total_a,
            neutral=neutral,
            continues=numbers[-1],
            box=last.box,
        )
        draft.connect("M2", "DISC1", on)
    return Way(
        "DISC1", _ac(inputs, _output_name(electrical), "connection", total_a, neutral=neutral)
    )


def _output_name(electrical: Electrical) -> str:
    return "PV SYSTEM OUTPUT" if electrical.storage is None else "SOURCES OUTPUT"


def _disconnect(inputs: Inputs, devices: Devices) -> Equipment:
    electrical = inputs.job.electrical
    given, fuse = electrical.disconnect, devices.fuse
    lines = ratings.disconnect(given, electrical.service, fuse.rating_a if fuse else None)
    if electrical.initiator == "pv_disconnect":
        lines += ("RAPID SHUTDOWN INITIATOR",)
    return Equipment(
        "DISC1",
        Kind.FUSED_DISCONNECT if fuse else Kind.DISCONNECT,
        ratings.disconnect_name(electrical),
        lines,
        given.location,
        rating_a=given.rating,
        interrupting_a=given.interrupting,
    )


def _ac(
    inputs: Inputs,
    words: str,
    run: RunName,
    current_a: float,
    *,
    neutral: bool,
    continues: str = "",
    box: str = "",
) -> Segment:
    service = inputs.job.electrical.service
    return circuit(
        words,
        run,
        ac=True,
        current_a=current_a,
        operating_a=current_a,
        voltage_v=service.voltage,
        operating_v=service.voltage,
        lines=service.poles,
        neutral=neutral,
        continues=continues,
        box=box,
    )
