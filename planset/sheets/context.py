"""What every sheet is given, and what it hands back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from planset.design.design import Design
from planset.drawing.enlarge import reduced
from planset.drawing.geometry import Box
from planset.drawing.page import DataSheet, TitleBlock, View
from planset.drawing.primitives import Block, Primitive
from planset.drawing.symbols import Symbol
from planset.finding import Finding
from planset.sheets.contents import SheetContents


@dataclass(frozen=True, slots=True)
class SheetEntry:
    """One line of the sheet index.

    Attributes:
        id: Sheet id, e.g. "A-101".
        title: Capitals.
    """

    id: str
    title: str


@dataclass(frozen=True, slots=True)
class SheetContext:
    """What every sheet is given.

    Attributes:
        design: The design.
        findings: What the rules found.
        index: All sheets of the set, in order.
        symbols: Symbols by name.
        titleblock: The set's title block.
        status: Words for the status field, e.g. "PRELIMINARY".
        others: What stands on the sheets that are drawn before this one.
        enlargement: How many times as large what is laid out will be drawn.
        data_sheets: Documents of others that follow the sheets.
        kept: Pages that only hang on the design, by sheet and pages before them: a sheet that
            is drawn again when its index has changed finds them here.
    """

    design: Design
    findings: tuple[Finding, ...]
    index: tuple[SheetEntry, ...]
    symbols: Mapping[str, Symbol]
    titleblock: TitleBlock
    status: str
    others: tuple[SheetContents, ...] = ()
    enlargement: float = 1.0
    data_sheets: tuple[DataSheet, ...] = ()
    kept: dict[tuple[str, int], tuple[SheetDrawing, ...]] = field(default_factory=dict)

    @property
    def area(self) -> Box:
        """Where a sheet may draw, a small margin inside the border, before enlargement [in]."""
        return reduced(self.titleblock.drawing_area.grown(-0.12), self.enlargement)


@dataclass(frozen=True, slots=True)
class SheetDrawing:
    """What a sheet hands back.

    Attributes:
        views: Its views.
        paper: What stands beside them [paper in].
        blocks: Blocks it uses and made itself.
        scale: Words for the title block's scale field.
        title: Capitals; "" for the usual title of the sheet.
    """

    views: tuple[View, ...] = ()
    paper: tuple[Primitive, ...] = ()
    blocks: tuple[Block, ...] = field(default=())
    scale: str = "NONE"
    title: str = ""


def continued_id(sheet: str, number: int) -> str:
    """Id of a sheet, 0, and of the sheets it runs over to: G-001, G-001.1, G-001.2."""
    return f"{sheet}.{number}" if number else sheet


def base_id(sheet: str) -> str:
    """Id of the sheet that one runs over from, its own where it is no continuation."""
    return sheet.partition(".")[0]
