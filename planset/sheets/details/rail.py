"""Rail and module over an attachment, and what holds the module.

A rail is seen along its length in one section of a detail and from its end in the other.
"""

from __future__ import annotations

from planset.catalog.attachment import SeamClampAttachment
from planset.drawing.geometry import Box
from planset.drawing.primitives import Line, Primitive
from planset.job.covering import CurvedTile
from planset.sheets.details.detail import Detail
from planset.sheets.details.sketch import BEYOND, OUTLINE, Note, Sketch, rectangle
from planset.sheets.words import inches
from planset.units import format_feet_inches

_LIP = 0.35  # of a rail's inner edges, from its under- and upper side [in]
_WALL = 0.1  # of a rail seen from its end [in]
_GLASS = 0.15  # below the top of the frame [in]
_CAP = 0.5  # of a clamp, onto each frame [in]
_CAP_HEIGHT = 0.18
_FOOT = 1.1  # half of a foot along its rail [in]
_FRAME = 0.5  # of a frame's lower flange [in]


def seen_along(detail: Detail, middle: float, left: float, right: float, gap_at: float) -> Sketch:
    """The rail in the section along the slope, noted; it is cut there when it runs across.

    Args:
        detail: The detail.
        middle: Where a rail across stands [in].
        left: Lower end of what is shown [in].
        right: Upper end [in].
        gap_at: Where two modules meet over a rail up the slope [in].
    """
    if detail.system.across:
        return end_on(detail, middle, left, right, noted=True)
    return lengthwise(detail, left, right, gap_at, noted=True)


def seen_across(detail: Detail, half: float, gap_at: float) -> Sketch:
    """The rail in the section across the slope, without notes; cut there when it runs up.

    Args:
        detail: The detail.
        half: How far the section goes to either side [in].
        gap_at: Where two modules meet over a rail across the slope [in].
    """
    if detail.system.across:
        return lengthwise(detail, -half, half, gap_at, noted=False)
    return end_on(detail, 0.0, -half, half, noted=False)


def lengthwise(detail: Detail, left: float, right: float, gap_at: float, *, noted: bool) -> Sketch:
    """The rail along its length under two modules.

    Args:
        detail: The detail.
        left: Left end of the section [model in].
        right: Right end [model in].
        gap_at: Middle of the gap between the modules [model in].
        noted: Whether rail and module are named here, not only what holds the module.
    """
    built = detail.build_up
    bottom, top = built.rail_under_in, built.rail_top_in
    made: list[Primitive] = [
        *(Line((left, n), (right, n), OUTLINE) for n in (bottom, top)),
        *(Line((left, n), (right, n), BEYOND) for n in (bottom + _LIP, top - _LIP)),
    ]
    half = detail.rail_gap_in / 2
    made += _module_end(detail, left, gap_at - half)
    made += _module_end(detail, right, gap_at + half)
    held = _holder(detail, gap_at)
    notes = (
        Note(_module_words(detail), (right - 1.0, built.module_top_in)),
        Note(_rail_words(detail), (right - 1.0, (bottom + top) / 2), "dot"),
    )
    return Sketch((*made, *held.drawn), (*(notes if noted else ()), *held.notes))


def end_on(detail: Detail, middle: float, left: float, right: float, *, noted: bool) -> Sketch:
    """The rail from its end under a module.

    Args:
        detail: The detail.
        middle: Its axis [model in].
        left: Left end of the section [model in].
        right: Right end [model in].
        noted: Whether rail and module are named here.
    """
    built, half = detail.build_up, detail.system.rail.width / 2
    bottom, top = built.rail_under_in, built.rail_top_in
    made: list[Primitive] = [
        rectangle(Box(middle - half, bottom, middle + half, top), OUTLINE),
        rectangle(Box(middle - half, bottom, middle + half, top).grown(-_WALL), BEYOND),
        Line((left, built.module_under_in), (right, built.module_under_in), OUTLINE),
        Line((left, built.module_top_in), (right, built.module_top_in), OUTLINE),
        Line((left, built.module_top_in - _GLASS), (right, built.module_top_in - _GLASS), BEYOND),
    ]
    if detail.system.foot:
        foot = Box(middle - half, top, middle + half, built.module_under_in)
        made.append(rectangle(foot, OUTLINE))
    elif detail.system.clamps:
        over = built.module_top_in
        cap = Box(middle - half, over, middle + half, over + _CAP_HEIGHT)
        made.append(rectangle(cap, BEYOND))
    notes: tuple[Note, ...] = ()
    if noted:
        notes = (
            Note(_module_words(detail), (right - 1.0, built.module_top_in)),
            Note(_rail_words(detail), (middle + half, (bottom + top) / 2)),
        )
    return Sketch(tuple(made), notes)


