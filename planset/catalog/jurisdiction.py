"""Jurisdictions: adopted editions, local minimums and submission, each with source and date."""

from typing import Annotated, Literal

from planset.catalog.fields import (
    Dated,
    Force,
    Pressure,
    PressureOrNone,
    Size,
    SnowLoad,
    Sourced,
    StrictModel,
    Text,
    WindSpeed,
    between,
)
from planset.catalog.local_access import LocalAccess
from planset.catalog.submission import Submission
from planset.citation import CodeEdition

SheetSize = Literal["11x17", "12x18", "18x24", "22x34", "24x36"]
ScreeningList = Literal["california", "oregon", "simplified"]
Year = Annotated[int, between(1990, 2100)]


class AdoptedCode(Dated):
    """One code with the edition in force and what put it in force.

    `supplement` is the year of a supplement to that edition, when one is in force.
    """

    code: Text
    edition: Year
    supplement: Year | None = None

    @property
    def code_edition(self) -> CodeEdition:
        """Document and year in one."""
        return CodeEdition(self.code, self.edition, self.supplement or 0)


class ResidentialCode(AdoptedCode):
    """The code of one- and two-family dwellings."""

    code: Literal["IRC", "CRC"]


class FireCode(AdoptedCode):
    """The fire code."""

    code: Literal["IFC", "CFC", "NFPA 1"]


class AdoptedCodes(StrictModel):
    """The editions a plan set is judged by; `existing` is the code of existing buildings."""

    residential: ResidentialCode
    building: AdoptedCode
    fire: FireCode
    electrical: AdoptedCode
    loads: AdoptedCode
    wood: AdoptedCode
    existing: AdoptedCode | None = None


class Minimums(StrictModel):
    """The least wind speed (mph) and ground snow load (psf) the jurisdiction accepts.

    `wind_basis` tells which of the two kinds of speed it names, `exposure` the least exposure.
    `panel_pressure` is the least wind pressure on panels where it is not the one of ASCE 7, 0 for
    none; `low_exposure_floor` whether Kz in exposure B is not taken under 0.70.
    """

    wind_speed: Sourced[WindSpeed]
    wind_basis: Sourced[Literal["ultimate", "nominal"]]
    exposure: Sourced[Literal["B", "C", "D"]] | None = None
    ground_snow: Sourced[SnowLoad]
    panel_pressure: Sourced[PressureOrNone] | None = None
    low_exposure_floor: Sourced[bool] | None = None


class SheetRequirement(Dated):
    """The sheet size the jurisdiction takes."""

    size: SheetSize


class Review(StrictModel):
    """Limits within which the jurisdiction asks for no engineering.

    `array_weight` in psf, `point_load` of one attachment in pounds, `height_above_roof` of the
    modules and `anchor_spacing` across the slope in inches. `screening` names the published list by
    which an array may go without an engineer's calculation.
    """

    array_weight: Sourced[Pressure] | None = None
    point_load: Sourced[Force] | None = None
    height_above_roof: Sourced[Size] | None = None
    anchor_spacing: Sourced[Size] | None = None
    screening: Sourced[ScreeningList] | None = None


class Jurisdiction(StrictModel):
    """What one authority having jurisdiction asks of a plan set."""

    kind: Literal["jurisdiction"]
    name: Text
    department: Text
    codes: AdoptedCodes
    minimums: Minimums
    access: LocalAccess
    sheet: SheetRequirement
    review: Review = Review()
    submission: Submission = Submission()
