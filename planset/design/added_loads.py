"""What the arrays add to a building: gravity load by plane, and mass for earthquakes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.codes.ibc.panel_live_load import live_load_omitted
from planset.codes.ibc.roof_live_load import ROOF_LIVE_PSF
from planset.codes.iebc.gravity import GravityLoads, Increase, load_increase
from planset.design.layout import PlacedArray
from planset.design.snow import PlaneSnow
from planset.roof.solid import Roof

if TYPE_CHECKING:
    from planset.job.framing import Framing

_SQIN_PER_SQFT = 144.0


@dataclass(frozen=True, slots=True)
class AddedGravity:
    """Gravity load under the arrays of one plane, on the horizontal projection.

    Attributes:
        plane: Id of the plane.
        clear_space_in: Between the roof and the underside of the modules [in].
        live_omitted: Whether the roof live load goes where the modules are.
        existing: Loads without the arrays [psf].
        altered: Loads with them [psf].
        increase: How much the kind of load grows that grows most, as the text has it.
    """

    plane: str
    clear_space_in: float
    live_omitted: bool
    existing: GravityLoads
    altered: GravityLoads
    increase: Increase


@dataclass(frozen=True, slots=True)
class AddedMass:
    """Mass that the arrays add to one building.

    Attributes:
        building: Its id, "" for the house.
        arrays_lb: Weight of the arrays [lb].
        roof_lb: Weight of its roof alone; walls and floors, which share the earthquake, are not
            counted, so that the share comes out too large [lb].
    """

    building: str
    arrays_lb: float
    roof_lb: float

    @property
    def share(self) -> float:
        """Weight added over the weight there is, unitless."""
        return self.arrays_lb / self.roof_lb


def added_gravity(
    framing: Framing,
    arrays: tuple[PlacedArray, ...],
    clear_spaces_in: Mapping[str, float],
    snow: Mapping[str, PlaneSnow],
) -> tuple[AddedGravity, ...]:
    """Gravity loads of every plane with a mounted array, IEBC 503.3 and IBC 1607.14.4.

    Args:
        framing: The framing with the dead load of the roof.
        arrays: The mounted arrays.
        clear_spaces_in: Space under the modules, by array [in].
        snow: Snow by plane.
    """
    found = []
    for name in dict.fromkeys(array.plane.id for array in arrays):
        own = [array for array in arrays if array.plane.id == name]
        slope = own[0].plane.slope_factor
        clear = max(clear_spaces_in[array.id] for array in own)
        omitted = live_load_omitted(clear)
        cover = snow.get(name)
        dead = framing.roof_dead_load * slope
        panels = max(array.system.dead_load_psf for array in own) * slope
        before = GravityLoads(dead, ROOF_LIVE_PSF, cover.on_roof_psf if cover else 0.0)
        after = GravityLoads(
            dead + panels,
            0.0 if omitted else ROOF_LIVE_PSF,
            max(cover.on_roof_psf, cover.on_panels_psf) if cover else 0.0,
        )
        increase = load_increase(before, after, "each")
        found.append(AddedGravity(name, clear, omitted, before, after, increase))
    return tuple(found)


def added_mass(
    framing: Framing, roof: Roof, arrays: tuple[PlacedArray, ...]
) -> tuple[AddedMass, ...]:
    """Mass on every building with a mounted array, IEBC 503.4."""
    found = []
    for building in dict.fromkeys(array.plane.building for array in arrays):
        added = sum(
            array.system.dead_load_psf * array.surface_area_sqin / _SQIN_PER_SQFT
            for array in arrays
            if array.plane.building == building
        )
        slopes = sum(plane.surface_area_sqin for plane in roof.planes_of(building))
        weight = framing.roof_dead_load * slopes / _SQIN_PER_SQFT
        found.append(AddedMass(building, added, weight))
    return tuple(found)
