"""The voltage of a branch of microinverters rises no more than its maker takes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.trunk_rises import TrunkRise, trunk_rises
from planset.finding import Finding, Outcome
from planset.rules.circuits import branch_line
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.catalog.microinverter import Microinverter
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the rise along each trunk with its maker's limit; ask where it is not known.

    What a note of the code calls good is judged with the drop of the conductors.
    """
    for rise in trunk_rises(design):
        unit = design.inputs.microinverters[rise.branch.inverter]
        if rise.branch.trunk is None:
            yield _unknown(design, rise, unit)
        elif rise.by_maker:
            yield _judged(design, rise, unit)


def _unknown(design: Design, rise: TrunkRise, unit: Microinverter) -> Finding:
    fact = (
        f"The rise along the trunk of {rise.branch.id} is not known: its conductor is "
        f"{unit.trunk.conductor}"
    )
    change = "write it as 12 AWG copper, or add trunk.ohm_per_kft, from the data sheet"
    return RULE.found(
        Outcome.ASK,
        unit.document,
        sentence(Outcome.ASK, fact, change),
        objects=(rise.branch.id,),
        line=branch_line(design, rise.branch.id),
    )


def _judged(design: Design, rise: TrunkRise, unit: Microinverter) -> Finding:
    trunk = rise.branch.trunk
    assert trunk is not None, "asked of known ones only"
    outcome = at_most_outcome(trunk.drop.percent, rise.limit_percent)
    fact = (
        f"Along the {trunk.length_ft:.0f} ft of trunk of {rise.branch.id} the voltage rises "
        f"{trunk.drop.drop_v:.2f} V, {trunk.drop.percent:.2f} %; the maker of {unit.model} takes "
        f"{rise.limit_percent:g} %"
    )
    return RULE.found(
        outcome,
        unit.document,
        sentence(outcome, fact, "put fewer units on the branch"),
        measured=trunk.drop.percent,
        limit=rise.limit_percent,
        unit="%",
        objects=(rise.branch.id,),
        line=branch_line(design, rise.branch.id),
    )


RULE = Rule(
    id="electrical.trunk-rise",
    title="Rise of voltage along a trunk cable",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
