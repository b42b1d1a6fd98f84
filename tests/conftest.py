"""Settings of the whole suite."""

import gc
from functools import cache
from pathlib import Path

import pytest
from hypothesis import settings

from planset import pipeline
from planset.cli import BETWEEN_COLLECTIONS
from tests.example_job import EXAMPLE

# The same cases on every run, and no deadline: a loaded machine is no fault of the code.
settings.register_profile("planset", derandomize=True, deadline=None)
settings.load_profile("planset")


def pytest_collection_finish() -> None:
    """Keep the garbage collector off the thousands of tests, which would slow what they time.

    Between two of its runs as many objects may be made as the command allows itself.
    """
    gc.collect()
    gc.freeze()
    gc.set_threshold(BETWEEN_COLLECTIONS)


_run = pipeline._run
_run_once = cache(_run)


@pytest.fixture
def examples_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Compute an example once in a process, whichever tests write it: nobody edits the examples."""
    examples = EXAMPLE.parents[1]

    def run(job: Path, *, preliminary: bool, **_: object) -> pipeline.Checked:
        shared = job.resolve().is_relative_to(examples)
        return (_run_once if shared else _run)(job, preliminary=preliminary)

    monkeypatch.setattr(pipeline, "_run", run)
