"""The table of findings for the terminal."""

import re
from collections.abc import Iterator

from planset.finding import Finding, Outcome
from planset.report import findings_lines

WIDTH = 100
RULE = "structure.lag-withdrawal"
_STYLE = re.compile(r"\x1b\[\d+m")


def found(
    outcome: Outcome, measured: float | None, *objects: str, limit: float | None = 1.0
) -> Finding:
    return Finding(
        rule=RULE,
        title="Screws",
        outcome=outcome,
        citation="NDS 2018 12.2.1",
        message="So it is.",
        measured=measured,
        limit=limit,
        objects=objects,
    )


def rows(*findings: Finding) -> Iterator[str]:
    """The rows of the table, columns parted by one blank."""
    lines = findings_lines(findings, "job.yaml", WIDTH)
    for line in lines:
        if "Screws" in line:
            yield " ".join(_STYLE.sub("", line).split())


def test_what_passes_by_one_rule_shares_a_row_the_worst_first() -> None:
    passed = [found(Outcome.PASS, ratio, f"H{ratio}") for ratio in (0.2, 0.6, 0.4)]
    assert list(rows(*passed)) == ["pass Screws (H0.6) and 2 more 0.6 1 NDS 2018 12.2.1"]


def test_of_distances_the_shortest_is_the_worst() -> None:
    passed = [found(Outcome.PASS, wide, f"P{wide:g}", limit=36.0) for wide in (60.0, 40.0)]
    (row,) = rows(*passed)
    assert row.startswith("pass Screws (P40) and 1 more 40 36 ")


def test_all_that_are_as_near_are_named() -> None:
    passed = [found(Outcome.PASS, 0.6, f"H{n}") for n in range(5)]
    (row,) = rows(*passed, found(Outcome.PASS, 0.2, "H9"))
    assert row.startswith("pass Screws (H0, H1, H2 and 2 more) and 1 more 0.6 ")


def test_passes_by_another_limit_or_without_numbers_stay_apart() -> None:
    passed = [found(Outcome.PASS, 0.6), found(Outcome.PASS, 3.0, limit=4.0)]
    assert len(list(rows(*passed, found(Outcome.PASS, None, limit=None)))) == 3


def test_what_does_not_pass_stays_one_by_one() -> None:
    for outcome in (Outcome.FAIL, Outcome.ASK, Outcome.TIGHT):
        assert len(list(rows(*(found(outcome, ratio) for ratio in (1.2, 1.3, 1.4))))) == 3


def test_every_finding_is_counted() -> None:
    passed = [found(Outcome.PASS, ratio) for ratio in (0.2, 0.6, 0.4)]
    *_, last = findings_lines([*passed, found(Outcome.FAIL, 1.2)], "job.yaml", WIDTH)
    assert last == "4 findings: 1 fail, 3 pass"
