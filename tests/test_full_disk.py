"""Drawing onto a disk that is full or read-only, or into a folder another run is at work in."""

from __future__ import annotations

import builtins
import errno
import io
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from planset import pipeline
from planset.errors import MachineError
from planset.output.commit import STAGE, finish_interrupted
from planset.pipeline import Checked, check, draw
from tests.example_job import EXAMPLE, edited, sheets
from tests.test_output import OLD, held

ROOT = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def other(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The example drawn by someone else, with two sheets, which are soon written."""
    name = ("drawn_by: J. Orme", "drawn_by: A. Venn")
    return edited(tmp_path_factory.mktemp("other"), name, sheets("G-001", "A-101"))


@pytest.fixture(scope="module")
def computed(other: Path) -> Checked:
    return check(other)


@pytest.fixture
def quick(computed: Checked, monkeypatch: pytest.MonkeyPatch) -> None:
    """Compute the other job once for all runs: no file of the folder is touched by that."""
    monkeypatch.setattr(pipeline, "_run", lambda *_, **__: computed)


class _Filling:
    """A file on a disk with so much room left."""

    def __init__(self, stream: Any, disk: Disk) -> None:
        self._stream, self._disk = stream, disk

    def __getattr__(self, name: str) -> Any:
        return getattr(self._stream, name)

    def __enter__(self) -> _Filling:
        return self

    def __exit__(self, *_: object) -> None:
        self._stream.close()

    def __iter__(self) -> Iterator[Any]:
        return iter(self._stream)

    def write(self, content: Any) -> int:
        self._disk.writes += 1
        if self._disk.writes > self._disk.room:
            self._stream.write(content[: len(content) // 2])
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        return int(self._stream.write(content))


@dataclass
class Disk:
    """How many writes a disk takes, and how many there were."""

    room: int
    writes: int = 0

    def open(self, file: Any, mode: str = "r", *rest: Any, **named: Any) -> Any:
        stream = _open(file, mode, *rest, **named)
        return _Filling(stream, self) if "w" in mode or "x" in mode else stream


_open = io.open


def write_with(disk: Disk, job: Path, out: Path) -> bool:
    """Draw onto a disk; tell whether there was room."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(builtins, "open", disk.open)
        patched.setattr(io, "open", disk.open)
        try:
            draw(job, out)
        except MachineError as full:
            told = str(full)
        else:
            return True
    assert "free some space and run again" in told
    return False


@pytest.mark.usefixtures("quick")
@pytest.mark.parametrize("earlier", [True, False], ids=["over an old set", "into a new folder"])
def test_a_disk_that_fills_at_any_write(earlier: bool, other: Path, tmp_path: Path) -> None:
    """The room ends at each of the first and last writes, and at some of the many between."""
    start, undisturbed = tmp_path / "start", tmp_path / "undisturbed"
    if earlier:
        start.mkdir()
        for name, content in {**OLD, "notes.txt": b"call back"}.items():
            (start / name).write_bytes(content)
        shutil.copytree(start, undisturbed)
    counted = Disk(room=10**9)
    assert write_with(counted, other, undisturbed)
    old, new = held(start), held(undisturbed)
    total = counted.writes
    assert total > 5  # PDF, DXF, materials, checks, two manifests
    for room in sorted({*range(5), *range(0, total, total // 8), *range(total - 4, total)}):
        out = tmp_path / str(room)
        if earlier:
            shutil.copytree(start, out)
        assert not write_with(Disk(room), other, out)
        staged = {name for name in held(out) if name.startswith(STAGE)}
        assert {name: held(out)[name] for name in held(out).keys() - staged} == old
        assert not staged or room == total - 1  # only the last write comes after a whole stage
        finish_interrupted(out)
        assert held(out) == (new if staged else old)


# --- a file system of our own --------------------------------------------------------------


def mounted(*words: str | Path) -> bool:
    ended = subprocess.run(["mount", *map(str, words)], capture_output=True, check=False)
    return ended.returncode == 0


@pytest.fixture
def small(tmp_path: Path) -> Iterator[Path]:
    """A folder of half a megabyte, where the machine lets us mount one."""
    folder = tmp_path / "small"
    folder.mkdir()
    if sys.platform != "linux" or not mounted("-t", "tmpfs", "-o", "size=512k", "small", folder):
        pytest.skip("no file system may be mounted here")
    yield folder
    subprocess.run(["umount", folder], check=True)


@pytest.mark.usefixtures("quick")
def test_a_small_disk(other: Path, small: Path, tmp_path: Path) -> None:
    draw(other, tmp_path / "elsewhere")
    used = sum(map(len, held(tmp_path / "elsewhere").values())) // 1024
    out = small / "out"
    for size in range(16, used, used // 8):
        assert mounted("-o", f"remount,size={size}k", small)
        with pytest.raises(MachineError, match="No space left on device.*free some space"):
            draw(other, out)
        assert not out.exists()
    assert mounted("-o", "remount,size=8m", small)
    draw(other, out)
    old = held(out)
    for more in (20, used // 4, used // 2):
        assert mounted("-o", f"remount,size={used + more}k", small)
        with pytest.raises(MachineError, match="free some space"):
            draw(other, out)
        assert held(out) == old
    assert mounted("-o", "remount,size=8m", small)
    draw(other, out)
    assert held(out) == old


@pytest.mark.usefixtures("quick")
def test_a_read_only_disk(other: Path, small: Path) -> None:
    assert mounted("-o", "remount,size=8m", small)
    draw(other, small / "out")
    old = held(small / "out")
    assert mounted("-o", "remount,ro", small)
    for out in (small / "out", small / "new"):
        with pytest.raises(MachineError, match="name a place that is not read-only"):
            draw(other, out)
    assert held(small / "out") == old
    assert not (small / "new").exists()


@pytest.mark.usefixtures("quick")
@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may write anywhere")
def test_a_folder_we_may_not_write_to(other: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    draw(other, out)
    old = held(out)
    out.chmod(0o555)
    try:
        with pytest.raises(MachineError, match="name a place you may write to"):
            draw(other, out)
        assert held(out) == old
    finally:
        out.chmod(0o755)


@pytest.mark.parametrize(
    "name", ["planset.pdf", "planset.dxf", "materials.csv", "checks.json", "manifest.json"]
)
@pytest.mark.usefixtures("quick")
def test_a_read_only_file(name: str, other: Path, tmp_path: Path) -> None:
    """One of ours is replaced, as its name is the folder's; one that was edited stays."""
    out = tmp_path / "out"
    draw(other, out)
    new = held(out)
    (out / name).chmod(0o444)
    assert draw(other, out).written is not None
    assert held(out) == new
    if name != "manifest.json":
        (out / name).chmod(0o644)
        (out / name).write_bytes(b"the engineer's")
        (out / name).chmod(0o444)
        written = draw(other, out).written
        assert written is not None
        assert written.kept == (out / name,)
        assert (out / name).read_bytes() == b"the engineer's"


# --- two runs ------------------------------------------------------------------------------


@pytest.mark.usefixtures("quick")
def test_a_second_run_while_the_first_writes(
    other: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "out"
    second = []
    write_checks = pipeline.write_checks

    def meanwhile(findings: Any, path: Path) -> None:
        command = [sys.executable, "-m", "planset", "draw", str(EXAMPLE), "-o", str(out)]
        second.append(subprocess.run(command, capture_output=True, text=True, check=False))
        write_checks(findings, path)

    monkeypatch.setattr(pipeline, "write_checks", meanwhile)
    draw(other, out)
    (ended,) = second
    assert ended.returncode == 3
    assert ended.stderr == f"another run is writing into {out}; run again when it has ended\n"
    monkeypatch.setattr(pipeline, "write_checks", write_checks)
    draw(other, tmp_path / "alone")
    assert held(out) == held(tmp_path / "alone")
