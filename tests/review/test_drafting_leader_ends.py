"""Leaders that end beside what they name. The module lies at 1.54 to 2.38 by 1.54 to 1.96 in."""

from review_pages import TEXT, offences, page, plan

from planset.drawing.dimension import leader
from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Insert, Leader
from planset.drawing.revision_marks import DELTA_LAYER, cloud
from planset.review.drafting.leader_ends import RULE

MODEL = (Insert("ROOF", (0, 0), "0"), Insert("MODULE", (20, 20), "E-SOLR-PANL", identity="M01"))


def found(line: Leader) -> list[tuple[str, ...]]:
    return offences(RULE, page(views=(plan(line, model=MODEL),)))


def to(tip: Point, **how: str) -> Leader:
    return leader(((2.9, 2.8), (2.8, 2.8), tip), TEXT, **how)


def test_ends_on_what_they_name_pass() -> None:
    assert found(to((2.0, 1.75), end="dot", names="M01")) == []  # amid the module
    assert found(to((2.375, 1.75), names="M01")) == []  # on its edge
    assert found(to((2.375, 1.7))) == []  # on a line, nothing named
    assert found(to((2.5, 2.5), end="dot")) == []  # on a surface, nothing named


def test_leader_pushed_off_what_it_names_is_caught() -> None:
    assert found(to((2.0, 2.1), end="dot", names="M01")) == [("M01",)]
    assert found(to((2.45, 1.75), names="M01")) == [("M01",)]


def test_leader_that_names_what_the_view_lacks_is_caught() -> None:
    assert found(to((2.0, 1.75), end="dot", names="M99")) == [("M99",)]


def test_arrow_at_nothing_is_caught() -> None:
    assert found(to((2.0, 2.1))) == [("2.00, 2.10 in",)]


def test_dot_outside_of_its_view_is_caught() -> None:
    assert found(to((3.4, 1.5), end="dot")) == [("3.40, 1.50 in",)]


def test_the_leader_of_a_delta_ends_on_a_cloud_around_words_alone() -> None:
    around = cloud(Box(1.0, 2.2, 2.0, 2.4), Box(0.0, 0.0, 3.0, 3.0))
    tip = max(around.points)

    def of_a_delta(tip: Point) -> list[tuple[str, ...]]:
        line = leader(((2.9, 2.8), tip), DELTA_LAYER)
        return offences(RULE, page(views=(plan(around, line, model=MODEL),)))

    assert of_a_delta(tip) == []
    assert of_a_delta((tip[0] + 0.1, tip[1])) != []
    assert of_a_delta((2.375, 1.7)) != []  # on the module, which no cloud is around
