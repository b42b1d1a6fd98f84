"""From the modules to the inverters, or to the boxes where branches leave the roof."""

from __future__ import annotations

import math
from collections import defaultdict
from typing import TYPE_CHECKING

from planset.design.electrical import ratings
from planset.design.electrical.draft import Draft, circuit
from planset.design.electrical.system import BranchCircuit, StringCircuit
from planset.design.electrical.topology import Equipment, Kind, Panel, Segment

if TYPE_CHECKING:
    from planset.catalog.inverter import Inverter
    from planset.job.electrical.sources import JunctionBox, PlacedInverter
    from planset.job.load import Inputs


class Boxes:
    """The junction boxes; one that several ways lead through is an enclosure around them."""

    def __init__(
        self,
        inputs: Inputs,
        strings: tuple[StringCircuit, ...],
        branches: tuple[BranchCircuit, ...],
    ) -> None:
        self._given = {box.id: box for box in inputs.job.electrical.junction_boxes}
        self._ways: dict[str, dict[str, None]] = defaultdict(dict)
        for string in strings:
            self._ways[string.junction_box][string.inverter] = None
        for branch in branches:
            self._ways[branch.junction_box][branch.id] = None
        self._enclosed: set[str] = set()

    def add(
        self, draft: Draft, box: str, way: str, change: tuple[str, ...], fuses: tuple[str, ...] = ()
    ) -> str:
        """Add the part of a box that leads to an inverter or a branch's breaker.

        Args:
            draft: The topology so far.
            box: Id of the box.
            way: Where the part leads to, or what it comes from.
            change: What goes over into what in all of the box.
            fuses: The fuses of this part.
        """
        shared = len(self._ways[box]) > 1
        given = self._given.get(box)
        location = _location(given)
        if shared and box not in self._enclosed:
            self._enclosed.add(box)
            draft.enclose(Panel(box, "JUNCTION BOX", change, location, existing=False))
        return draft.add(
            Equipment(
                f"{box}-{way}" if shared else box,
                Kind.JUNCTION_BOX,
                "JUNCTION BOX",
                (*change, *fuses),
                location,
                panel=box if shared else "",
            )
        )


def _location(box: JunctionBox | None) -> str:
    return f"on the roof, at array {box.array}" if box else ""


def _change_in(inputs: Inputs, box: str) -> tuple[str, ...]:
    """What the conductors of strings go over into in a box."""
    wiring = inputs.job.electrical.wiring
    outside, inside = wiring.run("array", box), wiring.run("dc", box)
    if not (outside and inside) or outside.insulation == inside.insulation:
        return ()
    return (f"{outside.insulation.upper()} TO {inside.insulation.upper()}",)


def _fuses(strings: list[StringCircuit]) -> tuple[str, ...]:
    """The fuses of strings."""
    found = sorted({string.fuse_a for string in strings if string.fuse_a is not None})
    return tuple(f"STRING FUSES {fuse:g} A" for fuse in found)


def add_inverter(
    draft: Draft,
    inputs: Inputs,
    placed: PlacedInverter,
    strings: tuple[StringCircuit, ...],
    boxes: Boxes,
) -> None:
    """Add the strings of an inverter, their boxes, its dc disconnect and the inverter."""
    inverter = inputs.inverters[placed.model]
    by_box: dict[str, list[StringCircuit]] = defaultdict(list)
    for string in strings:
        by_box[string.junction_box].append(string)
    reached = []
    for box, held in by_box.items():
        starts = [_add_string(draft, inputs, string) for string in held]
        tag = boxes.add(draft, box, placed.id, _change_in(inputs, box), _fuses(held))
        for start, string in zip(starts, held, strict=True):
            draft.connect(start, tag, _string_circuit(string))
        reached.append((tag, held))
    separate = placed.dc_disconnect
    if separate is not None:
        draft.add(
            Equipment(
                separate.id,
                Kind.DC_DISCONNECT,
                "DC DISCONNECT",
                (f"{separate.rating:g} A, {separate.voltage:g} V DC",),
                separate.location,
                rating_a=separate.rating,
            )
        )
    draft.add(_inverter(inputs, placed, inverter))
    end = separate.id if separate else placed.id
    numbers = [draft.connect(tag, end, _dc_circuit(tuple(held))) for tag, held in reached]
    if separate and numbers:
        draft.connect(separate.id, placed.id, _dc_circuit(strings, continues=numbers[0]))


