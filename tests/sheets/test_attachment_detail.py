"""S-501 of the example: its sections measure what the job says, and follow it."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

import planset
from planset.drawing.geometry import Box, box_around
from planset.drawing.primitives import Dimension, Line, Polyline, Primitive
from tests.example_job import edited
from tests.sheets.drawn_sets import Made, example, made_of, own_sheet

SHEET = "S-501"
HOOK = Path(planset.__path__[0]) / "catalog" / "data" / "mounting" / "heron-tile.yaml"
CUT, BEYOND = "S-DETL-MCUT", "S-DETL-MBND"
DEEPER = ("member: 2x6", "member: 2x8")
SHORTER_COURSE = ("exposure: 14 in ", "exposure: 13 in ")


@cache
def changed(edit: tuple[str, str]) -> Made:
    with TemporaryDirectory() as folder:
        return made_of(edited(Path(folder), edit))


def section(made: Made, name: str = "DETAIL-ALONG") -> tuple[Primitive, ...]:
    return made.drawing.blocks[name].primitives


def levels(made: Made) -> list[float]:
    """Heights of the level cut lines: rafter's foot and top, sheathing, underlayment."""
    return sorted(
        part.a[1]
        for part in section(made)
        if isinstance(part, Line) and part.layer == CUT and part.a[1] == part.b[1]
    )


def around(part: Primitive) -> Box:
    assert isinstance(part, Line | Polyline)
    return box_around(part.points if isinstance(part, Polyline) else (part.a, part.b))


def points_of_lags(made: Made) -> list[Box]:
    """Threads with their points: five corners, symmetric about the lowest one."""
    return [
        around(part)
        for part in section(made)
        if isinstance(part, Polyline) and part.layer == BEYOND and len(part.points) == 5
    ]


def shanks_of_lags(made: Made) -> list[Box]:
    diameter = made.design.arrays[0].mounting.attachment.lags.diameter
    boxes = (around(p) for p in section(made) if isinstance(p, Polyline) and p.closed)
    return [box for box in boxes if box.width == pytest.approx(diameter)]


def noses(made: Made) -> list[float]:
    """Where the courses' covers begin: upright lines as high as a cover."""
    rise = made.design.inputs.job.roof.covering.rise
    uprights = (part for part in section(made) if isinstance(part, Line) and part.layer == BEYOND)
    return sorted(
        line.a[0]
        for line in uprights
        if line.a[0] == line.b[0] and abs(line.b[1] - line.a[1]) == pytest.approx(rise)
    )


def figures(made: Made) -> list[str]:
    views = made.page(SHEET).views
    return [p.text for view in views for p in view.annotation if isinstance(p, Dimension)]


def whole_below(made: Made, height: float) -> list[Primitive]:
    return [part for part in section(made) if around(part).y1 <= height]


def whole_above(made: Made, height: float) -> list[Primitive]:
    return [part for part in section(made) if around(part).y0 >= height]


# --- the example ---------------------------------------------------------------------------


def test_deck_and_rafter_are_drawn_as_deep_as_they_are() -> None:
    # 2x6: 5-1/2 in deep (NDS Supplement 2018, Table 1A); sheathing and underlayment from the job.
    assert levels(example()) == pytest.approx([-5.5, 0, 1 / 2, 1 / 2 + 1 / 16])


def test_both_sections_show_one_rafter() -> None:
    widths = [around(part) for part in section(example(), "DETAIL-ACROSS")]
    assert any(
        (box.width, box.height) == pytest.approx((1.5, 5.5)) and box.y1 == 0 for box in widths
    )


def test_lag_screws_are_as_long_as_they_are_and_end_in_the_rafter() -> None:
    lags = example().design.arrays[0].mounting.attachment.lags
    shanks, points = shanks_of_lags(example()), points_of_lags(example())
    assert len(shanks) == len(points) == lags.count == 2
    for shank, point in zip(shanks, points, strict=True):
        assert shank.y1 - point.y0 == pytest.approx(lags.length)
        assert lags.length == 3.5  # as the mounting system's entry says
        assert -5.5 < point.y0 < 0
        assert shank.center[0] == pytest.approx(point.center[0])
    apart = abs(points[1].center[0] - points[0].center[0])
    assert apart == pytest.approx(lags.spacing)


def test_the_hook_is_drawn_where_the_layout_has_it() -> None:
    # Arms 1 in below their noses, so 13 in up from the lower nose; the plate's lower end 5-1/2 in
    # farther, screws 1-1/4 in and 3-1/2 in more from there.
    middles = [box.center[0] for box in points_of_lags(example())]
    assert middles == pytest.approx([19.75, 23.25])
    assert {"1'-7 3/4\"", "1'-11 1/4\""} <= set(figures(example()))
    said = " ".join(example().lines(SHEET))
    assert 'LAGS 6 3/4" AND 10 1/4" ABOVE THE ARM\'S FACE' in said
    assert '1" ON THIS ROOF' in said


