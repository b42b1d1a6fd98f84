"""A firm's own title block, named by its path: drawn with, or refused with all that is wrong."""

from __future__ import annotations

from pathlib import Path

import pytest
from ezdxf.document import Drawing
from ezdxf.filemanagement import new
from ezdxf.layouts.layout import Modelspace
from pypdf import PdfReader

from planset.errors import JobErrors
from planset.finding import Outcome
from planset.formats.dxf_read import REQUIRED_FIELDS
from planset.output.pdf_files import WHOLE
from planset.pipeline import Status, check, draw
from tests.example_job import edited

WIDTH, HEIGHT = 17.0, 11.0
AREAS = {
    "SHEET-EDGE": (0.0, 0.0, WIDTH, HEIGHT),
    "DRAWING-AREA": (3.6, 0.5, 16.5, 10.5),
    "SEAL-AREA": (0.5, 6.5, 3.4, 8.4),
    "APPROVAL-AREA": (0.5, 8.6, 3.4, 10.5),
}


def rectangle(space: Modelspace, layer: str, x0: float, y0: float, x1: float, y1: float) -> None:
    corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
    space.add_lwpolyline(corners, close=True, dxfattribs={"layer": layer})


def title_block(
    *,
    areas: dict[str, tuple[float, float, float, float]] = AREAS,
    without: tuple[str, ...] = (),
    unboxed: tuple[str, ...] = (),
) -> Drawing:
    """The least a firm can draw: a border, the areas, and a column of fields at the left.

    Args:
        areas: Corners by layer.
        without: Areas and fields to leave out.
        unboxed: Fields to leave without a box.
    """
    document = new("R2013", units=1)
    space = document.modelspace()
    rectangle(space, "G-ANNO-TTLB", 0.4, 0.4, 16.6, 10.6)
    space.add_line((3.5, 0.4), (3.5, 10.6))
    for layer, corners in areas.items():
        if layer not in without:
            rectangle(space, layer, *corners)
    for number, tag in enumerate(REQUIRED_FIELDS):
        y = 0.5 + 0.31 * number
        if tag not in without:
            attributes = {"layer": "G-ANNO-TTLB-TEXT", "height": 0.11}
            space.add_attdef(tag, (0.55, y + 0.1), dxfattribs=attributes)
        if tag not in unboxed:
            rectangle(space, "FIELD-AREA", 0.5, y, 3.4, y + 0.28)
    return document


def job_with(document: Drawing, folder: Path) -> Path:
    """The example beside a drawing of the firm, which it names by its path."""
    own = folder / "office" / "Sheet B.dxf"
    own.parent.mkdir()
    document.saveas(own)
    line = ("title_block: strip-11x17", "title_block: office/Sheet B.dxf")
    return edited(folder, line)


def test_a_set_is_drawn_with_it(tmp_path: Path) -> None:
    job = job_with(title_block(), tmp_path)
    checked = check(job)
    assert checked.drawing is not None
    assert [f.message for f in checked.findings if f.outcome is Outcome.FAIL] == []
    assert {page.titleblock for page in checked.drawing.for_review.pages} == {"Sheet B"}
    drawn = draw(job, tmp_path / "out")
    assert drawn.status is not Status.REFUSED
    pages = PdfReader(tmp_path / "out" / WHOLE).pages
    assert len(pages) == len(checked.drawing.for_review.pages) > 0
    for page, made in zip(pages, checked.drawing.for_review.pages, strict=True):
        assert (page.mediabox.width, page.mediabox.height) == (WIDTH * 72, HEIGHT * 72)
        assert made.sheet in page.extract_text()


def refused(document: Drawing, folder: Path) -> list[str]:
    """What `check` says, a line per problem, after the name of the drawing."""
    job = job_with(document, folder)
    with pytest.raises(JobErrors) as caught:
        check(job)
    assert caught.value.exit_code == 2
    start = f"{job.parent / 'office' / 'Sheet B.dxf'}: "
    lines = str(caught.value).splitlines()
    assert all(line.startswith(start) for line in lines)
    return [line.removeprefix(start) for line in lines]


def test_every_missing_area_and_field_box_is_named(tmp_path: Path) -> None:
    missing = ("DRAWING-AREA", "SEAL-AREA", "APPROVAL-AREA", "STATUS")
    document = title_block(without=missing, unboxed=("OWNER", "SCALE"))
    area = (
        "{0}: the layer holds 0 entities, expected one closed rectangle; "
        "draw one closed LWPOLYLINE with four square corners on layer {0}"
    )
    field = (
        "{0}: the field lies in 0 boxes, expected one; "
        "draw one closed rectangle on layer FIELD-AREA around its text"
    )
    assert refused(document, tmp_path) == [
        area.format("DRAWING-AREA"),
        area.format("SEAL-AREA"),
        area.format("APPROVAL-AREA"),
        field.format("OWNER"),
        field.format("SCALE"),
        "STATUS: the field is missing; add an attribute definition of that tag",
    ]


def test_every_entity_a_page_cannot_hold_is_named(tmp_path: Path) -> None:
    document = title_block()
    space = document.modelspace()
    space.add_spline([(1, 5), (2, 6), (3, 5)])
    space.add_hatch().set_pattern_fill("ANSI31")
    space.add_mtext("OFFICE")
    logo = document.add_image_def("logo.png", (8, 8))
    space.add_image(logo, (1, 5), (1, 1))
    space.new_entity("OLE2FRAME", {})
    space.add_line((1, 5), (2, 5), dxfattribs={"layer": "FRAME"})
    redraw = "redraw it as LINE, LWPOLYLINE, CIRCLE, ARC, TEXT, SOLID, HATCH, INSERT"
    assert refused(document, tmp_path) == [
        f"Sheet B: a page cannot hold SPLINE; {redraw}",
        "Sheet B: a page cannot hold HATCH with a pattern, a hole or a curved edge; "
        "draw its lines, or fill one straight-sided outline solid",
        f"Sheet B: a page cannot hold MTEXT; {redraw}",
        f"Sheet B: a page cannot hold IMAGE; {redraw}",
        f"Sheet B: a page cannot hold OLE2FRAME; {redraw}",
        'Sheet B: LINE is on the unknown layer "FRAME"; '
        'move it to layer "0" or to one of the drawing\'s own layers',
    ]


def test_one_that_is_too_small_for_the_sheets_is_told_where_to_mend(tmp_path: Path) -> None:
    document = title_block(areas=AREAS | {"DRAWING-AREA": (3.6, 0.5, 8.0, 4.0)})
    job = job_with(document, tmp_path)
    checked = check(job)
    assert checked.drawing is None
    (room,) = (f for f in checked.findings if f.rule == "drafting.room")
    assert room.outcome is Outcome.FAIL
    assert "use a larger title block" in room.message
    assert room.line is not None
    assert "office/Sheet B.dxf" in job.read_text(encoding="utf-8").splitlines()[room.line - 1]
