"""Which figures of roof zones a plane takes, from the edges around it, and the building's sizes.

The figures draw one plain roof each. A roof that mixes is judged plane by plane, and what was
judged is said in words, for the engineer to confirm. Which slopes and shapes the figures hold for:
ASCE 7-16 and 7-22, titles of Figures 30.3-2A to 2I, 30.3-3, 30.3-5A and 30.3-5B [from memory].
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from planset.codes.asce7.standard import Standard
from planset.codes.asce7.zone_maps import OUTER
from planset.design.wind_zones import RANKED_AT_SQFT, ZoneEdge
from planset.roof.edges import heights_of_meeting_planes
from planset.roof.plane import Plane
from planset.roof.solid import Edge, EdgeKind, Roof
from planset.units import format_feet_inches

FLAT_UP_TO_DEG = 7.0
MONOSLOPE_OVER_DEG, MONOSLOPE_UP_TO_DEG = 3.0, 30.0
STEEPEST_DEG = 45.0
HIGHEST_IN = 720.0  # mean roof height (30.3 [from memory])
LEVELS_APART_IN = 120.0  # walls from here on make the stepped roof of Figure 30.3-3 [from memory]
EAVE_HEIGHT_UP_TO_DEG = 10.0  # flatter roofs take the eave height as h (26.2)

_NO_STRIPS = (
    "Valleys, and lines where a wall or a steeper slope rises from the roof, carry no strip."
)

_OUTER = (
    EdgeKind.EAVE,
    EdgeKind.RAKE,
    EdgeKind.HIGH_EDGE,
    EdgeKind.ROOF_EDGE,
    EdgeKind.PARAPET,
)
_WALLS = (EdgeKind.HEADWALL, EdgeKind.SIDEWALL)
_JOINTS = (EdgeKind.RIDGE, EdgeKind.HIP, EdgeKind.VALLEY, EdgeKind.PITCH_BREAK)


class Family(StrEnum):
    """A group of figures of roof zones."""

    GABLE = "gable"
    HIP = "hip"
    MONOSLOPE = "monoslope"
    FLAT = "flat"


MoreSevere = Callable[[tuple[Family, ...], float], Family]
"""Of several families, the one of the more severe coefficients at a slope [deg]."""


@dataclass(frozen=True, slots=True)
class PlaneShape:
    """How the figures see one plane.

    Attributes:
        plane: Id of the plane.
        family: The figures it takes.
        families: All that it may take; more than one where it is neither clearly.
        edges: The edges its zones are measured from, by their kind in those figures.
        assumptions: What was judged where the figures draw no such roof, in sentences.
        reason: Why no figure can be used, "" when one can.
    """

    plane: str
    family: Family
    families: tuple[Family, ...]
    edges: tuple[ZoneEdge, ...]
    assumptions: tuple[str, ...]
    reason: str


def plane_shape(roof: Roof, plane: Plane, more_severe: MoreSevere) -> PlaneShape:
    """The figures of one plane, and the edges its zones are measured from.

    Args:
        roof: The roof of the plane's building by itself.
        plane: The plane.
        more_severe: Chooses where the plane is neither clearly.
    """
    families, doubt = _families(roof, plane)
    covered = plane.slope_deg <= STEEPEST_DEG
    choose = covered and len(families) > 1
    family = more_severe(families, plane.slope_deg) if choose else families[0]
    assumptions = [*_of_the_roof(roof)]
    if doubt:
        assumptions.append(f"Plane {plane.id} {doubt}: {family} figures taken.")
    walls = [edge for edge in roof.edges_of(plane.id) if edge.kind in _WALLS]
    if walls:
        lines = ", ".join(edge.id for edge in walls)
        assumptions.append(f"A wall rises from plane {plane.id} ({lines}); no strip along it.")
    reason = _not_covered(roof, plane, family)
    edges = zone_edges(roof, plane, family)
    return PlaneShape(plane.id, family, families, edges, tuple(assumptions), reason)


def more_suction(standard: Standard, height_over_width: float) -> MoreSevere:
    """Of several families the one of which the worst zone pulls most, then the interior.

    On slopes where one pulls more at edges and the other inside, no choice is safe everywhere:
    there compute an attachment by all `PlaneShape.families` and take the worst.

    Args:
        standard: The edition of ASCE 7.
        height_over_width: h/B of the building, unitless.
    """

    def suction(family: Family, slope_deg: float) -> tuple[float, float]:
        figure = standard.roof_figure(figures_of(family), slope_deg, height_over_width)
        pulls = {zone: -figure.gcp_uplift(zone, RANKED_AT_SQFT) for zone in figure.zones}
        return max(pulls.values()), pulls[figure.zone_map.interior]

    def choose(families: tuple[Family, ...], slope_deg: float) -> Family:
        return max(families, key=lambda family: suction(family, slope_deg))

    return choose


def figures_of(family: Family) -> str:
    """What the code's tables of figures call a family; the flat figure is one of the gable's."""
    return Family.GABLE if family is Family.FLAT else family


def zone_edges(roof: Roof, plane: Plane, family: Family) -> tuple[ZoneEdge, ...]:
    """The edges that zones of a plane are measured from.

    Strips go on over a change of pitch, and those of a flat roof over every ridge and valley.

    Args:
        roof: The roof of the plane's building by itself.
        plane: The plane.
        family: The figures it takes.
    """
    over = _JOINTS if family is Family.FLAT else (EdgeKind.PITCH_BREAK,)
    found: list[ZoneEdge] = []
    for name in _joined(roof, plane.id, over):
        for edge in roof.edges_of(name):
            found += _as_zone_edges(edge, roof.plane(name), family, own=name == plane.id)
    if family is Family.HIP:  # a corner of the building lies on both planes of its hip
        for name in _beside(roof, plane.id, EdgeKind.HIP):
            for eave in roof.edges_of(name, EdgeKind.EAVE):
                found += _as_zone_edges(eave, roof.plane(name), family, own=False)
    return tuple(found)


def _as_zone_edges(edge: Edge, plane: Plane, family: Family, *, own: bool) -> list[ZoneEdge]:
    start, end = edge.plan if edge.planes[0] == plane.id else edge.plan[::-1]
    return [ZoneEdge(kind, start, end, own) for kind in _kinds(edge, plane, family)]


def _beside(roof: Roof, plane_id: str, kind: EdgeKind) -> list[str]:
    """The planes across the edges of one kind."""
    across = [name for edge in roof.edges_of(plane_id, kind) for name in edge.planes]
    return [name for name in dict.fromkeys(across) if name != plane_id]


def _families(roof: Roof, plane: Plane) -> tuple[tuple[Family, ...], str]:
    """The figures a plane may take, and in words why that is not clear, "" when it is."""
    slope = plane.slope_deg
    kinds = {edge.kind for edge in roof.edges_of(plane.id)}
    alone = kinds.issubset(_OUTER)
    if slope <= MONOSLOPE_OVER_DEG or (slope <= FLAT_UP_TO_DEG and not alone):
        return (Family.FLAT,), ""
    if alone:
        return (Family.MONOSLOPE,), ""
    clear = _clear(kinds)
    if clear:
        return (clear,), ""
    words = _bounded_by(kinds)
    whole = _joined(roof, plane.id, (EdgeKind.PITCH_BREAK,))
    of_all = _clear({edge.kind for name in whole for edge in roof.edges_of(name)})
    if of_all:
        return (of_all,), f"{words} and goes on at another pitch"
    if EdgeKind.RIDGE in kinds or EdgeKind.HIP in kinds or slope > MONOSLOPE_UP_TO_DEG:
        return (Family.GABLE, Family.HIP), f"{words}, which is neither a gable nor a hip"
    several = (Family.GABLE, Family.HIP, Family.MONOSLOPE)
    return several, f"{words}, which is no gable, hip or monoslope roof"


def _clear(kinds: set[EdgeKind]) -> Family | None:
    if EdgeKind.HIP in kinds:
        return None if EdgeKind.RAKE in kinds else Family.HIP
    return Family.GABLE if kinds.issuperset((EdgeKind.RIDGE, EdgeKind.RAKE)) else None


def _bounded_by(kinds: set[EdgeKind]) -> str:
    return f"is bounded by {', '.join(kind for kind in EdgeKind if kind in kinds)}"


def _of_the_roof(roof: Roof) -> tuple[str, ...]:
    """What is judged on every plane of a roof that no figure draws."""
    mixed = {edge.kind for edge in roof.edges}
    slopes = {round(plane.slope_deg, 3) for plane in roof.planes}
    if EdgeKind.VALLEY in mixed or mixed.intersection(_WALLS) or len(slopes) > 1:
        return (
            f"The figures draw plain roofs; each plane is judged by its own edges. {_NO_STRIPS}",
        )
    return ()


def _not_covered(roof: Roof, plane: Plane, family: Family) -> str:
    if plane.slope_deg > STEEPEST_DEG:
        over = f"over the {STEEPEST_DEG:g} deg of the figures"
        return f"plane {plane.id} slopes {plane.slope_deg:.1f} deg, {over}"
    if family is Family.MONOSLOPE and plane.slope_deg > MONOSLOPE_UP_TO_DEG:
        over = f"over the {MONOSLOPE_UP_TO_DEG:g} deg of the monoslope figures"
        return f"plane {plane.id} slopes {plane.slope_deg:.1f} deg, {over}"
    step = _highest_wall_in(roof, plane)
    if step >= LEVELS_APART_IN:
        high = format_feet_inches(step)
        return f"a wall of {high} rises from plane {plane.id}: a roof of several levels"
    return ""


def _highest_wall_in(roof: Roof, plane: Plane) -> float:
    """The highest wall that stands on the edges of a plane [in]."""
    return max(
        (
            other - own
            for meeting in heights_of_meeting_planes(roof.planes)
            if meeting.plane == plane.id
            for own, other in zip(meeting.heights, meeting.other_heights, strict=True)
        ),
        default=0.0,
    )


def _joined(roof: Roof, plane_id: str, over: tuple[EdgeKind, ...]) -> list[str]:
    """A plane and those one reaches from it over edges of some kinds."""
    reached = [plane_id]
    for name in reached:
        for edge in roof.edges_of(name):
            if edge.kind in over:
                reached += [other for other in edge.planes if other not in reached]
    return reached


def _kinds(edge: Edge, plane: Plane, family: Family) -> tuple[str, ...]:
    """What an edge counts as in the figures of a family, nothing where it carries no strip.

    An edge those figures do not draw counts as all that it may be, so that the worst zone wins:
    an open high edge as a ridge and as an outer edge, a rake among hips as an eave.
    """
    kind = edge.kind
    if kind in (EdgeKind.ROOF_EDGE, EdgeKind.PARAPET) and family is not Family.FLAT:
        kind = _kind_by_height(edge, plane)
    if family is Family.FLAT:
        return (OUTER,) if kind in _OUTER else ()
    if family is Family.MONOSLOPE:
        as_is = (EdgeKind.EAVE, EdgeKind.RAKE, EdgeKind.HIGH_EDGE)
        return (kind,) if kind in as_is else ()
    rake = EdgeKind.RAKE if family is Family.GABLE else EdgeKind.EAVE
    hip = (EdgeKind.RIDGE, rake) if family is Family.GABLE else (EdgeKind.HIP,)
    return {
        EdgeKind.EAVE: (EdgeKind.EAVE,),
        EdgeKind.RAKE: (rake,),
        EdgeKind.RIDGE: (EdgeKind.RIDGE,),
        EdgeKind.HIP: hip,
        EdgeKind.HIGH_EDGE: (EdgeKind.RIDGE, rake),
    }.get(kind, ())


def _kind_by_height(edge: Edge, plane: Plane) -> EdgeKind:
    """What an edge of a flat roof is on one that falls."""
    (_, v0), (_, v1) = (plane.to_surface(end) for end in edge.plan)
    if abs(v0 - v1) > math.dist(*edge.plan) / 2:
        return EdgeKind.RAKE
    middle = sum(v for _, v in plane.surface_outline) / len(plane.surface_outline)
    return EdgeKind.EAVE if (v0 + v1) / 2 < middle else EdgeKind.HIGH_EDGE


@dataclass(frozen=True, slots=True)
class BuildingSize:
    """The sizes of a building that wind loads ask for.

    Attributes:
        mean_roof_height_in: h above the ground [in].
        least_dimension_in: Least horizontal dimension for the strips, overhangs included: the
            figures let them be left out, which makes strips narrower [in].
        least_width_in: The same without overhangs, B of a hip's h/B [in].
        reason: Why no figure can be used, "" when one can.
        assumptions: What was taken for known, in sentences.
    """

    mean_roof_height_in: float
    least_dimension_in: float
    least_width_in: float
    reason: str
    assumptions: tuple[str, ...] = ()

    @property
    def height_to_width(self) -> float:
        """h/B, unitless."""
        return self.mean_roof_height_in / self.least_width_in


def building_size(
    roof: Roof, eave_height_in: float, eave_line_in: float, overhang_in: float
) -> BuildingSize:
    """Sizes of one building, ASCE 7-16 and 7-22, 26.2 and the notation of Figure 30.3-2.

    Args:
        roof: The roof of the building by itself.
        eave_height_in: Its eave line above the ground [in].
        eave_line_in: That line in the heights of the roof [in].
        overhang_in: The widest overhang [in].
    """
    mean = eave_height_in
    if max(plane.slope_deg for plane in roof.planes) > EAVE_HEIGHT_UP_TO_DEG:
        top = max(plane.height_at(corner) for plane in roof.planes for corner in plane.outline)
        mean += (top - eave_line_in) / 2
    least = _least_dimension_in(roof)
    reason = ""
    if eave_height_in <= 0:
        reason = "the eave line does not stand above the ground"
    elif mean > HIGHEST_IN:
        over = f"over the {HIGHEST_IN / 12:g} ft of the figures"
        reason = f"the mean roof height is {mean / 12:.1f} ft, {over}"
    return BuildingSize(mean, least, least - 2 * overhang_in, reason)


def _least_dimension_in(roof: Roof) -> float:
    """The short side of the least rectangle around the roof, square to one of its planes [in]."""
    width, depth = min((_rectangle(roof, plane) for plane in roof.planes), key=math.prod)
    return min(width, depth)


def _rectangle(roof: Roof, plane: Plane) -> tuple[float, float]:
    corners = [corner for one in roof.planes for corner in one.outline]
    (ax, ay), (dx, dy) = plane.along, plane.downslope
    along = [x * ax + y * ay for x, y in corners]
    down = [x * dx + y * dy for x, y in corners]
    return (max(along) - min(along), max(down) - min(down))
