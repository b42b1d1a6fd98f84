"""The short-circuit current on each inverter input stays within its maker's limit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding
from planset.rules.circuits import by_input, inverter_of, module_of
from planset.rules.limits import at_most_outcome
from planset.rules.lines import string_line
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Add the rated short-circuit currents of the strings in parallel, outputs of converters."""
    for (inverter_id, number), strings in by_input(design).items():
        inverter = inverter_of(design, inverter_id)
        current = sum(
            s.maximum_current_a if s.converter else module_of(design, s.module).sizing_isc_a
            for s in strings
        )
        outcome = at_most_outcome(current, inverter.max_input_isc_a)
        names = ", ".join(string.id for string in strings)
        fact = (
            f"Input {number} of {inverter_id}, {inverter.model}, gets {current:.2f} A from "
            f"{names}; it takes {inverter.max_input_isc_a:g} A"
        )
        yield RULE.found(
            outcome,
            inverter.document,
            sentence(outcome, fact, "spread the strings over more inputs"),
            measured=current,
            limit=inverter.max_input_isc_a,
            unit="A",
            objects=tuple(string.id for string in strings),
            line=string_line(design, strings[0].id, "input"),
        )


RULE = Rule(
    id="electrical.input-current",
    title="Current into the inverter",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
