"""E-601 of the examples: every run tagged and listed, the path to earth whole, words that count."""

from __future__ import annotations

from collections import defaultdict
from pathlib import Path

import pytest

from planset.design.electrical.system import ElectricalDesign
from planset.drawing.flatten import rotated_text_box
from planset.drawing.geometry import Point, box_around
from planset.drawing.primitives import Circle, Insert, Line, Polyline, Text
from planset.sheets.one_line.control import symbol_of
from planset.sheets.one_line.paint import BOUNDARY, BUS
from tests.example_job import HIP
from tests.sheets.drawn_sets import Made, made_of, on_sheet, symbols

SHEET = "E-601"
ASKS = "timber-gap"  # for a three-line diagram
SIZES = ("11x17", "18x24", "24x36")
NAMES = ("tile-gable", "shingle-hip", "cross-gable", "battery-retrofit", "flat-commercial")


def electrical(made: Made) -> ElectricalDesign:
    return made.design.electrical


def words(made: Made) -> str:
    """All that stands on the sheet and what it runs over to."""
    return " ".join(line for page in made.pages(SHEET) for line in made.lines(page.sheet))


def rows(made: Made) -> list[list[str]]:
    """Text by level, page by page, from the left."""
    found: dict[tuple[str, float], list[str]] = defaultdict(list)
    for page in made.pages(SHEET):
        for text in sorted(made.words(page.sheet), key=lambda text: text.at):
            found[page.sheet, round(text.at[1], 6)].append(text.text)
    return list(found.values())


def inserted(made: Made) -> dict[str, Point]:
    """Where each piece of equipment is drawn."""
    return {
        part.identity: part.at
        for page in made.pages(SHEET)
        for view in page.views
        for part in view.model
        if isinstance(part, Insert) and part.identity
    }


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", NAMES)
def test_every_run_has_its_number_in_a_circle(name: str, size: str) -> None:
    made = on_sheet(name, size)
    numbers = []
    for page in made.pages(SHEET):
        for parts in (page.paper, *(view.annotation for view in page.views)):
            at = {part.at: part.text for part in parts if isinstance(part, Text)}
            circles = [part for part in parts if isinstance(part, Circle)]
            numbers += [at[circle.center] for circle in circles if circle.center in at]
    topology = electrical(made).topology
    runs = [*(s.tag for s in topology.segments), *(one.tag for one in topology.controls)]
    assert sorted(number for number in numbers if number in runs) == sorted(runs)


@pytest.mark.parametrize("name", NAMES)
def test_every_run_is_listed_once(name: str) -> None:
    made = on_sheet(name, "18x24")
    listed = [tuple(row[n : n + 3]) for row in rows(made) for n in range(len(row) - 2)]
    for segment in electrical(made).topology.segments:
        assert listed.count((segment.tag, segment.start, segment.end)) == 1, segment.tag


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", NAMES)
def test_every_piece_of_equipment_is_drawn(name: str, size: str) -> None:
    made = on_sheet(name, size)
    assert set(inserted(made)) == {item.tag for item in electrical(made).topology.equipment}


@pytest.mark.parametrize("name", NAMES)
def test_review_finds_nothing_on_the_sheet(name: str) -> None:
    for size in SIZES:
        assert [f for f in on_sheet(name, size).failures() if f"Sheet {SHEET}" in f] == []


# What a reader must be able to say from this sheet alone. Sizes are those of the design, which
# `tests/design` holds against the code's tables and examples.
FACTS = {
    "tile-gable": (
        "(10) TR-402, 402 W", "SERIES FUSE 25 A MAX", "403.2", "705.12(B)(3)(2)",
        "200 + 1.25 x 31.67 = 239.6 A", "9600 A available", "RAPID SHUTDOWN INITIATOR",
    ),
    "shingle-hip": ("(8) MQ-350, 350 W", "BUS 125 A, MAIN LUGS", "PRODUCTION METER", "45 A, 2P"),
    "cross-gable": (
        "FUSED 40 A", "100 kAIC", "share one raceway for the last 20 ft", "supply side", "480.0",
    ),
    "battery-retrofit": (
        "110 A, 2P", "a new 110 A breaker goes in", "at most 119.7 A", "HB-10", "GROUND ROD",
        "SOURCES DISCONNECT", "The transfer device", "(250.142(B))", "stop input of INV1",
    ),
    "flat-commercial": ("480 V, 3-PHASE", "731.8", "35 kAIC", "RHW-2 1000 V"),
}  # fmt: skip


@pytest.mark.parametrize("name", FACTS)
def test_the_sheet_says_what_a_reviewer_asks_for(name: str) -> None:
    said = words(on_sheet(name, "11x17"))
    assert [fact for fact in FACTS[name] if fact not in said] == []


@pytest.mark.parametrize("name", NAMES)
def test_conductors_are_listed_as_sized(name: str) -> None:
    made = on_sheet(name, "18x24")
    listed = {(row[n], row[n + 1]): row for row in rows(made) for n in range(len(row) - 1)}
    for segment in electrical(made).topology.segments:
        run = segment.conductors
        if run is not None:
            row = " ".join(listed[segment.tag, segment.start])
            assert f"({run.ungrounded}) {run.size} " in row, segment.tag
            assert f"{run.grounding} " in row, segment.tag


