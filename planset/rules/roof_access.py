"""What the fire access rules share: planes subject to them, pathways, the direction of a street."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from planset.citation import CodeEdition
from planset.codes.roof_access import DwellingAccess, dwelling_access, dwelling_editions
from planset.design.access import ClearStrip
from planset.drawing.geometry import Point
from planset.finding import Finding, Outcome
from planset.roof.plane import Plane
from planset.rules.limits import NOISE
from planset.rules.rule import Rule
from planset.units import format_feet_inches, format_pitch

if TYPE_CHECKING:
    from planset.design.design import Design


_NOT_APPLIED_YET = (
    "edge_setback",
    "between_arrays",
    "greatest_array_side",
    "hip_valley_setback",
    "ratio_base",
    "three_sides",
)
"""Local rules that may ask for more than these rules judge."""


def clauses_since_2018(topic: str) -> dict[CodeEdition, str]:
    """Return the clauses of a topic in the editions that ask for pathways on the building."""
    rules = map(dwelling_access, dwelling_editions())
    return {
        access.edition: access.clauses[topic] for access in rules if access.pathways_on_building
    }


def subject_planes(design: Design, access: DwellingAccess) -> tuple[Plane, ...]:
    """Return the planes that are steeper than the edition exempts."""
    return tuple(plane for plane in design.roof.planes if plane.pitch > access.exempt_slope + NOISE)


def not_judged(rule: Rule, design: Design, citation: str, access: DwellingAccess) -> Finding | None:
    """Return the finding that takes the place of a judgement, None when the roof is to be judged.

    The residential code covers dwellings only, and exempts roofs of low slope.
    """
    if design.inputs.job.building.use == "other":
        message = (
            "The building is no dwelling, and planset has no access rules for other buildings "
            "yet; check the roof by hand against the fire code."
        )
        line = design.inputs.line_of("building", "use")
        return rule.found(Outcome.OPEN, citation, message, line=line)
    local = design.inputs.jurisdiction
    given = [name for name in _NOT_APPLIED_YET if getattr(local.access, name) is not None]
    if given:
        message = (
            f"{local.name} has rules of its own that planset does not apply yet "
            f"({', '.join(given)}); check the roof by hand against them."
        )
        return rule.found(Outcome.OPEN, citation, message)
    if not subject_planes(design, access):
        slope = format_pitch(access.exempt_slope)
        message = f"No roof plane is steeper than {slope}, so the rule exempts this roof."
        line = design.inputs.line_of("roof", "pitch")
        return rule.found(Outcome.NOT_APPLICABLE, citation, message, line=line)
    return None


def widest_strip(design: Design, plane: Plane) -> ClearStrip | None:
    """Return the widest strip of a plane that is clear from eave to ridge, None without one."""
    return next(iter(design.access.strips_on(plane.id)), None)


def pathway_width_in(design: Design, plane: Plane) -> float:
    """Return the width of that strip, 0 without one [in]."""
    strip = widest_strip(design, plane)
    return strip.width_in if strip else 0.0


def described(design: Design, plane: Plane) -> str:
    """Return the widest clear strip of a plane in words, such as `5'-0" left on front`."""
    strip = widest_strip(design, plane)
    if strip is None:
        return f"none on {plane.id}"
    return f"{format_feet_inches(strip.width_in, rounding='down')} {strip.side} on {plane.id}"


def faces_street(design: Design, plane: Plane) -> bool:
    """Tell whether a plane slopes toward a street within the angle the jurisdiction allows."""
    allowed_deg = design.inputs.jurisdiction.access.street_angle.value
    return any(
        _angle_deg(plane.downslope, direction) <= allowed_deg + NOISE
        for direction in street_directions(design)
    )


def street_directions(design: Design) -> tuple[Point, ...]:
    """Return the plan directions of the job's street sides, as unit vectors.

    Front is where the first plane of the roof slopes down to; left and right are as seen by
    somebody who faces that plane from its eave.
    """
    front = design.roof.planes[0]
    (down_x, down_y), (right_x, right_y) = front.downslope, front.along
    directions = {
        "front": (down_x, down_y),
        "back": (-down_x, -down_y),
        "left": (-right_x, -right_y),
        "right": (right_x, right_y),
    }
    return tuple(directions[side] for side in design.inputs.job.site.street_sides)


def _angle_deg(a: Point, b: Point) -> float:
    cosine = a[0] * b[0] + a[1] * b[1]
    return math.degrees(math.acos(max(-1.0, min(1.0, cosine))))
