"""The wind method for panels parallel to the roof holds, limit by limit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import CodeEdition, clauses_of
from planset.codes.asce7 import solar_panels
from planset.finding import Finding, Outcome
from planset.rules.limits import clearance_outcome
from planset.rules.lines import array_line
from planset.rules.ratios import not_computed
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design
    from planset.design.wind import MethodCheck


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Name the limits an array does not keep; its loads then go without the equalization."""
    if missing := not_computed(RULE, design, citation):
        yield missing
        return
    for method in (loads.method for loads in design.loads.arrays):
        if method.holds:
            yield _height(design, citation, method)
            yield _clearance(design, citation, method)
        else:
            yield _unmet(design, citation, method)


def _height(design: Design, citation: str, method: MethodCheck) -> Finding:
    height, most = method.height_above_roof_in, solar_panels.MAXIMUM_HEIGHT_IN
    outcome = clearance_outcome(most - height, 0.0)
    fact = (
        f"Modules of array {method.array} stand {height:.2f} in above the roof, h2; at most "
        f"{most:g} in"
    )
    return _found(design, citation, method, outcome, fact, height, most)


def _clearance(design: Design, citation: str, method: MethodCheck) -> Finding:
    clearance, least = method.clearance_in, method.least_clearance_in
    outcome = clearance_outcome(clearance, least)
    fact = (
        f"Array {method.array} keeps {clearance:.2f} in from edge, ridge and hip, in plan; 2 h2 is "
        f"{least:.2f} in"
    )
    return _found(design, citation, method, outcome, fact, clearance, least)


def _found(
    design: Design,
    citation: str,
    method: MethodCheck,
    outcome: Outcome,
    fact: str,
    measured: float,
    limit: float,
) -> Finding:
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, "set the array out with care, or farther from its limit"),
        measured=measured,
        limit=limit,
        unit="in",
        objects=(method.array,),
        line=array_line(design, method.array, "mounting", "system"),
    )


def _unmet(design: Design, citation: str, method: MethodCheck) -> Finding:
    message = (
        f"Array {method.array}, {method.height_above_roof_in:.2f} in above the roof (h2) and "
        f"{method.clearance_in:.2f} in in plan from edge, ridge and hip (2 h2 is "
        f"{method.least_clearance_in:.2f} in), does not keep these limits of the method: "
        f"{', '.join(method.unmet)}. Pressure equalization is dropped (factor 1.0); "
        "ask the plan reviewer or the engineer to accept that, or change the array."
    )
    return RULE.found(
        Outcome.ASK,
        citation,
        message,
        objects=(method.array,),
        line=array_line(design, method.array, "mounting", "system"),
    )


RULE = Rule(
    id="structure.wind-method",
    title="Limits of the method for parallel panels",
    subject="structure",
    held_by="loads",
    clauses=clauses_of("ASCE 7", {2016: "29.4.4", 2022: "29.4.4"}),
    check=check,
    not_in=frozenset({CodeEdition("ASCE 7", 2010)}),  # from memory: the method came with ASCE 7-16
)
