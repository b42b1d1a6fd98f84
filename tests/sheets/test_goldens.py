"""The example's sheets are what they were when somebody last looked at them."""

from __future__ import annotations

from difflib import unified_diff
from functools import cache

import pytest

from tests.sheets.regenerate import GOLDEN, listings

SHEETS = sorted(path.stem for path in GOLDEN.glob("*.txt"))
SHOWN = 40  # lines of a difference


@cache
def now() -> dict[str, str]:
    return listings()


def difference(old: str, new: str) -> str:
    lines = list(unified_diff(old.splitlines(), new.splitlines(), "kept", "now", lineterm="", n=1))
    more = [f"... and {len(lines) - SHOWN} lines more"] if len(lines) > SHOWN else []
    return "\n".join(lines[:SHOWN] + more)


@pytest.mark.parametrize("name", SHEETS)
def test_a_sheet_is_what_it_was(name: str) -> None:
    kept = (GOLDEN / f"{name}.txt").read_text(encoding="utf-8")
    if kept != now()[name]:
        pytest.fail(
            f"{name} is drawn otherwise than it was:\n{difference(kept, now()[name])}\n\n"
            "If that is meant, look at every page of the plotted example, then run\n"
            "    python -m tests.sheets.regenerate",
            pytrace=False,
        )


def test_nothing_is_kept_for_a_sheet_that_is_gone() -> None:
    assert {path.stem for path in GOLDEN.glob("*.txt")} == set(SHEETS) == set(now())
