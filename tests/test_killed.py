"""Killed at any point of `draw`, and run once more: the folder holds the earlier set or the new."""

from __future__ import annotations

import subprocess
import sys
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest

from planset import pipeline
from planset.errors import JobErrors
from planset.output.commit import STAGE
from planset.output.machine import LOCK
from planset.pipeline import check, draw
from tests.example_job import edited, sheets

ROOT = Path(__file__).parents[1]
FEWEST_POINTS = 20
LEFT_OVER = {LOCK}  # bars nobody

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="there are no forks")


def held(out: Path) -> dict[str, bytes]:
    if not out.exists():
        return {}
    files = (path for path in out.rglob("*") if path.is_file())
    return {
        str(path.relative_to(out)): path.read_bytes()
        for path in files
        if path.name not in LEFT_OVER
    }


def a_drawing_edited(out: Path) -> None:
    (out / "planset.dxf").write_bytes(b"the engineer's")


def a_sheet_edited(out: Path) -> None:
    (out / "E-601.dxf").write_bytes(b"the engineer's")


def nothing_more(out: Path) -> None:
    del out


OTHER_NAME = ("drawn_by: J. Orme", "drawn_by: A. Venn")
THREE, TWO = sheets("G-001", "A-101", "E-601"), sheets("G-001", "A-101")


@pytest.mark.parametrize(
    ("earlier", "meanwhile", "edits", "flags"),
    [
        (False, nothing_more, (OTHER_NAME, THREE), ()),
        (True, nothing_more, (OTHER_NAME, THREE), ()),
        (True, a_drawing_edited, (OTHER_NAME, THREE), ()),
        (True, nothing_more, (TWO,), ("--dxf-per-sheet",)),
        (True, a_sheet_edited, (TWO,), ("--dxf-per-sheet",)),
    ],
    ids=["new-folder", "old-set", "edited-drawing", "fewer-sheets", "fewer-sheets-one-edited"],
)
def test_killed_and_run_once_more(
    earlier: bool,
    meanwhile: Callable[[Path], None],
    edits: tuple[tuple[str, str], ...],
    flags: tuple[str, ...],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    start, folder = tmp_path / "start", tmp_path / "killed"
    folder.mkdir()
    if earlier:
        draw(edited(tmp_path, THREE), start, dxf_per_sheet=bool(flags))
        meanwhile(start)
    job = edited(tmp_path, *edits)
    command = [sys.executable, "-m", "tests.killed_draws", job, start if earlier else "-", folder]
    ended = subprocess.run(
        [*map(str, command), *flags], cwd=ROOT, capture_output=True, text=True, check=True
    )
    *points, last = ended.stdout.splitlines()
    assert last == "alive"
    assert len(points) >= FEWEST_POINTS
    renames = Counter(points)["before replace"]
    assert renames == Counter(points)["after replace"] >= 5  # PDF, DXF, materials, checks, manifest

    old, new = held(start), held(folder / str(len(points)))
    assert new not in ({}, old)
    came_to = []
    for number, point in enumerate(points):
        out = folder / str(number)
        with pytest.raises(JobErrors):
            draw(tmp_path / "absent.yaml", out)  # the next run, which draws nothing itself
        after = held(out)
        assert after in (old, new), point
        assert not (out / STAGE).exists(), point
        came_to.append(after == new)
    assert came_to == sorted(came_to)  # once the new set, never the old one again
    computed = check(job)  # once for both runs: no file of the folder is touched by that
    monkeypatch.setattr(pipeline, "_run", lambda *_, **__: computed)
    first_rename = points.index("before replace")
    assert all(came_to[first_rename:])
    for number in (first_rename - 1, first_rename + 1):
        draw(job, folder / str(number), dxf_per_sheet=bool(flags))
        assert held(folder / str(number)) == new, points[number]
