"""Little voltage is lost on the way."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.voltage_drop import NOTED_BRANCH_PERCENT, NOTED_TOTAL_PERCENT, total_percent
from planset.design.electrical.topology import Segment
from planset.finding import Finding, Outcome
from planset.rules.circuits import cite_nec, ends_of, named, nec, run_line, sized
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare each run, and the worst way from a source, with what the code's notes call good."""
    drops = {segment.tag: run.drop for segment, run in sized(design)}
    for segment, run in sized(design):
        fact = f"{named(segment)} loses {run.drop.drop_v:.2f} V, {run.drop.percent:.2f} %"
        yield _found(design, citation, fact, run.drop.percent, NOTED_BRANCH_PERCENT, segment)
    worst = max(
        (
            (total_percent(drops[s.tag] for s in way if s.tag in drops), way)
            for way in _ways(design)
        ),
        key=lambda found: found[0],
        default=None,
    )
    if worst is not None and worst[1]:
        total, way = worst
        fact = f"From {way[0].start} to {way[-1].end} {total:.2f} % is lost in all"
        cited = cite_nec("voltage_drop_feeder", edition)
        yield _found(design, cited, fact, total, NOTED_TOTAL_PERCENT, way[0])


def _ways(design: Design) -> Iterator[list[Segment]]:
    """Yield the sized segments from each source to the service, in order."""
    topology = design.electrical.topology
    for item in topology.equipment:
        if topology.feeding[item.tag]:
            continue
        way, tag = [], item.tag
        while (step := topology.onward.get(tag)) is not None:
            if isinstance(step, Segment) and step.conductors is not None:
                way.append(step)
            tag = step.end
        yield way


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
        line=run_line(design, segment),
    )


RULE = Rule(
    id="electrical.voltage-drop",
    title="Voltage drop",
    subject="electrical",
    held_by="electrical",
    clauses=nec("voltage_drop_branch"),
    check=check,
)
