"""What changed since the first submittal, and what the reviewer's corrections are answered."""

from typing import Annotated

from planset.catalog.fields import Date, Few, Several, StrictModel, Text, between


class Answer(StrictModel):
    """The answer to one correction.

    `number` and `comment` are the reviewer's, the comment in short; `reply` says what was done, or
    why nothing is changed; `sheet` is where it is seen, a sheet for plan
    review or a data sheet as D-1.
    """

    number: Text
    comment: Text
    reply: Text
    sheet: Text


class Revision(StrictModel):
    """One issue of the set after the first, revision 0."""

    number: Annotated[int, between(1, 99)]
    date: Date
    description: Text
    answers: Several[Answer] = ()


Revisions = Few[Revision]
"""Oldest first."""
