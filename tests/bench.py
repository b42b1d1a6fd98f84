"""`python -m tests.bench`: how fast and how large planset is beside the bare libraries.

Every figure is the best of some runs, ours and the bare one in turn. `--strict` ends with 1 when a
limit is missed.
"""

from __future__ import annotations

import os
import pickle
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from ezdxf.filemanagement import readfile
from pypdf import PdfReader

from planset.formats.dxf_write import write_dxf
from planset.formats.pdf_write import write_pdf
from planset.pipeline import check
from planset.sheets import roof_plan
from planset.sheets.context import SheetContext, SheetEntry
from tests.drawing.many_labels import labels_among_lines
from tests.example_job import EXAMPLE, edited
from tests.raw_files import Recording, replay_dxf, replay_pdf
from tests.raw_recording import record_dxf, record_pdf
from tests.sheets.drawn_sets import made_of, symbols, title_block
from tests.sheets.test_variants import OBSTRUCTIONS, STRINGS, VARIANTS, strings

RUNS = 5
EXAMPLES = sorted(folder.name for folder in EXAMPLE.parents[1].iterdir() if folder.is_dir())
ARRAYS = ((2, 5), (5, 20), (25, 40), (40, 50))
"""Rows and columns of modules on one roof that grows with them, to the most a job may have."""
THOUSAND = 1000
ROOT = Path(__file__).parents[1]
MEGABYTE = 1024 * 1024


@dataclass(frozen=True)
class Figure:
    """One line of the table.

    Attributes:
        name: what is measured.
        ours: seconds, or megabytes.
        raw: the same of the bare libraries, None where there is nothing to compare with.
        limit: the most the ratio may be, or our figure where there is no ratio.
        unit: of ours and raw.
    """

    name: str
    ours: float
    raw: float | None = None
    limit: float | None = None
    unit: str = "s"

    @property
    def held_to_limit(self) -> float:
        return self.ours / self.raw if self.raw else self.ours

    @property
    def missed(self) -> bool:
        return self.limit is not None and self.held_to_limit > self.limit

    def line(self) -> str:
        raw = f"{self.raw:.3f} {self.unit}" if self.raw else ""
        ratio = f"{self.held_to_limit:.2f}" if self.raw else ""
        limit = f"{self.limit:g}" + ("" if self.raw else f" {self.unit}") if self.limit else ""
        verdict = "" if self.limit is None else "MISSED" if self.missed else "met"
        ours = f"{self.ours:.3f} {self.unit}"
        return f"{self.name:<46}{ours:>12}{raw:>12}{ratio:>8}{limit:>9}  {verdict}".rstrip()


def best_in_turn(*actions: Callable[[], float]) -> list[float]:
    """The least figure of each action over the runs, after one run that only warms up."""
    for action in actions:
        action()
    figures = [[action() for action in actions] for _ in range(RUNS)]
    return [min(column) for column in zip(*figures, strict=True)]


def timed(action: Callable[[], None]) -> Callable[[], float]:
    def run() -> float:
        start = time.perf_counter()
        action()
        return time.perf_counter() - start

    return run


def process(*arguments: str | Path) -> Callable[[], None]:
    """A run of this Python in the checkout."""

    def run() -> None:
        quiet = subprocess.DEVNULL
        subprocess.run([sys.executable, *arguments], cwd=ROOT, check=True, stdout=quiet)

    return run


PEAK = """
import resource, subprocess, sys
subprocess.run(sys.argv[1:], check=True, stdout=subprocess.DEVNULL)
print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)
"""
"""Run by a small process: a new one is counted with what held its parent before it began."""


def peak_megabytes(*arguments: str | Path) -> float:
    """The most memory a run of this Python held."""
    command = [sys.executable, "-c", PEAK, sys.executable, *arguments]
    told = subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True).stdout
    return int(told) * (1 if sys.platform == "darwin" else 1024) / MEGABYTE


def writers(recording: Recording, folder: Path) -> list[Figure]:
    """Our writers beside the bare libraries writing the same primitives."""
    drawing = check(EXAMPLE).drawing
    assert drawing is not None
    ours, raw = folder / "ours", folder / "raw"
    ours.mkdir()
    raw.mkdir()
    pdf, dxf = ours / "planset.pdf", ours / "planset.dxf"
    record_pdf(lambda: write_pdf(drawing, pdf), recording)
    write_dxf(drawing, dxf)
    record_dxf(dxf, recording)
    our_pdf, raw_pdf, our_dxf, raw_dxf = best_in_turn(
        timed(lambda: write_pdf(drawing, pdf)),
        timed(lambda: replay_pdf(recording, raw / pdf.name)),
        timed(lambda: write_dxf(drawing, dxf)),
        timed(lambda: replay_dxf(recording, raw / dxf.name)),
    )
    assert content_of_pdf(raw / pdf.name) == content_of_pdf(pdf)
    assert entities_of(raw / dxf.name) == entities_of(dxf)
    return [
        Figure("writing the PDF", our_pdf, raw_pdf),
        Figure("writing the DXF", our_dxf, raw_dxf),
        Figure("writing both", our_pdf + our_dxf, raw_pdf + raw_dxf, 1.2),
    ]


