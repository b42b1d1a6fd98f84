"""The registry holds every rule once, and a review reports every rule on every page."""

import time
from pathlib import Path

import pytest
from review_pages import drawing, page, plan, text

import planset.review.contents
import planset.review.drafting
from planset.drawing.geometry import Box
from planset.drawing.page import Scale
from planset.drawing.primitives import Block, Circle, Insert, Polyline
from planset.finding import Outcome
from planset.review.registry import PAGE_RULES, SET_RULES
from planset.review.run import review

FILES = sorted(Path(planset.review.drafting.__path__[0]).glob("[a-z]*.py"))
OF_SETS = sorted(Path(planset.review.contents.__path__[0]).glob("[a-z]*.py"))
CASES = Path(__file__).parent


def test_registry_holds_the_rule_of_every_file() -> None:
    named = [f"drafting.{path.stem.replace('_', '-')}" for path in FILES]
    assert sorted(rule.id for rule in PAGE_RULES) == named

    of_sets = [f"contents.{path.stem.replace('_', '-')}" for path in OF_SETS]
    assert sorted(rule.id for rule in SET_RULES) == of_sets


@pytest.mark.parametrize("path", [*FILES, *OF_SETS], ids=lambda path: path.stem)
def test_every_rule_has_its_cases(path: Path) -> None:
    assert (CASES / f"test_{path.parent.name}_{path.stem}.py").is_file()


def test_one_finding_for_each_page_and_rule_that_is_in_order() -> None:
    sheets = ("A-101", "S-501")
    findings = review(drawing(*(page(views=(plan(),), sheet=sheet) for sheet in sheets)))
    reported = [(finding.rule, finding.objects, finding.outcome) for finding in findings]
    expected = [(rule.id, (sheet,), Outcome.PASS) for sheet in sheets for rule in PAGE_RULES]
    assert reported == expected


def test_one_finding_for_each_offence() -> None:
    findings = review(drawing(page(text("ONE", 9, 0.8), text("TWO", 9, 3.5))))
    outside = [f for f in findings if f.rule == "drafting.inside-drawing-area"]
    assert [f.objects for f in outside] == [("A-101", '"ONE"'), ("A-101", '"TWO"')]
    assert len(findings) == len(PAGE_RULES) + 1


def test_quick_on_a_page_of_200_modules() -> None:
    foot = Block("FOOT", tuple(Circle((0, 4.0 * n), 0.2, "0") for n in range(3)))
    modules = tuple(
        Insert("MODULE", (41.0 * column, 21.0 * row), "E-SOLR-PANL")
        for row in range(10)
        for column in range(20)
    )
    feet = tuple(
        Insert("FOOT", (20.0 * column, 10.0 * row), "S-ROOF-ANCH")
        for row in range(20)
        for column in range(40)
    )
    tags = tuple(text(f"M{n}", 1 + n % 20 * 0.3, 4.2 + n // 20 * 0.25) for n in range(200))
    outline = Polyline(((0, 0), (820, 0), (820, 210), (0, 210)), "A-ROOF-OTLN", closed=True)
    block = Block("BIG", (*modules, *feet, outline))
    scale, window = Scale(128, '3/32" = 1\'-0"'), Box(0, 0, 830, 800)
    view = plan(*tags, scale=scale, window=window, model=(Insert("BIG", (0, 0), "0"),))
    made = drawing(page(views=(view,)), blocks=(block, foot))
    start = time.process_time()
    findings = review(made)
    assert time.process_time() - start < 1.0  # takes a tenth of that; machines differ
    assert {f.rule for f in findings if f.outcome is Outcome.FAIL} == {"drafting.text-on-text"}
