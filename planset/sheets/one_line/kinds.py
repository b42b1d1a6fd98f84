"""How each kind of equipment is drawn."""

from __future__ import annotations

import re
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
        Kind.CONTACT: "CONTACT_OPENS",
        Kind.BUTTON: "BUTTON_OPENS",
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

_NAMED = frozenset(
    {Kind.INVERTER, Kind.BATTERY, Kind.SHUTDOWN, Kind.CONVERTERS, Kind.MICROINVERTERS}
)
_IN_ROWS = MappingProxyType(
    {Kind.SHUTDOWN: "PER STRING", Kind.CONVERTERS: "PER STRING", Kind.STRING: "MODULES"}
)


_MPPT = re.compile(r"MPPT [\d.]+-[\d.]+ V, ")


def ratings_of(item: Equipment) -> tuple[str, ...]:
    """Ratings as printed beside the name: without the model, which the name ends with.

    An inverter that holds its input at a fixed voltage has no range to track.
    """
    said = item.ratings
    if item.kind is Kind.INVERTER and any("FIXED" in words for words in said):
        said = tuple(_MPPT.sub("", words) for words in said)
    model = item.name.split()[-1] if item.kind in _NAMED and item.name else ""
    return tuple(_without(model, words) for words in said) if model else said


def _without(model: str, words: str) -> str:
    words = words.removeprefix(f"{model}, ")
    count, _, rest = words.partition(f" {model}")
    is_count = count.startswith("(") and count != words and rest[:1] in ("", ",")
    return f"{_units(count)}{rest}" if is_count else words


def _units(count: str) -> str:
    """A count in parentheses and what it counts."""
    return f"{count} UNIT" if count == "(1)" else f"{count} UNITS"


def tag_words(item: Equipment) -> str:
    """Tag with the mark of what is there already or new."""
    return f"{item.tag} {status(existing=item.existing)}"


def status(*, existing: bool) -> str:
    """The mark of what is there already, and of what is new."""
    return "(E)" if existing else "(N)"


def short_ratings(item: Equipment) -> tuple[str, ...]:
    """What stands at the symbol where all other ratings are scheduled: amperes, poles, fuses."""
    if item.kind in _IN_ROWS:
        return (f"({item.count}) {_IN_ROWS[item.kind]}",)
    if item.kind is Kind.MICROINVERTERS:
        return (_units(f"({item.count})"),)
    if item.rating_a is None:
        return ()
    if item.kind in (Kind.BREAKER, Kind.MAIN) and item.ratings:
        return item.ratings[:1]
    fuses = [words for words in item.ratings if words.startswith("FUSED")]
    return (f"{item.rating_a:g} A", *fuses)
