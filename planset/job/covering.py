"""What lies on the roof."""

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from planset.catalog.fields import Distance, Size, StrictModel, Text


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


class AsphaltShingle(StrictModel):
    """Asphalt shingles; `exposure` is course to course, `thickness` of all layers, inches."""

    kind: Literal["asphalt_shingle"]
    material: Text
    exposure: Size
    thickness: Size


class Membrane(StrictModel):
    """A membrane over a low slope; `thickness` is of membrane and cover board, inches."""

    kind: Literal["membrane"]
    material: Text
    thickness: Size


Covering = Annotated[CurvedTile | AsphaltShingle | Membrane, Field(discriminator="kind")]
"""Any covering."""
