"""Rafter, sheathing and underlayment, in both sections of a detail.

Block frames: along, s up the slope; across, x from the rafter's centerline; n normal to the roof
from the top of the rafter, all in inches.
"""

from __future__ import annotations

from planset.drawing.geometry import Box
from planset.drawing.primitives import Line, Primitive
from planset.sheets.details.detail import Detail
from planset.sheets.details.sketch import (
    BEYOND,
    CUT,
    PATTERN,
    Measure,
    Note,
    Sketch,
    break_line,
    framing_lumber,
    level_break,
    open_below,
)
from planset.sheets.words import inches

_DEEPEST_WHOLE = 7.25  # a deeper rafter is cut off below its screws [in]
_BELOW_SCREWS = 2.25  # of a rafter that is cut off [in]
_UNDER_SEAMS = 2.5  # of a rafter that carries no screw [in]
_PAST_BREAK = 0.6  # of dimensions below a level break [in]
ENDS = 0.3  # of break lines past what they cut [in]
_GRAIN = (0.18, 0.4, 0.62, 0.84)  # where lines of the grain lie, as parts of the depth
_PLIES = (1 / 3, 2 / 3)


def shown_depth_in(detail: Detail) -> float:
    """How much of the rafter's depth the sections show [in]."""
    depth = detail.framing.member_depth_in
    if detail.fastening is None:
        return min(depth, _UNDER_SEAMS)
    if depth <= _DEEPEST_WHOLE:
        return depth
    lags = detail.on_rafter.lags
    return min(depth, lags.length - detail.fastening.covered_in + _BELOW_SCREWS)


def below_in(detail: Detail) -> float:
    """Where dimensions under a section start, clear of a break there [model in]."""
    return -shown_depth_in(detail) - (_PAST_BREAK if is_cut_off(detail) else ENDS)


def is_cut_off(detail: Detail) -> bool:
    """Whether the sections show less than the rafter's depth."""
    return shown_depth_in(detail) < detail.framing.member_depth_in


def along_deck(detail: Detail, left: float, right: float) -> Sketch:
    """The rafter cut along its length, what lies on it, and the breaks at both ends."""
    built, depth = detail.build_up, shown_depth_in(detail)
    cut_off, seam = is_cut_off(detail), detail.fastening is None
    wood = BEYOND if seam else CUT
    made: list[Primitive] = []
    if cut_off:
        made.append(level_break(-depth, left, right))
    else:
        made.append(Line((left, -depth), (right, -depth), wood))
    made += [
        Line((left, n), (right, n), layer)
        for n, layer in ((0.0, wood), (built.deck_in, CUT), (built.underlayment_in, CUT))
    ]
    if not seam:
        made += [Line((left, -depth * k), (right, -depth * k), PATTERN) for k in _GRAIN]
    made += _plies(built.deck_in, left, right)
    top = built.module_top_in + ENDS
    made += [break_line(x, -depth - ENDS, top) for x in (left, right)]
    near_right = right - 1.0
    notes = (
        Note(underlayment_words(detail), (near_right - 0.3, built.underlayment_in)),
        Note(f"SHEATHING {inches(built.deck_in)}", (near_right - 0.6, built.deck_in / 2), "dot"),
        Note(rafter_words(detail), (near_right - 0.9, -depth * 0.72), "dot"),
    )
    whole = () if cut_off else (Measure((left, 0.0), (left, -depth), -0.3),)
    return Sketch(tuple(made), notes, whole)


def across_deck(detail: Detail, half: float) -> Sketch:
    """The rafter cut across, what lies on it, and the breaks at both ends."""
    built, depth = detail.build_up, shown_depth_in(detail)
    width = detail.framing.member_width_in
    made: list[Primitive] = []
    notes: tuple[Note, ...] = ()
    measures: tuple[Measure, ...] = ()
    if detail.fastening is not None:
        rafter = Box(-width / 2, -depth, width / 2, 0.0)
        made += open_below(rafter, CUT) if is_cut_off(detail) else framing_lumber(rafter)
        notes = (Note(f"RAFTER {detail.framing.member}", (width / 2, -depth * 0.8)),)
        measures = (Measure((-width / 2, -depth), (width / 2, -depth), -0.2),)
    levels = (0.0, built.deck_in, built.underlayment_in)
    made += [Line((-half, n), (half, n), CUT) for n in levels]
    made += _plies(built.deck_in, -half, half)
    top = built.module_top_in + ENDS
    made += [break_line(x, -ENDS, top) for x in (-half, half)]
    return Sketch(tuple(made), notes, measures)


def rafter_words(detail: Detail) -> str:
    """The rafter with its spacing and wood."""
    framing = detail.framing
    wood = f"{framing.species.upper()} {framing.grade.upper()}"
    words = f"RAFTER {framing.member} AT {inches(framing.spacing)} O.C., {wood}"
    if detail.fastening is None:
        return f"{words}, BEYOND; NO SCREW ENTERS IT"
    words += f", G={detail.fastening.gravity:g}"
    if is_cut_off(detail):
        return f"{words}, {inches(framing.member_depth_in)} DEEP, CUT OFF HERE"
    return words


def underlayment_words(detail: Detail) -> str:
    """The underlayment, and where it lies at the attachment."""
    thick = detail.framing.underlayment
    under = ", UNDER THE PLATE" if detail.attachment.kind == "standoff" else ""
    return f"UNDERLAYMENT {inches(thick)}{under}"


def _plies(deck: float, left: float, right: float) -> list[Primitive]:
    return [Line((left, deck * share), (right, deck * share), PATTERN) for share in _PLIES]