def test_the_source_breaker_is_drawn_opposite_the_main() -> None:
    made = on_sheet("tile-gable", "11x17")
    at = inserted(made)
    (bus,) = (load for load in electrical(made).buses if load.tag == "MSP")
    assert bus.opposite_end
    low, high = sorted((at["CB1"][1], at["MSP-MAIN"][1]))
    assert at["MSP-MAIN"][1] == high
    assert low < at["MSP-LOADS"][1] < high


@pytest.mark.parametrize("size", SIZES)
def test_the_diagram_itself_tells_the_bus_of_the_service_panel(size: str) -> None:
    made = on_sheet("tile-gable", size)
    (bus,) = (one for one in electrical(made).topology.equipment if one.tag == "MSP-BUS")
    pages = made.pages(SHEET)
    (view,) = (view for page in pages for view in page.views if view.title.endswith("DIAGRAM"))
    said = [part.text for part in view.annotation if isinstance(part, Text)]
    assert [words for words in said if words.startswith(f"BUS {bus.rating_a:g} A")]


@pytest.mark.parametrize("name", NAMES)
def test_the_grounding_path_is_scheduled_step_by_step(name: str) -> None:
    made = on_sheet(name, "24x36")
    said = words(made)
    for step in electrical(made).grounding:
        assert step.start in said
        assert step.end in said
    assert "GROUNDING_ELECTRODE" in {
        part.block
        for page in made.pages(SHEET)
        for view in page.views
        for part in view.model
        if isinstance(part, Insert)
    }


@pytest.mark.parametrize("name", NAMES)
def test_the_legend_shows_the_symbols_of_the_diagram(name: str) -> None:
    made = on_sheet(name, "11x17")
    used, shown = set(), set()
    for page in made.pages(SHEET):
        used |= {p.block.partition("-")[0] for v in page.views for p in v.model
                 if isinstance(p, Insert)}  # fmt: skip
        drawn = [*page.paper, *(part for view in page.views for part in view.annotation)]
        shown |= {part.block for part in drawn if isinstance(part, Insert)}
    assert used <= shown
    operated = {symbol_of(one.device) for one in electrical(made).topology.controls}
    assert shown & set(symbols()) - {"VIEW_BUBBLE"} == used | operated


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", NAMES)
def test_the_legend_does_not_stand_on_a_page_of_its_own(name: str, size: str) -> None:
    made = on_sheet(name, size)
    for page in made.pages(SHEET):
        titles = [text.text for text in page.paper if isinstance(text, Text)]
        assert page.views or any(
            title.endswith(("SCHEDULE", "PATH", "EXISTING")) for title in titles
        )


def test_control_wiring_is_drawn_from_what_is_operated_to_what_it_stops() -> None:
    made = on_sheet("battery-retrofit", "24x36")
    said = {
        part.text
        for page in made.pages(SHEET)
        for parts in (page.paper, *(view.annotation for view in page.views))
        for part in parts
        if isinstance(part, Text)
    }
    assert {"CONTROL WIRING", "AUX1 (N)", "ES1 (N)", "C1", "C2", "STOP INPUT"} <= said
    wires = [
        part
        for page in made.pages(SHEET)
        for parts in (page.paper, *(view.annotation for view in page.views))
        for part in parts
        if isinstance(part, Line) and part.layer == "E-DIAG-CTRL"
    ]
    assert len(wires) == 2 + 1  # one more in the legend


def test_buses_and_boundaries_have_pens_of_their_own() -> None:
    (view,) = on_sheet("tile-gable", "11x17").page(SHEET).views
    layers = [getattr(part, "layer", "") for part in view.model]
    assert layers.count(BUS) == 1
    assert layers.count(BOUNDARY) == 1


def test_a_jurisdiction_may_ask_for_every_conductor(tmp_path: Path) -> None:
    job = HIP.read_text(encoding="utf-8").replace(
        "jurisdiction: mesa-alta", f"jurisdiction: {ASKS}"
    )
    path = tmp_path / "job.yaml"
    path.write_text(job, encoding="utf-8")
    made = made_of(path)
    page = made.page(SHEET)
    assert page.title == "THREE-LINE DIAGRAM"
    names = [line for page in made.pages(SHEET) for line in made.lines(page.sheet)]
    assert names.count("L1") == names.count("L2") > 0
    assert on_sheet("shingle-hip", "11x17").page(SHEET).title == "SINGLE-LINE DIAGRAM"
    assert [fault for fault in made.failures() if f"Sheet {SHEET}" in fault] == []


@pytest.mark.parametrize("size", ["18x24", "24x36"])  # the short words of 11x17 name no inputs
def test_the_words_of_an_input_keep_off_the_symbol_of_the_inverter(size: str) -> None:
    made, inputs = on_sheet("cross-gable", size), ("INPUT 1", "INPUT 2", "INPUT 3")
    found = 0
    for page in made.pages(SHEET):
        for view in page.views:
            for part in view.model:
                if isinstance(part, Insert) and part.block.startswith("INVERTER-"):
                    symbol = min(
                        (
                            box_around(view.on_paper.apply((x + part.at[0], y + part.at[1]))
                                       for x, y in line.points)
                            for line in made.drawing.blocks[part.block].primitives
                            if isinstance(line, Polyline) and line.closed
                        ),
                        key=lambda box: box.height,
                    )  # fmt: skip
                    said = [t for t in view.annotation if isinstance(t, Text)]
                    for words in (t for t in said if t.text in inputs):
                        box = rotated_text_box(words)
                        assert not box.grown(box.height / 2).overlaps(symbol), words.text
                        found += 1
    assert found == len(inputs)
