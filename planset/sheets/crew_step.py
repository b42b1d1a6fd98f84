"""One step of the crew's work."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the work.

    Attributes:
        words: What to do.
        hold: Whether work stops there until somebody has looked and signed.
    """

    words: str
    hold: bool = False
