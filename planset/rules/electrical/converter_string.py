"""A string of converters keeps the limits of its listing."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding
from planset.rules.circuits import inverter_of
from planset.rules.limits import at_least_outcome, at_most_outcome
from planset.rules.lines import string_line
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.catalog.converter import Converter
    from planset.design.design import Design
    from planset.design.electrical.system import StringCircuit


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare fewest and most converters, the power, and what they reach together."""
    converter = design.inputs.converter
    if converter is None:
        return
    for string in design.electrical.strings:
        count = -(-len(string.modules) // converter.modules)
        pairs = (
            ("converters", float(count), float(converter.fewest_per_string), at_least_outcome),
            ("converters", float(count), float(converter.most_per_string), at_most_outcome),
            ("W", string.power_w, converter.max_string_w, at_most_outcome),
        )
        for unit, value, limit, judge in pairs:
            outcome = judge(value, limit)
            bound = "least" if judge is at_least_outcome else "most"
            fact = (
                f"String {string.id} has {value:g} {unit}, and {limit:g} {unit} is the {bound} "
                f"that {converter.model} is listed for"
            )
            yield RULE.found(
                outcome,
                converter.document,
                sentence(outcome, fact, "move modules between the strings"),
                measured=value,
                limit=limit,
                unit=unit,
                objects=(string.id,),
                line=string_line(design, string.id, "modules"),
            )
        yield from _reach(design, converter, string, count)


def _reach(
    design: Design, converter: Converter, string: StringCircuit, count: int
) -> Iterator[Finding]:
    """Compare the most that the converters give in series with the inverter's fixed voltage."""
    inverter = inverter_of(design, string.inverter)
    if inverter.fixed_dc_v is None:
        return
    together_v = count * converter.output_v
    outcome = at_least_outcome(together_v, inverter.fixed_dc_v)
    fact = (
        f"The {count} converters of string {string.id} give up to {together_v:g} V together, where "
        f"{inverter.model} holds the string at {inverter.fixed_dc_v:g} V"
    )
    yield RULE.found(
        outcome,
        inverter.document,
        sentence(outcome, fact, "put more modules into the string"),
        measured=together_v,
        limit=inverter.fixed_dc_v,
        unit="V",
        objects=(string.id,),
        line=string_line(design, string.id, "modules"),
    )


RULE = Rule(
    id="electrical.converter-string",
    title="Strings of converters",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
