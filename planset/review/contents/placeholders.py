"""Nothing goes out with the words by which the starter asks for the drafter's own."""

from __future__ import annotations

from collections.abc import Iterator

from planset.finding import Finding, Outcome
from planset.job.placeholders import placeholders_left
from planset.review.page_rule import DRAFTING_RULE
from planset.review.set_rule import SetRule
from planset.review.submittal import Submittal


def check(submittal: Submittal) -> Iterator[Finding]:
    """Name each field of the job that still has such words."""
    document = submittal.inputs.document
    left = list(placeholders_left(document.data))
    for location, words in left:
        name = document.field_name(location)
        message = f'{name} still says "{words}" as the starter does; write your own in its place.'
        line = document.line_of(location)
        yield RULE.finding(Outcome.OPEN, message, name, citation=DRAFTING_RULE, line=line)
    if not left:
        message = "No words of the starter are left that stand for the drafter's own."
        yield RULE.finding(Outcome.PASS, message, citation=DRAFTING_RULE)


RULE = SetRule(id="contents.placeholders", title="Words left from the starter", check=check)