def content_of_pdf(path: Path) -> list[bytes]:
    contents = (page.get_contents() for page in PdfReader(path).pages)
    return [content.get_data() for content in contents if content is not None]


def entities_of(path: Path) -> Counter[str]:
    return Counter(entity.dxftype() for block in readfile(path).blocks for entity in block)


def processes(recording: Recording, folder: Path) -> list[Figure]:
    """Whole cold processes, and what they hold in memory."""
    out = folder / "out"
    draw = ("-m", "planset", "draw", EXAMPLE, "-o", out)
    process(*draw)()
    for name in ("checks.json", "manifest.json"):
        recording.texts[name] = (out / name).read_bytes()
    recorded = folder / "recording"
    recorded.write_bytes(pickle.dumps(recording))
    write_raw = "import sys; from tests.raw_files import main; main(*sys.argv[1:])"
    raw = process("-c", write_raw, recorded, folder / "raw")
    ours, bare = best_in_turn(timed(process(*draw)), timed(raw))
    shown, typer = best_in_turn(
        timed(process("-m", "planset", "--help")), timed(process("-c", "import typer"))
    )
    return [
        Figure("draw, a whole process", ours, bare, 2.0),
        Figure("--help, beside a process that imports typer", shown, typer, 2.5),
        Figure("draw, peak memory", peak_megabytes(*draw), limit=200.0, unit="MB"),
    ]


def examples(folder: Path) -> list[Figure]:
    """The whole set of each example, by a cold process."""
    jobs = [EXAMPLE.parents[1] / name / "job.yaml" for name in EXAMPLES]
    draws = [timed(drawn(job, folder)) for job in jobs]
    seconds = best_in_turn(*draws)
    return [
        Figure(f"draw, {name}", figure, limit=3.0)
        for name, figure in zip(EXAMPLES, seconds, strict=True)
    ]


def growth(folder: Path) -> list[Figure]:
    """The whole set of one roof with more and more modules, each drawn once."""
    figures = []
    for rows, columns in ARRAYS:
        count = rows * columns
        seconds = timed(drawn(roof_of(rows, columns, folder), folder))()
        limit = 10.0 if count == THOUSAND else None
        figures.append(Figure(f"draw, {count:,} modules on one roof", seconds, limit=limit))
    return figures


def drawn(job: Path, folder: Path) -> Callable[[], None]:
    """A cold process that draws a job, whatever its rules find."""
    out = folder / f"{job.parent.name} drawn"
    return process("-m", "planset", "draw", job, "-o", out, "--preliminary")


def roof_of(rows: int, columns: int, folder: Path) -> Path:
    """A job with one array of so many rows and columns, and a roof as large as it needs."""
    made = folder / f"{rows} rows of {columns}"
    made.mkdir()
    each = min(20, rows * columns)
    return edited(
        made,
        ("ridge_length: 44'-0\"", f"ridge_length: {max(44, columns * 6 + 6)}'-0\""),
        ("depth: 34'-0\"", f"depth: {max(34, rows * 10)}'-0\""),
        ("rows: 4", f"rows: {rows}"),
        ("columns: 5", f"columns: {columns}"),
        ("along: 57-1/2 in", "along: 40 in"),
        ("title_block: strip-11x17", "title_block: strip-24x36"),
        ("jurisdiction: port-larkin", "jurisdiction: mesa-alta"),
        (OBSTRUCTIONS, "obstructions: []\n\n"),
        (STRINGS, strings(*[each] * (rows * columns // each))),
    )


def pages(folder: Path) -> list[Figure]:
    """Placing labels, and the roof plan of a large roof laid out whole."""
    large = made_of(edited(folder, *VARIANTS["200 modules"]))
    entries = tuple(SheetEntry(page.sheet, page.title) for page in large.drawing.pages)
    context = SheetContext(
        large.design, large.findings, entries, symbols(), title_block(), "PRELIMINARY"
    )
    labels, plan = best_in_turn(
        timed(lambda: consume(labels_among_lines())),
        timed(lambda: consume(roof_plan.build(context))),
    )
    return [
        Figure("600 labels among 3,000 lines", labels, limit=0.1),
        Figure("roof plan page of 200 modules", plan, limit=1.0),
    ]


def consume(made: Sequence[object]) -> None:
    assert made


def main(arguments: Sequence[str]) -> int:
    recording = Recording()
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)  # an installed program is compiled once
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        figures = pages(folder) + writers(recording, folder) + processes(recording, folder)
        figures += examples(folder) + growth(folder)
    print(
        f"{EXAMPLE.parent.name}, all its sheets; the best of {RUNS} runs, of a roof that grows one"
    )
    print(f"{'':<46}{'planset':>12}{'bare':>12}{'ratio':>8}{'limit':>9}")
    for figure in figures:
        print(figure.line())
    missed = any(figure.missed for figure in figures)
    return 1 if missed and "--strict" in arguments else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
