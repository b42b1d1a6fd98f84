"""The circuits of a backup panel, as E-601 lists them."""

from __future__ import annotations

from planset.drawing.geometry import Point
from planset.drawing.table import Column, Table
from planset.job.electrical.sources import BackupPanel
from planset.sheets.note_table import note_table


def backup_schedule(panel: BackupPanel, at: Point, width: float) -> Table:
    """Every circuit in the order of its breakers."""
    columns = (
        Column("NO.", 0.5, "center"),
        Column("CIRCUIT", width - 1.7),
        Column("BREAKER", 1.2, "center"),
    )
    rows = [
        (str(number), one.name.upper(), f"{one.breaker:g} A, {one.poles}P")
        for number, one in enumerate(panel.circuits, 1)
    ]
    return note_table(f"CIRCUITS OF {panel.id}", columns, rows, at)
