"""The example job, and copies of it with edits."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

from planset.design.design import Design, build_design
from planset.job.load import read_job
from planset.sheets.set import SHEETS

_MOUNTING = ("S-101", "S-501")  # have nothing to draw where the mounting is by others

EXAMPLE = Path(__file__).parents[1] / "examples" / "tile-gable" / "job.yaml"


def edited(folder: Path, *edits: tuple[str, str]) -> Path:
    """Copy the example into a folder with texts replaced, each of which must stand there once."""
    text = EXAMPLE.read_text(encoding="utf-8")
    for old, new in edits:
        assert text.count(old) == 1, f"{old!r} must stand exactly once in the job"
        text = text.replace(old, new)
    job = folder / "job.yaml"
    job.write_text(text, encoding="utf-8")
    return job


def sheets(*kept: str) -> tuple[str, str]:
    """The edit that leaves these sheets of the example's set, which others take long to draw."""
    (line,) = re.findall(r"(?m)^  sheets: \[.*\]$", EXAMPLE.read_text(encoding="utf-8"))
    return line, f"  sheets: [{', '.join(kept)}]"


def with_every_sheet(folder: Path, example: Path = EXAMPLE) -> Path:
    """Copy an example into a folder with every sheet asked for that draws what the job has."""
    asked, text = re.compile(r"(?m)^  sheets: \[.*\]$"), example.read_text(encoding="utf-8")
    (line,) = asked.findall(text)
    without = [sheet for sheet in SHEETS if sheet in _MOUNTING and "S-101" not in line]
    listed = ", ".join(sheet for sheet in SHEETS if sheet not in without)
    sheets_of_makers = example.parent / "data-sheets"
    if sheets_of_makers.exists():
        shutil.copytree(sheets_of_makers, folder / sheets_of_makers.name)
    job = folder / "job.yaml"
    job.write_text(text.replace(line, f"  sheets: [{listed}]"), encoding="utf-8")
    return job


def example_design() -> Design:
    return build_design(read_job(EXAMPLE))


def near_the_ridge(folder: Path, clear_in: float) -> Path:
    """Copy the example with its array moved up until it is so far from the ridge."""
    (ridge,) = example_design().access.ridges
    (array,) = read_job(EXAMPLE).job.arrays
    up = array.corner.up + ridge.clear_in - clear_in
    (line,) = re.findall(r"corner: .*", EXAMPLE.read_text(encoding="utf-8"))
    return edited(folder, (line, f"corner: {{along: {array.corner.along:.9f}, up: {up:.9f}}}"))


def by_others(text: str) -> str:
    """Return the text of the hip house, mounting and framing by others, winter wind not asked."""
    text = re.sub(r"mounting:( \{.*\}|\n( {6}.*\n)+)", "mounting: by_others\n", text)
    text = re.sub(r"\nframing:\n( .*\n)+", "\nframing: by_others\n", text)
    text = text.replace(", winter_wind: 0.45", "")
    text = re.sub(r"\nsurvey:\n( .*\n)+", "\n", text)
    return text.replace("S-101, S-501, ", "")


HIP = EXAMPLE.parents[1] / "shingle-hip" / "job.yaml"


def hip_by_others(folder: Path, jurisdiction: str = "mesa-alta") -> Path:
    """Copy the hip house into a folder with mounting and framing by others, into another town."""
    job = folder / "job.yaml"
    text = by_others(HIP.read_text(encoding="utf-8"))
    job.write_text(text.replace("jurisdiction: mesa-alta", f"jurisdiction: {jurisdiction}"))
    return job


BROKEN = (("sprinklered: false", "sprinklered: perhaps"), ("exposure: B", "exposure: E"))
"""Edits that bring two problems."""
