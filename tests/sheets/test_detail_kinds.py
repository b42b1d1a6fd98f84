"""S-501 of every kind of attachment: what is printed and what is drawn equal the design."""

from __future__ import annotations

import re

import pytest

from planset.catalog.attachment import (
    FlashedFootAttachment,
    HookAttachment,
    SeamClampAttachment,
    StandoffAttachment,
)
from planset.drawing.flatten import strokes
from planset.drawing.geometry import Box, Placement, box_around
from planset.drawing.primitives import Circle, Dimension, Line, Polyline, Primitive
from planset.sheets.details.detail import Detail, details_of
from planset.sheets.details.shingles import tucked
from planset.sheets.words import inches
from planset.units import format_feet_inches
from tests.sheets.detail_jobs import KINDS, detail_of
from tests.sheets.drawn_sets import Made

SHEET = "S-501"
SIZES = ("11x17", "24x36")
EVERY = [
    (kind, size) for kind in KINDS for size in SIZES if size == SIZES[0] or "rails" not in kind
]
SCREWED = [kind for kind in KINDS if "clamp" not in kind]
ON_SEAMS = [kind for kind in KINDS if "clamp" in kind]
ON_SHINGLES = [kind for kind in KINDS if "shingles" in kind or "foot" in kind]
POSTS = [kind for kind in KINDS if "post" in kind]
OUTLINE, CUT, BEYOND = "S-DETL-OTLN", "S-DETL-MCUT", "S-DETL-MBND"


def detail(kind: str) -> Detail:
    (found,) = details_of(detail_of(kind).design)
    return found


def said(made: Made) -> str:
    """All words of the detail and of what runs over from it, in one line without breaks."""
    return squeezed(" ".join(line for page in made.pages(SHEET) for line in made.lines(page.sheet)))


def squeezed(words: str) -> str:
    return re.sub(r"\s+", "", words.upper())


def boxes(kind: str, name: str, layer: str = OUTLINE) -> list[Box]:
    """Boxes around the closed outlines of a section."""
    parts = detail_of(kind).drawing.blocks[name].primitives
    return [
        box_around(part.points)
        for part in parts
        if isinstance(part, Polyline) and part.closed and part.layer == layer
    ]


def has(found: list[Box], wanted: Box) -> bool:
    return any(box.contains(wanted, 1e-6) and wanted.contains(box, 1e-6) for box in found)


def dimensions(made: Made, view: int) -> dict[str, Dimension]:
    annotation = made.page(SHEET).views[view].annotation
    return {part.text: part for part in annotation if isinstance(part, Dimension)}


def along(kind: str) -> tuple[Primitive, ...]:
    return detail_of(kind).drawing.blocks["DETAIL-ALONG"].primitives


# --- the page ------------------------------------------------------------------------------


@pytest.mark.parametrize(("kind", "size"), EVERY)
def test_a_detail_has_nothing_to_mend(kind: str, size: str) -> None:
    assert detail_of(kind, size).failures() == []


@pytest.mark.parametrize(("kind", "size"), EVERY)
def test_a_detail_is_drawn_at_a_scale_that_is_read_off_a_tape(kind: str, size: str) -> None:
    first, second = detail_of(kind, size).page(SHEET).views
    assert (first.number, second.number) == (1, 2)
    assert first.scale.factor <= 4  # 3 in to the foot: usual for attachment details
    assert second.scale.factor <= 12


@pytest.mark.parametrize(("kind", "size"), EVERY)
def test_everything_drawn_lies_within_the_page(kind: str, size: str) -> None:
    made = detail_of(kind, size)
    area = made.drawing.titleblocks[f"strip-{size}"].drawing_area
    for page in made.pages(SHEET):
        for view in page.views:
            assert area.contains(view.frame)
            for stroke in strokes(view.model, view.on_paper, made.drawing.blocks):
                assert view.frame.contains(box_around(stroke.points))
        beside = [p for p in page.paper if not getattr(p, "block", "").startswith("strip")]
        for stroke in strokes(beside, Placement(), made.drawing.blocks):
            assert area.contains(box_around(stroke.points))


# --- what is printed -----------------------------------------------------------------------


