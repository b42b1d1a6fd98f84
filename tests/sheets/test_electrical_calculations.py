"""E-602: the numbers printed make the result printed, and the checks compare the same pairs."""

from __future__ import annotations

import math
import re
from functools import cache
from pathlib import Path

import pytest

from planset.design.design import build_design
from planset.drawing.primitives import Text
from planset.finding import Finding, Outcome
from planset.job.load import read_job
from planset.resources import all_symbols
from planset.rules.run import judge
from planset.sheets.context import SheetContext
from planset.sheets.electrical_calculations import blocks, build
from planset.sheets.electrical_calculations_rows import Block, Code, Line, amperes, percent, volts
from tests.sheets.drawn_sets import EXAMPLES, title_block

NAMES = ("tile-gable", "shingle-hip", "cross-gable", "battery-retrofit", "flat-commercial")

# Rules whose pair of numbers stands on the sheet, by how they are printed.
PAIRS = {
    "string-voltage": volts,
    "string-minimum-voltage": volts,
    "string-fuse": amperes,
    "source-device": amperes,
    "conductor-terminals": amperes,
    "conductor-ampacity": amperes,
    "conductor-protection": amperes,
    "busbar": amperes,
    "main-derate": amperes,
    "supply-side-sources": amperes,
    "tap-disconnect": amperes,
    "interrupting-rating": amperes,
    "voltage-drop": percent,
}

# What may stand in a line of arithmetic beside digits and signs: units, remarks, a name.
_REMARK = re.compile(r"\(\d+ (C|WIRES)\)|;.*|=.*| SQ IN\b| (A|V|FT|C|%)(?=[ )]|$)")
_ARITHMETIC = re.compile(r"(floor|ceil)?[\d.,()\s*/+-]+")


def context_of(job: Path) -> SheetContext:
    design = build_design(read_job(job))
    return SheetContext(design, judge(design), (), all_symbols(), title_block(), "PRELIMINARY")


@cache
def context(name: str) -> SheetContext:
    return context_of(EXAMPLES / name / "job.yaml")


@cache
def listed(name: str) -> tuple[Block, ...]:
    return blocks(context(name))


def lines(name: str) -> list[Line]:
    return [line for block in listed(name) for line in block.lines]


def worked_out(numbers: str) -> float | None:
    """The value of a line of arithmetic, None for words."""
    text = _REMARK.sub("", numbers).replace(" x ", " * ")
    if not re.search(r"[*/+]", text) or not _ARITHMETIC.fullmatch(text):
        return None
    return float(eval(text, {"floor": math.floor, "ceil": math.ceil}))  # noqa: S307 - digits only


def figure(words: str) -> float:
    (found,) = re.findall(r"-?[\d,]+(?:\.\d+)?", words)[:1]
    return float(found.replace(",", ""))


def named(name: str, start: str, title: str = "") -> Line:
    """The first line whose value starts so, in a block whose title starts so."""
    return next(
        line
        for block in listed(name)
        if block.title.startswith(title)
        for line in block.lines
        if line.value.startswith(start)
    )


def test_the_segments_that_share_a_raceway_are_told_in_the_plural() -> None:
    fills = [line.value for line in lines("cross-gable") if line.value.startswith("FILL, WITH")]
    # The runs of the three boxes lie in one raceway for the last 20 ft.
    assert fills == [f"FILL, WITH SEGMENTS {two}" for two in ("5, 6", "4, 6", "4, 5")]


@pytest.mark.parametrize("name", NAMES)
def test_the_numbers_make_the_result(name: str) -> None:
    """What is printed is rounded, so that the result agrees to 1 % or 0.03; fill is a share."""
    worked = 0
    for line in lines(name):
        value = worked_out(line.numbers)
        if value is None or line.value.startswith(("TERMINALS", "VOLTAGE", "NEW MAIN")):
            continue
        shown = figure(line.result)
        value = 100 * value if line.value.startswith("FILL") else value
        if (
            ", NEXT STANDARD" in line.value
            or ", OF THE JOB" in line.value
            or ", FUSE" in line.value
        ):
            shown = figure(line.limit)  # the result is a rating over it
        if line.value.startswith("SEGMENT"):
            shown = figure(line.limit)  # the least ampacity of a feeder
        assert value == pytest.approx(shown, rel=0.01, abs=0.03), line
        worked += 1
    assert worked >= 8


@pytest.mark.parametrize("name", NAMES)
def test_the_numbers_of_a_drop_make_its_volts(name: str) -> None:
    drops = [line for line in lines(name) if line.value == "VOLTAGE DROP" and "=" in line.numbers]
    assert drops
    for line in drops:
        loss, whole = re.findall(r"([\d.]+) V", line.numbers.partition("=")[2])
        value = worked_out(line.numbers.replace(" / 1000 =", " / 1000;"))
        assert value == pytest.approx(float(loss), abs=0.006)
        assert 100 * float(loss) / float(whole) == pytest.approx(figure(line.result), abs=0.006)


