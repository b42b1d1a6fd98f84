"""Small sheets, each with little more than the one thing whose fate is asked for."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from planset.drawing.geometry import Box
from planset.drawing.page import DrawingSet, Page, Scale, View
from planset.drawing.primitives import Attribute, Block, Insert, Polyline, Primitive
from planset.formats.dxf_sheet import write_sheet_dxf
from planset.formats.pdf_write import write_pdf
from tests.formats.pages import DRAWING, TITLEBLOCK

FACTOR = 64
SCALE = Scale(FACTOR, '3/16" = 1\'-0"')
PANEL = Block(
    "PANEL",
    (Polyline(((0, 0), (44, 0), (44, 69), (0, 69)), "0", closed=True),),
    attribute_tags=("ID",),
    constants=(Attribute("MODEL", "TR-402"),),
)
PANELS = Block(
    "PANELS",
    tuple(
        Insert(
            "PANEL", (45.0 * n, 0), "0", attributes=(Attribute("ID", f"M{n}"),), identity=f"m{n}"
        )
        for n in range(5)
    ),
)


def sheet(
    *annotation: Primitive, model: tuple[Primitive, ...] = (), blocks: tuple[Block, ...] = ()
) -> DrawingSet:
    """A set of one 17 by 11 in sheet with one view, its annotation in paper inches."""
    view = View(1, "PLAN", SCALE, Box(0, 0, 15 * FACTOR, 9 * FACTOR), (1, 1), model, annotation)
    page = Page("A-101", "PLAN", TITLEBLOCK.name, (view,), ())
    named = {block.name: block for block in (PANEL, PANELS, *blocks)}
    return replace(DRAWING, pages=(page,), blocks={**DRAWING.blocks, **named})


def sheet_dxf(drawing: DrawingSet, folder: Path) -> Path:
    path = folder / "A-101.dxf"
    write_sheet_dxf(drawing, drawing.pages[0], path)
    return path


def sheet_pdf(drawing: DrawingSet, folder: Path) -> Path:
    path = folder / "ours.pdf"
    write_pdf(drawing, path)
    return path
