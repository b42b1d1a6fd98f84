"""The building under the roof."""

from typing import Annotated, Literal, Self

from pydantic import BeforeValidator, model_validator

from planset.catalog.fields import Distance, Several, Size, StrictModel, Text, between
from planset.job.position import Along

# Source: IBC 2021, 302.1 (occupancy groups) and Table 601 (types of construction).
Occupancy = Literal[
    "A-1", "A-2", "A-3", "A-4", "A-5", "B", "E", "F-1", "F-2", "H-1", "H-2", "H-3", "H-4", "H-5",
    "I-1", "I-2", "I-3", "I-4", "M", "R-1", "R-2", "R-3", "R-4", "S-1", "S-2", "U",
]  # fmt: skip
ConstructionType = Literal[
    "I-A", "I-B", "II-A", "II-B", "III-A", "III-B", "IV-A", "IV-B", "IV-C", "IV-HT", "V-A", "V-B"
]


class EscapeOpening(StrictModel):
    """A bedroom window or the like that opens onto the roof or has the roof below it, inches.

    `along` is the left side of the opening, from the left end of the plane's eave; `up` where the
    roof meets the wall or the window below the opening, up the slope from the eave.
    """

    plane: Text
    along: Along
    up: Distance
    width: Size


class OpeningBelow(StrictModel):
    """A window or door in the wall below an eave, where no ladder may stand; inches."""

    kind: Literal["window", "door"]
    plane: Text
    along: Along
    width: Size


def _none_as_empty(value: object) -> object:
    """Let the word `none` stand for a survey that found no opening; it is never assumed."""
    if value == "none":
        return ()
    if not isinstance(value, list | tuple):
        msg = "neither none nor a list; write none, or a list with one entry per opening"
        raise ValueError(msg)
    return value


def _no_wall(value: object) -> object:
    """Let the word `none` stand for a roof that no fire wall divides; it is never assumed."""
    return () if value == "none" else value


class Building(StrictModel):
    """The building; `eave_height` is from the ground to the eave line, inches.

    `openings_below_eaves` is absent where the walls below were not surveyed. `fire_walls` part the
    roof of a row of townhouses into units, from front to back: inches in plan from the left end of
    the front eave. They are none where the roof is that of one unit, and absent where unknown.
    """

    use: Literal["one_family_dwelling", "two_family_dwelling", "townhouse", "other"]
    occupancy: Occupancy
    construction_type: ConstructionType
    risk_category: Literal["I", "II", "III", "IV"]
    sprinklered: bool
    eave_height: Annotated[Size, between(24, 1200, "in")]
    escape_openings_onto_roof: Annotated[
        Several[EscapeOpening],
        BeforeValidator(
            _none_as_empty, json_schema_input_type=Literal["none"] | Several[EscapeOpening]
        ),
    ]
    openings_below_eaves: (
        Annotated[
            Several[OpeningBelow],
            BeforeValidator(
                _none_as_empty, json_schema_input_type=Literal["none"] | Several[OpeningBelow]
            ),
        ]
        | None
    ) = None
    fire_walls: (
        Annotated[
            Several[Distance],
            BeforeValidator(_no_wall, json_schema_input_type=Literal["none"] | Several[Distance]),
        ]
        | None
    ) = None

    @model_validator(mode="after")
    def _check_fire_walls(self) -> Self:
        if self.fire_walls is not None and self.use != "townhouse":
            msg = "fire_walls part townhouses; write use: townhouse, or remove fire_walls"
            raise ValueError(msg)
        return self
