"""Copies of a set without what two renderers cannot draw alike."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from planset.drawing.layers import INHERITED, LAYERS, LINETYPES
from planset.drawing.page import DrawingSet
from planset.drawing.primitives import (
    Attribute,
    Dimension,
    Insert,
    Leader,
    Link,
    Primitive,
    Text,
)

UNBROKEN = "G-ANNO-TABL"
_GROUNDS = ("E-LABL-REDB", "E-LABL-YELB")

Change = Callable[[Primitive], Primitive | None]


def changed(drawing: DrawingSet, change: Change) -> DrawingSet:
    """The set with each primitive replaced by what `change` makes of it, or left out."""

    def each(primitives: tuple[Primitive, ...]) -> tuple[Primitive, ...]:
        return tuple(made for part in primitives if (made := change(part)) is not None)

    blocks = {
        name: replace(block, primitives=each(block.primitives))
        for name, block in drawing.blocks.items()
    }
    titleblocks = {
        name: replace(titleblock, block=blocks[name])
        for name, titleblock in drawing.titleblocks.items()
    }
    pages = tuple(
        replace(
            page,
            paper=each(page.paper),
            views=tuple(
                replace(view, model=each(view.model), annotation=each(view.annotation))
                for view in page.views
            ),
        )
        for page in drawing.pages
    )
    return replace(drawing, blocks=blocks, titleblocks=titleblocks, pages=pages)


def unbroken(part: Primitive) -> Primitive:
    """The same on a layer without dashes, where its own has them."""
    if isinstance(part, Dimension | Leader):
        marks = tuple(unbroken(mark) for mark in part.marks)
        return replace(part, marks=marks)  # type: ignore[arg-type]  # kinds stay what they are
    if isinstance(part, Link) or part.layer == INHERITED or not LINETYPES[dashes_of(part.layer)]:
        return part
    return replace(part, layer=UNBROKEN)


def unfilled(part: Primitive) -> Primitive | None:
    """Nothing for the colored ground of a label, on which one ink shows no letters; those black."""
    if isinstance(part, Text):
        return _blackened(part)
    if isinstance(part, Insert):
        return replace(part, attributes=tuple(map(_blackened_value, part.attributes)))
    return None if not isinstance(part, Link) and part.layer in _GROUNDS else part


def _blackened(text: Text) -> Text:
    return replace(text, layer="E-LABL-BLCK") if text.layer == "E-LABL-WHTE" else text


def _blackened_value(attribute: Attribute) -> Attribute:
    return replace(attribute, text=attribute.text and _blackened(attribute.text))


def dashes_of(layer: str) -> str:
    return LAYERS[layer].linetype


def textless(part: Primitive) -> Primitive | None:
    """Nothing for a text; no written values."""
    if isinstance(part, Text):
        return None
    if isinstance(part, Insert):
        return replace(part, attributes=tuple(map(_unwritten, part.attributes)))
    return part


def wordless(part: Primitive) -> Primitive | None:
    """Nothing for a text or a dimension, which a reader may draw in its own way."""
    return None if isinstance(part, Dimension) else textless(part)


def _unwritten(attribute: Attribute) -> Attribute:
    return replace(attribute, text=None)
