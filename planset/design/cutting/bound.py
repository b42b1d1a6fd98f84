"""A count of bars that no cut list can beat."""

from __future__ import annotations

from planset.design.cutting.packing import Demand


def martello_toth_bound(demand: Demand, stock: int) -> int:
    """The lower bound L2 of Martello and Toth for bin packing.

    Source: S. Martello and P. Toth, Knapsack Problems, Wiley 1990, section 8.3.2 [from memory].
    For a length k up to half the stock, pieces longer than stock - k need a bar each that takes
    nothing of k or more; other pieces longer than half of it need a bar each too, and those from
    k to half fill what these leave, or more bars.
    """
    half = stock / 2
    best = 0
    for k in (0, *(length for length in demand if length <= half)):
        alone = sum(n for length, n in demand.items() if length > stock - k)
        large = {length: n for length, n in demand.items() if half < length <= stock - k}
        small = sum(length * n for length, n in demand.items() if k <= length <= half)
        room = sum((stock - length) * n for length, n in large.items())
        more = max(-(-(small - room) // stock), 0)
        best = max(best, alone + sum(large.values()) + more)
    return best
