"""Feet of conductors and raceways on the bill, segment by segment of the diagram."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from planset.codes.nec.grounding import SMALLEST_EXPOSED
from planset.design.electrical.ratings import wire_size
from planset.design.electrical.topology import Kind, Segment
from planset.design.material_line import MaterialLine, spares_of

if TYPE_CHECKING:
    from planset.design.design import Design
    from planset.job.materials import Spares

ELECTRICAL = "ELECTRICAL"

_RACEWAYS = {
    "emt": "EMT",
    "rmc": "Rigid metal conduit",
    "pvc40": "PVC conduit, schedule 40",
    "pvc80": "PVC conduit, schedule 80",
    "fmc": "Flexible metal conduit",
}
_NOISE = 1e-9


@dataclass
class _Lengths:
    """Feet by item and product, and the segments that they were counted from."""

    feet: dict[tuple[str, str], int] = field(default_factory=dict)
    tags: dict[tuple[str, str], list[str]] = field(default_factory=dict)

    def add(self, item: str, product: str, feet: float, tag: str) -> None:
        """Add the feet of one segment, rounded up."""
        key = (item, product)
        self.feet[key] = self.feet.get(key, 0) + math.ceil(feet - _NOISE)
        tags = self.tags.setdefault(key, [])
        if tag not in tags:
            tags.append(tag)

    def lines(self, spares: Spares) -> Iterator[MaterialLine]:
        """A line for each product, with the waste that the share of small parts allows."""
        for (item, product), feet in self.feet.items():
            yield MaterialLine(
                group=ELECTRICAL,
                item=item,
                product=product,
                document="",
                quantity=feet,
                spare=spares_of(feet, spares, "small_parts"),
                unit="ft",
                counted=f"{_named(self.tags[item, product])} OF THE DIAGRAM",
            )


def _named(tags: list[str]) -> str:
    return f"SEGMENT{'S' if len(tags) > 1 else ''} {', '.join(tags)}"


def conductor_lines(design: Design, spares: Spares) -> Iterator[MaterialLine]:
    """Current-carrying, neutral and grounding conductors, then raceways.

    What several segments share, a raceway or the grounding conductor of an array, is counted once;
    where they share only the end of a raceway, each is counted up to there.
    """
    conductors, raceways = _Lengths(), _Lengths()
    grounded: set[tuple[str, str]] = set()
    for segment in design.electrical.topology.segments:
        run = segment.conductors
        if run is None or segment.continues:
            continue
        count = run.ungrounded + run.neutrals
        wire = f"{run.insulation}, {run.material}"
        conductors.add(wire, wire_size(run.size), count * run.length_ft, segment.tag)
        own_ft = run.length_ft
        if _shares_ground(design, segment, grounded):
            own_ft = 0.0 if run.shared_ft is None else run.length_ft - run.shared_ft
        if own_ft <= 0.0:
            continue
        bare = "Grounding conductor" if run.raceway else "Bare grounding conductor"
        ground = f"{bare}, {run.grounding_material}"
        conductors.add(ground, wire_size(run.grounding), own_ft, segment.tag)
        if run.fill is not None:
            size = f"{run.fill.raceway.trade_size} in"
            raceways.add(_RACEWAYS[run.raceway], size, own_ft, segment.tag)
    for one in design.electrical.topology.controls:
        wire = f"{one.insulation}, {one.material}"
        conductors.add(wire, one.size, one.conductors * one.length_ft, one.tag)
        raceway = one.fill.raceway
        raceways.add(_RACEWAYS[raceway.kind], f"{raceway.trade_size} in", one.length_ft, one.tag)
    yield from conductors.lines(spares)
    yield from _along_trunks(design)
    yield from raceways.lines(spares)


def _shares_ground(design: Design, segment: Segment, seen: set[tuple[str, str]]) -> bool:
    """Whether an earlier segment has its grounding conductor: in its raceway, or of its array."""
    run = segment.conductors
    assert run is not None, "asked of sized segments only"
    if run.raceway:
        return segment.tag != min((segment.tag, *run.shares_with), key=int)
    way = (_array_of(design, segment), _box_of(design, segment))
    known = way in seen
    seen.add(way)
    return known


def _array_of(design: Design, segment: Segment) -> str:
    electrical = design.inputs.job.electrical
    source = segment.start.removeprefix("RSD-").removeprefix("CONV-")
    arrays = {string.id: string.array for string in electrical.strings}
    arrays |= {branch.id: branch.array for branch in electrical.branches}
    return arrays.get(source, source)


def _box_of(design: Design, segment: Segment) -> str:
    end = design.electrical.topology.by_tag[segment.end]
    return end.panel or end.tag


def _along_trunks(design: Design) -> Iterator[MaterialLine]:
    """The grounding conductor of arrays under trunk cable, of which no job states a length."""
    topology = design.electrical.topology
    trunks = [s for s in topology.segments if s.cable and _ends_at_box(design, s)]
    arrays = list(dict.fromkeys(_array_of(design, segment) for segment in trunks))
    if arrays:
        yield MaterialLine(
            group=ELECTRICAL,
            item="Bare grounding conductor, copper",
            product=wire_size(SMALLEST_EXPOSED),
            document="",
            quantity=None,
            spare=0,
            unit="ft",
            counted=f"NOT COUNTED: NO LENGTH STATED, FROM {', '.join(arrays)} TO THEIR BOXES",
        )


def _ends_at_box(design: Design, segment: Segment) -> bool:
    return design.electrical.topology.by_tag[segment.end].kind is Kind.JUNCTION_BOX
