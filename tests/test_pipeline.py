"""All stages together: what is refused, what is marked, and equal bytes for equal jobs."""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from planset import pipeline
from planset.drawing.page import Page
from planset.drawing.primitives import Insert
from planset.errors import JobErrors
from planset.finding import Finding, Outcome
from planset.output.commit import STAGE
from planset.pipeline import Checked, Status, check, draw
from planset.resources import drawings_folder
from planset.rules.registry import RULES
from planset.rules.run import judge
from tests.example_job import BROKEN, EXAMPLE, edited, near_the_ridge

ROOT = Path(__file__).parents[1]
KEYS = (
    "rule",
    "outcome",
    "measured",
    "limit",
    "unit",
    "demand",
    "capacity",
    "use_unit",
    "exception",
    "citation",
    "objects",
    "line",
    "message",
)


def held(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


@pytest.fixture(scope="module")
def example() -> Checked:
    return check(EXAMPLE)


@pytest.fixture(scope="module")
def out(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("example") / "out"
    draw(EXAMPLE, folder)
    return folder


def pages(checked: Checked) -> tuple[Page, ...]:
    assert checked.drawing is not None
    return checked.drawing.pages


def statuses(checked: Checked) -> list[str]:
    """The status field of every sheet's title block."""
    return [
        attribute.value
        for page in pages(checked)
        for part in page.paper
        if isinstance(part, Insert) and part.block == page.titleblock
        for attribute in part.attributes
        if attribute.tag == "STATUS"
    ]


def test_nothing_fails_in_the_example(example: Checked) -> None:
    assert [f for f in example.findings if f.outcome is Outcome.FAIL] == []


def test_an_open_finding_marks_every_sheet(tmp_path: Path) -> None:
    """Even one that shows on the finished pages only, as that all wording of labels is missing."""
    checked = check(edited(tmp_path, (", E-701", "")))
    opened = [f.rule for f in checked.findings if f.outcome is Outcome.OPEN]
    assert opened == ["contents.items"]
    assert checked.preliminary
    assert statuses(checked) == ["PRELIMINARY"] * len(pages(checked))


def test_a_set_without_open_findings_is_a_submittal(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    settle(monkeypatch)
    drawn = draw(EXAMPLE, tmp_path / "out")
    assert drawn.status is Status.SUBMITTAL
    assert not drawn.checked.preliminary
    assert set(statuses(drawn.checked)) == {"FOR PLAN REVIEW", "FOR THE CREW"}
    assert manifest(tmp_path / "out")["preliminary"] is False


def test_a_submittal_may_be_marked_preliminary_all_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    settle(monkeypatch)
    drawn = draw(EXAMPLE, tmp_path / "out", preliminary=True)
    assert drawn.status is Status.PRELIMINARY
    assert set(statuses(drawn.checked)) == {"PRELIMINARY"}
    assert manifest(tmp_path / "out")["preliminary"] is True


def test_the_review_of_the_pages_refuses_as_the_rules_do(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    settle(monkeypatch)
    found = Finding(rule="a.b", title="t", outcome=Outcome.FAIL, citation="c", message="m")
    monkeypatch.setattr(pipeline, "review_pages", lambda _: (found,))
    assert draw(EXAMPLE, tmp_path / "out").status is Status.REFUSED
    drawn = draw(EXAMPLE, tmp_path / "out", preliminary=True)
    assert drawn.status is Status.PRELIMINARY
    assert set(statuses(drawn.checked)) == {"PRELIMINARY"}


def settle(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have the engineer answer everything the rules leave open."""

    def settled(design: Any) -> tuple[Finding, ...]:
        return tuple(
            replace(f, outcome=Outcome.PASS) if f.outcome is Outcome.OPEN else f
            for f in judge(design)
        )

    monkeypatch.setattr(pipeline, "judge", settled)


@pytest.mark.parametrize("preliminary", [False, True])
def test_a_tile_no_sheet_has_room_for(preliminary: bool, tmp_path: Path) -> None:
    job = edited(tmp_path, ("pan_pitch: 11 in", "pan_pitch: 40 ft"))
    drawn = draw(job, tmp_path / "out", preliminary=preliminary)
    assert drawn.status is Status.REFUSED
    assert drawn.checked.drawing is None
    *judged, last = drawn.checked.findings
    assert (last.rule, last.outcome) == ("drafting.room", Outcome.FAIL)
    assert "does not fit" in last.message
    assert {finding.rule for finding in judged} == {rule.id for rule in RULES}
    assert not (tmp_path / "out").exists()


# --- refused -------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def too_near(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return near_the_ridge(tmp_path_factory.mktemp("ridge"), 12.0)


def test_an_array_12_in_from_the_ridge_fails(too_near: Path) -> None:
    checked = check(too_near)
    (found,) = (f for f in checked.findings if f.rule == "fire.ridge-setback")
    assert checked.fails
    assert found.outcome is Outcome.FAIL
    assert found.measured == pytest.approx(12.0)
    assert (found.limit, found.unit) == (18.0, "in")  # IRC 2021 R324.6.2, up to 33 % of the roof
    assert found.citation == "IRC 2021 R324.6.2"
    assert found.line is not None
    assert "corner" in too_near.read_text(encoding="utf-8").splitlines()[found.line - 1]


def test_a_failing_set_leaves_an_earlier_one_as_it_was(
    too_near: Path, out: Path, tmp_path: Path
) -> None:
    shutil.copytree(out, tmp_path / "out")
    drawn = draw(too_near, tmp_path / "out")
    assert (drawn.status, drawn.written) == (Status.REFUSED, None)
    assert held(tmp_path / "out") == held(out)


def test_a_failing_set_makes_no_folder(too_near: Path, tmp_path: Path) -> None:
    assert draw(too_near, tmp_path / "out").status is Status.REFUSED
    assert not (tmp_path / "out").exists()


def test_a_failing_set_can_be_drawn_as_a_draft(too_near: Path, tmp_path: Path) -> None:
    drawn = draw(too_near, tmp_path / "out", preliminary=True)
    assert drawn.status is Status.PRELIMINARY
    assert set(statuses(drawn.checked)) == {"PRELIMINARY"}
    records = json.loads((tmp_path / "out" / "checks.json").read_text(encoding="utf-8"))
    assert records[0]["outcome"] == "fail"


@pytest.fixture
def unfinished(out: Path, tmp_path: Path) -> Path:
    """A folder with a complete stage, as a run leaves it that is killed before its first move."""
    shutil.copytree(out, tmp_path / "out" / STAGE)
    return tmp_path / "out"


def test_a_run_that_fails_its_checks_finishes_the_one_before(
    too_near: Path, out: Path, unfinished: Path
) -> None:
    draw(too_near, unfinished)
    assert held(unfinished) == held(out)


def test_so_does_a_run_whose_job_is_broken(out: Path, unfinished: Path, tmp_path: Path) -> None:
    with pytest.raises(JobErrors) as caught:
        draw(edited(tmp_path, *BROKEN), unfinished)
    assert len(caught.value.problems) == len(BROKEN)
    assert held(unfinished) == held(out)


# --- files ---------------------------------------------------------------------------------


def manifest(out: Path) -> Any:
    return json.loads((out / "manifest.json").read_text(encoding="utf-8"))


def test_what_is_written(out: Path) -> None:
    pdfs = {"planset.pdf", "crew.pdf"}
    data = {"planset.dxf", "materials.csv", "checks.json", "manifest.json"}
    assert held(out).keys() == pdfs | data


def test_checks_are_all_findings(out: Path, example: Checked) -> None:
    records = json.loads((out / "checks.json").read_text(encoding="utf-8"))
    assert len(records) == len(example.findings)
    assert {tuple(record) for record in records} == {KEYS}


def test_the_manifest_tells_what_was_written(out: Path) -> None:
    told = manifest(out)
    files = held(out)
    del files["manifest.json"]
    assert told["files"] == {
        name: {"sha256": hashlib.sha256(content).hexdigest(), "size": len(content)}
        for name, content in files.items()
    }
    job = hashlib.sha256(EXAMPLE.read_bytes()).hexdigest()
    assert told["job"] == {"file": "job.yaml", "sha256": job}
    assert told["preliminary"] is False
    assert str(ROOT) not in (out / "manifest.json").read_text(encoding="utf-8")


@pytest.mark.parametrize("seed", ["0", "1"])
def test_bytes_are_the_same_under_any_hash_seed(seed: str, out: Path, tmp_path: Path) -> None:
    command = [sys.executable, "-m", "planset", "draw", str(EXAMPLE), "-o", str(tmp_path / "out")]
    environment = os.environ | {"PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)}
    subprocess.run(command, check=True, capture_output=True, env=environment, cwd=tmp_path)
    assert held(tmp_path / "out") == held(out)


# --- title blocks and symbols --------------------------------------------------------------

TITLE_BLOCK = "title_block: strip-11x17"


def problem_of(job: Path) -> str:
    with pytest.raises(JobErrors) as caught:
        check(job)
    (problem,) = caught.value.problems
    assert problem.line is not None
    assert "title_block" in job.read_text(encoding="utf-8").splitlines()[problem.line - 1]
    return str(problem)


def test_a_title_block_beside_the_job(tmp_path: Path) -> None:
    (tmp_path / "own").mkdir()
    source = drawings_folder("titleblocks") / "strip-11x17.dxf"
    (tmp_path / "own" / "ours.dxf").write_bytes(source.read_bytes())
    job = edited(tmp_path, (TITLE_BLOCK, "title_block: own/ours.dxf"))
    assert {page.titleblock for page in pages(check(job))} == {"ours"}


@pytest.mark.parametrize("name", ["no-such", "no-such.dxf", "../titleblocks/strip-11x17", "."])
def test_a_title_block_that_is_not_there(name: str, tmp_path: Path) -> None:
    told = problem_of(edited(tmp_path, (TITLE_BLOCK, f"title_block: {name}")))
    assert f"drafting.title_block: no such title block (got {name}); use one of: " in told
    assert "strip-11x17" in told


def test_a_title_block_of_another_size(tmp_path: Path, resize: Callable[[Path], None]) -> None:
    resize(tmp_path)
    told = problem_of(edited(tmp_path))
    assert "the sheet of strip-11x17 is 11x17, where 24x36 is required" in told
    assert "name a title block of 24x36 (" in told


@pytest.fixture
def resize() -> Callable[[Path], None]:
    """Have the jurisdiction beside a job take sheets of 24x36."""

    def write(folder: Path) -> None:
        built_in = ROOT / "planset" / "catalog" / "data" / "jurisdictions" / "port-larkin.yaml"
        own = folder / "catalog" / "jurisdictions" / "port-larkin.yaml"
        own.parent.mkdir(parents=True)
        text = built_in.read_text(encoding="utf-8")
        assert text.count("size: 11x17") == 1
        own.write_text(text.replace("size: 11x17", "size: 24x36"), encoding="utf-8")

    return write