def shown_pairs(name: str) -> set[tuple[str, float]]:
    return {
        (line.result, figure(line.limit)) for line in lines(name) if re.search(r"\d", line.limit)
    }


def compared(name: str) -> list[tuple[str, Finding]]:
    found = [(f.rule.removeprefix("electrical."), f) for f in context(name).findings]
    # a measured 0 is the drop of a segment that is counted in the one it continues, said in words
    return [(rule, f) for rule, f in found if rule in PAIRS and f.measured]


@pytest.mark.parametrize("name", NAMES)
def test_every_pair_a_check_compares_is_printed(name: str) -> None:
    pairs = compared(name)
    assert len(pairs) > 10
    shown = shown_pairs(name)
    for rule, finding in pairs:
        result = PAIRS[rule](finding.measured or 0.0)
        near = [limit for words, limit in shown if words == result]
        assert any(abs(limit - (finding.limit or 0.0)) < 0.051 for limit in near), finding


@pytest.mark.parametrize("name", NAMES)
def test_what_has_a_limit_has_the_outcome_of_a_check(name: str) -> None:
    """But for the table's voltage, all ways but the worst, and what another line judges."""
    without = {
        line.value.partition(",")[0] if "BY TABLE" not in line.value else "BY TABLE"
        for block in listed(name)
        for line in block.lines
        if line.limit and not line.outcome and block.title != "VOLTAGE DROP FROM EACH SOURCE"
    }
    assert without <= {"BY TABLE", "CONDUCTOR TO THE DEVICE", "NEW MAIN IN PLACE OF 125 A"}
    assert Outcome.PASS.value.upper() in {line.outcome for line in lines(name)}


def test_a_string_by_coefficient_and_by_table() -> None:
    """NEC 2020, 690.7(A)(1) and Table 690.7(A); worked by hand from the job's numbers."""
    design = context("tile-gable").design
    (string, *_) = design.electrical.strings
    module = design.inputs.modules[string.module]
    lowest_c = design.inputs.job.site.lowest_ambient
    by_hand = len(string.modules) * module.voc_v
    by_hand *= 1 + module.voc_percent_per_c / 100 * (lowest_c - 25)
    line = named("tile-gable", "S1", "MAXIMUM DC VOLTAGE")
    assert line.result == f"{by_hand:.1f} V"
    assert "690.7(A)(1)" in line.clause


def test_the_outcome_is_the_gravest_of_the_rule_for_the_pair() -> None:
    def found(outcome: Outcome, measured: float, *objects: str) -> Finding:
        return Finding(
            rule="electrical.source-device",
            title="Devices",
            outcome=outcome,
            citation="NEC 2020 705.30",
            message="It is so.",
            measured=measured,
            limit=30.25,
            objects=objects,
        )

    code = Code(2020, (found(Outcome.PASS, 35, "CB1"), found(Outcome.FAIL, 30, "CB2")))
    assert code.found("source-device", (35, 30.25)) == "PASS"
    assert code.found("source-device", (30, 30.25)) == "FAIL"
    assert code.found("source-device", objects=("CB2",)) == "FAIL"
    assert code.found("source-device") == "FAIL"
    assert code.found("source-device", (35, 30.25), ("CB2",)) == ""
    assert code.found("source-fuse", (35, 30.25)) == ""


def test_a_bus_shows_every_way_and_both_readings() -> None:
    """NEC 2023, 705.12(B)(1) and (2): 110 A + 1.25 x 24.2 A = 140.25 A on a bus of 125 A."""
    (block,) = [b for b in listed("battery-retrofit") if b.title.startswith("BUS OF MSP")]
    anywhere, opposite, reading = block.lines
    assert (anywhere.result, anywhere.limit, anywhere.outcome) == (
        *("140.25 A", "<= 125 A"),
        "NOT RELIED ON",
    )
    assert (opposite.result, opposite.limit, opposite.outcome) == ("140.25 A", "<= 150 A", "PASS")
    assert "RELIED ON" in opposite.value
    assert reading.numbers == "110 A + 40 A"  # 1.25 x 32 A from the grid
    assert (reading.result, reading.limit) == ("150 A", "<= 150 A")


@pytest.mark.parametrize("name", NAMES)
def test_pages_hold_all_lines_once(name: str) -> None:
    pages = build(context(name))
    words = [p.text for page in pages for p in page.paper if isinstance(p, Text)]
    for title in (block.title for block in listed(name) if block.lines):
        assert words.count(title) == 1
    assert words.count("ASSUMPTIONS AND BASIS") == 1
