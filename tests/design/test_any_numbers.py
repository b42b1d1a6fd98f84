"""Whatever numbers a job holds, the answer is findings or problems, never a traceback."""

import shutil
from collections import Counter
from pathlib import Path

import pytest
from mutations import EXAMPLE, Mutator

from planset.catalog.library import PACKAGE_DATA
from planset.design.design import build_design
from planset.errors import JobErrors
from planset.finding import Outcome
from planset.job.load import read_job
from planset.rules.run import judge

COUNT = 200


def test_numbers_changed_at_random(tmp_path: Path) -> None:
    mutator = Mutator(seed=20261125)
    answers: Counter[str] = Counter()
    for _ in range(COUNT):
        job, mutations = mutator.write(tmp_path)
        try:
            inputs = read_job(job)
        except JobErrors:
            answers["problems"] += 1
            continue
        try:
            findings = judge(build_design(inputs))
        except Exception as error:
            error.add_note(f"after {mutations}")
            raise
        answers["fails" if any(f.outcome is Outcome.FAIL for f in findings) else "stands"] += 1
    assert answers.total() == COUNT
    assert min(answers["problems"], answers["fails"], answers["stands"]) >= COUNT / 20, answers


@pytest.mark.parametrize(
    ("file", "old", "new", "told"),
    [  # what a function of codes refuses is refused where it is written
        ("mounting/heron-tile", "length: 3-1/2 in", "length: 12-1/2 in", "not a lag screw length"),
        ("mounting/heron-tile", "length: 3-1/2 in", "length: 1 in", "expected 1.5 to 12"),
        ("mounting/heron-tile", "past_module: 1 in", "past_module: 3 ft", "outside 0 to 24 in"),
        ("modules/tr-402", "voc_percent_per_c: -0.27", "voc_percent_per_c: -1", "not more than -1"),
        (
            "inverters/oe-76",
            "ac_current_a: 31.67",
            "ac_current_a: 1.0e+9",
            "outside 0.001 to 1e+06",
        ),
        ("job", "elevation: 640 ft", "elevation: -1501 ft", "outside -18000 to 240000 in"),
        ("job", "breaker: 40 A", "breaker: 20000 A", "outside 0.1 to 10000 A"),
    ],
)
def test_out_of_bounds_is_a_problem(
    tmp_path: Path, file: str, old: str, new: str, told: str
) -> None:
    job = tmp_path / "job.yaml"
    shutil.copy(EXAMPLE, job)
    path = job if file == "job" else tmp_path / "catalog" / f"{file}.yaml"
    if file != "job":
        path.parent.mkdir(parents=True)
        shutil.copy(PACKAGE_DATA / f"{file}.yaml", path)
    text = path.read_text(encoding="utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), encoding="utf-8")
    with pytest.raises(JobErrors, match=told.replace("+", r"\+")):
        read_job(job)
