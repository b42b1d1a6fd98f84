"""A viewer's measuring tool reads feet and inches off a view, by the view's own scale."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest
from measuring import measured
from pages import DRAWING, NOTES_PAGE, PLAN_PAGE
from pdf_checks import marks
from pypdf import PageObject, PdfReader

from planset.drawing.geometry import Box
from planset.drawing.page import DETAIL_SCALES, KEY_PLAN_SCALES, NOT_TO_SCALE, Scale, View
from planset.drawing.primitives import Line
from planset.formats.pdf_write import write_pdf

EDGE = "A-ROOF-OTLN"


def view(number: int, scale: Scale, at: tuple[float, float], *lines: Line) -> View:
    """A view 3 by 2 in on paper, whose origin lies in its middle."""
    wide, high = 1.5 * scale.factor, scale.factor
    window = Box(-wide, -high, wide, high)
    return View(number, f"VIEW {number}", scale, window, at, lines, ())


def written(tmp_path: Path, *views: View) -> tuple[PageObject, PdfReader]:
    page = dataclasses.replace(PLAN_PAGE, views=views, paper=())
    write_pdf(dataclasses.replace(DRAWING, pages=(page,)), tmp_path / "one.pdf")
    reader = PdfReader(tmp_path / "one.pdf")
    return reader.pages[0], reader


@pytest.mark.parametrize("scale", [*KEY_PLAN_SCALES, *DETAIL_SCALES], ids=lambda s: s.label)
def test_a_line_is_read_as_long_as_it_is(scale: Scale, tmp_path: Path) -> None:
    long = 2.3 * scale.factor
    line = Line((-long / 2, 0.3 * scale.factor), (long / 2, 0.3 * scale.factor), EDGE)
    page, reader = written(tmp_path, view(1, scale, (2.0, 3.0), line))
    (mark,) = marks(page, reader)
    reading = measured(page, *mark.points)
    assert reading is not None
    assert reading.inches == pytest.approx(long, rel=1e-5)


def test_feet_and_inches_are_shown() -> None:
    """Drafting reference C.6: at 1/8 in to the foot, 108.375 pt are 12 ft 0 1/2 in."""
    scale = next(scale for scale in KEY_PLAN_SCALES if scale.factor == 96)
    dictionary = {"/VP": [as_read(scale)]}
    reading = measured(dictionary, (0, 0), (108.375, 0))
    assert reading is not None
    assert reading.words == "12 ft 8/16 in"


def as_read(scale: Scale) -> dict[str, object]:
    from tempfile import TemporaryDirectory

    with TemporaryDirectory() as folder:
        page, _ = written(Path(folder), view(1, scale, (0.0, 0.0)))
        viewports: list[dict[str, object]] = page["/VP"].get_object()  # type: ignore[assignment]
    return viewports[0]


def test_each_view_has_its_own(tmp_path: Path) -> None:
    plan, detail = KEY_PLAN_SCALES[3], DETAIL_SCALES[1]
    line = Line((-6, 0), (6, 0), EDGE)
    page, reader = written(
        tmp_path, view(1, plan, (1.0, 2.0), line), view(2, detail, (6.0, 2.0), line)
    )
    readings = [measured(page, *mark.points) for mark in marks(page, reader)]
    assert [reading and round(reading.inches, 4) for reading in readings] == [12, 12]
    names = [(v["/Name"], v["/Measure"]["/R"]) for v in page["/VP"]]  # type: ignore[union-attr]
    assert names == [("VIEW 1", plan.label), ("VIEW 2", detail.label)]
    assert measured(page, (20, 20), (90, 20)) is None


def test_a_square_foot_is_read(tmp_path: Path) -> None:
    page, _ = written(tmp_path, view(1, KEY_PLAN_SCALES[4], (1.0, 2.0)))
    measure = page["/VP"][0]["/Measure"]  # type: ignore[index]
    (area,) = measure["/A"]
    feet = float(measure["/X"][0]["/C"]) * 360, float(measure["/X"][0]["/C"]) * 216
    assert area["/U"] == "sq ft"
    assert feet[0] * feet[1] * float(area["/C"]) == pytest.approx(960, rel=1e-5)


def test_what_has_no_scale_has_no_measure(tmp_path: Path) -> None:
    page, _ = written(tmp_path, view(1, NOT_TO_SCALE, (1.0, 2.0)))
    assert "/VP" not in page
    page, _ = written(tmp_path)
    assert "/VP" not in page
    assert NOTES_PAGE.views == ()
