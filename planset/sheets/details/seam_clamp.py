"""A clamp on a standing seam, in both sections; nothing pierces the panel.

Block frame along the seam: s from the middle of the clamp; across, x from the seam.
"""

from __future__ import annotations

from planset.catalog.attachment import SeamClampAttachment
from planset.drawing.geometry import Box
from planset.drawing.primitives import Circle, Line, Polyline, Primitive
from planset.job.covering import StandingSeam
from planset.sheets.details.deck import ENDS, across_deck, along_deck, below_in, shown_depth_in
from planset.sheets.details.detail import Detail
from planset.sheets.details.rail import seen_across, seen_along
from planset.sheets.details.sketch import (
    BEYOND,
    CUT,
    OUTLINE,
    Measure,
    Note,
    Section,
    Sketch,
    joined,
    rectangle,
)
from planset.sheets.words import inches

_BESIDE_CLAMP = 6.5  # of the seam, to either side [in]
_BESIDE_SEAM = 5.5  # of the panel, to either side [in]
_JAW = 0.6  # of the seam's height that the jaws grip
_BODY = 0.55  # of the clamp's height above the seam that its body takes
_STUD = 0.2  # half of the bolt to the rail [in]
_FOLD = 0.3  # of the seam's fold, from its top down [in]
_CLIP = 0.04  # of a clip's foot above the underlayment [in]
_SCREW = 0.16  # radius of a set screw [in]


def along(detail: Detail) -> Section:
    """The section beside the seam, along it."""
    clamp, seam, built = _clamp(detail), _seam(detail), detail.build_up
    half = clamp.length / 2
    left, right = -half - _BESIDE_CLAMP, half + _BESIDE_CLAMP
    pan, top = built.low_covering_in, built.high_covering_in
    body = Box(-half, top - seam.seam_height * _JAW, half, top + clamp.height * _BODY)
    screws = _screws_along(detail)
    level = top - seam.seam_height * _JAW / 2
    drawn: list[Primitive] = [
        Line((left, pan), (right, pan), CUT),
        Line((left, top), (-half, top), OUTLINE),
        Line((half, top), (right, top), OUTLINE),
        *(
            Line((a, top - _FOLD), (b, top - _FOLD), BEYOND)
            for a, b in ((left, -half), (half, right))
        ),
        rectangle(body, OUTLINE),
        rectangle(Box(-_STUD, body.y1, _STUD, built.rail_under_in), OUTLINE),
        *(Circle((s, level), _SCREW, OUTLINE) for s in screws),
    ]
    notes = (
        Note(
            f"{seam.material.upper()}, SEAM {seam.profile.upper()} "
            f"{inches(seam.seam_height)} HIGH AT {inches(seam.seam_spacing)}",
            (right - 1.2, top),
        ),
        Note(f"{clamp.name.upper()}, TESTED ON {', '.join(clamp.profiles).upper()}", _corner(body)),
        Note(
            f"({clamp.set_screws}) SET SCREWS, TORQUE AS LISTED",
            (screws[0] - _SCREW, level),
        ),
        Note(clamp.torque.upper(), (-_STUD, (body.y1 + built.rail_under_in) / 2)),
        Note(clip_words(seam), (left + 1.0, pan)),
        Note("NO HOLE IN THE PANEL", (right - 2.0, top - _FOLD)),
    )
    foot = below_in(detail)
    rail = seen_along(detail, 0.0, left, right, left + 2.75)
    parts = (
        along_deck(detail, left, right),
        Sketch(tuple(drawn), notes, (Measure((-half, foot), (half, foot), -0.2),)),
        rail,
    )
    cut = Box(left, -shown_depth_in(detail), right, built.module_top_in)
    return Section(joined(parts), cut)


