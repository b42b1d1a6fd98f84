"""Where posts stand among the courses of tile, worked by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from planset.design.design import build_design
from planset.design.post_courses import PostFit
from planset.job.load import read_job

CROSS_GABLE = Path(__file__).parents[2] / "examples" / "cross-gable" / "job.yaml"


def fits_of(text: str, folder: Path) -> dict[str, PostFit | None]:
    job = folder / "job.yaml"
    job.write_text(text, encoding="utf-8")
    return {one.id: one.post_fit for one in build_design(read_job(job)).mounts}


@pytest.fixture
def example(tmp_path: Path) -> str:
    text = CROSS_GABLE.read_text(encoding="utf-8")
    return text[: text.index("data_sheets:")]


def test_the_example_by_hand(example: str, tmp_path: Path) -> None:
    # Front noses at 13 + 14 n. Rails 8-5/16 in inside rows of 44.6 in that are 5/8 in apart, from
    # 24-1/4 in up: at 32.5625, 60.5375, 77.7875, 105.7625, 123.0125 and 150.9875 in; the flashings
    # reach 13 in.
    fit = fits_of(example, tmp_path)["A1"]
    assert fit is not None
    assert fit.least_lap_in == 3.0
    below = sorted({round(post.below_in, 4) for post in fit.posts}, reverse=True)
    noses = (41, 69, 83, 111, 125, 153)
    rails = (32.5625, 60.5375, 77.7875, 105.7625, 123.0125, 150.9875)
    by_hand = sorted((nose - v for nose, v in zip(noses, rails, strict=True)), reverse=True)
    assert below == pytest.approx(by_hand, abs=1e-4)
    assert {round(post.lap_in, 4) for post in fit.posts} == {round(13 - b, 4) for b in below}
    assert {post.on_batten_in for post in fit.posts} == {0.0}


@pytest.mark.parametrize(
    ("up", "below", "on_batten"),
    [
        # the batten lies 1-1/2 to 3 in above the nose at 27, the plate 2-1/2 in to either side
        ("19.6875 in", 13.0, 1.5),  # post at 28: all of the batten under 25-1/2 to 30-1/2
        ("15.4375 in", 3.25, 0.0),  # 23-3/4: to 26-1/4
        ("18.1875 in", 14.5, 0.5),  # at 26-1/2 it would cut the nose: to the next at 41; to 29
        ("23.1875 in", 9.5, 1.0),  # 31-1/2: from 29, the batten ends at 30
    ],
)
def test_a_plate_on_a_batten_by_hand(
    example: str, tmp_path: Path, up: str, below: float, on_batten: float
) -> None:
    row = "    rows: 3\n    columns: 3\n    corner: {along: 350 in, up: 24-1/4 in}"
    assert example.count(row) == 1
    text = example.replace(row, row.replace("24-1/4 in", up))
    fit = fits_of(text, tmp_path)["A1"]
    assert fit is not None
    first = fit.posts[0]
    assert first.below_in == pytest.approx(below)
    assert first.on_batten_in == pytest.approx(on_batten)


def test_courses_that_nobody_measured(example: str, tmp_path: Path) -> None:
    line = "      front: 13 in\n"
    assert example.count(line) == 1
    fits = fits_of(example.replace(line, ""), tmp_path)
    assert fits["A1"] is None
    assert fits["A2"] is not None


def test_without_battens_nothing_is_cut_out(example: str, tmp_path: Path) -> None:
    assert example.count("batten: 3/4 in") == 1
    text = example.replace("batten: 3/4 in", "batten: 0").replace("up: 24-1/4 in", "up: 20 in")
    fit = fits_of(text, tmp_path)["A1"]
    assert fit is not None
    assert not fit.battens
    assert {post.on_batten_in for post in fit.posts} == {0.0}
    assert fit.clear == fit.laps
