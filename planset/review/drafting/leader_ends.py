"""A leader ends on the thing it names."""

from __future__ import annotations

from collections.abc import Iterator

from shapely import MultiPoint, STRtree
from shapely.geometry import Point as Dot
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from planset.drawing.primitives import Leader, Polyline
from planset.drawing.revision_marks import CLOUD_LAYER, DELTA_LAYER
from planset.finding import Finding
from planset.review.page_rule import PageRule
from planset.review.plotted import Item, Part, place
from planset.review.reviewed_page import ReviewedPage

_ON_EDGE = 0.03
"""How near an arrow's point must come to a line of the view [in]."""


def check(sheet: ReviewedPage) -> Iterator[Finding]:
    """Compare the end of every leader with what its view shows there.

    That of a delta belongs to a cloud, which is no part of the model and may be around words alone.
    """
    clouds = STRtree([ink.shape for item in sheet.items if _is_cloud(item) for ink in item.ink])
    for view in sheet.page.views:
        items = [item for item in sheet.items if item.view is view]
        model = [ink for item in items if item.part is Part.MODEL for ink in item.ink]
        tree = STRtree([ink.shape for ink in model])
        for item in items:
            if isinstance(item.primitive, Leader):
                named = [ink.shape for ink in model if ink.identity == item.primitive.names != ""]
                near = clouds if item.primitive.layer == DELTA_LAYER else tree
                yield from _ends(sheet, item, item.primitive, near, named)


def _ends(
    sheet: ReviewedPage, item: Item, leader: Leader, tree: STRtree, named: list[BaseGeometry]
) -> Iterator[Finding]:
    tip = Dot(leader.points[-1])
    where = place(leader.points[-1])
    if leader.names:
        if not named:
            message = f"the leader at {where} names {leader.names}, which its view does not show"
        elif not _outline(named).buffer(_ON_EDGE).contains(tip):
            message = f"the leader at {where} does not end on {leader.names}, which it names"
        else:
            return
    elif leader.end == "arrow" and not len(tree.query(tip, "dwithin", _ON_EDGE)):
        message = f"the arrow at {where} points at nothing"
    elif leader.end == "dot" and item.view and not _inside(item, tip):
        message = f"the dot at {where} lies outside of its view"
    else:
        return
    yield RULE.fault(sheet, f"{message}; move its end onto what it names", leader.names or where)


def _is_cloud(item: Item) -> bool:
    return isinstance(item.primitive, Polyline) and item.primitive.layer == CLOUD_LAYER


def _outline(shapes: list[BaseGeometry]) -> BaseGeometry:
    """The hull of a thing's lines: a dot in its middle lies on it."""
    return unary_union(shapes).convex_hull if shapes else MultiPoint()


def _inside(item: Item, tip: Dot) -> bool:
    return item.view is not None and item.view.frame.holds((tip.x, tip.y), tolerance=0.0)


RULE = PageRule(
    id="drafting.leader-ends",
    title="Leaders end on what they name",
    check=check,
)
