"""Whatever slips into a job file: an answer in time, no traceback, and a folder that is whole.

All in one process, through the command. Every mutated job is checked, design, rules, sheets and
review included; a seeded sample is drawn, and so written as well. In CI 300 jobs, each of which
lists a seeded few of its sheets; the long run goes on to 10,000 and draws all sheets.
"""

from __future__ import annotations

import hashlib
import json
import random
import re
import time
from collections import Counter
from pathlib import Path

import pytest

from planset.cli import main
from tests.mutated_jobs import mutated

EXAMPLES = sorted((Path(__file__).parents[1] / "examples").glob("*/job.yaml"))
COUNT, LONG_COUNT = 300, 10_000
BATCH = 50  # jobs of one test, so that several processes share the work
WRITTEN_SHARE = 0.25
LONGEST_S = 5.0
FEW_SHEETS = 4

DONE, FAILED, UNUSABLE = 0, 1, 2


def run(*arguments: str | Path) -> tuple[int | str | None, float]:
    """Exit code of a command, and the processor time it took [s]: others may load the machine."""
    started = time.process_time()
    with pytest.raises(SystemExit) as ended:
        main([str(argument) for argument in arguments])
    return ended.value.code, time.process_time() - started


def with_few_sheets(text: str, seed: int) -> str:
    """Return a job with a seeded few of its sheets."""
    found = re.search(r"sheets: \[(.*)\]", text)
    assert found
    sheets = found[1].split(", ")
    few = random.Random(seed).sample(sheets, FEW_SHEETS)
    kept = [sheet for sheet in sheets if sheet in few or sheet == "G-001"]
    return text.replace(found[0], f"sheets: [{', '.join(kept)}]")


def held(out: Path) -> dict[str, bytes]:
    if not out.exists():
        return {}
    return {str(path.relative_to(out)): path.read_bytes() for path in out.rglob("*")}


def is_whole(out: Path) -> bool:
    """Whether a folder holds one complete set, as its manifest tells, and nothing else."""
    files = held(out)
    told = json.loads(files.pop("manifest.json"))["files"]
    found = {
        name: {"sha256": hashlib.sha256(content).hexdigest(), "size": len(content)}
        for name, content in files.items()
    }
    return bool(told == found and {"planset.pdf", "planset.dxf", "checks.json"} <= found.keys())


def refusals_point_at(said: str) -> bool:
    """Whether every line but the last, which counts them, begins with a file."""
    lines = said.splitlines()
    return bool(re.fullmatch(r"[0-9]+ problems?", lines[-1])) and all(
        re.match(r"\S+\.(?:yaml|dxf)(?::[0-9]+)?: ", line) for line in lines[:-1]
    )


def answers(
    seeds: range,
    folder: Path,
    capsys: pytest.CaptureFixture[str],
    examples: list[Path],
    *,
    every_sheet: bool = False,
) -> Counter[int | str | None]:
    """Check or draw a mutated job per seed; count the exit codes."""
    counted: Counter[int | str | None] = Counter()
    job, out = folder / "job.yaml", folder / "out"
    for seed in seeds:
        example = examples[seed % len(examples)]
        text = example.read_text(encoding="utf-8")
        text = text if every_sheet else with_few_sheets(text, seed)
        job.write_text(mutated(text, seed), encoding="utf-8")
        before = held(out)
        written = random.Random(seed).random() < WRITTEN_SHARE
        command = ["draw", job, "-o", out, "--preliminary"] if written else ["check", job]
        where = f"seed {seed} of {example.parent.name}"
        try:
            code, taken = run(*command)
            said = capsys.readouterr()
            assert code in (DONE, FAILED, UNUSABLE), where
            assert taken < LONGEST_S, where
            assert "Traceback" not in said.err, where
            assert code != UNUSABLE or refusals_point_at(said.err), where
            assert is_whole(out) if written and code == DONE else held(out) == before, where
        except Exception as error:
            error.add_note(where)
            raise
        counted[code] += 1
    return counted


def batches(count: int) -> list[range]:
    return [range(first, first + BATCH) for first in range(0, count, BATCH)]


@pytest.mark.parametrize("seeds", batches(COUNT), ids=lambda seeds: f"from-{seeds.start}")
def test_mutated_jobs(seeds: range, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    counted = answers(seeds, tmp_path, capsys, EXAMPLES)
    assert counted[DONE] + counted[FAILED] + counted[UNUSABLE] == BATCH
    assert counted[UNUSABLE] >= BATCH / 4
    assert counted[DONE] + counted[FAILED] > 0


@pytest.mark.long
@pytest.mark.parametrize(
    "seeds", batches(LONG_COUNT - COUNT), ids=lambda seeds: f"from-{seeds.start + COUNT}"
)
def test_very_many_mutated_jobs(
    seeds: range, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    further = range(seeds.start + COUNT, seeds.stop + COUNT)
    assert answers(further, tmp_path, capsys, EXAMPLES, every_sheet=True).total() == BATCH


def test_equal_seeds_make_equal_jobs() -> None:
    text = EXAMPLES[0].read_text(encoding="utf-8")
    assert mutated(text, 7) == mutated(text, 7)
    assert len({mutated(text, seed) for seed in range(100)}) > 80
