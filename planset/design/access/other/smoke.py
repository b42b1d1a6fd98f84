"""By which option a lane between array sections provides for smoke ventilation.

Option B asks for vents or skylights along the lane and does not say how many. They are counted as
bordering it where they stand in it or within their own clearance of it, and as enough where no
more than the spacing of cut-outs lies between one and the next [interpretation].
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from planset.catalog.local_access import SmokeOption
from planset.codes.other_roof_access import SmokeVentilation, cut_outs
from planset.design.access.other.lanes import Axis, Interval, Lane, free_within, spans, walkable_in
from planset.design.layout import PlacedObstruction
from planset.drawing.geometry import Box

VENTS = ("skylight", "smoke_vent")
_NOISE = 1e-6


@dataclass(frozen=True, slots=True)
class SmokeRelief:
    """How a lane provides for smoke ventilation.

    Attributes:
        lane: The lane.
        option: The option it meets, None where it meets none.
        width_in: Clear width that option is judged by, else the widest straight way [in].
        required_in: What the option asks for, else what the plainest one would [in].
        vents: Ids of the vents and skylights that border it.
        sparse: Whether they stand further apart than cut-outs would.
    """

    lane: Lane
    option: SmokeOption | None
    width_in: float
    required_in: float
    vents: tuple[str, ...]
    sparse: bool


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What stands around the lanes of a plane.

    Attributes:
        frames: Modules with their rails, (u, v) [in].
        standing: Obstructions that close a way.
    """

    frames: tuple[Box, ...]
    standing: tuple[PlacedObstruction, ...]

    @property
    def boxes(self) -> tuple[Box, ...]:
        """The obstructions on the plane, (u, v) [in]."""
        return tuple(item.surface for item in self.standing)


def relief(
    lane: Lane,
    around: Surroundings,
    smoke: SmokeVentilation,
    allowed: tuple[SmokeOption, ...],
) -> SmokeRelief:
    """The first option a lane meets, in the order of the code.

    Args:
        lane: The lane.
        around: What stands around it.
        smoke: The edition's numbers.
        allowed: Options the jurisdiction accepts.

    Source: IFC 2018, 1204.3.3.
    """
    vents = tuple(item for item in around.standing if item.kind in VENTS and _borders(item, lane))
    names = tuple(item.id for item in vents)
    sparse = bool(vents) and not _close(lane, vents, smoke)
    walk = walkable_in(lane, around.boxes)
    beside = min((_free_around(item, around.frames) for item in vents), default=0.0)
    tests: dict[SmokeOption, Callable[[], tuple[float, float, bool]]] = {
        "A": lambda: (walk, smoke.open_in, True),
        "B": lambda: (walk, smoke.beside_vents_in, bool(vents)),
        "B2": lambda: (beside, smoke.around_vents_in, bool(vents) and smoke.around_vents_in > 0),
        "C": lambda: (walk, smoke.cut_outs_in, has_cut_outs(lane, around, smoke)),
    }
    for option in ("A", "C", "B", "B2") if sparse else ("A", "B", "B2", "C"):
        if option not in allowed:
            continue
        width, required, holds = tests[option]()
        if holds and width >= required - _NOISE:
            return SmokeRelief(lane, option, width, required, names, sparse)
    return SmokeRelief(lane, None, walk, smoke.open_in, names, sparse)


def has_cut_outs(lane: Lane, around: Surroundings, smoke: SmokeVentilation) -> bool:
    """Tell whether cut-outs lie along a lane, on alternating sides and no further apart than asked.

    No more of the lane may pass before the first and after the last than between two of them
    [interpretation].
    """
    open_at = [_openings(lane, around, side, smoke) for side in (0, 1)]
    least = cut_outs(smoke, lane.length_in)
    return any(_chain(open_at, first, lane, smoke) >= least for first in (0, 1))


def _chain(open_at: list[list[Interval]], first: int, lane: Lane, smoke: SmokeVentilation) -> int:
    """How many cut-outs follow each other to the end of a lane; 0 where they do not reach it."""
    along, every = smoke.cut_out_along_in, smoke.cut_out_every_in
    uncut = every - along
    side, count, latest, earliest = first, 0, uncut, 0.0
    while True:
        starts = list(_starts(open_at[side], along, earliest, latest))
        if not starts:
            break
        start = min(starts) if count == 0 else max(starts)
        side, count = 1 - side, count + 1
        earliest, latest = start + along, start + every
        if start + along + uncut >= lane.length_in - _NOISE:
            return count
    return 0


def _starts(
    openings: list[Interval], along: float, earliest: float, latest: float
) -> Iterator[float]:
    """The first and the last place a cut-out may start at in each opening, within limits."""
    for a, b in openings:
        low, high = max(a, earliest), min(b - along, latest)
        if low <= high + _NOISE:
            yield from (low, high)


def _openings(
    lane: Lane, around: Surroundings, side: int, smoke: SmokeVentilation
) -> list[Interval]:
    """Where the strip beside a lane is free for the length of a cut-out, from the lane's start."""
    box, across_in = lane.box, smoke.cut_out_across_in
    if lane.axis == "along":
        v = box.y0 - across_in if side == 0 else box.y1
        strip, start = Box(box.x0, v, box.x1, v + across_in), box.x0
    else:
        u = box.x0 - across_in if side == 0 else box.x1
        strip, start = Box(u, box.y0, u + across_in, box.y1), box.y0
    in_it = [item for item in (*around.frames, *around.boxes) if item.overlaps(strip)]
    taken = [(a - start, b - start) for a, b in spans(in_it, _crossing(lane))]
    free = free_within((0.0, lane.length_in), taken)
    return [(a, b) for a, b in free if b - a >= smoke.cut_out_along_in - _NOISE]


def _crossing(lane: Lane) -> Axis:
    return "up" if lane.axis == "along" else "along"


def _borders(item: PlacedObstruction, lane: Lane) -> bool:
    return item.surface.grown(item.clearance_in + _NOISE).overlaps(lane.box)


def _close(lane: Lane, vents: tuple[PlacedObstruction, ...], smoke: SmokeVentilation) -> bool:
    """Tell whether vents follow each other along a lane as closely as cut-outs would."""
    whole = (0.0, lane.length_in)
    start = lane.box.x0 if lane.axis == "along" else lane.box.y0
    taken = [(a - start, b - start) for a, b in spans((v.surface for v in vents), _crossing(lane))]
    uncut = smoke.cut_out_every_in - smoke.cut_out_along_in
    return all(b - a <= uncut + _NOISE for a, b in free_within(whole, taken))


def _free_around(item: PlacedObstruction, frames: tuple[Box, ...]) -> float:
    """Least distance from a vent to a module, on any side [in]."""
    area = item.surface
    return min(
        max(frame.x0 - area.x1, area.x0 - frame.x1, frame.y0 - area.y1, area.y0 - frame.y1)
        for frame in frames
    )
