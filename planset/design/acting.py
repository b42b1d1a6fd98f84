"""What wind and snow bring to the planes of a job, before any part is placed on them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from planset.design.layout import PlacedArray
from planset.design.snow import PlaneSnow, plane_snow
from planset.design.wind import BuildingWind, building_wind, standard_of
from planset.roof.plane import Plane
from planset.roof.solid import Roof

if TYPE_CHECKING:
    from planset.codes.asce7.standard import Standard
    from planset.job.load import Inputs


@dataclass(frozen=True, slots=True)
class Acting:
    """Wind and snow on the planes under the arrays of a job.

    Attributes:
        standard: The edition of ASCE 7 in force, None where it is not one of ours.
        adopted: The edition as the jurisdiction adopts it.
        buildings: Wind on every building under an array, by id; "" is the house.
        no_wind: Why there is none, by the id of the building or plane concerned.
        snow: Snow by plane; without an entry there is none.
    """

    standard: Standard | None
    adopted: str
    buildings: Mapping[str, BuildingWind] = field(default_factory=dict)
    no_wind: Mapping[str, str] = field(default_factory=dict)
    snow: Mapping[str, PlaneSnow] = field(default_factory=dict)

    def reason(self, planes: Iterable[Plane]) -> str:
        """Why nothing is computed on one of these planes, "" when it is on all."""
        if self.standard is None:
            return f"loads of {self.adopted} are not computed yet"
        told = (self.no_wind.get(plane.building) or self.no_wind.get(plane.id) for plane in planes)
        return next((reason for reason in told if reason), "")


def acting_on(inputs: Inputs, roof: Roof, arrays: tuple[PlacedArray, ...]) -> Acting:
    """Wind and snow on the planes under the arrays of a job.

    Args:
        inputs: The job.
        roof: All its roofs.
        arrays: All arrays.
    """
    standard = standard_of(inputs)
    adopted = str(inputs.jurisdiction.codes.loads.code_edition)
    if standard is None:
        return Acting(None, adopted)
    buildings, no_wind = _winds(inputs, standard, roof, arrays)
    return Acting(standard, adopted, buildings, no_wind, _snow(inputs, standard, arrays))


def _winds(
    inputs: Inputs, standard: Standard, roof: Roof, arrays: tuple[PlacedArray, ...]
) -> tuple[dict[str, BuildingWind], dict[str, str]]:
    """Wind on the buildings under arrays, and why there is none on a building or plane."""
    winds: dict[str, BuildingWind] = {}
    reasons: dict[str, str] = {}
    for building in dict.fromkeys(array.plane.building for array in arrays):
        found = building_wind(inputs, standard, roof, building)
        if isinstance(found, str):
            reasons[building] = found
        else:
            winds[building] = found
    for array in arrays:
        wind = winds.get(array.plane.building)
        if wind and wind.planes[array.plane.id].reason:
            reasons[array.plane.id] = wind.planes[array.plane.id].reason
    return winds, reasons


def _snow(
    inputs: Inputs, standard: Standard, arrays: tuple[PlacedArray, ...]
) -> dict[str, PlaneSnow]:
    planes = {array.plane.id: array.plane for array in arrays}
    covers = ((name, plane_snow(inputs, standard, plane)) for name, plane in planes.items())
    return {name: cover for name, cover in covers if cover is not None}
