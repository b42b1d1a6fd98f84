"""The legend of an attachment plan: what is on the page, and how many of it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial

from planset.design.design import Design
from planset.design.mounted import Mounted
from planset.design.part_places import KINDS, TRIM, parts_of
from planset.drawing.geometry import Box, Point, box_around
from planset.drawing.layers import INHERITED
from planset.drawing.primitives import Circle, Line, Polyline, Primitive
from planset.drawing.stack import TableAt
from planset.sheets.array_layers import ATTACHMENTS, MODULES_FAINT, RAILS
from planset.sheets.attachment_view import PlaneView
from planset.sheets.legend import Draw, legend, line, outline
from planset.sheets.part_symbols import LAYER_OF, symbol_of
from planset.sheets.plan_blocks import SUPPORT_LAYER, supported_planes
from planset.sheets.racking_blocks import attachment_symbol, on_seams
from planset.sheets.zone_plan import EDGE_LAYER, crossed_modules, zones_drawn

_SHOWN_AT = 36.0  # model inches of a symbol per paper inch of the legend
_SHOWN_RAIL = 7.5  # half of the stretch of rail shown [model in]
_HIGHEST = 6.0  # a symbol that a row of the legend takes [model in]


def plan_legend(
    design: Design,
    views: Sequence[PlaneView],
    more: Sequence[tuple[str, Draw]] = (),
    *,
    zones: bool = True,
) -> TableAt:
    """What the views of a page show that does not say what it is.

    Args:
        design: The design.
        views: The views of the page.
        more: What they show beside, in words and with what draws the sample.
        zones: Whether they show wind zones, and what rafters bear on.
    """
    planes = {view.plane.id for view in views}
    mounted = [one for view in views for one in view.mounted]
    counts = Counter(place.kind for one in mounted for place in parts_of(one))
    swatches: list[tuple[str, Draw]] = [
        *([("RAIL, ATTACHMENT", rail_and_attachment(mounted[0]))] if mounted else []),
        *(
            (f"{kind.upper().replace('_', ' ')} ({counts[kind]})", _part(kind))
            for kind in KINDS
            if counts[kind]
        ),
    ]
    if any(on_seams(one.array) for one in mounted):
        swatches.append(("SEAM", line("S-ROOF-SEAM")))
    if any(not on_seams(one.array) for one in mounted):
        swatches.append(("RAFTER", line("S-ROOF-FRAM")))
    framed = {one.array.plane.id for one in mounted if not on_seams(one.array)}
    if zones and framed & {*supported_planes(design)}:
        swatches.append(("RAFTER SUPPORT", line(SUPPORT_LAYER)))
    swatches.append(("MODULE", outline(MODULES_FAINT)))
    if zones and any(plane.id in planes for plane, _ in zones_drawn(design)):
        swatches.append(("WIND ZONE", line("S-ROOF-ZONE")))
    crossed = crossed_modules(design)
    if zones and any(module.id in crossed for one in mounted for module in one.array.modules):
        swatches.append(("EXPOSED MODULE", _crossed))
    if any(item.plane.id in planes for item in design.obstructions):
        swatches.append(("CLEARANCE", line("A-ROOF-OBST-CLER")))
    return partial(legend, [*swatches, *more])


def rail_and_attachment(one: Mounted) -> Draw:
    """A stretch of rail that runs right with an attachment of an array as its block draws it."""
    system, up = one.array.system, not one.array.system.across
    plate = attachment_symbol(system.attachment, 1.0)
    extent = box_around(point for part in plate for point in _points(part))
    middle, half = extent.center[1], system.rail.width / 2
    rail = (
        Box(-half, middle - _SHOWN_RAIL, half, middle + _SHOWN_RAIL)
        if up
        else Box(-_SHOWN_RAIL, -half, _SHOWN_RAIL, half)
    )
    drawn: list[tuple[Primitive, str]] = [(Polyline(rail.corners, INHERITED, closed=True), RAILS)]
    drawn += [(part, ATTACHMENTS) for part in plate]
    scale = 1.0 if up else min(1.0, _HIGHEST / extent.height)

    def turned(point: Point) -> Point:
        x, y = point[0] * scale, (point[1] - middle) * scale
        return (y, -x) if up else (x, y)

    symbol = [(_with_points(part, turned, scale), layer) for part, layer in drawn]
    return lambda box: [_on_paper(part, box.center, layer) for part, layer in symbol]


def _part(kind: str) -> Draw:
    """The symbol of a kind of part; a stretch of trim."""
    layer = LAYER_OF[kind]
    if kind == TRIM:
        return lambda box: [
            Polyline(Box(box.x0, box.y0 + 0.04, box.x1, box.y1 - 0.04).corners, layer, closed=True)
        ]
    return sample(symbol_of(kind), layer)


def sample(symbol: Sequence[Primitive], layer: str) -> Draw:
    """A symbol as a plan draws it, on a layer."""
    _, middle = box_around(point for part in symbol for point in _points(part)).center
    return lambda box: [
        _on_paper(part, (box.center[0], box.center[1] - middle / _SHOWN_AT), layer)
        for part in symbol
    ]


def _points(part: Primitive) -> tuple[Point, ...]:
    """Ends or middle of a part of a symbol."""
    if isinstance(part, Line):
        return part.a, part.b
    if isinstance(part, Circle):
        return (part.center,)
    return part.points if isinstance(part, Polyline) else ()


def _on_paper(part: Primitive, at: Point, layer: str) -> Primitive:
    """A part of a symbol at a place on paper."""

    def moved(point: Point) -> Point:
        return (at[0] + point[0] / _SHOWN_AT, at[1] + point[1] / _SHOWN_AT)

    return replace(_with_points(part, moved, 1 / _SHOWN_AT), layer=layer)


def _with_points(
    part: Primitive, moved: Callable[[Point], Point], scale: float
) -> Line | Circle | Polyline:
    """A part of a symbol with its points moved and its radius scaled.

    Raises:
        TypeError: Symbols are not made of such parts.
    """
    if isinstance(part, Line):
        return replace(part, a=moved(part.a), b=moved(part.b))
    if isinstance(part, Circle):
        return replace(part, center=moved(part.center), radius=part.radius * scale)
    if isinstance(part, Polyline):
        return replace(part, points=tuple(map(moved, part.points)))
    msg = f"no symbol is made of {type(part).__name__}"
    raise TypeError(msg)


def _crossed(box: Box) -> list[Primitive]:
    """An outline with both diagonals."""
    a, b, c, d = box.corners
    return [
        Polyline(box.corners, MODULES_FAINT, closed=True),
        Line(a, c, EDGE_LAYER),
        Line(b, d, EDGE_LAYER),
    ]
