"""Editions of published documents, and how clauses of them are cited."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

_WRITTEN = re.compile(r"(?P<document>.+) (?P<year>[0-9]{4})(?:\+(?P<supplement>[0-9]{4}))?")


@dataclass(frozen=True, slots=True, order=True)
class CodeEdition:
    """One edition of one document.

    Attributes:
        document: Its letters, such as "IRC", "NFPA 1" or "ASCE 7".
        year: Year of the edition.
        supplement: Year of a supplement in force with it, 0 without one.
    """

    document: str
    year: int
    supplement: int = 0

    def __str__(self) -> str:
        """The edition as it is printed: "IRC 2021", "ASCE 7-16", "CFC 2016 (2018 supplement)"."""
        if self.document == "ASCE 7":
            return f"ASCE 7-{self.year % 100:02d}"
        added = f" ({self.supplement} supplement)" if self.supplement else ""
        return f"{self.document} {self.year}{added}"

    def cite(self, clause: str = "") -> str:
        """Return a citation as it is printed, such as "IRC 2021 R324.6.2"."""
        return f"{self} {clause}".rstrip()


def read_edition(text: str) -> CodeEdition:
    """Return an edition written as "IRC 2021", or "CFC 2016+2018" with its supplement.

    Raises:
        ValueError: The text is not an edition.
    """
    written = _WRITTEN.fullmatch(text)
    if written is None:
        msg = f"{text!r} is not an edition; write it as IRC 2021, or CFC 2016+2018"
        raise ValueError(msg)
    return CodeEdition(written["document"], int(written["year"]), int(written["supplement"] or "0"))


def clauses_of(document: str, clauses: Mapping[int, str]) -> dict[CodeEdition, str]:
    """Return the clauses of one document, year to clause, by edition."""
    return {CodeEdition(document, year): clause for year, clause in clauses.items()}