@pytest.mark.parametrize("kind", KINDS)
def test_parts_and_their_documents_stand_beside_the_detail(kind: str) -> None:
    words, system = said(detail_of(kind)), detail(kind).system
    attachment = system.attachment
    wanted = [system.maker, system.document, attachment.torque, *attachment.weatherproofing]
    wanted += [part.torque for part in (system.foot, system.clamps, system.coupling) if part]
    for capacity in (attachment.uplift, attachment.downward, attachment.along_slope):
        assert f"{capacity.capacity:.0f}" in words
        wanted.append(f"{capacity.document}, page {capacity.page}")
    for text in wanted:
        assert squeezed(text) in words


@pytest.mark.parametrize("kind", KINDS)
def test_wood_deck_and_covering_are_named(kind: str) -> None:
    words, shown = said(detail_of(kind)), detail(kind)
    framing = shown.framing
    for text in (
        f"RAFTER {framing.member} AT {inches(framing.spacing)} O.C.",
        f"SHEATHING {inches(framing.sheathing)}",
        f"UNDERLAYMENT {inches(framing.underlayment)}",
        shown.covering.material,
    ):
        assert squeezed(text) in words


@pytest.mark.parametrize("kind", KINDS)
def test_the_height_of_the_modules_is_printed_over_its_whole_range(kind: str) -> None:
    built = detail(kind).build_up
    highest = built.height_above_roof_in
    words = f"{format_feet_inches(highest, rounding='up')} ABOVE THE"
    if built.adjustment_in:
        lowest = highest - built.adjustment_in
        words = f"TOP {format_feet_inches(lowest)} TO {words}"
    assert squeezed(words) in said(detail_of(kind))


@pytest.mark.parametrize("kind", SCREWED)
def test_screws_are_described_as_they_are_designed(kind: str) -> None:
    made, shown = detail_of(kind), detail(kind)
    lags, held = shown.on_rafter.lags, shown.fastening
    assert held is not None
    thread = f"THREAD IN RAFTER {inches(held.penetration_in)}, {inches(held.minimum_in)} MIN."
    room = format_feet_inches(held.side_room_in, rounding="down")
    for text in (
        f"({lags.count}) LAG {inches(lags.diameter)} x {inches(lags.length)}",
        f"PILOT {inches(lags.pilot)}",
        thread,
        f"WITHIN {room} OF THE RAFTER CENTERLINE",
        f"{inches(shown.on_rafter.clearance)} MIN.",
    ):
        assert squeezed(text) in said(made)
    # NDS 2018 12.1.4.6: four diameters at least, the tip not counted [from memory]
    assert held.minimum_in == pytest.approx(4 * lags.diameter)


@pytest.mark.parametrize("kind", ON_SEAMS)
def test_a_clamp_needs_no_hole(kind: str) -> None:
    words, clamp = said(detail_of(kind)), detail(kind).attachment
    assert isinstance(clamp, SeamClampAttachment)
    assert "LAG" not in words
    assert "PILOT" not in words
    assert squeezed("no hole in the panel") in words
    assert f"({clamp.set_screws})SETSCREWS" in words
    for profile in clamp.profiles:
        assert squeezed(profile) in words


def test_clips_are_named_where_they_are_stated_and_missed_where_not() -> None:
    with_clips, without = said(detail_of("clamp and clips")), said(detail_of("clamp"))
    assert squeezed("panel clips at 24 in along every seam") in with_clips
    assert "215" in with_clips
    assert squeezed("Panel test FP-9, page 3") in with_clips
    assert squeezed("panel clips not stated") in without
    assert "215" not in without


@pytest.mark.parametrize("kind", ["hook", "post on shingles"])
def test_a_foot_is_drawn_at_the_middle_of_the_range_it_prints(kind: str) -> None:
    shown = detail(kind)
    foot, built = shown.system.foot, shown.build_up
    assert foot is not None
    range_words = f"{inches(foot.lowest)} TO {inches(foot.highest)}, RAIL TO FRAME, DRAWN AT"
    assert squeezed(range_words) in said(detail_of(kind))
    middle = (foot.lowest + foot.highest) / 2
    bodies = [b for b in boxes(kind, "DETAIL-ALONG") if b.y0 == pytest.approx(built.rail_top_in)]
    assert [body.height for body in bodies] == [pytest.approx(middle)]


