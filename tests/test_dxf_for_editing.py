"""What an engineer finds in the DXF of every example with every sheet, and keeps after an edit."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from itertools import combinations, pairwise
from pathlib import Path
from typing import Any

import pytest
import shapely
from ezdxf import bbox
from ezdxf.document import Drawing
from ezdxf.filemanagement import readfile
from ezdxf.math import BoundingBox2d, Vec2

from planset import pipeline
from planset.drawing.layers import LAYERS
from planset.drawing.running import DATUM_RADIUS
from planset.pipeline import Drawn, draw
from planset.units import format_feet_inches, parse_length
from tests.example_job import EXAMPLE, with_every_sheet
from tests.formats.dxf_checks import everything, figure

APPID = "PLANSET"
NAMES = ("tile-gable", "shingle-hip", "cross-gable", "battery-retrofit", "flat-commercial")
KINDS = {"LINE", "LWPOLYLINE", "CIRCLE", "SOLID", "HATCH", "POINT", "TEXT", "DIMENSION"}
KINDS |= {"INSERT", "ATTRIB", "ATTDEF", "VIEWPORT"}
"""Entities that all readers tried know; no proxy, no exploded dimension, no MTEXT, no leader."""

PRINTED_TO_IN = 1 / 2  # dimensions of walls, as of plans
LENGTH = re.compile(r"(?:\d+'-)?\d+(?: \d+/\d+)?\"")


@pytest.fixture(scope="module", params=NAMES)
def drawn(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Drawn:
    folder = tmp_path_factory.mktemp("set")
    job = with_every_sheet(folder, EXAMPLE.parents[1] / request.param / "job.yaml")
    return draw(job, folder / "out", preliminary=True)


@pytest.fixture(scope="module")
def dxf(drawn: Drawn) -> Drawing:
    return readfile(out_of(drawn) / "planset.dxf")


def out_of(drawn: Drawn) -> Path:
    assert drawn.written is not None
    return drawn.written.paths[0].parent


def insertions(doc: Drawing) -> Iterator[Any]:
    for block in doc.blocks:  # model space and the layouts are blocks too
        yield from block.query("INSERT")


def ids(doc: Drawing) -> list[str]:
    return [i.get_xdata(APPID)[1].value for i in insertions(doc) if i.has_xdata(APPID)]


def test_it_is_made_of_what_every_reader_knows(dxf: Drawing) -> None:
    assert {entity.dxftype() for entity in everything(dxf)} <= KINDS
    assert {entity.dxf.layer for entity in everything(dxf)} <= {"0", *LAYERS}


def test_every_value_has_its_place_in_the_block(dxf: Drawing) -> None:
    for insert in insertions(dxf):
        tags = {a.dxf.tag for a in dxf.blocks[insert.dxf.name].query("ATTDEF") if not a.is_const}
        assert {attribute.dxf.tag for attribute in insert.attribs} <= tags, insert.dxf.name


def drawn_by(doc: Drawing, insert: Any, layer: str) -> Iterator[tuple[str, str]]:
    """Block and layer of all that an insertion draws; what is on layer 0 takes the insertion's."""
    layer = layer if insert.dxf.layer == "0" else insert.dxf.layer
    for entity in doc.blocks[insert.dxf.name]:
        if entity.dxftype() == "INSERT":
            yield from drawn_by(doc, entity, layer)
        elif entity.dxftype() not in ("ATTDEF", "POINT"):
            yield insert.dxf.name, layer if entity.dxf.layer == "0" else entity.dxf.layer


def shown(doc: Drawing) -> Iterator[Any]:
    for layout in doc.layouts:
        yield from layout.query("INSERT")


ON_LAYERS = {
    "MODULE-A": r"E-SOLR-PANL(-REFR)?|S-ROOF-PANL",
    "RACKING-": "E-SOLR-RAIL",
    "ATTACHMENT-": "S-ROOF-ANCH",
    "PART-SPLICE": "S-ROOF-SPLC",
    "PART-TRIM-": "S-ROOF-TRIM",
    "PART-": "S-ROOF-(SPLC|HOLD)",
    "OBSTRUCTION-": "A-ROOF-OBST(-CLER)?",
    "FRAMING-": "S-ROOF-FRAM",
    "SEAMS-": "S-ROOF-SEAM",
    "ROOF-EDGES": "A-ROOF-OTLN|C-BLDG-OVHD",
    "ROOF-LINES": "A-ROOF-(RIDG|VLLY|WALL|PRPT)|A-WALL-FIRE",
    "WIND-ZONES-HATCH": "S-ROOF-ZONE-PATT",
    "WIND-ZONES": "S-ROOF-ZONE(-EDGE)?",
    "FIRE-ACCESS-LINES": "F-ROOF-ACCS",
    "FIRE-ACCESS": "F-ROOF-ACCS-PATT",
    "WIRE-CLIP": "E-SOLR-CLIP",
    "GROUNDING-LUG": "E-POWR-GRND",
    "JUNCTION-BOX": "E-POWR-EQPM",
    "RACEWAY-": "E-POWR-CNDT",
    "DETAIL-": "S-DETL-[A-Z]+",
    "LABEL-": "E-LABL-[A-Z]+",
}
"""By how the name of a block begins, where all it draws itself is."""


