"""Reading of the CSV tables that lie beside the modules."""

import csv
from pathlib import Path


def rows(path: Path) -> list[dict[str, str]]:
    """Read a table: lines that begin with # tell its source, the first other line its columns.

    Args:
        path: The CSV file.

    Returns:
        One dictionary per line of the table, column name to text.
    """
    lines = path.read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))
