"""A figure that stands in several places of a set is the same in all of them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from planset.finding import Finding, Outcome
from planset.review.page_rule import DRAFTING_RULE
from planset.review.set_rule import SetRule
from planset.review.submittal import Submittal

_Take = Literal["each", "sum", "any", "one or none"]


@dataclass(frozen=True, slots=True)
class Place:
    """Where a figure is printed, or drawn as often as it says.

    Attributes:
        sheet: The sheet.
        pattern: Matches it in the words of the sheet, its first group the number; what the names
            of blocks begin with where `drawn`.
        take: Whether each match must be the figure, or their sum, or any of them; "one or none"
            reads words of the drafter, in which only a number that stands alone is clear.
        drawn: Whether the things themselves are counted in the views of the sheet.
    """

    sheet: str
    pattern: str
    take: _Take = "each"
    drawn: bool = False


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure.

    Attributes:
        name: What it is.
        unit: Its unit, "" for a count.
        places: Where it is printed; a job need not have all of them.
        several: Whether it is not one number but a few, the same few in every place.
    """

    name: str
    unit: str
    places: tuple[Place, ...]
    several: bool = False


@dataclass(frozen=True, slots=True)
class _Reading:
    """A number as it is printed."""

    sheet: str
    printed: str
    any: bool = False

    @property
    def value(self) -> float:
        return float(self.printed.replace(",", ""))

    @property
    def decimals(self) -> int:
        return len(self.printed.partition(".")[2])


FIGURES: tuple[Figure, ...] = (
    Figure(
        "power of the modules",
        "kW DC",
        (
            Place("G-001", r"MODULES, ([\d.]+) kW DC, "),
            Place("G-001", r"\bDC POWER ([\d.]+) kW DC"),
            Place("E-601", r"([\d.]+) kW dc at standard"),
        ),
    ),
    Figure(
        "power of the inverters",
        "kW AC",
        (
            Place("G-001", r" kW DC, ([\d.]+) kW AC"),
            Place("G-001", r"\bAC POWER ([\d.]+) kW AC"),
            Place("E-601", r"standard test conditions, ([\d.]+) kW ac"),
        ),
    ),
    Figure(
        "number of modules",
        "",
        (
            Place("G-001", r"\b(\d+) MODULES, [\d.]+ kW DC"),
            Place("G-001", r"\bMODULES (\d+) x ", "sum"),
            Place("G-001", r"\b[SB]\d+: (\d+)\b", "sum"),
            Place("G-001", r"\bSCOPE .*?OWNER\b", "one or none"),
            Place("C-101", r"\bPV ARRAY \S+ (\d+) MODULES?\b", "sum"),
            Place("A-101", r"\bARRAYS .*?\bMODULES (\d+)\b"),
            Place("A-101", "MODULE-", drawn=True),
            Place("E-101", r"\bMODULE \((\d+)\)"),
            Place("E-601", r"\bratio [\d.]+; (\d+) modules"),
            Place("Z-601", r"\b(\d+) \d+ \d+ EACH MODULES, ARRAY", "sum"),
        ),
    ),
    Figure(
        "number of attachments",
        "",
        (
            Place("G-001", r"\bATTACHMENTS (\d+) x ", "sum"),
            Place("A-101", r"\bARRAYS .*?\bATTACHMENTS (\d+)\b"),
            Place("S-101", r"\bA\w* ALL \d+ (\d+)\b", "sum"),
            Place("S-101", "ATTACHMENT-", drawn=True),
            Place("S-601", r"\b[1-3]'?[enr]? (\d+) [A-Z]+\d+ \d+\.\d\d ", "sum"),
            Place("Z-601", r"\b(\d+) \d+ \d+ EACH ATTACHMENTS, ARRAY", "sum"),
        ),
    ),
    Figure(
        "number of wire clips",
        "",
        (
            Place("E-101", r"\bWire clips: .*?; (\d+) in all\b"),
            Place("Z-101", r"\bALL (\d+)\b(?! BARS)", "sum"),
            Place("Z-601", r"\bWIRE CLIP - - (\d+) ", "sum"),
        ),
    ),
    Figure(
        "number of grounding lugs",
        "",
        (
            Place("E-101", r"\bGrounding lugs: (\d+), one for each section"),
            Place("E-601", r"\bLISTED LUG (\d+) ", "sum"),
            Place("Z-101", r"\bGROUNDING LUGS, ARRAY \S+ \((\d+)\)(?!, CONT)", "sum"),
            Place("Z-601", r"\b(\d+) \d+ \d+ EACH 1 PER BONDED SECTION", "sum"),
        ),
    ),
    Figure(
        "design wind speed",
        "mph",
        (
            Place("G-001", r"\bWIND ([\d.]+) mph\b"),
            Place("S-601", r"\bBASIC WIND SPEED V, ULTIMATE ([\d.]+) MPH\b"),
        ),
    ),
    Figure(
        "ground snow",
        "psf",
        (
            Place("G-001", r"\bSNOW ([\d.]+) psf on the ground\b"),
            Place("S-601", r"\bGROUND SNOW ([\d.]+) PSF\b"),
        ),
    ),
    Figure(
        "highest voltage of a string",
        "V",
        (
            Place("G-001", r"\bSTRINGS .*HIGHEST VOC ([\d.]+) V"),
            Place("E-601", r"\bCOLD Voc ([\d.]+) V\b", "any"),
            Place("E-602", r"\bBY COEFFICIENT n Voc .*? ([\d,.]+) V <=", "any"),
            Place("E-701", r"\bMAXIMUM DC VOLTAGE ([\d.]+) V\b", "any"),
        ),
    ),
    Figure(
        "output current",
        "A",
        (
            Place("G-001", r"\bOUTPUT ([\d.]+) A at\b"),
            Place("E-602", r"\bALL NEW SOURCES SUM OF OUTPUTS .*?([\d.]+) A -"),
            Place("E-701", r"\bRATED AC OUTPUT CURRENT ([\d.]+) A\b", "any"),
        ),
    ),
    Figure(
        "voltages of the strings",
        "V",
        (
            Place("E-601", r"\bCOLD Voc ([\d.]+) V\b"),
            Place("E-601", r"\(\d+\) \S+, [\d.]+ W INV\S+, \d+ ([\d.]+) "),
            Place("E-602", r"\bBY COEFFICIENT n Voc .*? ([\d,.]+) V <="),
        ),
        several=True,
    ),
    Figure(
        "breaker at the point of connection",
        "A",
        (
            Place("G-001", r"\bCONNECTION (\d+) A breaker, load side"),
            Place("E-601", r"\b(?:PV|SOURCES) BREAKER, BACK-FED (\d+) A\b", "any"),
        ),
    ),
    Figure(
        "breakers of the sources",
        "A",
        (
            Place("E-601", r"\bCB\d+ (?:BREAKER|PV BREAKER|SOURCES BREAKER)\b.*?(\d+) A, [23]P"),
            Place("E-602", r"\bCB\d+, (?:OF THE JOB|NEXT STANDARD) .*? (\d+) A >="),
        ),
        several=True,
    ),
    Figure(
        "main breaker of the service",
        "A",
        (
            Place("G-001", r"\bSERVICE (\d+) A main\b"),
            Place("E-601", r"\bBUS \d+ A, MAIN (\d+) A MAIN SERVICE PANEL"),
            Place("E-601", r"\bMAIN SERVICE PANEL BUS \d+ A, MAIN (\d+) A\b"),
        ),
    ),
    Figure(
        "bus of the service",
        "A",
        (
            Place("G-001", r"\bSERVICE .*?, (\d+) A bus\b"),
            Place("E-601", r"\bBUS (\d+) A, MAIN \d+ A MAIN SERVICE PANEL"),
            Place("E-601", r"\bMAIN SERVICE PANEL BUS (\d+) A, MAIN \d+ A\b"),
        ),
    ),
)

