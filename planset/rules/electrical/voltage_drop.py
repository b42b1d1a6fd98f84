"""Little voltage is lost on the way."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.voltage_drop import NOTED_BRANCH_PERCENT, NOTED_TOTAL_PERCENT
from planset.design.electrical.drop_ways import DropWay, drop_ways
from planset.design.electrical.topology import Segment
from planset.design.electrical.trunk_rises import trunk_rises
from planset.finding import Finding, Outcome
from planset.rules.circuits import branch_line, cite_nec, ends_of, named, nec, run_line
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare each run, and the way from each source, with what the code's notes call good.

    A trunk cable of which the maker limits the rise is held against that by another rule.
    """
    limited = {rise.branch.id for rise in trunk_rises(design) if rise.by_maker}
    for segment in design.electrical.topology.segments:
        drop = segment.drop
        if drop is not None and not (segment.trunk and segment.start in limited):
            fact = f"{named(segment)} loses {drop.drop_v:.2f} V, {drop.percent:.2f} %"
            yield _found(design, citation, fact, drop.percent, NOTED_BRANCH_PERCENT, segment)
    cited = cite_nec("voltage_drop_feeder", edition)
    for ways in _alike(drop_ways(design.electrical.topology)):
        first, last = ways[0].segments[0], ways[0].segments[-1]
        sources = ", ".join(way.source for way in ways)
        fact = f"From {sources} to {last.end} {ways[0].percent:.2f} % is lost in all"
        yield _found(design, cited, fact, ways[0].percent, NOTED_TOTAL_PERCENT, first)


def _alike(ways: Iterable[DropWay]) -> Iterable[list[DropWay]]:
    """Ways together that lose the same."""
    groups: dict[float, list[DropWay]] = {}
    for way in ways:
        groups.setdefault(round(way.percent, 9), []).append(way)
    return groups.values()


def _found(
    design: Design, citation: str, fact: str, percent: float, limit: float, segment: Segment
) -> Finding:
    """A drop over the note's is no fault of the code; the drafter says that it is meant."""
    met = at_most_outcome(percent, limit) is Outcome.PASS
    outcome = Outcome.PASS if met else Outcome.ASK
    fact += f"; a note of the code, not a rule, calls {limit:g} % good"
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, "take a larger conductor, or ask the owner to accept the loss"),
        measured=percent,
        limit=limit,
        unit="%",
        objects=ends_of(segment),
        line=run_line(design, segment) if segment.run else branch_line(design, segment.start),
    )


RULE = Rule(
    id="electrical.voltage-drop",
    title="Voltage drop",
    subject="electrical",
    held_by="electrical",
    clauses=nec("voltage_drop_branch"),
    check=check,
)
