"""What has a name on a drawn sheet, and where it stands."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from planset.drawing.flatten import rotated_text_box, strokes, texts
from planset.drawing.geometry import Box, Placement, box_around, united
from planset.drawing.layers import INHERITED
from planset.drawing.page import View
from planset.drawing.primitives import Block, Insert, Primitive
from planset.drawing.table import CONTINUED
from planset.sheets.context import SheetDrawing
from planset.sheets.found_tables import around, found_tables, joined, paragraphs

WITHIN = " / "
"""Between the title of a view or table and what in it is meant."""

_ON_PAPER = Placement()
_LABEL_REACH = 0.3  # from a thing to its name [in]
_NAMING = ("TAG", "ID", "KEY")  # attributes that hold the name of what is inserted


@dataclass(frozen=True, slots=True)
class Place:
    """Where something stands.

    Attributes:
        view: Number of its view, 0 beside views.
        box: What it covers [paper in].
        is_view: Whether it is all of that view, so that what marks it stands beside the view.
    """

    view: int
    box: Box
    is_view: bool = False

    def holds(self, other: Place) -> bool:
        """Whether another place lies here."""
        return self.view == other.view and self.box.holds(other.box.center)


Named = dict[str, list[Place]]
"""Places by their name in capitals; one thing may stand in several."""


@dataclass(frozen=True, slots=True)
class NamedPlaces:
    """What has a name on one sheet.

    Attributes:
        titles: Views and tables.
        things: What stands in views: equipment, arrays, modules, attachments, obstructions, labels.
        rows: Rows of tables by their first words, notes by their numbers.
        words: Lines and paragraphs.
    """

    titles: Named = field(default_factory=dict)
    things: Named = field(default_factory=dict)
    rows: Named = field(default_factory=dict)
    words: Named = field(default_factory=dict)

    def find(self, name: str) -> tuple[int, list[Place]]:
        """Where what is named so stands, and how far it was looked for: less is nearer the word.

        A title goes before a thing, a row, or words; last comes the only one that begins so, which
        for a thing will not do. Before the name may stand the title of what it is looked for in.
        """
        name = normal(name)
        kinds = [self.titles, self.things, self.rows, self.words]
        rank, places = _find(name, kinds)
        title, _, name = name.rpartition(WITHIN)
        if places or not title:
            return rank, places
        within = _find(title, [self.titles, {}])[1]
        return _find(name, [{}, *(_held_by(within, kind) for kind in kinds[1:])])


def _find(name: str, kinds: Sequence[Named]) -> tuple[int, list[Place]]:
    """The places of a name, else of the only one that begins with it and is not a thing's."""
    titles, _, *lines = kinds
    whole = [kind.get(name, []) for kind in kinds]
    begun = [_begun_with(name, kind) for kind in (titles, *lines)]
    return next(
        ((rank, places) for rank, places in enumerate([*whole, *begun]) if places),
        (len(whole) + len(begun), []),
    )


def _begun_with(name: str, kind: Named) -> list[Place]:
    longer = [one for one in kind if name and re.match(rf"{re.escape(name)}(?!\w)", one)]
    return kind[longer[0]] if len(longer) == 1 else []


def _held_by(within: Sequence[Place], kind: Named) -> Named:
    return {
        name: held
        for name, places in kind.items()
        if (held := [place for place in places if any(one.holds(place) for one in within)])
    }


def normal(name: str) -> str:
    """A name as it is compared: in capitals, single spaces, without that it goes on."""
    return " ".join(name.upper().split()).removesuffix(CONTINUED)


def named_places(
    drawing: SheetDrawing, blocks: Mapping[str, Block], called: Mapping[str, str]
) -> NamedPlaces:
    """What has a name on a sheet.

    Args:
        drawing: The sheet.
        blocks: The blocks its insertions name.
        called: Names of things that are a block of their own, by the name of the block.
    """
    made = NamedPlaces()
    for view in drawing.views:
        _add_view(made, view, blocks, called)
    for name, box in _things(drawing.paper, _ON_PAPER, blocks, called):
        _add(made.things, name, Place(0, box))
    for table in found_tables(drawing.paper):
        _add(made.titles, table.title, Place(0, table.box))
        for name, box in table.rows:
            _add(made.rows, name, Place(0, box))
    _add_words(made, 0, drawing.paper, _ON_PAPER, blocks)
    return made


