"""Names of blocks that are alike but for what they stand for."""

from __future__ import annotations

from collections.abc import Iterable


def numbered_names(stem: str, things: Iterable[str]) -> dict[str, str]:
    """The name of the block of each thing: the stem, numbered from the second on.

    Args:
        stem: What the names begin with.
        things: What the blocks stand for; repeated ones count once.
    """
    return {
        thing: stem if n == 1 else f"{stem}-{n}"
        for n, thing in enumerate(dict.fromkeys(things), start=1)
    }
