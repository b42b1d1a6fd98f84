"""Reading of the CSV tables that lie beside the modules."""

import csv
from collections.abc import Mapping
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


def adopted(
    folders: Mapping[str, str], stem: str
) -> dict[CodeEdition, tuple[Mapping[str, str], Mapping[str, str]]]:
    """Read the numbers and clauses of every edition of several documents.

    Args:
        folders: Document to the folder of `codes` that holds its tables.
        stem: Name of the table of numbers; that of clauses ends in `_clauses`.

    Returns:
        Per edition its numbers, those of its base where it is written upon one, and its clauses.
    """
    numbers: dict[CodeEdition, dict[str, str]] = {}
    clauses: dict[CodeEdition, dict[str, str]] = {}
    for document, folder in folders.items():
        tables = Path(__file__).with_name(folder)
        numbers |= by_edition(document, tables / f"{stem}.csv")
        clauses |= by_edition(document, tables / f"{stem}_clauses.csv")
    return {
        edition: (numbers[read_edition(row["base"])] if "base" in row else row, clauses[edition])
        for edition, row in numbers.items()
    }
