"""Labels step aside: for words, for heavy lines, for thin ones while they can."""

from __future__ import annotations

import math
import random
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString
from shapely.geometry import Point as ShapelyPoint

from planset.drawing.dimension import dimension
from planset.drawing.flatten import rotated_text_box
from planset.drawing.geometry import Box, Placement, Point, box_around, distance
from planset.drawing.labels import Label, LabelPlacer, NoRoomError
from planset.drawing.primitives import Block, Insert, Leader, Line, Primitive, Text
from planset.drawing.primitives import Dimension as DrawnDimension
from planset.drawing.text import MINIMUM_HEIGHT, SLACK, text_box, text_width
from tests.drawing.many_labels import labels_among_lines
from tests.drawing.shapes import box_shape, line_shape, of_kind, text_shape

AREA = Box(0.0, 0.0, 8.0, 6.0)
HEAVY, THIN, FAINT = "A-ROOF-OBST", "A-ANNO-NOTE", "S-ROOF-FRAM"
TEXT, LEADER = "A-ANNO-TEXT", "A-ANNO-NOTE"
AT_ANCHOR = 0.14  # of a leader's end, which may cross the outline of what it names

inside = st.tuples(st.floats(0.5, 7.5), st.floats(0.5, 5.5))


def label(words: str = "SK1", at: Point = (4.0, 3.0), offset: float = 0.0) -> Label:
    return Label((words,), at, MINIMUM_HEIGHT, TEXT, LEADER, names=words, offset=offset)


def placer(*obstacles: Primitive, area: Box = AREA) -> LabelPlacer:
    made = LabelPlacer(area)
    made.keep_clear(obstacles, {})
    return made


def words_box(made: tuple[Primitive, ...]) -> Box:
    (text,) = of_kind(made, Text)
    return rotated_text_box(text, SLACK)


def grid(layer: str, pitch: float, area: Box = AREA) -> list[Line]:
    """Lines all over an area."""
    rows, columns = int(area.height / pitch) + 1, int(area.width / pitch) + 1
    level = [
        Line((area.x0, area.y0 + n * pitch), (area.x1, area.y0 + n * pitch), layer)
        for n in range(rows)
    ]
    upright = [
        Line((area.x0 + n * pitch, area.y0), (area.x0 + n * pitch, area.y1), layer)
        for n in range(columns)
    ]
    return level + upright


# --- near its anchor -----------------------------------------------------------------------


def test_with_nothing_in_the_way_a_label_stands_at_its_anchor() -> None:
    made = placer().place_near(label(), AREA)
    assert of_kind(made, Leader) == []
    assert words_box(made).grown(0.05).contains(Box(4, 3, 4, 3))


def test_a_label_that_had_to_move_away_is_led_to_its_anchor() -> None:
    blot = grid(THIN, 0.1, Box(3.5, 2.5, 4.5, 3.5))
    made = placer(*blot).place_near(label(), AREA)
    assert all(box_shape(words_box(made)).disjoint(line_shape(line)) for line in blot)
    (line,) = of_kind(made, Leader)
    assert line.points[-1] == (4.0, 3.0)
    assert line.names == "SK1"
    assert line.layer == LEADER
    assert box_shape(words_box(made)).distance(ShapelyPoint(line.points[0])) < 0.05


def test_a_leader_can_be_asked_for_from_nearby() -> None:
    made = placer(Line((3.9, 3), (4.1, 3), HEAVY)).place_near(label(), AREA, always_led=True)
    (line,) = of_kind(made, Leader)
    assert line.points[-1] == (4.0, 3.0)


@given(st.lists(inside, min_size=1, max_size=12), st.integers(0, 10**6))
def test_labels_keep_clear_of_everything(anchors: list[Point], seed: int) -> None:
    chance = random.Random(seed)
    texts = [
        Text("NOTE", (chance.uniform(0, 7), chance.uniform(0, 6)), 0.1, TEXT, "left", turn)
        for turn in (0, 0, 90, 30)
    ]
    heavy = [
        Line(
            (chance.uniform(0, 8), chance.uniform(0, 6)),
            (chance.uniform(0, 8), chance.uniform(0, 6)),
            HEAVY,
        )
        for _ in range(6)
    ]
    places = placer(*texts, *heavy)
    drawn: list[tuple[Primitive, ...]] = []
    for number, anchor in enumerate(anchors):
        try:
            made = places.place_near(label(f"V{number}", anchor, 0.05), AREA)
        except NoRoomError:  # words stand on the anchor
            continue
        (text,) = of_kind(made, Text)
        box = words_box(made)
        shape = box_shape(box)
        assert AREA.contains(box)
        assert all(shape.disjoint(text_shape(other)) for other in texts)
        assert all(shape.disjoint(line_shape(line)) for line in heavy)
        for line in of_kind(made, Leader):
            assert line.points[-1] == anchor
            run = LineString(line.points).difference(
                ShapelyPoint(anchor).buffer(0.05 + AT_ANCHOR, 64)
            )
            assert all(run.disjoint(text_shape(other)) for other in texts)
            for before in drawn:
                assert run.disjoint(box_shape(words_box(before)))
                assert all(run.disjoint(LineString(o.points)) for o in of_kind(before, Leader))
        drawn.append(made)
    for one, other in combinations(drawn, 2):
        assert box_shape(words_box(one)).disjoint(box_shape(words_box(other)))
        for line in of_kind(one, Leader):
            assert LineString(line.points).disjoint(box_shape(words_box(other)))


