"""Control circuits: what stops an array or batteries, beside the tree of power."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING, Literal

from planset.codes.nec import raceways
from planset.design.electrical.ratings import wire_size
from planset.design.electrical.topology import ControlCircuit, Equipment, Kind, Topology
from planset.job.electrical_checks.control import SWITCHES

if TYPE_CHECKING:
    from planset.job.electrical.control import ControlWiring
    from planset.job.electrical.electrical import Electrical
    from planset.job.load import Inputs


def with_controls(topology: Topology, inputs: Inputs) -> Topology:
    """The topology with its control circuits; what they end at names them among its ratings."""
    controls = tuple(_controls(inputs.job.electrical))
    said: dict[str, list[str]] = {}
    for one in controls:
        said.setdefault(one.end, []).append(f"{one.input.upper()}: CONTROL {one.tag}")
        if one.device.panel:
            words = f"{one.device.name} {one.device.tag}: CONTROL {one.tag}"
            said.setdefault(one.device.panel, []).append(words)
    equipment = tuple(
        replace(item, ratings=(*item.ratings, *said.get(item.tag, ())))
        for item in topology.equipment
    )
    panels = tuple(
        replace(panel, ratings=(*panel.ratings, *said.get(panel.tag, ())))
        for panel in topology.panels
    )
    return replace(topology, equipment=equipment, panels=panels, controls=controls)


def _controls(electrical: Electrical) -> Iterator[ControlCircuit]:
    contact, number = electrical.shutdown_contact, 0
    if contact is not None and electrical.initiator in SWITCHES:
        number += 1
        switch = SWITCHES[electrical.initiator]
        device = Equipment(
            contact.id,
            Kind.CONTACT,
            "AUXILIARY CONTACT",
            (_moves(contact.contact, f"AS {switch} IS OPENED"),),
            panel=switch,
        )
        yield _circuit(
            f"C{number}", device, contact.stops, contact.input, contact.effect, contact.wiring
        )
    storage = electrical.storage
    if storage is not None and (button := storage.shutdown_switch) is not None:
        number += 1
        device = Equipment(
            button.id,
            Kind.BUTTON,
            button.device.upper(),
            (_moves(button.contact, "AS IT IS OPERATED"), f"TYPE {button.enclosure}"),
            button.location,
        )
        effect = f"stops {storage.id}"
        yield _circuit(f"C{number}", device, storage.id, button.input, effect, button.wiring)


def _moves(contact: Literal["opens", "closes"], when: str) -> str:
    return f"{contact.upper()} {when}"


def _circuit(
    tag: str, device: Equipment, end: str, at_input: str, effect: str, wiring: ControlWiring
) -> ControlCircuit:
    area = raceways.conductor_area_in2(wiring.size, wiring.insulation)
    raceway = raceways.trade_sizes(wiring.raceway)[wiring.trade_size]
    filled = raceways.fill(raceway, [area] * wiring.conductors)
    return ControlCircuit(
        tag=tag,
        device=device,
        end=end,
        input=at_input,
        effect=effect,
        conductors=wiring.conductors,
        size=wire_size(wiring.size),
        insulation=wiring.insulation,
        material=wiring.material,
        voltage_v=wiring.voltage,
        fill=filled,
        length_ft=wiring.length / 12.0,
    )
