"""What the set of a shop says, whose mounting and framing are by others."""

from __future__ import annotations

from tests.sheets.drawn_sets import own_sheet

SHOP = "flat-commercial"


def test_the_cover_warns_of_no_rafters_where_others_attach_the_arrays() -> None:
    assert not any("rafter, or a split rafter" in line for line in own_sheet(SHOP).lines("G-001"))


def test_nothing_is_assumed_by_the_rules_for_dwellings() -> None:
    assumed = own_sheet(SHOP).design.assumptions
    assert [item.text for item in assumed if "rake" in item.text or "R329" in item.basis] == []
    # Drains and a vent stand in the lanes of the job.
    assert any("does not close a pathway" in item.text for item in assumed)


def test_every_string_is_on_the_diagram() -> None:
    of = own_sheet(SHOP)
    shown = [line for page in of.pages("E-601") for line in of.lines(page.sheet)]
    assert {string.id for string in of.design.electrical.strings} <= set(shown)


def test_a_cell_of_the_string_schedule_takes_one_line() -> None:
    made = own_sheet(SHOP)
    lines = [line for page in made.pages("E-601") for line in made.lines(page.sheet)]
    assert lines.count("(18) TR-402") == len(made.design.electrical.strings) == 11
    # what is alike of all strings is said once, with the equipment
    assert len([line for line in lines if line.startswith("(18) TR-402, 402 W, Voc")]) == 1
