"""Runs of conductors: how they go, in what, and what the drafter has fixed of them."""

from collections.abc import Iterator
from typing import Annotated, Literal, NamedTuple, Self

from pydantic import Discriminator, Field, Tag, model_validator

from planset.catalog.fields import (
    Count,
    Id,
    OneOrMore,
    Size,
    StrictModel,
    Temperature,
    Text,
    Voltage,
    one_of,
)
from planset.job.electrical.conductors import ConductorSize, Insulation
from planset.job.position import Position


class RoofPlace(StrictModel):
    """A raceway in the sun on a roof plane, `gap` clear above it.

    Its length, or the points it goes by on the plane, in order toward the service.
    """

    place: Literal["roof"]
    gap: Size
    length: Size | None = None
    plane: Text | None = None
    route: Annotated[tuple[Position, ...], Field(strict=False)] = ()

    @model_validator(mode="after")
    def _check_length(self) -> Self:
        if (self.length is None) == (len(self.route) == 0):
            msg = "give either length or plane and route; one of the two"
            raise ValueError(msg)
        if self.route and (self.plane is None or len(self.route) < 2):
            msg = "a route needs its plane and two points or more; add them"
            raise ValueError(msg)
        return self


class AtticPlace(StrictModel):
    """An attic, with the highest temperature there."""

    place: Literal["attic"]
    length: Size
    ambient: Temperature


class OtherPlace(StrictModel):
    """A wall out of the sun's reach above a roof, a room, the ground: at the site's ambient."""

    place: Literal["wall", "indoors", "underground"]
    length: Size


class ArrayPlace(StrictModel):
    """Under the modules, in free air: single conductors fixed to frames and rails."""

    place: Literal["array"]
    length: Size


Place = Annotated[RoofPlace | AtticPlace | OtherPlace | ArrayPlace, Field(discriminator="place")]


class Run(StrictModel):
    """One run of conductors; what is left open is sized.

    `raceway` is "none" for single conductors in free air. `diameter` is the maker's outside
    diameter of photovoltaic wire, which has no standard one. `other_conductors` counts the
    current-carrying conductors of other circuits in the same raceway. `voltage_rating` is what is
    marked on the conductors.
    """

    insulation: Insulation
    material: Literal["copper", "aluminum"]
    raceway: Literal["none", "emt", "rmc", "pvc40", "pvc80", "fmc"]
    places: OneOrMore[Place]
    size: ConductorSize | None = None
    grounding: ConductorSize | None = None
    trade_size: Text | None = None
    diameter: Size | None = None
    voltage_rating: Voltage | None = None
    other_conductors: Annotated[int, Field(ge=0, le=60)] = 0


class RunOfBox(Run):
    """A run of the circuits that one junction box holds, where there are several boxes.

    `shared` is the length at its end toward the service that it has in one raceway with the other
    runs of its list that state it; they all state the same, with conductors and raceways alike.
    `joined_in` is the box in which their raceways become one: a junction box or a pull box.
    """

    junction_box: Id
    shared: Size | None = None
    joined_in: Id | None = None

    @property
    def alike(self) -> tuple[object, ...]:
        """What runs that share a raceway have in common.

        One grounding conductor serves them there, and conductors of other circuits heat them all.
        """
        return (
            self.insulation,
            self.material,
            self.raceway,
            self.size,
            self.trade_size,
            self.grounding,
            self.other_conductors,
        )


def _how_stated(value: object) -> str:
    return "list" if isinstance(value, list | tuple) else "run"


RunOrRuns = Annotated[
    Annotated[Run, Tag("run")] | Annotated[OneOrMore[RunOfBox], Tag("list")],
    Discriminator(_how_stated),
]
"""One run, or a list with a run for each junction box."""


class StatedRun(NamedTuple):
    """A run where it is stated.

    Attributes:
        name: Its field in `Wiring`.
        box: Junction box whose circuits it carries, "" where that is not said.
        place: Its field, and in a list its number there.
        run: The run.
    """

    name: str
    box: str
    place: tuple[str | int, ...]
    run: Run


class Wiring(StrictModel):
    """The runs of the system, from the array to the service, and the terminals they end at.

    `terminals` is the lowest marking among breakers, disconnects, boxes and panels. Which runs
    there are follows from the system: `array` and `dc` of strings, `branch` of microinverters,
    `output` of each inverter, `combined` past a combiner, `connection` from the disconnect,
    `feeder` of a subpanel, `battery` and `backup` of a hybrid inverter. With several junction boxes
    `dc` and `branch` are lists with a run from each of them, and `array` may be one.
    """

    terminals: Annotated[int, one_of(60, 75, 90)]
    array: RunOrRuns | None = None
    dc: RunOrRuns | None = None
    branch: RunOrRuns | None = None
    output: Run | None = None
    combined: Run | None = None
    connection: Run | None = None
    feeder: Run | None = None
    battery: Run | None = None
    backup: Run | None = None

    @property
    def runs(self) -> tuple[StatedRun, ...]:
        """The runs that are stated, from the array to the service."""
        return tuple(self._stated())

    def _stated(self) -> Iterator[StatedRun]:
        for name, given in self:
            if isinstance(given, Run):
                yield StatedRun(name, "", (name,), given)
            elif isinstance(given, tuple):
                for number, run in enumerate(given):
                    yield StatedRun(name, run.junction_box, (name, number), run)

    def stated(self, name: str, box: str = "") -> StatedRun | None:
        """Return the run of circuits of a junction box, None where none is stated.

        Args:
            name: Its field.
            box: Id of the junction box; it tells among the runs of a list only.
        """
        return next((s for s in self.runs if s.name == name and s.box in ("", box)), None)

    def run(self, name: str, box: str = "") -> Run | None:
        """Return the run of circuits of a junction box as `stated` finds it."""
        found = self.stated(name, box)
        return found.run if found else None


class WireClips(StrictModel):
    """How module leads and array conductors are held."""

    per_module: Count
    spacing: Size
