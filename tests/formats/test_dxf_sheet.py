"""A sheet's own DXF file: model space, plotted at 1:F, is the page; the objects keep their ids."""

from __future__ import annotations

import dataclasses
from pathlib import Path
from typing import Any

import ezdxf
import pytest
from dxf_checks import everything, in_model, of_kind, only_text
from ezdxf.document import Drawing
from hash_seeds import digests
from pages import DETAIL_VIEW, DRAWING, NOTES_PAGE, PLAN_PAGE, PLAN_VIEW, SLOPE_DIMENSION

from planset.drawing.geometry import Box, Placement, Point
from planset.drawing.page import NOT_TO_SCALE, Page
from planset.drawing.primitives import Attribute, Block, Insert, Text
from planset.formats.dxf_sheet import sheet_factor, sheet_placement, write_sheet_dxf

FACTOR = 64  # of the plan, the larger of the two views
APPID = "PLANSET"


def written(page: Page, path: Path) -> Drawing:
    write_sheet_dxf(DRAWING, page, path)
    return ezdxf.readfile(path)  # type: ignore[attr-defined]


@pytest.fixture(scope="module")
def sheet(tmp_path_factory: pytest.TempPathFactory) -> Drawing:
    return written(PLAN_PAGE, tmp_path_factory.mktemp("sheet") / "A-101.dxf")


def limits(doc: Drawing) -> Box:
    low, high = doc.modelspace().dxf.limmin, doc.modelspace().dxf.limmax
    return Box(low[0], low[1], high[0], high[1])


def on_paper(doc: Drawing, point: Any) -> Point:
    """A point of model space on the sheet plotted at 1:F, from its lower left corner [in]."""
    box = limits(doc)
    return ((point[0] - box.x0) / FACTOR, (point[1] - box.y0) / FACTOR)


def test_is_sound(sheet: Drawing) -> None:
    auditor = sheet.audit()
    assert (auditor.errors, auditor.fixes) == ([], [])
    assert sheet.acad_release == "R2013"


def test_everything_is_in_model_space(sheet: Drawing) -> None:
    assert [len(layout) for layout in sheet.layouts if layout.name != "Model"] == [0]


def test_the_main_view_is_at_true_size_on_even_coordinates(sheet: Drawing) -> None:
    (roof,) = in_model(sheet, 'INSERT[name=="ROOF"]')
    assert (roof.dxf.xscale, roof.dxf.yscale) == (1, 1)
    assert (roof.dxf.insert.x % 120, roof.dxf.insert.y % 120) == (0, 0)


def test_the_sheet_lies_clear_of_the_origin(sheet: Drawing) -> None:
    box = limits(sheet)
    assert min(box.x0, box.y0) >= 1200
    assert (box.width, box.height) == pytest.approx((17 * FACTOR, 11 * FACTOR))


@pytest.mark.parametrize(("block", "view"), [("ROOF", PLAN_VIEW), ("FOOT", DETAIL_VIEW)])
def test_plotted_it_shows_the_views_where_the_page_does(
    sheet: Drawing, block: str, view: Any
) -> None:
    (insert,) = in_model(sheet, f'INSERT[name=="{block}"]')
    assert on_paper(sheet, insert.dxf.insert) == pytest.approx(view.on_paper.apply((0, 0)))
    assert insert.dxf.xscale / FACTOR == pytest.approx(1 / view.scale.factor)


def page_texts(page: Page) -> list[Text]:
    parts = [*page.paper, *(part for view in page.views for part in view.annotation)]
    return [part for part in parts if isinstance(part, Text)]


@pytest.mark.parametrize("text", page_texts(PLAN_PAGE), ids=lambda text: text.text)
def test_plotted_it_shows_the_texts_where_the_page_does(sheet: Drawing, text: Text) -> None:
    found = only_text(sheet, text.text)
    assert on_paper(sheet, found.get_placement()[1]) == pytest.approx(text.at)
    assert found.dxf.height / FACTOR == pytest.approx(text.height)


def test_the_title_block_is_lines_and_plain_texts(sheet: Drawing) -> None:
    assert "BORDER-11X17" not in sheet.blocks
    label, number = only_text(sheet, "SHEET"), only_text(sheet, "A-101")
    assert on_paper(sheet, label.dxf.insert) == pytest.approx((14.1, 1.2))
    assert on_paper(sheet, number.get_placement()[1]) == pytest.approx((15.25, 0.7))
    border = {entity.dxftype() for entity in in_model(sheet, '*[layer ? "G-ANNO-TTLB.*"]')}
    assert border == {"LWPOLYLINE", "LINE", "TEXT"}


def test_no_attribute_shows(sheet: Drawing) -> None:
    shown = [
        entity
        for entity in everything(sheet)
        if entity.dxftype() in ("ATTRIB", "ATTDEF") and not entity.is_invisible
    ]
    assert shown == []


def test_an_attribute_that_shows_inside_a_block_is_plain_text_there(tmp_path: Path) -> None:
    shown = Attribute("TAG", "F1", Text("F1", (1, 1), 2.0, "E-SOLR-IDEN"))
    hidden = Attribute("ID", "F-01")
    foot = dataclasses.replace(DRAWING.blocks["FOOT"], attribute_tags=("TAG", "ID"))
    feet = Block("FEET", (Insert("FOOT", (0, 0), "0", attributes=(shown, hidden)),))
    view = dataclasses.replace(PLAN_VIEW, model=(Insert("FEET", (0, 0), "S-ROOF-ANCH"),))
    drawing = dataclasses.replace(DRAWING, blocks={**DRAWING.blocks, "FOOT": foot, "FEET": feet})
    write_sheet_dxf(drawing, dataclasses.replace(PLAN_PAGE, views=(view,)), tmp_path / "a.dxf")
    doc = ezdxf.readfile(tmp_path / "a.dxf")  # type: ignore[attr-defined]
    (insert,), (text,) = of_kind(doc.blocks["FEET"], "INSERT"), of_kind(doc.blocks["FEET"], "TEXT")
    assert [(a.dxf.tag, a.dxf.text) for a in insert.attribs] == [("ID", "F-01")]
    assert (text.dxf.text, text.dxf.insert) == ("F1", (1, 1, 0))