# --- what is drawn -------------------------------------------------------------------------


@pytest.mark.parametrize("kind", KINDS)
def test_the_rail_is_seen_from_its_end_in_one_section_alone(kind: str) -> None:
    shown = detail(kind)
    rail, built = shown.system.rail, shown.build_up
    seen = {
        name: [
            box
            for box in boxes(kind, name)
            if (box.width, box.height) == pytest.approx((rail.width, rail.height))
            and box.y0 == pytest.approx(built.rail_under_in)
        ]
        for name in ("DETAIL-ALONG", "DETAIL-ACROSS")
    }
    end_on, lengthwise = ("DETAIL-ALONG", "DETAIL-ACROSS")
    if not shown.system.across:
        end_on, lengthwise = lengthwise, end_on
    assert len(seen[end_on]) == 1
    assert seen[lengthwise] == []


@pytest.mark.parametrize("kind", KINDS)
def test_the_modules_top_is_drawn_and_measured_at_its_height(kind: str) -> None:
    built = detail(kind).build_up
    tops = [
        part.a[1]
        for part in along(kind)
        if isinstance(part, Line) and part.layer == OUTLINE and part.a[1] == part.b[1]
    ]
    assert max(tops) == pytest.approx(built.module_top_in)
    height = built.module_top_in - built.low_covering_in
    assert format_feet_inches(height, denominator=16) in dimensions(detail_of(kind), 1)


@pytest.mark.parametrize("kind", SCREWED)
def test_screws_are_as_long_on_paper_as_the_scale_says(kind: str) -> None:
    made, lags = detail_of(kind), detail(kind).on_rafter.lags
    plate = detail(kind).build_up.plate_in
    threads = [
        box_around(part.points)
        for part in along(kind)
        if isinstance(part, Polyline) and part.layer == BEYOND and len(part.points) == 5
    ]
    view = made.page(SHEET).views[0]
    assert len(threads) == lags.count
    for box in threads:
        head, point = (view.on_paper.apply((0.0, n)) for n in (plate, box.y0))
        assert head[1] - point[1] == pytest.approx(lags.length / view.scale.factor)
    apart = threads[-1].center[0] - threads[0].center[0]
    assert apart == pytest.approx((lags.count - 1) * lags.spacing)


@pytest.mark.parametrize("kind", [k for k in SCREWED if "hook" not in k])
def test_the_flashing_reaches_as_far_as_it_is_dimensioned(kind: str) -> None:
    made, attachment = detail_of(kind), detail(kind).attachment
    assert isinstance(attachment, StandoffAttachment | FlashedFootAttachment)
    above = attachment.flashing_above
    below = attachment.flashing_length - above
    lags = [
        box_around(part.points).center[0]
        for part in along(kind)
        if isinstance(part, Polyline) and part.layer == BEYOND and len(part.points) == 5
    ]
    axis = (lags[0] + lags[-1]) / 2
    ends = [
        at
        for part in along(kind)
        if isinstance(part, Line | Polyline) and part.layer == CUT
        for at in (part.points if isinstance(part, Polyline) else (part.a, part.b))
    ]
    for edge in (axis - below, axis + above):
        assert any(x == pytest.approx(edge) for x, _ in ends)
    shown = dimensions(made, 0)
    for reach in (above, below):
        text = format_feet_inches(reach, denominator=16)
        assert shown[text].value_in == pytest.approx(reach)
    size = f"FLASHING {inches(attachment.flashing_width)} x {inches(attachment.flashing_length)}"
    assert squeezed(size) in said(made)


@pytest.mark.parametrize("kind", ON_SHINGLES)
def test_butts_are_drawn_an_exposure_apart(kind: str) -> None:
    exposure = 5.625  # 5-5/8 in, as the job says
    thick = 0.25 / 2
    butts = sorted(
        part.a[0]
        for part in along(kind)
        if isinstance(part, Line)
        and part.layer == CUT
        and part.a[0] == part.b[0]
        and abs(part.b[1] - part.a[1]) == pytest.approx(thick)
    )
    assert len(butts) >= 2
    for lower, upper in zip(butts, butts[1:], strict=False):
        steps = (upper - lower) / exposure
        assert steps == pytest.approx(round(steps))
    assert '5 5/8"' in dimensions(detail_of(kind), 0)


