"""What stands on the roof already."""

from typing import Literal, Self

from pydantic import model_validator

from planset.catalog.fields import Distance, Id, Size, StrictModel, Text
from planset.job.position import Position

ObstructionKind = Literal[
    "plumbing_vent", "attic_vent", "flue", "chimney", "skylight", "mast", "roof_hatch",
    "smoke_vent", "standpipe", "roof_drain", "mechanical_unit", "existing_array", "other",
]  # fmt: skip
"""A smoke vent opens by gravity when heat releases it, and a skylight may serve as one.

An existing array counts as one for fire access: its area, and what it leaves clear.
"""


class Obstruction(StrictModel):
    """A vent, skylight or the like, round or rectangular; modules keep `clearance` inches off."""

    id: Id
    kind: ObstructionKind
    plane: Text
    center: Position
    diameter: Size | None = None
    width: Size | None = None
    height: Size | None = None
    clearance: Distance

    @model_validator(mode="after")
    def _check_size(self) -> Self:
        sides = [side for side in (self.width, self.height) if side is not None]
        if (len(sides), self.diameter is None) not in ((0, False), (2, True)):
            msg = "its size is not clear; give either diameter, or width and height"
            raise ValueError(msg)
        if self.kind == "existing_array" and self.diameter is not None:
            msg = (
                "an array is not round; give its width along the eave and its height up the slope "
                "in place of diameter"
            )
            raise ValueError(msg)
        return self
