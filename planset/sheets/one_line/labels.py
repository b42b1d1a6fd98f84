"""What is written at a unit of the diagram, measured before it has a place."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

from planset.design.electrical.topology import Equipment, Kind, Panel
from planset.drawing.text import MINIMUM_HEIGHT, SLACK, text_width, wrap
from planset.sheets.one_line.kinds import ratings_of, short_ratings, status, tag_words

PITCH = MINIMUM_HEIGHT * 1.55  # baseline to baseline [in]
TAG_HEIGHT = MINIMUM_HEIGHT * 1.2
_TAG_PITCH = TAG_HEIGHT + 0.05
_WRAP = 1.3  # width at which ratings at a symbol wrap [in]
_WRAP_WIDE = 2.2  # where there is room for long lines [in]
_WRAP_PART = 0.85  # and those inside of a panel [in]
_SCHEDULED = (
    "GROUND FAULT",
    "ARC FAULT",
    "LISTED",
    "TYPE ",
)  # said in the schedule of equipment only
_TOGETHER = re.compile(r"(?<=[\d.]) (?=(?:A|V|W|kW|kWh|kAIC|FT)\b)|(?<=Voc|Isc|Vmp|Imp) (?=\d)")
_KEPT = "_"  # stands for a space that no line ends at
_UNNAMED = frozenset({Kind.BREAKER, Kind.MAIN, Kind.LUGS, Kind.STRING, Kind.TAP})


class Detail(Enum):
    """How much is written at the symbols."""

    WIDE = "ratings at the symbols, in long lines"
    FULL = "ratings at the symbols"
    SHORT = "tags and amperes at the symbols, the rest in the schedule"
    BARE = "the same, sizes at the wires in the schedule, too"

    @property
    def is_short(self) -> bool:
        """Whether the schedule alone holds most of what is said of equipment."""
        return self in (Detail.SHORT, Detail.BARE)


@dataclass(frozen=True, slots=True)
class Label:
    """Words above a symbol.

    Attributes:
        tag: The first line, a little higher than the others; "" for none.
        lines: The other lines.
    """

    tag: str
    lines: tuple[str, ...]

    @property
    def width(self) -> float:
        """Width of the longest line, the slack of the face included [in]."""
        widths = [text_width(line, MINIMUM_HEIGHT) for line in self.lines]
        return max([*widths, text_width(self.tag, TAG_HEIGHT)]) * SLACK

    @property
    def height(self) -> float:
        """From the baseline of the last line to the top of the first [in]."""
        return len(self.lines) * PITCH + (_TAG_PITCH if self.tag else 0.0)


NOTHING = Label("", ())


def equipment_label(item: Equipment, detail: Detail) -> Label:
    """What stands above the symbol of a piece of equipment."""
    if detail.is_short:
        return Label(tag_words(item), short_ratings(item))
    in_panel = item.kind in (Kind.BREAKER, Kind.MAIN, Kind.LUGS)
    named = [] if item.kind in _UNNAMED else [item.name.upper()]
    where = [] if in_panel or not item.location else [item.location.upper()]
    room = _WRAP_WIDE if detail is Detail.WIDE else _WRAP
    ratings = [words for words in ratings_of(item) if not words.startswith(_SCHEDULED)]
    said = _wrapped([*named, *ratings, *where], _WRAP_PART if in_panel else room)
    return Label(tag_words(item), said)


def part_words(item: Equipment, panel: Panel | None) -> tuple[str, ...]:
    """What else stands at a part of a panel that is there already."""
    if panel is None or not panel.existing or item.existing:
        return ()
    if item.kind is Kind.BREAKER:
        return ("POINT OF", "INTERCONNECTION")
    return ("REPLACES THE", "EXISTING MAIN") if item.kind is Kind.MAIN else ()


def panel_label(panel: Panel, detail: Detail, width: float) -> Label:
    """What stands above the enclosure of a panel: always its bus, which reviewers look for."""
    tag = f"{panel.tag} {status(existing=panel.existing)}"
    said = panel.ratings[:1] if detail.is_short else (*panel.ratings, panel.location.upper())
    return Label(tag, _wrapped([panel.name, *said], max(width, _WRAP)))


def _wrapped(said: Iterable[str], width: float) -> tuple[str, ...]:
    """The lines, no number parted from its unit."""
    kept = [_TOGETHER.sub(_KEPT, words) for words in said if words]
    lines = (line for words in kept for line in wrap(words, MINIMUM_HEIGHT, width))
    return tuple(line.replace(_KEPT, " ") for line in lines)
