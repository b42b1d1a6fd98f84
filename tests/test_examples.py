"""The examples pass under the jurisdiction they name, and can be drawn under every other."""

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from _pytest.mark import ParameterSet

from planset.catalog.jurisdiction import Jurisdiction
from planset.catalog.library import find, names
from planset.design.design import build_design
from planset.drawing.page import TitleBlock
from planset.drawing.symbols import Symbol
from planset.finding import Outcome
from planset.formats.dxf_read import read_title_block
from planset.job.load import Inputs, read_job
from planset.resources import all_symbols
from planset.review.run import review
from planset.rules.run import judge
from planset.sheets.set import build_set

ROOT = Path(__file__).parents[1]
JOBS = sorted((ROOT / "examples").glob("*/job.yaml"))
PROFILES = names(Jurisdiction, ROOT)

by_job = pytest.mark.parametrize("job", JOBS, ids=lambda path: path.parent.name)


@cache
def inputs_of(job: Path) -> Inputs:
    return read_job(job)


@cache
def symbols() -> dict[str, Symbol]:
    return dict(all_symbols())


@cache
def title_block(size: str) -> TitleBlock:
    return read_title_block(ROOT / "titleblocks" / f"strip-{size}.dxf")


def test_these_are_the_examples() -> None:
    houses = ["battery-retrofit", "cross-gable", "shingle-hip", "tile-gable"]
    assert [path.parent.name for path in JOBS] == sorted([*houses, "flat-commercial"])


@by_job
def test_nothing_fails_under_its_own_jurisdiction(job: Path) -> None:
    findings = judge(build_design(inputs_of(job)))
    assert [f.message for f in findings if f.outcome is Outcome.FAIL] == []


def layout_stated(inputs: Inputs) -> Inputs:
    """Return a job without searches for the fewest attachments, which not every town's code allows.

    Loads of ASCE 7-10 are not computed, so that nothing can be found there.
    """
    stated = {"fewest_attachments": False, "first_line": 4, "attach_every": 2}
    arrays = tuple(
        array.model_copy(update={"mounting": array.mounting.model_copy(update=stated)})
        if array.mounting and array.mounting.fewest_attachments
        else array
        for array in inputs.job.arrays
    )
    return replace(inputs, job=inputs.job.model_copy(update={"arrays": arrays}))


def changes_unnamed(inputs: Inputs) -> Inputs:
    """Return a job without the names of what changed, some of which only its own town's set has."""
    unnamed = {"changed": None}
    revisions = tuple(
        one.model_copy(
            update={
                "answers": tuple(answer.model_copy(update=unnamed) for answer in one.answers),
                "changes": tuple(change.model_copy(update=unnamed) for change in one.changes),
            }
        )
        for one in inputs.job.revisions
    )
    return replace(inputs, job=inputs.job.model_copy(update={"revisions": revisions}))


def pages() -> list[ParameterSet]:
    """Every example under every profile; in CI two profiles each, so that all have a turn."""
    found = []
    for number, job in enumerate(JOBS):
        turns = {PROFILES[(2 * number + n) % len(PROFILES)] for n in (0, 1)}
        for profile in PROFILES:
            marks = () if profile in turns else (pytest.mark.long,)
            name = f"{job.parent.name}-{profile}"
            found.append(pytest.param(job, profile, marks=marks, id=name))
    return found


@pytest.mark.parametrize(("job", "profile"), pages())
def test_its_pages_are_good_under_any_jurisdiction(job: Path, profile: str) -> None:
    """Drawn as `draw --preliminary` does, whatever fails there."""
    jurisdiction = find(Jurisdiction, profile, job.parent)
    inputs = changes_unnamed(layout_stated(inputs_of(job)))
    design = build_design(replace(inputs, jurisdiction=jurisdiction))
    block = title_block(jurisdiction.sheet.size)
    drawn = build_set(design, judge(design), symbols(), block, preliminary=True)
    assert [f.message for f in review(drawn) if f.outcome is not Outcome.PASS] == []