def test_an_arm_elsewhere_in_its_window_is_drawn_there() -> None:
    higher = changed(("first_attachment: 7 in", "first_attachment: 7-1/2 in"))
    middles = [box.center[0] for box in points_of_lags(higher)]
    assert middles == pytest.approx([20.25, 23.75])


def test_courses_are_drawn_an_exposure_apart() -> None:
    assert noses(example()) == pytest.approx([0, 14])


def test_words_say_the_jobs_values() -> None:
    said = " ".join(example().lines(SHEET))
    for words in ("RAFTER 2x6 AT 24 in O.C.", "SHEATHING 1/2 in", "(2) LAG 5/16 in x 3 1/2 in"):
        assert words in said


# --- a change moves what it should, and nothing else ---------------------------------------


def test_a_deeper_rafter_moves_its_foot_alone() -> None:
    deeper = changed(DEEPER)
    # 2x8: 7-1/4 in deep (NDS Supplement 2018, Table 1A).
    assert levels(deeper) == pytest.approx([-7.25, 0, 1 / 2, 1 / 2 + 1 / 16])
    assert whole_above(deeper, 0.0) == whole_above(example(), 0.0)
    assert len(whole_above(example(), 0.0)) > 20
    assert points_of_lags(deeper) == points_of_lags(example())
    before, after = figures(example()), figures(deeper)
    assert [pair for pair in zip(before, after, strict=True) if pair[0] != pair[1]] == [
        ('5 1/2"', '7 1/4"')
    ]


def test_a_taller_hook_lifts_rail_and_module_and_nothing_under_them() -> None:
    def with_rise(rise: str) -> Made:
        with TemporaryDirectory() as folder:
            job = edited(Path(folder))
            entry = Path(folder, "catalog", "mounting", "heron-tile.yaml")
            entry.parent.mkdir(parents=True)
            text = HOOK.read_text(encoding="utf-8")
            assert text.count("arm_rise: 4-3/4 in") == 1
            text = text.replace("arm_rise: 4-3/4 in", f"arm_rise: {rise}")
            entry.write_text(text, encoding="utf-8")
            return made_of(job)

    low, high = with_rise("4-3/4 in"), with_rise("5-1/2 in")
    assert section(low) == section(example())
    arm = low.design.mounts[0].build_up.rail_under_in
    moved = [around(p).moved(0, 0.75) for p in whole_above(low, arm)]
    assert len(moved) >= 6  # rail and module, each with its inner edges
    assert whole_below(high, 0.0) == whole_below(low, 0.0)
    assert levels(high) == levels(low)
    assert noses(high) == noses(low)
    found = [around(p) for p in whole_above(high, arm + 0.75)]
    for box in moved:
        assert any(box.contains(other) and other.contains(box) for other in found)


def test_a_shorter_course_moves_the_noses_and_no_wood() -> None:
    shorter = changed(SHORTER_COURSE)
    assert noses(shorter) == pytest.approx([0, 13, 26])
    assert levels(shorter) == levels(example())
    tips = [[box.y0 for box in points_of_lags(of)] for of in (shorter, example())]
    assert tips[0] == pytest.approx(tips[1])
    # No arm is where it may leave: the one drawn is at the lower end, its plate 1/4 in behind the
    # head of a tile of 17 in, screws 1-1/4 and 4-3/4 in from there.
    assert [box.center[0] for box in points_of_lags(shorter)] == pytest.approx([18.5, 22.0])
    assert "1'-2\"" in figures(example())
    assert "1'-1\"" in figures(shorter)
    assert "1'-2\"" not in figures(shorter)


def test_the_loads_are_the_worst_of_all_arrays_on_the_attachment_drawn() -> None:
    hooks = Path(__file__).parents[1] / "design" / "cross-gable-hooks.yaml"
    of = made_of(hooks, "24x36")  # the worst of its three arrays is not the first
    loads = of.design.loads.attachments
    worst = max(load.uplift_lb for load in loads)
    first = max(load.uplift_lb for load in loads if load.array == of.design.mounted[0].id)
    assert worst > first + 1
    lines = of.lines(SHEET)
    assert lines.count(f"{worst:.0f}") == 3  # its zone's row, over the connector, over the lags
    assert {load.zone for load in loads} <= set(lines)


def test_screws_under_pull_and_shear_at_once_stand_with_the_worst() -> None:
    made = own_sheet("shingle-hip")
    # Of all that holds an attachment their ratio is the highest, so it must not stand elsewhere.
    worst = max(use.ratio or 0.0 for loads in made.design.loads.arrays for use in loads.lags)
    lines = made.lines(SHEET)
    row = lines.index("LAG SCREWS,", lines.index("LAG SCREWS,") + 1)
    assert f"{worst:.2f}" in lines[row : row + 6]
    assert "NDS 2024 12.4.1" in lines[row : row + 7]
