"""S-101 attachment plan: rails and attachments plane by plane, as a crew tapes them on the roof."""

from __future__ import annotations

from functools import partial

from planset.sheets.attachment_legend import plan_legend
from planset.sheets.attachment_pages import pages_of
from planset.sheets.attachment_plan_tables import tables
from planset.sheets.attachment_view import mounted_planes
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
    return plane_pages(
        context,
        plan,
        pages_of(context, mounted_planes(context)),
        partial(tables, context),
        before=0,
        carried=(partial(notes, context), *cut_tables(context.design)),
    )
