"""Wind on one module of an array whose mounting is by others, zone by zone, for its engineer."""

from __future__ import annotations

from dataclasses import dataclass

from planset.design.layout import PlacedArray
from planset.design.wind import BuildingWind

_SQIN_PER_SQFT = 144.0


@dataclass(frozen=True, slots=True)
class ModulePressure:
    """Pressure of one zone on the area of one module, without any factor for panels.

    Attributes:
        figure: Number of the figure of the zone.
        zone: The zone.
        area_sqft: Area of one module [sq ft].
        gcp_up: GCp away from the roof, negative (no unit).
        gcp_down: GCp toward it (no unit).
        up_psf: qh Kd GCp away from the roof, negative [psf].
        down_psf: The same toward it [psf].
    """

    figure: str
    zone: str
    area_sqft: float
    gcp_up: float
    gcp_down: float
    up_psf: float
    down_psf: float


def module_pressures(building: BuildingWind, array: PlacedArray) -> tuple[ModulePressure, ...]:
    """External pressure coefficients and pressures of every zone of an array's plane, ASCE 7 30.3.

    Edge factor, equalization, tilt and internal pressure are left to the mounting's engineer.

    Args:
        building: Wind on the array's building.
        array: The array.
    """
    area = array.product.width * array.product.height / _SQIN_PER_SQFT
    pressure = building.velocity.design_psf
    found = []
    for plan in building.planes[array.plane.id].plans:
        down = plan.figure.gcp_downward(area)
        for zone in dict.fromkeys(region.zone for region in plan.regions):
            up = plan.figure.gcp_uplift(zone, area)
            found.append(
                ModulePressure(
                    plan.figure.number, zone, area, up, down, pressure * up, pressure * down
                )
            )
    return tuple(sorted(found, key=lambda one: (one.figure, one.zone)))
