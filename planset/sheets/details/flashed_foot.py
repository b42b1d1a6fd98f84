"""A flashed foot on asphalt shingles, in both sections.

Block frame along the slope: s from the middle of the foot's plate.
"""

from __future__ import annotations

from planset.catalog.attachment import FlashedFootAttachment
from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Area, Line, Polyline, Primitive
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
    HIDDEN,
    OUTLINE,
    Measure,
    Note,
    Section,
    Sketch,
    joined,
    rectangle,
    witness,
)
from planset.sheets.words import inches

_PAST_FLASHING = (2.5, 3.5)  # below and above it [in]
_BESIDE_FLASHING = 2.0
_BOLT = 0.3  # half of the bolt's head that holds the rail to the upright [in]
_SLOT = 0.2  # half of its slot [in]
_ABOVE_SLOT = 0.4  # of the upright [in]
_BEAD = 0.12  # half of a bead of sealant [in]
_BESIDE_PLATE = 0.6  # of the beads [in]
SEALANT = "SEALANT IN A U UNDER THE FLASHING, OPEN DOWN THE SLOPE, AND IN THE PILOT HOLE"


def along(detail: Detail) -> Section:
    """The section along the rafter, through the foot."""
    foot = _foot(detail)
    above, below = foot.flashing_above, foot.flashing_length - foot.flashing_above
    left, right = -below - _PAST_FLASHING[0], above + _PAST_FLASHING[1]
    butt = place(detail).drawn_in
    rail = seen_along(detail, 0.0, left, right, left + 2.5)
    parts = (
        along_deck(detail, left, right),
        along_shingles(detail, left, right, butt, (0.0, 0.0)),
        _from_the_side(detail),
        rail,
    )
    cut = Box(left, -shown_depth_in(detail), right, detail.build_up.module_top_in)
    return Section(joined(parts), cut, "DIMENSIONS OF THE FLASHING FROM THE MIDDLE OF THE PLATE")


def across(detail: Detail) -> Section:
    """The section across the slope, looking up it."""
    foot, built = _foot(detail), detail.build_up
    half = foot.flashing_width / 2 + _BESIDE_FLASHING
    plate, wide = foot.plate_width / 2, foot.flashing_width / 2
    level, base = built.high_covering_in, built.plate_in - foot.plate_thickness
    drawn: list[Primitive] = [
        Line((-wide, level), (wide, level), CUT),
        rectangle(Box(-plate, base, plate, built.plate_in), OUTLINE),
        *across_lag(detail, 0.0),
        *_bead((-plate - _BESIDE_PLATE, level - _BEAD)),
        *_bead((plate + _BESIDE_PLATE, level - _BEAD)),
        *_upright(detail, face_on=detail.system.across),
    ]
    notes = (
        Note(side_room_words(detail), (foot.lags.diameter / 2, -1.2)),
        Note(
            f"FLASHING {inches(foot.flashing_width)} x {inches(foot.flashing_length)}",
            (wide - 0.3, level),
        ),
    )
    measures = (Measure((-half, built.low_covering_in), (-half, built.module_top_in), 0.2),)
    rail = seen_across(detail, half, half * 0.55)
    parts = (
        across_deck(detail, half),
        across_shingles(detail, half, 0.0),
        rail,
        Sketch(tuple(drawn), notes, measures),
    )
    cut = Box(-half, -shown_depth_in(detail), half, built.module_top_in)
    return Section(joined(parts), cut)


def _foot(detail: Detail) -> FlashedFootAttachment:
    if not isinstance(detail.attachment, FlashedFootAttachment):
        msg = f"{detail.attachment.name} is no flashed foot"
        raise ValueError(msg)
    return detail.attachment


def place(detail: Detail) -> Tucked:
    """Where the middle of the plate stands below the butt above."""
    foot = _foot(detail)
    return tucked(detail, foot.plate_length / 2, foot.flashing_above)


