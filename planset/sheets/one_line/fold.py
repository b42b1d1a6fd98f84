"""How a diagram is folded into tiers and pages, and what is written at its symbols.

First the whole on one page in as many tiers as need be; then less written at the symbols; then
the branches on pages of their own; then several like strings on a row.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import combinations

from planset.design.electrical.system import BusLoad, GroundingStep
from planset.design.electrical.topology import Topology
from planset.drawing.fit import ViewTooLargeError
from planset.drawing.symbols import Symbol
from planset.sheets.one_line.ground import GroundPath, bonded, earth_fits, mark_bonds
from planset.sheets.one_line.labels import Detail
from planset.sheets.one_line.node import Node, mark_distance
from planset.sheets.one_line.place import least_width, place_columns, place_rows, tier_extent
from planset.sheets.one_line.poles import line_count
from planset.sheets.one_line.sizes import Style, is_close, sized
from planset.sheets.one_line.units import (
    Unit,
    branches,
    cut_before,
    ends_a_part,
    shared_rows,
    trunk,
    unit_tree,
)

LEFT = 0.5  # where the units begin, right of the wire from above [in]
LEFT_ALONE = 0.3  # the same where no wire comes from above [in]
RIGHT = 0.35  # kept free beside them for the wire to the next tier [in]
MARK_ROOM = 0.75  # for the words over the mark where a tier goes on elsewhere [in]
LANE = 0.55  # height of the wire from tier to tier, the number and the grounding on it [in]
LANE_ROOM = 0.25  # of the conductors of that wire, as a part of what they take elsewhere
PART_GAP = 0.25  # between parts that no wire joins [in]
_EDGE = 0.05
_MOST_TIERS = 4
_MOST_ON_A_ROW = 4


@dataclass(frozen=True, slots=True)
class System:
    """What the diagram shows.

    Attributes:
        topology: Equipment and segments.
        buses: Buses that sources feed.
        grounding: Steps from the module frames to earth.
        each: Whether every conductor is drawn by itself, as in a three-line diagram.
        arrays: Id of each string and branch to that of its array; empty where it is not known.
    """

    topology: Topology
    buses: tuple[BusLoad, ...]
    grounding: tuple[GroundingStep, ...]
    each: bool = False
    arrays: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Tier:
    """A part of the tree that is drawn from left to right, with places of its own.

    Attributes:
        root: Its end toward the utility.
        joined: Whether a wire leads on to the next tier, below it.
        right: Where its units and words end [in].
        height: Its height, with the room for that wire [in].
    """

    root: Node
    joined: bool
    right: float
    height: float


@dataclass(frozen=True, slots=True)
class Folded:
    """A diagram with all its places, before it is drawn.

    Attributes:
        pages: The tiers of each page, from above.
        style: How it is drawn.
        known: The grounding path.
    """

    pages: tuple[tuple[Tier, ...], ...]
    style: Style
    known: GroundPath


def fold(
    system: System, symbols: Mapping[str, Symbol], width: float, height: float, detail: Detail
) -> Folded:
    """The tiers of one page, or of several where nothing else serves.

    Args:
        system: The system.
        symbols: Symbols by name.
        width: Width of every page [in].
        height: Height of every page [in].
        detail: How much is written at the symbols at least.

    Raises:
        ViewTooLargeError: A part does not fit a page, even with several strings on a row.
    """
    root = unit_tree(system.topology)
    buses = {load.tag: load for load in system.buses}
    topology = system.topology
    panels = {panel.tag: panel for panel in topology.panels}
    enclosures = {item.tag: item.panel or item.tag for item in topology.equipment}
    known = GroundPath(system.grounding, enclosures | {tag: tag for tag in panels}, system.arrays)
    lines = line_count(topology)
    for way in _ways(detail):
        close = is_close(root, way.detail)
        style = Style(symbols, way.detail, buses, panels, close, lines, system.each)
        tree = shared_rows(root, way.on_a_row) if way.on_a_row > 1 else root
        path = bonded(tree, known)
        tried = (
            _paged(parts, style, path, (width, height), way) for parts in _parted(tree, way.parts)
        )
        fitting = [pages for pages in tried if pages and (len(pages) == 1 or way.parts != "one")]
        if fitting:
            return Folded(min(fitting, key=len), style, path)
    msg = f"the single-line diagram does not fit {width:.1f} x {height:.1f} in"
    raise ViewTooLargeError(msg)


@dataclass(frozen=True, slots=True)
class _Way:
    """One way to draw the system.

    Attributes:
        parts: What is drawn on pages of its own: "one", "trunk" in two parts, the "panel_feeds", or
            the "feeds" of everything.
        detail: How much is written at the symbols.
        on_a_row: The most strings on a row.
        most_tiers: The most tiers of a part.
        any_side: Whether words beside a way to earth may run past the page, as a last resort.
    """

    parts: str
    detail: Detail
    on_a_row: int
    most_tiers: int = _MOST_TIERS
    any_side: bool = False


def _ways(least: Detail) -> Iterator[_Way]:
    """The best first."""
    yield _Way("one", Detail.WIDE, 1, 1)
    yield _Way("one", Detail.FULL, 1)
    if least is Detail.FULL:
        return
    yield _Way("one", Detail.SHORT, 1)
    yield _Way("trunk", Detail.FULL, 1)
    for most in range(1, _MOST_ON_A_ROW + 1):
        if most > 1:
            yield _Way("one", Detail.SHORT, most)
        for parts in ("trunk", "panel_feeds", "feeds"):
            yield _Way(parts, Detail.SHORT, most)
    for most in range(1, _MOST_ON_A_ROW + 1):
        for parts in ("one", "trunk", "panel_feeds", "feeds"):
            yield _Way(parts, Detail.BARE, most)
    for parts in ("one", "trunk", "panel_feeds", "feeds"):
        yield _Way(parts, Detail.BARE, _MOST_ON_A_ROW, any_side=True)


def _parted(root: Unit, how: str) -> Iterator[list[Unit]]:
    """Every way to part the tree in such a manner."""
    if how == "one":
        yield [root]
    elif how == "trunk":
        for tag in _cut_places(root)[1:]:
            yield cut_before(root, [tag], marked=True)
    else:
        cuts = branches(root, of_panels_only=how == "panel_feeds")
        yield cut_before(root, cuts, marked=True)


def _cut_places(part: Unit) -> list[str]:
    """Tags of the units along the top after which a tier may end."""
    return [
        unit.tag
        for unit in trunk(part)[1:]
        if ends_a_part(unit) and unit.feeds and not unit.continued
    ]


def _paged(
    parts: list[Unit],
    style: Style,
    known: GroundPath,
    size: tuple[float, float],
    way: _Way,
) -> tuple[tuple[Tier, ...], ...]:
    """The parts in tiers on pages; none where a part does not fit a page."""
    pages: list[list[Tier]] = []
    left = 0.0
    for part in parts:
        tiers = _best(part, style, known, size, way, last=part is parts[-1])
        if tiers is None:
            return ()
        height = sum(tier.height for tier in tiers) + (PART_GAP if left < size[1] else 0.0)
        if not pages or height > left:
            pages.append([])
            left = size[1]
            height = sum(tier.height for tier in tiers)
        pages[-1] += tiers
        left -= height
    return tuple(tuple(page) for page in pages)


def _best(
    part: Unit,
    style: Style,
    known: GroundPath,
    size: tuple[float, float],
    way: _Way,
    *,
    last: bool,
) -> list[Tier] | None:
    """The fewest tiers of a part that keep to a page, and of those the least high."""
    width, height = size
    places = _cut_places(part)[1 if last else 0 :]
    for count in range(way.most_tiers):
        found = []
        for cuts in combinations(places, count):
            units = cut_before(part, cuts, marked=False)
            sizes = [sized(unit, style) for unit in units]
            for node in sizes:
                mark_bonds(node, known)
            end_room = _EDGE if last else MARK_ROOM + mark_distance(sizes[-1])
            rooms = [RIGHT] * (len(units) - 1) + [end_room]
            if all(
                least_width(node) <= width - _left(units) - room
                for node, room in zip(sizes, rooms, strict=True)
            ):
                tiers = _placed(sizes, rooms, style, known, (_left(units), width))
                if way.any_side or all(earth_fits(t.root, 0.0, t.right) for t in tiers):
                    found.append(tiers)
        fitting = [tiers for tiers in found if sum(t.height for t in tiers) <= height]
        if fitting:
            return min(fitting, key=lambda tiers: sum(t.height for t in tiers))
    return None


def _left(units: list[Unit]) -> float:
    return LEFT if len(units) > 1 else LEFT_ALONE


def _placed(
    roots: list[Node],
    rooms: list[float],
    style: Style,
    known: GroundPath,
    span: tuple[float, float],
) -> list[Tier]:
    left, width = span
    tiers = []
    for number, (root, room) in enumerate(zip(roots, rooms, strict=True)):
        right = width - room
        place_columns(root, left, right)
        place_rows(root, style, known)
        low, high = tier_extent(root)
        joined = number < len(roots) - 1
        tiers.append(
            Tier(
                root,
                joined,
                right,
                high - low + (LANE + 2 * LANE_ROOM * root.span if joined else 0.0),
            )
        )
    return tiers
