"""What a maker states that a part holds: how it is cited, and what it proves."""

from __future__ import annotations

from planset.catalog.attachment import Capacity
from planset.catalog.rail import RailSection
from planset.finding import Outcome
from planset.rules.ratios import use_outcome, use_ratio

Stated = Capacity | RailSection
"""What has a basis, a document and a page."""


def cited(stated: Stated) -> str:
    """Return the maker's document and page, or that there is none."""
    return f"{stated.document or 'no document'}, page {stated.page or 'not given'}"


def doubt(stated: Stated) -> str:
    """Say why a capacity proves nothing yet, "" when it can be compared with the demand."""
    if stated.document is None or stated.page is None:
        return ", which no document and page give"
    return "" if stated.basis == "ASD" else ", which is no allowable value"


def judged_by_maker(stated: Stated, demand: float, capacity: float) -> tuple[Outcome, float | None]:
    """Judge demand over capacity; return the outcome and the ratio.

    A capacity in doubt leaves it open, without a ratio, unless it is too little all the same.
    """
    ratio = use_ratio(demand, capacity)
    outcome = use_outcome(ratio)
    if doubt(stated) and outcome is not Outcome.FAIL:
        return Outcome.OPEN, None
    return outcome, ratio


def maker_line(outcome: Outcome) -> tuple[str, ...]:
    """Return the field of an array that mends it: its system where the maker's value is open."""
    field = "system" if outcome is Outcome.OPEN else "attachment_spacing"
    return ("mounting", field)
