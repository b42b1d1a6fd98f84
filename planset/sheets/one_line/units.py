"""What the diagram draws as one: a piece of equipment, or a panel with all inside of it.

Units form a tree toward the utility. The child that leads to the most columns of equipment is the
first, so the longest chain runs along the top.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, field, replace

from planset.design.electrical.topology import Equipment, Kind, Link, Panel, Segment, Topology
from planset.sheets.one_line.kinds import IN_ARRAY

Way = Segment | Link

_BRANCH_COLUMNS = 3  # of equipment that a branch has at least to be drawn apart


@dataclass(slots=True)
class Unit:
    """A node of the diagram.

    Attributes:
        tag: Tag of the equipment or the panel.
        item: The equipment; None for a panel or a continuation.
        panel: The panel; None for anything else.
        onward: The way toward the utility, None at its end.
        feeds: What comes in from the sources' side.
        bus: The panel's bus.
        main: What stands between the bus and the way onward, None where there is nothing.
        loads: Loads on the bus.
        continued: Whether it stands for a part of the diagram that is drawn elsewhere.
        marked: Whether a mark stands for that part, not a wire from above.
        rows: Strings it stands for, itself included, where several share a row.
    """

    tag: str
    item: Equipment | None
    panel: Panel | None
    onward: Way | None
    feeds: list[Feed] = field(default_factory=list)
    bus: Equipment | None = None
    main: Equipment | None = None
    loads: tuple[Equipment, ...] = ()
    continued: bool = False
    marked: bool = False
    rows: tuple[Unit, ...] = ()

    @property
    def kind(self) -> Kind | None:
        """Kind of the equipment, None for a panel."""
        return self.item.kind if self.item else None

    @property
    def existing(self) -> bool:
        """Whether it is there already."""
        thing = self.item or self.panel
        return thing is not None and thing.existing

    @property
    def children(self) -> list[Unit]:
        """What feeds it."""
        return [feed.child for feed in self.feeds if feed.child is not None]

    def walk(self) -> Iterator[Unit]:
        """The unit and everything on its sources' side, nearest to the sources first."""
        for child in self.children:
            yield from child.walk()
        yield self


@dataclass(slots=True)
class Feed:
    """One way into a unit.

    Attributes:
        child: What feeds; None for a breaker whose source is not drawn.
        breaker: The breaker of a panel that it comes in by.
    """

    child: Unit | None
    breaker: Equipment | None = None


def unit_tree(topology: Topology) -> Unit:
    """The whole system, from its end at the utility.

    Raises:
        ValueError: Nothing, or more than one thing, has no way onward.
    """
    ends = [item for item in topology.equipment if item.tag not in topology.onward]
    if len(ends) != 1:
        msg = f"the diagram needs one end at the utility; got {[item.tag for item in ends]}"
        raise ValueError(msg)
    return _unit_at(topology, ends[0], None)


def _unit_at(topology: Topology, item: Equipment, onward: Way | None) -> Unit:
    """The unit that a piece of equipment is, or is the end of."""
    panels = {panel.tag: panel for panel in topology.panels}
    if item.panel in panels and item.kind in (Kind.MAIN, Kind.LUGS, Kind.BUS):
        return _panel_unit(topology, item, panels[item.panel], onward)
    unit = Unit(item.tag, item, None, onward)
    for way in topology.feeding[item.tag]:
        unit.feeds.append(Feed(_unit_at(topology, topology.by_tag[way.start], way)))
    _put_longest_first(unit)
    return unit


def _panel_unit(topology: Topology, end: Equipment, panel: Panel, onward: Way | None) -> Unit:
    """A panel from the part that leads onward: its main, its lugs or its bus."""
    unit = Unit(panel.tag, None, panel, onward)
    ways = list(topology.feeding[end.tag])
    if end.kind is Kind.BUS:
        unit.bus = end
    else:
        unit.main = end
        inside = [way for way in ways if topology.by_tag[way.start].kind is Kind.BUS]
        ways = [way for way in ways if way not in inside]
        for way in inside[:1]:
            unit.bus = topology.by_tag[way.start]
            ways += topology.feeding[unit.bus.tag]
    loads = []
    for way in ways:
        start = topology.by_tag[way.start]
        if start.kind is Kind.LOADS:
            loads.append(start)
        elif start.kind is Kind.BREAKER and start.panel == panel.tag:
            beyond = topology.feeding[start.tag]
            children = [_unit_at(topology, topology.by_tag[w.start], w) for w in beyond]
            unit.feeds += [Feed(child, start) for child in children] or [Feed(None, start)]
        else:
            unit.feeds.append(Feed(_unit_at(topology, start, way)))
    unit.loads = tuple(loads)
    _put_longest_first(unit)
    return unit


