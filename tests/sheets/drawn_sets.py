"""Sets drawn of jobs, and what stands on their pages."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path

from planset.design.design import Design, build_design
from planset.drawing.flatten import texts
from planset.drawing.geometry import Placement
from planset.drawing.page import DrawingSet, Page, TitleBlock
from planset.drawing.primitives import Text
from planset.drawing.symbols import Symbol
from planset.finding import Finding, Outcome
from planset.formats.dxf_read import read_title_block
from planset.job.load import Inputs, read_job
from planset.resources import all_symbols, drawings_folder
from planset.review.run import review
from planset.rules.run import judge
from planset.sheets.set import build_set
from tests.example_job import EXAMPLE

EXAMPLES = EXAMPLE.parents[1]


@dataclass(frozen=True)
class Made:
    """A job's design, what the rules found in it, and its set."""

    design: Design
    findings: tuple[Finding, ...]
    drawing: DrawingSet

    def page(self, sheet: str) -> Page:
        """One sheet of the set."""
        (found,) = (page for page in self.drawing.pages if page.sheet == sheet)
        return found

    def pages(self, sheet: str) -> list[Page]:
        """A sheet and what runs over from it."""
        return [p for p in self.drawing.pages if p.sheet.partition(".")[0] == sheet]

    def words(self, sheet: str) -> list[Text]:
        """Every line of text on a sheet, dimensions' and title block's included."""
        page, blocks = self.page(sheet), self.drawing.blocks
        made = list(texts(page.paper, Placement(), blocks))
        for view in page.views:
            made += texts(view.model, view.on_paper, blocks)
            made += texts(view.annotation, Placement(), blocks)
        return made

    def lines(self, sheet: str) -> list[str]:
        """What those say."""
        return [text.text for text in self.words(sheet)]

    def annotated(self, sheet: str) -> list[Text]:
        """Every line of text in the views of a sheet, their blocks' left out."""
        views = self.page(sheet).views
        parts = [part for view in views for part in view.annotation]
        return list(texts(parts, Placement(), self.drawing.blocks))

    @cached_property
    def reviewed(self) -> tuple[Finding, ...]:
        """What the page rules find."""
        return review(self.drawing)

    def failures(self) -> list[str]:
        """What they find to mend."""
        return [f.message for f in self.reviewed if f.outcome is Outcome.FAIL]


@cache
def symbols() -> dict[str, Symbol]:
    """All symbols."""
    return all_symbols()


@cache
def title_block(size: str = "11x17") -> TitleBlock:
    """The title block of a sheet size."""
    return read_title_block(drawings_folder("titleblocks") / f"strip-{size}.dxf")


def made_of(job: Path, size: str = "11x17") -> Made:
    """The set of a job, preliminary, on sheets of a size."""
    return _set_of(read_job(job), size)


def own_sheet(name: str) -> Made:
    """The set of one of the examples, on the sheet its own jurisdiction asks for."""
    return on_sheet(name, _inputs(name).jurisdiction.sheet.size)


@cache
def on_sheet(name: str, size: str) -> Made:
    """The set of one of the examples on sheets of a size, such as "18x24"."""
    return _set_of(_inputs(name), size)


def _set_of(inputs: Inputs, size: str) -> Made:
    design = build_design(inputs)
    findings = judge(design)
    drawing = build_set(design, findings, symbols(), title_block(size), preliminary=True)
    return Made(design, findings, drawing)


@cache
def _inputs(name: str) -> Inputs:
    return read_job(EXAMPLES / name / "job.yaml")


@cache
def example() -> Made:
    """The set of the example."""
    return made_of(EXAMPLE)
