"""Snow on a plane and on the modules over it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.codes.asce7 import snow
from planset.codes.asce7.snow import UnbalancedSnow
from planset.roof.plane import Plane

if TYPE_CHECKING:
    from planset.codes.asce7.standard import Standard
    from planset.job.load import Inputs


@dataclass(frozen=True, slots=True)
class SnowCover:
    """Snow on one kind of surface of a plane, on the horizontal projection.

    Attributes:
        thermal: Ct, unitless.
        flat_psf: Flat roof snow load pf [psf].
        slope_factor: Cs, unitless.
        load_psf: Design load: Cs pf, at least the minimum of low slopes, with rain on snow [psf].
        minimum_governs: Whether that minimum governs.
        rain_psf: Rain on snow in it [psf].
        least_psf: The minimum pm of low slopes, 0 where there is none [psf].
    """

    thermal: float
    flat_psf: float
    slope_factor: float
    load_psf: float
    minimum_governs: bool
    rain_psf: float = 0.0
    least_psf: float = 0.0

    @property
    def sloped_psf(self) -> float:
        """Sloped roof snow load ps, without minimum and rain [psf]."""
        return self.slope_factor * self.flat_psf


@dataclass(frozen=True, slots=True)
class Drift:
    """What unbalanced snow is computed from.

    Attributes:
        fetch_ft: From the eave to the top of the plane in plan, W and lu [ft].
        winter_wind: W2, None where the edition has none (no unit).
        height_ft: Drift height hd [ft].
        density_pcf: Density of the snow, gamma [lb per cu ft].
        run_per_rise: Run of the roof for a rise of one, S (no unit).
    """

    fetch_ft: float
    winter_wind: float | None
    height_ft: float
    density_pcf: float
    run_per_rise: float


@dataclass(frozen=True, slots=True)
class PlaneSnow:
    """Snow on a plane.

    Attributes:
        plane: Id of the plane.
        exposure: Ce, unitless.
        importance: Is, 1.0 where the map holds it, unitless.
        panels: Snow on modules: open air below them.
        roof: Snow on the bare roof, which is not slippery.
        unbalanced: Unbalanced snow on it, None where its slope needs none.
        unbalanced_open: Why unbalanced snow is not computed, "" when it is.
        drift: What it is computed from, None where there is none.
    """

    plane: str
    exposure: float
    importance: float
    panels: SnowCover
    roof: SnowCover
    unbalanced: UnbalancedSnow | None
    unbalanced_open: str
    drift: Drift | None = None

    @property
    def on_roof_psf(self) -> float:
        """The greatest load anywhere on the bare plane, balanced or not [psf]."""
        return self._greatest_psf(self.roof)

    @property
    def on_panels_psf(self) -> float:
        """The greatest load anywhere on modules, balanced or not [psf]."""
        return self._greatest_psf(self.panels)

    def _greatest_psf(self, cover: SnowCover) -> float:
        """The drift by the ridge lies on what a surface holds itself, modules more than a roof."""
        drift = self.unbalanced
        if drift is None:
            return cover.load_psf
        under = max(drift.leeward_psf, cover.sloped_psf)
        return max(cover.load_psf, under + drift.surcharge_psf)


def plane_snow(inputs: Inputs, standard: Standard, plane: Plane) -> PlaneSnow | None:
    """Snow on a plane, None where the site has none.

    Source: ASCE 7, chapter 7.
    """
    site = inputs.job.site
    if site.snow is None or site.ground_snow == 0:
        return None
    risk = inputs.job.building.risk_category
    exposure = snow.exposure_factor(site.exposure, site.snow.roof_exposure)
    importance = standard.snow.importance_factor(risk)
    panels = _cover(
        inputs, standard, plane, snow.PANEL_THERMAL_FACTOR, slippery=site.snow.slides_clear
    )
    bare = _cover(
        inputs, standard, plane, standard.snow.thermal_factor(site.snow.thermal), slippery=False
    )
    missing = standard.snow.WINTER_WIND_NEEDED and site.snow.winter_wind is None
    drift = unbalanced = None
    if not missing:
        drift = _drift(site.ground_snow, standard, plane, risk, site.snow.winter_wind)
        unbalanced = snow.unbalanced(
            site.ground_snow,
            bare.sloped_psf,
            plane.slope_deg,
            drift.fetch_ft,
            drift.height_ft,
            importance,
            simple_rafters=_spans_ridge_to_eave(inputs, plane),
        )
    reason = "the job gives no winter_wind, which drifts of this edition need" if missing else ""
    drift = drift if unbalanced else None
    return PlaneSnow(plane.id, exposure, importance, panels, bare, unbalanced, reason, drift)


def _drift(
    ground_psf: float, standard: Standard, plane: Plane, risk: str, winter_wind: float | None
) -> Drift:
    run_ft = _run_ft(plane)
    return Drift(
        fetch_ft=run_ft,
        winter_wind=winter_wind if standard.snow.WINTER_WIND_NEEDED else None,
        height_ft=standard.snow.drift_height_ft(ground_psf, run_ft, risk, winter_wind),
        density_pcf=snow.density_pcf(ground_psf),
        run_per_rise=1.0 / math.tan(math.radians(plane.slope_deg)) if plane.slope_deg else math.inf,
    )


def _spans_ridge_to_eave(inputs: Inputs, plane: Plane) -> bool:
    """Whether rafters run over one span only; where nobody says, they are taken not to."""
    framing = inputs.job.framing
    supports = framing.supports_on(plane.id) if framing else None
    return supports is not None and len(supports) == 2


def _cover(
    inputs: Inputs, standard: Standard, plane: Plane, thermal: float, *, slippery: bool
) -> SnowCover:
    site, risk = inputs.job.site, inputs.job.building.risk_category
    conditions = site.snow
    if conditions is None:  # plane_snow asks only where there is snow
        msg = "the job says nothing of the snow on its roof"
        raise ValueError(msg)
    ce = snow.exposure_factor(site.exposure, conditions.roof_exposure)
    flat = standard.snow.flat_roof_psf(site.ground_snow, ce, thermal, risk)
    factor = snow.slope_factor(plane.slope_deg, thermal, slippery=slippery)
    sloped = snow.sloped_roof_psf(flat, factor)
    least = standard.snow.minimum_psf(site.ground_snow, plane.slope_deg, risk)
    rain = standard.snow.rain_on_snow_psf(site.ground_snow, plane.slope_deg, _run_ft(plane), risk)
    load = max(sloped + rain, least)
    return SnowCover(thermal, flat, factor, load, least > sloped + rain, rain, least)


def _run_ft(plane: Plane) -> float:
    """From the eave to the top of a plane, in plan [ft]."""
    heights = [v for _, v in plane.surface_outline]
    return (max(heights) - min(heights)) / plane.slope_factor / 12
