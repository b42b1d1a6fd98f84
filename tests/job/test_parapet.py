"""A parapet leaves some roof between its sides."""

import shutil
from pathlib import Path

import pytest

from planset.errors import JobErrors
from planset.job.load import read_job

FLAT = Path(__file__).parents[1] / "rules" / "base" / "flat-200x120.yaml"


def with_thickness(folder: Path, thickness: str) -> Path:
    shutil.copytree(FLAT.parent / "catalog", folder / "catalog")
    (stated,) = (line for line in FLAT.read_text("utf-8").splitlines() if "parapet:" in line)
    changed = f"  parapet: {{height: 30, thickness: {thickness}}}"
    job = folder / "job.yaml"
    job.write_text(FLAT.read_text("utf-8").replace(stated, changed), "utf-8")
    return job


def test_thinner_than_half_of_the_roof(tmp_path: Path) -> None:
    assert read_job(with_thickness(tmp_path, "59 ft")).job.roof.parapet.thickness == 708


def test_as_thick_as_half_of_the_roof(tmp_path: Path) -> None:
    with pytest.raises(JobErrors, match="the parapets leave no roof between them"):
        read_job(with_thickness(tmp_path, "60 ft"))
