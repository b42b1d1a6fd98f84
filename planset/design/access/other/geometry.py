"""What the fire service finds on the roof of a building other than a dwelling.

Every plane with an array is measured in its own frame, (u, v); a flat roof is one plane. What is
enough is decided by the rules; the numbers of the adopted edition only tell what to look for.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.catalog.access import Readings, effective_other_access, readings
from planset.codes.other_roof_access import OtherAccess, other_editions, perimeter_in
from planset.design.access.area import AccessArea
from planset.design.access.other.areas import access_areas
from planset.design.access.other.lanes import Axis, Lane, free_within, part, spans, walkable_in
from planset.design.access.other.paths import HatchAccess, StraightPath, hatch_access, straight_path
from planset.design.access.other.perimeter import EdgeClearance, axes_in, edge_clearances, inside_of
from planset.design.access.other.smoke import SmokeRelief, Surroundings, relief
from planset.design.layout import PlacedArray, PlacedObstruction, existing_arrays
from planset.drawing.geometry import Box, united
from planset.job.roof import FlatRoof
from planset.roof.plane import Plane
from planset.roof.solid import Roof

if TYPE_CHECKING:
    from shapely import Polygon

    from planset.job.load import Inputs

_NOISE = 1e-6
_REACHED = ("standpipe", "smoke_vent")


@dataclass(frozen=True, slots=True)
class CenterLine:
    """What is clear on a center line of the roof.

    Attributes:
        axis: Where it runs.
        clear_in: Width of the widest straight way within the lane on it; 0 where modules lie on
            the line [in].
    """

    axis: Axis
    clear_in: float


@dataclass(frozen=True)
class PlaneAccess:
    """What is found on one plane with arrays.

    Attributes:
        plane: The plane.
        inside: The plane within its parapets, (u, v) [in].
        axes_in: The two axes of the roof over the building [in].
        perimeter_in: Required width of the perimeter [in].
        edges: What is clear along each edge.
        sections: Box around each group of modules that no pathway parts, (u, v) [in].
        lanes: The lanes that part them, and how each provides for smoke ventilation; empty too
            where the edition's rules for sections were never seen.
        unmet: Lanes that meet no option of smoke ventilation though a section would be too long
            without them.
        frames: Modules with the rails past them, and existing arrays, (u, v) [in].
        standing: What else closes a way, (u, v) [in].
        center_lines: The two center lines, along and up.
        modules_around: Box around all modules, (u, v) [in].
        hatches: Room around every roof hatch.
        paths: Ways to standpipes and ventilation hatches.
        skylight_paths: Ways to skylights.
    """

    plane: Plane
    inside: Polygon
    axes_in: tuple[float, float]
    perimeter_in: float
    edges: tuple[EdgeClearance, ...]
    sections: tuple[Box, ...]
    lanes: tuple[SmokeRelief, ...]
    unmet: frozenset[Lane]
    frames: tuple[Box, ...]
    standing: tuple[Box, ...]
    center_lines: tuple[CenterLine, ...]
    modules_around: Box
    hatches: tuple[HatchAccess, ...]
    paths: tuple[StraightPath, ...]
    skylight_paths: tuple[StraightPath, ...]

    def center_lines_asked_for(self, rules: OtherAccess, read: Readings) -> bool:
        """Tell whether pathways on the center lines are asked for, by edition and reading."""
        if not rules.centerline_pathway_in:
            return False
        around = self.modules_around
        large = max(around.width, around.height) > rules.greatest_section_in + _NOISE
        return large or read.centerline_pathways == "always"


@dataclass(frozen=True)
class OtherRoofAccess:
    """What fire access to a building other than a dwelling is judged by.

    Attributes:
        rules: The adopted edition's numbers.
        readings: How the jurisdiction reads them.
        planes: What is found on every plane with arrays.
        areas: What is to be kept free there.
    """

    rules: OtherAccess
    readings: Readings
    planes: tuple[PlaneAccess, ...]
    areas: tuple[AccessArea, ...]


def other_roof_access(
    inputs: Inputs,
    roof: Roof,
    arrays: tuple[PlacedArray, ...],
    obstructions: tuple[PlacedObstruction, ...],
) -> OtherRoofAccess | None:
    """Measure the roof of a building other than a dwelling.

    Returns:
        None for a dwelling, and where the adopted edition is not entered.
    """
    adopted = inputs.jurisdiction.codes.fire.code_edition
    if inputs.job.building.use != "other" or adopted not in other_editions():
        return None
    rules, read = effective_other_access(inputs.jurisdiction), readings(inputs.jurisdiction)
    planes = []
    for plane in roof.planes:
        on_it = tuple(array for array in arrays if array.plane.id == plane.id)
        standing = tuple(
            item for item in obstructions if item.plane.id == plane.id and not item.minor
        )
        if on_it:
            parapet = parapet_in(inputs, plane)
            planes.append(_plane_access(rules, read, roof, plane, parapet, on_it, standing))
    areas = tuple(area for plane in planes for area in access_areas(rules, read, plane))
    return OtherRoofAccess(rules, read, tuple(planes), areas)


def parapet_in(inputs: Inputs, plane: Plane) -> float:
    """Thickness of the parapet around a plane, 0 without one [in]."""
    roof = inputs.job.roof_over(plane.building)
    if not isinstance(roof, FlatRoof) or roof.parapet is None:
        return 0.0
    return roof.parapet.thickness


def _plane_access(
    rules: OtherAccess,
    read: Readings,
    roof: Roof,
    plane: Plane,
    parapet: float,
    arrays: tuple[PlacedArray, ...],
    standing: tuple[PlacedObstruction, ...],
) -> PlaneAccess:
    axes = axes_in(roof, plane)
    required = perimeter_in(rules, *axes)
    inside = inside_of(roof, plane, parapet)
    within = Box(*inside.bounds)
    existing = tuple(item.surface for item in existing_arrays(standing))
    others = tuple(item for item in standing if not item.is_array)
    around = Surroundings((*_frames(arrays), *existing), others)
    sections, lanes, unmet = _parted(rules, read, around, within.grown(-required))
    window = rules.hatch_clear_in
    straight = rules.straight_pathway_in
    blocked = {
        item.id: (*around.frames, *(other.surface for other in others if other is not item))
        for item in others
    }
    return PlaneAccess(
        plane=plane,
        inside=inside,
        axes_in=axes,
        perimeter_in=required,
        edges=edge_clearances(roof, plane, parapet, required, arrays, standing),
        sections=sections,
        lanes=lanes,
        unmet=unmet,
        frames=around.frames,
        standing=around.boxes,
        center_lines=(
            _center_line("along", within, around),
            _center_line("up", within, around),
        ),
        modules_around=united(around.frames),
        hatches=tuple(
            hatch_access(item, within, blocked[item.id], window, arrays)
            for item in others
            if item.kind == "roof_hatch"
        ),
        paths=tuple(
            straight_path(item, within, blocked[item.id], straight)
            for item in others
            if item.kind in _REACHED
        ),
        skylight_paths=tuple(
            straight_path(item, within, blocked[item.id], rules.skylight_pathway_in)
            for item in others
            if item.kind == "skylight"
        ),
    )


def _frames(arrays: tuple[PlacedArray, ...]) -> tuple[Box, ...]:
    """Modules with the rails past them, (u, v) [in]."""
    return tuple(
        Box(at.x0, at.y0 - array.past_in, at.x1, at.y1 + array.past_in)
        for array in arrays
        for at in (module.surface for module in array.modules)
    )


def _parted(
    rules: OtherAccess, read: Readings, around: Surroundings, region: Box
) -> tuple[tuple[Box, ...], tuple[SmokeRelief, ...], frozenset[Lane]]:
    """The sections between pathways, the pathways, and those that lack smoke ventilation."""
    smoke = rules.smoke
    if smoke is None:
        return (united(around.frames),), (), frozenset()
    allowed = read.smoke_ventilation

    def walked(lane: Lane) -> bool:
        least = rules.straight_pathway_in - _NOISE
        return lane.width_in >= least and walkable_in(lane, around.boxes) >= least

    def vented(lane: Lane) -> bool:
        return walked(lane) and relief(lane, around, smoke, allowed).option is not None

    parting = part(around.frames, region, walked)
    lanes = tuple(relief(lane, around, smoke, allowed) for lane in parting.lanes)
    greatest = rules.greatest_section_in + _NOISE
    vented_sections = part(around.frames, region, vented).sections
    long = [box for box in vented_sections if max(box.width, box.height) > greatest]
    unmet = frozenset(
        item.lane
        for item in lanes
        if item.option is None and any(box.overlaps(item.lane.box) for box in long)
    )
    return parting.sections, lanes, unmet


def _center_line(axis: Axis, within: Box, around: Surroundings) -> CenterLine:
    """The lane on a center line, bounded by modules or the roof edge."""
    middle_u, middle_v = within.center
    if axis == "along":
        whole, middle = (within.y0, within.y1), middle_v
    else:
        whole, middle = (within.x0, within.x1), middle_u
    for a, b in free_within(whole, spans(around.frames, axis)):
        if a <= middle <= b:
            box = (
                Box(within.x0, a, within.x1, b)
                if axis == "along"
                else Box(a, within.y0, b, within.y1)
            )
            return CenterLine(axis, walkable_in(Lane(axis, box), around.boxes))
    return CenterLine(axis, 0.0)
