"""A standoff with its flashing, on curved tile or asphalt shingles, in both sections.

Block frame along the slope: on tile s from the nose of the course that the post stands in, on
shingles from the post's axis.
"""

from __future__ import annotations

from planset.catalog.attachment import StandoffAttachment
from planset.design.buildup import TileCourse
from planset.design.post_courses import PostFit
from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Area, Line, Polyline, Primitive
from planset.job.covering import CurvedTile
from planset.sheets.attachment_mark import laps_as_laid_out
from planset.sheets.details.deck import across_deck, along_deck, below_in, shown_depth_in
from planset.sheets.details.detail import Detail
from planset.sheets.details.rail import seen_across, seen_along
from planset.sheets.details.screws import (
    across_lag,
    along_lags,
    lag_positions,
    lag_words,
    side_room_words,
)
from planset.sheets.details.shingles import (
    Tucked,
    across_shingles,
    along_shingles,
    face_at,
    shingle,
    tucked,
    tucked_words,
)
from planset.sheets.details.sketch import (
    CUT,
    OUTLINE,
    Measure,
    Note,
    Section,
    Sketch,
    joined,
    rectangle,
    witness,
)
from planset.sheets.details.tile import (
    across_tile,
    along_courses,
    tile_and_course,
    wave,
)
from planset.sheets.words import inches

_PAST_FLASHING = 2.5
_BESIDE_FLASHING = 1.5
_CUT_ROOM = 0.5  # of the hole in the tile around the post [in]
_CLEAR = 0.25  # of the plate from shingles that are cut out around it [in]
_RAMP = 1.2  # beyond the plate, where a course laid over it is down again [in]
_CONE_FOOT = 0.9  # of the cone beyond the post [in]
_CONE_HIGH = 1.6
_COLLAR = 0.55  # of the storm collar beyond the post [in]
_COLLAR_HIGH = 0.45
_BASE_FLANGE = 2.0  # of the base flashing beyond the plate [in]
_BASE_UP = 0.9  # of the base flashing up the post [in]
_CAP = 0.2  # of the post's head under the rail [in]
_BEAD = 0.12


def along(detail: Detail) -> Section:
    """The section along the rafter, through the post."""
    post, built = _post(detail), detail.build_up
    axis = _axis(detail)
    below = post.flashing_length - post.flashing_above
    left = axis - below - _PAST_FLASHING
    right = axis + post.flashing_above + _PAST_FLASHING + 1.0
    rail = seen_along(detail, axis, left, right, left + 2.75)
    on_tile = isinstance(detail.covering, CurvedTile)
    parts = (
        along_deck(detail, left, right),
        _tile_along(detail, left, right) if on_tile else _shingles_along(detail, left, right),
        _from_the_side(detail, axis),
        rail,
    )
    cut = Box(left, -shown_depth_in(detail), right, built.module_top_in)
    remark = "DIMENSIONS OF THE FLASHING FROM THE MIDDLE OF THE POST"
    return Section(joined(parts), cut, remark, axis)


def across(detail: Detail) -> Section:
    """The section across the slope, looking up it, through the post."""
    post, built = _post(detail), detail.build_up
    on_tile = isinstance(detail.covering, CurvedTile)
    half = post.flashing_width / 2 + _BESIDE_FLASHING
    if isinstance(detail.covering, CurvedTile):
        half = max(half, detail.covering.pan_pitch)
    plate, wide = post.plate_width / 2, post.flashing_width / 2
    opening = post.post_diameter / 2 + _CUT_ROOM
    level = _level(detail)
    covering = (
        across_tile(detail, half, _axis(detail), opening)
        if on_tile
        else across_shingles(detail, half, max(opening, plate + _CLEAR))
    )
    if on_tile:
        tops = wave(detail, -wide, wide, level)
        flashing: list[Primitive] = [
            Polyline(tuple((x, n + 0.06) for x, n in tops if side * x >= opening), OUTLINE)
            for side in (-1, 1)
        ]
    else:
        flashing = [Line((-wide, level), (wide, level), CUT)]
    drawn: list[Primitive] = [
        rectangle(Box(-plate, built.underlayment_in, plate, built.plate_in), OUTLINE),
        *across_lag(detail, 0.0),
        *flashing,
        *_post_and_cone(detail, 0.0),
    ]
    size = f"{inches(post.flashing_width)} x {inches(post.flashing_length)}"
    notes = (
        Note(side_room_words(detail), (post.lags.diameter / 2, -1.6)),
        Note(f"FLASHING {size}", flashing_end(flashing)),
    )
    measures = (Measure((-half, built.low_covering_in), (-half, built.module_top_in), 0.2),)
    rail = seen_across(detail, half, half * 0.5)
    parts = (
        across_deck(detail, half),
        covering,
        Sketch(tuple(drawn), notes, measures),
        rail,
    )
    cut = Box(-half, -shown_depth_in(detail), half, built.module_top_in)
    return Section(joined(parts), cut)


