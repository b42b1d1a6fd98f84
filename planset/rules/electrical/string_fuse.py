"""Strings in parallel cannot overload a module that fails."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.overcurrent import continuous_minimum_a
from planset.design.electrical.system import StringCircuit
from planset.finding import Finding, Outcome
from planset.rules.circuits import cite_nec, module_of, nec
from planset.rules.limits import at_least_outcome, at_most_outcome
from planset.rules.lines import string_line
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Judge the fuse of each string, or the currents that reach one without."""
    for string in design.electrical.strings:
        if string.converter:
            continue
        if string.fuse_a is None:
            yield _unfused(design, string, citation)
        else:
            yield from _fused(
                design, string, string.fuse_a, cite_nec("dc_overcurrent_rating", edition)
            )


def _unfused(design: Design, string: StringCircuit, citation: str) -> Finding:
    fuse = module_of(design, string.module).series_fuse_a
    outcome = at_most_outcome(string.backfeed_a, fuse)
    fact = (
        f"Up to {string.backfeed_a:.2f} A can be pushed into string {string.id}, whose modules "
        f"take {fuse:g} A without a fuse"
    )
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, "give each string an input of its own, or a fuse"),
        measured=string.backfeed_a,
        limit=fuse,
        unit="A",
        objects=(string.id,),
        line=string_line(design, string.id, "input"),
    )


def _fused(
    design: Design, string: StringCircuit, fuse_a: float, citation: str
) -> Iterator[Finding]:
    least = continuous_minimum_a(string.maximum_current_a)
    most = module_of(design, string.module).series_fuse_a
    low, high = at_least_outcome(fuse_a, least), at_most_outcome(fuse_a, most)
    for outcome, limit, words in (
        (low, least, "it carries at least"),
        (high, most, "its modules take at most"),
    ):
        fact = f"String {string.id} is fused at {fuse_a:g} A; {words} {limit:.2f} A"
        change = "choose a fuse between both, or give the string an input of its own"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, change),
            measured=fuse_a,
            limit=limit,
            unit="A",
            objects=(string.id,),
            line=string_line(design, string.id),
        )
        if outcome is Outcome.FAIL:
            return


RULE = Rule(
    id="electrical.string-fuse",
    title="Fuses of strings in parallel",
    subject="electrical",
    held_by="electrical",
    clauses=nec("dc_overcurrent_required"),
    check=check,
)
