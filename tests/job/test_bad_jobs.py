"""Every broken job of tests/bad_jobs brings exactly the messages it lists (see its README)."""

from dataclasses import dataclass
from pathlib import Path

import pytest

from planset.errors import JobErrors
from planset.job.load import read_job

FOLDER = Path(__file__).parents[1] / "bad_jobs"
GOOD_JOB = FOLDER / "good.yaml"


@dataclass(frozen=True)
class BadJob:
    """Edits that break the good job, and the messages they must bring."""

    edits: tuple[tuple[str, str], ...]
    messages: tuple[str, ...]

    def text(self) -> str:
        """Return the broken job."""
        job = GOOD_JOB.read_text(encoding="utf-8")
        for old, new in self.edits:
            assert job.count(old) == 1, f"{old!r} must stand exactly once in the job"
            job = job.replace(old, new)
        return job


def read_case(path: Path) -> BadJob:
    """Return a case from its file; lines that begin with none of the three signs are prose."""
    edits: list[tuple[str, list[str]]] = []
    messages = []
    for line in path.read_text(encoding="utf-8").splitlines():
        sign, text = line[:2], line[2:]
        if sign == "- ":
            edits.append((text, []))
        elif sign == "+ ":
            edits[-1][1].append(text)
        elif sign == "! ":
            messages.append(text)
    assert messages, f"{path} expects no message"
    return BadJob(tuple((old, "\n".join(new)) for old, new in edits), tuple(messages))


CASES = sorted(FOLDER.glob("*.txt"))


def test_the_good_job_is_good() -> None:
    assert read_job(GOOD_JOB).job.planset == 1


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_bad_job(path: Path, tmp_path: Path) -> None:
    case = read_case(path)
    job = tmp_path / "job.yaml"
    job.write_text(case.text(), encoding="utf-8")
    with pytest.raises(JobErrors) as caught:
        read_job(job)
    told = [str(problem).removeprefix(f"{tmp_path}/") for problem in caught.value.problems]
    assert told == list(case.messages)


def test_there_are_cases() -> None:
    assert len(CASES) >= 30
