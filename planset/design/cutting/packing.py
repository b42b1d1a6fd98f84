"""Cutting patterns found quickly: the first bar that has room, or bars filled one by one."""

from __future__ import annotations

from collections.abc import Mapping

Demand = Mapping[int, int]
"""How many pieces are wanted of each length."""

Pattern = tuple[int, ...]
"""Lengths cut from one bar, longest first."""

_MOST_STEPS = 2_000
"""Of the search for one full bar; on more it takes the fullest found."""


def packed(demand: Demand, stock: int) -> list[Pattern]:
    """The fewer bars of two ways to pack."""
    return min(first_fit(demand, stock), full_bars(demand, stock), key=len)


def first_fit(demand: Demand, stock: int) -> list[Pattern]:
    """Each piece, longest first, into the first bar that has room."""
    bars: list[list[int]] = []
    room: list[int] = []
    for length in sorted(demand, reverse=True):
        first = 0  # a bar without room for this length has none for the next of it
        for _ in range(demand[length]):
            while first < len(bars) and room[first] < length:
                first += 1
            if first == len(bars):
                bars.append([])
                room.append(stock)
            bars[first].append(length)
            room[first] -= length
    return [tuple(bar) for bar in bars]


def full_bars(demand: Demand, stock: int) -> list[Pattern]:
    """Bar by bar, each with the longest piece left and the others that fill it best."""
    left = dict(sorted(demand.items(), reverse=True))
    bars = []
    while left:
        longest = next(iter(left))
        rest = {**left, longest: left[longest] - 1}
        bar = (longest, *_fullest(rest, stock - longest))
        for length in bar:
            left[length] -= 1
            if not left[length]:
                del left[length]
        bars.append(bar)
    return bars


def _fullest(left: Demand, room: int) -> Pattern:
    """Of the pieces left those that fill a room best, longest first."""
    lengths = sorted(left, reverse=True)
    best: Pattern = ()
    best_sum = -1
    steps = 0
    open_ways: list[tuple[int, int, Pattern]] = [(0, room, ())]
    while open_ways and steps < _MOST_STEPS and best_sum < room:
        steps += 1
        place, free, chosen = open_ways.pop()
        if room - free > best_sum:
            best, best_sum = chosen, room - free
        if place == len(lengths):
            continue
        length = lengths[place]
        most = min(left[length], free // length)
        for count in range(most + 1):  # the greatest count is taken up first
            open_ways.append((place + 1, free - count * length, (*chosen, *[length] * count)))
    return best
