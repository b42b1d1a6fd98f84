"""The pages of every example stand up to every page rule."""

from dataclasses import replace

import pytest

from planset.drawing.page import DrawingSet, Page
from planset.drawing.primitives import Insert
from planset.finding import Finding, Outcome
from planset.review.registry import PAGE_RULES
from planset.review.run import review
from planset.sheets.set import build_set
from tests.sheets.drawn_sets import EXAMPLES, Made, on_sheet, own_sheet, symbols, title_block

SIZES = ("11x17", "18x24", "24x36")
NAMES = sorted(path.parent.name for path in EXAMPLES.glob("*/job.yaml"))


def in_order(drawing: DrawingSet, findings: tuple[Finding, ...]) -> None:
    assert [f.message for f in findings if f.outcome is not Outcome.PASS] == []
    assert len(findings) == len(drawing.pages) * len(PAGE_RULES) > 0


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", NAMES)
def test_nothing_to_mend(name: str, size: str) -> None:
    made = on_sheet(name, size)
    in_order(made.drawing, made.reviewed)


def submittal(made: Made, size: str) -> DrawingSet:
    """The same set, not marked PRELIMINARY."""
    block = title_block(size)
    return build_set(made.design, made.findings, symbols(), block, preliminary=False)


def without_status(page: Page) -> Page:
    """A page without what its title block says of the set's status."""
    border, *paper = page.paper
    assert isinstance(border, Insert)
    others = tuple(one for one in border.attributes if one.tag != "STATUS")
    assert len(others) < len(border.attributes)
    return replace(page, paper=(replace(border, attributes=others), *paper))


@pytest.mark.parametrize("name", NAMES)
def test_a_submittal_tells_its_status_and_is_the_same_otherwise(name: str) -> None:
    made = own_sheet(name)
    drawing = submittal(made, made.design.inputs.jurisdiction.sheet.size)
    assert drawing.pages != made.drawing.pages
    alike = tuple(map(without_status, made.drawing.pages))
    assert tuple(map(without_status, drawing.pages)) == alike
    assert drawing.blocks == made.drawing.blocks
    in_order(drawing, review(drawing))


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", NAMES)
def test_the_status_of_a_submittal_has_room_on_any_sheet(name: str, size: str) -> None:
    """Two sheets show it, one for review and one for the crew, as all others do."""
    made = on_sheet(name, size)
    job = made.design.inputs.job
    few = job.drafting.model_copy(update={"sheets": ("G-001", "Z-601")})
    inputs = replace(made.design.inputs, job=job.model_copy(update={"drafting": few}))
    short = replace(made, design=replace(made.design, inputs=inputs))
    drawing = submittal(short, size)
    assert {"G-001", "Z-601"} == {page.sheet.partition(".")[0] for page in drawing.pages}
    in_order(drawing, review(drawing))
