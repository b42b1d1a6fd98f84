"""Jobs with rails across the slope and on seams, and designs whose rails carry every part."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import pairwise
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import Any

from planset.design.design import Design, build_design
from planset.design.holding import CouplingPlace, Holder, ModuleHolding, TrimPiece
from planset.design.mounted import Mounted
from planset.design.racking import Rail
from planset.design.rail_pieces import RailPiece, RailPieces, SplicePlace
from planset.design.stock_cutting import Bar, CutList
from planset.job.load import read_job
from planset.source import read_yaml
from tests.example_job import EXAMPLE

EXAMPLES = EXAMPLE.parents[1]

Job = dict[str, Any]

_RAFTERS = {
    "kind": "rafter",
    "member": "2x6",
    "spacing": "24 in",
    "first_rafter": "14 in",
    "species": "douglas-fir-larch",
    "grade": "No. 2",
    "supports": ["18 in", "100 in", "200 in"],
    "roof_dead_load": "8 psf",
    "ceiling": "none",
    "sheathing": "1/2 in",
    "underlayment": "1/16 in",
    "source": "measured in the attic, 2026-11-16",
}
_SEAM = {
    "kind": "standing_seam",
    "material": "steel panels, 24 gauge",
    "profile": "FOLDLOCK 175",
    "seam_spacing": "18 in",
    "seam_height": "1-3/4 in",
    "thickness": "1/32 in",
    "first_seam": "10 in",
}
_EVERY_SECOND = {"attach_every": 2, "stagger": True}
_ON_RAFTERS = {"system": "plover-shingle", "rail_inset": "12 in", "first_line": 3, **_EVERY_SECOND}
_ON_SEAMS = {"system": "dunlin-seam", "rail_inset": "14 in", "first_line": 4, **_EVERY_SECOND}
_SURVEY = {
    "unevenness": "3/4 in",
    "eave_out_of_straight": {"front": "3/8 in", "right": "1/2 in"},
    "source": "string line, 2026-11-17",
}


def shingle_job() -> Job:
    """The hip roof with staggered feet on every second rafter, not surveyed."""
    job: Job = read_yaml(EXAMPLES / "shingle-hip" / "job.yaml").data
    job["framing"] = _RAFTERS
    job.pop("survey", None)
    for array in job["arrays"]:
        array["mounting"] = _ON_RAFTERS
    return job


def seam_job() -> Job:
    """The same on standing seams, surveyed."""
    job = shingle_job()
    job["roof"]["covering"] = _SEAM
    job["survey"] = _SURVEY
    for array in job["arrays"]:
        array["mounting"] = _ON_SEAMS
    return job


@cache
def design_of(name: str) -> Design:
    """The design of an example, of `shingle-across` or of `seam-across`.

    With `+parts` its rails carry every part that its system has, with `+irregular` its
    attachments follow no pattern.
    """
    base, _, change = name.partition("+")
    if change:
        return {"parts": with_parts, "irregular": irregular}[change](design_of(base))
    made = {"shingle-across": shingle_job, "seam-across": seam_job}
    if base not in made:
        return build_design(read_job(EXAMPLES / base / "job.yaml"))
    with TemporaryDirectory() as folder:
        job = Path(folder) / "job.yaml"
        job.write_text(json.dumps(made[base]()), encoding="utf-8")
        return build_design(read_job(job))


def with_parts(design: Design) -> Design:
    """The design with parts on its rails, placed for a plan to show and not as a layout would."""
    mounts = tuple(replace(one, holding=_holding(one), rails=_pieces(one)) for one in design.mounts)
    return replace(design, mounts=mounts, cuts=tuple(_cuts(mounts)))


def irregular(design: Design) -> Design:
    """The design with the attachments of every rail across on rafters in no order."""
    chance = Random(7)  # noqa: S311
    return replace(design, mounts=tuple(_shuffled(design, one, chance) for one in design.mounts))


def _shuffled(design: Design, one: Mounted, chance: Random) -> Mounted:
    lines = [line for line in design.rafters if line.plane == one.array.plane.id]
    held = []
    for rail in one.racking.rails:
        own = one.racking.by_rail[rail.id]
        under = [line for line in lines if rail.start_in < line.u_in < rail.end_in]
        chosen = sorted(chance.sample(under, len(own)), key=lambda line: line.u_in)
        held += [
            replace(item, line=line.number, u_in=line.u_in, along_in=line.u_in)
            for item, line in zip(own, chosen, strict=True)
        ]
    return replace(one, racking=replace(one.racking, attachments=tuple(held)))


def _pieces(one: Mounted) -> RailPieces:
    """Rails longer than 12 ft in two pieces where a splice exists."""
    pieces: list[RailPiece] = []
    splices: list[SplicePlace] = []
    longest = [rail.id for rail in one.racking.rails if rail.length_in > 144]
    for rail in one.racking.rails:
        held = [item.along_in for item in one.racking.by_rail[rail.id]]
        if rail.id not in longest or len(held) < 3 or one.array.system.rail.splice is None:
            pieces.append(RailPiece(rail.id, rail.id, rail.start_in, rail.end_in))
            continue
        span = held[-1] - held[-2]
        at = held[-2] + 0.2 * span
        pieces.append(RailPiece(f"{rail.id}a", rail.id, rail.start_in, at))
        pieces.append(RailPiece(f"{rail.id}b", rail.id, at, rail.end_in))
        splices.append(SplicePlace(rail.id, at, span, 0.2 * span))
    return RailPieces(one.id, tuple(pieces), tuple(splices))


def _holding(one: Mounted) -> ModuleHolding:
    holders: list[Holder] = []
    for rail in one.racking.rails:
        holders += _feet(one, rail) if rail.up else _clamps(one, rail)
    trim: list[TrimPiece] = []
    if one.array.system.trim:
        frames = one.array.frames
        cuts = [frames.x0]
        while cuts[-1] < frames.x1:
            cuts.append(min(cuts[-1] + one.array.system.trim.piece_length, frames.x1))
        trim = [
            TrimPiece(n, frames.y0, a, b, b < frames.x1)
            for n, (a, b) in enumerate(pairwise(cuts), 1)
        ]
    return ModuleHolding(one.id, tuple(holders), tuple(_couplings(one)), tuple(trim))


def _couplings(one: Mounted) -> Iterator[CouplingPlace]:
    """Where a module has a neighbor at its right, at its upper corner."""
    if one.array.system.coupling:
        by_cell = {(m.row, m.column): m for m in one.array.modules}
        for (row, column), module in by_cell.items():
            beside = by_cell.get((row, column + 1))
            if beside:
                u = (module.surface.x1 + beside.surface.x0) / 2
                yield CouplingPlace(u, module.surface.y1, (module.id, beside.id))


def _feet(one: Mounted, rail: Rail) -> Iterator[Holder]:
    system = one.array.system
    under = [m for m in one.array.modules if m.surface.x0 <= rail.line_in <= m.surface.x1]
    edges = sorted({m.surface.y0 for m in under} | {max(m.surface.y1 for m in under)})
    for edge in edges:
        near = any(
            abs(place.u_in - rail.line_in) < 6 and abs(place.v_in - edge) < 3
            for place in _couplings(one)
        )
        part = system.coupling.combined if near and system.coupling else None
        name = part or (system.foot.name if system.foot else "Foot")
        held = tuple(m.id for m in under if edge in (m.surface.y0, m.surface.y1))
        kind = "combined" if part else "foot"
        yield Holder(kind, name, rail.id, rail.line_in, edge, held, edge == edges[0])


def _clamps(one: Mounted, rail: Rail) -> Iterator[Holder]:
    clamps = one.array.system.clamps
    assert clamps
    row = [m for m in one.array.modules if m.surface.y0 < rail.line_in < m.surface.y1]
    row.sort(key=lambda m: m.surface.x0)
    ends = (row[0].surface.x0 - 0.5, row[-1].surface.x1 + 0.5)
    yield Holder("end_clamp", clamps.end, rail.id, ends[0], rail.line_in, (row[0].id,))
    for a, b in pairwise(row):
        u = (a.surface.x1 + b.surface.x0) / 2
        yield Holder("mid_clamp", clamps.mid, rail.id, u, rail.line_in, (a.id, b.id))
    yield Holder("end_clamp", clamps.end, rail.id, ends[1], rail.line_in, (row[-1].id,))


def _cuts(mounts: tuple[Mounted, ...]) -> Iterator[CutList]:
    """Every piece from the first bar with room for it."""
    for system in dict.fromkeys(one.array.system for one in mounts):
        pieces = [p for one in mounts if one.array.system is system for p in one.rails.pieces]
        left: list[tuple[list[str], float]] = []
        for piece in sorted(pieces, key=lambda p: -p.length_in):
            for n, (tags, rest) in enumerate(left):
                if rest >= piece.length_in + system.rail.kerf:
                    left[n] = ([*tags, piece.id], rest - piece.length_in - system.rail.kerf)
                    break
            else:
                left.append(([piece.id], system.rail.stock_length - piece.length_in))
        bars = tuple(Bar(tuple(tags), rest) for tags, rest in left)
        yield CutList(system.model, system.rail.stock_length, system.rail.kerf, bars, len(bars) - 1)
