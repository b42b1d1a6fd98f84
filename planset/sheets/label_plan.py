"""Where labels go: the equipment in a row from array to utility, each with the keys of its labels.

Parts of a panel stand in one box, sources that lead on to the same equipment in another.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from planset.design.electrical.system import ElectricalDesign
from planset.design.electrical.topology import Equipment, Kind, Topology
from planset.drawing.fit import ViewTooLargeError
from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Line, Polyline, Primitive, Text
from planset.drawing.text import LINE_PITCH, NOTE_HEIGHT, wrap

_BOX, _WIRE, _WORDS = "E-POWR-EQPM", "E-DIAG-ONEL", "E-ANNO-TEXT"
_ARRAY = "ARRAY"
_PAD = 0.08
_WIRE_LENGTH = 0.3
_LEAST_BOX, _MOST_BOX = 0.7, 1.7  # width [in]
_BETWEEN_ROWS = 0.2
_OF_THE_ARRAY = (Kind.STRING, Kind.MICROINVERTERS, Kind.SHUTDOWN, Kind.CONVERTERS)


@dataclass(slots=True)
class _Node:
    """A box on the plan.

    Attributes:
        name: Its first line.
        words: The lines below: keys, before them the tag of the part they go on.
        column: Boxes between it and the utility.
        feeding: Boxes that lead on to it.
    """

    name: str
    words: list[str] = field(default_factory=list)
    column: int = 0
    feeding: list[_Node] = field(default_factory=list)

    def leaves(self) -> int:
        return sum(node.leaves() for node in self.feeding) or 1

    def all(self) -> Iterator[_Node]:
        yield self
        for node in self.feeding:
            yield from node.all()


def label_plan(electrical: ElectricalDesign, width: float) -> tuple[Point, tuple[Primitive, ...]]:
    """The plan, its lower left corner at 0, 0.

    Args:
        electrical: Equipment and labels.
        width: What it may take [in].

    Returns:
        Its width and height, and what it is drawn of [in].

    Raises:
        ViewTooLargeError: More equipment in a row than the width has room for.
    """
    root = _tree(electrical)
    nodes = list(root.all())
    columns = max(node.column for node in nodes) + 1
    box_width = min((width + _WIRE_LENGTH) / columns - _WIRE_LENGTH, _MOST_BOX)
    if box_width < _LEAST_BOX:
        msg = f"label locations of {columns} pieces in a row do not fit {width:.1f} in of width"
        raise ViewTooLargeError(msg)
    lines = {id(node): _lines(node, box_width) for node in nodes}
    pitch = max(_height(found) for found in lines.values()) + _BETWEEN_ROWS
    size = (columns * (box_width + _WIRE_LENGTH) - _WIRE_LENGTH, root.leaves() * pitch)
    made: list[Primitive] = []
    _draw(root, 0.0, size, (box_width, pitch), lines, made)
    return size, tuple(made)


def _draw(
    node: _Node,
    row: float,
    size: Point,
    cell: Point,
    lines: dict[int, list[str]],
    made: list[Primitive],
) -> Box:
    """Draw a box and all that leads on to it, below `row` rows.

    Returns:
        The box.
    """
    box_width, pitch = cell
    right = size[0] - node.column * (box_width + _WIRE_LENGTH)
    middle = size[1] - (row + node.leaves() / 2) * pitch
    words = lines[id(node)]
    half = _height(words) / 2
    box = Box(right - box_width, middle - half, right, middle + half)
    made.append(Polyline(box.corners, _BOX, closed=True))
    baseline = box.y1 - _PAD - NOTE_HEIGHT
    for n, line in enumerate(words):
        at = (box.center[0], baseline - n * NOTE_HEIGHT * LINE_PITCH)
        made.append(Text(line, at, NOTE_HEIGHT, _WORDS, "center"))
    corner = box.x0 - _WIRE_LENGTH / 2
    for feeding in node.feeding:
        start = _draw(feeding, row, size, cell, lines, made)
        level = start.center[1]
        course = dict.fromkeys(
            ((start.x1, level), (corner, level), (corner, middle), (box.x0, middle))
        )
        made.append(_wire(tuple(course)))
        row += feeding.leaves()
    return box


def _wire(course: tuple[Point, ...]) -> Primitive:
    if abs(course[0][1] - course[-1][1]) < 1e-9:
        return Line(course[0], course[-1], _WIRE)
    return Polyline(course, _WIRE)


def _lines(node: _Node, box_width: float) -> list[str]:
    room = box_width - 2 * _PAD
    return [line for words in (node.name, *node.words) for line in wrap(words, NOTE_HEIGHT, room)]


def _height(lines: list[str]) -> float:
    return 2 * _PAD + NOTE_HEIGHT * (1 + (len(lines) - 1) * LINE_PITCH)


def _tree(electrical: ElectricalDesign) -> _Node:
    topology = electrical.topology
    keys: dict[str, list[str]] = {}
    for placed in electrical.labels:
        for tag in placed.equipment:
            keys.setdefault(tag, []).append(placed.key)
    nodes: dict[str, _Node] = {}
    onward: dict[str, str] = {}
    for item in _shown(topology, keys):
        name = _group(topology, item)
        node = nodes.setdefault(name, _Node(name.partition(" ")[0]))
        if item.tag in keys:
            part = "" if item.tag == node.name else f"{item.tag}: "
            node.words.append(part + " ".join(keys.pop(item.tag)))
        way = topology.onward.get(item.tag)
        target = topology.by_tag[way.end] if way else None
        if target is not None and _group(topology, target) != name:
            onward[name] = _group(topology, target)
    for control in topology.controls:
        if control.device.tag in keys:
            tag = control.device.tag
            nodes[tag] = _Node(tag, [" ".join(keys.pop(tag))])
            onward[tag] = _group(topology, topology.by_tag[control.end])
    for panel, found in keys.items():  # of a panel as a whole
        if panel in nodes:
            nodes[panel].words.insert(0, " ".join(found))
    for name, target_name in onward.items():
        nodes[target_name].feeding.append(nodes[name])
    root = next(node for name, node in nodes.items() if name not in onward)
    _number(root, 0)
    return root


def _number(node: _Node, column: int) -> None:
    node.column = column
    for feeding in node.feeding:
        _number(feeding, column + 1)


def _shown(topology: Topology, keys: dict[str, list[str]]) -> list[Equipment]:
    """All equipment but loads without a label."""
    return [item for item in topology.equipment if item.kind is not Kind.LOADS or item.tag in keys]


def _group(topology: Topology, item: Equipment) -> str:
    """What its box is known by: its panel, the array before the next equipment, or itself."""
    if item.panel:
        return item.panel
    if item.kind not in _OF_THE_ARRAY:
        return item.tag
    while item.kind in _OF_THE_ARRAY:
        item = topology.by_tag[topology.onward[item.tag].end]
    return f"{_ARRAY} {item.tag}"
