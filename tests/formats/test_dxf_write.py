"""The DXF file says what the pages say, and no reader tried drops any of it."""

from __future__ import annotations

import shutil
import subprocess
from collections import Counter
from pathlib import Path

import pytest
from dxf_checks import everything, in_model, only_text
from ezdxf.document import Drawing
from hash_seeds import digests
from pages import DETAIL_VIEW, DRAWING, PLAN_VIEW

from planset.drawing.primitives import Text
from planset.formats.block_order import dependency_order
from planset.formats.regions import view_regions


def test_is_sound(doc: Drawing) -> None:
    auditor = doc.audit()
    assert (auditor.errors, auditor.fixes) == ([], [])
    assert doc.acad_release == "R2013"


def test_no_entity_that_a_reader_drops(doc: Drawing) -> None:
    kinds = {entity.dxftype() for entity in everything(doc)}
    assert kinds == {
        "ATTDEF",
        "ATTRIB",
        "CIRCLE",
        "DIMENSION",
        "HATCH",
        "INSERT",
        "LINE",
        "LWPOLYLINE",
        "POINT",
        "SOLID",
        "TEXT",
        "VIEWPORT",
    }


def test_the_same_bytes_under_any_hash_seed(tmp_path: Path) -> None:
    script = "from planset.formats.dxf_write import write_dxf; write_dxf(DRAWING, out)"
    assert len(digests(script, tmp_path, ("0", "1", "2"))) == 1


def test_blocks_are_defined_after_those_they_insert(doc: Drawing) -> None:
    names = [block.name for block in doc.blocks if not block.name.startswith("*")]
    assert names.index("MODULE-44X69") < names.index("ARRAY-1") < names.index("ROOF")
    assert set(names) == set(DRAWING.blocks)
    assert [block.name for block in dependency_order(DRAWING.blocks)] == names


def test_things_are_counted_over_all_definitions(doc: Drawing) -> None:
    counts = Counter(e.dxf.name for e in everything(doc) if e.dxftype() == "INSERT")
    assert counts == {
        "MODULE-44X69": 7,  # six in the array, one on its own
        "FOOT": 5,  # four in the array, one in the detail
        "ARRAY-1": 1,
        "ROOF": 1,
        "BORDER-11X17": 2,
    }


def test_attribute_definitions(doc: Drawing) -> None:
    definitions = {a.dxf.tag: a for a in doc.blocks["BORDER-11X17"].attdefs()}
    assert set(definitions) == {"SHEET_NUMBER", "PROJECT"}
    assert definitions["PROJECT"].is_invisible
    field = definitions["SHEET_NUMBER"]  # shows where the title block keeps its place
    assert (field.is_invisible, field.dxf.height) == (False, 0.25)
    assert field.get_placement()[1].isclose((15.25, 0.7))
    assert all(a.is_invisible for a in doc.blocks["MODULE-44X69"].attdefs())


def test_a_constant_stands_once_with_its_block(doc: Drawing) -> None:
    module = doc.blocks["MODULE-44X69"]
    (constant,) = [a for a in module.attdefs() if a.is_const]
    assert (constant.dxf.tag, constant.dxf.text, constant.is_invisible) == (
        *("MODEL", "SAMPLE-300"),
        True,
    )
    inserts = doc.blocks["ARRAY-1"].query("INSERT[name=='MODULE-44X69']")
    assert all([a.dxf.tag for a in i.attribs] == ["ID", "STRING"] for i in inserts)


def test_a_layout_per_sheet_in_order(doc: Drawing) -> None:
    assert doc.layouts.names_in_taborder() == ["Model", "A-101", "S-501"]


def test_the_origin_is_the_corner_of_the_sheet(doc: Drawing) -> None:
    for sheet in ("A-101", "S-501"):
        layout = doc.paperspace(sheet)
        assert layout.get_paper_limits() == ((0, 0), (17, 11))
        assert (layout.dxf.paper_width, layout.dxf.paper_height) == pytest.approx((431.8, 279.4))
        assert layout.dxf.plot_paper_units == 0  # inches


def test_viewports_show_the_views_at_scale(doc: Drawing) -> None:
    _, plan, detail = doc.paperspace("A-101").viewports()
    for viewport, view in ((plan, PLAN_VIEW), (detail, DETAIL_VIEW)):
        assert viewport.get_scale() == pytest.approx(1 / view.scale.factor)
        assert viewport.dxf.flags & 16384  # locked
        assert viewport.dxf.layer == "G-ANNO-NPLT"
        assert (viewport.dxf.width, viewport.dxf.height) == (view.frame.width, view.frame.height)
        assert viewport.dxf.center.isclose(view.frame.center)
    assert len(doc.paperspace("S-501").viewports()) == 1


@pytest.mark.parametrize("words", ["MODULE, TYPICAL", "EAVE"])
def test_annotation_shows_through_the_viewport_where_the_page_says(
    doc: Drawing, words: str
) -> None:
    viewport = doc.paperspace("A-101").viewports()[1]
    on_paper = only_text(doc, words).get_placement()[1] - viewport.dxf.view_center_point
    on_paper = on_paper * viewport.get_scale() + viewport.dxf.center
    (expected,) = [p.at for p in PLAN_VIEW.annotation if isinstance(p, Text) and p.text == words]
    assert (on_paper.x, on_paper.y) == pytest.approx(expected)


def test_the_roof_shows_through_the_viewport_where_the_page_says(doc: Drawing) -> None:
    viewport = doc.paperspace("A-101").viewports()[1]
    (roof,) = in_model(doc, 'INSERT[name=="ROOF"]')
    on_paper = roof.dxf.insert - viewport.dxf.view_center_point
    on_paper = on_paper * viewport.get_scale() + viewport.dxf.center
    assert (on_paper.x, on_paper.y) == pytest.approx(PLAN_VIEW.on_paper.apply((0, 0)))


def test_the_model_opens_on_all_views(doc: Drawing) -> None:
    model = doc.modelspace()
    boxes = [region.box for row in view_regions(DRAWING) for region in row]
    assert model.dxf.extmin.x == min(box.x0 for box in boxes)
    assert model.dxf.extmax.y == max(box.y1 for box in boxes)


@pytest.mark.readers
def test_a_gis_reader_drops_nothing(dxf_path: Path) -> None:
    program = shutil.which("ogrinfo")
    assert program, "install gdal-bin"
    command = [program, "-ro", "-al", "--config", "DXF_INCLUDE_RAW_CODE_VALUES", "TRUE"]
    inline = ["--config", "DXF_INLINE_BLOCKS", "FALSE"]
    for options in ([], inline):
        done = subprocess.run(
            [*command, *options, str(dxf_path)], capture_output=True, text=True, check=True
        )
        assert "ERROR" not in done.stdout + done.stderr
        assert done.stdout.count("OGRFeature") > 20
