"""Reading of the CSV tables that lie beside the modules."""

import csv
from pathlib import Path

from planset.citation import CodeEdition, read_edition


def rows(path: Path) -> list[dict[str, str]]:
    """Read a table: lines that begin with # tell its source, the first other line its columns.

    Args:
        path: The CSV file.

    Returns:
        One dictionary per line of the table, column name to text.
    """
    lines = path.read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def by_edition(document: str, path: Path) -> dict[CodeEdition, dict[str, str]]:
    """Read a table with one column per edition of a document, headed by its year.

    Args:
        document: Letters of the document.
        path: The CSV file; its first column names the rows, "2016+2018" heads a column of an
            edition with a supplement.

    Returns:
        Per edition, row name to text; a row without text is left out.
    """
    columns: dict[CodeEdition, dict[str, str]] = {}
    for row in rows(path):
        (_, name), *texts = row.items()
        for year, text in texts:
            column = columns.setdefault(read_edition(f"{document} {year}"), {})
            if text:
                column[name] = text
    return columns
