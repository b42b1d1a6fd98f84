"""Text over strokes of medium and wider pens, and over filled areas."""

from dataclasses import replace

import pytest
from review_pages import MEDIUM, THIN, WIDE, offences, page, plan, text

from planset.drawing.layers import LAYERS
from planset.drawing.primitives import Area, Circle, Line, Polyline, Primitive
from planset.drawing.revision_marks import CLOUD_LAYER, DELTA_LAYER
from planset.review.drafting.text_on_line import RULE


def across(layer: str) -> Line:
    return Line((1, 5.05), (4, 5.05), layer)


@pytest.mark.parametrize(
    ("obstacle", "layer"),
    [
        (across(MEDIUM), MEDIUM),
        (across(WIDE), WIDE),
        (Polyline(((1, 4), (4, 6), (4, 4)), MEDIUM, closed=True), MEDIUM),
        (Circle((2.0, 5.0), 0.3, WIDE), WIDE),
        (Polyline(((1.2, 4), (3.2, 4)), MEDIUM, bulges=(-1.0, 0.0)), MEDIUM),
        (Area(((1, 4), (4, 4), (4, 6), (1, 6)), THIN), THIN),
    ],
    ids=["medium", "wide", "polyline", "circle", "arc", "filled, whatever its pen"],
)
def test_text_on_it_is_caught(obstacle: Primitive, layer: str) -> None:
    assert offences(RULE, page(obstacle, text("THE WORDS", 2, 5))) == [("THE WORDS",)]


def test_thin_pen_passes_only_under_text_that_had_no_better_place() -> None:
    assert LAYERS[THIN].pen_mm < 0.35
    words = text("WORDS", 2, 5)
    assert offences(RULE, page(across(THIN), words)) == [("WORDS",)]
    crowded = replace(words, crowded=True)
    assert offences(RULE, page(across(THIN), crowded)) == []
    assert offences(RULE, page(across(MEDIUM), crowded)) == [("WORDS",)]


def test_a_cloud_may_run_over_words_but_not_over_the_number_of_a_delta() -> None:
    assert LAYERS[CLOUD_LAYER].pen_mm >= 0.35
    words = text("WORDS", 2, 5)
    assert offences(RULE, page(across(CLOUD_LAYER), words)) == []
    number = replace(words, layer=DELTA_LAYER)
    assert offences(RULE, page(across(CLOUD_LAYER), number)) == [("WORDS",)]
    assert offences(RULE, page(across(CLOUD_LAYER), across(WIDE), words)) == [("WORDS",)]


def test_text_inside_a_circle_passes() -> None:
    assert offences(RULE, page(Circle((2.1, 5.05), 0.3, WIDE), text("12", 2.03, 5))) == []


@pytest.mark.parametrize(
    ("gap", "found"),
    [(0.012, []), (0.006, []), (0.003, [("ABOVE",)])],
    ids=["clear", "ink touches by a hair", "ink reaches in"],
)
def test_half_the_width_of_the_pen_counts(gap: float, found: list[tuple[str, ...]]) -> None:
    """A pen of 0.5 mm reaches 0.0098 in beyond its course, and 0.005 in are let pass."""
    level = 5 - 0.031 - gap  # below the descenders
    assert offences(RULE, page(Line((1, level), (4, level), WIDE), text("ABOVE", 2, 5))) == found


def test_annotation_on_the_model_of_its_view_is_caught() -> None:
    """The roof's left edge stands at 1.125 in, its module from 1.54 to 2.375 in."""
    assert offences(RULE, page(views=(plan(text("EAVE", 1.0, 2)),))) == [("EAVE",)]
    assert offences(RULE, page(views=(plan(text("M1", 1.8, 1.7)),))) == []


def test_what_the_frame_cuts_off_does_not_count() -> None:
    view = plan(model=(Line((-60, 0), (500, 0), WIDE),))
    assert offences(RULE, page(text("BESIDE", 3.2, 1.1), views=(view,))) == []


LABEL = ((1, 4), (4, 4), (4, 6), (1, 6))


@pytest.mark.parametrize(
    ("background", "letters", "found"),
    [
        ("E-LABL-REDB", "E-LABL-WHTE", []),
        ("E-LABL-YELB", "E-LABL-BLCK", []),
        ("E-LABL-REDB", "E-LABL-BLCK", [("THE WORDS",)]),
        ("E-LABL-YELB", "E-LABL-WHTE", [("THE WORDS",)]),
    ],
)
def test_a_label_carries_letters_that_stand_out(
    background: str, letters: str, found: list[tuple[str, ...]]
) -> None:
    words = replace(text("THE WORDS", 2, 5), layer=letters)
    assert offences(RULE, page(Area(LABEL, background), words)) == found