# --- what may be crossed -------------------------------------------------------------------


def test_a_thin_line_is_not_crossed_while_there_is_another_place() -> None:
    thin = Line((0, 3), (8, 3), THIN)
    made = placer(thin).place_near(label(), AREA)
    assert box_shape(words_box(made)).disjoint(line_shape(thin))


def test_a_thin_line_is_crossed_when_every_place_is_taken() -> None:
    made = placer(*grid(THIN, 0.1)).place_near(label(), AREA)
    assert words_box(made).grown(0.05).contains(Box(4, 3, 4, 3))


def test_faint_lines_are_the_first_to_be_crossed() -> None:
    thin, faint = grid(THIN, 0.1, Box(0, 0, 4, 6)), grid(FAINT, 0.1)
    made = placer(*thin, *faint).place_near(label(at=(3.7, 3.0)), AREA)
    assert words_box(made).x0 > 4.0


def test_heavy_lines_are_never_crossed() -> None:
    with pytest.raises(NoRoomError, match="SK1"):
        placer(*grid(HEAVY, 0.1)).place_near(label(), AREA)


def test_lines_of_dimensions_weigh_as_heavy() -> None:
    dimensions = [
        dimension((0, 0.1 * n), (8, 0.1 * n), 0.05, "A-ANNO-DIMS", 96.0) for n in range(61)
    ]
    with pytest.raises(NoRoomError):
        placer(*dimensions).place_near(label(at=(1.0, 3.0)), AREA)  # far from all figures


def test_later_words_keep_off_a_leader() -> None:
    blot = grid(THIN, 0.1, Box(3.5, 2.5, 4.5, 3.5))
    places = placer(*blot)
    (led,) = of_kind(places.place_near(label(), AREA), Leader)
    (x, y), (knee_x, knee_y) = led.points[-1], led.points[-2]
    middle = ((x + knee_x) / 2, (y + knee_y) / 2)
    opposite = (8 - middle[0], 6 - middle[1])
    both = [Text("V1", at, 0.1, TEXT, "middle") for at in (middle, opposite)]
    assert places.place_first(both).at == opposite, "both lie on thin pens, one on the leader"


def test_later_dimensions_keep_off_words() -> None:
    places = placer()
    places.place_near(label(at=(3, 3.4)), AREA)
    assert places.place_dimension(ways(0.4, 0.8)) == ways(0.8)[0]


def test_a_reserved_box_stays_free_of_words() -> None:
    places = placer()
    places.reserve(Box(3, 2, 5, 4))
    made = places.place_near(label(offset=1.5), AREA)
    assert not words_box(made).overlaps(Box(3, 2, 5, 4))


@pytest.mark.parametrize("placement", [None, Placement((2.0, 1.0), 0.0, 0.5)])
def test_words_inside_blocks_are_kept_clear(placement: Placement | None) -> None:
    """Also those of attributes, and those of blocks within blocks."""
    at = (placement or Placement()).apply
    inner = Block("INNER", (Text("A LONG LINE OF WORDS", (0, 0), 0.2, "0", "middle"),))
    outer = Block("OUTER", (Insert("INNER", (1.0, 1.0), "0"),))
    places = LabelPlacer(AREA)
    places.keep_clear(
        (Insert("OUTER", (3.0, 3.0), TEXT),), {"INNER": inner, "OUTER": outer}, placement
    )
    size = (placement or Placement()).scale * 0.2
    words = Text("A LONG LINE OF WORDS", at((4.0, 4.0)), size, TEXT, "middle")
    anchor = (words.at[0], words.at[1] + size / 2 + 0.02)
    made = places.place_near(label(at=anchor), AREA)
    assert box_shape(words_box(made)).disjoint(text_shape(words))
    assert distance(words_box(made).center, anchor) < 0.5
    naive = words_box(placer().place_near(label(at=anchor), AREA))
    assert box_shape(naive).intersects(text_shape(words))


