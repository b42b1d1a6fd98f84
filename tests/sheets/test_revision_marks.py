"""Clouds and deltas stand where the job says that something changed, and nowhere else."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
import shapely

from planset.drawing.flatten import course, rotated_text_box
from planset.drawing.geometry import Box, box_around
from planset.drawing.page import Page
from planset.drawing.primitives import Insert, Polyline, Primitive, Text
from planset.drawing.revision_marks import CLOUD_LAYER, CLOUD_WORDS, DELTA_LAYER, DELTA_WORDS
from planset.errors import JobErrors
from planset.formats.dxf_write import write_dxf
from tests.example_job import EXAMPLE, edited
from tests.sheets.drawn_sets import Made, made_of, own_sheet, title_block

ANSWERED = "battery-retrofit"
SHEETS = "  sheets: [G-001, A-101, E-601, E-602]"


@cache
def answered() -> Made:
    return own_sheet(ANSWERED)


def marked(folder: Path, revisions: str, newest: int, size: str = "11x17") -> Made:
    """The set of the example with revisions, on a few of its sheets."""
    text = EXAMPLE.read_text(encoding="utf-8")
    (sheets,) = (line for line in text.splitlines() if line.startswith("  sheets: ["))
    job = edited(
        folder,
        ('  revision: "0"', f'  revision: "{newest}"'),
        ("\ncontractor:", f"\nrevisions:\n{revisions}\ncontractor:"),
        (sheets, SHEETS),
    )
    return made_of(job, size)


def parts(page: Page) -> list[Primitive]:
    return [*page.paper, *(part for view in page.views for part in view.annotation)]


def clouds(made: Made, sheet: str) -> list[Box]:
    """What each cloud of a sheet and those it runs over to covers [paper in]."""
    return [
        box_around(course(part, 1.0))
        for page in made.pages(sheet)
        for part in parts(page)
        if isinstance(part, Polyline) and part.layer == CLOUD_LAYER
    ]


def deltas(made: Made, sheet: str) -> list[Insert]:
    """The deltas of a sheet and those it runs over to, without those in lists of revisions."""
    return [
        part
        for page in made.pages(sheet)
        for part in parts(page)
        if isinstance(part, Insert) and part.layer == DELTA_LAYER and part.attributes[0].text
    ]


def numbers(made: Made, sheet: str) -> list[str]:
    return sorted(part.attributes[0].value for part in deltas(made, sheet))


def words(made: Made, sheet: str, said: str) -> Box:
    """Where a line of text stands on a sheet or on one that it runs over to."""
    pages = made.pages(sheet)
    (found,) = (t for page in pages for t in made.words(page.sheet) if t.text == said)
    return rotated_text_box(found)


@pytest.mark.parametrize(
    ("sheet", "within"),
    [
        ("E-602", "SMALLER MAIN"),
        ("E-602", "LOAD BY ARTICLE 220, 220.83"),  # a row of that table
        ("S-601", "ATTACHMENTS OF ARRAY A1, DEMAND / CAPACITY, ASD"),
        ("E-601", "MSP-MAIN (N)"),  # the label of the breaker
        ("E-601", "110 A, 2P, 10 kAIC"),  # its row in the schedule
    ],
)
def test_what_changed_stands_in_a_cloud(sheet: str, within: str) -> None:
    around = words(answered(), sheet, within)
    assert any(cloud.contains(around) for cloud in clouds(answered(), sheet))


@pytest.mark.parametrize(
    ("sheet", "outside"),
    [("E-602", "INTERRUPTING RATINGS"), ("S-601", "SITE CRITERIA"), ("E-601", "CB1 (N)")],
)
def test_what_stayed_stands_in_none(sheet: str, outside: str) -> None:
    around = words(answered(), sheet, outside)
    assert not any(cloud.overlaps(around) for cloud in clouds(answered(), sheet))


@pytest.mark.parametrize(
    ("sheet", "below"),
    [
        ("E-602", "INTERRUPTING RATINGS"),
        ("S-601", "CAPACITIES OF AN ATTACHMENT, ARRAY A1, LB, ASD"),
    ],
)
def test_a_cloud_stands_nearer_to_its_table_than_to_the_next_title(sheet: str, below: str) -> None:
    """An arc at the next title would seem to mean what did not change."""
    (cloud,) = clouds(answered(), sheet)
    assert cloud.y0 - words(answered(), sheet, below).y1 > 0.08


def test_a_rule_on_the_compliance_sheet_is_named_by_its_id() -> None:
    (cloud,) = clouds(answered(), "G-002")
    page = answered().page("G-002.1")
    rows = [t for t in page.paper if isinstance(t, Text) and t.text == "SMALLER MAIN"]
    assert rows
    assert all(cloud.contains(rotated_text_box(row)) for row in rows)
    (mark,) = deltas(answered(), "G-002")
    assert cloud.holds(mark.at)  # not in the row above, which stayed


def test_nothing_else_is_marked() -> None:
    marks = {page.sheet.partition(".")[0] for page in answered().drawing.pages}
    clouded = {sheet for sheet in marks if sheet != "G-001" and clouds(answered(), sheet)}
    assert clouded == {"G-002", "E-601", "E-602", "S-601"}
    with_delta = {sheet for sheet in marks if sheet != "G-001" and deltas(answered(), sheet)}
    assert with_delta == {*clouded, "E-101"}
    assert own_sheet("cross-gable").failures() == []
    assert not any(deltas(own_sheet("cross-gable"), sheet) for sheet in marks)


def test_a_sheet_named_alone_has_the_delta_at_its_number() -> None:
    (made,) = deltas(answered(), "E-101")
    field = title_block("24x36").fields["SHEET_ID"].box
    assert field.holds(made.at)
    assert clouds(answered(), "E-101") == []


def test_each_line_of_the_title_block_has_a_delta_around_its_number() -> None:
    page = answered().page("A-101")
    (border,) = (p for p in page.paper if isinstance(p, Insert) and p.block == page.titleblock)
    (number,) = (one.text for one in border.attributes if one.tag == "REV1_NUMBER")
    (made,) = (p for p in page.paper if isinstance(p, Insert) and p.layer == DELTA_LAYER)
    assert number is not None
    assert number.text == made.attributes[0].value == "1"
    outline = answered().drawing.blocks[made.block].primitives[0]
    assert isinstance(outline, Polyline)
    (x, y), scale = made.at, made.scale
    triangle = shapely.Polygon([(x + a * scale, y + b * scale) for a, b in outline.points])
    assert triangle.contains(shapely.box(*rotated_text_box(number)))


def test_the_review_of_the_pages_finds_nothing() -> None:
    assert answered().failures() == []


def test_the_cover_says_what_the_marks_mean() -> None:
    cover = " ".join(answered().lines("G-001"))
    assert DELTA_WORDS in cover
    assert CLOUD_WORDS in cover
    first = " ".join(own_sheet("cross-gable").lines("G-001"))
    assert DELTA_WORDS not in first
    assert CLOUD_WORDS not in first


TWO = """
  - number: 1
    date: "2026-11-20"
    description: First
    changes: [{sheet: A-101, changed: [SK1]}, {sheet: E-601, changed: []}]
  - number: 12
    date: "2026-11-25"
    description: Second
    changes:
      - {sheet: A-101, changed: [ROOF PLANES / front, M07]}
      - {sheet: E-602}
