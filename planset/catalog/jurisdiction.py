"""Jurisdictions: adopted editions, local minimums and submission, each with source and date."""

from typing import Annotated, Literal

from planset.catalog.fields import (
    Date,
    SnowLoad,
    Sourced,
    StrictModel,
    Text,
    WindSpeed,
    between,
)

SheetSize = Literal["11x17", "12x18", "18x24", "22x34", "24x36"]


class AdoptedCode(StrictModel):
    """One code with the edition in force and what put it in force."""

    code: Text
    edition: Annotated[int, between(1990, 2100)]
    source: Text
    date: Date


class AdoptedCodes(StrictModel):
    """The editions a plan set is judged by."""

    residential: AdoptedCode
    building: AdoptedCode
    fire: AdoptedCode
    electrical: AdoptedCode
    loads: AdoptedCode
    wood: AdoptedCode


class Minimums(StrictModel):
    """The least wind speed (mph) and ground snow load (psf) the jurisdiction accepts."""

    wind_speed: Sourced[WindSpeed]
    ground_snow: Sourced[SnowLoad]


class SheetRequirement(StrictModel):
    """The sheet size the jurisdiction takes."""

    size: SheetSize
    source: Text
    date: Date


class Jurisdiction(StrictModel):
    """What one authority having jurisdiction asks of a plan set.

    `pathway_on_overhang` tells whether an access pathway may run on a roof overhang;
    `street_angle` is the largest angle in degrees at which a roof side still faces a street.
    """

    kind: Literal["jurisdiction"]
    name: Text
    department: Text
    codes: AdoptedCodes
    minimums: Minimums
    pathway_on_overhang: Sourced[bool]
    street_angle: Sourced[Annotated[float, between(0, 180, "degrees")]]
    sheet: SheetRequirement
