"""Which marks stand on which tape, and from which end of an eave it runs."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planset.design.mounted import Mounted
from planset.design.racking import Racking, Rail
from planset.sheets.tag_lists import first_to_last, from_to, listed_tags, ordinal
from planset.sheets.tape_marks import Eave, Tape, eave_of, eaves, marks, tapes_along, whole_eave
from tests.sheets.attachment_sheets import expanded
from tests.sheets.mounted_jobs import design_of

Pattern = tuple[float, float, list[float]]
"""A rail's ends, and the marks of its attachments."""


def with_rails(patterns: list[Pattern]) -> Mounted:
    """An array with rails across the slope and attachments where they are wanted."""
    one = design_of("shingle-across").mounts[0]
    pattern = one.racking.attachments[0]
    rails = tuple(
        Rail(f"R{n}", one.id, n, up=False, line_in=20.0 * n, start_in=low, end_in=high)
        for n, (low, high, _) in enumerate(patterns, 1)
    )
    held = tuple(
        replace(pattern, id=f"{rail.id}/{u}", rail=rail.id, u_in=u, along_in=u, v_in=rail.line_in)
        for rail, (_, _, us) in zip(rails, patterns, strict=True)
        for u in us
    )
    return replace(one, racking=Racking(one.id, rails, held))


def under(tape: Tape, rail: Rail) -> list[float]:
    return [u for u in tape.marks if rail.start_in <= u <= rail.end_in]


@st.composite
def rails(draw: st.DrawFn) -> Pattern:
    low = draw(st.integers(0, 8)) * 24.0
    high = low + draw(st.integers(1, 10)) * 24.0
    inside = st.integers(int(low) // 24, int(high) // 24).map(lambda n: 24.0 * n)
    return low - 1, high + 1, sorted(draw(st.sets(inside, min_size=1)))


@settings(deadline=None)
@given(st.lists(rails(), min_size=1, max_size=8))
def test_every_rail_is_on_one_tape_and_takes_each_mark_of_it_under_it(
    patterns: list[Pattern],
) -> None:
    one = with_rails(patterns)
    tapes = tapes_along([one])
    named = [rail for tape in tapes for rail in tape.rails]
    assert sorted(named) == sorted(rail.id for rail in one.racking.rails)
    assert len({tape.name for tape in tapes}) == len(tapes) <= 3
    for rail, (_, _, us) in zip(one.racking.rails, patterns, strict=True):
        (tape,) = (tape for tape in tapes if rail.id in tape.rails)
        assert set(us) <= set(tape.marks)
        if tape.whole:
            assert under(tape, rail) == us


def test_rails_alike_share_one_tape_without_a_name() -> None:
    (tape,) = tapes_along([with_rails([(0, 100, [10, 60]), (0, 100, [10, 60])])])
    assert (tape.name, tape.rails, tape.marks) == ("", ("R1", "R2"), (10, 60))


def test_a_shorter_rail_shares_the_tape_of_a_longer_one() -> None:
    (tape,) = tapes_along([with_rails([(0, 100, [10, 60]), (40, 160, [60, 110])])])
    assert tape.marks == (10, 60, 110)


def test_staggered_rails_have_two_tapes() -> None:
    first, second = tapes_along(
        [with_rails([(0, 100, [10, 58]), (0, 100, [34, 82]), (0, 100, [10, 58])])]
    )
    assert (first.name, first.rails, first.marks) == ("A", ("R1", "R3"), (10, 58))
    assert (second.name, second.rails, second.marks) == ("B", ("R2",), (34, 82))


def test_more_patterns_than_tapes_are_left_to_the_table() -> None:
    (tape,) = tapes_along([with_rails([(0, 100, [n, n + 50.0]) for n in (1, 11, 21, 31)])])
    assert not tape.whole
    assert len(tape.marks) == 8


def test_rails_up_the_slope_share_one_tape() -> None:
    of = design_of("tile-gable")
    (tape,) = tapes_along(of.mounts)
    assert tape.marks == pytest.approx([rail.line_in for rail in of.racking[0].rails])


def test_wings_part_an_eave_and_an_array_takes_the_part_below_it() -> None:
    of = design_of("cross-gable")
    front = of.roof.plane("front")
    # wings at 2 ft and 64 ft from the left, 24 ft and 22 ft wide, on an 88 ft front
    expected = [(0, 24), (26 * 12, 64 * 12), (86 * 12, 88 * 12)]
    found = [(eave.left_in, eave.right_in) for eave in eaves(front)]
    assert found == [pytest.approx(ends) for ends in expected]
    assert whole_eave(front) == Eave(pytest.approx(0), pytest.approx(88 * 12))
    assert eave_of(of.mounts[0]).left_in == pytest.approx(26 * 12)


def test_an_array_over_a_valley_is_measured_along_the_whole_eave() -> None:
    one = design_of("cross-gable").mounts[0]
    moved = replace(one.racking.attachments[0], u_in=20 * 12.0)
    racking = replace(one.racking, attachments=(moved, *one.racking.attachments[1:]))
    assert eave_of(replace(one, racking=racking)) == whole_eave(one.array.plane)


def test_marks_a_hair_apart_are_one() -> None:
    assert marks([5.0, 1.0, 1.01]) == (1.0, 5.0)


@pytest.mark.parametrize(
    ("tags", "words"),
    [
        (["R1"], "R1"),
        (["R1", "R2"], "R1, R2"),
        (["R1", "R2", "R3", "R5"], "R1-R3, R5"),
        (["R1a", "R2a", "R3a", "R3b"], "R1a-R3a, R3b"),
        (["R9", "R10", "R11"], "R9-R11"),
    ],
)
def test_tags_are_listed_so_that_each_can_be_read_back(tags: list[str], words: str) -> None:
    assert listed_tags(tags) == words
    assert expanded(words) == tags


def test_short_words_for_numbers() -> None:
    assert [ordinal(n) for n in (1, 2, 3, 4, 11, 12, 13, 21, 102, 113)] == (
        ["1ST", "2ND", "3RD", "4TH", "11TH", "12TH", "13TH", "21ST", "102ND", "113TH"]
    )
    assert (first_to_last([7, 3]), first_to_last([3]), first_to_last([])) == ("3-7", "3", "-")
    assert (from_to([]), from_to(["H1"]), from_to(["H01", "H05"])) == ("-", "H1", "H01-H05")
    assert from_to(["F100", "F104"]) == "F100-F104"
    assert listed_tags(["RSD-S1", "RSD-S2", "RSD-S3"]) == "RSD-S1 TO RSD-S3"
