"""The framing under the roof, as surveyed."""

from typing import Annotated, Literal

from planset.catalog.fields import Distance, Size, StrictModel, Text, between, tabulated
from planset.codes.nds.lumber import dressed_size_in
from planset.codes.nds.species import specific_gravity


class Framing(StrictModel):
    """Rafters; `first_rafter` is from the left rake as one faces the plane, inches."""

    kind: Literal["rafter"]
    member: Annotated[str, tabulated(dressed_size_in, "a lumber size")]
    spacing: Annotated[Size, between(6, 120, "in")]
    first_rafter: Distance
    species: Annotated[str, tabulated(specific_gravity, "a species group")]
    grade: Text
    sheathing: Annotated[Distance, between(0, 4, "in")]
    underlayment: Annotated[Distance, between(0, 1, "in")]
    source: Text

    @property
    def member_width_in(self) -> float:
        """Dressed thickness of a rafter, across its line, inches."""
        return dressed_size_in(self.member)[0]

    @property
    def member_depth_in(self) -> float:
        """Dressed depth of a rafter, inches."""
        return dressed_size_in(self.member)[1]
