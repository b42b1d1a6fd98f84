"""How each kind of equipment is drawn."""

from __future__ import annotations

from types import MappingProxyType

from planset.design.electrical.topology import Equipment, Kind

SYMBOLS = MappingProxyType(
    {
        Kind.STRING: "PV_STRING",
        Kind.MICROINVERTERS: "MICROINVERTER_BRANCH",
        Kind.SHUTDOWN: "SHUTDOWN_DEVICE",
        Kind.CONVERTERS: "DC_CONVERTER",
        Kind.JUNCTION_BOX: "JUNCTION_BOX",
        Kind.DC_DISCONNECT: "DISCONNECT_SWITCH",
        Kind.INVERTER: "INVERTER",
        Kind.BATTERY: "BATTERY",
        Kind.METER: "PRODUCTION_METER",
        Kind.DISCONNECT: "DISCONNECT_SWITCH",
        Kind.FUSED_DISCONNECT: "FUSED_DISCONNECT",
        Kind.TAP: "TAP",
        Kind.BREAKER: "CIRCUIT_BREAKER",
        Kind.MAIN: "CIRCUIT_BREAKER",
        Kind.LUGS: "MAIN_LUGS",
        Kind.BUS: "BUS",
        Kind.LOADS: "LOADS",
        Kind.UTILITY_METER: "METER",
        Kind.UTILITY: "UTILITY",
    }
)
"""Kind of equipment to the name of its symbol."""

IN_ARRAY = frozenset({Kind.STRING, Kind.MICROINVERTERS, Kind.SHUTDOWN, Kind.CONVERTERS})
"""Kinds that stand in the array, inside its boundary."""

SOURCES_IN_ARRAY = frozenset({Kind.STRING, Kind.MICROINVERTERS})
"""Kinds whose frames are bonded as the array."""

SWITCHES = frozenset({Kind.DISCONNECT, Kind.FUSED_DISCONNECT, Kind.DC_DISCONNECT})
"""Kinds that open every conductor but the neutral."""

GROUNDED = frozenset(
    {
        Kind.JUNCTION_BOX,
        Kind.DC_DISCONNECT,
        Kind.INVERTER,
        Kind.BATTERY,
        Kind.METER,
        Kind.DISCONNECT,
        Kind.FUSED_DISCONNECT,
    }
)
"""Kinds whose enclosure is bonded; panels are so, too."""

_IN_ROWS = MappingProxyType(
    {Kind.SHUTDOWN: "PER STRING", Kind.CONVERTERS: "PER STRING", Kind.STRING: "MODULES"}
)


def tag_words(item: Equipment) -> str:
    """Tag with the mark of what is there already or new; what stands in the array is new."""
    if item.kind in IN_ARRAY:
        return item.tag
    return f"{item.tag} {status(existing=item.existing)}"


def status(*, existing: bool) -> str:
    """The mark of what is there already, and of what is new."""
    return "(E)" if existing else "(N)"


def short_rating(item: Equipment) -> str:
    """The one rating that stands at the symbol where all the others are scheduled."""
    if item.kind in _IN_ROWS:
        return f"({item.count}) {_IN_ROWS[item.kind]}"
    if item.kind is Kind.MICROINVERTERS:
        return f"({item.count}) UNITS"
    return "" if item.rating_a is None else f"{item.rating_a:g} A"
