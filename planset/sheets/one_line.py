"""E-601 single-line diagram, laid out from the job's equipment, with its schedules."""

from __future__ import annotations

from planset.design.topology import Kind
from planset.drawing.fit import ViewTooLargeError
from planset.drawing.furniture import view_title
from planset.drawing.geometry import Box
from planset.drawing.page import NOT_TO_SCALE, View
from planset.sheets import one_line_diagram, one_line_tables
from planset.sheets.context import SheetContext, SheetDrawing
from planset.sheets.lettering import at_largest_lettering

ID = "E-601"
TITLE = "SINGLE-LINE DIAGRAM"

_DIAGRAM_SHARE = 0.35  # of what the sheet has beyond the least height
_LEAST_SCHEDULES = 5.3  # height of the schedules, the diagram's title above them [in]
_TITLE_HEIGHT = 0.78
_FEW_STRINGS = 2  # always have their ratings over them


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """Lay out the single-line diagram and its schedules, as large as the sheet allows."""
    return at_largest_lettering(context, _lay_out)


def _lay_out(context: SheetContext) -> tuple[SheetDrawing, ...]:
    area, topology = context.area, context.design.topology
    height = one_line_diagram.least_height(topology, labeled=True)
    strings = len(topology.of_kind(Kind.STRING))
    labeled = strings <= _FEW_STRINGS or height <= area.height - _LEAST_SCHEDULES
    if not labeled:  # many strings: their ratings stand in a schedule
        height = one_line_diagram.least_height(topology, labeled=False)
    height += max(area.height - height - _LEAST_SCHEDULES, 0.0) * _DIAGRAM_SHARE
    if height > area.height - _TITLE_HEIGHT:
        msg = f"{TITLE} of {strings} strings does not fit {area.height:.1f} in of height"
        raise ViewTooLargeError(msg)
    frame = Box(area.x0, area.y1 - height, area.x1, area.y1)
    drawn = one_line_diagram.diagram(context, frame, labeled=labeled)
    # The diagram is drawn at plotted size: its model inches are the page's, moved to (0, 0).
    window = Box(0.0, 0.0, frame.width, frame.height)
    view = View(1, TITLE, NOT_TO_SCALE, window, frame.corners[0], drawn.model, drawn.annotation)
    title_at = (area.x0 + 0.3, frame.y0 - 0.35)
    below = Box(area.x0, area.y0, area.x1, frame.y0 - _TITLE_HEIGHT)
    tables = one_line_tables.tables(context, below, strings=not labeled)
    paper = (*view_title(1, ID, TITLE, NOT_TO_SCALE, title_at), *tables[0])
    first = SheetDrawing((view,), paper, drawn.blocks)
    return (first, *(SheetDrawing((), page) for page in tables[1:]))
