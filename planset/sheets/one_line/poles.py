"""Which conductors of a circuit are drawn: one line for all of them, or each by itself.

In a three-line diagram every conductor keeps its level beside the others from source to utility,
so none has to cross another on its way.
"""

from __future__ import annotations

from dataclasses import dataclass

from planset.design.electrical.topology import Link, Segment, Topology

POLE_PITCH = 0.24  # between conductors side by side [in]
LANE_PITCH = 0.06  # between those of a wire from tier to tier [in]
NEUTRAL = "N"


@dataclass(frozen=True, slots=True)
class Conductor:
    """A drawn conductor.

    Attributes:
        name: What stands beside it, "" in a single-line diagram.
        rise: Its level over that of the circuit [in].
    """

    name: str
    rise: float

    @property
    def is_neutral(self) -> bool:
        """Whether it is the neutral, which no breaker or switch opens."""
        return self.name == NEUTRAL

    @property
    def lane(self) -> float:
        """Its distance from the middle of a wire from tier to tier [in]."""
        return self.rise / POLE_PITCH * LANE_PITCH


ONE_LINE = (Conductor("", 0.0),)


def conductors(way: Segment | Link | None, lines: int, *, each: bool) -> tuple[Conductor, ...]:
    """The conductors drawn of a way onward, the highest first.

    Args:
        way: The way; a link outside of a panel joins a string to its devices.
        lines: Line conductors of the ac side: 2 or 3.
        each: Whether each is drawn by itself.
    """
    if not each:
        return ONE_LINE
    if not isinstance(way, Segment) or not way.ac:
        count = way.circuits if isinstance(way, Segment) else 1
        many = f" ({count})" if count > 1 else ""
        return (Conductor(f"+{many}", POLE_PITCH / 2), Conductor(f"-{many}", -POLE_PITCH / 2))
    names = [f"L{number}" for number in range(1, lines + 1)]
    levels = [(lines / 2 - number) * POLE_PITCH for number in range(lines + 1)]
    drawn = [Conductor(name, rise) for name, rise in zip(names, levels, strict=False)]
    return (*drawn, *([Conductor(NEUTRAL, levels[-1])] if way.neutrals else []))


def panel_poles(lines: int, *, each: bool) -> tuple[Conductor, ...]:
    """The bars of a panel: its lines and the neutral bar, the highest conductor first."""
    if not each:
        return ONE_LINE
    every = Segment("", "", "", "", None, True, 1, None, None, 0.0, lines=lines, neutrals=1)
    return conductors(every, lines, each=True)


def line_count(topology: Topology) -> int:
    """Line conductors of the ac side."""
    return max((segment.lines for segment in topology.segments if segment.ac), default=2)