@pytest.mark.parametrize("kind", POSTS)
def test_a_post_reaches_from_its_plate_to_the_rail(kind: str) -> None:
    post, built = detail(kind).attachment, detail(kind).build_up
    assert isinstance(post, StandoffAttachment)
    sides = [
        part
        for part in along(kind)
        if isinstance(part, Line)
        and part.layer == OUTLINE
        and part.a[0] == part.b[0]
        and min(part.a[1], part.b[1]) == pytest.approx(built.plate_in)
    ]
    assert len(sides) == 2
    assert abs(sides[1].a[0] - sides[0].a[0]) == pytest.approx(post.post_diameter)
    height = post.height + post.adjustment / 2  # drawn at the middle of its range
    assert built.rail_under_in - built.underlayment_in == pytest.approx(height)
    drawn = [line for line in detail_of(kind).lines(SHEET) if line.startswith("STORM COLLAR, ")]
    assert bool(drawn) == ("tile" in kind)


@pytest.mark.parametrize("kind", ON_SEAMS)
def test_a_clamp_is_drawn_on_its_seam(kind: str) -> None:
    shown = detail(kind)
    clamp, built = shown.attachment, shown.build_up
    assert isinstance(clamp, SeamClampAttachment)
    assert built.high_covering_in - built.underlayment_in == pytest.approx(1.5)
    bodies = [b for b in boxes(kind, "DETAIL-ALONG") if b.width == pytest.approx(clamp.length)]
    assert len(bodies) == 1
    assert bodies[0].y0 < built.high_covering_in < bodies[0].y1 < built.rail_under_in
    screws = [part for part in along(kind) if isinstance(part, Circle)]
    assert len(screws) == clamp.set_screws
    assert all(bodies[0].holds(screw.center) for screw in screws)
    across = detail_of(kind).drawing.blocks["DETAIL-ACROSS"].primitives
    lowest = min(
        point[1]
        for part in across
        if isinstance(part, Polyline) and part.layer in (CUT, OUTLINE)
        for point in part.points
    )
    assert lowest >= built.underlayment_in  # nothing pierces the deck


def test_the_hook_is_the_only_kind_with_a_notch() -> None:
    assert [kind for kind in KINDS if "NOTCHUPPERTILE" in said(detail_of(kind))] == [
        kind for kind in KINDS if isinstance(detail(kind).attachment, HookAttachment)
    ]


# --- how a flashing is tucked --------------------------------------------------------------


@pytest.mark.parametrize(
    ("half_plate", "above", "courses", "least", "most"),
    [
        # 1.5 in of plate and 1/4 in below the butt; 8 in - 5-5/8 in is 2-3/8 in
        (1.5, 8.0, 2, 1.75, 2.375),
        # no place reaches a second course: the butt above at 4 in, the next at 9-5/8 in
        (3.75, 8.0, 1, 4.0, 5.625),
        # three courses: 14 in - 2 x 5-5/8 in
        (1.0, 14.0, 3, 1.25, 2.75),
        # the flashing ends below the butt above
        (1.0, 1.0, 0, 1.25, 1.25),
    ],
)
def test_where_a_flashing_reaches_under_most_courses(
    half_plate: float, above: float, courses: int, least: float, most: float
) -> None:
    place = tucked(detail("foot"), half_plate, above)
    assert place.courses == courses
    assert (place.least_in, place.most_in) == pytest.approx((least, most))


def test_the_flashing_drawn_lies_under_as_many_courses_as_the_note_says() -> None:
    foot = detail("foot").attachment
    assert isinstance(foot, FlashedFootAttachment)
    place = tucked(detail("foot"), foot.plate_length / 2, foot.flashing_above)
    butts = [place.drawn_in + n * 5.625 for n in range(5)]
    assert sum(butt < foot.flashing_above for butt in butts) == place.courses == 2
    assert squeezed('3 1/4" to 4 3/8" below the butt above') in said(detail_of("foot"))
