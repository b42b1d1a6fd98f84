"""Sets of random houses: every page in order, whatever the rules say of the design.

The same ten in each run of CI, 500 in the long run.
"""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import HealthCheck, Phase, given, settings

from tests.sheets.drawn_sets import made_of
from tests.sheets.random_jobs import Job, jobs
from tests.sheets.roof_jobs import write

FEW, MANY = 10, 500
UNSHRUNK = (Phase.explicit, Phase.reuse, Phase.generate)
"""A set takes two seconds; the long run alone looks for a smaller house that is no better."""


def nothing_to_mend(job: Job) -> None:
    with TemporaryDirectory() as folder:
        made = made_of(write(job, Path(folder)))
    assert made.failures() == []


@settings(max_examples=FEW, phases=UNSHRUNK, suppress_health_check=[HealthCheck.too_slow])
@given(jobs())
def test_a_random_house_has_nothing_to_mend(job: Job) -> None:
    nothing_to_mend(job)


@pytest.mark.long
@settings(max_examples=MANY, suppress_health_check=[HealthCheck.too_slow])
@given(jobs())
def test_no_random_house_of_many_has_anything_to_mend(job: Job) -> None:
    nothing_to_mend(job)