def test_a_leader_crosses_heavy_lines_only_when_there_is_no_other_way() -> None:
    def crosses(sides: int) -> bool:
        """Whether the leader out of a fence of so many sides, too small for words, crosses one."""
        corners = Box(3.82, 2.82, 4.18, 3.18).corners
        fence = [Line(corners[n], corners[(n + 1) % 4], HEAVY) for n in range(sides)]
        made = placer(*fence).place_near(label(), AREA, always_led=True)
        (line,) = of_kind(made, Leader)
        return any(LineString(line.points).crosses(line_shape(side)) for side in fence)

    assert not crosses(3)
    assert crosses(4)


def test_what_lies_on_a_thin_pen_is_told_to_the_review() -> None:
    clear = placer().place_near(label(), AREA)
    crowded = placer(*grid(THIN, 0.1)).place_near(label(), AREA)
    assert [text.crowded for text in of_kind(clear, Text)] == [False]
    assert [text.crowded for text in of_kind(crowded, Text)] == [True]


# --- texts and dimensions with a few places ------------------------------------------------


def at_places(*levels: float) -> list[Text]:
    return [Text("RIDGE", (4.0, level), 0.1, TEXT, "middle") for level in levels]


def test_a_text_takes_the_first_place_that_is_clear() -> None:
    places = placer(Line((0, 3), (8, 3), THIN), Line((0, 4), (8, 4), HEAVY))
    assert places.place_first(at_places(3, 4, 5, 1)).at == (4.0, 5)
    assert not words_box(places.place_near(label(at=(4, 5), offset=0.3), AREA)).overlaps(
        rotated_text_box(at_places(5)[0])
    ), "it is taken into account"


def test_a_text_takes_a_place_on_a_thin_pen_next_and_says_so() -> None:
    lines = (Line((0, 3), (8, 3), HEAVY), Line((0, 4), (8, 4), THIN))
    chosen = placer(*lines).place_first(at_places(3, 4))
    assert (chosen.at, chosen.crowded) == ((4.0, 4), True)


def test_a_text_without_a_place_clear_of_heavy_lines_is_told() -> None:
    lines = (Line((0, 3), (8, 3), HEAVY), Line((0, 4), (8, 4), HEAVY))
    with pytest.raises(NoRoomError, match="RIDGE"):
        placer(*lines).place_first(at_places(3, 4))


@pytest.mark.parametrize(("level", "crowded"), [(3.0, True), (5.0, False)])
def test_a_text_that_cannot_move_is_crowded_over_a_pen(level: float, crowded: bool) -> None:
    places = placer(Line((0, 3), (8, 3), FAINT))
    assert places.settled(at_places(level)[0]).crowded == crowded


def ways(*offsets: float) -> list[DrawnDimension]:
    return [dimension((2, 3), (6, 3), offset, "A-ANNO-DIMS", 96.0) for offset in offsets]


def test_a_dimension_is_drawn_in_the_first_way_that_has_room() -> None:
    note = Text("NOTE", (4.0, 3.5), 0.1, TEXT, "middle")
    places = placer(note)
    chosen = places.place_dimension(ways(0.4, 0.8, -0.4))
    assert chosen == ways(0.8)[0]
    beside = places.place_near(label(at=(3, 3.8), offset=0.3), AREA)
    assert box_shape(words_box(beside)).disjoint(line_shape(of_kind(chosen.marks, Line)[0]))


@pytest.mark.parametrize(
    "obstacle",
    [
        Text("NOTE", (3.0, 3.4), 0.1, TEXT, "middle"),  # under its line
        Text("NOTE", (4.0, 3.5), 0.1, TEXT, "middle"),  # under its figure
        Line((0, 3.5), (8, 3.5), HEAVY),  # under its figure
    ],
)
def test_a_way_over_words_or_heavy_pens_has_no_room(obstacle: Primitive) -> None:
    with pytest.raises(NoRoomError, match="32'-0"):
        placer(obstacle).place_dimension(ways(0.4))


def test_the_lines_of_a_dimension_may_cross_other_lines() -> None:
    assert placer(Line((3, 0), (3, 6), HEAVY)).place_dimension(ways(0.4)) == ways(0.4)[0]


