"""The set: which sheets, in which order, numbered and put into their title block."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from functools import partial
from types import MappingProxyType

from planset.design.design import Design
from planset.drawing.page import DataSheet, DrawingSet, Page, TitleBlock
from planset.drawing.primitives import Block, Insert
from planset.drawing.symbols import Symbol
from planset.finding import Finding
from planset.second_process import done_by_two
from planset.sheets import (
    attachment_detail,
    attachment_plan,
    bill,
    compliance,
    cover,
    crew_sheet,
    electrical_calculations,
    electrical_plan,
    label_sheet,
    load_tables,
    roof_plan,
    site_plan,
)
from planset.sheets.contents import contents
from planset.sheets.context import SheetContext, SheetDrawing, SheetEntry, continued_id
from planset.sheets.hatch_gaps import with_gaps
from planset.sheets.links import linked
from planset.sheets.one_line import sheet as one_line
from planset.sheets.revision_marks import marked
from planset.sheets.title_deltas import delta_blocks, with_deltas
from planset.sheets.title_fields import title_fields

PRELIMINARY = "PRELIMINARY"
SUBMITTAL = "FOR PLAN REVIEW"
TO_BUILD = "FOR THE CREW"
_MOST_ROUNDS = 4

_TELL_OF_OTHERS = {compliance.ID: 1, cover.ID: 2, crew_sheet.ID: 3}
"""Sheets that are drawn last, in this order, since they say what stands on the others."""

Builder = Callable[[SheetContext], tuple[SheetDrawing, ...]]

_BUILDERS: tuple[tuple[SheetEntry, Builder], ...] = (
    (SheetEntry(cover.ID, cover.TITLE), cover.build),
    (SheetEntry(compliance.ID, compliance.TITLE), compliance.build),
    (SheetEntry(site_plan.ID, site_plan.TITLE), site_plan.build),
    (SheetEntry(roof_plan.ID, roof_plan.TITLE), roof_plan.build),
    (SheetEntry(attachment_plan.ID, attachment_plan.TITLE), attachment_plan.build),
    (SheetEntry(attachment_detail.ID, attachment_detail.TITLE), attachment_detail.build),
    (SheetEntry(load_tables.ID, load_tables.TITLE), load_tables.build),
    (SheetEntry(electrical_plan.ID, electrical_plan.TITLE), electrical_plan.build),
    (SheetEntry(one_line.ID, one_line.TITLE), one_line.build),
    (
        SheetEntry(electrical_calculations.ID, electrical_calculations.TITLE),
        electrical_calculations.build,
    ),
    (SheetEntry(label_sheet.ID, label_sheet.TITLE), label_sheet.build),
)

_FOR_CREW: tuple[tuple[SheetEntry, Builder], ...] = (
    (SheetEntry(crew_sheet.ID, crew_sheet.TITLE), crew_sheet.build),
    (SheetEntry(bill.ID, bill.TITLE), bill.build),
)

SHEETS: Mapping[str, str] = MappingProxyType(
    {entry.id: entry.title for entry, _ in (*_BUILDERS, *_FOR_CREW)}
)


def build_set(
    design: Design,
    findings: tuple[Finding, ...],
    symbols: Mapping[str, Symbol],
    titleblock: TitleBlock,
    *,
    preliminary: bool,
    data_sheets: tuple[DataSheet, ...] = (),
) -> DrawingSet:
    """All sheets the job asks for, in the reader's order.

    Args:
        design: The design.
        findings: What the rules found.
        symbols: Symbols by name.
        titleblock: The set's title block.
        preliminary: Whether every sheet is marked PRELIMINARY.
        data_sheets: Documents of others that follow the sheets.
    """
    status = PRELIMINARY if preliminary else SUBMITTAL
    context = SheetContext(
        design, findings, (), symbols, titleblock, status, data_sheets=data_sheets
    )
    blocks: dict[str, Block] = {titleblock.name: titleblock.block}
    available = _available(context)
    pages = _pages(_BUILDERS, context, cover.ID, blocks)
    others = [sheet.id for sheet in data_sheets]
    linked_pages = linked(pages, titleblock, cover.ID, others)
    crew = replace(context, status=PRELIMINARY if preliminary else TO_BUILD, data_sheets=())
    crew_pages = _pages(_FOR_CREW, crew, crew_sheet.ID, blocks)
    linked_pages += tuple(
        replace(page, for_crew=True) for page in linked(crew_pages, titleblock, crew_sheet.ID)
    )
    blocks |= {
        name: available[name]
        for name in _symbols_used([*pages, *crew_pages], blocks)
        if name in available
    }
    project = design.inputs.job.project
    return DrawingSet(
        title=f"{project.name}, {project.number}",
        author=design.inputs.job.contractor.name,
        subject=project.scope,
        titleblocks={titleblock.name: titleblock},
        blocks=blocks,
        pages=linked_pages,
        data_sheets=data_sheets,
    )


def _pages(
    builders: Iterable[tuple[SheetEntry, Builder]],
    context: SheetContext,
    index_on: str,
    blocks: dict[str, Block],
) -> list[Page]:
    """The pages of one file, of the sheets that the job asks for; their blocks are added.

    Args:
        builders: Sheets in the reader's order.
        context: What the sheets are given, their index apart.
        index_on: Id of the sheet that holds the index.
        blocks: Blocks by name.
    """
    wanted = context.design.inputs.job.drafting.sheets
    builders = [(entry, build) for entry, build in builders if entry.id in wanted]
    context = replace(context, index=tuple(entry for entry, _ in builders))
    drawn = with_gaps(_drawn(builders, context, index_on), _available(context))
    for _, sheet in drawn:
        blocks |= {block.name: block for block in sheet.blocks}
    context = replace(context, index=tuple(entry for entry, _ in drawn))
    drawn = marked(context, drawn, _available(context) | blocks)
    return [_page(context, entry, n, sheet) for n, (entry, sheet) in enumerate(drawn, 1)]


def _available(context: SheetContext) -> dict[str, Block]:
    """Blocks that any sheet may insert, by name: symbols and deltas."""
    symbols = {name: symbol.block for name, symbol in context.symbols.items()}
    return symbols | delta_blocks(context)


def _drawn(
    builders: list[tuple[SheetEntry, Builder]], context: SheetContext, index_on: str
) -> list[tuple[SheetEntry, SheetDrawing]]:
    """The sheets in order, those that tell of others drawn after them."""
    made: dict[str, tuple[SheetDrawing, ...]] = {}
    available = _available(context)

    def so_far() -> list[tuple[SheetEntry, SheetDrawing]]:
        """What is drawn already, and the entries of what is not."""
        blank = (SheetDrawing(),)
        return [p for entry, _ in builders for p in _numbered(entry, made.get(entry.id, blank))]

    first = [(entry.id, build) for entry, build in builders if entry.id not in _TELL_OF_OTHERS]
    drawings = done_by_two([partial(build, context) for _, build in first])
    made |= zip([sheet for sheet, _ in first], drawings, strict=True)
    tell_of_others = [pair for pair in builders if pair[0].id in _TELL_OF_OTHERS]
    for entry, build in sorted(tell_of_others, key=lambda pair: _TELL_OF_OTHERS[pair[0].id]):
        pairs = so_far()
        blocks = available | {b.name: b for _, drawing in pairs for b in drawing.blocks}
        told = tuple(contents(one.id, drawing, blocks) for one, drawing in pairs)
        context = replace(context, index=tuple(one for one, _ in pairs), others=told)
        made[entry.id] = build(context)
    # A sheet with the index that runs over adds a line to it, so it is drawn again.
    build_index = {entry.id: build for entry, build in builders}.get(index_on)
    for _ in range(_MOST_ROUNDS):
        drawn = so_far()
        index = tuple(entry for entry, _ in drawn)
        if build_index is None or index == context.index:
            break
        context = replace(context, index=index)
        made[index_on] = build_index(context)
    return drawn


def _numbered(
    entry: SheetEntry, drawings: tuple[SheetDrawing, ...]
) -> list[tuple[SheetEntry, SheetDrawing]]:
    """A sheet and the sheets it runs over to, with their lines of the index."""
    title = drawings[0].title or entry.title
    entries = [
        SheetEntry(continued_id(entry.id, n), f"{title}, CONT." if n else title)
        for n in range(len(drawings))
    ]
    return list(zip(entries, drawings, strict=True))


def _page(context: SheetContext, entry: SheetEntry, number: int, drawn: SheetDrawing) -> Page:
    border = Insert(
        context.titleblock.name,
        (0.0, 0.0),
        "G-ANNO-TTLB",
        attributes=title_fields(context, entry, number, drawn.scale),
    )
    paper = (*with_deltas(context, entry.id, border), *drawn.paper)
    return Page(entry.id, entry.title, context.titleblock.name, drawn.views, paper)


def _symbols_used(pages: list[Page], blocks: Mapping[str, Block]) -> set[str]:
    """Names of all blocks inserted on the pages, in their views and in other blocks."""
    inserted = {
        primitive.block
        for page in pages
        for view in page.views
        for primitive in (*view.model, *view.annotation)
        if isinstance(primitive, Insert)
    }
    inserted |= {p.block for page in pages for p in page.paper if isinstance(p, Insert)}
    inserted |= {
        p.block for block in blocks.values() for p in block.primitives if isinstance(p, Insert)
    }
    return inserted
