"""No string exceeds the voltage limit on the coldest morning."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import clauses_of
from planset.design.circuits import StringCircuit
from planset.finding import Finding
from planset.rules.limits import at_most_outcome
from planset.rules.lines import string_line
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the cold open-circuit voltage by the maker's coefficient; tell the table's too."""
    circuits, lowest_c = design.circuits, design.inputs.job.site.lowest_ambient
    for string in circuits.strings:
        outcome = at_most_outcome(string.cold_voc_v, circuits.voltage_limit_v)
        fact = (
            f"String {string.id} reaches {string.cold_voc_v:.1f} V at {lowest_c:.1f} C by the "
            f"module's coefficient, {_by_table(string)}; {circuits.voltage_limit_v:g} V is the "
            f"limit of {circuits.voltage_limited_by}"
        )
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, f"take modules out of string {string.id}"),
            measured=string.cold_voc_v,
            limit=circuits.voltage_limit_v,
            unit="V",
            objects=(string.id,),
            line=string_line(design, string.id, "modules"),
        )


def _by_table(string: StringCircuit) -> str:
    if string.table_voc_v is None:
        return "and Table 690.7(A) has no factor below -40 C"
    return f"{string.table_voc_v:.1f} V by Table 690.7(A)"


RULE = Rule(
    id="electrical.string-voltage",
    title="Highest string voltage",
    subject="electrical",
    held_by="electrical",
    clauses=clauses_of("NEC", {2017: "690.7(A)", 2020: "690.7(A)", 2023: "690.7(A)"}),
    check=check,
)
