"""FreeCAD shows every line, insertion and text of a sheet; what it loses is told in README."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from planset.design.design import Design
from planset.drawing.dimension import dimension, leader
from planset.drawing.page import DrawingSet
from planset.drawing.primitives import Area, Block, Insert, Line, Text
from tests.readers import dxf_content
from tests.readers.programs import freecad_objects
from tests.readers.samples import FACTOR, PANELS, sheet, sheet_dxf

pytestmark = pytest.mark.readers

MM = 25.4  # per inch
PANEL_EDGES = 4 * len(PANELS.primitives)

Objects = list[dict[str, Any]]


def edges(objects: Objects) -> int:
    return sum(item.get("edges", 0) for item in objects)


def texts(objects: Objects) -> Counter[str]:
    return Counter(item["text"] for item in objects if "text" in item)


def distances(objects: Objects) -> list[float]:
    return sorted(item["distance"] for item in objects if "distance" in item)


@pytest.fixture(scope="module")
def sheets(folder: Path, drawing: DrawingSet) -> dict[str, tuple[Any, Objects]]:
    """Per sheet its own file, as written and as FreeCAD reads it."""
    paths = {page.sheet: folder / f"{page.sheet}.dxf" for page in drawing.pages}
    return {name: (dxf_content.read(path), freecad_objects(path)) for name, path in paths.items()}


def test_every_line_of_a_sheet(sheets: dict[str, tuple[Any, Objects]]) -> None:
    for doc, objects in sheets.values():
        assert edges(objects) == dxf_content.edges(doc, doc.modelspace())
        assert edges(objects) > 20


def test_every_text_of_a_sheet_that_is_in_no_block(
    sheets: dict[str, tuple[Any, Objects]],
) -> None:
    for doc, objects in sheets.values():
        assert texts(objects) == dxf_content.texts(doc.modelspace())


def test_every_dimension_of_a_sheet_by_its_length(
    sheets: dict[str, tuple[Any, Objects]],
) -> None:
    for doc, objects in sheets.values():
        measured = [d.get_measurement() * MM for d in doc.modelspace().query("DIMENSION")]
        assert distances(objects) == pytest.approx(sorted(measured))
    assert distances(sheets["A-101"][1])


def test_the_roof_and_the_modules_at_true_size(
    design: Design, sheets: dict[str, tuple[Any, Objects]]
) -> None:
    objects = sheets["A-101"][1]
    roof = design.inputs.job.roof
    size = [roof.ridge_length * MM, roof.depth * MM]
    assert [item["size"] for item in objects if item.get("size") == pytest.approx(size)]
    arrays = [len(array.modules) * 4 for array in design.arrays]  # outlines of four edges
    compounds = Counter(item["edges"] for item in objects if item.get("shape") == "Compound")
    assert Counter(arrays) <= compounds


def test_of_the_set_the_model_and_the_first_layout_without_its_title_block(folder: Path) -> None:
    path = folder / "planset.dxf"
    doc, objects = dxf_content.read(path), freecad_objects(path)
    first = doc.paperspace(doc.layouts.names_in_taborder()[1])
    shown = [*doc.modelspace(), *first.query("* !INSERT")]
    assert edges(objects) == dxf_content.edges(doc, shown)
    assert texts(objects) == dxf_content.texts(shown)


def test_nested_insertions_all_show_but_not_their_values(tmp_path: Path) -> None:
    drawing = sheet(model=(Insert("PANELS", (100, 100), "E-SOLR-PANL"),))
    (compound,) = freecad_objects(sheet_dxf(drawing, tmp_path))
    assert (compound["shape"], compound["edges"]) == ("Compound", PANEL_EDGES)
    assert compound["size"] == pytest.approx([(4 * 45 + 44) * MM, 69 * MM])


def test_nested_insertions_are_lost_when_their_values_end_on_layer_0(tmp_path: Path) -> None:
    """Why `dxf_shapes` puts the end of the values on another layer."""
    path = sheet_dxf(sheet(model=(Insert("PANELS", (100, 100), "E-SOLR-PANL"),)), tmp_path)
    doc = dxf_content.read(path)
    inserts: list[Any] = list(doc.blocks["PANELS"].query("INSERT"))
    for insert in inserts:
        insert.seqend.dxf.layer = "0"
    doc.saveas(path)
    assert edges(freecad_objects(path)) < PANEL_EDGES


def test_a_dimension_is_a_length_without_our_figure(tmp_path: Path) -> None:
    drawn = dimension((2, 2), (6, 2), -0.5, "A-ANNO-DIMS", FACTOR, suffix="CLEAR")
    (item,) = freecad_objects(sheet_dxf(sheet(drawn), tmp_path))
    assert item["distance"] == pytest.approx(4 * FACTOR * MM)
    assert "edges" not in item
    assert "text" not in item


@pytest.mark.parametrize("end", ["arrow", "dot"])  # a SOLID, a HATCH with its POINT
def test_of_a_leader_its_line_shows_and_what_follows(end: str, tmp_path: Path) -> None:
    drawn = leader(((2, 2), (4, 4)), "A-ANNO-NOTE", end=end)
    next_line = Line((5, 2), (6, 2), "A-ANNO-TEXT")
    assert edges(freecad_objects(sheet_dxf(sheet(drawn, next_line), tmp_path))) == 2


def test_a_filled_area_is_missing(tmp_path: Path) -> None:
    area = Area(((2, 2), (3, 2), (3, 3), (2, 3)), "A-ANNO-NOTE")
    assert freecad_objects(sheet_dxf(sheet(area), tmp_path)) == []


def test_a_text_in_a_block_is_missing(tmp_path: Path) -> None:
    letter = Text("M", (0, 0), 2.0, "0", "middle")
    meter = Block("METER", (Line((0, 0), (9, 0), "0"), letter))
    tag = Text("M07", (2, 2), 0.1, "E-SOLR-IDEN")
    drawing = sheet(tag, model=(Insert("METER", (100, 100), "E-DIAG-SYMB"),), blocks=(meter,))
    objects = freecad_objects(sheet_dxf(drawing, tmp_path))
    assert texts(objects) == {"M07": 1}
    assert edges(objects) == 1