def flashing_end(flashing: list[Primitive]) -> Point:
    """The right end of a flashing drawn across the slope."""
    last = flashing[-1]
    if isinstance(last, Polyline):
        return last.points[-1]
    return last.b if isinstance(last, Line) else (0.0, 0.0)


def _post(detail: Detail) -> StandoffAttachment:
    if not isinstance(detail.attachment, StandoffAttachment):
        msg = f"{detail.attachment.name} is no standoff"
        raise ValueError(msg)
    return detail.attachment


def _axis(detail: Detail) -> float:
    """Where the post stands whose flashing is lapped least; on shingles the origin [in].

    Where no course was surveyed, a post that the course above laps enough.
    """
    if not isinstance(detail.covering, CurvedTile):
        return 0.0
    post = _post(detail)
    _, course = tile_and_course(detail)
    below = [post_place.below_in for fit in _fits(detail) for post_place in fit.posts]
    head_lap = course.length_in - course.exposure_in
    return course.exposure_in - max(below, default=post.flashing_above - head_lap)


def _fits(detail: Detail) -> list[PostFit]:
    return [one.post_fit for one in detail.mounts if one.post_fit]


def _lapped_words(detail: Detail) -> str:
    """How far flashings run under the course above, and how far they must."""
    fits = _fits(detail)
    there = laps_as_laid_out(fits).upper()
    if not there:
        return "LAPPED BY THE COURSE ABOVE"
    return f"LAPPED {there} BY THE COURSE ABOVE, {inches(fits[0].least_lap_in)} MIN."


def _level(detail: Detail) -> float:
    """The flashing at the post [in]."""
    if isinstance(detail.covering, CurvedTile):
        _, course = tile_and_course(detail)
        return course.pan_top_in(_axis(detail))
    return max(detail.build_up.high_covering_in, detail.build_up.plate_in)


def _tile_along(detail: Detail, left: float, right: float) -> Sketch:
    post, axis = _post(detail), _axis(detail)
    room = post.post_diameter / 2 + _CUT_ROOM
    half = post.plate_length / 2
    courses = along_courses(
        detail, left, right, (axis - room, axis + room), None, (axis - half, axis + half)
    )
    _, course = tile_and_course(detail)
    built = detail.build_up
    above, below = post.flashing_above, post.flashing_length - post.flashing_above
    lift = 0.06
    flashing = [
        Polyline(_dressed(course, a, b, lift), CUT)
        for a, b in ((axis - below, axis - room), (axis + room, axis + above))
    ]
    flange = post.plate_length / 2 + _BASE_FLANGE
    radius = post.post_diameter / 2
    base = [
        Polyline(
            (
                (axis + side * flange, built.underlayment_in + 0.03),
                (axis + side * (post.plate_length / 2 + 0.1), built.underlayment_in + 0.03),
                (axis + side * (post.plate_length / 2 + 0.1), built.plate_in + 0.06),
                (axis + side * (radius + 0.05), built.plate_in + 0.06),
                (axis + side * (radius + 0.05), built.plate_in + _BASE_UP),
            ),
            OUTLINE,
        )
        for side in (-1, 1)
    ]
    notes = (
        Note(
            "BASE FLASHING AT THE DECK UNDER THE UPPER UNDERLAYMENT, SEALANT UNDER ITS FLANGE",
            (axis - flange + 0.3, built.underlayment_in + 0.03),
        ),
        Note(
            "TILE CUT FOR THE POST",
            (axis + room, course.underside_in(axis + room) + course.thickness_in / 2),
        ),
        Note(
            f"CONE FLASHING DRESSED TO THE TILE, {_lapped_words(detail)}",
            _dressed(course, axis - below + 0.5, axis - room, lift)[0],
        ),
    )
    nose, foot = course.exposure_in, below_in(detail)
    to_nose = Measure((axis, foot), (nose, foot), -0.52)
    drawn: tuple[Primitive, ...] = (
        *flashing,
        *base,
        witness((nose, course.underside_in(0.0)), foot),
    )
    return joined((courses, Sketch(drawn, notes, (to_nose,))))


def _dressed(course: TileCourse, start: float, end: float, lift: float) -> tuple[Point, ...]:
    """A flashing on the pan of its course, and of the one below where it begins below the nose."""
    top = course.pan_top_in
    if start >= 0.0 or end <= 0.0:
        return tuple(
            (s, top(s if s >= 0.0 else s + course.exposure_in) + lift) for s in (start, end)
        )
    lower = course.exposure_in
    return (
        (start, top(start + lower) + lift),
        (0.0, top(lower) + lift),
        (0.0, top(0.0) + lift),
        (end, top(end) + lift),
    )


def place(detail: Detail) -> Tucked:
    """Where the middle of a post on shingles stands below the butt above."""
    post = _post(detail)
    return tucked(detail, post.post_diameter / 2 + _CONE_FOOT, post.flashing_above)


