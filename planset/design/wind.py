"""Wind on the roof: site pressure, zones of each plane, limits of the panel method."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.codes.asce7 import solar_panels
from planset.codes.asce7.standard import Standard, load_standard
from planset.codes.asce7.wind import VelocityPressure, edge_strip_ft
from planset.design.layout import PlacedArray
from planset.drawing.geometry import Box
from planset.roof.plane import Plane
from planset.roof.solid import EdgeKind, Roof

if TYPE_CHECKING:
    from planset.job.load import Inputs

SUPPORTED_EDITIONS = (2016,)
_GABLE_PLANES = ("front", "back")
_HIGHEST_FT = 60.0  # mean roof height the figures hold for (ASCE 7-16, 30.3 [from memory])
_SLOPE_FIGURES_DEG = (7.0, 45.0)
_EAVE_HEIGHT_UP_TO_DEG = 10.0  # flatter roofs take the eave height as h (ASCE 7-16, 26.2)


@dataclass(frozen=True, slots=True)
class SiteWind:
    """What the site and the building make of the wind.

    Attributes:
        standard: The edition of ASCE 7 it is computed by.
        velocity: Velocity pressure at the mean roof height.
        strip_in: Width a of the edge zones, in plan [in].
    """

    standard: Standard
    velocity: VelocityPressure
    strip_in: float

    @property
    def mean_roof_height_ft(self) -> float:
        """Mean roof height h [ft]."""
        return self.velocity.height_ft

    @property
    def kz(self) -> float:
        """Exposure coefficient, unitless."""
        return self.velocity.kz

    @property
    def ke(self) -> float:
        """Ground elevation factor, unitless."""
        return self.velocity.ke

    @property
    def qh_psf(self) -> float:
        """Velocity pressure at h as the edition prints it [psf]."""
        return self.velocity.q_psf


@dataclass(frozen=True, slots=True)
class ZoneRegion:
    """A wind zone of one plane.

    Attributes:
        zone: Zone name of the figure, e.g. "2r".
        surface: Its extent on the plane, (u, v) [in].
    """

    zone: str
    surface: Box


@dataclass(frozen=True, slots=True)
class MethodCheck:
    """Whether the method for panels parallel to the roof holds for an array.

    Attributes:
        array: Id of the array.
        clearance_in: Least distance of the modules from an edge or ridge, on the surface [in].
        unmet: The limits that do not hold; empty when all do.
    """

    array: str
    clearance_in: float
    unmet: tuple[str, ...]

    @property
    def holds(self) -> bool:
        """Whether the pressure equalization factor may be used."""
        return not self.unmet


def reason_not_computed(inputs: Inputs, roof: Roof) -> str:
    """Why wind loads can't be computed for this job, "" when they can."""
    loads = inputs.jurisdiction.codes.loads
    if loads.code != "ASCE 7" or loads.edition not in SUPPORTED_EDITIONS:
        return f"wind loads of {loads.code} edition {loads.edition} are not computed yet"
    planes = tuple(plane.id for plane in roof.planes)
    if inputs.job.roof.shape != "gable" or planes != _GABLE_PLANES:
        return "wind zones are computed for a plain gable roof only so far"
    low, high = _SLOPE_FIGURES_DEG
    for plane in roof.planes:
        if not low < plane.slope_deg <= high:
            return f"plane {plane.id} slopes {plane.slope_deg:.1f} deg, outside the gable figures"
    height_ft = _mean_roof_height_in(inputs, roof) / 12
    if height_ft > _HIGHEST_FT:
        over = f"over the {_HIGHEST_FT:g} ft of the gable figures"
        return f"the mean roof height is {height_ft:.1f} ft, {over}"
    return ""


def site_wind(inputs: Inputs, roof: Roof) -> SiteWind:
    """Velocity pressure and edge strip of the site, ASCE 7 chapter 26 and Figure 30.3-2."""
    standard = load_standard(inputs.jurisdiction.codes.loads.edition)
    site = inputs.job.site
    least_ft = _least_dimension_in(roof) / 12
    height_ft = _mean_roof_height_in(inputs, roof) / 12
    velocity = standard.velocity_pressure(
        height_ft, site.exposure, site.topographic_factor, site.elevation / 12, site.wind_speed
    )
    return SiteWind(standard, velocity, edge_strip_ft(least_ft, height_ft) * 12)


def gable_zones(plane: Plane, strip_in: float) -> tuple[ZoneRegion, ...]:
    """Zones of a rectangular gable plane, ASCE 7-16 Figures 30.3-2B to 2D.

    Args:
        plane: A plane between one eave, one ridge and two rakes.
        strip_in: Width a of the strips in plan [in]; up the slope it grows by the slope factor.
    """
    corners = plane.surface_outline
    length, ridge = max(u for u, _ in corners), max(v for _, v in corners)
    a = min(strip_in, length / 2)
    up = min(strip_in * plane.slope_factor, ridge / 2)
    left, right = (0.0, a), (length - a, length)
    middle = (a, length - a)
    low, mid, high = (0.0, up), (up, ridge - up), (ridge - up, ridge)
    cells = [
        ("3e", left, low),
        ("2e", middle, low),
        ("3e", right, low),
        ("2n", left, mid),
        ("1", middle, mid),
        ("2n", right, mid),
        ("3r", left, high),
        ("2r", middle, high),
        ("3r", right, high),
    ]
    return tuple(ZoneRegion(zone, Box(u[0], v[0], u[1], v[1])) for zone, u, v in cells)


def method_check(array: PlacedArray, height_above_roof_in: float) -> MethodCheck:
    """Limits of ASCE 7-16, 29.4.4 for an array parallel to the roof.

    Args:
        array: The array.
        height_above_roof_in: Top of the modules above the roof surface [in].
    """
    clearance = edge_clearance_in(array)
    unmet = solar_panels.method_limits(
        max(height_above_roof_in, 0.0),  # structure.rail-clearance fails modules within the tile
        array.given.gap,
        max(array.product.width, array.product.height),
        clearance,
        0.0,
    )
    return MethodCheck(array.id, clearance, unmet)


def edge_clearance_in(array: PlacedArray) -> float:
    """Least distance from the module frames to an edge or ridge of their plane, on the surface.

    Exact on a rectangular plane, the only outline whose loads are computed so far.
    """
    corners = array.plane.surface_outline
    length, ridge = max(u for u, _ in corners), max(v for _, v in corners)
    frames = array.frames
    return min(frames.x0, length - frames.x1, frames.y0, ridge - frames.y1)


def _least_dimension_in(roof: Roof) -> float:
    xs = [x for plane in roof.planes for x, _ in plane.outline]
    ys = [y for plane in roof.planes for _, y in plane.outline]
    return min(max(xs) - min(xs), max(ys) - min(ys))


def _mean_roof_height_in(inputs: Inputs, roof: Roof) -> float:
    eave = inputs.job.building.eave_height
    steepest = max(plane.slope_deg for plane in roof.planes)
    if steepest <= _EAVE_HEIGHT_UP_TO_DEG:
        return eave
    ridge = max(
        (point[2] for edge in roof.edges if edge.kind == EdgeKind.RIDGE for point in (edge.a,)),
        default=0.0,
    )
    return eave + ridge / 2
