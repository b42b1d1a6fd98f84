"""The batteries keep the limits of the inverter's battery port."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.storage import hybrid_id
from planset.finding import Finding
from planset.rules.circuits import inverter_of
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare voltage, current and number with inverter and battery."""
    storage, battery = design.inputs.job.electrical.storage, design.inputs.battery
    if storage is None or battery is None:
        return
    hybrid = hybrid_id(design.inputs)
    assert hybrid is not None, "storage stands on a hybrid inverter; reading sees to it"
    inverter = inverter_of(design, hybrid)
    port = inverter.battery
    assert port is not None, "a hybrid inverter has a battery port; its catalog model sees to it"
    pairs = (
        ("V", battery.max_v, port.max_v, inverter.document),
        ("A", battery.max_current_a * storage.count, port.max_current_a, inverter.document),
        ("units", float(storage.count), float(battery.max_parallel), battery.document),
    )
    make = "makes" if storage.count == 1 else "make"
    for unit, value, limit, document in pairs:
        outcome = at_most_outcome(value, limit)
        fact = (
            f"({storage.count}) {battery.model} {make} {_counted(value, unit)} on the battery port "
            f"of {inverter.model}, where {_counted(limit, unit)} may be"
        )
        yield RULE.found(
            outcome,
            document,
            sentence(outcome, fact, "take fewer or other batteries"),
            measured=value,
            limit=limit,
            unit=unit,
            objects=(storage.id,),
            line=design.inputs.line_of("electrical", "storage"),
        )


RULE = Rule(
    id="electrical.battery-port",
    title="Battery and inverter",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)


def _counted(value: float, unit: str) -> str:
    """A figure and its unit, which is one unit where there is one."""
    return f"{value:g} {unit.removesuffix('s') if value == 1 else unit}"
