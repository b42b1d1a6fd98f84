"""A module keeps the limits of its microinverter's input."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding
from planset.rules.circuits import branch_line, module_of
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the cold voltage and the short-circuit current of a unit's modules."""
    for branch in design.electrical.branches:
        unit = design.inputs.microinverters[branch.inverter]
        module = module_of(design, branch.module)
        pairs = (
            ("open circuit at the lowest ambient", branch.cold_voc_v, unit.max_dc_v, "V"),
            ("short-circuit current", module.sizing_isc_a, unit.max_input_isc_a, "A"),
        )
        for what, value, limit, symbol in pairs:
            outcome = at_most_outcome(value, limit)
            fact = (
                f"Module {module.model} gives {unit.model} {value:.2f} {symbol}, {what}; it takes "
                f"{limit:g} {symbol}"
            )
            yield RULE.found(
                outcome,
                unit.document,
                sentence(outcome, fact, "choose a microinverter rated for the module"),
                measured=value,
                limit=limit,
                unit=symbol,
                objects=(branch.id,),
                line=branch_line(design, branch.id, "inverter"),
            )


RULE = Rule(
    id="electrical.microinverter-input",
    title="Input of the microinverters",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
