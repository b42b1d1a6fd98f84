"""What reviewers look for: seen in every example, missed where it is taken away."""

from __future__ import annotations

from collections import Counter

import pytest
from contents_of import EXAMPLES, found, reworded, submittal, under, without

from planset.catalog.contents import CONTENT_ITEMS, EVERY_SHEET
from planset.finding import Outcome
from planset.review.contents.items import RULE

MUST = [item for item in CONTENT_ITEMS if item.asked == "must have"]


@pytest.mark.parametrize("name", EXAMPLES)
def test_an_example_shows_all_of_it(name: str) -> None:
    assert [finding.message for finding in found(RULE, submittal(name))] == []


def test_names_are_one_each() -> None:
    assert max(Counter(item.name for item in CONTENT_ITEMS).values()) == 1


@pytest.mark.parametrize("sheet", sorted({item.sheet for item in MUST} - {EVERY_SHEET}))
def test_a_sheet_left_out_leaves_its_items_open(sheet: str) -> None:
    missed = found(RULE, without(submittal("tile-gable"), sheet))
    open_ones = {f.objects[1] for f in missed if f.outcome is Outcome.OPEN}
    assert open_ones == {item.name for item in MUST if item.sheet == sheet}
    assert all(f"list {sheet} in drafting.sheets" in finding.message for finding in missed)
    assert all(f.outcome in (Outcome.OPEN, Outcome.ASK) for f in missed)


def test_what_most_expect_is_asked() -> None:
    (missed,) = found(RULE, without(submittal("tile-gable"), "E-602"))
    assert (missed.outcome, missed.objects) == ("ask", ("E-602", "electrical calculations"))


@pytest.mark.parametrize(
    ("sheet", "words", "item"),
    [
        ("G-001", "SCOPE", "scope of work in words"),
        ("G-001", "license", "contractor and license"),
        ("A-101", "AREA RATIO", "share of the roof covered"),
        ("S-501", "WEATHERPROOFING", "flashing and weatherproofing"),
        ("E-601", "POINT OF CONNECTION", "point of connection"),
        ("E-701", "LABEL SCHEDULE", "labels: wording and place"),
    ],
)
def test_words_taken_off_a_sheet_are_missed(sheet: str, words: str, item: str) -> None:
    (missed,) = found(RULE, reworded("tile-gable", sheet, words, "-"))
    assert (missed.outcome, missed.objects) == ("open", (sheet, item))
    assert missed.message.endswith(f"show it on {sheet}.")


def test_an_item_of_another_subject_is_not_looked_for() -> None:
    """The store's attachments are by others, so that there is no S-101; its roof has no ridge."""
    judged = {finding.objects[1] for finding in RULE.check(submittal("flat-commercial"))}
    assert "every attachment" not in judged
    assert "edges by name" not in judged
    assert "obstructions" in judged


def test_what_the_jurisdiction_requires_fails() -> None:
    subject = under(submittal("tile-gable"), must_show=("three-line diagram", "project address"))
    (missed,) = found(RULE, subject)
    assert (missed.outcome, missed.objects) == ("fail", ("E-601", "three-line diagram"))
    assert missed.citation == "Guide, 2026-01-01"
    (missed,) = found(
        RULE, under(without(subject, "E-602"), must_show=("electrical calculations",))
    )
    assert missed.outcome is Outcome.FAIL


def test_answers_are_looked_for_in_a_resubmittal_only() -> None:
    asked = ("revision block", "answers to corrections")
    first = under(submittal("tile-gable"), must_show=asked)
    assert found(RULE, first) == []
    again = submittal("battery-retrofit")
    shown = {f.objects[1] for f in RULE.check(again) if f.outcome is Outcome.PASS}
    assert shown >= set(asked)
    gone = reworded("battery-retrofit", "G-002", "ANSWERS TO CORRECTIONS", "-")
    assert [f.objects[1] for f in found(RULE, gone)] == ["answers to corrections"]
