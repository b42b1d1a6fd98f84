"""Figures that stand on several sheets: the same in every example, told where one is changed."""

from __future__ import annotations

import pytest
from contents_of import EXAMPLES, found, reworded, submittal

from planset.finding import Outcome
from planset.review.contents.figures import FIGURES, RULE


@pytest.mark.parametrize("name", EXAMPLES)
def test_they_agree_in_an_example(name: str) -> None:
    assert [finding.message for finding in found(RULE, submittal(name))] == []


def test_each_is_read_in_several_places_of_some_example() -> None:
    """A pattern that matches nothing any more would see no disagreement either."""
    read = {
        finding.message.partition(":")[0].lower()
        for name in EXAMPLES
        for finding in RULE.check(submittal(name))
    }
    assert read == {figure.name for figure in FIGURES}


@pytest.mark.parametrize(
    ("sheet", "old", "new", "figure"),
    [
        ("G-001", "8.04 kW DC", "8.14 kW DC", "Power of the modules"),
        ("G-001", "8.040 kW DC", "8.046 kW DC", "Power of the modules"),
        ("E-601", "8.04 kW dc", "8.05 kW dc", "Power of the modules"),
        ("E-601", "7.60 kW ac", "7.06 kW ac", "Power of the inverters"),
        ("G-001", "20 MODULES", "21 MODULES", "Number of modules"),
        ("G-001", "S1: 10", "S1: 11", "Number of modules"),
        ("G-001", "New 20-module", "New 22-module", "Number of modules"),
        ("E-101", "MODULE (20)", "MODULE (19)", "Number of modules"),
        ("G-001", "75 x Heron hook", "74 x Heron hook", "Number of attachments"),
        ("C-101", "20 MODULES", "18 MODULES", "Number of modules"),
        ("Z-601", "75", "76", "Number of attachments"),
        ("E-101", "118 in all", "117 in all", "Number of wire clips"),
        ("Z-101", "118", "181", "Number of wire clips"),
        ("Z-601", "118", "119", "Number of wire clips"),
        ("E-101", "lugs: 1,", "lugs: 2,", "Number of grounding lugs"),
        ("Z-101", "ARRAY A1 (1)", "ARRAY A1 (3)", "Number of grounding lugs"),
        ("G-001", "110 mph", "115 mph", "Design wind speed"),
        ("S-601", "110 MPH", "101 MPH", "Design wind speed"),
        ("S-601", "0 PSF", "20 PSF", "Ground snow"),
        ("G-001", "403.2 V", "430.2 V", "Highest voltage of a string"),
        ("E-602", "403.2 V", "413.2 V", "Voltages of the strings"),
        ("E-701", "403.2 V", "303.2 V", "Highest voltage of a string"),
        ("G-001", "31.67 A at", "31.76 A at", "Output current"),
        ("G-001", "40 A breaker", "45 A breaker", "Breaker at the point of connection"),
        ("E-601", "BACK-FED", "BACK-FED 50 A, 2P,", "Breakers of the sources"),
        ("G-001", "200 A main", "225 A main", "Main breaker of the service"),
        ("G-001", "200 A bus", "225 A bus", "Bus of the service"),
    ],
)
def test_another_number_on_one_sheet_is_caught(sheet: str, old: str, new: str, figure: str) -> None:
    wrong = found(RULE, reworded("tile-gable", sheet, old, new))
    assert figure in {finding.message.partition(":")[0] for finding in wrong}
    assert all(finding.outcome is Outcome.FAIL for finding in wrong)
    assert all(sheet in finding.objects for finding in wrong)


def test_a_module_missing_from_the_plan_is_caught() -> None:
    """Counted from what the views insert, not from the design."""
    whole = submittal("tile-gable")
    (plan,) = whole.pages("A-101")
    block = plan.drawing.blocks["ARRAY-A1"]
    fewer = type(block)(block.name, block.primitives[1:], block.description)
    plan.drawing.blocks["ARRAY-A1"] = fewer  # type: ignore[index]
    try:
        (wrong,) = found(RULE, whole)
    finally:
        plan.drawing.blocks["ARRAY-A1"] = block  # type: ignore[index]
    assert "19 on A-101" in wrong.message
    assert wrong.message.startswith("Number of modules")


def test_a_scope_that_counts_two_things_is_not_read() -> None:
    subject = reworded("tile-gable", "G-001", "New 20-module", "12-module array beside a 9-module")
    assert found(RULE, subject) == []