def _from_the_side(detail: Detail) -> Sketch:
    """Flashing, sealant, plate, screws and upright with what is said about them."""
    foot, built = _foot(detail), detail.build_up
    above, below = foot.flashing_above, foot.flashing_length - foot.flashing_above
    half, base = foot.plate_length / 2, built.plate_in - foot.plate_thickness
    lags = lag_positions(detail, 0.0)
    seal = (half + 0.15, built.high_covering_in - _BEAD)
    drawn: list[Primitive] = [
        Polyline(_flashing_line(detail), CUT),
        rectangle(Box(-half, base, half, built.plate_in), OUTLINE),
        *along_lags(detail, lags),
        *_bead(seal),
        *_upright(detail, face_on=not detail.system.across),
    ]
    foot_level = below_in(detail)
    level = built.high_covering_in
    drawn += [
        witness((-below, level), foot_level),
        witness((above, _flashing_line(detail)[-1][1]), foot_level),
    ]
    measures = (
        Measure((-below, foot_level), (0.0, foot_level), -0.2),
        Measure((0.0, foot_level), (above, foot_level), -0.2),
    )
    return Sketch(tuple(drawn), _notes(detail, lags[-1], seal), measures)


def _notes(detail: Detail, last_lag: float, seal: Point) -> tuple[Note, ...]:
    foot, built = _foot(detail), detail.build_up
    half = foot.plate_length / 2
    where = place(detail)
    size = " x ".join(map(inches, (foot.plate_width, foot.plate_length, foot.plate_thickness)))
    edge, butt = _flashing_line(detail), (where.drawn_in, built.high_covering_in)
    up = inches(foot.flashing_above)
    bolt = _bolt_level(detail)
    side = -detail.system.rail.width / 2 - foot.plate_thickness
    slot_at, bolt_at = (side, bolt - _BOLT - 0.4), (side - 0.2, bolt)
    if not detail.system.across:  # the upright is seen on its face
        slot_at, bolt_at = (-_SLOT, bolt - foot.adjustment / 2 - _SLOT), (-_BOLT, bolt)
    slot = (
        f"SLOT OF THE UPRIGHT: RAIL {inches(foot.adjustment)} UP, DRAWN AT THE MIDDLE"
        if foot.adjustment
        else "UPRIGHT OF THE FOOT"
    )
    return (
        Note(lag_words(detail), (last_lag + foot.lags.diameter / 2, -1.2)),
        Note(f"{foot.name.upper()}, PLATE {size}", (-half, built.plate_in - 0.05)),
        Note(f"FLASHING {up} UP FROM THE PLATE'S MIDDLE", edge[-1]),
        Note(tucked_words(detail, where, "PLATE'S MIDDLE"), butt),
        Note(SEALANT, seal),
        Note(slot, slot_at),
        Note(foot.torque.upper(), bolt_at),
    )


def _flashing_line(detail: Detail) -> tuple[Point, ...]:
    """The flashing under the plate, and up the slope under the courses above."""
    foot, built = _foot(detail), detail.build_up
    above, below = foot.flashing_above, foot.flashing_length - foot.flashing_above
    level = built.high_covering_in
    butt = place(detail).drawn_in
    own = butt - shingle(detail).exposure
    under = built.underlayment_in + 0.02
    return (
        (-below, level),
        (foot.plate_length / 2, level),
        (butt, face_at(detail, butt, own)),
        (above, max(face_at(detail, above, own), under)),
    )


def _bolt_level(detail: Detail) -> float:
    return (detail.build_up.rail_under_in + detail.build_up.rail_top_in) / 2


def _upright(detail: Detail, *, face_on: bool) -> list[Primitive]:
    """The upright, on its face with the slot or from its edge beside the rail."""
    foot, built = _foot(detail), detail.build_up
    bolt, play = _bolt_level(detail), foot.adjustment / 2
    top = bolt + play + _SLOT + _ABOVE_SLOT
    if face_on:
        half = (foot.plate_width if detail.system.across else foot.plate_length / 2) / 2
        slot = Box(-_SLOT, bolt - play - _SLOT, _SLOT, bolt + play + _SLOT)
        head = Box(-_BOLT, bolt - _BOLT, _BOLT, bolt + _BOLT)
        return [
            rectangle(Box(-half, built.plate_in, half, top), OUTLINE),
            rectangle(slot, HIDDEN),
            rectangle(head, OUTLINE),
        ]
    face = -detail.system.rail.width / 2
    edge = face - foot.plate_thickness
    return [
        rectangle(Box(edge, built.plate_in, face, top), OUTLINE),
        rectangle(Box(edge - 0.2, bolt - _BOLT, edge, bolt + _BOLT), OUTLINE),
    ]


def _bead(at: Point) -> list[Primitive]:
    x, n = at
    corners = ((x - _BEAD, n - _BEAD), (x + _BEAD, n - _BEAD), (x + _BEAD, n), (x - _BEAD, n))
    return [Area(corners, OUTLINE)]
