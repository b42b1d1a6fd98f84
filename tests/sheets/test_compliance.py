"""G-002: every finding of the rules stands on it, with the figures and sheets of the set."""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from planset.drawing.primitives import Link, Text
from planset.finding import Finding, Outcome
from planset.review.registry import PAGE_RULES
from planset.review.reviewed_page import reviewed_page
from planset.rules.registry import RULES
from planset.sheets.words import measured
from tests.example_job import edited, near_the_ridge
from tests.sheets.drawn_sets import Made, made_of, on_sheet, own_sheet
from tests.sheets.tables import TableOnPage, tables_on

SHEET = "G-002"
EVERY = ("tile-gable", "cross-gable", "shingle-hip", "flat-commercial")
SIZES = ("11x17", "18x24", "24x36")
SUBJECTS = {"FIRE ACCESS": "AC", "STRUCTURE": "S", "LAYOUT": "ACS", "ELECTRICAL": "E"}
IDLE = Outcome.NOT_APPLICABLE
WORST = re.compile(r"\(worst of (\d+)\)$")
FAILING = (
    ("wind_speed: 110 mph", "wind_speed: 230 mph"),
    ("lowest_ambient: 25 F", "lowest_ambient: -60 F"),
    ("first_attachment: 7 in ", "first_attachment: 20 in "),
    ("along: 57-1/2 in, up: 20 in", "along: 2 in, up: 38 in"),
    ("rating: 60 A", "rating: 30 A"),
    ("breaker: 40 A", "breaker: 20 A"),
    ("main: 200 A", "main: 225 A"),
    ("clearance: 6 in", "clearance: 60 in"),
)
"""What makes many rules of the example fail."""


@cache
def failing() -> Made:
    with TemporaryDirectory() as folder:
        return made_of(edited(Path(folder), *FAILING))


def made(name: str) -> Made:
    return failing() if name == "failing" else own_sheet(name)


def tables(of: Made) -> dict[str, list[tuple[str, ...]]]:
    """By title the rows of the tables, a table that goes on put together."""
    found: dict[str, list[tuple[str, ...]]] = defaultdict(list)
    for page in of.pages(SHEET):
        for table in tables_on(page):
            _, *rows = table.rows
            found[table.title.removesuffix(", CONT.")] += rows
    return found


def judged(of: Made) -> list[tuple[str, ...]]:
    return [row for title in SUBJECTS for row in tables(of)[title]]


def by_row(findings: tuple[Finding, ...]) -> dict[tuple[object, ...], list[Finding]]:
    """Findings of one rule, clause, limit and outcome, which are to share a row."""
    groups: dict[tuple[object, ...], list[Finding]] = defaultdict(list)
    for one in findings:
        if one.outcome is not IDLE:
            groups[one.rule, one.citation, one.limit, one.unit, one.outcome].append(one)
    return groups


def closest(group: list[Finding]) -> Finding:
    """The least left to the limit, or the most beyond it."""
    numbered = [one for one in group if one.measured is not None and one.limit is not None]
    if not numbered:
        return group[0]
    beyond = group[0].outcome in (Outcome.FAIL, Outcome.ASK, Outcome.OPEN, Outcome.ALTERNATE)
    choose = max if beyond else min
    return choose(numbered, key=lambda one: abs((one.measured or 0) - (one.limit or 0)))


def printed(one: Finding) -> tuple[str, str]:
    """Value and limit, a length of inches to the side that is safe for a crew."""
    exceeds = one.measured is not None and one.limit is not None and one.measured > one.limit
    fails = one.outcome in (Outcome.FAIL, Outcome.ALTERNATE)
    judged = one.outcome in (Outcome.PASS, Outcome.TIGHT) or fails
    most = judged and one.measured != one.limit and exceeds == fails
    tight = one.outcome is Outcome.TIGHT
    excepted = ", EXCEPTED" if one.exception else ""
    return (
        measured(one.measured, one.unit, "up" if most else "down", fine=tight) + excepted,
        measured(one.limit, one.unit, "down" if most else "up", fine=tight),
    )


@pytest.mark.parametrize("name", [*EVERY, "failing"])
def test_every_finding_has_its_row_or_is_counted_in_one(name: str) -> None:
    of = made(name)
    rows = judged(of)
    groups = by_row(of.findings)
    assert len(rows) == len(groups)
    for group in groups.values():
        worst = closest(group)
        figure, limit = printed(worst)
        fitting = [
            row
            for row in rows
            if row[0] == worst.title.upper()
            and row[3:6] == (figure, worst.citation, worst.outcome.value.upper())
            and row[2].endswith(limit)
        ]
        assert fitting, worst
        if len({one.measured for one in group}) > 1:
            assert any(
                (count := WORST.search(row[1])) and int(count[1]) == len(group) for row in fitting
            )


