"""Where batteries stand, item by item of the residential code; what is not stated is asked."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from planset.codes.irc import energy_storage as code
from planset.finding import Finding, Outcome
from planset.rules.limits import at_most_outcome, clearance_outcome
from planset.rules.model_codes import with_california
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.catalog.battery import Battery
    from planset.design.design import Design
    from planset.job.electrical.sources import Storage


@dataclass(frozen=True, slots=True)
class _Item:
    """What one part of the section comes to; the arguments are those of a finding."""

    part: str
    title: str
    outcome: Outcome
    fact: str
    change: str
    measured: float | None = None
    limit: float | None = None
    unit: str = ""


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Judge each part of the section by what the job states, and ask about the rest."""
    storage, battery = design.inputs.job.electrical.storage, design.inputs.battery
    if storage is None or battery is None:
        return
    for item in _items(storage, battery, citation):
        said = sentence(item.outcome, item.fact, item.change)
        found = RULE.found(
            item.outcome,
            f"{citation}{item.part}",
            f"{item.title}: {said}",
            measured=item.measured,
            limit=item.limit,
            unit=item.unit,
            objects=(storage.id,),
            line=design.inputs.line_of("electrical", "storage", "place"),
        )
        yield replace(found, title=f"{RULE.title}: {item.title.lower()}")


def _items(storage: Storage, battery: Battery, section: str) -> Iterator[_Item]:
    yield _listing(battery)
    yield _location(storage)
    if storage.place == "outdoors":
        yield _openings(storage)
    if storage.count > 1:
        yield _spacing(storage)
    yield from _energy(storage, battery)
    yield _detection(storage)
    yield _impact(storage)
    yield _Item(
        code.VENTILATION,
        "Ventilation",
        Outcome.ASK,
        f"whether {battery.model} gives off gas in charging is not stated",
        f"show the exhaust, or the listing by which none is needed; {section} is cited from "
        "memory, so confirm its parts against the adopted book",
    )


def _listing(battery: Battery) -> _Item:
    listed = "UL 9540" in battery.listing
    return _Item(
        code.LISTING,
        "Listing",
        Outcome.PASS if listed else Outcome.FAIL,
        f"{battery.document} gives {battery.listing}",
        "take a unit listed to UL 9540",
    )


def _location(storage: Storage) -> _Item:
    place = storage.place.replace("_", " ")
    stands = f"it stands in: {place}"
    if storage.place == "living_space":
        return _Item(
            code.LOCATIONS, "Location", Outcome.FAIL, stands, "choose a place the section permits"
        )
    if storage.place in ("outdoors", "detached_garage"):
        return _Item(code.LOCATIONS, "Location", Outcome.PASS, stands, "")
    if storage.place == "utility_room":
        change = (
            "show that its walls and ceiling are finished or noncombustible, and that it does not "
            "open into a sleeping room"
        )
        return _Item(code.LOCATIONS, "Location", Outcome.ASK, stands, change)
    opening = (
        "the door into the house is not stated"
        if storage.to_openings is None
        else f"the nearest door or window is {format_feet_inches(storage.to_openings)} away"
    )
    change = (
        f"show that {code.SEPARATION} parts the garage from the dwelling; its outline and door are "
        "not drawn"
    )
    return _Item(code.LOCATIONS, "Location", Outcome.ASK, f"{stands}; {opening}", change)


def _openings(storage: Storage) -> _Item:
    measured = storage.to_openings
    least = format_feet_inches(code.LEAST_TO_OPENINGS_IN, rounding="up")
    return _Item(
        code.LOCATIONS,
        "Doors and windows",
        Outcome.PASS
        if measured is None
        else clearance_outcome(measured, code.LEAST_TO_OPENINGS_IN),
        "none near"
        if measured is None
        else f"the nearest is {format_feet_inches(measured, rounding='down')} away",
        f"keep more than {least} from doors and windows into the dwelling",
        measured,
        None if measured is None else code.LEAST_TO_OPENINGS_IN,
        "" if measured is None else "in",
    )


def _spacing(storage: Storage) -> _Item:
    least = format_feet_inches(code.LEAST_APART_IN, rounding="up")
    if storage.apart is None:
        change = f"state storage.apart; less than {least} needs the fire tests of the listing"
        fact = f"how far the {storage.count} units stand apart is not stated"
        return _Item(code.SPACING, "Spacing", Outcome.ASK, fact, change)
    outcome = clearance_outcome(storage.apart, code.LEAST_APART_IN)
    return _Item(
        code.SPACING,
        "Spacing",
        Outcome.ASK if outcome is Outcome.FAIL else outcome,
        f"units stand {format_feet_inches(storage.apart, rounding='down')} apart",
        f"less than {least} needs the fire tests of the listing: show them",
        storage.apart,
        code.LEAST_APART_IN,
        "in",
    )


def _energy(storage: Storage, battery: Battery) -> Iterator[_Item]:
    whole = storage.count * battery.energy_kwh
    place = storage.place.replace("_", " ")
    of_place = code.MOST_OF_PLACE_KWH.get(storage.place)
    for words, kwh, most in (
        ("one unit", battery.energy_kwh, code.MOST_OF_UNIT_KWH),
        (f"all units, {place}", whole, of_place),
    ):
        if most is None:
            continue
        yield _Item(
            code.ENERGY,
            "Energy",
            at_most_outcome(kwh, most),
            f"{words}: {kwh:g} kWh of {most:g} kWh",
            "beyond it the fire code decides: take less, or ask the fire official",
            kwh,
            most,
            "kWh",
        )


def _detection(storage: Storage) -> _Item:
    present = storage.smoke_alarms == "present"
    return _Item(
        code.DETECTION,
        "Smoke alarms",
        Outcome.PASS if present else Outcome.FAIL,
        f"interconnected alarms of the dwelling: {storage.smoke_alarms}",
        "add alarms, or a listed heat detector where they cannot stand",
    )


def _impact(storage: Storage) -> _Item:
    bare = storage.vehicle_barrier == "none"
    return _Item(
        code.IMPACT,
        "Vehicle impact",
        Outcome.FAIL if bare else Outcome.PASS,
        f"vehicle barrier: {storage.vehicle_barrier.replace('_', ' ')}",
        "set an approved barrier before the unit, or choose a place that no car reaches",
    )


def _has_no_battery(design: Design) -> bool:
    return design.inputs.job.electrical.storage is None


RULE = Rule(
    id="electrical.battery-siting",
    title="Place of the batteries",
    subject="electrical",
    held_by="residential",
    clauses=with_california("IRC", "CRC", code.CLAUSES),
    check=check,
    concerns="dwellings",
    is_idle=_has_no_battery,
)
