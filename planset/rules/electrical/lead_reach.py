"""Leads reach from each module, or its device, to the next of its circuit."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import TYPE_CHECKING

from planset.design.electrical.leads import Hop, hops
from planset.finding import Finding, Outcome
from planset.rules.limits import NOISE
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the longest step of each circuit with what its leads or its cable bridge."""
    for (circuit, by), group in groupby(hops(design), key=lambda hop: (hop.circuit, hop.by)):
        steps = list(group)
        worst = max(steps, key=lambda hop: hop.distance_in)
        if worst.reach_in is None:
            yield _unknown(design, circuit, by, worst)
        elif worst.trunk:
            yield _by_cable(worst, worst.reach_in)
        else:
            yield _by_leads(steps, worst, worst.reach_in)


def _unknown(design: Design, circuit: str, by: str, worst: Hop) -> Finding:
    message = (
        f"The {by} have no length in the catalog, so that nobody knows whether they reach "
        f"{worst.distance_in:.1f} in in {circuit}; add leads from the data sheet to the entry."
    )
    return RULE.found(Outcome.OPEN, worst.document, message, objects=(circuit,))


def _by_leads(steps: Sequence[Hop], worst: Hop, reach_in: float) -> Finding:
    short = [hop for hop in steps if hop.distance_in > reach_in + NOISE]
    outcome = Outcome.FAIL if short else Outcome.PASS
    fact = (
        f"In {worst.circuit} the {worst.by} reach {reach_in:.1f} in; the longest step is "
        f"{worst.distance_in:.1f} in, {worst.first} to {worst.second}"
    )
    pairs = ", ".join(f"{hop.first} to {hop.second}" for hop in short)
    change = f"put a listed jumper between {pairs}, or lay the string out otherwise"
    return RULE.found(
        outcome,
        worst.document,
        sentence(outcome, fact, change),
        measured=worst.distance_in,
        limit=reach_in,
        unit="in",
        objects=(worst.circuit, worst.first, worst.second),
    )


def _by_cable(worst: Hop, pitch_in: float) -> Finding:
    """A trunk cable bridges any step, with connectors on the way that are capped."""
    capped = math.ceil(worst.distance_in / pitch_in - NOISE) - 1
    fact = (
        f"In {worst.circuit} the {worst.by} has a connector every {pitch_in:g} in; the longest "
        f"step is {worst.distance_in:.1f} in, {worst.first} to {worst.second}"
    )
    if capped > 0:
        plural = "s" if capped > 1 else ""
        fact += f", with {capped} connector{plural} between them left free under a listed cap"
    return RULE.found(
        Outcome.PASS,
        worst.document,
        f"{fact}.",
        objects=(worst.circuit, worst.first, worst.second),
    )


RULE = Rule(
    id="electrical.lead-reach",
    title="Reach of leads",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
