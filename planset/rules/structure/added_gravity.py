"""What the arrays add to the roof's gravity loads stays small, or its exception holds."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.iebc.gravity import (
    CLAUSES,
    DWELLING_EXCEPTION,
    GREATEST_INCREASE,
    dwelling_exception,
)
from planset.design.added_loads import AddedGravity
from planset.finding import Finding, Outcome, worst
from planset.rules.model_codes import with_california
from planset.rules.ratios import not_computed
from planset.rules.rule import Rule
from planset.rules.structure import trusses

if TYPE_CHECKING:
    from planset.design.design import Design
    from planset.job.building import Building

_UNITS = {"one_family_dwelling": 1, "two_family_dwelling": 2}


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare dead and live or snow load under the arrays with what was there before."""
    if missing := not_computed(RULE, design, citation):
        yield missing
        return
    for added in design.loads.gravity:
        yield _judged(design, citation, added)


def _judged(design: Design, citation: str, added: AddedGravity) -> Finding:
    fact, exception = _fact(added), ""
    if not added.increase.exceeds:
        outcome, message = Outcome.PASS, f"{fact}."
    elif _excepted(design):
        outcome, exception = Outcome.PASS, DWELLING_EXCEPTION
        message = (
            f"{fact}; excepted: a small dwelling of conventional light-frame construction, whose "
            f"{design.inputs.framing.members} hold with the load added."
        )
    else:
        outcome = Outcome.ASK
        message = f"{fact}, and no exception is known to hold. {_mend(design)}"
    return RULE.found(
        outcome,
        f"{citation}, {exception}" if exception else citation,
        message,
        measured=round(100 * added.increase.share, 6),
        limit=100 * GREATEST_INCREASE,
        unit="%",
        exception=exception,
        objects=(added.plane,),
        line=design.inputs.line_of("framing", "roof_dead_load"),
    )


def _mend(design: Design) -> str:
    """What may still let the load be added."""
    shown = (
        "how that the framing meets what the code asks of new framing, or ask the plan reviewer "
        "which exception is accepted."
    )
    if design.inputs.framing.light_frame is None:
        found = "State light_frame, where the survey finds conventional light-frame construction"
        return f"{found}; else s{shown}"
    return f"S{shown}"


def _fact(added: AddedGravity) -> str:
    """What grows, kind of load by kind of load, and what becomes of their sum."""
    grown = added.increase.of
    before, after = getattr(added.existing, grown), getattr(added.altered, grown)
    sums = f"{added.existing.total:.1f} to {added.altered.total:.1f} psf"
    omitted = added.live_omitted and added.existing.live > added.existing.snow
    without = ", roof live load left out below modules that stand low," if omitted else ""
    return (
        f"Under the arrays on {added.plane}, each kind of load by itself, the {grown} load grows "
        f"most, from {before:.1f} to {after:.1f} psf in plan; with the greater of roof live load "
        f"and snow{without} it goes from {sums}"
    )


def _excepted(design: Design) -> bool:
    """Whether the exception of small dwellings is known to hold.

    That the building meets the provisions of light-frame construction with the load added is known
    when the survey found it built so, and its rafters were computed and hold, or a letter says that
    its trusses do (interpretation).
    """
    building, framing = design.inputs.job.building, design.loads.framing
    computed = bool(framing.rafters) and not framing.reasons
    holds = all(use.check.ratio <= 1 for use in framing.rafters) if computed else None
    if design.inputs.framing.kind == "truss":
        judged = worst(trusses.check(design, "", 0))
        holds = True if judged is Outcome.PASS else None
    return bool(
        dwelling_exception(
            group_r=building.occupancy.startswith("R"),
            units=_units(building),
            light_frame_or_irc=_both(holds, design.inputs.framing.light_frame),
        )
    )


def _both(one: bool | None, other: bool | None) -> bool | None:
    """Whether both hold: False where one does not, None where one is not known."""
    if False in (one, other):
        return False
    return None if None in (one, other) else True


def _units(building: Building) -> int | None:
    """Dwelling units under the roof, None where nobody says; fire walls part townhouses."""
    if building.use == "townhouse" and building.fire_walls is not None:
        return len(building.fire_walls) + 1
    return _UNITS.get(building.use)


RULE = Rule(
    id="structure.added-gravity",
    title="Gravity load added to the roof",
    subject="structure",
    held_by="existing",
    clauses=with_california("IEBC", "CEBC", CLAUSES),
    check=check,
)
