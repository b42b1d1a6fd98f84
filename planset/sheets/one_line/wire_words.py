"""What stands at a wire: conductors over it, raceway under it; the schedule says the rest."""

from __future__ import annotations

from planset.design.electrical.conductors import SizedRun
from planset.design.electrical.ratings import wire_size
from planset.design.electrical.topology import Link, Segment
from planset.sheets.words import raceway_name

_METALS = {"COPPER": "CU", "ALUMINUM": "AL"}


def brief(conductor: str) -> str:
    """A conductor in capitals, its metal by two letters."""
    said = conductor.upper()
    for metal, letters in _METALS.items():
        said = said.replace(metal, letters)
    return said.removesuffix(", WITH THE SERVICE CONDUCTORS")


def conductor_brief(way: Segment | Link | None) -> str:
    """Count, size and metal, as "(2) 8 AWG CU + N"; "" for a link, which has no conductors."""
    if not isinstance(way, Segment):
        return ""
    if way.conductors is not None:
        return _sized(way.conductors)
    if way.cable:
        gauge = next((part for part in way.cable.split(", ") if "AWG" in part.upper()), way.cable)
        return brief(f"{gauge} CABLE")
    if way.run is not None:
        return "NOT SIZED"
    return brief(f"(E) {way.existing}".strip())


def _sized(run: SizedRun) -> str:
    words = f"({run.ungrounded}) {wire_size(run.size)} {run.material}"
    if not run.neutrals:
        return brief(words)
    count = f"({run.neutrals}) " if run.neutrals > 1 else ""
    size = "" if run.neutral_size in ("", run.size) else f" {wire_size(run.neutral_size)}"
    return brief(f"{words} + {count}N{size}")


def raceway_lines(way: Segment | Link | None) -> list[str]:
    """Trade size and kind of the raceway, and the runs that share it."""
    if not isinstance(way, Segment) or way.conductors is None:
        return []
    run = way.conductors
    if run.fill is None:
        return ["FREE AIR"]
    said = [raceway_name(run.fill.raceway)]
    return said + ([f"SHARED WITH {', '.join(run.shares_with)}"] if run.shares_with else [])
