"""Whether the roofs of a job can be built, and whether what names a plane names one of theirs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import combinations

from planset.errors import Problem
from planset.job.covering_checks import check_covering
from planset.job.electrical.wiring import RoofPlace
from planset.job.electrical_checks.places import check_places
from planset.job.framing_checks import check_framing
from planset.job.obstruction_checks import check_obstructions
from planset.job.other_buildings import OtherBuilding
from planset.job.roof import FreeRoof, Roof
from planset.job.sections import Entries, Sections
from planset.job.solid import roof_solid
from planset.roof.free import OVERLAP_SQIN, misfits, overlap_sqin
from planset.roof.shapes import RoofShapeError
from planset.source import Location, SourceDocument
from planset.units import format_feet_inches


def check_roofs(
    sections: Sections, entries: Entries, document: SourceDocument
) -> Iterator[Problem]:
    """Yield what is wrong with the roofs, then every plane that is named and not there."""
    roof = sections.get("roof")
    if roof is None:
        return
    others = sections.get("other_buildings", ())
    wrong = [*_unbuildable(roof, ("roof",), document)]
    for number, other in enumerate(others):
        wrong += _unbuildable(other.roof, ("other_buildings", number, "roof"), document)
    yield from wrong
    if wrong:
        return
    yield from _fire_walls_under_roof(sections, roof, document)
    yield from _buildings_apart(roof, others, document)
    yield from _planes_exist(sections, entries, roof, others, document)


def _unbuildable(roof: Roof, place: Location, document: SourceDocument) -> Iterator[Problem]:
    """Yield why a roof cannot be built as stated."""
    yield from _names_are_unique(roof, place, document)
    try:
        solid = roof.solid
    except RoofShapeError as error:
        message, _, mend = str(error).partition("; ")
        yield document.problem((*place, *error.place), message, mend)
        return
    if isinstance(roof, FreeRoof):
        names = [plane.id for plane in roof.planes]
        steps = frozenset(frozenset(pair) for pair in roof.steps)
        for misfit in misfits(solid.planes, steps):
            where = (*place, "planes", names.index(misfit.planes[1]))
            yield document.problem(where, misfit.message, misfit.mend)


def _names_are_unique(roof: Roof, place: Location, document: SourceDocument) -> Iterator[Problem]:
    """Yield wings, dormers and planes whose name is taken."""
    lists = [
        (kind, number, part.id)
        for kind in ("wings", "dormers", "planes")
        for number, part in enumerate(getattr(roof, kind, ()))
    ]
    seen: Counter[str] = Counter()
    for kind, number, name in lists:
        seen[name] += 1
        if seen[name] == 2:
            message = f"the name {name} is given twice"
            mend = "give each wing, dormer and plane a name of its own"
            yield document.problem((*place, kind, number, "id"), message, mend)


def _fire_walls_under_roof(
    sections: Sections, roof: Roof, document: SourceDocument
) -> Iterator[Problem]:
    """Yield fire walls that part nothing."""
    building = sections.get("building")
    xs = [x for plane in roof.solid.planes for x, _ in plane.outline]
    for number, wall in enumerate((building.fire_walls if building else None) or ()):
        if not min(xs) < wall < max(xs):
            extent = " to ".join(format_feet_inches(x) for x in (min(xs), max(xs)))
            message = f"no roof of the house above it (got {format_feet_inches(wall)})"
            mend = f"the roof runs from {extent} along the front; write a distance between"
            yield document.problem(("building", "fire_walls", number), message, mend)


def _buildings_apart(
    roof: Roof, others: tuple[OtherBuilding, ...], document: SourceDocument
) -> Iterator[Problem]:
    """Yield buildings that stand in each other."""
    if not others:
        return
    solid = roof_solid(roof, others)
    names = ["", *(other.id for other in others)]
    for one, other in combinations(names, 2):
        shared = overlap_sqin(solid.planes_of(one), solid.planes_of(other))
        if shared > OVERLAP_SQIN:
            message = f"it overlaps {one or 'the house'} by {shared / 144:.1f} sq ft in plan"
            place = ("other_buildings", names.index(other) - 1, "at")
            yield document.problem(place, message, "correct at, or the sizes of the roofs")


def _planes_exist(
    sections: Sections,
    entries: Entries,
    roof: Roof,
    others: tuple[OtherBuilding, ...],
    document: SourceDocument,
) -> Iterator[Problem]:
    planes = {plane.id: plane for plane in roof_solid(roof, others).planes}
    known = list(planes)
    for place, plane in _named_planes(sections).items():
        if plane not in known:
            message = f"not a plane of the {roof.shape} roof (got {plane})"
            mend = f"write one of: {', '.join(known)}"
            yield document.problem(place, message, mend)
    yield from check_covering(sections, entries, roof.covering, known, document)
    yield from check_framing(sections, known, document)
    yield from check_obstructions(sections, planes, document)
    yield from check_places(sections, planes, document)


def _named_planes(sections: Sections) -> dict[Location, str]:
    """Every plane that the sections name, by where it is named."""
    building = sections.get("building")
    openings = building.escape_openings_onto_roof if building else ()
    below = (building.openings_below_eaves if building else None) or ()
    named: dict[Location, str] = {}
    for number, item in enumerate(sections.get("obstructions", ())):
        named["obstructions", number, "plane"] = item.plane
    for number, array in enumerate(sections.get("arrays", ())):
        named["arrays", number, "plane"] = array.plane
    for number, opening in enumerate(openings):
        named["building", "escape_openings_onto_roof", number, "plane"] = opening.plane
    for number, window in enumerate(below):
        named["building", "openings_below_eaves", number, "plane"] = window.plane
    return named | _routed_planes(sections)


def _routed_planes(sections: Sections) -> dict[Location, str]:
    """Every plane that a raceway's route goes over, by where it is named."""
    electrical = sections.get("electrical")
    return {
        ("electrical", "wiring", *stated.place, "places", number, "plane"): place.plane
        for stated in (electrical.wiring.runs if electrical else ())
        for number, place in enumerate(stated.run.places)
        if isinstance(place, RoofPlace) and place.plane is not None
    }
