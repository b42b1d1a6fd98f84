"""What a plan had no room to name beside the thing itself; a table lists it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass

from planset.drawing.geometry import Box
from planset.drawing.labels import Label, LabelPlacer, NoRoomError, WithinEach
from planset.drawing.leader_course import ends_inside
from planset.drawing.primitives import Primitive

_NEARBY = 1.8  # how far off words are sought beside the roofs, before on them [paper in]


@dataclass(frozen=True, slots=True)
class Unnamed:
    """A thing without its words.

    Attributes:
        thing: What it is and where, for the table.
    """

    thing: str


def led_from_outside(
    placer: LabelPlacer, label: Label, region: Box, outside: WithinEach
) -> tuple[Primitive, ...]:
    """Words beside the roofs led to what they name; on a roof only where there is no other place.

    Raises:
        NoRoomError: They have no free place.
    """
    if not ends_inside(region, label.anchor):
        msg = f"{label.lines[0]!r} names what this view does not show"
        raise NoRoomError(msg)
    nearby = region.shared(Box(*label.anchor, *label.anchor).grown(_NEARBY))
    with suppress(NoRoomError):
        return placer.place_near(label, nearby, always_led=True, within=outside)
    return placer.place_near(label, region, always_led=True)


Marked = Primitive | Unnamed


def or_unnamed(thing: str, attempt: Callable[[], Iterable[Primitive]]) -> Iterator[Marked]:
    """What an attempt draws, or that the thing stays unnamed."""
    try:
        yield from tuple(attempt())
    except NoRoomError:
        yield Unnamed(thing)
