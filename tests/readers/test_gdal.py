"""GDAL reads every entity of every file, nested insertions with their values and ids included."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest

from planset.drawing.dimension import dimension, leader
from planset.drawing.layers import LAYERS, LINETYPES
from planset.drawing.primitives import Insert, Line, Text
from tests.readers import dxf_content
from tests.readers.programs import Feature, block_references, gdal_features
from tests.readers.samples import FACTOR, sheet, sheet_dxf

pytestmark = pytest.mark.readers


@pytest.fixture(scope="module")
def files(folder: Path) -> list[Path]:
    return sorted(folder.glob("*.dxf"))


def texts(features: list[Feature]) -> Counter[str]:
    return Counter(f.fields["Text"] for f in features if "Text" in f.fields)


def test_there_is_a_file_for_the_set_and_for_each_sheet(files: list[Path]) -> None:
    names = {"planset.dxf", "A-101.dxf", "E-101.dxf", "E-101.1.dxf", "E-601.dxf", "E-602.dxf"}
    assert names | {"E-701.dxf", "E-701.1.dxf"} <= {path.name for path in files}


def test_each_layout_of_the_set_holds_what_we_write(folder: Path) -> None:
    """Insertions and texts by layer, figures of dimensions among them.

    The file has the first layout together with model space.
    """
    doc = dxf_content.read(folder / "planset.dxf")
    features = [feature.fields for feature in gdal_features(folder / "planset.dxf")]
    first, *others = (doc.paperspace(name) for name in doc.layouts.names_in_taborder()[1:])
    assert {"E-101", "E-101.1", "E-602", "E-701.1"} <= {layout.name for layout in others}
    together = ([doc.modelspace(), first], None)
    for spaces, block in (together, *(([one], one.block_record_name) for one in others)):
        there = [fields for fields in features if fields.get("Block") == block]
        for kind, class_ in (("INSERT", "AcDbBlockReference"), ("TEXT DIMENSION", "AcDbText")):
            written = Counter(e.dxf.layer for space in spaces for e in space.query(kind))
            read = Counter(f["Layer"] for f in there if class_ in f.get("SubClasses", ""))
            assert read == written
            assert written


def test_all_insertions_are_read(files: list[Path]) -> None:
    for path in files:
        assert block_references(gdal_features(path)) == dxf_content.block_references(
            dxf_content.read(path)
        )


def test_all_ids_are_read(files: list[Path]) -> None:
    for path in files:
        raw = [f.fields.get("RawCodeValues", "") for f in gdal_features(path)]
        found = Counter(re.findall(r"1001 PLANSET,1000 id,1000 ([^,)]+)", " ".join(raw)))
        assert found == dxf_content.identities(dxf_content.read(path))
        if path.name in ("planset.dxf", "A-101.dxf"):
            assert found.total() >= 20 + 40  # modules and attachments of the example


def test_all_texts_are_read(files: list[Path]) -> None:
    for path in files:
        doc = dxf_content.read(path)
        entities = [entity for block in doc.blocks for entity in block]
        assert dxf_content.texts(entities) - texts(gdal_features(path)) == Counter()


def test_nested_insertions_keep_place_values_and_id(tmp_path: Path) -> None:
    drawing = sheet(model=(Insert("PANELS", (100, 100), "E-SOLR-PANL"),))
    panels = [
        f
        for f in gdal_features(sheet_dxf(drawing, tmp_path))
        if f.fields.get("BlockName") == "PANEL"
    ]
    assert [(f.fields["BlockAttributes"], f.geometry) for f in panels] == [
        (f"(1:ID M{n})", f"POINT Z ({45 * n} 0 0)") for n in range(5)
    ]
    assert all(f"1000 m{n}" in panel.fields["RawCodeValues"] for n, panel in enumerate(panels))


def test_a_value_alike_for_all_is_read_once_with_its_block_and_does_not_show(
    tmp_path: Path,
) -> None:
    drawing = sheet(model=(Insert("PANELS", (100, 100), "E-SOLR-PANL"),))
    path = sheet_dxf(drawing, tmp_path)
    read = [f.fields for f in gdal_features(path) if f.fields.get("AttributeTag") == "MODEL"]
    assert [(fields["Block"], fields["Text"]) for fields in read] == [("PANEL", "TR-402")]
    assert texts(gdal_features(path, inline_blocks=True)) == Counter()


def test_a_dimension_is_its_own_picture(tmp_path: Path) -> None:
    drawn = dimension((2, 2), (6, 2), -0.5, "A-ANNO-DIMS", FACTOR)
    features = gdal_features(sheet_dxf(sheet(drawn), tmp_path), inline_blocks=True)
    assert texts(features) == {drawn.text: 1}
    lines = [f for f in features if f.geometry.startswith("LINESTRING")]
    assert len(lines) == sum(isinstance(mark, Line) for mark in drawn.marks)


@pytest.mark.parametrize("end", ["arrow", "dot"])  # a SOLID, a HATCH
def test_what_is_filled_is_an_area(end: str, tmp_path: Path) -> None:
    drawn = leader(((2, 2), (4, 4)), "A-ANNO-NOTE", end=end)
    features = gdal_features(sheet_dxf(sheet(drawn), tmp_path))
    assert sum(f.geometry.startswith("POLYGON") for f in features) == 1


def test_pen_gray_and_dashes_come_from_the_layer(tmp_path: Path) -> None:
    layer = LAYERS["A-WALL-BELO"]
    (feature,) = gdal_features(sheet_dxf(sheet(Line((2, 2), (8, 2), layer.name)), tmp_path))
    drawn, skipped = (length * FACTOR for length in LINETYPES[layer.linetype])
    gray = f"{round(layer.gray * 255):02x}" * 3
    pen = f'PEN(c:#{gray},w:{layer.pen_mm}g,p:"{drawn:g}g {skipped:g}g")'
    assert feature.fields["Style"] == pen


def test_a_tag_is_plain_text_at_its_place(tmp_path: Path) -> None:
    (feature,) = gdal_features(sheet_dxf(sheet(Text("M07", (2, 2), 0.1, "E-SOLR-IDEN")), tmp_path))
    assert feature.fields["Text"] == "M07"
    assert feature.geometry.startswith("POINT")
