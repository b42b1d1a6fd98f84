"""What each disconnect serves: one label for those that serve the same."""

from __future__ import annotations

from collections.abc import Mapping

from planset.design.electrical.label_system import LabelSystem
from planset.design.electrical.ratings import disconnect_name
from planset.design.electrical.topology import Kind, Topology

_SWITCHES = (Kind.DC_DISCONNECT, Kind.DISCONNECT, Kind.FUSED_DISCONNECT)
_BOTH = "PHOTOVOLTAIC SYSTEM AND ENERGY STORAGE"


def purposes(system: LabelSystem) -> Mapping[tuple[str, ...], tuple[str, ...]]:
    """Words of each label to the tags it goes on: switches and breakers that sources feed."""
    topology = system.topology
    switches = [item.tag for item in topology.of_kind(*_SWITCHES)]
    breakers = [item.tag for item in topology.of_kind(Kind.BREAKER) if topology.feeding[item.tag]]
    found: dict[tuple[str, ...], list[str]] = {}
    for tag in (*switches, *breakers):
        found.setdefault(_words(system, tag), []).append(tag)
    return {words: tuple(tags) for words, tags in found.items()}


def _words(system: LabelSystem, tag: str) -> tuple[str, ...]:
    """With the name of the disconnect that storage, too, feeds through, as other labels call it."""
    if not _stored(system.topology, tag):
        return ("PHOTOVOLTAIC SYSTEM",)
    if system.topology.by_tag[tag].kind is Kind.BREAKER:
        return ("SOURCES BREAKER", _BOTH)
    return (disconnect_name(system.inputs.job.electrical), _BOTH)


def _stored(topology: Topology, tag: str) -> bool:
    """Whether a battery feeds through a piece of equipment."""
    return topology.by_tag[tag].kind is Kind.BATTERY or any(
        _stored(topology, way.start) for way in topology.feeding[tag]
    )
