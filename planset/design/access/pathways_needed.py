"""The pathways that a building needs, chosen from those it has."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

import shapely

from planset.catalog.access import EffectiveAccess
from planset.design.access.edge_band import band_of
from planset.design.access.geometry import AccessGeometry
from planset.design.access.pathways import (
    Pathway,
    on_planes_apart,
    on_separate_planes,
    pathways_on,
    serving,
    straddling,
)
from planset.design.access.placing import placed
from planset.design.access.street import faces_street, on_street_side
from planset.design.layout import ArrayOnRoof
from planset.roof.plane import Plane
from planset.roof.solid import EdgeKind, Roof

if TYPE_CHECKING:
    from planset.job.load import Inputs

_NOISE = 1e-9
_SLIVER_SQIN = 1e-3


def counted_pathways(
    inputs: Inputs,
    roof: Roof,
    access: AccessGeometry,
    planes: tuple[Plane, ...],
    arrays: tuple[ArrayOnRoof, ...],
    rules: EffectiveAccess,
) -> list[Pathway]:
    """The pathways by which a building meets the rules since 2018, as far as it has them.

    One for each plane with an array; then one toward a street, and as many more on planes of
    their own as the building lacks.

    Args:
        inputs: The job and its jurisdiction.
        roof: The roof.
        access: What is measured.
        planes: The planes of the building that are judged.
        arrays: The arrays.
        rules: The rules in force.
    """
    code = rules.code
    carrying = planes_with_arrays(planes, arrays)
    chosen = list(serving(roof, access, planes, carrying, rules).values())
    each = on_separate_planes(access, planes, code.pathway_width_in)
    wide = {
        name: pathway
        for name, pathway in each.items()
        if pathway.width_in >= code.pathway_width_in - _NOISE
    }
    toward = [
        pathway
        for pathway in street_pathways(inputs, roof, access, planes, rules)
        if pathway.width_in >= code.pathway_width_in - _NOISE
    ]
    if code.street_side and not set(toward).intersection(chosen):
        chosen += toward[:1]
    for name in sorted(wide, key=lambda name: (bool(wide[name].unfinished), -wide[name].width_in)):
        apart = on_planes_apart(chosen)
        if len(apart) < code.pathways_on_building and name not in apart:
            chosen.append(wide[name])
    return list(dict.fromkeys(chosen))


def street_pathways(
    inputs: Inputs,
    roof: Roof,
    access: AccessGeometry,
    planes: tuple[Plane, ...],
    rules: EffectiveAccess,
) -> list[Pathway]:
    """Every strip that stands on a street or driveway side, what is wide enough and sure first.

    Args:
        inputs: The job and its jurisdiction.
        roof: The roof.
        access: What is measured.
        planes: The planes of the building that are judged.
        rules: The rules in force.
    """
    required = rules.code.pathway_width_in
    facing = {plane.id for plane in planes if faces_street(inputs, roof, plane)}
    candidates = [
        pathway
        for pathway in (*pathways_on(access, planes), *straddling(access, planes, required))
        if facing.intersection(pathway.planes) and pathway.width_in > _NOISE
    ]

    def stands_there(pathway: Pathway) -> bool:
        areas = placed(inputs, roof, pathway, required)
        feet = areas[-1:] if pathway.strip else areas
        return on_street_side(inputs, roof, feet, required)

    def worth(pathway: Pathway) -> tuple[bool, bool, float]:
        return (
            pathway.width_in < required - _NOISE,
            bool(pathway.unfinished),
            -pathway.width_in,
        )

    return sorted(filter(stands_there, candidates), key=worth)


def planes_with_arrays(planes: Iterable[Plane], arrays: Iterable[ArrayOnRoof]) -> list[str]:
    """Ids of those of some planes that carry arrays."""
    on = {array.plane.id for array in arrays}
    return [plane.id for plane in planes if plane.id in on]


def pathways_of_slope(
    roof: Roof, access: AccessGeometry, plane: Plane, required_in: float, count: int
) -> tuple[Pathway, ...]:
    """The strips of one slope that may be counted together, widest first.

    Where more than one is needed, a strip along a valley counts only where it does not overlap
    those that run straight up.

    Args:
        roof: The roof.
        access: What is measured.
        plane: The plane.
        required_in: Width of a pathway [in].
        count: How many are needed.
    """
    listed = pathways_on(access, (plane,))
    straight = [pathway for pathway in listed if pathway.strip]
    kept = []
    for pathway in listed:
        apart = pathway.strip or count <= 1 or not _overlaps(roof, plane, pathway, straight)
        if apart:
            kept.append(pathway)
    return tuple(sorted(kept, key=lambda p: (bool(p.unfinished), -p.width_in)))


def _overlaps(roof: Roof, plane: Plane, pathway: Pathway, others: list[Pathway]) -> bool:
    side = pathway.sides[0]
    edge = next(e for e in roof.edges_of(plane.id) if e.id == side.edge)
    ground = band_of(plane, edge).ground(side.width_in)
    boxes = [p.strip.on(plane.id) for p in others if p.strip]
    return any(
        ground.intersection(shapely.box(b.x0, b.y0, b.x1, b.y1)).area > _SLIVER_SQIN for b in boxes
    )


def is_hipped(roof: Roof, plane: Plane) -> bool:
    """Whether a slope belongs to a hip roof: whether it ends at a hip (interpretation)."""
    return bool(roof.edges_of(plane.id, EdgeKind.HIP))


def pathways_by_slope(
    roof: Roof,
    access: AccessGeometry,
    planes: tuple[Plane, ...],
    arrays: tuple[ArrayOnRoof, ...],
    rules: EffectiveAccess,
) -> list[tuple[Pathway, int]]:
    """The pathways of every slope with an array, by the rules before 2018, and how many in each.

    Args:
        roof: The roof.
        access: What is measured.
        planes: The planes that are judged.
        arrays: The arrays.
        rules: The rules in force.
    """
    required = rules.code.pathway_width_in
    chosen: list[tuple[Pathway, int]] = []
    for plane in planes:
        if plane.id not in planes_with_arrays(planes, arrays):
            continue
        needed = rules.code.pathways_per_plane(hip_roof=is_hipped(roof, plane))
        wide = [
            pathway
            for pathway in pathways_of_slope(roof, access, plane, required, needed)
            if pathway.width_in >= required - _NOISE
        ]
        chosen += [(pathway, 1) for pathway in wide[:needed]]
        missing = needed - len(wide[:needed])
        if wide and missing and wide[0].room_for(required) > missing:
            chosen[-len(wide[:needed])] = (wide[0], 1 + missing)
    return chosen
