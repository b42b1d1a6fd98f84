"""A front trim runs no farther past its last support than the maker allows."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.grid import FrontRun, Grid, front_runs
from planset.design.mounted import Mounted
from planset.finding import Finding
from planset.rules.limits import at_most_outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design

_NOISE_IN = 1e-6


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the longest free end of each array's trim with the maker's."""
    for one in design.mounts:
        trim = one.array.system.trim
        if trim is None:
            continue
        runs = list(front_runs(Grid.of(one.array)))
        free = max(_overhang_in(one, run) for run in runs)
        outcome = at_most_outcome(free, trim.overhang)
        held = "front foot" if one.array.system.foot else "rail"
        fact = (
            f"The {trim.name} of array {one.id} runs {format_feet_inches(free, rounding='up')} "
            f"past its last {held}, {format_feet_inches(trim.overhang, rounding='down')} at most"
        )
        change = "shift the array along the eave, or set a rail nearer to its end"
        yield RULE.found(
            outcome,
            one.array.system.document,
            sentence(outcome, fact, change),
            measured=free,
            limit=trim.overhang,
            unit="in",
            objects=(one.id,),
            line=array_line(design, one.id, "mounting", "first_rail_rafter"),
        )


def _overhang_in(one: Mounted, run: FrontRun) -> float:
    """The longer free end of a front edge's trim; all of it where nothing holds it [in]."""
    places = sorted(u for u in _held(one, run) if run.u0_in <= u <= run.u1_in)
    if not places:
        return run.u1_in - run.u0_in
    return max(places[0] - run.u0_in, run.u1_in - places[-1])


def _held(one: Mounted, run: FrontRun) -> Iterator[float]:
    """Where front feet hold the trim or, without feet, the rails that reach it [in]."""
    if one.array.system.foot:
        for holder in one.holding.holders:
            if holder.front and abs(holder.v_in - run.v_in) < _NOISE_IN:
                yield holder.u_in
        return
    for rail in one.racking.rails:
        if rail.up and rail.start_in <= run.v_in + _NOISE_IN and rail.end_in > run.v_in:
            yield rail.line_in
        elif not rail.up and run.v_in <= rail.line_in <= run.top_in:
            yield from (max(rail.start_in, run.u0_in), min(rail.end_in, run.u1_in))


RULE = Rule(
    id="layout.trim-overhang",
    title="Free end of the front trim",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
