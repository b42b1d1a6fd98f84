"""A string of converters keeps the limits of its listing."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding
from planset.rules.limits import at_least_outcome, at_most_outcome
from planset.rules.lines import string_line
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare fewest and most converters, and the power of the string."""
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


RULE = Rule(
    id="electrical.converter-string",
    title="Strings of converters",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