@pytest.mark.parametrize("name", EVERY)
def test_a_row_stands_under_the_subject_of_its_rule(name: str) -> None:
    of = made(name)
    subjects = {rule.title.upper(): rule.subject.upper() for rule in RULES}
    titles = {one.title.upper(): subjects[one.title.upper()] for one in of.findings}
    for subject in SUBJECTS:
        assert {titles[row[0]] for row in tables(of)[subject]} <= {subject}


@pytest.mark.parametrize("name", [*EVERY, "failing"])
def test_what_does_not_apply_is_listed_with_its_reason(name: str) -> None:
    of = made(name)
    told = dict(tables(of)["DOES NOT APPLY"])  # type: ignore[arg-type]
    idle = [one for one in of.findings if one.outcome is IDLE]
    assert set(told) == {one.message for one in idle}
    for one in idle:
        assert one.title in told[one.message]


@pytest.mark.parametrize("name", [*EVERY, "failing"])
def test_the_heading_counts_the_findings(name: str) -> None:
    of = made(name)
    whole = " ".join(of.lines(SHEET))
    assert f"{len(of.findings)} FINDINGS: " in whole
    for outcome, count in Counter(one.outcome for one in of.findings).items():
        assert f"{count} {outcome.value.upper()}" in whole


def test_many_fail_in_the_job_that_is_to_fail() -> None:
    failed = {one.rule for one in failing().findings if one.outcome is Outcome.FAIL}
    assert len(failed) > 8
    assert {rule.partition(".")[0] for rule in failed} >= {"structure", "electrical", "fire"}


# --- sheets --------------------------------------------------------------------------------


def says(of: Made, sheet: str, name: str) -> bool:
    spaced = r"\s+".join(map(re.escape, name.split()))
    whole = "\n".join(of.lines(sheet))
    return re.search(rf"(?<![\w-]){spaced}(?![\w-])", whole, re.IGNORECASE) is not None


@pytest.mark.parametrize("name", EVERY)
def test_a_row_leads_to_sheets_that_show_it(name: str) -> None:
    of = made(name)
    sheets = [page.sheet for page in of.drawing.pages]
    for subject, letters in SUBJECTS.items():
        for row in tables(of)[subject]:
            named = [sheet for sheet in row[6].split(", ") if sheet != "-"]
            assert set(named) <= set(sheets)
            assert all(sheet[0] in letters for sheet in named)
            things = [one for one in WORST.sub("", row[1]).split(" and ")[0].split(", ") if one]
            told = [one.strip() for one in things if one != "-"]
            told += [row[0].partition(",")[0], *re.findall(r"\d+\.\d+[\w.()]*", row[4])]
            for sheet in named:
                assert any(says(of, sheet, one) for one in told), row


def test_a_row_leads_to_the_sheet_with_its_figure() -> None:
    """Not to labels and plans that only name the same device or clause."""
    of = made("tile-gable")
    rows = {row[0]: row for subject in SUBJECTS for row in tables(of)[subject]}
    for check, sheet in (
        ("HIGHEST STRING VOLTAGE", "E-602"),
        ("FILL OF THE RACEWAYS", "E-602"),
        ("LOAD ON THE BUSBARS", "E-602"),
        ("CONNECTOR IN UPLIFT, DEMAND OVER CAPACITY", "S-601"),
        ("WORKING SPACE", "E-101"),
        ("SETBACK AT THE RIDGE", "A-101"),
    ):
        row = rows[check]
        assert any(one.startswith(sheet) for one in row[6].split(", ")), row


@pytest.mark.parametrize("name", EVERY)
def test_every_sheet_named_is_a_link_to_it(name: str) -> None:
    of = made(name)
    named = Counter(sheet for row in judged(of) for sheet in row[6].split(", "))
    links = [part for page in of.pages(SHEET) for part in page.paper if isinstance(part, Link)]
    led = Counter(link.sheet for link in links if link.sheet != "G-001")  # from the title block
    assert led == named
    for page in of.pages(SHEET):
        words = [part for part in page.paper if isinstance(part, Text)]
        for link in (p for p in page.paper if isinstance(p, Link) and p.sheet != "G-001"):
            (x0, y0), (x1, y1) = link.lower_left, link.upper_right
            # an id may be the second in its cell, so its text begins left of the link
            assert any(
                link.sheet in text.text and text.at[0] < x1 and y0 <= text.at[1] < y1 and x0 < x1
                for text in words
            )


# --- answers -------------------------------------------------------------------------------


def test_what_is_asked_is_printed_whole() -> None:
    """Once, even where it is asked of several arrays."""
    asked = [(n, f) for n in EVERY for f in made(n).findings if f.outcome is Outcome.ASK]
    assert asked
    for name, one in asked:
        rows = tables(made(name))["PUT TO THE BUILDING DEPARTMENT"]
        assert rows.count((one.title.upper(), one.message, one.citation)) == 1


