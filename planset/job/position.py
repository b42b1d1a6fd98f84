"""A place on a roof plane."""

from typing import Annotated

from planset.catalog.fields import Distance, Length, StrictModel, between

Along = Annotated[Length, between(-12_000, 12_000, "in")]
"""Inches to the right of the left end of a plane's eave, as one faces it; negative to the left."""


class Position(StrictModel):
    """Inches from the left end of the eave, as one faces the plane, and from it up the slope."""

    along: Along
    up: Distance