def test_what_a_block_is_says_its_layer(dxf: Drawing) -> None:
    known = set()
    for insert in shown(dxf):
        for block, layer in drawn_by(dxf, insert, "0"):
            start = next((start for start in ON_LAYERS if block.startswith(start)), None)
            if start:
                assert re.fullmatch(ON_LAYERS[start], layer), block
                known.add(start)
    assert len(known) > 10


def test_rails_alone_are_on_the_layer_of_rails(dxf: Drawing) -> None:
    for of, layer in (("RACKING-", "E-SOLR-RAIL"), ("ATTACHMENT-", "S-ROOF-ANCH")):
        there = {b for i in shown(dxf) for b, on in drawn_by(dxf, i, "0") if on == layer}
        assert all(block.startswith(of) for block in there)


def test_freezing_a_layer_hides_only_what_is_on_it(dxf: Drawing) -> None:
    for insert in insertions(dxf):
        if insert.dxf.layer in ("0", "G-ANNO-TTLB"):  # a title block goes as a whole
            continue
        others = {layer for _, layer in drawn_by(dxf, insert, "0")} - {insert.dxf.layer}
        assert not others, insert.dxf.name


def test_no_insertion_shows_nothing_and_no_block_is_idle(dxf: Drawing) -> None:
    for insert in shown(dxf):
        assert list(drawn_by(dxf, insert, "0")), insert.dxf.name
    inserted = {insert.dxf.name for insert in insertions(dxf)}
    ends = {style.dxf.get("dimblk1") for style in dxf.dimstyles}
    named = {block.name for block in dxf.blocks if not block.name.startswith("*")}
    assert named <= inserted | ends


def test_what_a_sheet_inserts_is_in_one_of_its_viewports(dxf: Drawing) -> None:
    windows = [
        BoundingBox2d([middle - half, middle + half])
        for name in dxf.layout_names_in_taborder()[1:]
        for viewport in dxf.paperspace(name).query("VIEWPORT")
        if viewport.dxf.status > 1  # not the sheet's own
        for middle in [Vec2(viewport.dxf.view_center_point)]
        for half in [
            Vec2(viewport.dxf.width, viewport.dxf.height)
            * (viewport.dxf.view_height / viewport.dxf.height / 2)
        ]
    ]
    for insert in dxf.modelspace().query("INSERT"):
        parts = (bbox.extents([part], fast=True) for part in deep(insert))
        flat = [BoundingBox2d(box) for box in parts if box.has_data]
        assert any(w.has_overlap(box) for w in windows for box in flat), insert.dxf.name


def deep(insert: Any) -> Iterator[Any]:
    """All that an insertion draws, in the coordinates of what it stands in."""
    for part in insert.virtual_entities():
        yield from deep(part) if part.dxftype() == "INSERT" else (part,)


def test_no_line_is_drawn_twice(dxf: Drawing) -> None:
    for block in dxf.blocks:
        if not block.name.startswith("*D"):
            ends = [
                (line.dxf.layer, *sorted((line.dxf.start.round(3).xyz, line.dxf.end.round(3).xyz)))
                for line in block.query("LINE")
            ]
            assert len(ends) == len(set(ends)), block.name


def test_values_made_visible_can_be_told_apart(dxf: Drawing) -> None:
    for insert in insertions(dxf):
        hidden = [value for value in insert.attribs if value.is_invisible]
        for one, other in pairwise(hidden):
            assert one.dxf.insert.distance(other.dxf.insert) > 1.2 * other.dxf.height


def test_no_boundary_of_a_wind_zone_is_drawn_twice(dxf: Drawing) -> None:
    outlines = [
        outline
        for insert in dxf.blocks["WIND-ZONES"].query("INSERT")
        for outline in dxf.blocks[insert.dxf.name].query('LWPOLYLINE[layer=="S-ROOF-ZONE"]')
    ]
    sides = [
        shapely.LineString(pair)
        for outline in outlines
        for pair in pairwise(Vec2.list(outline.vertices()))
    ]
    assert len(sides) > 4
    shared = [a.intersection(b.buffer(0.01)).length for a, b in combinations(sides, 2)]
    assert max(shared) < 0.05


def test_no_id_stands_twice(dxf: Drawing) -> None:
    assert len(ids(dxf)) == len(set(ids(dxf)))


