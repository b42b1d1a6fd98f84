"""Words and exit codes."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from planset import __version__
from planset.cli import main
from planset.review.page_rule import PageRule
from planset.review.registry import PAGE_RULES
from planset.rules.registry import RULES
from planset.rules.rule import Rule
from tests.example_job import BROKEN, EXAMPLE, edited, hip_by_others, near_the_ridge

pytestmark = pytest.mark.usefixtures("examples_once")

FILES = (
    "planset.pdf",
    "crew.pdf",
    "planset.dxf",
    "materials.csv",
    "checks.json",
    "manifest.json",
)


@dataclass(frozen=True)
class Ended:
    """How a command ended."""

    code: int | str | None
    out: str
    err: str


Run = Callable[..., Ended]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Run:
    monkeypatch.setenv("COLUMNS", "100")

    def command(*arguments: str | Path) -> Ended:
        with pytest.raises(SystemExit) as ended:
            main([str(argument) for argument in arguments])
        said = capsys.readouterr()
        assert "Traceback" not in said.err
        return Ended(ended.value.code, said.out, said.err)

    return command


def words(text: str) -> str:
    """The text on one line, as it was before it was wrapped."""
    return " ".join(text.split())


def test_check_prints_findings_by_subject(run: Run) -> None:
    ended = run("check", EXAMPLE)
    assert (ended.code, ended.err) == (0, "")
    lines = ended.out.splitlines()
    assert max(map(len, lines)) <= 100
    assert lines[0].split() == ["result", "check", "is", "limit", "clause"]
    heads = ["FIRE ACCESS", "STRUCTURE", "LAYOUT", "ELECTRICAL", "DRAFTING", "CONTENTS"]
    assert [line for line in lines if line in heads] == heads
    (row,) = (line for line in lines if "Setback at the ridge" in line)
    assert row.startswith("pass ")
    assert row.endswith("IRC 2021 R324.6.2")
    assert "Nothing stands against the set." in lines


def test_check_tells_what_is_open_and_why(run: Run, tmp_path: Path) -> None:
    told = words(run("check", hip_by_others(tmp_path)).out)
    assert "open structure.by-others, " in told
    assert "The mounting of array A1 is by others; its attachments, loads and framing" in told
    assert "Something is open: draw would mark the set PRELIMINARY." in told


def test_check_gives_what_passes_by_one_rule_a_row(run: Run) -> None:
    told = words(run("check", EXAMPLE).out)
    assert told.count("pass Lag screws in withdrawal, ") == 1


def test_check_ends_with_a_caution(run: Run) -> None:
    told = words(run("check", EXAMPLE).out)
    assert told.endswith(
        "A plan set does not replace a licensed professional; the authority having jurisdiction "
        "and local code govern. On the roof: fall protection. At the wires: electric shock."
    )


def test_a_narrow_terminal_is_kept_to(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.chdir(EXAMPLE.parent)
    ended = run("check", EXAMPLE.name)
    assert 70 <= max(map(len, ended.out.splitlines())) <= 80


def test_a_failing_job(run: Run, tmp_path: Path) -> None:
    job = near_the_ridge(tmp_path, 12.0)
    ended = run("check", job)
    assert ended.code == 1
    told = words(ended.out)
    assert "fail fire.ridge-setback, IRC 2021 R324.6.2: is 1'-0\", limit 1'-6\"" in told
    assert f"{job}:" in told
    assert "Something fails: draw would write nothing." in told


def test_draw_refuses_a_failing_job(run: Run, tmp_path: Path) -> None:
    ended = run("draw", near_the_ridge(tmp_path, 12.0), "-o", tmp_path / "out")
    assert ended.code == 1
    assert "Nothing written, because something fails." in ended.out
    assert not (tmp_path / "out").exists()


def test_a_failing_job_can_be_drawn_as_a_draft(run: Run, tmp_path: Path) -> None:
    job = near_the_ridge(tmp_path, 12.0)
    ended = run("draw", job, "-o", tmp_path / "out", "--preliminary")
    assert ended.code == 0
    assert "Written, marked PRELIMINARY as asked:" in ended.out


def test_draw_names_what_it_wrote(run: Run, tmp_path: Path) -> None:
    ended = run("draw", EXAMPLE, "-o", tmp_path / "out")
    assert (ended.code, ended.err) == (0, "")
    lines = ended.out.splitlines()
    first = lines.index("Written for submittal:") + 1
    assert lines[first : first + len(FILES)] == [f"  {tmp_path / 'out' / name}" for name in FILES]


def test_draw_marks_what_is_open(run: Run, tmp_path: Path) -> None:
    ended = run("draw", hip_by_others(tmp_path), "-o", tmp_path / "out")
    assert ended.code == 0
    assert "Written, marked PRELIMINARY because something is open:" in ended.out.splitlines()


def test_draw_beside_an_edited_drawing(run: Run, tmp_path: Path) -> None:
    out = tmp_path / "out"
    run("draw", EXAMPLE, "-o", out)
    (out / "planset.dxf").write_text("the engineer's", encoding="utf-8")
    ended = run("draw", EXAMPLE, "-o", out)
    assert ended.code == 4
    assert f"Kept, since it is not as planset last wrote it: {out / 'planset.dxf'}" in ended.out
    assert f"  {out / 'planset.new.dxf'}\n" in ended.out


def test_a_broken_job(run: Run, tmp_path: Path) -> None:
    job = edited(tmp_path, *BROKEN)
    ended = run("draw", job, "-o", tmp_path / "out")
    assert (ended.code, ended.out) == (2, "")
    *problems, count = ended.err.splitlines()
    assert all(problem.startswith(f"{job}:") for problem in problems)
    assert [problem.split(": ")[1] for problem in problems] == [
        "site.exposure",
        "building.sprinklered",
    ]
    assert count == "2 problems"


def test_a_job_that_is_not_there(run: Run, tmp_path: Path) -> None:
    ended = run("check", tmp_path / "job.yaml")
    assert ended.code == 2
    assert ended.err.splitlines()[-1] == "1 problem"
    assert "no such file" in ended.err


@pytest.mark.parametrize("character", ["\u2192", "\u5bb6", "\U0001f3e0"])
def test_a_job_with_text_that_cannot_be_drawn(character: str, run: Run, tmp_path: Path) -> None:
    job = edited(tmp_path, ("name: Tallow Creek Residence", f"name: Tallow {character}"))
    ended = run("check", job)
    assert ended.code == 2
    assert "project.name: the drawing face has no " in ended.err


def test_a_folder_that_cannot_be(run: Run, tmp_path: Path) -> None:
    (tmp_path / "out").write_text("a file", encoding="utf-8")
    ended = run("draw", EXAMPLE, "-o", tmp_path / "out")
    assert (ended.code, ended.out) == (3, "")
    assert ended.err.startswith(f"cannot write the set into {tmp_path / 'out'}: ")
    assert len(ended.err.splitlines()) == 1


def test_findings_as_json(run: Run, tmp_path: Path) -> None:
    file = tmp_path / "findings.json"
    assert run("check", hip_by_others(tmp_path), "--json", file).code == 0
    outcomes = {record["outcome"] for record in json.loads(file.read_text(encoding="utf-8"))}
    assert {"pass", "open"} <= outcomes


def test_findings_of_a_failing_job_as_json(run: Run, tmp_path: Path) -> None:
    file = tmp_path / "findings.json"
    assert run("check", near_the_ridge(tmp_path, 12.0), "--json", file).code == 1
    assert json.loads(file.read_text(encoding="utf-8"))[0]["outcome"] == "fail"


def test_json_that_cannot_be_written(run: Run, tmp_path: Path) -> None:
    ended = run("check", EXAMPLE, "--json", tmp_path / "no-such-folder" / "findings.json")
    assert ended.code == 3
    assert ended.err.startswith("cannot write ")


def test_rules_are_listed(run: Run) -> None:
    ended = run("rules")
    assert ended.code == 0
    listed = [line.split()[0] for line in ended.out.splitlines() if not line.startswith(" ")]
    assert listed == ["rule", *(rule.id for rule in ALL_RULES)]


ALL_RULES: tuple[Rule | PageRule, ...] = (*RULES, *PAGE_RULES)


@pytest.mark.parametrize("rule", ALL_RULES, ids=lambda rule: rule.id)
def test_one_rule(rule: Rule | PageRule, run: Run) -> None:
    ended = run("rules", rule.id)
    assert ended.code == 0
    assert ended.out.startswith(f"{rule.id}\n{rule.title}\n")
    assert len(ended.out.splitlines()) >= 7  # and where it is from, and what it does


def test_a_rule_of_several_documents_names_each_with_its_clauses(run: Run) -> None:
    lines = run("rules", "fire.ridge-setback").out.splitlines()
    assert "IRC 2015 R324.7.2.5, 2018 R324.6.2, 2021 R324.6.2, 2024 R329.6.2" in lines
    (ifc,) = (line for line in lines if line.startswith("IFC"))
    assert ifc.endswith("2018 1204.2.1.2, 2021 1205.2.1.2, 2024 1205.2.1.2")
    assert "not in IRC 2012" in lines
    (listed,) = (row for row in run("rules").out.splitlines() if "fire.ridge-setback" in row)
    assert listed.endswith("  CFC, CRC, IFC, IRC, NFPA 1")


def test_an_unknown_rule(run: Run) -> None:
    ended = run("rules", "fire.no-such")
    assert ended.code == 2
    assert "no rule fire.no-such; `planset rules` lists them" in ended.err


@pytest.mark.parametrize("arguments", [(), ("draw", EXAMPLE), ("drwa",), ("check", "--jsn", "a")])
def test_words_it_does_not_know(arguments: tuple[str, ...], run: Run) -> None:
    assert run(*arguments).code == 2


def test_help_and_version(run: Run) -> None:
    assert run("--version").out == f"planset {__version__}\n"
    ended = run("--help")
    assert ended.code == 0
    for command in ("check", "draw", "rules", "jurisdiction", "catalog"):
        assert f"  {command} " in ended.out


def test_colors_only_where_wanted(run: Run) -> None:
    assert "\x1b" not in run("check", EXAMPLE).out


def test_help_imports_nothing_heavy() -> None:
    code = (
        "import sys, planset.cli\n"
        "try: planset.cli.main(['--help'])\n"
        "except SystemExit: pass\n"
        "print(*sys.modules, sep='\\n', file=sys.stderr)"
    )
    ended = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = set(ended.stderr.split())
    assert "typer" in loaded
    heavy = {"pydantic", "shapely", "ezdxf", "reportlab", "numpy", "ruamel.yaml", "rich"}
    assert loaded & heavy == set()
    assert {name for name in loaded if name.startswith("planset.")} == {
        "planset.cli",
        "planset.errors",
    }


def test_the_package_runs_as_a_module() -> None:
    command = [sys.executable, "-m", "planset", "--version"]
    ended = subprocess.run(command, capture_output=True, text=True, check=True)
    assert ended.stdout == f"planset {__version__}\n"
