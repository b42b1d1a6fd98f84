"""What follows from a design and is asked for by many sheets, worked out once."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TypeVar

Subject = TypeVar("Subject")
Result = TypeVar("Result")


def once(work_out: Callable[[Subject], Result]) -> Callable[[Subject], Result]:
    """Keep what a function returned for the last subject it was called with, which never changes.

    The last one, since a run has one design, and comparing two whole designs would cost more.
    """
    last: list[tuple[Subject, Result]] = []

    @wraps(work_out)
    def kept(subject: Subject) -> Result:
        if not last or last[0][0] is not subject:
            last[:] = [(subject, work_out(subject))]
        return last[0][1]

    return kept
