"""Drawing again after every save: what is seen, what is said, and how it ends."""

from __future__ import annotations

import itertools
import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from planset import watch
from planset.catalog.library import PACKAGE_DATA
from planset.cli import main
from planset.resources import drawings_folder
from planset.watch import saves
from tests.example_job import edited

Step = Callable[[], object]
_ticks = itertools.count(1)


def save(path: Path, text: str) -> None:
    """Write a file as an editor does, at a time of its own whatever the file system's clock."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    touch(path)


def touch(path: Path) -> None:
    at = 1_800_000_000_000_000_000 + next(_ticks)
    os.utime(path, ns=(at, at))


def nothing() -> None:
    """A pause in which nobody saves."""


def in_pauses(*steps: Step) -> Step:
    """A pause that takes one step each time; the test fails when it is asked for one more."""
    left = iter(steps)

    def pause() -> None:
        next(left)()

    return pause


@pytest.fixture
def job(tmp_path: Path) -> Path:
    return edited(tmp_path)


def test_the_first_drawing_waits_for_no_save(job: Path) -> None:
    assert next(saves(job, in_pauses())) == []


def own_module(job: Path) -> Path:
    return job.parent / "catalog" / "modules" / "tr-402.yaml"


def second(told: Iterator[list[Path]]) -> list[Path]:
    assert next(told) == []
    return next(told)


def test_a_save_is_told_when_it_rests(job: Path) -> None:
    pause = in_pauses(
        nothing,
        lambda: save(job, ""),  # some editors empty the file first
        lambda: save(job, "planset: 1\n"),
        nothing,
    )
    assert second(saves(job, pause)) == [job]


def test_a_catalog_file_that_is_made_changed_and_removed(job: Path) -> None:
    text = (PACKAGE_DATA / "modules" / "tr-402.yaml").read_text(encoding="utf-8")
    path = own_module(job)
    for step in (
        lambda: save(path, text),
        lambda: save(path, text.replace("402", "403")),
        path.unlink,
    ):
        assert second(saves(job, in_pauses(step, nothing))) == [path]


def test_its_title_block(job: Path) -> None:
    block = job.parent / "ours.dxf"
    shutil.copy(drawings_folder("titleblocks") / "strip-11x17.dxf", block)
    text = job.read_text(encoding="utf-8").replace("strip-11x17", "ours.dxf")
    told = saves(
        job,
        in_pauses(
            lambda: touch(block),  # not its title block yet
            lambda: save(job, text),
            nothing,
            lambda: touch(block),
            nothing,
            lambda: save(job, "broken: [\n"),  # the one it named last is kept in sight
            nothing,
            lambda: touch(block),
            nothing,
        ),
    )
    assert next(told) == []
    assert [next(told) for _ in range(4)] == [[job], [block], [job], [block]]


def test_a_job_that_vanishes_and_comes_back(job: Path) -> None:
    told = saves(job, in_pauses(job.unlink, nothing, lambda: save(job, "a: 1\n"), nothing))
    assert next(told) == []
    assert [next(told), next(told)] == [[job], [job]]


def test_a_save_while_it_draws_is_not_missed(job: Path) -> None:
    told = saves(job, in_pauses(nothing, nothing))
    assert next(told) == []
    save(job, "planset: 1\n")
    assert next(told) == [job]


def test_other_files_are_nothing_to_it(job: Path) -> None:
    steps = [
        lambda: save(job.parent / "notes.txt", "call back"),
        lambda: save(job.parent / "out" / "planset.dxf", "drawn"),
    ]
    told = saves(job, in_pauses(*steps))
    assert next(told) == []
    with pytest.raises(RuntimeError):  # of the pauses: no save ended the waiting
        next(told)


def test_the_command_draws_again_survives_a_broken_save_and_ends_well(
    job: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    out = job.parent / "out"
    good = job.read_text(encoding="utf-8")
    sets: list[bytes] = []

    def end() -> None:
        raise KeyboardInterrupt

    def look() -> None:
        sets.append((out / "manifest.json").read_bytes())

    steps = iter(
        (
            look,
            lambda: save(job, good.replace("exposure: B", "exposure: Q")),
            nothing,
            look,
            lambda: save(job, good.replace("J. Orme", "A. Venn")),
            nothing,
            look,
            end,
        )
    )
    monkeypatch.setattr(watch.time, "sleep", lambda _: next(steps)())
    with pytest.raises(SystemExit) as ended:
        main(["draw", str(job), "-o", str(out), "--watch"])
    said = capsys.readouterr()
    assert ended.value.code == 0
    assert "Traceback" not in said.err
    assert f"{job}:32: site.exposure: not an accepted value (got Q)" in said.err
    assert said.out.count("Written for submittal") == 2
    assert said.out.count(f"Saved: {job}") == 2
    assert said.out.endswith("Ended.\n")
    assert sets[0] == sets[1] != sets[2]
