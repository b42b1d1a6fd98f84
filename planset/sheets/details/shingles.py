"""Courses of asphalt shingles, in both sections of a detail.

Each course is drawn with its butt at the full thickness of the covering and half of it where the
next one begins, since two layers lie everywhere.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from planset.drawing.geometry import Point
from planset.drawing.primitives import Line, Primitive
from planset.job.covering import AsphaltShingle
from planset.sheets.details.deck import below_in
from planset.sheets.details.detail import Detail
from planset.sheets.details.sketch import CUT, OUTLINE, PATTERN, Measure, Note, Sketch, witness
from planset.sheets.words import inches
from planset.units import format_feet_inches

_UNDER_BUTT_IN = 0.25  # least of a plate below the butt above it


@dataclass(frozen=True, slots=True)
class Tucked:
    """Where a flashing lies among the courses.

    Attributes:
        courses: Courses above that it reaches under.
        least_in: Least distance of screw or post below the butt above it [in].
        most_in: Most at which the flashing still reaches under as many courses [in].
    """

    courses: int
    least_in: float
    most_in: float

    @property
    def drawn_in(self) -> float:
        """The distance that is drawn [in]."""
        return (self.least_in + self.most_in) / 2


def shingle(detail: Detail) -> AsphaltShingle:
    """The shingles of a detail.

    Raises:
        ValueError: The roof has another covering.
    """
    if not isinstance(detail.covering, AsphaltShingle):
        msg = f"the roof is covered with {detail.covering.kind}"
        raise ValueError(msg)
    return detail.covering


def tucked(detail: Detail, half_plate_in: float, above_in: float) -> Tucked:
    """How a flashing is tucked under the courses when its plate stays below the next butt.

    Args:
        detail: The detail.
        half_plate_in: From screw or post to the plate's upper end [in].
        above_in: From there to the flashing's upper edge [in].
    """
    exposure = shingle(detail).exposure
    least = half_plate_in + _UNDER_BUTT_IN
    courses = max(math.ceil((above_in - least) / exposure), 0)
    most = min(above_in - (courses - 1) * exposure, exposure) if courses else least
    return Tucked(courses, least, max(most, least))


def tucked_words(detail: Detail, place: Tucked, of: str) -> str:
    """How far below the butt above something may stand."""
    least = format_feet_inches(place.least_in, rounding="up")
    most = format_feet_inches(place.most_in, rounding="down")
    courses = "COURSE" if place.courses == 1 else "COURSES"
    return f"{of} {least} TO {most} BELOW THE BUTT ABOVE, FLASHING UNDER {place.courses} {courses}"


def along_shingles(
    detail: Detail,
    left: float,
    right: float,
    butt: float,
    opening: tuple[float, float],
    over: tuple[float, float] | None = None,
) -> Sketch:
    """Courses from butt to butt.

    Args:
        detail: The detail.
        left: Lower end of the section [model in].
        right: Upper end [model in].
        butt: One of the butts [model in].
        opening: Where the shingles are cut out, both ends alike where they are not [model in].
        over: Of the course that begins at that butt and lies over a plate, where it is down
            again, and the plate's height; None where there is no plate under it [model in].
    """
    covering, under = shingle(detail), detail.build_up.underlayment_in
    exposure, thick = covering.exposure, covering.thickness
    first = butt - math.ceil((butt - left) / exposure) * exposure
    made: list[Primitive] = []
    below = math.ceil((butt - left) / exposure)
    butts = [butt + (n - below) * exposure for n in range(math.ceil((right - first) / exposure))]
    for start in butts:
        if over is not None and start == butt:
            to, level = over
            top = level + thick / 2
            down = _on_face(to, start, exposure, under, thick)
            made += [Line((start, level), (start, top), CUT), Line((start, top), down, OUTLINE)]
            made += _face(start, start + exposure, under, thick, to, right, (0.0, 0.0))
            continue
        made += _face(start, start + exposure, under, thick, left, right, opening)
        if left < start < right and not opening[0] < start < opening[1]:
            made.append(Line((start, under + thick / 2), (start, under + thick), CUT))
    shown = [at for at in butts if left < at < right]
    foot = below_in(detail)
    words = f"{covering.material.upper()}, {inches(exposure)} TO THE COURSE, {inches(thick)} IN ALL"
    last = shown[-1]
    lower, upper = [at for at in shown if at >= butt - 1e-9][:2]
    note = Note(words, _on_face(min(last + 0.6, right - 0.3), last, exposure, under, thick))
    made += [witness((at, under + thick), foot) for at in (lower, upper)]
    measure = Measure((lower, foot), (upper, foot), -0.52)
    return Sketch(tuple(made), (note,), (measure,))


def _face(
    start: float,
    end: float,
    under: float,
    thick: float,
    left: float,
    right: float,
    opening: tuple[float, float],
) -> list[Primitive]:
    """The upper face of a course and the joint below it, without what is cut out."""
    pieces = [(max(start, left), min(end, right))]
    if opening[1] > opening[0]:
        pieces = [
            piece
            for a, b in pieces
            for piece in ((a, min(b, opening[0])), (max(a, opening[1]), b))
            if piece[1] > piece[0]
        ]
    made: list[Primitive] = []
    for a, b in pieces:
        for share, layer in ((1.0, OUTLINE), (0.5, PATTERN)):
            first, last = (_on_face(s, start, end - start, under, thick * share) for s in (a, b))
            made.append(Line(first, last, layer))
    return made


def face_at(detail: Detail, s_in: float, butt: float) -> float:
    """Upper face of the course whose butt is given, also where others lie over it [in]."""
    covering, under = shingle(detail), detail.build_up.underlayment_in
    return _on_face(s_in, butt, covering.exposure, under, covering.thickness)[1]


def _on_face(s: float, butt: float, exposure: float, under: float, thick: float) -> Point:
    share = (s - butt) / exposure
    return (s, under + max(thick * (1 - share / 2), 0.0))


def across_shingles(detail: Detail, half: float, opening: float) -> Sketch:
    """Both layers cut across.

    Args:
        detail: The detail.
        half: To either side [model in].
        opening: Half of what is cut out in the middle, 0 for none [model in].
    """
    covering, under = shingle(detail), detail.build_up.underlayment_in
    pieces = [(-half, -opening), (opening, half)] if opening else [(-half, half)]
    made: list[Primitive] = []
    for a, b in pieces:
        top, joint = under + covering.thickness, under + covering.thickness / 2
        made += [Line((a, top), (b, top), CUT), Line((a, joint), (b, joint), PATTERN)]
    return Sketch(tuple(made))
