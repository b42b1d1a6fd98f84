"""The roof's shape and covering."""

from typing import ClassVar, Literal, Self

from pydantic import model_validator

from planset.catalog.fields import Azimuth, Count, Distance, Pitch, Size, StrictModel, Text


class CurvedTile(StrictModel):
    """Curved tile; `rise` is the top of the cover above the pan, inches."""

    kind: Literal["curved_tile"]
    material: Text
    exposure: Size
    length: Size
    pan_pitch: Size
    rise: Size
    thickness: Size
    batten: Distance

    @model_validator(mode="after")
    def _check_order(self) -> Self:
        if self.exposure >= self.length:
            msg = "exposure is not less than length, so courses do not lap; check both"
            raise ValueError(msg)
        return self


class GableRoof(StrictModel):
    """Two equal planes that meet in a ridge.

    Lengths in inches in plan, overhangs included; `pitch` is rise per run; `front_azimuth` is the
    compass bearing in degrees that the front plane faces.
    """

    plane_names: ClassVar[tuple[str, ...]] = ("front", "back")

    shape: Literal["gable"]
    ridge_length: Size
    depth: Size
    pitch: Pitch
    front_azimuth: Azimuth
    eave_overhang: Distance
    rake_overhang: Distance
    layers: Count
    covering: CurvedTile

    @model_validator(mode="after")
    def _check_overhangs(self) -> Self:
        if 2 * self.eave_overhang >= self.depth or 2 * self.rake_overhang >= self.ridge_length:
            msg = "the overhangs leave no house between them; check them, depth and ridge_length"
            raise ValueError(msg)
        return self


Roof = GableRoof
"""Any roof. A second shape makes this `Annotated[GableRoof | ..., Field(discriminator="shape")]`,
and a second covering the same on `kind`; pydantic refuses a union of one."""
