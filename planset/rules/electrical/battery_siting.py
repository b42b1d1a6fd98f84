"""Where batteries stand: what is stated is told, and the authority is asked."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Tell the authority the facts of the place; the residential code's limits are not entered.

    Living space fails, as no authority takes it (common practice, no source).
    """
    storage, battery = design.inputs.job.electrical.storage, design.inputs.battery
    if storage is None or battery is None:
        return
    living = storage.place == "living_space"
    outcome = Outcome.FAIL if living else Outcome.ASK
    openings = (
        "no door or window near"
        if storage.to_openings is None
        else (f"{format_feet_inches(storage.to_openings)} to a door or window")
    )
    apart = "alone" if storage.apart is None else f"{format_feet_inches(storage.apart)} apart"
    fact = (
        f"{storage.count} x {battery.energy_kwh:g} kWh stand in: "
        f"{storage.place.replace('_', ' ')}, {openings}, {apart}, vehicle barrier "
        f"{storage.vehicle_barrier.replace('_', ' ')}, smoke alarms {storage.smoke_alarms}"
    )
    change = (
        "choose another place"
        if living
        else "ask the authority whether place, distances and alarms suit its residential code"
    )
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        objects=(storage.id,),
        line=design.inputs.line_of("electrical", "storage", "place"),
    )


RULE = Rule(
    id="electrical.battery-siting",
    title="Place of the batteries",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
