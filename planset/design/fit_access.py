"""What fitted arrays leave free for fire access, and whether what they leave will do."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.catalog.access import (
    EffectiveAccess,
    effective_access,
    effective_other_access,
    has_dwelling_access,
)
from planset.codes.other_roof_access import other_editions, perimeter_in
from planset.design.access.geometry import (
    AccessGeometry,
    measured_access,
    uncounted_overhang_in,
)
from planset.design.access.keep_free import keep_free, pathway_choices
from planset.design.access.other.geometry import parapet_in
from planset.design.access.other.perimeter import INNER_EDGES, axes_in, inner_line, moved
from planset.design.access.pathways import on_separate_planes, serving
from planset.design.access.pathways_needed import street_pathways
from planset.design.access.scope import Scope, access_scopes, ridge_setback_in
from planset.design.layout import PlacedArray, PlacedObstruction, existing_arrays
from planset.drawing.geometry import Point, offset_left
from planset.roof.plane import Plane, Ring
from planset.roof.solid import Roof

if TYPE_CHECKING:
    from planset.job.load import Inputs

_AROUND = ("roof_hatch", "standpipe", "smoke_vent")  # a path leads around or to each


@dataclass(frozen=True, slots=True)
class FitAccess:
    """The access rules as the fitter asks for them.

    Attributes:
        inputs: The job and its jurisdiction.
        roof: The roof.
        obstructions: The obstructions of the job.
        tolerance_in: Added to every width, so that nothing comes out tight [in].
    """

    inputs: Inputs
    roof: Roof
    obstructions: tuple[PlacedObstruction, ...]
    tolerance_in: float

    @property
    def rules(self) -> EffectiveAccess | None:
        """The rules for dwellings, None where they do not hold or are not entered."""
        if self.inputs.job.building.use == "other" or not has_dwelling_access(
            self.inputs.jurisdiction
        ):
            return None
        return effective_access(self.inputs.jurisdiction)

    def choices(self, plane: Plane, ridge_in: float) -> list[tuple[Ring, ...]]:
        """What may be kept free of a plane: all of one entry, whichever [in].

        Args:
            plane: The plane.
            ridge_in: Setback at its ridges [in].
        """
        if self.inputs.job.building.use == "other":
            return [self._of_other_buildings(plane)]
        if self.rules is None or not self._is_dwelling(plane):
            return [()]
        carrying = frozenset(
            (
                *(given.plane for given in self.inputs.job.arrays),
                *(item.plane.id for item in existing_arrays(self.obstructions)),
            )
        )
        always = keep_free(
            self.inputs,
            self.roof,
            plane,
            ridge_in=ridge_in,
            carrying=carrying,
            tolerance_in=self.tolerance_in,
        )
        choices = pathway_choices(
            self.inputs,
            self.roof,
            plane,
            self.obstructions,
            rake_overhang_in=uncounted_overhang_in(self.inputs, plane.building),
            tolerance_in=self.tolerance_in,
        )
        return [(*always, *choice.areas) for choice in choices]

    def ridge_setbacks(self, arrays: tuple[PlacedArray, ...]) -> frozenset[tuple[str, float]]:
        """By building, the setback at its ridges that these arrays require [in]."""
        rules = self.rules
        if rules is None or not arrays:
            return frozenset()
        access = self._measured(arrays)
        return frozenset(
            (array.plane.id, ridge_setback_in(self.inputs, rules, access, array.plane))
            for array in arrays
        )

    def pathways_serve(self, arrays: tuple[PlacedArray, ...]) -> bool:
        """Whether every plane of these arrays has its pathway, and the building those it needs.

        An existing array takes its pathway with them; that it has none is not theirs to mend.
        """
        rules = self.rules
        if rules is None or rules.three_sides or not rules.code.pathways_on_building:
            return True
        access = self._measured(arrays)
        scopes = access_scopes(self.inputs, self.roof, arrays, access, rules)
        return all(self._serve(scope, access, arrays, rules) for scope in scopes if scope.judged)

    def _serve(
        self,
        scope: Scope,
        access: AccessGeometry,
        arrays: tuple[PlacedArray, ...],
        rules: EffectiveAccess,
    ) -> bool:
        named = {plane.id for plane in scope.planes}
        added = {array.plane.id for array in arrays} & named
        existing = {item.plane.id for item in existing_arrays(self.obstructions)} & named
        carrying = sorted(added | existing)
        least = rules.code.pathway_width_in + self.tolerance_in
        served = serving(self.roof, access, scope.planes, carrying, rules)
        good = {n for n, p in served.items() if p.width_in >= least and not p.unfinished}
        each = on_separate_planes(access, scope.planes, rules.code.pathway_width_in)
        wide = [name for name, p in each.items() if p.width_in >= least and not p.unfinished]
        if not added <= good or len(wide) < rules.code.pathways_on_building:
            return False
        toward = street_pathways(self.inputs, self.roof, access, scope.planes, rules)
        facing = any(p.width_in >= least and not p.unfinished for p in toward)
        return facing or not rules.code.street_side

    def _measured(self, arrays: tuple[PlacedArray, ...]) -> AccessGeometry:
        return measured_access(self.inputs, self.roof, arrays, self.obstructions)

    def _is_dwelling(self, plane: Plane) -> bool:
        others = {other.id: other.use for other in self.inputs.job.other_buildings}
        return others.get(plane.building, "dwelling") == "dwelling"

    def _of_other_buildings(self, plane: Plane) -> tuple[Ring, ...]:
        """The perimeter, and the clearance around what firefighters must reach."""
        if self.inputs.jurisdiction.codes.fire.code_edition not in other_editions():
            return ()
        rules = effective_other_access(self.inputs.jurisdiction)
        width = perimeter_in(rules, *axes_in(self.roof, plane)) + self.tolerance_in
        parapet = parapet_in(self.inputs, plane)
        strips = [
            _strip(inner_line(plane, edge, parapet), parapet, width)
            for edge in self.roof.edges_of(plane.id)
            if edge.kind not in INNER_EDGES
        ]
        reach = rules.hatch_clear_in + self.tolerance_in
        around = [
            item.surface.grown(reach).corners
            for item in self.obstructions
            if item.plane.id == plane.id and item.kind in _AROUND
        ]
        return (*strips, *around)


def _strip(line: tuple[Point, Point], outward_in: float, inward_in: float) -> Ring:
    """The ground on both sides of a line with the roof to its left."""
    a, b = line
    out, into = offset_left(a, b, -outward_in - 1.0), offset_left(a, b, inward_in)
    return (moved(a, out), moved(b, out), moved(b, into), moved(a, into))
