"""A folder to begin a job in: the starter job, and the schema its editor comment names."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path

from planset.errors import MachineError
from planset.job.schema import SCHEMA_FILE, STARTER, job_schema
from planset.output.json_text import json_text
from planset.output.machine import machine_errors

JOB_FILE = "job.yaml"


def write_starter(folder: Path) -> tuple[Path, ...]:
    """Write a starter job and its schema into a folder, which is made when it does not exist.

    Returns:
        The files written.

    Raises:
        MachineError: One of them is there already, or the operating system refuses; nothing is
            written then.
    """
    texts = {
        folder / JOB_FILE: STARTER.read_text(encoding="utf-8"),
        folder / SCHEMA_FILE: json_text(job_schema()),
    }
    for path in texts:
        if os.path.lexists(path):
            msg = f"{path} is there already; name another folder, or move it away"
            raise MachineError(msg)
    with machine_errors(f"begin a job in {folder}"):
        folder.mkdir(parents=True, exist_ok=True)
        for path, text in texts.items():
            _write_new(path, text)
    return tuple(texts)


def _write_new(path: Path, text: str) -> None:
    """Write a file that is not there yet, whole or not at all."""
    with path.open("x", encoding="utf-8", newline="\n") as stream:
        try:
            stream.write(text)
            stream.flush()
        except BaseException:
            with suppress(OSError):
                path.unlink()
            raise
