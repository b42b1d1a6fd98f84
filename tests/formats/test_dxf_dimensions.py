"""Which figures a CAD program may format by the style, and how running ones are drawn anew."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest
from dxf_checks import figure, in_model
from ezdxf.filemanagement import readfile
from pages import DRAWING, PLAN_PAGE, PLAN_VIEW

from planset.drawing.dimension import dimension
from planset.drawing.page import DrawingSet
from planset.drawing.primitives import Dimension
from planset.drawing.running import running_dimensions
from planset.formats.dxf_dimensions import measured_text
from planset.formats.dxf_sheet import write_sheet_dxf
from planset.formats.dxf_write import write_dxf

LAYER = "A-ANNO-DIMS"


@pytest.mark.parametrize(
    ("length", "options", "text"),
    [
        (60.0, {}, "<>"),
        (60.02, {}, "<>"),  # 5'-0" to 1/2 and to 1/16 in
        (60.1, {}, "5'-0\""),  # to 1/16 in 5'-0 1/8"
        (60.1, {"denominator": 16}, "<>"),
        (60.4, {"rounding": "down", "suffix": "CLEAR"}, "5'-0\" CLEAR"),
        (60.5, {"rounding": "down", "suffix": "CLEAR"}, "<> CLEAR"),
        (60.03125, {"denominator": 16}, "5'-0 1/16\""),  # halfway: another may round it down
        (60.0, {"slope_factor": 1.0833, "suffix": "MIN."}, "5'-5\" ON SLOPE MIN."),
    ],
)
def test_a_figure_is_measured_where_the_style_says_the_same(
    length: float, options: dict[str, object], text: str
) -> None:
    part = dimension((0, 0), (length, 0), 1, LAYER, 1.0, **options)  # type: ignore[arg-type]
    assert measured_text(part, length) == text


def with_annotation(*parts: Dimension) -> DrawingSet:
    view = dataclasses.replace(PLAN_VIEW, annotation=parts)
    return dataclasses.replace(DRAWING, pages=(dataclasses.replace(PLAN_PAGE, views=(view,)),))


RUNNING = with_annotation(
    *running_dimensions((2, 2), [(2.2, 2), (2.3, 2)], 0.5, LAYER, 64),  # figures turned
    *running_dimensions((2, 2), [(2, 4), (2, 4.1)], 0.5, LAYER, 64),  # up, figures level
)


def test_running_dimensions_have_a_style_of_their_own(tmp_path: Path) -> None:
    write_dxf(RUNNING, tmp_path / "a.dxf")
    doc = readfile(tmp_path / "a.dxf")
    found = in_model(doc, "DIMENSION")
    assert {d.dxf.dimstyle for d in found} == {"PLANSET-64-RUN"}
    style = doc.dimstyles.get("PLANSET-64-RUN")
    assert (style.dxf.dimblk1, style.dxf.dimblk2) == ("DATUM", "")
    assert (style.dxf.dimsah, style.dxf.dimtsz, style.dxf.dimtih, style.dxf.dimtoh) == (1, 0, 1, 1)
    assert [d.dxf.get("text_rotation", 0) for d in found] == [90, 90, 0, 0]
    assert [round(d.dxf.angle) for d in found] == [0, 0, 90, 90]
    assert {d.dxf.text for d in found} == {"<>"}


def test_one_style_for_all_has_no_say_in_figures(tmp_path: Path) -> None:
    """Readers that know one style would multiply lengths of every view by its factor."""
    write_sheet_dxf(RUNNING, RUNNING.pages[0], tmp_path / "a.dxf")
    found = in_model(readfile(tmp_path / "a.dxf"), "DIMENSION")
    assert all(d.dxf.text == figure(d) for d in found)
    assert len(found) == 4
