"""Layouts ask for paper by a name that plot devices know."""

from __future__ import annotations

from pathlib import Path

import pytest
from ezdxf.document import Drawing
from ezdxf.filemanagement import readfile
from pages import DRAWING, PLAN_PAGE

from planset.formats.dxf_sheet import write_sheet_dxf
from planset.formats.paper_names import paper_name

TABLOID = "ANSI_full_bleed_B_(17.00_x_11.00_Inches)"  # from memory, as all of them


@pytest.mark.parametrize(
    ("size", "name"),
    [
        ((17.0, 11.0), TABLOID),
        ((36.0, 24.0), "ARCH_full_bleed_D_(36.00_x_24.00_Inches)"),
        ((24.0, 18.0), "ARCH_full_bleed_C_(24.00_x_18.00_Inches)"),
        ((33.1, 23.4), "sheet_(33.10_x_23.40_Inches)"),
    ],
)
def test_a_paper_has_its_name(size: tuple[float, float], name: str) -> None:
    assert paper_name(*size) == name


def test_every_layout_and_a_sheets_own_file_name_it(doc: Drawing, tmp_path: Path) -> None:
    names = doc.layout_names_in_taborder()[1:]
    assert {doc.paperspace(name).dxf.paper_size for name in names} == {TABLOID}
    write_sheet_dxf(DRAWING, PLAN_PAGE, tmp_path / "a.dxf")
    assert readfile(tmp_path / "a.dxf").modelspace().dxf.paper_size == TABLOID