def _put_longest_first(unit: Unit) -> None:
    """Storage and backup come last, so that they never lead the top row."""
    unit.feeds.sort(
        key=lambda feed: (_is_storage(feed.child), -columns(feed.child)) if feed.child else (2, 0)
    )


def _is_storage(unit: Unit) -> bool:
    way = unit.onward
    return isinstance(way, Segment) and way.run in ("battery", "backup")


def columns(unit: Unit) -> int:
    """How many columns of equipment a unit and its sources take."""
    own = 3 if unit.panel else 1
    return own + max((columns(child) for child in unit.children), default=0)


def tags_of(unit: Unit) -> list[str]:
    """Tags of the equipment that a unit draws; none for a mark."""
    if unit.continued:
        return []
    parts = [unit.bus, unit.main, *unit.loads, *(feed.breaker for feed in unit.feeds)]
    rows = [one.tag for one in unit.rows[1:]]
    return [unit.tag, *rows, *(part.tag for part in parts if part is not None)]


def trunk(root: Unit) -> list[Unit]:
    """The units along the top, from the utility back to where several sources come together."""
    found = [root]
    while found[-1].feeds and found[-1].feeds[0].child is not None:
        found.append(found[-1].feeds[0].child)
    return found


def cut_before(root: Unit, cuts: Collection[str], *, marked: bool) -> list[Unit]:
    """The tree in parts, those at the sources first.

    Args:
        root: The whole tree; it is left as it is.
        cuts: Tags of units, each the end of a part.
        marked: Whether a mark stands where a part goes on, in place of a wire from above.
    """
    parts: list[Unit] = []
    last = _copied(root, frozenset(cuts), parts, marked=marked)
    return [*parts, last]


def _copied(unit: Unit, cuts: frozenset[str], parts: list[Unit], *, marked: bool) -> Unit:
    feeds = []
    for feed in unit.feeds:
        child = feed.child and _copied(feed.child, cuts, parts, marked=marked)
        if child is not None and child.tag in cuts:
            parts.append(child)
            child = Unit(child.tag, None, None, child.onward, continued=True, marked=marked)
        feeds.append(Feed(child, feed.breaker))
    return replace(unit, feeds=feeds)


def ends_a_part(unit: Unit) -> bool:
    """Whether a tier or a page may end after a unit.

    It ends on a wire that has a number, and never between an array and its box: the outline of the
    array and the conductor that bonds it are drawn whole.
    """
    return isinstance(unit.onward, Segment) and unit.kind not in IN_ARRAY


def branches(root: Unit, *, of_panels_only: bool) -> list[str]:
    """Tags of the units that lead, with all that feeds them, to where several come together."""
    return [
        child.tag
        for unit in root.walk()
        if len(unit.feeds) > 1 and (unit.panel is not None or not of_panels_only)
        for child in unit.children
        if ends_a_part(child) and columns(child) >= _BRANCH_COLUMNS
    ]


def shared_rows(unit: Unit, most: int) -> Unit:
    """The tree with up to `most` like strings of one box drawn on one row."""
    feeds: list[Feed] = []
    for feed in unit.feeds:
        child = feed.child and shared_rows(feed.child, most)
        last = feeds[-1].child if feeds else None
        if last is not None and child is not None and _alike(last, child, most):
            feeds[-1] = Feed(_together(last, child))
        else:
            feeds.append(Feed(child, feed.breaker))
    return replace(unit, feeds=feeds)


def _together(first: Unit, other: Unit) -> Unit:
    """One unit that stands for two alike, and so for what feeds each."""
    pairs = zip(first.children, other.children, strict=True)
    feeds = [Feed(_together(one, two)) for one, two in pairs]
    return replace(first, rows=(*(first.rows or (first,)), other), feeds=feeds)


def _alike(first: Unit, other: Unit, most: int) -> bool:
    """Whether two chains of an array look the same and may share a row."""
    return (
        len(first.rows or (first,)) < most
        and first.kind is other.kind
        and first.kind in (Kind.STRING, Kind.SHUTDOWN, Kind.CONVERTERS, Kind.MICROINVERTERS)
        and [c.kind for c in first.children] == [c.kind for c in other.children]
    )
