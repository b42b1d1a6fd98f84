"""The control wiring of E-601: what is operated, its conductors, and the input that they end at."""

from __future__ import annotations

from collections.abc import Sequence

from planset.design.electrical.topology import ControlCircuit, Equipment, Kind
from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Attribute, Circle, Insert, Line, Polyline, Primitive, Text
from planset.drawing.table import Table
from planset.drawing.text import MINIMUM_HEIGHT, SUBTITLE_HEIGHT, wrap
from planset.sheets.note_table import TEXT_LAYER
from planset.sheets.one_line.kinds import SYMBOLS, status
from planset.sheets.one_line.labels import PITCH, TAG_HEIGHT
from planset.sheets.one_line.node import TAG_RADIUS
from planset.sheets.one_line.paint import CONTROL, ENCLOSURE, NOTE, OVER_WIRE, SYMBOL, TEXT
from planset.sheets.words import raceway_name

TITLE = "CONTROL WIRING"

_CLOSING = {Kind.CONTACT: "CONTACT_CLOSES", Kind.BUTTON: "BUTTON_CLOSES"}
_METALS = {"copper": "CU", "aluminum": "AL"}
_BOX = 2.0  # width of what a circuit leaves and reaches [in]
_PAD = 0.06
_SYMBOL_ROOM = 0.54  # height of a symbol with what is free around it [in]
_ROW_GAP = 0.12
_WORDS_GAP = 0.05  # from the number of a circuit to its words [in]


def symbol_of(device: Equipment) -> str:
    """Name of the symbol of what operates a circuit, by what its contact does."""
    closes = any(words.startswith("CLOSES") for words in device.ratings)
    return _CLOSING[device.kind] if closes else SYMBOLS[device.kind]


def control_diagram(controls: Sequence[ControlCircuit], at: Point, width: float) -> Table:
    """Every control circuit on a line of its own.

    Args:
        controls: The circuits.
        at: Upper left corner [paper in].
        width: Width [in].
    """
    x, top = at
    made: list[Primitive] = [Text(TITLE, (x, top - SUBTITLE_HEIGHT), SUBTITLE_HEIGHT, TEXT_LAYER)]
    level = top - SUBTITLE_HEIGHT - _ROW_GAP
    for one in controls:
        drawn, height = _row(one, (x, level), width)
        made += drawn
        level -= height + _ROW_GAP
    return Table(Box(x, level + _ROW_GAP, x + width, top), tuple(made))


def _row(one: ControlCircuit, at: Point, width: float) -> tuple[list[Primitive], float]:
    """One circuit and its height [in]."""
    x, top = at
    device, room = one.device, _BOX - 2 * _PAD
    own = f"{device.tag} {status(existing=device.existing)}"
    heads = (f"{one.start} {status(existing=False)}", own) if device.panel else (own,)
    said = [line for words in (device.name, *device.ratings[:1]) for line in _wrapped(words, room)]
    input_words = _wrapped(one.input, room)
    above = (len(heads) - 1) * PITCH + len(said) * PITCH + TAG_HEIGHT
    height = 2 * _PAD + above + _SYMBOL_ROOM
    middle = top - height + _PAD + _SYMBOL_ROOM / 2
    left = Box(x, top - height, x + _BOX, top)
    tall = 2 * _PAD + TAG_HEIGHT + len(input_words) * PITCH
    right = Box(x + width - _BOX, middle - tall / 2, x + width, middle + tall / 2)
    symbol = (left.center[0], middle)
    made: list[Primitive] = [
        Polyline(left.corners, ENCLOSURE, closed=True),
        Polyline(right.corners, ENCLOSURE, closed=True),
        *_words(heads[0], (*heads[1:], *said), left),
        *_words(one.end, tuple(input_words), right),
        Insert(symbol_of(device), symbol, SYMBOL, attributes=_carried(device), identity=device.tag),
        Line((left.center[0] + 0.25, middle), (right.x0, middle), CONTROL),
        *_over(one, ((left.x1 + right.x0) / 2, middle)),
    ]
    return made, height


def _carried(device: Equipment) -> tuple[Attribute, ...]:
    values = (device.tag, device.tag, "; ".join(device.ratings))
    return tuple(
        Attribute(name, value) for name, value in zip(("ID", "TAG", "RATING"), values, strict=True)
    )


def _wrapped(words: str, room: float) -> list[str]:
    return wrap(words.upper(), MINIMUM_HEIGHT, room)


def _words(tag: str, lines: tuple[str, ...], box: Box) -> list[Primitive]:
    """A tag at the top of a box and lines below it."""
    x, y = box.center[0], box.y1 - _PAD - TAG_HEIGHT
    made: list[Primitive] = [Text(tag, (x, y), TAG_HEIGHT, TEXT, "center")]
    for number, line in enumerate(lines, 1):
        made.append(Text(line, (x, y - number * PITCH), MINIMUM_HEIGHT, TEXT, "center"))
    return made


def _over(one: ControlCircuit, at: Point) -> list[Primitive]:
    """The number of a circuit and its conductors over the line, the raceway under it."""
    x, y = at
    metal = _METALS.get(one.material, one.material.upper())
    conductors = f"({one.conductors}) {one.size} {metal}, {one.voltage_v:g} V"
    raceway = raceway_name(one.fill.raceway)
    number = (x - 0.7, y + TAG_RADIUS)
    words = (number[0] + TAG_RADIUS + _WORDS_GAP, y + OVER_WIRE)
    return [
        Circle(number, TAG_RADIUS, NOTE),
        Text(one.tag, number, MINIMUM_HEIGHT, TEXT, "middle"),
        Text(conductors, words, MINIMUM_HEIGHT, TEXT),
        Text(raceway, (words[0], y - OVER_WIRE - MINIMUM_HEIGHT), MINIMUM_HEIGHT, TEXT),
    ]
