"""The pages of every example stand up to every page rule."""

from functools import cache
from pathlib import Path

import pytest

from planset.design.design import Design, build_design
from planset.finding import Finding, Outcome
from planset.formats.dxf_read import read_symbols, read_title_block
from planset.job.load import read_job
from planset.review.registry import PAGE_RULES
from planset.review.run import review
from planset.rules.run import judge
from planset.sheets.set import build_set

ROOT = Path(__file__).parents[2]
TITLE_BLOCKS = sorted((ROOT / "titleblocks").glob("*.dxf"))
JOBS = sorted((ROOT / "examples").glob("*/job.yaml"))


@cache
def judged_design(job: Path) -> tuple[Design, tuple[Finding, ...]]:
    design = build_design(read_job(job))
    return design, judge(design)


@pytest.mark.parametrize("preliminary", [True, False])
@pytest.mark.parametrize("title_block", TITLE_BLOCKS, ids=lambda path: path.stem)
@pytest.mark.parametrize("job", JOBS, ids=lambda path: path.parent.name)
def test_nothing_to_mend(job: Path, title_block: Path, preliminary: bool) -> None:
    families = sorted((ROOT / "symbols").glob("*.dxf"))
    symbols = {name: item for path in families for name, item in read_symbols(path).items()}
    design, judged = judged_design(job)
    made = build_set(
        design, judged, symbols, read_title_block(title_block), preliminary=preliminary
    )
    findings = review(made)
    assert [f.message for f in findings if f.outcome is not Outcome.PASS] == []
    assert len(findings) == len(made.pages) * len(PAGE_RULES) > 0
