"""Examples under review as whole sets, with jobs, profiles and pages that differ from theirs."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from functools import cache

from planset.catalog.submission import Submission
from planset.drawing.page import Page
from planset.drawing.primitives import Attribute, Insert, Primitive, Text
from planset.finding import Finding
from planset.review.reviewed_page import ReviewedPage, reviewed_page
from planset.review.run import reviewed_pages
from planset.review.set_rule import SetRule
from planset.review.submittal import Submittal
from tests.sheets.drawn_sets import Made, own_sheet

EXAMPLES = ("tile-gable", "shingle-hip", "cross-gable", "battery-retrofit", "flat-commercial")


@cache
def submittal(name: str) -> Submittal:
    """An example as it is."""
    made = own_sheet(name)
    return Submittal(reviewed_pages(made.drawing), made.design.inputs)


def under(subject: Submittal, **submission: object) -> Submittal:
    """The same set in a jurisdiction that takes submittals in another form."""
    stated = {
        field: {"value": value, "source": "Guide", "date": "2026-01-01"}
        for field, value in submission.items()
    }
    given = Submission.model_validate(stated)
    jurisdiction = subject.inputs.jurisdiction.model_copy(update={"submission": given})
    return Submittal(subject.sheets, replace(subject.inputs, jurisdiction=jurisdiction))


def without(subject: Submittal, *sheets: str) -> Submittal:
    """The same set, sheets and what runs over from them left out."""
    kept = (one for one in subject.sheets if one.sheet.partition(".")[0] not in sheets)
    return Submittal(tuple(kept), subject.inputs)


def reworded(name: str, sheet: str, old: str, new: str) -> Submittal:
    """An example on one sheet of which a line says something else, wherever it stands."""
    made, changed = own_sheet(name), [0]

    def reword(part: Primitive) -> Primitive:
        if isinstance(part, Text) and old in part.text:
            changed[0] += 1
            return replace(part, text=part.text.replace(old, new))
        if isinstance(part, Insert) and any(old in one.value for one in part.attributes):
            changed[0] += 1
            return replace(part, attributes=tuple(map(reworded_attribute, part.attributes)))
        return part

    def reworded_attribute(one: Attribute) -> Attribute:
        text = one.text and replace(one.text, text=one.text.text.replace(old, new))
        return replace(one, value=one.value.replace(old, new), text=text)

    pages = [_with_words(page, reword) for page in made.pages(sheet)]
    assert changed[0], f"{old!r} stands nowhere on {sheet}"
    return _replaced(name, made, pages)


def _with_words(page: Page, reword: Callable[[Primitive], Primitive]) -> Page:
    views = (
        replace(view, annotation=tuple(reword(part) for part in view.annotation))
        for view in page.views
    )
    return replace(page, views=tuple(views), paper=tuple(reword(part) for part in page.paper))


def _replaced(name: str, made: Made, pages: Iterable[Page]) -> Submittal:
    new: dict[str, ReviewedPage] = {p.sheet: reviewed_page(p, made.drawing) for p in pages}
    whole = submittal(name)
    return Submittal(tuple(new.get(one.sheet, one) for one in whole.sheets), whole.inputs)


def found(rule: SetRule, subject: Submittal) -> list[Finding]:
    """What a rule finds that is neither in order nor beside the point."""
    return [f for f in rule.check(subject) if f.outcome not in ("pass", "n/a")]
