"""A set on disk is the earlier one or the new one, and never what someone else made."""

from __future__ import annotations

import errno
import fcntl
import hashlib
import json
import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from functools import partial
from itertools import count
from pathlib import Path

import pytest

from planset.errors import MachineError
from planset.finding import Finding, Outcome
from planset.output.commit import STAGE, Written, finish_interrupted, write_set
from planset.output.json_text import write_checks
from planset.output.machine import LOCK, machine_errors, only_run
from planset.output.manifest import MANIFEST, FileRecord, read_manifest

Files = dict[str, bytes]

OLD: Files = {"planset.pdf": b"old pdf", "planset.dxf": b"old dxf", "checks.json": b"old checks"}
NEW: Files = {"planset.pdf": b"new pdf", "planset.dxf": b"new dxf", "checks.json": b"new checks"}
NEWER: Files = {name: b"newer " + name.encode() for name in NEW}


class Killed(BaseException):
    """The process ends here."""


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "job.yaml"
    path.write_text("planset: 1\n", encoding="utf-8")
    return path


@pytest.fixture
def out(tmp_path: Path) -> Path:
    return tmp_path / "out"


def write(out: Path, job: Path, files: Files) -> Written:
    def write_file(content: bytes, path: Path) -> None:
        path.write_bytes(content)

    writers = {name: partial(write_file, content) for name, content in files.items()}
    return write_set(out, job, revision="0", preliminary=True, writers=writers)


def held(folder: Path) -> Files:
    """Everything in a folder, its subfolders included."""
    files = (path for path in folder.rglob("*") if path.is_file())
    return {str(path.relative_to(folder)): path.read_bytes() for path in files}


def listed(out: Path) -> set[str]:
    manifest = read_manifest(out / MANIFEST)
    assert manifest is not None
    for name, record in manifest.files.items():
        content = (out / name).read_bytes()
        assert record == FileRecord(hashlib.sha256(content).hexdigest(), len(content))
    return set(manifest.files)


def test_a_set_and_its_manifest(out: Path, job: Path) -> None:
    written = write(out, job, OLD)
    assert written == Written(tuple(out / name for name in (*OLD, MANIFEST)), ())
    assert json.loads((out / MANIFEST).read_text(encoding="utf-8")) == {
        "planset": "0.1.0",
        "job": {"file": "job.yaml", "sha256": hashlib.sha256(b"planset: 1\n").hexdigest()},
        "revision": "0",
        "preliminary": True,
        "files": {
            name: {"sha256": hashlib.sha256(content).hexdigest(), "size": len(content)}
            for name, content in OLD.items()
        },
    }
    assert held(out).keys() == {*OLD, MANIFEST}


def test_the_folders_above_are_made(tmp_path: Path, job: Path) -> None:
    write(tmp_path / "a" / "b", job, OLD)
    assert listed(tmp_path / "a" / "b") == set(OLD)


def test_a_new_set_replaces_an_old_one(out: Path, job: Path) -> None:
    write(out, job, OLD)
    assert write(out, job, NEW).kept == ()
    assert held(out) == {**NEW, MANIFEST: (out / MANIFEST).read_bytes()}
    assert listed(out) == set(NEW)


def test_the_same_set_again_changes_no_byte(out: Path, job: Path) -> None:
    write(out, job, OLD)
    before = held(out)
    write(out, job, OLD)
    assert held(out) == before


def whole_set(tmp_path: Path, job: Path, files: Files) -> Files:
    folder = tmp_path / "undisturbed"
    write(folder, job, files)
    return held(folder)


CALLS = ("replace", "unlink", "fsync", "open", "rmdir", "mkdir")


class Killer:
    """Has the process die instead of its nth call of a kind: nothing is done from then on."""

    def __init__(self, call: str, nth: int) -> None:
        self._call = call
        self._left = nth
        self._descriptors: set[int] = set()
        self.struck = False

    def _stand_in(self, name: str) -> Callable[..., object]:
        real = getattr(os, name)

        def call(*args: object, **named: object) -> object:
            if name == self._call and not self.struck:
                self._left -= 1
                self.struck = self._left == 0
            if self.struck:
                raise Killed
            result = real(*args, **named)
            if name == "open":
                self._descriptors.add(result)
            if name == "close":
                self._descriptors.discard(args[0])
            return result

        return call

    @contextmanager
    def at_work(self) -> Iterator[None]:
        """Run until killed; what the dead process held open is closed, as the system does."""
        with pytest.MonkeyPatch.context() as patched:
            for name in (*CALLS, "close"):
                patched.setattr(os, name, self._stand_in(name))
            with suppress(Killed):
                yield
        for descriptor in self._descriptors:
            os.close(descriptor)


