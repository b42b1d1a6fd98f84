"""Saves of a job and of the files it uses, seen by looking at them again and again."""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

from planset.catalog.library import FOLDERS, folders_of
from planset.resources import title_block_path
from planset.source import scan_yaml

EVERY_S = 0.3
"""Between two looks; a save is told after two, when the file has come to rest."""

Look = Mapping[Path, object]


def _pause() -> None:
    time.sleep(EVERY_S)


def saves(job: Path, pause: Callable[[], object] = _pause) -> Iterator[list[Path]]:
    """Yield no file at once, and then those saved, made or removed, each time they come to rest.

    Watched are the job, the catalog files it could name, its title block and data sheets. What
    changes while the one who asks is busy is told when he asks again.

    Args:
        job: The job file.
        pause: What to do between two looks.
    """
    named = _named(job)
    seen = _look(job, named)
    yield []
    while True:
        pause()
        now = _look(job, named)
        if now == seen:
            continue
        before: Look = {}
        while now != before:  # an editor may save in several steps
            pause()
            before, now = now, _look(job, named)
        changed = [path for path in seen | now if seen.get(path) != now.get(path)]
        named = _named(job) or named
        seen = _look(job, named)
        yield changed


def _look(job: Path, named: list[Path]) -> dict[Path, object]:
    """Return what can be seen of each watched file without opening it."""
    files = [job, *named]
    for kind in FOLDERS:
        for folder in folders_of(kind, job.parent):
            files += sorted(folder.glob("*.yaml"))
    return {path: _stamp(path) for path in files}


def _stamp(path: Path) -> tuple[int, int, int] | None:
    try:
        found = os.stat(path)  # noqa: PTH116 - as quick as can be
    except (OSError, ValueError):
        return None
    return found.st_mtime_ns, found.st_size, found.st_ino


def _named(job: Path) -> list[Path]:
    """Return the title block and the data sheets a job names, as far as they can be made out."""
    document, _ = scan_yaml(job)
    if document is None:
        return []
    name = document.value_at(("drafting", "title_block"))
    title_block = title_block_path(job.parent, name) if isinstance(name, str) else None
    stated = document.value_at(("data_sheets",))
    count = len(stated) if isinstance(stated, list) else 0
    files = [document.value_at(("data_sheets", number, "file")) for number in range(count)]
    data_sheets = [job.parent / file for file in files if isinstance(file, str)]
    return [*([title_block] if title_block is not None else []), *data_sheets]