def _module_end(detail: Detail, far: float, end: float) -> list[Primitive]:
    """A module from the section's end to its own, with the frame there."""
    under, top = detail.build_up.module_under_in, detail.build_up.module_top_in
    flange = end + (_FRAME if far > end else -_FRAME)
    return [
        Line((far, under), (end, under), OUTLINE),
        Line((end, under), (end, top), OUTLINE),
        Line((far, top), (end, top), OUTLINE),
        Line((far, top - _GLASS), (end, top - _GLASS), BEYOND),
        Line((flange, under), (flange, top - _GLASS), BEYOND),
    ]


def _holder(detail: Detail, at: float) -> Sketch:
    """What holds the two modules at the gap between them."""
    built, system = detail.build_up, detail.system
    half = detail.rail_gap_in / 2
    top, under, module = built.rail_top_in, built.module_under_in, built.module_top_in
    if system.foot:
        body = Box(at - _FOOT, top, at + _FOOT, under)
        bolt = Box(at - 0.16, top - 0.3, at + 0.16, under + 0.25)
        lips = Box(at - half * 0.6, under + 0.25, at + half * 0.6, under + 0.7)
        boxes = (body, bolt, *((lips,) if half else ()))
        notes = [Note(_foot_words(detail), (body.x0, (top + under) / 2))]
        if system.coupling:
            notes.append(Note(_coupling_words(detail), (at + half, module - 0.4)))
        return Sketch(tuple(rectangle(box, OUTLINE) for box in boxes), tuple(notes))
    if system.clamps:
        cap = Box(at - half - _CAP, module, at + half + _CAP, module + _CAP_HEIGHT)
        stem = Box(at - half * 0.5, top - 0.3, at + half * 0.5, module)
        clamps = system.clamps
        words = f"{clamps.mid.upper()}; {clamps.end.upper()} AT THE OUTER FRAME"
        note = Note(words, (cap.x1, cap.center[1]))
        return Sketch((rectangle(cap, OUTLINE), rectangle(stem, OUTLINE)), (note,))
    return Sketch(())


def _foot_words(detail: Detail) -> str:
    foot = detail.system.foot
    if foot is None:
        return ""
    return (
        f"{foot.name.upper()} {inches(foot.lowest)} TO {inches(foot.highest)}, RAIL TO FRAME, "
        "DRAWN AT THE MIDDLE"
    )


def _coupling_words(detail: Detail) -> str:
    coupling = detail.system.coupling
    if coupling is None:
        return ""
    return f"{coupling.name.upper()} AT THE CORNERS OF MODULES"


def _module_words(detail: Detail) -> str:
    models = " OR ".join(dict.fromkeys(a.product.model for a in detail.arrays))
    depth = inches(detail.arrays[0].product.depth)
    return f"MODULE {models}, {depth} FRAME, TOP {heights_words(detail)}"


def heights_words(detail: Detail) -> str:
    """How high the modules' top stands above the lowest covering, over its whole range."""
    built = detail.build_up
    highest = built.height_above_roof_in
    low = format_feet_inches(highest - built.adjustment_in)
    high = format_feet_inches(highest, rounding="up")
    range_words = f"{low} TO {high}" if built.adjustment_in else high
    return f"{range_words} ABOVE THE {detail.lowest_covering}"


def _rail_words(detail: Detail) -> str:
    rail = detail.system.rail
    way = "ACROSS THE SLOPE" if detail.system.across else "UP THE SLOPE"
    words = f"RAIL {inches(rail.width)} x {inches(rail.height)}, {way}"
    if isinstance(detail.attachment, SeamClampAttachment):
        return words
    over = "TILE COVERS" if isinstance(detail.covering, CurvedTile) else detail.lowest_covering
    clear = format_feet_inches(max(detail.build_up.cover_clearance_in, 0.0), rounding="down")
    return f"{words}, {clear} OVER THE {over}, {inches(detail.on_rafter.clearance)} MIN."