def test_what_is_on_the_walls_is_a_block_with_its_tag(drawn: Drawn, dxf: Drawing) -> None:
    for number, wall in enumerate(drawn.checked.design.inputs.job.electrical.walls, 1):
        faces = dxf.blocks[f"WALL-{number}"].query("INSERT")
        assert [face.get_attrib_text("TAG") for face in faces] == [i.tag for i in wall.equipment]
        assert {f"{item.tag}-WALL" for item in wall.equipment} <= set(ids(dxf))


def test_every_label_is_one_block_on_its_sheet(drawn: Drawn, dxf: Drawing) -> None:
    layouts = [dxf.paperspace(name) for name in dxf.layout_names_in_taborder()[1:]]
    found = [
        insert.get_attrib_text("KEY")
        for layout in layouts
        for insert in layout.query("INSERT")
        if insert.dxf.name.startswith("LABEL-")
    ]
    listed = [label.key for label in drawn.checked.design.electrical.labels]
    assert sorted(found) == sorted(listed)


def dimensions(doc: Drawing) -> Iterator[Any]:
    for block in doc.blocks:
        yield from block.query("DIMENSION")


def test_dimensions_of_walls_state_what_they_measure(dxf: Drawing) -> None:
    of_walls = [d for d in dxf.modelspace().query("DIMENSION") if d.dxf.layer == "E-ANNO-DIMS"]
    assert len(of_walls) > 5
    for dimension in of_walls:
        printed = LENGTH.match(figure(dimension))
        slope = 1.0
        if dimension.has_xdata(APPID):  # a raceway up a roof
            slope = dimension.get_xdata(APPID)[1].value / dimension.get_measurement()
        assert printed, figure(dimension)
        stated = parse_length(printed[0], "in")
        assert math.isclose(stated, dimension.get_measurement() * slope, abs_tol=PRINTED_TO_IN), (
            figure(dimension)
        )


def test_what_a_program_measures_anew_is_what_is_printed(dxf: Drawing) -> None:
    """Along the angle it is given, and as its style formats it: inches to 1/16, nearest."""
    anew = 0
    for dimension in dimensions(dxf):
        a, b = dimension.dxf.defpoint2, dimension.dxf.defpoint3
        along = Vec2.from_deg_angle(dimension.dxf.angle).dot(Vec2(b - a))
        style = dxf.dimstyles.get(dimension.dxf.dimstyle).dxf
        assert (style.dimlunit, style.dimdec, style.dimzin) == (4, 4, 3)
        length = format_feet_inches(along * style.dimlfac, denominator=2**style.dimdec)
        assert dimension.dxf.text.replace("<>", length) == figure(dimension)
        anew += "<>" in dimension.dxf.text
        if dimension.has_xdata(APPID):
            assert "<>" not in dimension.dxf.text
            assert "ON SLOPE" in dimension.dxf.text
    assert anew >= len(list(dimensions(dxf))) / 3


def test_a_running_dimension_is_drawn_anew_as_it_was(drawn: Drawn) -> None:
    """By ezdxf's own renderer; the datum, arrow and figure of each where we drew them."""
    dxf = readfile(out_of(drawn) / "planset.dxf")  # of its own: the test changes it
    running = [d for d in dimensions(dxf) if d.dxf.dimstyle.endswith("-RUN")]
    assert running
    for dimension in running:
        style = dxf.dimstyles.get(dimension.dxf.dimstyle).dxf
        (words,) = dimension.get_geometry_block().query("TEXT")
        (tip,) = dimension.get_geometry_block().query("SOLID")
        at, end = dimension.dxf.text_midpoint, dimension.dxf.defpoint  # the renderer moves both
        anew = dimension.override()
        anew.dimstyle_attribs["user_location"] = Vec2(at)
        anew.render()
        drawn = dimension.get_geometry_block()
        (datum,) = drawn.query('INSERT[name=="DATUM"]')
        assert datum.dxf.insert.distance(end) == pytest.approx(dimension.get_measurement())
        (text,) = drawn.query("MTEXT")
        assert text.dxf.insert.isclose(at)
        assert text.get_rotation() % 180 == pytest.approx(words.dxf.get("rotation", 0) % 180)
        (circle,) = dxf.blocks["DATUM"].query("CIRCLE")
        assert datum.dxf.xscale * circle.dxf.radius == pytest.approx(DATUM_RADIUS * style.dimscale)
        if dimension.get_measurement() < 3 * style.dimasz * style.dimscale:
            continue  # that renderer turns arrows about that have no room
        inserted = [part for i in drawn.query("INSERT") for part in i.virtual_entities()]
        (arrow,) = (part for part in inserted if part.dxftype() == "SOLID")
        corners = [[e.dxf.get(f"vtx{n}") for n in range(3)] for e in (tip, arrow)]
        for corner in corners[0]:
            assert min(corner.distance(other) for other in corners[1]) < style.dimscale / 1000


