"""Which roofs and ridges the access rules for dwellings judge, and by how much."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.catalog.access import EffectiveAccess
from planset.codes.roof_access import required_ridge_setback_in
from planset.design.access.clearances import RidgeClearance
from planset.design.access.geometry import AccessGeometry
from planset.design.layout import PlacedArray
from planset.roof.plane import Plane
from planset.roof.solid import Roof

if TYPE_CHECKING:
    from planset.job.load import Inputs

_NOISE = 1e-9
_SQIN_PER_SQFT = 144
_NOT_HABITABLE = ("detached_garage", "carport", "shade_structure")


@dataclass(frozen=True, slots=True)
class Scope:
    """What the rules judge of one building.

    Attributes:
        building: Its id, "" for the house.
        planes: Planes steeper than the code exempts.
        free: Why the rules do not hold for it, "" when they do.
        free_by: What a local text says so, "" when it is the code.
        unknown: Why planset cannot judge it, "" when it can.
    """

    building: str
    planes: tuple[Plane, ...]
    free: str = ""
    free_by: str = ""
    unknown: str = ""

    @property
    def judged(self) -> bool:
        """Whether anything of it is judged."""
        return not self.free and not self.unknown

    @property
    def name(self) -> str:
        """The building in words."""
        return f"building {self.building}" if self.building else "the house"


def access_scopes(
    inputs: Inputs,
    roof: Roof,
    arrays: tuple[PlacedArray, ...],
    access: AccessGeometry,
    rules: EffectiveAccess,
) -> tuple[Scope, ...]:
    """The buildings that carry arrays, each with what the rules judge of it.

    Args:
        inputs: The job and its jurisdiction.
        roof: The roof.
        arrays: The arrays.
        access: What is measured.
        rules: The rules in force.
    """
    carrying = dict.fromkeys(array.plane.building for array in arrays)
    return tuple(_scope(inputs, roof, access, rules, name) for name in carrying)


def _scope(
    inputs: Inputs, roof: Roof, access: AccessGeometry, rules: EffectiveAccess, name: str
) -> Scope:
    planes = tuple(
        plane for plane in roof.planes_of(name) if plane.pitch > rules.code.exempt_slope + _NOISE
    )
    use = _use(inputs, name)
    if use in _NOT_HABITABLE:
        words = use.replace("_", " ")
        return Scope(name, planes, f"Building {name} is a {words}, not habitable, and exempt")
    if use == "other":
        owner = f"Building {name}" if name else "The building"
        return Scope(name, planes, unknown=f"{owner} is no dwelling")
    off = _off(inputs, access, rules, name)
    if off:
        return Scope(name, planes, off, _off_source(inputs))
    return Scope(name, planes)


def _use(inputs: Inputs, name: str) -> str:
    if not name:
        return str(inputs.job.building.use)
    return next(str(other.use) for other in inputs.job.other_buildings if other.id == name)


def _off_source(inputs: Inputs) -> str:
    given = inputs.jurisdiction.access.rules_off_when
    return given.source if given else ""


def _off(inputs: Inputs, access: AccessGeometry, rules: EffectiveAccess, name: str) -> str:
    """Why a local text frees a dwelling of all access rules, "" when it does not.

    The area is taken on the surface of the roof, the larger reading (interpretation).
    """
    when = rules.rules_off_when
    if when is None:
        return ""
    if when.sprinklered and not name and inputs.job.building.sprinklered:
        return "The dwelling is sprinklered, which frees it of the access rules"
    covered = access.buildings[name]
    area = covered.surface_sqin / _SQIN_PER_SQFT
    small = covered.percent <= when.ratio * (1 + _NOISE) and area <= when.area * (1 + _NOISE)
    ridges = [ridge for ridge in access.ridges if _building_of(access, ridge) == name]
    kept = min((r.clear_in for r in ridges if r.at == "ridge"), default=when.ridge_setback)
    if not small or kept < when.ridge_setback - _NOISE:
        return ""
    return (
        f"The arrays cover {covered.percent:.2f} % of the roof and {area:.0f} sq ft, at most "
        f"{when.ratio:g} % and {when.area:g} sq ft, and keep {when.ridge_setback:g} in at "
        "horizontal ridges, which frees the dwelling of the access rules"
    )


def _building_of(access: AccessGeometry, ridge: RidgeClearance) -> str:
    return access.planes[ridge.plane].building


def ridge_setback_in(
    inputs: Inputs, rules: EffectiveAccess, access: AccessGeometry, plane: Plane
) -> float:
    """Setback at the ridges of a plane, by what is covered of the roof or of the plane [in]."""
    sprinklered = inputs.job.building.sprinklered and not plane.building
    percent = ratio_percent(rules, access, plane)
    return required_ridge_setback_in(rules.code, min(percent, 100.0), sprinklered)


def ratio_percent(rules: EffectiveAccess, access: AccessGeometry, plane: Plane) -> float:
    """What the arrays cover of what the jurisdiction holds them against, in plan [%]."""
    if rules.readings.ratio_base == "plane":
        own = access.planes.get(plane.id)
        return own.percent if own else 0.0
    return access.buildings[plane.building].percent


def binding_ridges(access: AccessGeometry, rules: EffectiveAccess) -> tuple[RidgeClearance, ...]:
    """The ridge clearances that a setback may be asked for, by the readings of the jurisdiction.

    A high edge is among them unless the jurisdiction calls it an edge; whether a ridge binds
    where a plane meets it in one point is the code's matter.
    """
    readings = rules.readings

    def binds(ridge: RidgeClearance) -> bool:
        if ridge.at == "high edge":
            return readings.shed_high_edge != "edge"
        if ridge.at == "point" and not rules.code.ridge_at_a_point:
            return False
        return readings.ridges == "all" or ridge.highest

    return tuple(filter(binds, access.ridges))