def test_a_way_clear_of_thin_pens_is_preferred() -> None:
    thin = Line((0, 3.5), (8, 3.5), THIN)
    assert placer(thin).place_dimension(ways(0.4, 0.8)) == ways(0.8)[0]
    (figure,) = of_kind(placer(thin).place_dimension(ways(0.4)).marks, Text)
    assert figure.crowded


def test_a_dimension_does_not_run_over_another() -> None:
    """Its ticks would read as the other's; end to end, as in a chain, or across it may run."""

    def between(start: float, end: float, offset: float) -> DrawnDimension:
        return dimension((start, 3), (end, 3), offset, "A-ANNO-DIMS", 96.0)

    places = placer()
    places.place_dimension([between(1, 4, 0.4)])
    for shared in (between(0.5, 7, 0.4), between(2, 3, 0.4), between(3, 7, 0.42)):
        with pytest.raises(NoRoomError):
            places.copy().place_dimension([shared])
    farther = between(3, 7, 0.8)
    assert places.copy().place_dimension([between(3, 7, 0.4), farther]) == farther
    across = dimension((3, 1), (3, 5), 0.0, "A-ANNO-DIMS", 96.0)
    for free in (between(4, 7, 0.4), across):
        assert places.copy().place_dimension([free]) == free


def test_the_lines_of_a_dimension_stay_inside_the_area() -> None:
    near, far = ways(0.5, 7.5)
    assert not AREA.contains(box_around((far.line_a, far.line_b)))
    with pytest.raises(NoRoomError):
        placer().place_dimension([far])
    assert placer().place_dimension([far, near]).line_a == near.line_a


def test_a_try_leaves_the_placer_as_it_was() -> None:
    first = placer()
    tried = words_box(first.copy().place_inside(label(), AREA))
    assert words_box(first.place_inside(label(), AREA)) == tried
    assert not words_box(first.copy().place_inside(label(), AREA)).overlaps(tried)


def test_a_figure_stays_inside_the_area() -> None:
    with pytest.raises(NoRoomError):
        placer(area=Box(2, 2, 6, 3.3)).place_dimension(ways(0.4))


# --- inside a region -----------------------------------------------------------------------


@given(st.floats(0.0, 3.0), st.floats(0.0, 3.0), inside)
def test_words_inside_a_region_stay_inside_it(width: float, height: float, at: Point) -> None:
    region = Box(at[0] - width / 2, at[1] - height / 2, at[0] + width / 2, at[1] + height / 2)
    if not AREA.contains(region):
        return
    size = text_box("M07", (0, 0), MINIMUM_HEIGHT, "center", slack=SLACK)
    fits = size.width <= width and size.height <= height
    try:
        made = placer().place_inside(label("M07", at), region)
    except NoRoomError:
        assert not fits
    else:
        assert fits
        assert region.contains(words_box(made))
        assert of_kind(made, Leader) == []
        assert words_box(made).center == pytest.approx(region.center, abs=0.05)


def test_words_stand_close_between_pens_rather_than_on_one() -> None:
    """Between lines that leave the words themselves room, but not what is kept around them."""
    width = text_width("M07", MINIMUM_HEIGHT)
    lines = [Line((x, 2.5), (x, 3.5), THIN) for x in (4 - width / 2 - 0.05, 4 + width / 2 + 0.05)]
    region = Box(3.5, 2.9, 4.5, 3.1)
    made = placer(*lines).place_inside(label("M07"), region)
    (text,) = of_kind(made, Text)
    assert not text.crowded
    assert all(text_shape(text).disjoint(line_shape(line)) for line in lines)
    narrower = [Line((x, 2.5), (x, 3.5), THIN) for x in (3.9, 4.1, 3.7, 4.3)]
    (text,) = of_kind(placer(*narrower).place_inside(label("M07"), region), Text)
    assert text.crowded


def test_the_place_nearest_the_middle_is_taken() -> None:
    rail = Line((3.9, 2), (3.9, 4), THIN)
    made = placer(rail).place_inside(label("M07"), Box(3, 2.5, 5, 3.5))
    assert box_shape(words_box(made)).disjoint(line_shape(rail))
    assert 4.0 < words_box(made).center[0] < 4.3


def test_no_place_within_a_region_is_told() -> None:
    places = placer(*grid(HEAVY, 0.1, Box(3, 2, 5, 4)))
    with pytest.raises(NoRoomError, match="M07"):
        places.place_inside(label("M07"), Box(3, 2, 5, 4))


