"""The framing under the roof, as surveyed."""

from itertools import pairwise
from typing import Annotated, Literal, Self

from pydantic import AfterValidator, BeforeValidator, model_validator

from planset.catalog.fields import (
    Distance,
    OneOrMore,
    Pressure,
    Size,
    StrictModel,
    Text,
    between,
    tabulated,
)
from planset.codes.nds.lumber import dressed_size_in
from planset.codes.nds.species import UNKNOWN_SPECIES, specific_gravity
from planset.job.by_plane import DistanceByPlane, by_plane, on_plane
from planset.job.truss_letter import TrussLetter

UNKNOWN = "unknown"


def _rising(value: tuple[float, ...]) -> tuple[float, ...]:
    """Two supports at least, in order from the eave."""
    if len(value) < 2 or any(b <= a for a, b in pairwise(value)):
        msg = (
            "not two supports or more in order from the eave; list the wall plate first, then "
            "every purlin and wall, then the ridge"
        )
        raise ValueError(msg)
    return value


def _gravity(species: str) -> float:
    """Look up a species; one that nobody could tell has the gravity of the weakest."""
    return specific_gravity(UNKNOWN_SPECIES if species == UNKNOWN else species)


Supports = Annotated[OneOrMore[Distance], AfterValidator(_rising)]


class Framing(StrictModel):
    """Rafters, or the top chords of trusses; inches.

    `first_rafter` is from the left end of the eave as one faces a plane: one distance for every
    plane, or one by the name of each plane that was surveyed. `supports` are where rafters bear,
    in plan from the eave's edge: one list for every plane, or one by plane; trusses have none.
    `roof_dead_load` in psf is what stands on the rafters now, themselves included, on the slope.
    `ceiling` tells whether one is fixed to their underside. `light_frame` tells whether the survey
    found the house to be conventional light-frame construction of the building code, or to keep to
    the residential code; small dwellings built so are excepted from the limit on added load.
    `bearing` is how much of a rafter lies on its narrowest support, where somebody measured it.
    `species` may be `unknown`, where no stamp can be read: the weakest is taken then. Of trusses,
    `sound` tells whether every one under an array was looked at and none is cut, notched, split or
    short of a member, and `letter` what their designer or an engineer says of the added load.
    """

    kind: Literal["rafter", "truss"]
    member: Annotated[str, tabulated(dressed_size_in, "a lumber size")]
    spacing: Annotated[Size, between(6, 120, "in")]
    first_rafter: DistanceByPlane
    species: Annotated[str, tabulated(_gravity, "a species group")]
    grade: Text
    supports: (
        Annotated[
            dict[str, Supports],
            BeforeValidator(by_plane, json_schema_input_type=Supports | dict[str, Supports]),
        ]
        | None
    ) = None
    roof_dead_load: Annotated[Pressure, between(1, 200, "psf")]
    ceiling: Literal["attached", "none"]
    light_frame: bool | None = None
    bearing: Annotated[Size, between(0.5, 24, "in")] | None = None
    sheathing: Annotated[Distance, between(0, 4, "in")]
    underlayment: Annotated[Distance, between(0, 1, "in")]
    sound: bool | None = None
    letter: TrussLetter | None = None
    source: Text

    @model_validator(mode="after")
    def _check_supports(self) -> Self:
        if self.kind == "rafter" and self.supports is None:
            msg = "supports is missing; list where the rafters bear, in plan from the eave's edge"
            raise ValueError(msg)
        if self.kind == "truss" and self.supports is not None:
            msg = "supports are of rafters, and a truss is judged by its designer; remove supports"
            raise ValueError(msg)
        for field in ("sound", "letter"):
            if self.kind == "rafter" and getattr(self, field) is not None:
                msg = f"{field} is of trusses, and rafters are computed; remove {field}"
                raise ValueError(msg)
        return self

    @property
    def members(self) -> str:
        """What stands side by side: "rafters" or "trusses"."""
        return "trusses" if self.kind == "truss" else "rafters"

    @property
    def wood(self) -> str:
        """The species group whose values are taken."""
        return UNKNOWN_SPECIES if self.species == UNKNOWN else self.species

    def supports_on(self, plane: str) -> tuple[float, ...] | None:
        """Where the rafters of a plane bear, in plan from its eave's edge; None if not surveyed."""
        return on_plane(self.supports or {}, plane)

    def first_rafter_on(self, plane: str) -> float | None:
        """The first rafter of a plane, None where it was not surveyed, inches."""
        return on_plane(self.first_rafter, plane)

    @property
    def member_width_in(self) -> float:
        """Dressed thickness of a rafter, across its line, inches."""
        return dressed_size_in(self.member)[0]

    @property
    def member_depth_in(self) -> float:
        """Dressed depth of a rafter, inches."""
        return dressed_size_in(self.member)[1]
