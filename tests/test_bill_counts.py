"""The bill is what the drawing holds: materials.csv against blocks counted in the written DXF."""

from __future__ import annotations

import csv
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from ezdxf.filemanagement import readfile
from pypdf import PdfReader

from planset.design.materials import bill_of_materials
from planset.finding import Outcome
from planset.pipeline import draw
from planset.review.bill import judge_bill
from planset.sheets.bill import cells
from planset.sheets.words import capitals
from tests.example_job import EXAMPLE, edited
from tests.sheets.drawn_sets import EXAMPLES, own_sheet

pytestmark = pytest.mark.usefixtures("examples_once")

EVERY = ("tile-gable", "shingle-hip", "cross-gable", "battery-retrofit", "flat-commercial")
MOUNTED = EVERY[:4]


@pytest.fixture(scope="module")
def folders(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("sets")


@cache
def drawn(name: str, folders: Path) -> Path:
    out = folders / name
    draw(EXAMPLES / name / "job.yaml", out, preliminary=True)
    return out


def bill(out: Path) -> list[dict[str, str]]:
    with (out / "materials.csv").open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def kind_of(block: str) -> str:
    """What a block is one of, by its name; "" for what no bill counts."""
    if block in ("WIRE-CLIP", "GROUNDING-LUG", "MODULE-DEVICE", "JUNCTION-BOX"):
        return block.replace("-", " ").capitalize()
    if block in ("MODULE-POINT", "MODULE-DEVICES"):  # modules without a device; all devices
        return ""
    start, _, rest = block.partition("-")
    if start in ("MODULE", "ATTACHMENT"):
        return start.capitalize()
    if start != "PART" or rest == "EXPANSION-GAP":
        return ""
    return "Trim" if rest.startswith("TRIM-A") else rest.replace("-", " ").capitalize()


def insertions(path: Path) -> Counter[str]:
    """How often each kind is inserted in the blocks of a drawing, each block looked at once."""
    document = readfile(path)
    return Counter(
        kind
        for block in document.blocks
        for insert in block.query("INSERT")
        if (kind := kind_of(insert.dxf.name))
    )


ON_ROOF = ("Module device", "Junction box")


def counted(out: Path) -> Counter[str]:
    """The bill by kind, as far as a drawing shows it."""
    devices = ("Rapid shutdown device", "Converter", "Microinverter")
    found: Counter[str] = Counter()
    for line in bill(out):
        item = line["item"].partition(",")[0]
        item = "Module device" if item in devices else item
        if line["quantity"] and (line["group"] != "ELECTRICAL" or item in ON_ROOF):
            found[item] += int(line["quantity"])
    for unseen in ("Lag screw", "Flashing", "Sealing", "Rail"):
        del found[unseen]
    return found


@pytest.mark.parametrize("name", EVERY)
def test_the_bill_counts_what_the_drawing_holds(name: str, folders: Path) -> None:
    out = drawn(name, folders)
    assert counted(out) == insertions(out / "planset.dxf")


@pytest.mark.parametrize("name", MOUNTED)
def test_lags_and_flashings_follow_the_attachments(name: str, folders: Path) -> None:
    out = drawn(name, folders)
    attachments = insertions(out / "planset.dxf")["Attachment"]
    lines = {line["item"]: int(line["quantity"]) for line in bill(out) if line["quantity"]}
    assert lines["Lag screw"] == 2 * attachments  # two each in all three systems
    assert lines.get("Flashing", attachments) == attachments


@pytest.mark.parametrize("name", EVERY)
def test_the_printed_bill_is_the_file(name: str, folders: Path) -> None:
    of = own_sheet(name)
    printed = " ".join(line for page in of.pages("Z-601") for line in of.lines(page.sheet))
    columns = ("item", "product", "document", "quantity", "spare", "total", "unit", "counted_from")
    written = bill(drawn(name, folders))
    assert len(written) == len(bill_of_materials(of.design))
    for line in written:
        assert " ".join(capitals(line[column] or "-") for column in columns) in printed
    for line, made in zip(written, bill_of_materials(of.design), strict=True):
        assert (line["item"], line["total"] or "-") == (made.item, cells(made)[5])


def test_the_check_agrees_and_notices_a_part_that_is_gone() -> None:
    of = own_sheet("tile-gable")
    lines = bill_of_materials(of.design)
    good = judge_bill(lines, of.drawing.blocks)
    assert good.outcome is Outcome.PASS
    assert "75 Heron hook" in good.message
    parts = of.drawing.blocks["PARTS-A1"]
    fewer = {**of.drawing.blocks, "PARTS-A1": replace(parts, primitives=parts.primitives[:-1])}
    bad = judge_bill(lines, fewer)
    assert bad.outcome is Outcome.FAIL
    assert bad.message.startswith("Heron trim lock: 15 on the bill, 14 drawn")


# --- the crew's file -----------------------------------------------------------------------


def labels(path: Path) -> list[str]:
    return [label.partition(".")[0] for label in PdfReader(path).page_labels]


def targets(pdf: PdfReader) -> Iterator[str]:
    for page in pdf.pages:
        for reference in page.get("/Annots", []):
            place = pdf.get_page_number(reference.get_object()["/Dest"][0].get_object())
            assert place is not None
            yield pdf.page_labels[place]


@pytest.mark.parametrize("name", EVERY)
def test_the_crew_has_a_file_of_its_own(name: str, folders: Path) -> None:
    out = drawn(name, folders)
    assert not {"Z-101", "Z-601"} & set(labels(out / "planset.pdf"))
    crew = PdfReader(out / "crew.pdf")
    assert set(labels(out / "crew.pdf")) == {"Z-101", "Z-601"}
    assert [str(entry.title).split()[0] for entry in crew.outline] == crew.page_labels  # type: ignore[union-attr]
    assert f"SHEET 1 OF {len(crew.pages)}" in crew.pages[0].extract_text()
    assert set(targets(crew)) == set(crew.page_labels)  # the index names them all


def test_without_its_sheets_the_file_of_an_earlier_run_goes(tmp_path: Path) -> None:
    out = tmp_path / "out"
    draw(EXAMPLE, out)
    assert (out / "crew.pdf").exists()
    draw(edited(tmp_path, (", Z-101, Z-601]", "]")), out)
    assert not (out / "crew.pdf").exists()
    assert (out / "materials.csv").exists()
