"""How rail pieces are cut from stock, profile by profile."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

from planset.design.design import Design
from planset.design.stock_cutting import Bar, CutList
from planset.drawing.geometry import Point
from planset.drawing.stack import TableAt
from planset.drawing.table import Table
from planset.sheets.note_table import note_table
from planset.sheets.rail_schedules import columns_of, length

_PROVEN = "NO CUT LIST NEEDS FEWER"


def cut_tables(design: Design) -> list[TableAt]:
    """A table for every profile, over the whole job."""
    lengths = {p.id: p.length_in for one in design.mounts for p in one.rails.pieces}
    return [partial(_cuts, cuts, lengths) for cuts in design.cuts if cuts.bars]


def _cuts(cuts: CutList, lengths: Mapping[str, float], at: Point, width: float) -> Table:
    rows = [
        (str(number), _pieces(bar, lengths), length(bar.offcut_in) if bar.offcut_in >= 0 else "-")
        for number, bar in enumerate(cuts.bars, 1)
    ]
    rows.append(("ALL", _sum(cuts), "-"))
    columns = columns_of(("BAR", "PIECES", "OFFCUT"), (0.5, 2.5, 0.95), width)
    return note_table(f"CUT LIST, {cuts.system.upper()}", columns, rows, at)


def _pieces(bar: Bar, lengths: Mapping[str, float]) -> str:
    return ", ".join(f"{piece} {length(lengths[piece])}" for piece in bar.pieces)


def _sum(cuts: CutList) -> str:
    """How many stock lengths, and whether fewer would do."""
    judged = _PROVEN if cuts.proven else f"NO CUT LIST NEEDS FEWER THAN {cuts.least_bars}"
    kerf = f", SAW CUT {length(cuts.kerf_in)}" if cuts.kerf_in else ""
    return f"{len(cuts.bars)} BARS OF {length(cuts.stock_in)}{kerf}. {judged}"
