"""Flashings of posts through tile run under the course above."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.catalog.attachment import StandoffAttachment
from planset.design.lap_moves import moved_to_laps
from planset.design.mounted import Mounted
from planset.design.post_courses import PostFit, PostPlace
from planset.design.tile_courses import all_at_laps
from planset.finding import Finding, Outcome
from planset.job.covering import CurvedTile
from planset.rules.limits import NOISE, clearance_outcome
from planset.rules.lines import array_line, attachment_fields
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design

_ON_A_TAPE_IN = 1 / 16


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Name the post of each array whose flashing runs least under the course above."""
    tile = design.inputs.job.roof.covering
    for one in design.mounts:
        post = one.array.system.attachment
        if not isinstance(tile, CurvedTile) or not isinstance(post, StandoffAttachment):
            continue
        if one.post_fit is None:
            yield _not_surveyed(design, citation, one)
        elif one.post_fit.posts:
            yield _judged(design, citation, one, one.post_fit)


def _not_surveyed(design: Design, citation: str, one: Mounted) -> Finding:
    plane = one.array.plane.id
    message = (
        f"The courses of plane {plane} were not measured, so nobody knows whether the flashings of "
        f"array {one.id} run under the course above; measure from the eave's edge up the slope to "
        "the nose of the second course, as roof.covering.first_course."
    )
    line = array_line(design, one.id, "plane")
    return RULE.found(Outcome.OPEN, citation, message, objects=(one.id, plane), line=line)


def _judged(design: Design, citation: str, one: Mounted, fit: PostFit) -> Finding:
    worst = min(fit.posts, key=lambda post: post.lap_in)
    outcome = clearance_outcome(worst.lap_in, fit.least_lap_in)
    stated = fit.post.flashing_lap is not None
    line = array_line(design, one.id, *_field(one))
    return RULE.found(
        outcome,
        one.array.system.document if stated else citation,
        sentence(outcome, _fact(one, fit, worst), _change(one, fit)),
        measured=worst.lap_in,
        limit=fit.least_lap_in,
        unit="in",
        objects=(one.id, worst.attachment),
        line=line,
    )


def _fact(one: Mounted, fit: PostFit, worst: PostPlace) -> str:
    needed = f"{format_feet_inches(fit.least_lap_in, rounding='up')} needed"
    if fit.post.flashing_lap is None:
        needed += ", as tiles lap each other"
    if worst.lap_in >= 0:
        lap = format_feet_inches(worst.lap_in, rounding="down")
        there = f"{worst.attachment} runs {lap} under the course above"
    else:
        short = format_feet_inches(-worst.lap_in, rounding="up")
        there = f"{worst.attachment} ends {short} short of the course above"
    fact = f"The flashing of {there}, the least of array {one.id}, {needed}"
    few = {post.attachment for post in fit.posts if post.lap_in < fit.least_lap_in - NOISE}
    if not few:
        return fact
    rails = dict.fromkeys(item.rail for item in one.racking.attachments if item.id in few)
    return f"{fact}; {len(few)} of {len(fit.posts)} have less, on {', '.join(rails)}"


def _field(one: Mounted) -> tuple[str, ...]:
    """The field of the array that decides how high its posts are."""
    if one.array.system.across:
        return ("corner",)
    return ("mounting", attachment_fields(one.array)[0])


def _change(one: Mounted, fit: PostFit) -> str:
    stated = one.array.stated_mounting
    if one.array.system.across:
        for laps in (fit.clear, fit.laps):
            if fields := moved_to_laps(one.array, laps, _ON_A_TAPE_IN):
                return f"with {fields} all are lapped enough"
    elif stated.first_attachment is not None and stated.attachment_spacing is not None:
        for laps in (fit.clear, fit.laps):
            places = (stated.first_attachment, stated.attachment_spacing)
            if found := all_at_laps(laps, one.racking, *places):
                first, spacing = map(format_feet_inches, found)
                return (
                    f"with first_attachment {first} and attachment_spacing {spacing} all are "
                    "lapped enough"
                )
    return "move the array, or choose a post whose flashing reaches farther up the slope"


RULE = Rule(
    id="structure.tile-flashing",
    title="Flashings lapped by the course above",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
