"""The framing under the roof, as surveyed."""

from typing import Annotated, Literal

from pydantic import BeforeValidator

from planset.catalog.fields import Distance, Size, StrictModel, Text, between, tabulated
from planset.codes.nds.lumber import dressed_size_in
from planset.codes.nds.species import specific_gravity

EVERY_PLANE = "*"


def _by_plane(value: object) -> object:
    """One distance stands for every plane."""
    return value if isinstance(value, dict) else {EVERY_PLANE: value}


class Framing(StrictModel):
    """Rafters; inches.

    `first_rafter` is from the left end of the eave as one faces a plane: one distance for every
    plane, or one by the name of each plane that was surveyed.
    """

    kind: Literal["rafter"]
    member: Annotated[str, tabulated(dressed_size_in, "a lumber size")]
    spacing: Annotated[Size, between(6, 120, "in")]
    first_rafter: Annotated[
        dict[str, Distance],
        BeforeValidator(_by_plane, json_schema_input_type=Distance | dict[str, Distance]),
    ]
    species: Annotated[str, tabulated(specific_gravity, "a species group")]
    grade: Text
    sheathing: Annotated[Distance, between(0, 4, "in")]
    underlayment: Annotated[Distance, between(0, 1, "in")]
    source: Text

    def first_rafter_on(self, plane: str) -> float | None:
        """The first rafter of a plane, None where it was not surveyed, inches."""
        return self.first_rafter.get(plane, self.first_rafter.get(EVERY_PLANE))

    @property
    def member_width_in(self) -> float:
        """Dressed thickness of a rafter, across its line, inches."""
        return dressed_size_in(self.member)[0]

    @property
    def member_depth_in(self) -> float:
        """Dressed depth of a rafter, inches."""
        return dressed_size_in(self.member)[1]