def identities(doc: Drawing) -> list[str]:
    inserts = [entity for entity in everything(doc) if entity.dxftype() == "INSERT"]
    return sorted(e.get_xdata(APPID)[1].value for e in inserts if e.has_xdata(APPID))


def test_objects_keep_their_identity(sheet: Drawing, doc: Drawing) -> None:
    assert identities(sheet) == identities(doc)
    assert len(set(identities(sheet))) == 11  # six modules, four attachments, one in the detail
    modules = of_kind(sheet.blocks["ARRAY-1"], 'INSERT[name=="MODULE-44X69"]')
    assert {m.get_attrib_text("ID") for m in modules} == {
        f"M{row}{column}" for row in range(2) for column in range(3)
    }


def test_only_the_blocks_it_shows_are_defined(sheet: Drawing, tmp_path: Path) -> None:
    names = {block.name for block in sheet.blocks if not block.name.startswith("*")}
    assert names == {"ROOF", "ARRAY-1", "MODULE-44X69", "FOOT"}
    notes = written(NOTES_PAGE, tmp_path / "S-501.dxf")
    assert not any(block for block in notes.blocks if not block.name.startswith("*"))


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("$INSUNITS", 1),  # inches
        ("$LTSCALE", 64.0),  # a dash plotted at 1:F is as long as on the page
        ("$DIMSCALE", 64.0),
        ("$DIMLFAC", 1.0),
        ("$DIMTXT", 0.096),
        ("$DIMSTYLE", "PLANSET-64"),
        ("$PLIMMIN", (0, 0)),
        ("$PLIMMAX", (17, 11)),  # the paper
        ("$PSVPSCALE", 1 / 64),
    ],
)
def test_header(sheet: Drawing, name: str, value: object) -> None:
    assert sheet.header[name] == value


def test_the_header_says_where_on_the_paper_the_origin_lies(sheet: Drawing) -> None:
    x, y = on_paper(sheet, (0, 0))
    assert sheet.header["$PINSBASE"] == pytest.approx((x, y, 0))


def test_model_space_is_set_up_to_plot_the_sheet(sheet: Drawing) -> None:
    plot = sheet.modelspace().dxf
    assert plot.plot_type == 2  # limits
    assert (plot.scale_numerator, plot.scale_denominator) == (1, FACTOR)
    assert (plot.paper_width, plot.paper_height) == pytest.approx((17 * 25.4, 11 * 25.4))
    assert plot.plot_paper_units == 0  # inches
    assert not plot.plot_layout_flags & 16  # the scale above, no standard one
    assert plot.plot_layout_flags & 1024  # model space


def test_a_dimension_of_another_view_measures_its_true_length(tmp_path: Path) -> None:
    (a, b) = (10.0, 4.0), (11.5, 4.0)  # 1.5 in on paper at 1:4: 6 in
    at_detail = dataclasses.replace(SLOPE_DIMENSION, a=a, b=b, slope_factor=1.0)
    detail = dataclasses.replace(DETAIL_VIEW, annotation=(at_detail,))
    page = dataclasses.replace(PLAN_PAGE, views=(PLAN_VIEW, detail))
    doc = written(page, tmp_path / "a.dxf")
    (found,) = in_model(doc, 'DIMENSION[dimstyle=="PLANSET-64-X0.0625"]')
    style = doc.dimstyles.get("PLANSET-64-X0.0625")
    assert (style.dxf.dimscale, style.dxf.dimtxt) == (64, 0.096)  # as large as those of the plan
    assert found.get_measurement() * style.dxf.dimlfac == pytest.approx(6)
    assert found.dxf.actual_measurement == pytest.approx(6)
    assert doc.header["$DIMSTYLE"] == "PLANSET-64"


def test_a_sheet_without_views_is_as_large_as_its_paper(tmp_path: Path) -> None:
    doc = written(NOTES_PAGE, tmp_path / "S-501.dxf")
    assert limits(doc) == Box(1200, 1200, 1217, 1211)
    assert only_text(doc, "CENTERED").dxf.height == 0.2


def test_the_main_view_is_the_largest_to_scale() -> None:
    diagram = dataclasses.replace(PLAN_VIEW, scale=NOT_TO_SCALE, window=Box(0, 0, 9, 8))
    assert sheet_factor(PLAN_PAGE) == 64
    assert sheet_factor(dataclasses.replace(PLAN_PAGE, views=(diagram, DETAIL_VIEW))) == 4
    assert sheet_factor(dataclasses.replace(PLAN_PAGE, views=(diagram,))) == 1
    assert sheet_factor(NOTES_PAGE) == 1
    assert sheet_placement(NOTES_PAGE) == Placement((1200, 1200))


def test_the_same_bytes_under_any_hash_seed(tmp_path: Path) -> None:
    script = (
        "from planset.formats.dxf_sheet import write_sheet_dxf; "
        "write_sheet_dxf(DRAWING, DRAWING.pages[0], out)"
    )
    assert len(digests(script, tmp_path, ("0", "1", "2"))) == 1
