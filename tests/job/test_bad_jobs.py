"""Every broken job of tests/bad_jobs brings exactly the messages it lists (see its README)."""

from dataclasses import dataclass
from pathlib import Path

import pytest

from planset.catalog.library import PACKAGE_DATA
from planset.errors import JobErrors
from planset.job.load import read_job

FOLDER = Path(__file__).parents[1] / "bad_jobs"
GOOD_JOB = FOLDER / "good.yaml"


@dataclass(frozen=True)
class BadJob:
    """Edits that break the good job or a catalog file, and the messages they must bring.

    Attributes:
        files: Per file beside the job, the file it is copied from and what is replaced in it.
        messages: What must be told, in order.
    """

    files: dict[str, tuple[Path, list[tuple[str, list[str]]]]]
    messages: tuple[str, ...]

    def write(self, folder: Path) -> Path:
        """Write the broken files into a folder; return the job."""
        for name, (origin, edits) in self.files.items():
            text = origin.read_text(encoding="utf-8")
            for old, new in edits:
                assert text.count(old) == 1, f"{old!r} must stand exactly once in {name}"
                text = text.replace(old, "\n".join(new))
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        return folder / "job.yaml"


def read_case(path: Path) -> BadJob:
    """Return a case from its file; lines that begin with none of the four signs are prose."""
    edits: list[tuple[str, list[str]]] = []
    files = {"job.yaml": (GOOD_JOB, edits)}
    messages = []
    for line in path.read_text(encoding="utf-8").splitlines():
        sign, text = line[:2], line[2:]
        if sign == "> ":
            name, _, origin = text.partition(" = ")
            edits = []
            files[f"catalog/{name}.yaml"] = (PACKAGE_DATA / f"{origin or name}.yaml", edits)
        elif sign == "- ":
            edits.append((text, []))
        elif sign == "+ ":
            edits[-1][1].append(text.replace("<TAB>", "\t"))
        elif sign == "! ":
            messages.append(text)
    assert messages, f"{path} expects no message"
    return BadJob(files, tuple(messages))


CASES = sorted(FOLDER.glob("*.txt"))


def test_the_good_job_is_good() -> None:
    assert read_job(GOOD_JOB).job.planset == 1


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_bad_job(path: Path, tmp_path: Path) -> None:
    case = read_case(path)
    with pytest.raises(JobErrors) as caught:
        read_job(case.write(tmp_path))
    told = [str(problem).removeprefix(f"{tmp_path}/") for problem in caught.value.problems]
    assert told == list(case.messages)


def test_there_are_cases() -> None:
    assert len(CASES) >= 130
