"""The inverter carries the loads it goes on feeding without the grid."""

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
    """Compare the stated load with the inverter's backup output."""
    panel = design.inputs.job.electrical.backup
    if panel is None:
        return
    hybrid = hybrid_id(design.inputs)
    assert hybrid is not None, "a backup panel stands at a hybrid inverter; reading sees to it"
    inverter = inverter_of(design, hybrid)
    assert inverter.backup is not None, (
        "a backup panel stands on such an output; reading sees to it"
    )
    outcome = at_most_outcome(panel.load, inverter.backup.current_a)
    fact = (
        f"The loads of {panel.id} take {panel.load:g} A; {inverter.model} gives "
        f"{inverter.backup.current_a:g} A without the grid"
    )
    yield RULE.found(
        outcome,
        inverter.document,
        sentence(outcome, fact, "move loads back to the main panel"),
        measured=panel.load,
        limit=inverter.backup.current_a,
        unit="A",
        objects=(panel.id,),
        line=design.inputs.line_of("electrical", "backup", "load"),
    )


RULE = Rule(
    id="electrical.backup-load",
    title="Load of the backup panel",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
