"""No string exceeds the voltage limit on the coldest morning."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import clauses_of
from planset.design.electrical.system import StringCircuit
from planset.finding import Finding
from planset.rules.circuits import cite_nec
from planset.rules.limits import at_most_outcome
from planset.rules.lines import string_line
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the cold open-circuit voltage by the maker's coefficient; tell the table's too.

    A string of converters has the maximum voltage of its listing, or the sum of their outputs.
    """
    limits = {name: (limit, by) for name, limit, by in design.electrical.voltage_limits}
    lowest_c = design.inputs.job.site.lowest_ambient
    for string in design.electrical.strings:
        limit_v, limited_by = limits[string.inverter]
        outcome = at_most_outcome(string.cold_voc_v, limit_v)
        how = (
            "by the listing of its converters or the sum of their outputs"
            if string.converter
            else f"at {lowest_c:.1f} C by the module's coefficient, {_by_table(string)}"
        )
        fact = (
            f"String {string.id} reaches {string.cold_voc_v:.1f} V {how}; {limit_v:g} V is the "
            f"limit of {limited_by}"
        )
        yield RULE.found(
            outcome,
            cite_nec("converter_voltage", edition) if string.converter else citation,
            sentence(outcome, fact, f"take modules out of string {string.id}"),
            measured=string.cold_voc_v,
            limit=limit_v,
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
