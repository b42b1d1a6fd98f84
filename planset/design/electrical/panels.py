"""Panels on the ac side: main or lugs, bus, breakers and loads."""

from __future__ import annotations

from dataclasses import dataclass

from planset.design.electrical import ratings
from planset.design.electrical.draft import Draft
from planset.design.electrical.topology import Equipment, Kind, Panel


@dataclass(frozen=True, slots=True)
class PanelParts:
    """What a panel consists of.

    Attributes:
        tag: Its tag.
        name: What it is, as printed.
        bus_a: Rating of the bus [A].
        main_a: Rating of the main; None for lugs only [A].
        poles: Poles of its breakers.
        interrupting_a: Interrupting rating of its devices, None where it is not stated [A].
        location: Where it stands.
        service: Voltage and phases, as printed.
        existing: Whether it is there already.
        main_existing: The same of its main.
        feed: How the bus is fed, as printed; "" where that is not stated.
        loads: Words for its loads; "" for none.
    """

    tag: str
    name: str
    bus_a: float
    main_a: float | None
    poles: int
    interrupting_a: float | None
    location: str
    service: str
    existing: bool
    main_existing: bool
    feed: str = ""
    loads: str = ""

    @property
    def bus(self) -> str:
        """Tag of its bus."""
        return f"{self.tag}-BUS"

    @property
    def head(self) -> str:
        """Tag of its main, or of its lugs."""
        return f"{self.tag}-{'LUGS' if self.main_a is None else 'MAIN'}"


def add_panel(draft: Draft, parts: PanelParts) -> None:
    """Add the enclosure, loads, bus and main; its breakers come before (`add_breaker`)."""
    main = "MAIN LUGS" if parts.main_a is None else f"MAIN {parts.main_a:g} A"
    feed = (parts.feed,) if parts.feed else ()
    lines = (f"BUS {parts.bus_a:g} A, {main}", parts.service, *feed)
    draft.enclose(Panel(parts.tag, parts.name, lines, parts.location, parts.existing))
    if parts.loads:
        tag = f"{parts.tag}-LOADS"
        loads = Equipment(
            tag, Kind.LOADS, parts.loads, (), panel=parts.tag, existing=parts.existing
        )
        draft.add(loads)
    draft.add(
        Equipment(
            parts.bus,
            Kind.BUS,
            "BUS",
            (f"{parts.bus_a:g} A",),
            panel=parts.tag,
            existing=parts.existing,
            rating_a=parts.bus_a,
        )
    )
    draft.add(_head(parts))
    if parts.loads:
        draft.link(f"{parts.tag}-LOADS", parts.bus)
    draft.link(parts.bus, parts.head)


def _head(parts: PanelParts) -> Equipment:
    if parts.main_a is None:
        existing = parts.existing
        return Equipment(parts.head, Kind.LUGS, "MAIN LUGS", (), panel=parts.tag, existing=existing)
    return Equipment(
        parts.head,
        Kind.MAIN,
        "MAIN BREAKER",
        ratings.breaker(parts.main_a, parts.poles, parts.interrupting_a),
        panel=parts.tag,
        existing=parts.main_existing,
        rating_a=parts.main_a,
        interrupting_a=parts.interrupting_a,
    )


def add_breaker(
    draft: Draft,
    parts: PanelParts,
    tag: str,
    name: str,
    rating_a: float,
    interrupting_a: float | None,
    more: tuple[str, ...] = (),
    *,
    existing: bool = False,
) -> None:
    """Add a breaker in a panel, and link it to the bus there."""
    draft.add(
        Equipment(
            tag,
            Kind.BREAKER,
            name,
            (*ratings.breaker(rating_a, parts.poles, interrupting_a), *more),
            panel=parts.tag,
            existing=existing,
            rating_a=rating_a,
            interrupting_a=interrupting_a,
        )
    )
    draft.link(tag, parts.bus)