def test_lines_of_a_label_stand_below_one_another() -> None:
    three = Label(("ONE", "TWO", "THREE"), (4, 3), 0.1, TEXT, LEADER)
    texts = of_kind(placer().place_near(three, AREA), Text)
    assert [text.text for text in texts] == ["ONE", "TWO", "THREE"]
    assert [text.align for text in texts] == ["center"] * 3
    assert texts[0].at[1] - texts[1].at[1] == pytest.approx(0.16)
    assert texts[1].at[1] - texts[2].at[1] == pytest.approx(0.16)


# --- a symbol ------------------------------------------------------------------------------

ARROW = Insert("SLOPE_ARROW", (4.0, 3.0), "A-ROOF-LEVL", 270.0)
ARROW_BOX = Box(-0.1, -0.6, 0.1, 0.0)


def test_a_symbol_steps_aside() -> None:
    heavy = Line((0, 2.9), (8, 2.9), HEAVY)
    places = placer(heavy)
    made, crowded = places.place_symbol(ARROW, ARROW_BOX, AREA)
    assert not crowded
    covered = ARROW_BOX.moved(*made.at)
    assert box_shape(covered).disjoint(line_shape(heavy))
    assert (made.block, made.layer, made.rotation_deg) == ("SLOPE_ARROW", "A-ROOF-LEVL", 270.0)
    beside = places.place_near(label(at=covered.center, offset=0.4), AREA)
    assert not words_box(beside).overlaps(covered), "the symbol is taken into account"


def test_a_symbol_may_stand_on_a_thin_pen_when_it_has_to() -> None:
    made, crowded = placer(*grid(THIN, 0.1)).place_symbol(ARROW, ARROW_BOX, AREA)
    assert crowded
    assert ARROW_BOX.moved(*made.at).center == pytest.approx(ARROW.at)


def test_the_leader_of_a_symbol_crosses_no_words() -> None:
    words = Text("A LONG LINE OF WORDS ACROSS THE WAY", (4.0, 2.0), 0.1, TEXT, "middle")
    made, _ = placer(words).place_symbol(ARROW, ARROW_BOX, AREA, led_to=(4.0, 1.0))
    course = LineString([ARROW_BOX.moved(*made.at).center, (4.0, 1.0)])
    assert course.disjoint(text_shape(words))


def test_a_symbol_without_a_place_is_told() -> None:
    with pytest.raises(NoRoomError, match="SLOPE_ARROW"):
        placer(*grid(HEAVY, 0.1)).place_symbol(ARROW, ARROW_BOX, AREA)


# --- leaders -------------------------------------------------------------------------------


@given(st.floats(0.0, 1.2), st.floats(0.0, 2 * math.pi))
def test_a_leader_starts_clear_of_its_own_words(away: float, turn: float) -> None:
    """However the words have to stand around the point they name."""
    room = Box(4.0 + away * math.cos(turn), 3.0 + away * math.sin(turn), 0, 0)
    region = Box(room.x0 - 0.3, room.y0 - 0.1, room.x0 + 0.3, room.y0 + 0.1)
    try:
        made = placer().place_near(label(), region, always_led=True)
    except NoRoomError:
        return  # the region is all at the point named
    (line,) = (part for part in made if isinstance(part, Leader))
    words = [part for part in made if isinstance(part, Text)]
    assert LineString(line.points).disjoint(text_shape(words[0]))
    assert line.points[-1] == (4.0, 3.0)


def test_no_leader_crosses_words_close_to_what_it_names() -> None:
    """Words all around a point but for a gap below: the leader comes from there."""
    around = [Text("MMMM", (4.0, 3.15), 0.1, TEXT, "center")]
    around += [Text("MM", (x, 3.0), 0.1, TEXT, "middle") for x in (3.7, 4.3)]
    made = placer(*around).place_near(label(offset=0.05), AREA, always_led=True)
    (line,) = (part for part in made if isinstance(part, Leader))
    course = LineString(line.points)
    assert all(course.disjoint(text_shape(words)) for words in around)


# --- many ----------------------------------------------------------------------------------


def test_many_labels_among_many_lines_keep_apart() -> None:
    """How long they take is measured by `python -m tests.bench`."""
    boxes = [words_box(made) for made in labels_among_lines()]
    assert len(boxes) == 600
    assert not any(one.overlaps(other) for one, other in combinations(boxes, 2))


def test_the_box_of_turned_text_holds_it() -> None:
    text = Text("RIDGE", (1, 1), 0.1, TEXT, "left", 90)
    box = rotated_text_box(text)
    assert (box.width, box.height) == pytest.approx((0.131, text_width("RIDGE", 0.1)))
    assert (box.x1, box.y0) == pytest.approx((1.031, 1.0))
