"""What a rule on the whole set is: a check that finds what it says of each matter it judges."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from planset.finding import Finding, Outcome
from planset.review.submittal import Submittal

SURVEY = "survey of 55 published submittal checklists"
"""Citation of what reviewers look for where a jurisdiction does not say so itself."""


@dataclass(frozen=True, slots=True)
class SetRule:
    """One rule.

    Attributes:
        id: folder and file, such as "contents.items".
        title: the rule in a few words, for tables.
        check: yields a finding for each matter it judges.
    """

    id: str
    title: str
    check: Callable[[Submittal], Iterable[Finding]]

    def finding(
        self,
        outcome: Outcome,
        message: str,
        *objects: str,
        citation: str = SURVEY,
        line: int | None = None,
    ) -> Finding:
        """Return what the rule found.

        Args:
            outcome: How it came out.
            message: One sentence; unless all is well it ends with what to change.
            objects: Sheets and things concerned.
            citation: The document that asks for it.
            line: Line of the job that decides it.
        """
        return Finding(
            rule=self.id,
            title=self.title,
            outcome=outcome,
            citation=citation,
            message=message,
            objects=objects,
            line=line,
        )