def _shingles_along(detail: Detail, left: float, right: float) -> Sketch:
    post, built = _post(detail), detail.build_up
    half, level = post.plate_length / 2, _level(detail)
    above, below = post.flashing_above, post.flashing_length - post.flashing_above
    where = place(detail)
    butt = where.drawn_in
    own = butt - shingle(detail).exposure
    room = half + _CLEAR
    over = (half + _RAMP, level) if butt < half else None
    courses = along_shingles(detail, left, right, butt, (-room, min(room, butt)), over)
    under = built.underlayment_in + 0.02
    radius = post.post_diameter / 2
    flashing = (
        Polyline(((-below, level), (-radius, level)), CUT),
        Polyline(
            (
                (radius, level),
                (half, level),
                (max(half + _CLEAR, butt), face_at(detail, max(half + _CLEAR, butt), own)),
                (above, max(face_at(detail, above, own), under)),
            ),
            CUT,
        ),
    )
    seal = (room + 0.3, level - 2 * _BEAD)
    bead = Area(Box(*seal, *seal).grown(_BEAD).corners, OUTLINE)
    notes = (
        Note(
            f"FLASHING {inches(above)} UP FROM THE POST, SHINGLES CUT OUT AROUND THE PLATE",
            (above, max(face_at(detail, above, own), under)),
        ),
        Note(tucked_words(detail, where, "POST"), (butt, level + 0.05)),
        Note("SEALANT IN A U UNDER THE FLASHING, OPEN DOWN THE SLOPE", seal),
    )
    return joined((courses, Sketch((*flashing, bead), notes)))


def _from_the_side(detail: Detail, axis: float) -> Sketch:
    """Plate, screws, post and cone with what is said about them."""
    post, built = _post(detail), detail.build_up
    half = post.plate_length / 2
    lags = lag_positions(detail, axis)
    radius = post.post_diameter / 2
    size = " x ".join(map(inches, (post.plate_width, post.plate_length, post.plate_thickness)))
    cone_top = _level(detail) + _cone_height(detail)
    drawn: list[Primitive] = [
        rectangle(Box(axis - half, built.underlayment_in, axis + half, built.plate_in), OUTLINE),
        *along_lags(detail, lags),
        *_post_and_cone(detail, axis),
    ]
    foot = below_in(detail)
    above, below = post.flashing_above, post.flashing_length - post.flashing_above
    drawn += [witness((s, _level(detail)), foot) for s in (axis - below, axis + above)]
    drawn.append(witness((axis, 0.0), foot))
    measures = (
        Measure((axis - below, foot), (axis, foot), -0.2),
        Measure((axis, foot), (axis + above, foot), -0.2),
    )
    collar = isinstance(detail.covering, CurvedTile)
    cone = "STORM COLLAR, SEALANT ABOVE IT" if collar else "BOOT TIGHT TO POST AND FLASHING"
    cone_at = (axis + radius + (_COLLAR if collar else 0.05), cone_top)
    notes = (
        Note(lag_words(detail), (lags[-1] + post.lags.diameter / 2, -1.2)),
        Note(
            f"{post.name.upper()}, PLATE {size} ON THE DECK",
            (axis - half, (built.underlayment_in + built.plate_in) / 2),
        ),
        Note(
            f"POST {inches(post.post_diameter)} DIA., {inches(post.height)} UNDER THE RAIL",
            (axis - radius, (cone_top + built.rail_under_in) / 2 + 0.3),
        ),
        Note(cone, cone_at),
        Note(post.torque.upper(), (axis + _cap_half(detail), built.rail_under_in - _CAP / 2)),
    )
    return Sketch(tuple(drawn), notes, measures)


def _cone_height(detail: Detail) -> float:
    room = detail.build_up.rail_under_in - _level(detail)
    return min(_CONE_HIGH, room / 2)


def _cap_half(detail: Detail) -> float:
    return max(detail.system.rail.width, _post(detail).post_diameter) / 2


def _post_and_cone(detail: Detail, axis: float) -> list[Primitive]:
    """The post from plate to rail, the cone of its flashing, on tile a storm collar over it."""
    post, built = _post(detail), detail.build_up
    radius, level, high = post.post_diameter / 2, _level(detail), _cone_height(detail)
    under, cap = built.rail_under_in, _cap_half(detail)
    made: list[Primitive] = [
        *(
            Line(
                (axis + side * radius, built.plate_in),
                (axis + side * radius, under - _CAP),
                OUTLINE,
            )
            for side in (-1, 1)
        ),
        rectangle(Box(axis - cap, under - _CAP, axis + cap, under), OUTLINE),
    ]
    foot, throat = radius + _CONE_FOOT, radius + 0.05
    made += [
        Line((axis + side * foot, level), (axis + side * throat, level + high), OUTLINE)
        for side in (-1, 1)
    ]
    if isinstance(detail.covering, CurvedTile):
        low, top = level + high, level + high + _COLLAR_HIGH
        collar = (
            (axis - radius - _COLLAR, low),
            (axis + radius + _COLLAR, low),
            (axis + radius, top),
            (axis - radius, top),
        )
        made.append(Polyline(collar, OUTLINE, closed=True))
    return made
