"""E-601 of the example: every run tagged and listed, every wire square and connected."""

from __future__ import annotations

from collections import defaultdict
from pathlib import Path

import pytest
from shapely.geometry import LineString, Point

from planset.design.topology import Segment
from planset.drawing.flatten import strokes
from planset.drawing.geometry import Placement
from planset.drawing.geometry import Point as Place
from planset.drawing.primitives import Circle, Insert, Line
from planset.finding import Outcome
from planset.pipeline import check
from tests.example_job import edited
from tests.sheets.drawn_sets import Made, example, made_of, symbols
from tests.sheets.test_variants import STRINGS, strings

SHEET = "E-601"
WIRES = ("E-DIAG-ONEL", "E-DIAG-GRND", "E-DIAG-BUSS")
TOUCHES = 1e-6


def segments() -> tuple[Segment, ...]:
    return example().design.topology.segments


def wires() -> list[Line]:
    (view,) = example().page(SHEET).views
    return [part for part in view.model if isinstance(part, Line) and part.layer in WIRES]


def terminals() -> list[Place]:
    (view,) = example().page(SHEET).views
    made = []
    for part in view.model:
        if isinstance(part, Insert) and part.block in symbols():
            placed = Placement(part.at, part.rotation_deg, part.scale)
            made += [placed.apply(end) for end in symbols()[part.block].terminals.values()]
    return made


def drawn() -> list[LineString]:
    """Every line of the diagram but its wires: symbols, panel, array, junction box."""
    (view,) = example().page(SHEET).views
    others = [part for part in view.model if part not in wires()]
    found = strokes(others, Placement(), example().drawing.blocks)
    return [LineString(stroke.points) for stroke in found]


def test_the_example_has_runs_and_wires() -> None:
    assert len(segments()) == 7
    assert len(wires()) > 12


def test_every_run_is_tagged_once_in_a_circle() -> None:
    (view,) = example().page(SHEET).views
    circles = [part.center for part in view.annotation if isinstance(part, Circle)]
    assert len(circles) == len(segments())
    for segment in segments():
        tags = [text for text in example().annotated(SHEET) if text.text == segment.tag]
        assert [tag.at in circles for tag in tags] == [True], segment


def test_a_tag_stands_over_a_wire_between_what_its_run_joins() -> None:
    (view,) = example().page(SHEET).views
    at = {part.identity: part.at[0] for part in view.model if isinstance(part, Insert)}
    at["MSP"] = at["CB1"]  # the panel is an outline, its breaker stands in it
    for text in example().annotated(SHEET):
        for segment in segments():
            if text.text == segment.tag:
                x = text.at[0] - view.at[0]
                assert at[segment.start] < x < at[segment.end], segment


def test_every_run_is_listed_once() -> None:
    rows = defaultdict(list)
    for text in sorted(example().words(SHEET), key=lambda text: text.at):
        rows[round(text.at[1], 6)].append(text.text)
    listed = [tuple(row[:3]) for row in rows.values()]
    wanted = [(segment.tag, segment.start, segment.end) for segment in segments()]
    assert [listed.count(run) for run in wanted] == [1] * len(wanted)


def test_every_piece_of_equipment_is_tagged() -> None:
    (view,) = example().page(SHEET).views
    shown = {text.text for text in example().words(SHEET)}
    assert {item.tag for item in example().design.topology.equipment} <= shown


def test_every_wire_is_level_or_upright() -> None:
    for wire in wires():
        run, rise = abs(wire.b[0] - wire.a[0]), abs(wire.b[1] - wire.a[1])
        assert min(run, rise) < TOUCHES, wire
        assert max(run, rise) > 0.05, wire


def test_both_ends_of_every_wire_are_connected() -> None:
    known, shapes = terminals(), drawn()
    loose = []
    for wire in wires():
        others = [LineString([w.a, w.b]) for w in wires() if w is not wire]
        for end in (wire.a, wire.b):
            at_terminal = any(Point(end).distance(Point(t)) < TOUCHES for t in known)
            on_line = any(Point(end).distance(line) < TOUCHES for line in [*others, *shapes])
            if wire.layer != "E-DIAG-BUSS" and not at_terminal and not on_line:
                loose.append(end)
    # The one wire that leaves the drawing: from the bus to the loads, which are not ours.
    assert len(loose) == 1, loose
    (view,) = example().page(SHEET).views
    (loads,) = (t for t in example().annotated(SHEET) if t.text == "LOADS (E)")
    on_page = view.on_paper.apply(loose[0])
    assert Point(on_page).distance(Point(loads.at)) < 0.5


# --- many strings --------------------------------------------------------------------------


def of_many(folder: Path, count: int) -> Made:
    """The example with as many strings of one or two modules."""
    sizes = [20 // count + (number < 20 % count) for number in range(count)]
    return made_of(edited(folder, (STRINGS, strings(*sizes))))


@pytest.mark.parametrize("count", [3, 8, 14])
def test_many_strings_are_drawn_close_and_their_ratings_scheduled(
    tmp_path: Path, count: int
) -> None:
    made = of_many(tmp_path, count)
    rows = defaultdict(list)
    words = [text for page in made.pages(SHEET) for text in made.words(page.sheet)]
    for text in sorted(words, key=lambda text: text.at):
        rows[round(text.at[1], 6)].append(text.text)
    for string in made.design.circuits.strings:
        cold = f"{string.cold_voc_v:.1f} V"
        listed = [row for row in rows.values() if row[0] == string.id and cold in row]
        assert len(listed) == 1, string.id
        assert str(string.input) in listed[0]
        assert f"({len(string.modules)}) TR-402, 402 W" in listed[0]
    (view,) = made.page(SHEET).views
    shown = [part.identity for part in view.model if isinstance(part, Insert)]
    assert [shown.count(string.id) for string in made.design.circuits.strings] == [1] * count


def test_two_strings_have_their_ratings_over_them() -> None:
    assert "STRING SCHEDULE" not in example().lines(SHEET)
    assert example().lines(SHEET).count("COLD Voc 403.2 V") == 2


def test_more_strings_than_the_sheet_can_hold_are_a_finding(tmp_path: Path) -> None:
    checked = check(edited(tmp_path, (STRINGS, strings(*[1] * 20))))
    (room,) = (finding for finding in checked.findings if finding.rule == "drafting.room")
    assert room.outcome is Outcome.FAIL
    assert "SINGLE-LINE DIAGRAM of 20 strings" in room.message
