"""How rail pieces are cut from stock, profile by profile."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from functools import partial
from itertools import groupby

from planset.design.design import Design
from planset.design.stock_cutting import Bar, CutList
from planset.drawing.geometry import Point
from planset.drawing.stack import TableAt
from planset.drawing.table import Table
from planset.sheets.note_table import note_table
from planset.sheets.rail_schedules import columns_of, length
from planset.sheets.tag_lists import from_to, listed_tags

_PROVEN = "NO CUT LIST NEEDS FEWER"


def cut_tables(design: Design) -> list[TableAt]:
    """A table for every profile, over the whole job."""
    lengths = {p.id: p.length_in for one in design.mounts for p in one.rails.pieces}
    return [partial(_cuts, cuts, lengths) for cuts in design.cuts if cuts.bars]


def _cuts(cuts: CutList, lengths: Mapping[str, float], at: Point, width: float) -> Table:
    """A line for bars that follow each other and are cut alike."""
    rows = []
    for _, alike in groupby(enumerate(cuts.bars, 1), lambda bar: _pattern(bar[1], lengths)):
        numbers, bars = zip(*alike, strict=True)
        offcut = bars[0].offcut_in
        bar = from_to([str(number) for number in numbers])
        rows.append((bar, _pieces(bars, lengths), length(offcut) if offcut >= 0 else "-"))
    rows.append(("ALL", _sum(cuts), "-"))
    columns = columns_of(("BAR", "PIECES", "OFFCUT"), (0.6, 2.4, 0.95), width)
    return note_table(f"CUT LIST, {cuts.system.upper()}", columns, rows, at)


def _pattern(bar: Bar, lengths: Mapping[str, float]) -> tuple[str, ...]:
    """The lengths it is cut to, longest first."""
    return tuple(length(lengths[piece]) for piece in bar.pieces)


def _pieces(bars: Sequence[Bar], lengths: Mapping[str, float]) -> str:
    """By length, how many of it are cut from each of some bars cut alike, and for which rails."""
    tags: dict[str, list[str]] = {}
    for bar in bars:
        for piece in bar.pieces:
            tags.setdefault(length(lengths[piece]), []).append(piece)
    times = Counter(_pattern(bars[0], lengths))
    return "; ".join(
        f"{f'{times[cut]} x ' if times[cut] > 1 else ''}{cut}: {listed_tags(pieces)}"
        for cut, pieces in tags.items()
    )


def _sum(cuts: CutList) -> str:
    """How many stock lengths, and whether fewer would do."""
    judged = _PROVEN if cuts.proven else f"NO CUT LIST NEEDS FEWER THAN {cuts.least_bars}"
    kerf = f", SAW CUT {length(cuts.kerf_in)}" if cuts.kerf_in else ""
    return f"{len(cuts.bars)} BARS OF {length(cuts.stock_in)}{kerf}. {judged}"
