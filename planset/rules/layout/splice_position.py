"""Rails longer than their stock are spliced where the maker allows it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.catalog.rail import Splice
from planset.design.mounted import Mounted
from planset.design.rail_pieces import SplicePlace
from planset.finding import Finding, Outcome
from planset.rules.limits import NOISE
from planset.rules.lines import array_line
from planset.rules.rule import Rule
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design

_NOISE_IN = 1e-5


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Say which rails cannot be spliced, and compare the splices of the others with the window."""
    for one in design.mounts:
        splice = one.array.system.rail.splice
        if one.rails.unspliced:
            yield _unspliced(design, one, splice)
        if one.rails.splices and splice:
            yield _window(design, one, splice)


def _unspliced(design: Design, one: Mounted, splice: Splice | None) -> Finding:
    rail = one.array.system.rail
    lengths = {r.id: r.length_in for r in one.racking.rails}
    tags = one.rails.unspliced
    longest = max(lengths[tag] for tag in tags)
    allowed = rail.stock_length
    why = f"{one.array.system.model} has no splice"
    change = "part the array so that its rails are shorter, or choose another system"
    if splice:
        why = f"no place is left for a {splice.name} that its maker allows"
        change = (
            "change the places of its attachments, or part the array so that its rails are shorter"
        )
        if splice.expansion_after is not None and splice.is_too_long(longest):
            allowed = splice.expansion_after
            why = f"its maker allows {format_feet_inches(allowed, rounding='down')}, for heat"
            change = (
                "make two arrays of it, their rails "
                f"{format_feet_inches(splice.expansion_gap)} apart at least"
            )
    message = (
        f"{len(tags)} rails of array {one.id} ({tags[0]} first) are up to "
        f"{format_feet_inches(longest, rounding='up')} long, more than one piece may be, "
        f"and {why}; {change}."
    )
    return RULE.found(
        Outcome.FAIL,
        _document(one, splice),
        message,
        measured=longest,
        limit=allowed,
        unit="in",
        objects=(one.id, *tags),
        line=array_line(design, one.id, "mounting"),
    )


def _window(design: Design, one: Mounted, splice: Splice) -> Finding:
    outside = [place for place in one.rails.splices if not _allowed(place, splice)]
    shares = sorted(place.from_support_in / place.span_in for place in one.rails.splices)
    outcome = Outcome.FAIL if outside else Outcome.PASS
    if outside:
        message = (
            f"The splice of {outside[0].rail} lies {outside[0].from_support_in:.1f} in from its "
            f"attachment in a span of {outside[0].span_in:.1f} in, outside of the maker's window; "
            "change the places of its attachments."
        )
    else:
        message = (
            f"The {len(one.rails.splices)} splices of array {one.id} lie {shares[0]:.2f} to "
            f"{shares[-1]:.2f} of a span from an attachment, {splice.window_from:.2f} to "
            f"{splice.window_to:.2f} allowed."
        )
    return RULE.found(
        outcome,
        _document(one, splice),
        message,
        objects=(one.id, *(place.rail for place in outside or one.rails.splices)),
        line=array_line(design, one.id, "mounting"),
    )


def _allowed(place: SplicePlace, splice: Splice) -> bool:
    if place.span_in <= 0:
        return False
    if splice.on_attachment and place.from_support_in < _NOISE_IN:
        return True
    share, slack = place.from_support_in / place.span_in, _NOISE_IN / place.span_in + NOISE
    return splice.window_from - slack <= share <= splice.window_to + slack


def _document(one: Mounted, splice: Splice | None) -> str:
    if splice is None:
        return one.array.system.document
    return f"{splice.document}, page {splice.page}"


RULE = Rule(
    id="layout.splice-position",
    title="Splices of the rails",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