def _add(named: Named, name: str, place: Place) -> None:
    places = named.setdefault(normal(name), []) if name else []
    if place not in places:
        places.append(place)


def _add_view(
    made: NamedPlaces, view: View, blocks: Mapping[str, Block], called: Mapping[str, str]
) -> None:
    drawn: list[Box] = []
    things: list[tuple[str, Box]] = []
    for parts, placement in ((view.model, view.on_paper), (view.annotation, _ON_PAPER)):
        drawn += _extents(parts, placement, blocks)
        things += _things(parts, placement, blocks, called)
        _add_words(made, view.number, parts, placement, blocks)
    words = {name: _held_in(view, places) for name, places in made.words.items()}
    for name, box in things:
        shown = _with_label(normal(name), box, words).shared(view.frame)
        if shown.x0 <= shown.x1 and shown.y0 <= shown.y1:
            _add(made.things, name, Place(view.number, shown))
    if drawn:
        _add(
            made.titles,
            view.title,
            Place(view.number, united(drawn).shared(view.frame), is_view=True),
        )


def _held_in(view: View, places: Iterable[Place]) -> list[Box]:
    return [place.box for place in places if place.view == view.number]


def _with_label(name: str, box: Box, words: Mapping[str, list[Box]]) -> Box:
    """A thing with the label close to it that begins with its name, and words between and beside.

    A label may go on after the name in parentheses, as `INV1 (N)` does.
    """
    reach = box.grown(_LABEL_REACH)
    begun = [boxes for text, boxes in words.items() if f"{text} (".startswith(f"{name} (")]
    labels = [label for boxes in begun for label in boxes if reach.overlaps(label)]
    if not labels:
        return box
    whole = united([box, *labels])
    beside = [one for boxes in words.values() for one in boxes if one.overlaps(whole)]
    return united([whole, *beside])


def _add_words(
    made: NamedPlaces,
    view: int,
    parts: Iterable[Primitive],
    placement: Placement,
    blocks: Mapping[str, Block],
) -> None:
    for lines in paragraphs(texts(parts, placement, blocks)):
        _add(made.words, joined(lines), Place(view, around(lines)))
        for line in lines if len(lines) > 1 else ():
            _add(made.words, line.text, Place(view, rotated_text_box(line)))


def _things(
    parts: Iterable[Primitive],
    placement: Placement,
    blocks: Mapping[str, Block],
    called: Mapping[str, str],
    inherited: str = INHERITED,
) -> Iterator[tuple[str, Box]]:
    """Yield the names of what is inserted, with the box around it [paper in]."""
    for part in parts:
        if not isinstance(part, Insert):
            continue
        names = [one.value for one in part.attributes if one.tag in _NAMING]
        name = next(filter(None, (*names, part.identity, called.get(part.block, ""))), "")
        extents = list(_extents([part], placement, blocks, inherited)) if name else []
        if extents:
            yield name, united(extents)
        inner = Placement(part.at, part.rotation_deg, part.scale).within(placement)
        layer = inherited if part.layer == INHERITED else part.layer
        yield from _things(blocks[part.block].primitives, inner, blocks, called, layer)


def _extents(
    parts: Iterable[Primitive],
    placement: Placement,
    blocks: Mapping[str, Block],
    inherited: str = INHERITED,
) -> Iterator[Box]:
    """Yield the boxes around what is drawn [paper in]."""
    parts = list(parts)
    for stroke in strokes(parts, placement, blocks, inherited):
        yield box_around(stroke.points)
    yield from map(rotated_text_box, texts(parts, placement, blocks))