def killed_before_moving(out: Path, job: Path, files: Files) -> None:
    with Killer("replace", 1).at_work():
        write(out, job, files)
    assert (out / STAGE / MANIFEST).exists()


@pytest.mark.parametrize("earlier", [OLD, {}], ids=["over an old set", "into a new folder"])
@pytest.mark.parametrize("call", CALLS)
def test_killed_at_any_call_and_run_once_more(
    call: str, earlier: Files, tmp_path: Path, job: Path
) -> None:
    old = whole_set(tmp_path / "old", job, earlier) if earlier else {}
    new = whole_set(tmp_path / "new", job, NEW)
    after_one_more_run = []
    for nth in count(1):
        out = tmp_path / f"killed-{nth}"
        if earlier:
            write(out, job, earlier)
        killer = Killer(call, nth)
        with killer.at_work():
            write(out, job, NEW)
        if not killer.struck:
            break
        finish_interrupted(out)
        after = held(out)
        after.pop(LOCK, None)  # may be left, bars nobody
        assert after in (old, new)
        assert not (out / STAGE).exists()
        after_one_more_run.append(after == new)
        write(out, job, NEW)
        assert held(out) == new
    assert after_one_more_run, "the call was never made"
    assert after_one_more_run == sorted(after_one_more_run)  # once new, never old again
    if call == "replace":
        assert all(after_one_more_run)  # from the first move on, the stage is complete


def test_a_full_disk_while_staging_leaves_the_old_set(
    out: Path, job: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(out, job, OLD)
    before = held(out)

    def full(path: Path) -> None:
        path.write_bytes(b"half")
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(path))

    with pytest.raises(
        MachineError, match=r"cannot write the set into .*No space.*free some space"
    ):
        write_set(out, job, revision="0", preliminary=False, writers={"planset.pdf": full})
    assert held(out) == before
    assert {path.name for path in out.iterdir()} == {*OLD, MANIFEST}


def test_a_submitted_revision_is_not_written_over(out: Path, job: Path) -> None:
    def draw(revision: str, content: bytes, *, preliminary: bool = False) -> None:
        def write_pdf(path: Path) -> None:
            path.write_bytes(content)

        write_set(
            out, job, revision=revision, preliminary=preliminary, writers={"planset.pdf": write_pdf}
        )

    draw("0", b"a draft", preliminary=True)
    draw("1", b"of a draft nothing need stay", preliminary=True)
    draw("0", b"handed in")
    before = held(out)
    with pytest.raises(MachineError, match="holds revision 0, written for submittal.*revision 1"):
        draw("1", b"corrected")
    assert held(out) == before
    draw("0", b"drawn again")
    assert held(out)["planset.pdf"] == b"drawn again"


def test_a_failed_first_run_leaves_no_folder(out: Path, job: Path) -> None:
    def full(path: Path) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(path))

    with pytest.raises(MachineError):
        write_set(out, job, revision="0", preliminary=False, writers={"planset.pdf": full})
    assert not out.exists()


def test_a_bug_while_staging_is_not_called_a_machine_error(out: Path, job: Path) -> None:
    def broken(path: Path) -> None:
        raise ValueError(path.name)

    with pytest.raises(ValueError, match=r"planset\.pdf"):
        write_set(out, job, revision="0", preliminary=False, writers={"planset.pdf": broken})
    assert not out.exists()


def test_a_read_only_folder(out: Path, job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write(out, job, OLD)
    before = held(out)

    def read_only(path: str, *_: object) -> int:
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))

    with monkeypatch.context() as patched:
        patched.setattr(os, "open", read_only)
        with pytest.raises(MachineError, match=r"Permission denied.*you may write to"):
            write(out, job, NEW)
    assert held(out) == before


def test_a_file_where_the_folder_should_be(out: Path, job: Path) -> None:
    out.write_bytes(b"a file")
    with pytest.raises(MachineError, match="a file stands in its place"):
        write(out, job, OLD)
    with pytest.raises(MachineError, match="a file stands in its place"):
        write(out / "below", job, OLD)
    assert out.read_bytes() == b"a file"


