"""Hatches broken where words stand on them, which a black line would strike through."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TypeGuard

from planset.drawing.flatten import text_corners, texts
from planset.drawing.geometry import Placement, Point
from planset.drawing.hatching import outside
from planset.drawing.page import View
from planset.drawing.primitives import Block, Insert, Line, Primitive
from planset.drawing.text import SLACK
from planset.sheets.context import SheetDrawing, SheetEntry

_HATCHES = ("F-ROOF-ACCS-PATT", "S-ROOF-ZONE-PATT")
_AROUND = 0.03  # free of hatch around the words [paper in]
_LEAST = 0.03  # of what is left of a line [paper in]

Drawn = list[tuple[SheetEntry, SheetDrawing]]


def with_gaps(drawn: Drawn, symbols: Mapping[str, Block]) -> Drawn:
    """The sheets, with the hatch of their plans left out where any of them has words.

    Args:
        drawn: Sheets in order, their hatches inserted at the origin of their views.
        symbols: Blocks with words that stand in views, by name.
    """
    sheets = [sheet for _, sheet in drawn]
    hatches = {block.name: block for s in sheets for block in s.blocks if _hatch(block)}
    for name, block in hatches.items():
        views = [view for sheet in sheets for view in sheet.views if _shows(view, name)]
        hatches[name] = _broken(block, views, symbols)
    return [
        (entry, replace(sheet, blocks=tuple(hatches.get(b.name, b) for b in sheet.blocks)))
        for entry, sheet in drawn
    ]


def _hatch(block: Block) -> list[Line]:
    return [part for part in block.primitives if _is_hatch(part)]


def _is_hatch(part: Primitive) -> TypeGuard[Line]:
    return isinstance(part, Line) and part.layer in _HATCHES


def _shows(view: View, name: str) -> bool:
    return any(isinstance(part, Insert) and part.block == name for part in view.model)


def _broken(block: Block, views: Sequence[View], symbols: Mapping[str, Block]) -> Block:
    """A block whose hatch leaves free what is lettered in the views of it."""
    hatch = _hatch(block)
    holes = [hole for view in views for hole in _lettered(view, symbols)]
    least = _LEAST * max((view.scale.factor for view in views), default=1.0)
    others = (part for part in block.primitives if not _is_hatch(part))
    return replace(block, primitives=(*others, *outside(hatch, holes, least)))


def _lettered(view: View, symbols: Mapping[str, Block]) -> Iterator[list[Point]]:
    """Corners of what each line of words covers in a view, in its model."""
    factor, (x, y) = view.scale.factor, view.on_paper.at
    to_model = Placement((-x * factor, -y * factor), 0.0, factor)
    for text in texts(view.annotation, Placement(), symbols):
        yield [to_model.apply(corner) for corner in text_corners(text, SLACK, _AROUND)]
