"""Clear strips, ridge clearances and the area ratio that fire access is judged by.

Distances are on the roof surface, perpendicular to the edge they are measured from; the area
ratio alone is in plan. All of it is geometry: what is enough is decided by the rules.
"""

from __future__ import annotations

from dataclasses import dataclass

from planset.design.access_area import AccessArea, AreaKind
from planset.design.layout import PlacedArray, PlacedObstruction
from planset.drawing.geometry import Box
from planset.roof.plane import Plane
from planset.roof.solid import Edge, EdgeKind, Roof


@dataclass(frozen=True, slots=True)
class ClearStrip:
    """A strip of one plane that is free from the eave to the ridge.

    Attributes:
        plane: Id of the plane.
        side: Where it lies: "left", "right" or "middle", facing the plane from its eave.
        surface: The strip on the plane, (u, v) [in].
    """

    plane: str
    side: str
    surface: Box

    @property
    def width_in(self) -> float:
        """Clear width along the eave [in]."""
        return self.surface.width


@dataclass(frozen=True, slots=True)
class RidgeClearance:
    """How far an array stays below a horizontal ridge, on the surface.

    Attributes:
        array: Id of the array.
        plane: Id of its plane.
        edge: Id of the ridge.
        clear_in: From the ridge line to the nearest hardware [in].
    """

    array: str
    plane: str
    edge: str
    clear_in: float


@dataclass(frozen=True, slots=True)
class AccessGeometry:
    """Everything fire access is judged by.

    Attributes:
        strips: Widest clear strips first within each plane.
        ridges: One entry per array and ridge of its plane.
        array_plan_area_sqin: All arrays in plan [sq in].
        roof_plan_area_sqin: The whole roof in plan, overhangs included [sq in].
    """

    strips: tuple[ClearStrip, ...]
    ridges: tuple[RidgeClearance, ...]
    array_plan_area_sqin: float
    roof_plan_area_sqin: float

    @property
    def area_ratio_percent(self) -> float:
        """Arrays over whole roof, both in plan [%]."""
        return 100 * self.array_plan_area_sqin / self.roof_plan_area_sqin

    @property
    def judged_ratio_percent(self) -> float:
        """The ratio a code is asked with: more than all means modules beyond the roof [%]."""
        return min(self.area_ratio_percent, 100.0)

    def strips_on(self, plane_id: str) -> tuple[ClearStrip, ...]:
        """The clear strips of one plane, widest first."""
        return tuple(strip for strip in self.strips if strip.plane == plane_id)


def access_geometry(
    roof: Roof,
    arrays: tuple[PlacedArray, ...],
    obstructions: tuple[PlacedObstruction, ...],
    rake_overhang_in: float,
    *,
    count_overhang: bool,
) -> AccessGeometry:
    """Measure the roof for fire access.

    Args:
        roof: The roof.
        arrays: Placed arrays.
        obstructions: Placed obstructions; a vent pipe does not close a strip.
        rake_overhang_in: Overhang at the rakes [in].
        count_overhang: Whether a strip may lie over the rake overhang (a local reading).
    """
    margin = 0.0 if count_overhang else rake_overhang_in
    strips: list[ClearStrip] = []
    for plane in roof.planes:
        blocked = [array.hardware for array in arrays if array.plane.id == plane.id]
        blocked += [
            item.surface for item in obstructions if item.plane.id == plane.id and not item.minor
        ]
        strips += _clear_strips(plane, blocked, margin)
    return AccessGeometry(
        tuple(strips),
        tuple(_ridge_clearances(roof, arrays)),
        sum(array.plan_area_sqin for array in arrays),
        roof.plan_area_sqin,
    )