def test_a_move_that_fails_is_finished_by_the_next_run(
    out: Path, job: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(out, job, OLD)
    moves = []

    def held_open(source: Path, target: Path) -> None:
        moves.append(target)
        if len(moves) == 2:
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(target))
        os.rename(source, target)

    with monkeypatch.context() as patched:
        patched.setattr(os, "replace", held_open)
        with pytest.raises(MachineError):
            write(out, job, NEW)
    finish_interrupted(out)
    assert held(out) == {**NEW, MANIFEST: (out / MANIFEST).read_bytes()}
    assert listed(out) == set(NEW)


# --- what others made ----------------------------------------------------------------------


def test_an_edited_drawing_stays_twice_in_a_row(out: Path, job: Path) -> None:
    write(out, job, OLD)
    (out / "planset.dxf").write_bytes(b"the engineer's")
    for files in (NEW, NEWER):
        written = write(out, job, files)
        assert written.kept == (out / "planset.dxf",)
        assert out / "planset.new.dxf" in written.paths
        assert out / "planset.dxf" not in written.paths
        assert (out / "planset.dxf").read_bytes() == b"the engineer's"
        assert (out / "planset.new.dxf").read_bytes() == files["planset.dxf"]
        assert listed(out) == {"planset.pdf", "planset.new.dxf", "checks.json"}
    assert held(out).keys() == {*OLD, "planset.new.dxf", MANIFEST}


def test_once_the_edited_drawing_is_put_away_ours_takes_its_name(out: Path, job: Path) -> None:
    write(out, job, OLD)
    (out / "planset.dxf").write_bytes(b"the engineer's")
    write(out, job, NEW)
    (out / "planset.dxf").rename(out / "engineer.dxf")
    assert write(out, job, NEWER).kept == ()
    assert listed(out) == set(NEWER)
    assert held(out).keys() == {*NEWER, MANIFEST, "engineer.dxf"}


def test_once_ours_is_taken_over_it_is_replaced_again(out: Path, job: Path) -> None:
    write(out, job, OLD)
    (out / "planset.dxf").write_bytes(b"the engineer's")
    write(out, job, NEW)
    (out / "planset.new.dxf").replace(out / "planset.dxf")
    assert write(out, job, NEWER).kept == ()
    assert (out / "planset.dxf").read_bytes() == NEWER["planset.dxf"]


def test_ours_beside_it_may_be_edited_as_well(out: Path, job: Path) -> None:
    write(out, job, OLD)
    (out / "planset.dxf").write_bytes(b"the engineer's")
    write(out, job, NEW)
    (out / "planset.new.dxf").write_bytes(b"the engineer's second")
    write(out, job, NEWER)
    assert (out / "planset.dxf").read_bytes() == b"the engineer's"
    assert (out / "planset.new.dxf").read_bytes() == b"the engineer's second"
    assert (out / "planset.new.2.dxf").read_bytes() == NEWER["planset.dxf"]


def test_files_of_others_stay(out: Path, job: Path) -> None:
    theirs = {"notes.txt": b"call back", "planset.pdf": b"stamped", "sub/planset.dxf": b"another"}
    (out / "sub").mkdir(parents=True)
    for name, content in theirs.items():
        (out / name).write_bytes(content)
    for files in (OLD, NEW):
        assert write(out, job, files).kept == (out / "planset.pdf",)
        assert theirs.items() <= held(out).items()
        assert (out / "planset.new.pdf").read_bytes() == files["planset.pdf"]


def test_a_folder_of_the_drawings_name_stays(out: Path, job: Path) -> None:
    (out / "planset.dxf").mkdir(parents=True)
    assert write(out, job, OLD).kept == (out / "planset.dxf",)
    assert (out / "planset.dxf").is_dir()


@pytest.mark.parametrize(
    "theirs",
    ['{"name": "a web page"}', "[]", "not JSON", '{"planset": "0.1.0", "job": {"file": "j"'],
)
def test_a_manifest_of_others_is_not_overwritten(theirs: str, out: Path, job: Path) -> None:
    out.mkdir()
    (out / MANIFEST).write_text(theirs, encoding="utf-8")
    with pytest.raises(MachineError, match=r"manifest\.json is not one of ours; move it away"):
        write(out, job, OLD)
    assert held(out) == {MANIFEST: theirs.encode()}


def test_a_manifest_cannot_lead_out_of_its_folder(out: Path, job: Path, tmp_path: Path) -> None:
    outside = tmp_path / "precious.txt"
    outside.write_bytes(b"content")
    write(out, job, {"precious.txt": b"content"})
    text = (out / MANIFEST).read_text(encoding="utf-8")
    (out / MANIFEST).write_text(text.replace("precious", "../precious"), encoding="utf-8")
    with pytest.raises(MachineError, match="not one of ours"):
        write(out, job, OLD)
    assert outside.read_bytes() == b"content"


