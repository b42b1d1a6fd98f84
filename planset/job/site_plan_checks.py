"""What the site plan must agree with: the sheets asked for, the site, the buildings."""

from __future__ import annotations

from collections.abc import Iterator

from planset.errors import Problem
from planset.job.electrical_checks.walls import no_such_tag, wall_tags
from planset.job.sections import Sections
from planset.job.site_plan import OnWall, SitePlan
from planset.source import Location, SourceDocument

SHEET = "C-101"
_PLACE: Location = ("site_plan",)


def check_site_plan(sections: Sections, document: SourceDocument) -> Iterator[Problem]:
    """Yield a site plan that is asked for and not described, then what it contradicts."""
    drafting = sections.get("drafting")
    if drafting and SHEET in drafting.sheets and "site_plan" not in document.data:
        where = ("drafting", "sheets", drafting.sheets.index(SHEET))
        message = f"{SHEET} draws the lot, and the job does not describe it"
        yield document.problem(where, message, "add site_plan, or take C-101 out of the list")
    plan = sections.get("site_plan")
    if plan is None:
        return
    yield from _streets_are_those_of_the_site(plan, sections, document)
    yield from _walls_exist(plan, sections, document)
    yield from _equipment_exists(plan, sections, document)


def _streets_are_those_of_the_site(
    plan: SitePlan, sections: Sections, document: SourceDocument
) -> Iterator[Problem]:
    """Fire access is judged by the sides of the site, so the plan may show no others."""
    site = sections.get("site")
    if site is None:
        return
    named = {street.side for street in plan.streets}
    for number, street in enumerate(plan.streets):
        if street.side not in site.street_sides:
            place = (*_PLACE, "streets", number, "side")
            sides = ", ".join(site.street_sides)
            message = f"site.street_sides knows no street there (got {street.side})"
            yield document.problem(place, message, f"write one of: {sides}, or add it to both")
    for side in site.street_sides:
        if side not in named:
            message = f"no street at the {side}, where site.street_sides has one"
            yield document.problem((*_PLACE, "streets"), message, "add it with its name and side")
    if site.driveway_sides and not plan.driveway:
        message = f"none, where site.driveway_sides has one at the {site.driveway_sides[0]}"
        yield document.problem((*_PLACE, "driveway"), message, "add its corners")


def _walls_exist(plan: SitePlan, sections: Sections, document: SourceDocument) -> Iterator[Problem]:
    """Yield what stands on a building that is not there."""
    known = [other.id for other in sections.get("other_buildings", ())]
    places: list[tuple[Location, OnWall]] = [
        ((*_PLACE, "equipment", number), item) for number, item in enumerate(plan.equipment)
    ]
    if plan.gas_meter:
        places.append(((*_PLACE, "gas_meter"), plan.gas_meter))
    for place, item in places:
        if item.building is not None and item.building not in known:
            message = f"no building of other_buildings has this id (got {item.building})"
            mend = (
                f"write one of: {', '.join(known)}"
                if known
                else "take building out, for a place on the house"
            )
            yield document.problem((*place, "building"), message, mend)


def _equipment_exists(
    plan: SitePlan, sections: Sections, document: SourceDocument
) -> Iterator[Problem]:
    """Yield tags that the electrical section has not, and those that are used twice."""
    electrical = sections.get("electrical")
    if electrical is None:
        return
    known = wall_tags(electrical)
    first: dict[str, Location] = {}
    for number, item in enumerate(plan.equipment):
        place = (*_PLACE, "equipment", number, "tag")
        if item.tag not in known:
            yield no_such_tag(item.tag, place, known, document)
        if item.tag in first:
            message = f"{item.tag} stands at a wall on line {document.line_of(first[item.tag])}"
            yield document.problem(place, message, "show each piece once")
        first.setdefault(item.tag, place)
