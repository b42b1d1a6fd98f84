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


class Snow(StrictModel):
    """What snow on the roof depends on beside the ground snow load.

    `roof_exposure` is how open the roof lies to the wind, `thermal` what is below it.
    `slides_clear` is true only where nothing keeps snow from sliding off modules and roof: no snow
    guard, parapet, roof or second array below. `winter_wind`, W2 of the map, is for ASCE 7-22.
    """

    roof_exposure: Literal["fully", "partially", "sheltered"]
    thermal: Literal["heated", "ventilated", "unheated", "freezer", "greenhouse"]
    slides_clear: bool
    winter_wind: Annotated[float, between(0.1, 1)] | None = None


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
    snow: Snow | None = None

    @model_validator(mode="after")
    def _check_order(self) -> Self:
        if self.lowest_ambient >= self.high_ambient:
            msg = "lowest_ambient is not below high_ambient; check both temperatures and their unit"
            raise ValueError(msg)
        return self

    @model_validator(mode="after")
    def _check_snow(self) -> Self:
        if self.ground_snow > 0 and self.snow is None:
            msg = (
                "snow is missing, and there is ground snow; add snow with roof_exposure, thermal "
                "and slides_clear"
            )
            raise ValueError(msg)
        return self
