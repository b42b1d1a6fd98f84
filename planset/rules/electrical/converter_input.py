"""A module keeps the limits of its converter's input."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding
from planset.rules.circuits import cold_voc, input_current
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare cold voltage, short-circuit current and power of a converter's modules."""
    converter = design.inputs.converter
    if converter is None:
        return
    used = dict.fromkeys(string.module for string in design.electrical.strings)
    for name in used:
        module = design.inputs.modules[name]
        current_a, basis = input_current(module, converter.current_basis)
        pairs = (
            ("V", converter.modules * cold_voc(design, module), converter.max_input_v),
            ("A", current_a, converter.max_input_isc_a),
            ("W", converter.modules * module.power_w, converter.max_module_w),
        )
        for unit, value, limit in pairs:
            outcome = at_most_outcome(value, limit)
            fact = (
                f"Module {module.model} gives {converter.model} up to {value:.2f} {unit}"
                f"{f', {basis}' if unit == 'A' else ''}; it takes {limit:g} {unit}"
            )
            yield RULE.found(
                outcome,
                converter.document,
                sentence(outcome, fact, "choose a converter rated for the module"),
                measured=value,
                limit=limit,
                unit=unit,
                objects=tuple(s.id for s in design.electrical.strings if s.module == name),
                line=design.inputs.line_of("electrical", "converter"),
            )


RULE = Rule(
    id="electrical.converter-input",
    title="Input of the converters",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