@pytest.fixture(scope="module")
def approved(tmp_path_factory: pytest.TempPathFactory) -> Made:
    job = near_the_ridge(tmp_path_factory.mktemp("job"), 15.0)
    entry = (
        "alternates:\n"
        "  - {rule: fire.ridge-setback, approver: 'D. Ames, fire marshal', date: '2026-10-02',\n"
        "     reference: FM-26-118, text: '12 in at the ridge'}\n"
        "  - {rule: fire.edge-setback, approver: 'D. Ames, fire marshal', date: '2026-10-03',\n"
        "     reference: FM-26-119, text: 'none at the rake'}\n"
        "  - {rule: structure.snow, approver: 'E. Poe, plan reviewer', date: '2026-10-04',\n"
        "     reference: PR-7, text: 'no drift on this roof'}\n"
    )
    snow = (
        "ground_snow: 5 psf\n  snow: {roof_exposure: fully, thermal: heated, slides_clear: false}"
    )
    text, count = re.subn("ground_snow: 0 psf.*", snow, job.read_text("utf-8"))
    assert count == 1
    job.write_text(text + entry, "utf-8")
    return made_of(job)


def test_an_approved_alternate_is_on_the_table_and_on_the_cover(approved: Made) -> None:
    assert tables(approved)["APPROVED ALTERNATES"] == [
        (
            "SETBACK AT THE RIDGE",
            "D. Ames, fire marshal, 2026-10-02, FM-26-118",
            "12 in at the ridge",
            "stands for 1",
        ),
        (
            "SETBACK AT THE ROOF EDGES",
            "D. Ames, fire marshal, 2026-10-03, FM-26-119",
            "none at the rake",
            "not needed",
        ),
        (
            "DRIFTING AND SLIDING SNOW",
            "E. Poe, plan reviewer, 2026-10-04, PR-7",
            "no drift on this roof",
            "stands for 1",
        ),
    ]
    (row,) = (row for row in judged(approved) if row[0] == "SETBACK AT THE RIDGE")
    assert row[2:6] == (">= 1'-6\"", "1'-3\"", "IRC 2021 R324.6.2", "ALTERNATE")
    cover = " ".join(line for p in approved.pages("G-001") for line in approved.lines(p.sheet))
    assert "12 in at the ridge (D. Ames, fire marshal, 2026-10-02, FM-26-118)" in cover
    assert "BUILT BY AN APPROVED ALTERNATE" in cover
    assert "E. Poe, plan reviewer answered on 2026-10-04, PR-7." in cover
    asked = tables(approved)["PUT TO THE BUILDING DEPARTMENT"]
    assert "DRIFTING AND SLIDING SNOW" not in [row[0] for row in asked]


# --- pages ---------------------------------------------------------------------------------


def offences(of: Made) -> list[str]:
    """What the page rules find to mend on G-001 and G-002."""
    pages = [*of.pages("G-001"), *of.pages(SHEET)]
    assert len(pages) >= 2
    return [
        finding.message
        for page in pages
        for rule in PAGE_RULES
        for finding in rule.judge(reviewed_page(page, of.drawing))
        if finding.outcome is Outcome.FAIL
    ]


@pytest.mark.parametrize(
    ("name", "size"),
    [
        *((name, size) for name in ("tile-gable", "flat-commercial") for size in SIZES),
        ("cross-gable", "11x17"),
        ("shingle-hip", "18x24"),
    ],
)
def test_nothing_is_to_mend_on_any_title_block(name: str, size: str) -> None:
    assert offences(on_sheet(name, size)) == []


def test_nothing_is_to_mend_where_much_fails(approved: Made) -> None:
    assert offences(failing()) == []
    assert offences(approved) == []


def test_a_table_that_goes_on_has_its_heading_again() -> None:
    first, second, *_ = failing().pages(SHEET)
    (*_, before), (after, *_) = list(tables_on(first)), list(tables_on(second))
    assert isinstance(after, TableOnPage)
    assert after.title == f"{before.title.removesuffix(', CONT.')}, CONT."
    assert after.rows[0] == before.rows[0]


@pytest.mark.parametrize(
    ("name", "sheet"), [("tile-gable", "E-101.1"), ("battery-retrofit", "E-101")]
)
def test_what_is_read_off_a_wall_names_the_sheet_of_its_elevation(name: str, sheet: str) -> None:
    rows = {row[0]: row[-1] for row in judged(made(name))}
    assert rows["EQUIPMENT ON A WALL ELEVATION"] == rows["WORKING SPACE"] == sheet
    assert rows["HEIGHT OF HANDLES"] == sheet
