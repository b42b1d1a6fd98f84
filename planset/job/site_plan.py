"""The lot: its lines, streets and driveway, what else stands on it, where equipment is."""

from typing import Annotated, Literal, Self

from pydantic import BeforeValidator, model_validator

from planset.catalog.fields import Distance, Few, Id, OneOrMore, StrictModel, Text
from planset.job.other_buildings import Place
from planset.job.position import Along
from planset.job.site import Side
from planset.roof.ring import is_outline

GAS_METER = "GM"
HOUSE = "HOUSE"
"""What the plan calls the gas meter and the house."""

Ring = tuple[tuple[float, float], ...]


def ring_of(places: tuple[Place, ...]) -> Ring:
    """Return places as points, inches right of the origin and back from it."""
    return tuple((place.right, place.back) for place in places)


def _as_outline(places: tuple[Place, ...]) -> tuple[Place, ...]:
    """Refuse corners that enclose nothing, or whose sides cross."""
    if not is_outline(ring_of(places)):
        msg = (
            "its corners make no outline, as their lines cross or enclose nothing; list three or "
            "more in the order in which one walks around it"
        )
        raise ValueError(msg)
    return places


def _none_as_empty(value: object) -> object:
    """Let the word `none` stand for what was looked for and is not there; it is never assumed."""
    return () if value == "none" else value


def _none_as_absent(value: object) -> object:
    """Let the word `none` stand for a house without gas.

    Raises:
        ValueError: No value at all; leaving it open is never taken for that.
    """
    if value == "none":
        return None
    if value is None or isinstance(value, str):
        msg = "neither none nor a place; write none, or wall, along and inside"
        raise ValueError(msg)
    return value


class LotLine(StrictModel):
    """A property line, from its corner to the corner of the next entry.

    `setback` is what has to be kept from it, inches; zero where nothing has.
    """

    at: Place
    line: Literal["front", "side", "street_side", "rear"]
    setback: Distance


class Street(StrictModel):
    """A street, and the side of the house it runs along.

    `edge` is how far the edge of its pavement lies beyond the property line, inches; it is not
    drawn where that is left out.
    """

    name: Text
    side: Side
    edge: Distance | None = None


class Outline(StrictModel):
    """A driveway by its corners."""

    corners: OneOrMore[Place]

    @model_validator(mode="after")
    def _check_outline(self) -> Self:
        _as_outline(self.corners)
        return self

    @property
    def ring(self) -> Ring:
        """Its corners, inches right of the origin and back from it."""
        return ring_of(self.corners)


class Structure(Outline):
    """A structure without an array, by the corners of its walls; `words` say what it is."""

    id: Id
    words: Text


class OnWall(StrictModel):
    """A place on the outer wall of a building, the house where `building` is left out.

    `wall` is the side it is seen from, `along` how far it stands from the left end of that side
    as one faces it, inches. Of walls in steps, the one seen there is meant.
    """

    building: Id | None = None
    wall: Side
    along: Along
    inside: bool


class Equipment(OnWall):
    """Where equipment of the electrical section stands, by its tag there."""

    tag: Id


class SitePlan(StrictModel):
    """What C-101 draws; every place is measured from the front left corner of the house.

    `measured_from` tells whether that is the corner of its walls, as one tapes it, or of its roof.
    `driveway`, `structures` and `gas_meter` are `none` only where somebody looked. `access_walk`
    is the way of the fire service on the ground, from the street; planset leads its last leg to
    the nearest point where a pathway meets an eave.
    """

    measured_from: Literal["walls", "roof"]
    source: Text
    setbacks_from: Text
    lot: OneOrMore[LotLine]
    streets: OneOrMore[Street]
    driveway: Annotated[
        Few[Outline],
        BeforeValidator(_none_as_empty, json_schema_input_type=Literal["none"] | Few[Outline]),
    ]
    structures: Annotated[
        Few[Structure],
        BeforeValidator(_none_as_empty, json_schema_input_type=Literal["none"] | Few[Structure]),
    ]
    equipment: OneOrMore[Equipment]
    gas_meter: Annotated[
        OnWall | None,
        BeforeValidator(_none_as_absent, json_schema_input_type=Literal["none"] | OnWall),
    ]
    access_walk: OneOrMore[Place]

    @model_validator(mode="after")
    def _check_lot(self) -> Self:
        if not is_outline(self.lot_ring):
            msg = (
                "the lines of the lot cross or enclose nothing; list its corners in the order in "
                "which one walks around it"
            )
            raise ValueError(msg)
        return self

    @model_validator(mode="after")
    def _check_names(self) -> Self:
        ids = {one.id for one in self.structures} | {one.tag for one in self.equipment}
        taken = ids & {GAS_METER, HOUSE}
        if taken:
            msg = (
                f"{GAS_METER} is the gas meter and {HOUSE} the house on the plan (got "
                f"{', '.join(sorted(taken))} in structures or equipment); write another"
            )
            raise ValueError(msg)
        return self

    @property
    def lot_ring(self) -> Ring:
        """Corners of the lot, inches right of the origin and back from it."""
        return ring_of(tuple(line.at for line in self.lot))
