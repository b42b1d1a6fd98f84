"""A set moved into its folder whole: staged beside the old one, then file by file, manifest last.

A stage is complete when its manifest is there and each file it lists is in the stage or has been
moved already. The next run rolls a complete stage forward and discards any other, so after a crash
and one more run the folder holds the earlier set or the new one. What a person changed stays, and
ours goes beside it; files we did not write are never touched.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from itertools import count
from pathlib import Path, PurePath

from planset import __version__
from planset.errors import MachineError
from planset.output.machine import machine_errors, only_run
from planset.output.manifest import MANIFEST, Manifest, read_manifest, record_of

STAGE = ".next"
FINAL = "manifest.final.json"
"""In the stage: the manifest with the names the files get in the folder."""

Writer = Callable[[Path], None]


@dataclass(frozen=True, slots=True)
class Written:
    """What a run wrote.

    Attributes:
        paths: the files written, the manifest last.
        kept: files found changed, or written by others, that stand as they were; ours is beside.
    """

    paths: tuple[Path, ...]
    kept: tuple[Path, ...]


def finish_interrupted(out: Path) -> None:
    """Complete the set that an interrupted run left staged in a folder, or discard its remains.

    Raises:
        MachineError: The operating system refuses, or another run is in the folder.
    """
    if (out / STAGE).is_dir():
        with machine_errors(f"finish the interrupted run in {out}"), only_run(out):
            _settle(out)


def write_set(
    out: Path, job: Path, *, revision: str, preliminary: bool, writers: Mapping[str, Writer]
) -> Written:
    """Write a set into a folder, which is made when it does not exist.

    Args:
        out: The folder.
        job: The job file.
        revision: The revision of the set.
        preliminary: Whether the sheets are marked PRELIMINARY.
        writers: Per file name, what writes the file.

    Raises:
        MachineError: The operating system refuses, another run is in the folder, a file of
            others has the manifest's name, or the folder holds another revision that was written
            for submittal. The folder then holds what it held before, or a
            complete stage that the next run moves into place.
    """
    made = not out.exists()
    try:
        with machine_errors(f"write the set into {out}"):
            out.mkdir(parents=True, exist_ok=True)
            with only_run(out):
                _settle(out)
                _refuse_foreign_manifest(out)
                _refuse_another_revision(out, revision)
                return _commit(out, _stage(out / STAGE, job, revision, preliminary, writers))
    except BaseException:
        if made:
            with suppress(OSError):
                out.rmdir()
        raise


def _refuse_foreign_manifest(out: Path) -> None:
    path = out / MANIFEST
    if os.path.lexists(path) and read_manifest(path) is None:
        msg = f"{path} is not one of ours; move it away, or name another folder"
        raise MachineError(msg)


def _refuse_another_revision(out: Path, revision: str) -> None:
    earlier = read_manifest(out / MANIFEST)
    if earlier is not None and not earlier.preliminary and earlier.revision != revision:
        msg = (
            f"{out} holds revision {earlier.revision}, written for submittal, which stays as it "
            f"was handed in; name another folder for revision {revision}"
        )
        raise MachineError(msg)


def _stage(
    stage: Path, job: Path, revision: str, preliminary: bool, writers: Mapping[str, Writer]
) -> Manifest:
    stage.mkdir()
    try:
        for name, write in writers.items():
            write(stage / name)
            _sync(stage / name)
        files = {name: record_of(stage / name) for name in writers}
        made_from = record_of(job).sha256
        staged = Manifest(__version__, job.name, made_from, revision, preliminary, files)
        _write_synced(stage / MANIFEST, staged.text())
        _sync(stage)
    except BaseException:
        with suppress(OSError):
            _discard(stage)
        raise
    return staged


def _settle(out: Path) -> None:
    """Roll a complete stage forward, discard any other."""
    stage = out / STAGE
    if stage.is_dir():
        staged = read_manifest(stage / MANIFEST)
        if staged is not None and _is_complete(out, staged):
            _commit(out, staged)
        else:
            _discard(stage)


def _is_complete(out: Path, staged: Manifest) -> bool:
    for name, record in staged.files.items():
        path = out / STAGE / name
        if path.exists():
            if record_of(path) != record:
                return False
        elif _place(out, name, frozenset({record.sha256}), or_free=False) is None:
            return False
    return True


def _commit(out: Path, staged: Manifest) -> Written:
    """Move a complete stage into place; done again from the start, it comes to the same."""
    stage = out / STAGE
    earlier = read_manifest(out / MANIFEST)
    places = _places(out, staged, earlier)
    files = {places[name]: record for name, record in staged.files.items()}
    _write_synced(stage / FINAL, replace(staged, files=files).text())
    for name, place in places.items():
        if (stage / name).exists():
            os.replace(stage / name, out / place)
    if earlier is not None:
        _remove_stale(out, earlier, files)
    os.replace(stage / FINAL, out / MANIFEST)
    _sync(out)
    _discard(stage)
    return Written(
        paths=(*(out / place for place in places.values()), out / MANIFEST),
        kept=tuple(out / name for name, place in places.items() if place != name),
    )


def _places(out: Path, staged: Manifest, earlier: Manifest | None) -> dict[str, str]:
    """Return the name each staged file gets in the folder."""
    ours = earlier.hashes if earlier is not None else frozenset()
    places = {}
    for name, record in staged.files.items():
        waiting = (out / STAGE / name).exists()
        hashes = {record.sha256} | ours if waiting else {record.sha256}
        places[name] = _place(out, name, frozenset(hashes), or_free=waiting) or name
    return places


def _place(out: Path, name: str, hashes: frozenset[str], *, or_free: bool) -> str | None:
    """Return the first name of a file under which one of these hashes, or nothing, stands."""
    for candidate in _names(name):
        path = out / candidate
        if not os.path.lexists(path):
            return candidate if or_free else None
        if path.is_file() and record_of(path).sha256 in hashes:
            return candidate
    return None


def _names(name: str) -> Iterator[str]:
    """Yield planset.dxf, planset.new.dxf, planset.new.2.dxf and so on."""
    stem, suffix = PurePath(name).stem, PurePath(name).suffix
    yield name
    yield f"{stem}.new{suffix}"
    yield from (f"{stem}.new.{number}{suffix}" for number in count(2))


def _remove_stale(out: Path, earlier: Manifest, files: Mapping[str, object]) -> None:
    """Remove what the earlier set had and this one has not, unless it was changed."""
    for name, record in earlier.files.items():
        path = out / name
        if name not in files and path.is_file() and record_of(path) == record:
            path.unlink()


def _discard(stage: Path) -> None:
    """Remove a stage, its manifest first, so that a half-removed one is never complete."""
    (stage / MANIFEST).unlink(missing_ok=True)
    for path in stage.iterdir():
        path.unlink()
    stage.rmdir()


def _write_synced(path: Path, text: str) -> None:
    path.write_text(text, encoding="utf-8", newline="\n")
    _sync(path)


def _sync(path: Path) -> None:
    """Have a file, or the entries of a folder, reach the disk before anything that follows."""
    folder = path.is_dir()
    if folder and os.name != "posix":
        return  # only there can a folder be opened
    descriptor = os.open(path, os.O_RDONLY if folder else os.O_RDWR)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
