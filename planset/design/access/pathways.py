"""Which clear strips serve as pathways: one for each plane that needs one, enough on the building.

The strips are measured elsewhere; how many are needed, and where they may lie, the rules in force
say. The rules judge by what is found here and the plans show the same pathways.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from planset.catalog.access import EffectiveAccess
from planset.design.access.geometry import AccessGeometry
from planset.design.access.strips import ClearStrip, EdgeStrip
from planset.roof.plane import Plane
from planset.roof.solid import EdgeKind, Roof
from planset.units import format_feet_inches

_NOISE = 1e-9


@dataclass(frozen=True, slots=True)
class Pathway:
    """A clear strip that may serve as a pathway.

    Attributes:
        planes: Ids of the planes it lies on: one, two where it straddles a hip or valley, or from
            the top down where it runs over pitch breaks.
        width_in: Clear width; the sum of both sides where it straddles [in].
        unfinished: Why somebody must decide whether it counts, "" when nothing is amiss.
        strip: The strip, when it runs straight up a plane.
        sides: What it takes on each plane, when it runs along a hip or valley.
    """

    planes: tuple[str, ...]
    width_in: float
    unfinished: str
    strip: ClearStrip | None = None
    sides: tuple[EdgeStrip, ...] = ()

    def marked_in(self, required_in: float, carrying: Collection[str]) -> float:
        """The width that the plans dimension: what is clear of one beside new modules.

        Any other, and one that straddles a hip or valley, is drawn as wide as it must be.

        Args:
            required_in: Width of a pathway [in].
            carrying: Ids of the planes with new modules.
        """
        beside = len(self.sides) < 2 and not set(carrying).isdisjoint(self.planes)
        return self.width_in if beside else min(self.width_in, required_in)

    @property
    def words(self) -> str:
        """Where it lies and how wide it is, such as `5'-0" left on front`."""
        width = format_feet_inches(self.width_in, rounding="down")
        if self.strip:
            return f"{width} {self.strip.side} on {' and '.join(self.planes)}"
        edge = self.sides[0].edge
        if len(self.sides) == 1:
            return f"{width} along {edge} on {self.planes[0]}"
        parts = (format_feet_inches(side.width_in, rounding="down") for side in self.sides)
        shares = " + ".join(f"{w} on {p}" for w, p in zip(parts, self.planes, strict=True))
        return f"{width} across {edge} ({shares})"

    def room_for(self, required_in: float) -> int:
        """How many pathways of a width lie side by side in it."""
        count = int((self.width_in + _NOISE) // required_in)
        return count if self.strip else min(count, 1)


def pathways_on(access: AccessGeometry, planes: Iterable[Plane]) -> tuple[Pathway, ...]:
    """Every strip of some planes that may serve, straight ones first, then by width."""
    found: list[Pathway] = []
    for plane in planes:
        found += [
            Pathway(strip.planes, strip.width_in, strip.unfinished, strip)
            for strip in access.strips_on(plane.id)
        ]
        found += [
            Pathway((plane.id,), side.width_in, side.unfinished, sides=(side,))
            for side in access.edge_strips_on(plane.id)
        ]
    return tuple(sorted(dict.fromkeys(found), key=_best_first))


def straddling(
    access: AccessGeometry, planes: Iterable[Plane], required_in: float
) -> tuple[Pathway, ...]:
    """The pathways that lie on both sides of a hip or valley, where neither side is enough.

    Args:
        access: What is measured.
        planes: The planes they may lie on.
        required_in: Width of a pathway [in].
    """
    names = {plane.id for plane in planes}
    by_edge: dict[str, list[EdgeStrip]] = {}
    for side in access.edge_strips:
        if side.plane in names:
            by_edge.setdefault(side.edge, []).append(side)
    found = [
        Pathway(
            tuple(side.plane for side in sides),
            sum(side.width_in for side in sides),
            next((side.unfinished for side in sides if side.unfinished), ""),
            sides=tuple(sides),
        )
        for sides in by_edge.values()
        if len(sides) == 2 and min(s.width_in for s in sides) < required_in - _NOISE
    ]
    return tuple(sorted(found, key=_best_first))


def _best_first(pathway: Pathway) -> tuple[bool, bool, float]:
    return (bool(pathway.unfinished), pathway.strip is None, -pathway.width_in)


def on_planes_apart(pathways: Iterable[Pathway]) -> dict[str, Pathway]:
    """The widest of some pathways for each plane, none counted twice.

    One that straddles two planes counts for the one that has no pathway of its own.

    Args:
        pathways: The pathways.
    """
    found: dict[str, Pathway] = {}
    for pathway in sorted(pathways, key=lambda p: (bool(p.unfinished), len(p.sides), -p.width_in)):
        spans = pathway.planes if len(pathway.sides) > 1 else pathway.planes[:1]
        free = [name for name in spans if name not in found]
        if free:
            found[free[0]] = pathway
    return found


def adjacent_planes(roof: Roof, plane: Plane, *, across_ridges: bool) -> frozenset[str]:
    """Ids of the planes that share a hip or valley with one, or also a ridge."""
    kinds = {EdgeKind.HIP, EdgeKind.VALLEY} | ({EdgeKind.RIDGE} if across_ridges else set())
    return frozenset(
        name
        for edge in roof.edges_of(plane.id)
        if edge.kind in kinds
        for name in edge.planes
        if name != plane.id
    )


def assigned(
    wanted: Sequence[str],
    options: Mapping[str, Sequence[Pathway]],
    capacity: Callable[[Pathway], int],
) -> dict[str, Pathway]:
    """A pathway for as many planes as can have one, none used beyond its capacity.

    Args:
        wanted: Ids of the planes, the most important first.
        options: The pathways that may serve each, best first.
        capacity: How many planes a pathway may serve.
    """
    users: dict[Pathway, list[str]] = {}

    def find(plane: str, tried: set[Pathway]) -> bool:
        for pathway in options[plane]:
            if pathway in tried:
                continue
            tried.add(pathway)
            using = users.setdefault(pathway, [])
            if len(using) < capacity(pathway):
                using.append(plane)
                return True
            for other in list(using):
                if find(other, tried):
                    using[using.index(other)] = plane
                    return True
        return False

    for plane in wanted:
        find(plane, set())
    return {plane: pathway for pathway, using in users.items() for plane in using}


def serving(
    roof: Roof,
    access: AccessGeometry,
    planes: tuple[Plane, ...],
    carrying: Sequence[str],
    rules: EffectiveAccess,
) -> dict[str, Pathway]:
    """The pathway that serves each plane with an array, wide enough; no entry for one without.

    It lies on the same plane, on an adjacent one, or straddles both, and serves no more planes
    than the jurisdiction allows, those it lies on first. One that somebody must decide about is
    taken last.

    Args:
        roof: The roof.
        access: What is measured.
        planes: The planes of the building that pathways may lie on.
        carrying: Ids of those with arrays.
        rules: The rules in force.
    """
    required, readings = rules.code.pathway_width_in, rules.readings
    single, across = pathways_on(access, planes), straddling(access, planes, required)
    options: dict[str, list[Pathway]] = {}
    for name in carrying:
        near = adjacent_planes(
            roof, roof.plane(name), across_ridges=readings.far_side_of_ridge_is_adjacent
        )
        own = [p for p in single if name in p.planes]
        shared = [p for p in across if name in p.planes]
        beside = [p for p in single if near.intersection(p.planes)]
        wide = [p for p in (*own, *shared, *beside) if p.width_in >= required - _NOISE]
        options[name] = sorted(wide, key=lambda p: bool(p.unfinished))

    def capacity(pathway: Pathway) -> int:
        return readings.pathway_serves_planes * pathway.room_for(required)

    def lies_elsewhere(name: str) -> bool:
        return not any(name in pathway.planes for pathway in options[name])

    wanted = sorted(carrying, key=lies_elsewhere)
    sure = {name: [p for p in listed if not p.unfinished] for name, listed in options.items()}
    plain = assigned(wanted, sure, capacity)
    if len(plain) == len(carrying):
        return plain
    return assigned(wanted, options, capacity)


def on_separate_planes(
    access: AccessGeometry, planes: tuple[Plane, ...], required_in: float
) -> dict[str, Pathway]:
    """The widest pathway of every plane, one that straddles counted for one of its planes.

    Args:
        access: What is measured.
        planes: The planes of the building.
        required_in: Width of a pathway [in].
    """
    best: dict[str, Pathway] = {}
    for pathway in pathways_on(access, planes):
        known = best.get(pathway.planes[0])
        if known is None or _counts_more(pathway, known, required_in):
            best[pathway.planes[0]] = pathway
    for pathway in straddling(access, planes, required_in):
        weakest = min(pathway.planes, key=lambda name: best[name].width_in if name in best else 0.0)
        known = best.get(weakest)
        if known is None or _counts_more(pathway, known, required_in):
            best[weakest] = pathway
    return best


def _counts_more(pathway: Pathway, known: Pathway, required_in: float) -> bool:
    """Whether a pathway is wide enough where the known one is not, or as sure and wider."""

    def worth(one: Pathway) -> tuple[bool, bool, float]:
        wide = one.width_in >= required_in - _NOISE
        return (wide, wide and not one.unfinished, one.width_in)

    if known.strip and not pathway.strip and worth(known)[:2] == worth(pathway)[:2]:
        return False
    return worth(pathway) > worth(known)


def width_of_each(pathways: Sequence[Pathway], count: int) -> float:
    """The greatest width that so many pathways side by side can all have [in].

    Args:
        pathways: Strips that do not overlap each other.
        count: How many are needed.
    """
    tries = [
        pathway.width_in / share
        for pathway in pathways
        for share in range(1, count + 1)
        if pathway.width_in > _NOISE
    ]
    enough = [width for width in tries if sum(p.room_for(width) for p in pathways) >= count]
    return max(enough, default=0.0)
