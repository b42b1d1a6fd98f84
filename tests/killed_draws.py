"""A program that draws one job into many folders and is killed at another point in each.

The job is computed and its files are plotted once; then a child process is forked for each point,
runs the pipeline's own `draw`, and ends by SIGKILL: no handler runs, no lock is given back by hand.
Forked instead of started anew, and with the bytes plotted before, since importing, computing and
plotting leave no trace in the folder and would take a second each time.

    python -m tests.killed_draws JOB START FOLDER [--dxf-per-sheet]

START is what stands in the folder before, or `-`; FOLDER/0, FOLDER/1 and so on are made from it. A
line on the standard output tells each point; the last is the run that no kill reached.
"""

from __future__ import annotations

import os
import shutil
import signal
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from planset import pipeline

CALLS = ("mkdir", "replace", "unlink", "rmdir", "fsync")
WRITERS = ("write_pdf", "write_dxf", "write_sheet_dxf", "write_materials", "write_checks")

Writer = Callable[..., None]


class Points:
    """Counts the points of a run and kills its process at one of them."""

    def __init__(self, fatal: int, told: int) -> None:
        self._left = fatal
        self._told = told

    def pass_by(self, name: str) -> None:
        if self._left == 0:
            os.write(self._told, name.encode())
            os.kill(os.getpid(), signal.SIGKILL)
        self._left -= 1

    def around(self, name: str, real: Callable[..., Any]) -> Callable[..., Any]:
        """A call with a point before it and one after it."""

        def call(*args: Any, **named: Any) -> Any:
            self.pass_by(f"before {name}")
            result = real(*args, **named)
            self.pass_by(f"after {name}")
            return result

        return call

    def halfway(self, plotted: dict[str, bytes]) -> Writer:
        """A writer with a point at which half of its file is there."""

        def write(*content_and_path: Any) -> None:
            path: Path = content_and_path[-1]
            whole = plotted[path.name]
            path.write_bytes(whole[: len(whole) // 2])
            self.pass_by(f"half of {path.name}")
            path.write_bytes(whole)

        return write


def draw_and_die(
    job: Path, out: Path, points: Points, plotted: dict[str, bytes], *, per_sheet: bool
) -> None:
    """Draw in a child process, which is killed at a point; never returns there."""
    for name in CALLS:
        setattr(os, name, points.around(name, getattr(os, name)))
    for name in WRITERS:
        setattr(pipeline, name, points.halfway(plotted))
    pipeline.draw(job, out, dxf_per_sheet=per_sheet)
    os._exit(0)


def main(job: Path, start: Path | None, folder: Path, *, per_sheet: bool) -> None:
    drawn = pipeline.draw(job, folder / "plotted", dxf_per_sheet=per_sheet)
    plotted = {path.name: path.read_bytes() for path in (folder / "plotted").iterdir()}
    pipeline._run = lambda *_, **__: drawn.checked
    fatal, status = 0, signal.SIGKILL
    while status == signal.SIGKILL:
        out = folder / str(fatal)
        if start is not None:
            shutil.copytree(start, out)
        reading, telling = os.pipe()
        child = os.fork()
        if child == 0:
            draw_and_die(job, out, Points(fatal, telling), plotted, per_sheet=per_sheet)
        os.close(telling)
        _, status = os.waitpid(child, 0)
        with open(reading, encoding="utf-8") as pipe:
            print(pipe.read() or "alive", flush=True)  # noqa: T201
        fatal += 1
    sys.exit(status)


if __name__ == "__main__":
    words = [word for word in sys.argv[1:] if not word.startswith("--")]
    first = None if words[1] == "-" else Path(words[1])
    main(Path(words[0]), first, Path(words[2]), per_sheet="--dxf-per-sheet" in sys.argv)