def add_branch(draft: Draft, inputs: Inputs, branch: BranchCircuit, boxes: Boxes) -> str:
    """Add a branch with its box, and return the tag of that."""
    unit, module = inputs.microinverters[branch.inverter], inputs.modules[branch.module]
    draft.add(
        Equipment(
            branch.id,
            Kind.MICROINVERTERS,
            f"{unit.maker} {unit.model}",
            (
                *ratings.microinverters(unit, branch.units),
                *ratings.module(module, len(branch.modules)),
                f"COLD Voc {branch.cold_voc_v:.1f} V",
            ),
            count=branch.units,
            document=unit.document,
        )
    )
    run = inputs.job.electrical.wiring.run("branch", branch.junction_box)
    change = (f"TRUNK CABLE TO {run.insulation.upper()}",) if run else ()
    tag = boxes.add(draft, branch.junction_box, branch.id, change)
    service = inputs.job.electrical.service
    trunk = circuit(
        "MICROINVERTER BRANCH, TRUNK CABLE",
        None,
        ac=True,
        current_a=branch.maximum_current_a,
        operating_a=branch.maximum_current_a,
        voltage_v=service.voltage,
        operating_v=service.voltage,
        lines=service.phases if service.phases == 3 else 2,
        neutral=unit.trunk.neutral,
        cable=f"{unit.trunk.model}, {unit.trunk.conductor}",
        box=branch.junction_box,
        trunk=branch.trunk,
    )
    draft.connect(branch.id, tag, trunk)
    return tag


def _add_string(draft: Draft, inputs: Inputs, string: StringCircuit) -> str:
    """Add a string with what is in line with it, and return the tag of the last piece."""
    module = inputs.modules[string.module]
    draft.add(
        Equipment(
            string.id,
            Kind.STRING,
            f"{module.maker} {module.model}",
            (
                *ratings.module(module, len(string.modules)),
                _string_maximum(inputs, string),
                f"MAX CURRENT {string.maximum_current_a:.2f} A",
                f"TO INPUT {string.input}",
            ),
            count=len(string.modules),
            document=module.document,
        )
    )
    item = _in_line(inputs, string)
    if item is None:
        return string.id
    draft.add(item)
    draft.link(string.id, item.tag)
    return item.tag


def _string_maximum(inputs: Inputs, string: StringCircuit) -> str:
    """The maximum voltage of a string, and that it is its listing's where converters have one."""
    converter = inputs.converter
    if converter is None:
        return f"COLD Voc {string.cold_voc_v:.1f} V MAX"
    by = " BY LISTING" if string.cold_voc_v == converter.string_max_v else ""
    return f"STRING {string.cold_voc_v:.1f} V MAX{by}"


def _in_line(inputs: Inputs, string: StringCircuit) -> Equipment | None:
    """Converters or shutdown devices of a string, None without any."""
    modules = len(string.modules)
    if (converter := inputs.converter) is not None:
        count = math.ceil(modules / converter.modules)
        return Equipment(
            f"CONV-{string.id}",
            Kind.CONVERTERS,
            f"{converter.maker} {converter.model}",
            ratings.converters(converter, count),
            count=count,
            document=converter.document,
        )
    if (device := inputs.shutdown) is not None:
        count = math.ceil(modules / device.modules_per_device)
        return Equipment(
            f"RSD-{string.id}",
            Kind.SHUTDOWN,
            f"{device.maker} {device.model}",
            ratings.shutdown_devices(device, count),
            count=count,
            document=device.document,
        )
    return None


def _string_circuit(string: StringCircuit) -> Segment:
    return circuit(
        "DC-TO-DC CONVERTER CIRCUIT" if string.converter else "PV SOURCE CIRCUIT",
        "array",
        ac=False,
        current_a=string.maximum_current_a,
        operating_a=string.operating_a,
        voltage_v=string.cold_voc_v,
        operating_v=string.operating_v,
        device_a=string.fuse_a,
        box=string.junction_box,
    )


def _dc_circuit(strings: tuple[StringCircuit, ...], continues: str = "") -> Segment:
    """Strings side by side, by the worst of them."""
    farthest = max(strings, key=_loss)
    fuses = [string.fuse_a for string in strings if string.fuse_a is not None]
    words = "DC-TO-DC CONVERTER CIRCUIT" if strings[0].converter else "PV SOURCE CIRCUIT"
    return circuit(
        words if len(strings) == 1 else f"({len(strings)}) {words}S",
        "dc",
        ac=False,
        circuits=len(strings),
        current_a=max(string.maximum_current_a for string in strings),
        operating_a=farthest.operating_a,
        voltage_v=max(string.cold_voc_v for string in strings),
        operating_v=farthest.operating_v,
        device_a=max(fuses, default=None),
        continues=continues,
        box=strings[0].junction_box,
    )


def _loss(string: StringCircuit) -> float:
    """What the share of voltage lost goes by; a string left without modules loses none."""
    return string.operating_a / string.operating_v if string.operating_v else 0.0


def _inverter(inputs: Inputs, placed: PlacedInverter, inverter: Inverter) -> Equipment:
    electrical = inputs.job.electrical
    lines = ratings.inverter(inverter, electrical.service)
    if inputs.shutdown is not None:
        lines += (f"SHUTDOWN TRANSMITTER {inputs.shutdown.transmitter.upper()}",)
    return Equipment(
        placed.id,
        Kind.INVERTER,
        f"{inverter.maker} {inverter.model}",
        (*lines, f"LISTED {inverter.listing.upper()}"),
        placed.location,
        document=inverter.document,
        rating_a=inverter.ac_current_a,
    )
