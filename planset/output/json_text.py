"""Plain data and findings as JSON, in one layout."""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path

from planset.finding import Finding, report_order


def json_text(data: object) -> str:
    """Return data as JSON, a line per field, with a newline at the end."""
    return json.dumps(data, indent=1) + "\n"


def checks_text(findings: Iterable[Finding]) -> str:
    """Return findings as a list of records, the gravest first."""
    return json_text([finding.as_record() for finding in report_order(findings)])


def write_checks(findings: Iterable[Finding], path: Path) -> None:
    """Write findings as `checks_text` gives them.

    Raises:
        OSError: The file cannot be written.
    """
    path.write_text(checks_text(findings), encoding="utf-8", newline="\n")