def test_files_a_new_set_no_longer_has_are_removed_unless_edited(out: Path, job: Path) -> None:
    write(out, job, {**OLD, "crew.pdf": b"crew", "materials.csv": b"list"})
    (out / "materials.csv").write_bytes(b"list, priced")
    write(out, job, NEW)
    assert not (out / "crew.pdf").exists()
    assert (out / "materials.csv").read_bytes() == b"list, priced"


def test_an_edit_between_a_crash_and_the_next_run_stays(out: Path, job: Path) -> None:
    write(out, job, OLD)
    killed_before_moving(out, job, NEW)
    (out / "planset.dxf").write_bytes(b"the engineer's")
    finish_interrupted(out)
    assert (out / "planset.dxf").read_bytes() == b"the engineer's"
    assert (out / "planset.new.dxf").read_bytes() == NEW["planset.dxf"]
    assert listed(out) == {"planset.pdf", "planset.new.dxf", "checks.json"}


@pytest.mark.parametrize("damaged", ["planset.pdf", MANIFEST])
def test_a_damaged_stage_is_discarded(damaged: str, out: Path, job: Path) -> None:
    write(out, job, OLD)
    before = held(out)
    killed_before_moving(out, job, NEW)
    half = (out / STAGE / damaged).read_bytes()
    (out / STAGE / damaged).write_bytes(half[: len(half) // 2])
    finish_interrupted(out)
    assert held(out) == before


# --- one run at a time ---------------------------------------------------------------------


@pytest.fixture
def busy(out: Path) -> Iterator[None]:
    """Another run in the folder; a second descriptor locks as a second process does."""
    out.mkdir()
    descriptor = os.open(out / LOCK, os.O_RDWR | os.O_CREAT)
    fcntl.flock(descriptor, fcntl.LOCK_EX)
    yield
    os.close(descriptor)


@pytest.mark.usefixtures("busy")
def test_two_runs_in_one_folder(out: Path, job: Path) -> None:
    with pytest.raises(MachineError, match="another run is writing into"):
        write(out, job, OLD)
    assert held(out).keys() == {LOCK}


@pytest.mark.usefixtures("busy")
def test_the_stage_of_another_run_is_left_alone(out: Path) -> None:
    (out / STAGE).mkdir()
    with pytest.raises(MachineError, match="another run is writing into"):
        finish_interrupted(out)
    assert (out / STAGE).is_dir()


def test_a_lock_file_left_over_bars_nobody(out: Path, job: Path) -> None:
    out.mkdir()
    (out / LOCK).touch()
    write(out, job, OLD)
    assert held(out).keys() == {*OLD, MANIFEST}


def test_a_lock_file_removed_between_opening_and_locking_is_made_anew(
    out: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out.mkdir()
    lock = fcntl.flock
    calls = []

    def slow(descriptor: int, how: int) -> None:
        calls.append(how)
        if len(calls) == 1:
            (out / LOCK).unlink()
        lock(descriptor, how)

    monkeypatch.setattr(fcntl, "flock", slow)
    with only_run(out):
        assert (out / LOCK).exists()
    assert len(calls) == 2
    assert not (out / LOCK).exists()


def test_nothing_to_finish_touches_nothing(out: Path) -> None:
    finish_interrupted(out)
    assert not out.exists()


# --- findings ------------------------------------------------------------------------------


def test_checks_are_sorted_records(tmp_path: Path) -> None:
    def finding(rule: str, outcome: Outcome) -> Finding:
        return Finding(rule=rule, title="A", outcome=outcome, citation="c", message="m")

    first, second, third = (
        finding("b", Outcome.FAIL),
        finding("a", Outcome.PASS),
        finding("c", Outcome.PASS),
    )
    write_checks([third, second, first], tmp_path / "checks.json")
    text = (tmp_path / "checks.json").read_text(encoding="utf-8")
    assert text.endswith("}\n]\n")
    assert json.loads(text) == [f.as_record() for f in (first, second, third)]


def test_an_error_without_a_file_name_is_told_too() -> None:
    told = "cannot draw: broken pipe; mend that and run again"
    with pytest.raises(MachineError, match=told), machine_errors("draw"):
        raise OSError("broken pipe")