"""


@pytest.mark.parametrize("size", ["11x17", "18x24"])
def test_clouds_of_earlier_revisions_are_gone_and_their_deltas_stay(
    size: str, tmp_path: Path
) -> None:
    made = marked(tmp_path, TWO, 12, size)
    assert numbers(made, "A-101") == ["1", "12", "12"]
    assert len(clouds(made, "A-101")) == 2
    row = words(made, "A-101", "FRONT")
    assert any(cloud.contains(row) for cloud in clouds(made, "A-101"))
    assert numbers(made, "E-601") == []  # nothing there is drawn otherwise
    pages = made.pages("E-602")
    assert numbers(made, "E-602") == ["12"] * len(pages)  # and on those it runs over to
    assert made.failures() == []


APART = """
  - number: 1
    date: "2026-11-25"
    description: First
    changes:
      - sheet: A-101
        changed: [ROOF PLANES / FRONT, ROOF PLANES / BACK, ARRAYS / MODULES, ARRAYS / ARRAY A1]
      - sheet: A-101
        changed: [OBSTRUCTIONS, FIRE ACCESS, "ARRAYS / ROOF, PLAN"]
"""


def test_neighbors_share_a_cloud_that_goes_around_nothing_else(tmp_path: Path) -> None:
    """Rows that follow each other, and tables one below another, but not what is between."""
    made = marked(tmp_path, APART, 1)
    drawn = clouds(made, "A-101")
    named = [
        ("FRONT", "BACK"),
        ("ARRAY A1", "MODULES"),
        ("ROOF, PLAN",),
        ("OBSTRUCTIONS", "FIRE ACCESS"),
    ]
    assert len(drawn) == len(named)
    for together in named:
        (cloud,) = (one for one in drawn if one.contains(words(made, "A-101", together[0])))
        assert all(cloud.contains(words(made, "A-101", other)) for other in together)
    for other in ("PLANE", "ATTACHMENTS", "ARRAY, PLAN", "AREA RATIO"):
        assert not any(one.contains(words(made, "A-101", other)) for one in drawn)
    assert made.failures() == []


def test_all_names_that_stand_nowhere_are_told_with_what_could_be_named(tmp_path: Path) -> None:
    unknown = """
  - number: 1
    date: "2026-11-25"
    description: First
    changes:
      - sheet: A-101
        changed:
          - ROOF PLANES
          - ROOF PLAINS
          - FIRE ACCESS / M07
      - {sheet: E-601, changed: [CB9]}
"""
    with pytest.raises(JobErrors) as caught:
        marked(tmp_path, unknown, 1)
    first, second, third = caught.value.problems
    at = (tmp_path / "job.yaml").read_text(encoding="utf-8").splitlines()
    for problem, name in ((first, "ROOF PLAINS"), (second, "FIRE ACCESS / M07"), (third, "CB9")):
        assert problem.line is not None
        assert name in at[problem.line - 1]
        assert problem.message.endswith(f"(got {name})")
    assert first.field == "revisions.1.changes.1.changed.2"
    assert first.message.startswith("nothing on A-101 has this name")
    assert '"ROOF PLANES"' in first.mend
    assert "M01-M20" in first.mend
    assert "CB1" in third.mend


def test_the_dxf_file_holds_clouds_and_deltas_to_edit(tmp_path: Path) -> None:
    import ezdxf

    path = tmp_path / "set.dxf"
    write_dxf(answered().drawing, path)
    document = ezdxf.readfile(path)
    layout = document.paperspace("S-601")
    (cloud,) = layout.query(f'LWPOLYLINE[layer=="{CLOUD_LAYER}"]')
    assert cloud.closed
    assert all(bulge > 0 for *_, bulge in cloud.get_points("xyb"))
    drawn = [one for one in layout.query("INSERT") if one.dxf.layer == DELTA_LAYER]
    assert [one.get_attrib_text("NUMBER") for one in drawn] == ["1", "1"]  # in the title block too
    in_view = document.modelspace().query(f'LWPOLYLINE[layer=="{CLOUD_LAYER}"]')
    assert len(in_view) == 1  # the breaker on the diagram
