"""What a plan had no room to name beside the thing itself; a table lists it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from planset.drawing.labels import NoRoomError
from planset.drawing.primitives import Primitive


@dataclass(frozen=True, slots=True)
class Unnamed:
    """A thing without its words.

    Attributes:
        thing: What it is and where, for the table.
    """

    thing: str


Marked = Primitive | Unnamed


def or_unnamed(thing: str, attempt: Callable[[], Iterable[Primitive]]) -> Iterator[Marked]:
    """What an attempt draws, or that the thing stays unnamed."""
    try:
        yield from tuple(attempt())
    except NoRoomError:
        yield Unnamed(thing)
