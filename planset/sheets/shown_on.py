"""Where a set shows what a finding is about: its value, its check, its clause, its objects."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache

from planset.finding import Finding
from planset.sheets.contents import SheetContents
from planset.sheets.context import base_id
from planset.sheets.findings_table import value_words

# Sheets that show a subject, those that show it at its fullest first.
_SHEETS = {
    "fire access": ("A-101", "C-101"),
    "structure": ("S-601", "S-501", "S-101"),
    "layout": ("S-101", "A-101", "C-101", "S-601"),
    "electrical": ("E-601", "E-602", "E-101"),
}
_LENGTHS = {**_SHEETS, "electrical": ("E-101", "E-601", "E-602")}  # read off a plan or a wall
_ON_WALLS = frozenset(
    {
        "electrical.disconnect-near-meter",
        "electrical.equipment-on-wall",
        "electrical.handle-height",
        "electrical.working-space",
    }
)
_WALL = "WALL-"  # how names of blocks of elevations begin
_AT_LAST = {"electrical": ("E-701",)}  # where no other sheet shows it
_VALUE, _CHECK, _CLAUSE, _OBJECTS = 4, 3, 2, 1
_MOST = 2  # sheets named
_NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?")
_TELLING = 3  # characters of a number that hardly stands on a sheet by chance
_SECTION = re.compile(r"(?:Table |Figure )?\d+\.\d+[\w.()]*")


def shown_on(pages: Iterable[SheetContents], subject: str, finding: Finding) -> list[str]:
    """Sheets that show a finding best, at most two; none if no sheet of its subject does.

    The name of its check tells most, then its clause, then all its objects; and its value beside
    any of them more than these. A value alone may be that of something else.

    Args:
        pages: What stands on the sheets of the set.
        subject: That of the finding's rule.
        finding: What was found.
    """
    pages = tuple(pages)
    if finding.rule in _ON_WALLS and any(map(_has_walls, pages)):
        pages = tuple(filter(_has_walls, pages))
    order = (_LENGTHS if finding.unit == "in" else _SHEETS)[subject]
    ranked = sorted(
        (page for page in pages if base_id(page.sheet) in order),
        key=lambda page: order.index(base_id(page.sheet)),
    )
    told = {page.sheet: _told(page, finding) for page in ranked}
    most = max(told.values(), default=0)
    if most > _OBJECTS:
        return [sheet for sheet, tells in told.items() if tells == most][:_MOST]
    named = [p.sheet for p in ranked if told[p.sheet]]
    named += [p.sheet for p in ranked if any(map(p.says, finding.objects))]
    last = [page for page in pages if base_id(page.sheet) in _AT_LAST.get(subject, ())]
    named += [page.sheet for page in last if _told(page, finding)]
    return named[:1]


def _has_walls(page: SheetContents) -> bool:
    """Whether elevations of walls stand on a page."""
    return any(name.startswith(_WALL) for name in page.blocks)


def _told(page: SheetContents, finding: Finding) -> int:
    told = (
        _CHECK * page.says(finding.title.partition(",")[0])
        + _CLAUSE * any(map(page.says, _SECTION.findall(finding.citation)))
        + _OBJECTS * (bool(finding.objects) and all(map(page.says, finding.objects)))
    )
    return told + _VALUE * (told > 0 and _shows_value(page, finding))


def _shows_value(page: SheetContents, finding: Finding) -> bool:
    """Whether the value stands on a page: a length as words, a number rounded as it is printed."""
    if finding.measured is None:
        return False
    words = value_words(finding)
    number = words.split()[0]
    if not _NUMBER.fullmatch(number):
        return page.says(words)
    decimals = len(number.partition(".")[2])
    return len(number) >= _TELLING and number in _numbers(page.words, decimals)


@cache
def _numbers(words: str, decimals: int) -> frozenset[str]:
    """Every number of a text, rounded."""
    return frozenset(f"{float(number):.{decimals}f}" for number in _NUMBER.findall(words))