def across(detail: Detail) -> Section:
    """The section across the seam, looking up it."""
    clamp, seam, built = _clamp(detail), _seam(detail), detail.build_up
    half = max(_BESIDE_SEAM, clamp.width)
    pan, top = built.low_covering_in, built.high_covering_in
    wide = clamp.width / 2
    body = Box(-wide, top - seam.seam_height * _JAW, wide, top + clamp.height * _BODY)
    level = top - seam.seam_height * _JAW / 2
    drawn: list[Primitive] = [
        *_profile(detail, half),
        *(
            Polyline(
                (
                    (side * 0.16, body.y0),
                    (side * wide, body.y0),
                    (side * wide, body.y1),
                    (0.0, body.y1),
                ),
                OUTLINE,
            )
            for side in (-1, 1)
        ),
        Polyline(
            ((-0.16, body.y0), (-0.16, top + 0.1), (0.16, top + 0.1), (0.16, body.y0)), OUTLINE
        ),
        rectangle(Box(0.14, level - _SCREW / 2, wide + 0.12, level + _SCREW / 2), OUTLINE),
        rectangle(Box(-_STUD, body.y1, _STUD, built.rail_under_in), OUTLINE),
    ]
    notes: tuple[Note, ...] = (
        Note("SET SCREW AGAINST THE SEAM", (wide + 0.12, level)),
        Note(f"CLAMP {inches(clamp.width)} WIDE", (wide, body.y1 - 0.2)),
    )
    if seam.clips:
        notes += (Note("PANEL CLIP", (0.9, built.underlayment_in + _CLIP)),)
    measures = (
        Measure((-half, pan), (-half, top), 0.2),
        Measure((-half, pan), (-half, built.module_top_in), 0.52),
        Measure((-wide, -ENDS), (wide, -ENDS), -0.2),
    )
    rail = seen_across(detail, half, half * 0.5)
    parts = (across_deck(detail, half), Sketch(tuple(drawn), notes, measures), rail)
    cut = Box(-half, 0.0, half, built.module_top_in)
    return Section(joined(parts), cut)


def clip_words(seam: StandingSeam) -> str:
    """How the panels are held, or that nobody could tell."""
    if seam.clips is None:
        return "PANEL CLIPS NOT STATED: WHETHER THE PANELS HOLD THE CLAMPS IS OPEN"
    clips = seam.clips
    return f"PANEL CLIPS AT {inches(clips.spacing)} ALONG EVERY SEAM"


def _clamp(detail: Detail) -> SeamClampAttachment:
    if not isinstance(detail.attachment, SeamClampAttachment):
        msg = f"{detail.attachment.name} is no clamp on a seam"
        raise ValueError(msg)
    return detail.attachment


def _seam(detail: Detail) -> StandingSeam:
    if not isinstance(detail.covering, StandingSeam):
        msg = f"the roof is covered with {detail.covering.kind}"
        raise ValueError(msg)
    return detail.covering


def _screws_along(detail: Detail) -> list[float]:
    clamp = _clamp(detail)
    step = clamp.length / clamp.set_screws
    return [-clamp.length / 2 + step * (n + 0.5) for n in range(clamp.set_screws)]


def _profile(detail: Detail, half: float) -> list[Primitive]:
    """Two panels that meet in the seam, and the clip between them where one is stated."""
    built = detail.build_up
    pan, top, deck = built.low_covering_in, built.high_covering_in, built.underlayment_in
    left = ((-half, pan), (-0.05, pan), (-0.05, top - 0.06))
    right = ((half, pan), (0.05, pan), (0.05, top), (-0.11, top), (-0.11, top - _FOLD))
    made: list[Primitive] = [Polyline(left, CUT), Polyline(right, CUT)]
    if _seam(detail).clips:
        clip = ((1.1, deck + _CLIP), (0.0, deck + _CLIP), (0.0, top - 0.1))
        made.append(Polyline(clip, OUTLINE))
    return made


def _corner(body: Box) -> tuple[float, float]:
    return (body.x1, body.y1 - 0.2)