def eave_run(plane: Plane) -> Box:
    """The part of a plane that reaches straight from its eave to its upper edge, (u, v) [in].

    A rectangle is this part whole; of other outlines only the middle between the inner corners
    counts, which understates what is clear and never overstates it.
    """
    corners = plane.surface_outline
    top = max(v for _, v in corners)
    bottom = min(v for _, v in corners)
    low = [u for u, v in corners if abs(v - bottom) < 1e-6]
    high = [u for u, v in corners if abs(v - top) < 1e-6]
    left, right = max(min(low), min(high)), min(max(low), max(high))
    return Box(left, bottom, max(left, right), top)


def _clear_strips(plane: Plane, blocked: list[Box], margin_in: float) -> list[ClearStrip]:
    run = eave_run(plane)
    left, right = run.x0 + margin_in, run.x1 - margin_in
    free: list[tuple[float, float]] = []
    reached = left
    for box in sorted(blocked, key=lambda box: box.x0):
        if box.x0 > reached:
            free.append((reached, min(box.x0, right)))
        reached = max(reached, box.x1)
    if right > reached:
        free.append((reached, right))
    strips = [
        ClearStrip(plane.id, _side(u0, u1, left, right), Box(u0, run.y0, u1, run.y1))
        for u0, u1 in free
        if u1 > u0
    ]
    return sorted(strips, key=lambda strip: (-strip.width_in, strip.surface.x0))


def _side(u0: float, u1: float, left: float, right: float) -> str:
    if u0 == left:
        return "left"
    return "right" if u1 == right else "middle"


def _ridge_clearances(roof: Roof, arrays: tuple[PlacedArray, ...]) -> list[RidgeClearance]:
    found = []
    for array in arrays:
        for edge in roof.edges_of(array.plane.id, EdgeKind.RIDGE):
            clear = _ridge_height(edge, array.plane) - array.hardware.y1
            found.append(RidgeClearance(array.id, array.plane.id, edge.id, clear))
    return found


def _ridge_height(edge: Edge, plane: Plane) -> float:
    """Distance of a level ridge from the eave line, on the surface [in]."""
    return plane.to_surface(edge.plan[0])[1]


def required_areas(
    roof: Roof, access: AccessGeometry, pathway_in: float, ridge_in: float
) -> tuple[AccessArea, ...]:
    """Areas to keep free: the widest strip of each plane, and both sides of every level ridge.

    Args:
        roof: The roof.
        access: Its measured strips and clearances.
        pathway_in: Required width of a pathway [in].
        ridge_in: Required setback at a ridge, on the surface [in].
    """
    areas = [
        _pathway(access.strips_on(plane.id)[0], pathway_in)
        for plane in roof.planes
        if access.strips_on(plane.id) and access.strips_on(plane.id)[0].width_in >= pathway_in
    ]
    for edge in roof.edges:
        if edge.kind is EdgeKind.RIDGE:
            areas += [_setback(edge, roof.plane(name), access, ridge_in) for name in edge.planes]
    return tuple(areas)


def _pathway(strip: ClearStrip, required_in: float) -> AccessArea:
    """The required width at the outer side of a clear strip."""
    box = strip.surface
    u0 = box.x1 - required_in if strip.side == "right" else box.x0
    area = Box(u0, box.y0, u0 + required_in, box.y1)
    middle = box.center[1]
    across = ((area.x0, middle), (area.x1, middle))
    return AccessArea(
        AreaKind.PATHWAY, strip.plane, area.corners, across, required_in, strip.width_in
    )


def _setback(edge: Edge, plane: Plane, access: AccessGeometry, ridge_in: float) -> AccessArea:
    ends = [plane.to_surface(point)[0] for point in edge.plan]
    top = _ridge_height(edge, plane)
    clear = [r.clear_in for r in access.ridges if r.edge == edge.id and r.plane == plane.id]
    available = min(clear, default=top)
    area = Box(min(ends), max(top - ridge_in, 0.0), max(ends), top)
    across = ((area.center[0], top), (area.center[0], area.y0))
    return AccessArea(AreaKind.RIDGE_SETBACK, plane.id, area.corners, across, ridge_in, available)
