"""S-101 attachment plan: rails and attachments plane by plane, as a crew tapes them on the roof."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from planset.drawing.stack import TableAt
from planset.sheets.attachment_legend import plan_legend
from planset.sheets.attachment_pages import pages_of
from planset.sheets.attachment_plan_tables import tables
from planset.sheets.attachment_view import PlaneView, mounted_planes
from planset.sheets.context import SheetContext, SheetDrawing
from planset.sheets.crew_notes import notes
from planset.sheets.cut_tables import cut_tables
from planset.sheets.lettering import beside_views
from planset.sheets.plane_pages import PagePlan, plane_pages

ID = "S-101"
TITLE = "ATTACHMENT PLAN"


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """Lay out the planes with arrays mounted by this job; no sheet where there is none."""
    plan = PagePlan(ID, (beside_views(context),), partial(plan_legend, context.design))
    pages: list[SheetDrawing] = []
    for shown in pages_of(context, mounted_planes(context)):
        first = not pages

        def listed(views: Sequence[PlaneView], first: bool = first) -> list[TableAt]:
            beside = tables(context, views)
            if first:
                beside += [partial(notes, context), *cut_tables(context.design)]
            return beside

        pages += plane_pages(context, plan, shown, listed, len(pages))
    return tuple(pages)
