"""What a drawing set cannot take in from a file of others."""

from __future__ import annotations


class RefusedError(Exception):
    """Something that the set cannot hold.

    Args:
        message: What is wrong with it.
        mend: What to do instead.
    """

    def __init__(self, message: str, mend: str) -> None:
        super().__init__(message)
        self.message = message
        self.mend = mend
