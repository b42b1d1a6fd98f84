"""Alternates that the authority having jurisdiction has approved."""

from typing import Annotated

from pydantic import AfterValidator

from planset.catalog.fields import Date, Several, StrictModel, Text


class Alternate(StrictModel):
    """What the authority having jurisdiction has decided in writing on the matter of a rule.

    It accepts something else than the rule asks, or answers the question that the code leaves to
    it. `rule` is the id of the rule, as `planset rules` lists it; `approver` the official and
    office, `reference` the document of the approval and `text` what it says, word for word.
    """

    rule: Text
    approver: Text
    date: Date
    reference: Text
    text: Text


def _one_per_rule(alternates: tuple[Alternate, ...]) -> tuple[Alternate, ...]:
    rules = [alternate.rule for alternate in alternates]
    twice = sorted({rule for rule in rules if rules.count(rule) > 1})
    if twice:
        msg = f"{', '.join(twice)} listed twice; write one alternate for each rule"
        raise ValueError(msg)
    return alternates


Alternates = Annotated[Several[Alternate], AfterValidator(_one_per_rule)]
"""At most one for each rule."""