def test_a_dimension_style_carries_what_a_dimension_needs(dxf: Drawing) -> None:
    for dimension in dxf.modelspace().query("DIMENSION"):
        style = dxf.dimstyles.get(dimension.dxf.dimstyle)
        assert style.dxf.dimtxsty == "ARIAL"
        assert style.dxf.dimtxt >= 3 / 32  # plotted inches
        assert dimension.get_geometry_block() is not None


README = (EXAMPLE.parents[2] / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(
    r"(?m)^\| (`[A-Z]+-?.*) \| (.+) \| ([A-Z_0-9, -]+)(?: and on)? \| ([A-Z_, -]+) \|$", README
)
NOT_ALWAYS = {"RAIL", "MODULE"}
"""Values that what is on no rail, or a clip that is on no module, does not carry."""


def test_readme_lists_blocks() -> None:
    assert len(BLOCKS) == 11


NUMBERED = {"-A1": r"-A\d+", "-L1": r"-L\d+", "WALL-1": r"WALL-\d+"}
NAMED = dict.fromkeys(("-V1", "-INV1", "-SPLICE"), "-[A-Z0-9-]+")


def pattern(name: str) -> re.Pattern[str]:
    """Of blocks named like one: another array, obstruction, part, wall, tag or label."""
    for sample, alike in (NUMBERED | NAMED).items():
        name = name.replace(sample, alike)
    return re.compile(name)


def defined(doc: Drawing, block: str) -> dict[bool, list[str]]:
    """Tags of a block: those of each insertion under False, those alike for all under True."""
    tags: dict[bool, list[str]] = {False: [], True: []}
    for one in doc.blocks[block].query("ATTDEF"):
        tags[one.is_const].append(one.dxf.tag.replace("SEAM", "RAFTER"))
    return tags


@pytest.mark.parametrize(("block", "inside", "each", "alike"), BLOCKS)
def test_a_block_stands_where_readme_says_and_carries_that(
    block: str, inside: str, each: str, alike: str, dxf: Drawing
) -> None:
    name, holder = (re.search(r"`(.+?)`", words) for words in (block, inside))
    assert name
    found = 0
    for owner in dxf.blocks:
        for insert in owner.query("INSERT"):
            if not pattern(name[1]).fullmatch(insert.dxf.name):
                continue
            if insert.dxf.name.endswith("-PLAN"):  # the same piece from above, in WALL-1-PLAN
                continue
            told = defined(dxf, insert.dxf.name)
            assert (", ".join(told[False]) or "-").startswith(each), insert.dxf.name
            assert (", ".join(told[True]) or "-") == alike, insert.dxf.name
            tags = [a.dxf.tag.replace("SEAM", "RAFTER") for a in insert.attribs]
            assert [t for t in told[False] if t in tags or t not in NOT_ALWAYS] == tags
            if holder:
                assert pattern(holder[1]).fullmatch(owner.name)
            found += 1
    parts = {"ATTACHMENT-A1", "PART-SPLICE", "MODULE-DEVICE", "INVERTER-INV1", "OBSTRUCTION-V1"}
    assert found or name[1] in parts | {"GROUNDING-LUG"}  # not every job has those


def moved_and_noted(dxf: Path) -> bytes:
    """What an engineer does: move things of several sheets, add a note on each, save."""
    doc = readfile(dxf)
    for prefix in ("ATTACHMENT-", "WALL-1-", "JUNCTION-BOX", "LABEL-L1"):
        found = [i for i in insertions(doc) if i.dxf.name.startswith(prefix)]
        if found:
            found[0].translate(0.0, 2.0, 0.0)
    for name in doc.layout_names_in_taborder()[1:]:
        doc.paperspace(name).add_text("SEE MY LETTER", dxfattribs={"insert": (2, 2)})
    doc.saveas(dxf)
    return dxf.read_bytes()


@pytest.mark.parametrize("drawn", ["tile-gable", "battery-retrofit"], indirect=True)
def test_an_edited_one_stays_and_ours_goes_beside_it(
    drawn: Drawn, monkeypatch: pytest.MonkeyPatch
) -> None:
    # The same job again: only its files are written anew.
    monkeypatch.setattr(pipeline, "_run", lambda *_, **__: drawn.checked)
    out = out_of(drawn)
    ours = (out / "planset.dxf").read_bytes()
    edited = moved_and_noted(out / "planset.dxf")
    assert edited != ours
    again = draw(drawn.checked.design.inputs.path, out, preliminary=True)
    assert again.written is not None
    assert again.written.kept == (out / "planset.dxf",)
    assert (out / "planset.dxf").read_bytes() == edited
    assert (out / "planset.new.dxf").read_bytes() == ours
    assert set(ids(readfile(out / "planset.dxf"))) == set(ids(readfile(out / "planset.new.dxf")))
