"""Extents of the arrays: as the job states them, or as many modules as fit.

An array that is to be fitted keeps out of what the access rules keep free, of obstructions and of
the arrays before it. How much must stay free can depend on how much of the roof the arrays cover,
so modules are packed again until nothing changes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from shapely import Point as Place
from shapely import Polygon, box
from shapely.geometry.base import BaseGeometry

from planset.design.extent import Extent, stated_extent, stated_extents
from planset.design.layout import PlacedArray, PlacedObstruction, module_size, place_array
from planset.drawing.geometry import Point
from planset.errors import JobErrors, Problem
from planset.roof.plane import Plane, Ring

if TYPE_CHECKING:
    from planset.design.fit_access import FitAccess
    from planset.design.packing import Packing
    from planset.job.arrays import Array
    from planset.job.load import Inputs
    from planset.roof.solid import Roof

MARGIN_IN = 1.0
"""Fitted arrays keep the build tolerance, so that no clearance comes out tight."""

Required = frozenset[tuple[str, float]]
"""By plane with an array what depends on how much is covered: the setback at its ridges [in]."""


@dataclass(frozen=True, slots=True)
class ArrayFit:
    """How an array was fitted.

    Attributes:
        array: Id of the array.
        count: Modules it holds.
        bound: More than it could not hold on any grid, None where not known.
        described: Place, rows and proof, in words.
    """

    array: str
    count: int
    bound: int | None
    described: str


@dataclass(frozen=True, slots=True)
class Extents:
    """Extents of all arrays in the order of the job, and how those without one were found."""

    extents: tuple[Extent, ...]
    fits: tuple[ArrayFit, ...]

    @property
    def count(self) -> int:
        """Modules of all arrays."""
        return sum(len(extent.cells) for extent in self.extents)


def find_extents(
    inputs: Inputs, roof: Roof, obstructions: tuple[PlacedObstruction, ...]
) -> Extents:
    """The extent of every array.

    Args:
        inputs: The job and the catalog entries it names.
        roof: The roof.
        obstructions: What stands on it.

    Raises:
        JobErrors: On a plane not one module fits.
    """
    if not any(given.as_many_as_fit for given in inputs.job.arrays):
        return Extents(stated_extents(inputs.job.arrays), ())

    from planset.design.fit_access import FitAccess  # noqa: PLC0415 - few jobs need it
    from planset.design.packing import pack_until_stable  # noqa: PLC0415 - few jobs need it

    access = FitAccess(inputs, roof, obstructions, MARGIN_IN)
    fitter = _Fitter(inputs, roof, obstructions, access)
    settled = pack_until_stable(
        lambda found: access.ridge_setbacks(fitter.placed(found.extents)), fitter.fit
    )
    return settled.packing


@dataclass(frozen=True, slots=True)
class _Fitter:
    """Packs every array that is to be fitted, in the order of the job."""

    inputs: Inputs
    roof: Roof
    obstructions: tuple[PlacedObstruction, ...]
    access: FitAccess

    def placed(self, extents: tuple[Extent, ...]) -> tuple[PlacedArray, ...]:
        """The arrays where these extents put them."""
        pairs = zip(self.inputs.job.arrays, extents, strict=True)
        return tuple(
            place_array(self.inputs, given, self.roof.plane(given.plane), extent)
            for given, extent in pairs
        )

    def fit(self, required: Required) -> Extents:
        """All extents, with so much kept free."""
        arrays = self.inputs.job.arrays
        found = {given.id: extent for given in arrays if (extent := stated_extent(given))}
        placed = {
            given.id: place_array(self.inputs, given, self.roof.plane(given.plane), found[given.id])
            for given in arrays
            if given.id in found
        }
        fits: list[ArrayFit] = []
        for number, given in enumerate(arrays):
            if given.id in found:
                continue
            plane = self.roof.plane(given.plane)
            packing = self._packed(given, plane, required, tuple(placed.values()))
            if packing is None:
                raise JobErrors([self._nothing_fits(number)])
            found[given.id] = _extent_of(packing)
            placed[given.id] = place_array(self.inputs, given, plane, found[given.id])
            fits.append(_fit_of(given, packing))
        return Extents(tuple(found[given.id] for given in arrays), tuple(fits))

    def _packed(
        self, given: Array, plane: Plane, required: Required, beside: tuple[PlacedArray, ...]
    ) -> Packing | None:
        """The fullest packing, over all choices of what stays free, that leaves pathways enough."""
        from planset.design.packing import pack  # noqa: PLC0415 - few jobs need it

        always = [*self._standing(plane), *_neighbors(plane, given, beside), *_holes(plane)]
        outline = _inside(plane)
        size = module_size(given, self.inputs.modules[given.module])
        system = self.inputs.mountings[given.mounting.system] if given.mounting else None
        past = system.rail.past_module if system else 0.0
        ridge = max((width for name, width in required if name == plane.id), default=0.0)
        packings = [
            pack(outline, [*always, *free], size, (given.gap, given.up_gap), past, given.most)
            for free in self.access.choices(plane, ridge)
        ]
        packings.sort(key=lambda packing: (-packing.count, len(packing.omitted)))
        full = [packing for packing in packings if packing.count > 0]
        for packing in full:
            placed = place_array(self.inputs, given, plane, _extent_of(packing))
            if self.access.pathways_serve((*beside, placed)):
                return packing
        return full[0] if full else None  # the rules then say which pathway is missing

    def _standing(self, plane: Plane) -> list[Ring]:
        return [_ring(_grown(item)) for item in self.obstructions if item.plane.id == plane.id]

    def _nothing_fits(self, number: int) -> Problem:
        given = self.inputs.job.arrays[number]
        return self.inputs.document.problem(
            ("arrays", number, "as_many_as_fit"),
            f"not one module fits on plane {given.plane} beside what must stay free",
            "choose another plane, module or orientation, or take the array out",
        )


def _extent_of(packing: Packing) -> Extent:
    return Extent(packing.corner, packing.rows, packing.columns, frozenset(packing.omitted))


def _fit_of(given: Array, packing: Packing) -> ArrayFit:
    u, v = packing.corner
    left_out = f" without {len(packing.omitted)}" if packing.omitted else ""
    place = f"{packing.rows} rows of {packing.columns}{left_out}, corner at {u:g} in and {v:g} in"
    bound = "" if packing.bound is None else f"; no grid holds more than {packing.bound}"
    return ArrayFit(given.id, packing.count, packing.bound, f"{place}{bound}. {packing.proof}")


def _grown(item: PlacedObstruction) -> BaseGeometry:
    """What an obstruction keeps free of modules, with the build tolerance."""
    reach = item.clearance_in + MARGIN_IN
    if item.round:
        # of a polygon about the circle, the sides lie at the radius and the corners beyond it
        return Place(item.surface.center).buffer(
            (item.surface.width / 2 + reach) / _COSINE_OF_HALF_SIDE, quad_segs=_QUARTER
        )
    area = item.surface
    return box(area.x0, area.y0, area.x1, area.y1).buffer(reach, join_style="mitre")


_QUARTER = 6  # sides to a quarter of a round obstruction
_COSINE_OF_HALF_SIDE = 0.9914448613738104  # of 90 / 6 / 2 degrees


def _neighbors(plane: Plane, given: Array, beside: tuple[PlacedArray, ...]) -> list[Ring]:
    """Arrays on the same plane, with the build tolerance."""
    return [
        _ring(part.buffer(MARGIN_IN, join_style="mitre"))
        for array in beside
        if array.plane.id == plane.id and array.id != given.id
        for part in _parts(array.occupied)
    ]


def _holes(plane: Plane) -> list[Ring]:
    """What dormers take out of a plane, with the build tolerance."""
    return [
        _ring(part)
        for hole in plane.surface_polygon.interiors
        for part in _parts(_area(hole.coords).buffer(MARGIN_IN, join_style="mitre"))
    ]


def _inside(plane: Plane) -> Ring:
    """The outline of a plane less the build tolerance; of several pieces the largest."""
    whole = _area(plane.surface_outline).buffer(-MARGIN_IN, join_style="mitre")
    parts = _parts(whole) or [_area(plane.surface_outline)]
    return _ring(max(parts, key=lambda part: part.area))


def _area(corners: Sequence[Point]) -> Polygon:
    return Polygon(corners)


def _parts(area: BaseGeometry) -> list[BaseGeometry]:
    return [part for part in getattr(area, "geoms", [area]) if part.area > 0]


def _ring(area: BaseGeometry) -> Ring:
    return tuple((x, y) for x, y in area.exterior.coords[:-1])
