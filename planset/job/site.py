"""Where the house stands: wind, snow, temperatures, streets."""

from typing import Annotated, Literal, Self

from pydantic import model_validator

from planset.catalog.fields import (
    Length,
    OneOrMore,
    Several,
    SnowLoad,
    StrictModel,
    Temperature,
    WindSpeed,
    between,
)

Side = Literal["front", "back", "left", "right"]


class Site(StrictModel):
    """The site; wind speed in mph, elevation in inches, snow in psf, temperatures in C.

    `street_sides` and `driveway_sides` are the sides of the house that face a street or its
    driveway, as one stands in front of it.
    """

    wind_speed: WindSpeed
    exposure: Literal["B", "C", "D"]
    topographic_factor: Annotated[float, between(1, 4)]
    elevation: Annotated[Length, between(-18_000, 240_000, "in")]
    ground_snow: SnowLoad
    lowest_ambient: Temperature
    high_ambient: Temperature
    street_sides: OneOrMore[Side]
    driveway_sides: Several[Side] = ()

    @model_validator(mode="after")
    def _check_order(self) -> Self:
        if self.lowest_ambient >= self.high_ambient:
            msg = "lowest_ambient is not below high_ambient; check both temperatures and their unit"
            raise ValueError(msg)
        return self
