"""Plain data and findings as JSON, in one layout."""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path

from planset.finding import Finding, report_order


def json_text(data: object) -> str:
    """Return data as JSON, a line per field, with a newline at the end."""
    return json.dumps(data, indent=1) + "\n"


def write_checks(findings: Iterable[Finding], path: Path) -> None:
    """Write findings as a list of records, the gravest first.

    Raises:
        OSError: The file cannot be written.
    """
    records = [finding.as_record() for finding in report_order(findings)]
    path.write_text(json_text(records), encoding="utf-8", newline="\n")
