"""The example job, and copies of it with edits."""

from __future__ import annotations

import re
from pathlib import Path

from planset.design.design import Design, build_design
from planset.job.load import read_job

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


def example_design() -> Design:
    return build_design(read_job(EXAMPLE))


def near_the_ridge(folder: Path, clear_in: float) -> Path:
    """Copy the example with its array moved up until it is so far from the ridge."""
    (ridge,) = example_design().access.ridges
    (array,) = read_job(EXAMPLE).job.arrays
    up = array.corner.up + ridge.clear_in - clear_in
    (line,) = re.findall(r"corner: .*", EXAMPLE.read_text(encoding="utf-8"))
    return edited(folder, (line, f"corner: {{along: {array.corner.along:.9f}, up: {up:.9f}}}"))


BROKEN = (("sprinklered: false", "sprinklered: perhaps"), ("exposure: B", "exposure: E"))
"""Edits that bring two problems."""
