"""A raceway on the roof begins at a junction box, stays on its plane and runs in no pathway."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING

from planset.design.electrical.boxes import BOX_SIZE_IN, placed_boxes
from planset.design.electrical.routes import RoofRoute, roof_routes, run_words
from planset.drawing.region import Region
from planset.finding import Finding, Outcome
from planset.job.electrical.wiring import RoofPlace
from planset.rules.rule import COMMON_PRACTICE, Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design

_ALONG = 1.5  # times an area's width, from which a raceway runs along it, not across
_OFF_PLANE_IN = 1.0
_ROUNDING_IN = 1e-6


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look at the course of each raceway on the roof; without one ask for it."""
    for route in roof_routes(design.inputs, design.roof):
        yield _course(design, route)
    for stated in design.inputs.job.electrical.wiring.runs:
        name = run_words(stated.name, stated.box)
        for number, place in enumerate(stated.run.places):
            if isinstance(place, RoofPlace) and not place.route:
                message = (
                    f"Run {name} lies on the roof by its length alone, so that no plan shows its "
                    "raceway; give plane and route, or ask whether a plan without it is taken."
                )
                field = (*stated.place, "places", number)
                line = design.inputs.line_of("electrical", "wiring", *field)
                yield RULE.found(Outcome.ASK, COMMON_PRACTICE, message, objects=(name,), line=line)


def _course(design: Design, route: RoofRoute) -> Finding:
    problems = [*_start(design, route), *_off_plane(route), *_along(design, route)]
    outcome = problems[0][0] if problems else Outcome.PASS
    fact, change = problems[0][1:] if problems else (_well(route), "")
    return RULE.found(
        outcome,
        COMMON_PRACTICE,
        sentence(outcome, fact, change),
        objects=(route.name,),
        line=_line(design, route),
    )


def _line(design: Design, route: RoofRoute) -> int:
    stated = design.inputs.job.electrical.wiring.stated(route.run, route.box)
    assert stated is not None, "its route is a part of it"
    field = (*stated.place, "places", route.place)
    return design.inputs.line_of("electrical", "wiring", *field)


def _well(route: RoofRoute) -> str:
    length = sum(route.legs_in) / 12.0
    return f"The raceway of run {route.name} lies {length:.1f} ft on the roof, from box to edge"


def _start(design: Design, route: RoofRoute) -> Iterator[tuple[Outcome, str, str]]:
    its_own = [b for b in placed_boxes(design) if route.box in ("", b.id)]
    boxes = [b for b in its_own if b.plane is route.plane]
    away = min((math.dist(b.at, route.points[0]) for b in boxes), default=math.inf)
    first = route.place == 0
    if first and away > BOX_SIZE_IN:
        what = route.box or "one"
        where = f"{away:.1f} in from {what}" if boxes else f"on a plane without {what}"
        fact = f"The raceway of run {route.name} begins at no junction box but {where}"
        yield Outcome.FAIL, fact, "begin its route at the box"


def _off_plane(route: RoofRoute) -> Iterator[tuple[Outcome, str, str]]:
    plane = Region(route.plane.surface_polygon).grown(_OFF_PLANE_IN)
    if _inside_in(plane, route) < sum(route.legs_in) - _ROUNDING_IN:
        fact = f"The raceway of run {route.name} leaves plane {route.plane.id} on its way"
        yield Outcome.FAIL, fact, "end its route at the edge of the plane"


def _along(design: Design, route: RoofRoute) -> Iterator[tuple[Outcome, str, str]]:
    """The codes take conduit for a minimal obstruction, but only say so of what crosses a way."""
    for area in design.access_areas:
        if area.plane != route.plane.id:
            continue
        inside = _inside_in(Region.of(area.outline), route)
        if inside > _ALONG * area.required_in:
            fact = (
                f"The raceway of run {route.name} runs {inside:.0f} in in the {area.kind.value} of "
                f"{area.required_in:g} in"
            )
            yield Outcome.ASK, fact, "lead it out of there, or ask whether it may lie there"


def _inside_in(region: Region, route: RoofRoute) -> float:
    """How much of a raceway lies in a region [in]."""
    return sum(region.length_along(a, b) for a, b in pairwise(route.points))


RULE = Rule(
    id="electrical.raceway-route",
    title="Raceways on the roof",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
