"""What changed since the first submittal, and what the reviewer's corrections are answered."""

from typing import Annotated

from planset.catalog.fields import Date, Few, Several, StrictModel, Text, between


class Change(StrictModel):
    """What a revision draws otherwise than before on one sheet.

    `changed` names it: title of a view or table, tag of what stands in a view, a row of a table by
    its first words, words that stand alone, on G-002 a rule, on sheets that show an array its id;
    after a title and " / " one thing in that view or table. The newest revision's get clouds and
    deltas, those of earlier ones deltas. Without `changed` the delta stands at the sheet's
    number; an empty list says that nothing is drawn otherwise.
    """

    sheet: Text
    changed: Few[Text] | None = None


class Answer(Change):
    """The answer to one correction.

    `number` and `comment` are the reviewer's, the comment in short; `reply` says what was done, or
    why nothing is changed; `sheet` is where it is seen, a sheet for plan review or a data sheet as
    D-1.
    """

    number: Text
    comment: Text
    reply: Text


class Revision(StrictModel):
    """One issue of the set after the first, revision 0.

    `changes` are those that no comment asked for, or that are seen on further sheets.
    """

    number: Annotated[int, between(1, 99)]
    date: Date
    description: Text
    answers: Several[Answer] = ()
    changes: Several[Change] = ()


Revisions = Few[Revision]
"""Oldest first."""