_FLOAT = 1e-9
_COUNTED = re.compile(r"\b(\d+)[- ]modules?\b", re.IGNORECASE)


def check(submittal: Submittal) -> Iterator[Finding]:
    """Compare each figure that is read in two places or more."""
    for figure in FIGURES:
        places = [readings for p in figure.places if (readings := _read(submittal, p))]
        if len(places) > 1 or (places and len(places[0]) > 1 and not figure.several):
            yield _compared(figure, places)


def _read(submittal: Submittal, place: Place) -> list[_Reading]:
    if place.drawn:
        count = submittal.inserted(place.sheet, place.pattern)
        return [] if count is None else [_Reading(place.sheet, str(count))]
    words = submittal.words(place.sheet)
    found = re.findall(place.pattern, words)
    match place.take:
        case "sum" if found:
            found = [str(sum(map(int, found)))]
        case "one or none":
            counted = _COUNTED.findall(" ".join(found))
            found = counted if len(counted) == 1 else []
    return [_Reading(place.sheet, printed, place.take == "any") for printed in found]


def _compared(figure: Figure, places: list[list[_Reading]]) -> Finding:
    readings = [reading for place in places for reading in place]
    agree = _same_few(places) if figure.several else _one_number(places)
    told = dict.fromkeys(
        f"{one.printed} {figure.unit}".rstrip() + f" on {one.sheet}" for one in readings
    )
    said = f"{figure.name[0].upper()}{figure.name[1:]}: {', '.join(told)}"
    in_words = any(place.take == "one or none" for place in figure.places)
    correct = "correct project.scope, or" if in_words else "draw nothing by them and"
    mend = "" if agree else f"; they do not agree: {correct} report this fault of planset"
    sheets = tuple(dict.fromkeys(reading.sheet for reading in readings))
    outcome = Outcome.PASS if agree else Outcome.FAIL
    return RULE.finding(outcome, f"{said}{mend}.", *sheets, citation=DRAFTING_RULE)


def _same_few(places: list[list[_Reading]]) -> bool:
    """Whether every place prints the same numbers, in whatever order and however often."""
    return len({frozenset(reading.value for reading in place) for place in places}) == 1


def _one_number(places: list[list[_Reading]]) -> bool:
    """Whether all places print the number that the first does, to the decimals they print."""
    first = places[0][0]
    same = [[_alike(first, reading) for reading in place] for place in places]
    return all(
        any(alike) if place[0].any else all(alike)
        for place, alike in zip(places, same, strict=True)
    )


def _alike(one: _Reading, other: _Reading) -> bool:
    """Whether two numbers are the same, to the decimals of the one with fewer."""
    coarse = min(one.decimals, other.decimals)
    half = 0.5 * 10.0**-coarse if one.decimals != other.decimals else 0.0
    return abs(one.value - other.value) <= half + _FLOAT


RULE = SetRule(id="contents.figures", title="Figures that appear twice agree", check=check)
