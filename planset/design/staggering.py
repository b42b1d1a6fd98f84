"""Whether neighboring rails across the slope stand on the same rafters, trusses or seams."""

from collections.abc import Iterator
from itertools import pairwise

from planset.design.racking import Racking


def shared_lines(racking: Racking) -> Iterator[tuple[str, str, int]]:
    """Yield two rails and the number of a line under both, for rails with none between them.

    Args:
        racking: Rails across the slope with their attachments.
    """
    held = {tag: {item.line for item in items} for tag, items in racking.by_rail.items()}
    lines = sorted({rail.line_in for rail in racking.rails})
    at = {line: [rail for rail in racking.rails if rail.line_in == line] for line in lines}
    for low, high in pairwise(lines):
        for rail in at[low]:
            for other in at[high]:
                for number in sorted(held[rail.id] & held[other.id]):
                    yield rail.id, other.id, number
