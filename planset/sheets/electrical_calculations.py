"""E-602 electrical calculations: formula, numbers, result, limit and clause, subject by subject."""

from __future__ import annotations

from itertools import repeat

from planset.design.electrical.module_voltage import FLUSH_ROOF_RISE_C
from planset.drawing.columns import first_then
from planset.drawing.geometry import Box
from planset.drawing.notes import Section, flow
from planset.drawing.stack import stack
from planset.sheets.context import SheetContext, SheetDrawing
from planset.sheets.electrical_calculations_conductors import conductor_blocks
from planset.sheets.electrical_calculations_rows import Block, Code, tables
from planset.sheets.electrical_calculations_service import service_blocks
from planset.sheets.electrical_calculations_sources import source_blocks
from planset.sheets.lettering import at_largest_lettering
from planset.sheets.note_table import LINE_LAYER, TEXT_LAYER
from planset.units import format_temperature

ID = "E-602"
TITLE = "ELECTRICAL CALCULATIONS"

_GAP = 0.2
_NOTES_COLUMNS = 2
_LEAST_NOTES = 1.9  # height in which the notes begin below the last block [in]


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """Lay out the calculations in blocks of equal columns, then symbols and assumptions."""
    return at_largest_lettering(context, _lay_out)


def blocks(context: SheetContext) -> tuple[Block, ...]:
    """All blocks in order, also those without a line."""
    design, code = context.design, _code(context)
    return (
        *source_blocks(design, code),
        *conductor_blocks(design, code),
        *service_blocks(design, code),
    )


def _code(context: SheetContext) -> Code:
    return Code(context.design.inputs.jurisdiction.codes.electrical.edition, context.findings)


def _document(context: SheetContext) -> str:
    return f"NEC {_code(context).edition}"


def _lay_out(context: SheetContext) -> tuple[SheetDrawing, ...]:
    area = context.area
    listed = stack(tables(blocks(context), _document(context)), repeat((area,)), _GAP, broken=True)
    (rest,) = listed.rest
    sections = (
        Section("SYMBOLS", (*_SYMBOLS, _factors(context)), numbered=False),
        Section("ASSUMPTIONS AND BASIS", _basis(context)),
    )
    beside = _in_columns(rest) if rest.height >= _LEAST_NOTES else ()
    noted = flow(sections, first_then(beside, _in_columns(area)), TEXT_LAYER, LINE_LAYER)
    pages = [list(page) for page in listed.pages]
    last = len(pages) - 1
    for number, page in enumerate(noted.pages):
        if last + number == len(pages):
            pages.append([])
        pages[last + number] += page
    return tuple(SheetDrawing((), tuple(page)) for page in pages)


def _in_columns(box: Box) -> tuple[Box, ...]:
    width = (box.width - _GAP * (_NOTES_COLUMNS - 1)) / _NOTES_COLUMNS
    starts = (box.x0 + n * (width + _GAP) for n in range(_NOTES_COLUMNS))
    return tuple(Box(x, box.y0, x + width, box.y1) for x in starts)


_SYMBOLS = (
    "n modules in series; Voc, Vmp, Isc of one module at standard test conditions, V and A.",
    "b, g coefficients of Voc and of power, % per C; F factor of Table 690.7(A).",
    "Tmin lowest ambient, Tcell cell temperature, T temperature of the line, C.",
    "I maximum circuit current, in a drop the operating current, A.",
    "L length one way, ft; Z resistance or effective impedance, ohm per 1000 ft; V operating "
    "voltage, V.",
    "floor, ceil: down, up to a whole number.",
)


def _factors(context: SheetContext) -> str:
    """Ampacity and its factors, with their tables."""
    code = _code(context)
    return (
        f"A ampacity, A, at terminals in their column: {code.cite('ampacity')}, in free air "
        f"{code.cite('free_air_ampacity')}; "
        f"Ca correction for ambient temperature, {code.cite('ambient')}, with the adder of "
        f"{code.cite('rooftop')} over roofs; Cn adjustment for the number of current-carrying "
        f"conductors, {code.cite('bundling')}."
    )


def _basis(context: SheetContext) -> tuple[str, ...]:
    site = context.design.inputs.job.site
    return (
        f"Lowest ambient {format_temperature(site.lowest_ambient)} and high ambient "
        f"{format_temperature(site.high_ambient)} are stated by the job.",
        f"Hot cells are taken {FLUSH_ROOF_RISE_C:g} C over the high ambient, modules flush to the "
        "roof (common practice, no source); Vmp follows the coefficient of power.",
        "Voltage drop is taken at a power factor of 1; its limits are notes of the code, not "
        "rules.",
        "The fault current is taken as that of the service at every device beyond it, too.",
        "Results are added and compared before rounding. OUTCOME is that of the check which "
        "compares the two; a dash: none does.",
    )
