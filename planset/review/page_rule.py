"""What a rule on pages is: a check that finds the offences of a page."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from planset.finding import Finding, Outcome
from planset.review.reviewed_page import ReviewedPage

Check = Callable[[ReviewedPage], Iterable[Finding]]

DRAFTING_RULE = "planset drafting rule"
"""Citation of a rule that no drafting standard is quoted for."""


@dataclass(frozen=True, slots=True)
class PageRule:
    """One rule.

    Attributes:
        id: folder and file, such as "drafting.text-height".
        title: the rule in a few words, for tables.
        check: yields a finding for each offence of a page, nothing for a page that is in order.
        citation: drafting standard, or `DRAFTING_RULE`.
    """

    id: str
    title: str
    check: Check
    citation: str = DRAFTING_RULE

    def fault(
        self,
        sheet: ReviewedPage,
        message: str,
        *objects: str,
        measured: float | None = None,
        limit: float | None = None,
        unit: str = "",
    ) -> Finding:
        """Return an offence.

        Args:
            sheet: The page.
            message: What is wrong and, after a semicolon, what to change; no full stop.
            objects: Words and things that offend.
            measured: The value found.
            limit: The value it was compared with.
            unit: Unit of both.
        """
        return Finding(
            rule=self.id,
            title=self.title,
            outcome=Outcome.FAIL,
            citation=self.citation,
            message=f"Sheet {sheet.sheet}: {message}.",
            measured=measured,
            limit=limit,
            unit=unit,
            objects=(sheet.sheet, *objects),
        )

    def judge(self, sheet: ReviewedPage) -> tuple[Finding, ...]:
        """Return the offences of a page, or one finding that it is in order."""
        return tuple(self.check(sheet)) or (self._passed(sheet),)

    def _passed(self, sheet: ReviewedPage) -> Finding:
        return Finding(
            rule=self.id,
            title=self.title,
            outcome=Outcome.PASS,
            citation=self.citation,
            message=f"Sheet {sheet.sheet} is in order.",
            objects=(sheet.sheet,),
        )
