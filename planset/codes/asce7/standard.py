"""The one door to ASCE 7: `load_standard` gives an edition, whose methods are alike in all."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Protocol

import planset.codes.asce7_16.snow as snow_16
import planset.codes.asce7_16.wind as wind_16
import planset.codes.asce7_22.snow as snow_22
import planset.codes.asce7_22.wind as wind_22
from planset.citation import CodeEdition
from planset.codes import _table
from planset.codes.asce7 import load_combinations, roof_figures, solar_panels, wind
from planset.codes.asce7.load_combinations import AttachmentLoads, Combination, CombinedLoads
from planset.codes.asce7.roof_figures import RoofFigure, RoofFigures
from planset.codes.asce7.solar_panels import PanelPressure
from planset.codes.asce7.wind import VelocityPressure

SUPPORTED_YEARS = (2016, 2022)
"""Years of the editions that can be loaded.

Source: ASCE 7-16 and 7-22, 29.4.4, the method for parallel panels, which older ones lack.
"""


class WindClauses(Protocol):
    """What differs between editions in velocity pressure.

    Source: ASCE 7-16 and 7-22, 26.10.
    """

    @property
    def KD_INSIDE(self) -> bool:  # noqa: N802
        """Whether the velocity pressure holds Kd."""

    def exposure_coefficient(self, height_ft: float, exposure: str) -> float:
        """Exposure coefficient Kz (no unit)."""

    def velocity_pressure_psf(self, kz: float, kzt: float, ke: float, speed_mph: float) -> float:
        """Velocity pressure as the edition prints it [psf]."""


class SnowClauses(Protocol):
    """What differs between editions in snow; the modules of the editions tell the details.

    Source: ASCE 7-16 and 7-22, chapter 7, 7.3 to 7.10.
    """

    @property
    def STRENGTH_LEVEL(self) -> bool:  # noqa: N802
        """Whether ground snow loads, and all that follows from them, are at strength level."""

    @property
    def WINTER_WIND_NEEDED(self) -> bool:  # noqa: N802
        """Whether drifts need the winter wind parameter."""

    def importance_factor(self, risk_category: str) -> float:
        """Importance factor Is (no unit)."""

    def thermal_factor(self, condition: str) -> float:
        """Thermal factor Ct (no unit)."""

    def flat_roof_psf(self, ground_psf: float, ce: float, ct: float, risk_category: str) -> float:
        """Flat roof snow load pf [psf]."""

    def minimum_psf(self, ground_psf: float, slope_deg: float, risk_category: str) -> float:
        """Minimum pm of low slopes, else 0 [psf]."""

    def rain_on_snow_psf(
        self, ground_psf: float, slope_deg: float, eave_to_ridge_ft: float, risk_category: str
    ) -> float:
        """Surcharge of rain on snow [psf]."""

    def drift_height_ft(
        self,
        ground_psf: float,
        fetch_ft: float,
        risk_category: str,
        winter_wind: float | None = None,
    ) -> float:
        """Drift height hd [ft]."""


@dataclass(frozen=True, slots=True)
class Standard:
    """One edition of ASCE 7.

    Attributes:
        edition: The edition; its text is "ASCE 7-16".
        clauses: Topic to clause, as it is cited.
        wind: Its clauses of velocity pressure.
        figures: Its figures of roof coefficients.
        snow: Its clauses of snow.
        asd: Its allowable stress combinations, of those that a roof attachment can have.
        lrfd: Its strength combinations, alike.

    Source: ASCE 7-16 and 7-22, chapters 2, 7, 26, 29 and 30, by the clauses 2.3, 2.4, 7.3, 26.10,
    29.4 and 30.3.
    """

    edition: CodeEdition
    clauses: Mapping[str, str] = field(repr=False)
    wind: WindClauses = field(repr=False)
    figures: RoofFigures = field(repr=False)
    snow: SnowClauses = field(repr=False)
    asd: tuple[Combination, ...] = field(repr=False)
    lrfd: tuple[Combination, ...] = field(repr=False)

    def cite(self, topic: str) -> str:
        """Return the citation of a topic, such as "ASCE 7-16 29.4.4".

        Args:
            topic: A key of `clauses`.
        """
        return self.edition.cite(self.clauses[topic])

    def velocity_pressure(
        self,
        height_ft: float,
        exposure: str,
        topographic_factor: float,
        elevation_ft: float,
        speed_mph: float,
        *,
        low_exposure_floor: bool = False,
    ) -> VelocityPressure:
        """Velocity pressure at a height.

        Args:
            height_ft: Height above ground; for roofs the mean roof height [ft].
            exposure: "B", "C" or "D".
            topographic_factor: Kzt, 1.0 only where no hill, ridge or escarpment counts (no unit).
            elevation_ft: Ground elevation above sea level [ft].
            speed_mph: Basic wind speed V of the risk category, strength level [mph].
            low_exposure_floor: Take Kz 0.70 at least below 30 ft in exposure B, as older practice.

        Raises:
            ValueError: A value out of range.
        """
        kz = self.wind.exposure_coefficient(height_ft, exposure)
        floored = low_exposure_floor and wind.floor_applies(height_ft, exposure, kz)
        kz = wind.LOW_EXPOSURE_FLOOR if floored else kz
        ke = wind.ground_elevation_factor(elevation_ft)
        return VelocityPressure(
            edition=self.edition,
            height_ft=height_ft,
            exposure=exposure,
            kz=kz,
            floor_used=floored,
            kzt=topographic_factor,
            ke=ke,
            kd=wind.DIRECTIONALITY,
            kd_inside=self.wind.KD_INSIDE,
            speed_mph=speed_mph,
            q_psf=self.wind.velocity_pressure_psf(kz, topographic_factor, ke, speed_mph),
        )

    def roof_figure(
        self, roof: str, slope_deg: float, height_over_width: float | None = None
    ) -> RoofFigure:
        """The figure of external pressure coefficients that holds for a roof.

        Args:
            roof: "gable", "hip" or "monoslope"; low slopes take the figure of flat roofs.
            slope_deg: Roof slope [degrees].
            height_over_width: Mean roof height over the least horizontal dimension (no unit).

        Raises:
            ValueError: Roof unknown, slope outside its figures, or the ratio needed and missing.
        """
        return self.figures.figure(roof, slope_deg, height_over_width)

    def panel_pressure(
        self,
        velocity: VelocityPressure,
        gcp: float,
        edge_factor: float,
        equalization: float,
        *,
        minimum_psf: float = solar_panels.MINIMUM_CC_PRESSURE_PSF,
    ) -> PanelPressure:
        """Design pressure normal to a panel parallel to the roof.

        Args:
            velocity: Velocity pressure of this edition at mean roof height.
            gcp: External pressure coefficient, negative for uplift (no unit).
            edge_factor: gamma_E, 1.5 or 1.0; downward 1.0 (no unit).
            equalization: gamma_a; 1.0 where a limit of the method is not met (no unit).
            minimum_psf: Least pressure in size; 0 where the jurisdiction asks for none [psf].

        Raises:
            ValueError: A value out of range, or a velocity pressure of another edition.
        """
        if velocity.edition != self.edition:
            msg = f"velocity pressure is of {velocity.edition}; expected one of {self.edition}"
            raise ValueError(msg)
        computed = solar_panels.panel_pressure_psf(velocity, gcp, edge_factor, equalization)
        raised = solar_panels.with_minimum_pressure_psf(computed, minimum_psf)
        return PanelPressure(computed, raised)

    def combine(
        self, loads: AttachmentLoads, combinations: Iterable[Combination] | None = None
    ) -> CombinedLoads:
        """What each combination makes of the loads on an attachment.

        Args:
            loads: The loads, snow at the level of this edition.
            combinations: Those to take; `asd` when None.
        """
        chosen = self.asd if combinations is None else combinations
        return load_combinations.combine(loads, chosen)


def load_standard(year: int) -> Standard:
    """Load an edition of ASCE 7.

    Args:
        year: Year of the edition.

    Raises:
        ValueError: The edition isn't supported.

    Source: ASCE 7-16 and 7-22, 29.4.4 and the other clauses of `Standard`.
    """
    if year not in SUPPORTED_YEARS:
        asked = CodeEdition("ASCE 7", year)
        known = " and ".join(str(CodeEdition("ASCE 7", year)) for year in SUPPORTED_YEARS)
        why = "it has no method for panels parallel to the roof" if year < 2016 else "not entered"
        msg = (
            f"{asked} is not supported ({why}); expected {known}: ask the jurisdiction whether it "
            "accepts one of these, or have the engineer of record compute the loads"
        )
        raise ValueError(msg)
    return _standard(year)


@cache
def _standard(year: int) -> Standard:
    edition = CodeEdition("ASCE 7", year)
    folder = Path(__file__).parents[1] / f"asce7_{year % 100}"
    wind_clauses: WindClauses = {2016: wind_16, 2022: wind_22}[year]
    snow_clauses: SnowClauses = {2016: snow_16, 2022: snow_22}[year]
    clauses = {row["topic"]: row["clause"] for row in _table.rows(folder / "clauses.csv")}
    combinations = folder / "load_combinations.csv"
    return Standard(
        edition=edition,
        clauses=MappingProxyType(clauses),
        wind=wind_clauses,
        figures=roof_figures.read_roof_figures(edition, folder),
        snow=snow_clauses,
        asd=load_combinations.read_combinations(combinations, "asd"),
        lrfd=load_combinations.read_combinations(combinations, "lrfd"),
    )
