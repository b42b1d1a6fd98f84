"""`--dxf-per-sheet`: a file for each sheet, staged, kept and told of like the rest of the set."""

from __future__ import annotations

import hashlib
import json
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import pytest

from planset.pipeline import Drawn, draw
from tests.example_job import EXAMPLE

pytestmark = pytest.mark.usefixtures("examples_once")

WITHOUT = {
    "planset.pdf",
    "crew.pdf",
    "planset.dxf",
    "materials.csv",
    "checks.json",
    "manifest.json",
}


@pytest.fixture(scope="module")
def drawn(tmp_path_factory: pytest.TempPathFactory) -> Drawn:
    return draw(EXAMPLE, tmp_path_factory.mktemp("set") / "out", dxf_per_sheet=True)


@pytest.fixture
def files(drawn: Drawn) -> Mapping[str, bytes]:
    assert drawn.written is not None
    return {path.name: path.read_bytes() for path in drawn.written.paths}


@pytest.fixture
def out(files: Mapping[str, bytes], tmp_path: Path) -> Path:
    """A folder with the set in it."""
    for name, content in files.items():
        (tmp_path / name).write_bytes(content)
    return tmp_path


def sheet_files(drawn: Drawn) -> list[str]:
    assert drawn.checked.drawing is not None
    return [f"{page.sheet}.dxf" for page in drawn.checked.drawing.pages]


def test_there_is_one_for_each_sheet_beside_the_set(
    drawn: Drawn, files: Mapping[str, bytes]
) -> None:
    assert {"G-001.dxf", "A-101.dxf", "S-501.dxf", "E-601.dxf"} <= set(sheet_files(drawn))
    assert set(files) == WITHOUT | set(sheet_files(drawn))


def test_the_manifest_lists_them(drawn: Drawn, files: Mapping[str, bytes]) -> None:
    listed = json.loads(files["manifest.json"])["files"]
    for name in sheet_files(drawn):
        assert listed[name]["sha256"] == hashlib.sha256(files[name]).hexdigest()


def test_the_rest_of_the_set_is_the_same_without(
    files: Mapping[str, bytes], tmp_path: Path
) -> None:
    draw(EXAMPLE, tmp_path / "without")
    for name in WITHOUT - {"manifest.json"}:
        assert (tmp_path / "without" / name).read_bytes() == files[name]


def test_an_edited_one_stays_and_ours_goes_beside_it(files: Mapping[str, bytes], out: Path) -> None:
    (out / "A-101.dxf").write_bytes(files["A-101.dxf"] + b"999\nedited\n")
    written = draw(EXAMPLE, out, dxf_per_sheet=True).written
    assert written is not None
    assert written.kept == (out / "A-101.dxf",)
    assert (out / "A-101.dxf").read_bytes().endswith(b"edited\n")
    assert (out / "A-101.new.dxf").read_bytes() == files["A-101.dxf"]


def test_a_set_without_them_clears_away_all_but_an_edited_one(
    files: Mapping[str, bytes], out: Path
) -> None:
    (out / "S-501.dxf").write_bytes(files["S-501.dxf"] + b"999\nedited\n")
    draw(EXAMPLE, out)
    assert {path.name for path in out.iterdir()} == WITHOUT | {"S-501.dxf"}


def test_the_option_of_the_command(drawn: Drawn, tmp_path: Path) -> None:
    command = [sys.executable, "-m", "planset", "draw", str(EXAMPLE), "--dxf-per-sheet"]
    done = subprocess.run(
        [*command, "-o", str(tmp_path)], check=True, capture_output=True, text=True
    )
    assert [name for name in sheet_files(drawn) if str(tmp_path / name) not in done.stdout] == []
