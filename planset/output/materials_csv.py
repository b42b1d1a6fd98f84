"""The bill of materials as a table for a spreadsheet or an order."""

from __future__ import annotations

import csv
from collections.abc import Iterable
from pathlib import Path

from planset.design.material_line import MaterialLine

MATERIALS = "materials.csv"

COLUMNS = (
    "group",
    "item",
    "product",
    "document",
    "quantity",
    "spare",
    "total",
    "unit",
    "counted_from",
)
"""Heading of the table; quantity, spare and total are empty for what is not counted."""


def write_materials(lines: Iterable[MaterialLine], path: Path) -> None:
    """Write a bill line by line, in its order.

    Raises:
        OSError: The file cannot be written.
    """
    with path.open("w", encoding="utf-8", newline="") as stream:
        table = csv.writer(stream, lineterminator="\n")
        table.writerow(COLUMNS)
        table.writerows(map(_row, lines))


def _row(line: MaterialLine) -> tuple[str, ...]:
    figures = (line.quantity, line.spare, line.total) if line.quantity is not None else ("", "", "")
    words = (line.group, line.item, line.product, line.document)
    return (*words, *map(str, figures), line.unit, line.counted)
