"""What makes the power, and what gathers it: inverters, strings, branches, boxes, batteries."""

from typing import Annotated, Literal

from pydantic import BeforeValidator

from planset.catalog.enclosure import EnclosureType
from planset.catalog.fields import (
    CatalogName,
    Count,
    Current,
    FaultCurrent,
    Few,
    Id,
    Size,
    StrictModel,
    Text,
    Voltage,
    one_of,
)
from planset.job.electrical.control import EmergencyShutdown
from planset.job.position import Position


class JunctionBox(StrictModel):
    """A box on the roof where the conductors of the array go over into a raceway.

    `at` is a place on the plane of `array`, at its perimeter; `voltage` the rating of the box and
    of what joins conductors in it.
    """

    id: Id
    array: Text
    at: Position
    voltage: Voltage | None = None
    enclosure: EnclosureType | None = None


class PullBox(StrictModel):
    """A box in which raceways of several junction boxes become one."""

    id: Id
    location: Text
    enclosure: EnclosureType


class DcDisconnect(StrictModel):
    """A dc disconnect apart from the inverter; volts and amperes."""

    id: Id
    rating: Current
    voltage: Voltage
    enclosure: EnclosureType | None = None
    location: Text


class PlacedInverter(StrictModel):
    """One string or hybrid inverter; its breaker in the combiner is left open for the smallest."""

    id: Id
    model: CatalogName
    location: Text
    junction_box: Id
    dc_disconnect: DcDisconnect | None = None
    breaker: Current | None = None


class StringOfModules(StrictModel):
    """Modules of one array in series on one input; `inverter` may be left out if there is one.

    `junction_box` is where it goes over into the raceway, that of its inverter when left out.
    `fuse` is the rating of the string's fuse, stated to be checked.
    """

    id: Id
    array: Text
    modules: Count
    inverter: Id | None = None
    input: Count
    junction_box: Id | None = None
    fuse: Current | None = None


class Branch(StrictModel):
    """Modules of one array on microinverters in one branch circuit.

    `breaker` is left open for the smallest.
    """

    id: Id
    array: Text
    modules: Count
    inverter: CatalogName
    junction_box: Id
    breaker: Current | None = None


def _no_opening(value: object) -> object:
    """Let the word `none` stand for no door or window near.

    Raises:
        ValueError: No value at all; that none is near is never assumed.
    """
    if value is None:
        msg = "no value; write the distance, or none where somebody looked and found none near"
        raise ValueError(msg)
    return None if value == "none" else value


class Storage(StrictModel):
    """Batteries on the battery port of the hybrid inverter.

    `place` is where they stand; `to_openings` the least distance to a door or window of the
    dwelling, `none` only where somebody looked and found none near; `smoke_alarms` whether the
    dwelling has interconnected alarms as the residential code asks; `vehicle_barrier` what keeps a
    car off; `shutdown_switch` the emergency shutdown device outdoors, None where none is stated.
    """

    id: Id
    model: CatalogName
    count: Count
    location: Text
    place: Literal["attached_garage", "detached_garage", "outdoors", "utility_room", "living_space"]
    apart: Size | None = None
    to_openings: Annotated[
        Size | None, BeforeValidator(_no_opening, json_schema_input_type=Literal["none"] | Size)
    ]
    vehicle_barrier: Literal["present", "not_exposed", "none"]
    smoke_alarms: Literal["present", "none"]
    shutdown_switch: EmergencyShutdown | None = None


class BackupCircuit(StrictModel):
    """A branch circuit that a backup panel feeds."""

    name: Text
    breaker: Current
    poles: Annotated[int, one_of(1, 2, 3)] = 1


class BackupPanel(StrictModel):
    """The panel of the loads that a hybrid inverter goes on feeding; load in amperes.

    Without `main` it has lugs only. `interrupting` is the rating of its main and breakers.
    `circuits` are those it feeds, in the order of its breakers.
    """

    id: Id
    bus: Current
    main: Current | None = None
    interrupting: FaultCurrent | None = None
    load: Current
    circuits: Few[BackupCircuit] = ()
    enclosure: EnclosureType | None = None
    neutral_bond: Literal["service_only", "switched_by_inverter"]
    location: Text
