"""The service, what connects to it, and what the utility asks."""

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from planset.catalog.enclosure import EnclosureType
from planset.catalog.fields import (
    Current,
    Date,
    FaultCurrent,
    Few,
    Id,
    Percent,
    Rating,
    Several,
    Size,
    StrictModel,
    Text,
    Voltage,
    one_of,
)
from planset.job.electrical.conductors import ConductorSize
from planset.job.electrical.fuses import Fuses


class ServiceConductors(StrictModel):
    """The ungrounded service conductors as surveyed; size such as "4/0"."""

    size: ConductorSize
    material: Literal["copper", "aluminum"]


class GroundingElectrode(StrictModel):
    """An electrode of the service and the conductor found at it.

    `resistance` is its resistance to earth where it was measured, in ohms.
    """

    kind: Literal["water_pipe", "rod", "concrete_encased"]
    size: ConductorSize
    material: Literal["copper", "aluminum"]
    resistance: Rating | None = None


class ExistingSource(StrictModel):
    """A power source that feeds the bus already; amperes of output and of its breaker."""

    name: Text
    current: Current
    breaker: Current


class Service(StrictModel):
    """The service as surveyed; volts and amperes.

    `feed` tells where the main feeds the bus; `fault_current` is what the utility makes available
    at the service, by `fault_source`; `supplemental_electrodes` are those beside `electrode`;
    `load_breakers` the sum of the ratings of all load breakers
    on the bus, where it was counted.
    """

    voltage: Voltage
    phases: Annotated[int, one_of(1, 3)]
    bus: Current
    main: Current
    feed: Literal["end", "center"]
    location: Text
    meter: Text
    conductors: ServiceConductors
    electrode: GroundingElectrode
    supplemental_electrodes: Few[GroundingElectrode] = ()
    fault_current: FaultCurrent
    fault_source: Text
    interrupting: FaultCurrent
    existing_sources: Few[ExistingSource] = ()
    load_breakers: Current | None = None
    source: Text

    @property
    def poles(self) -> int:
        """Poles of a breaker on the service: one for each ungrounded conductor."""
        return 3 if self.phases == 3 else 2


class LoadLine(StrictModel):
    """One line of a load calculation: what it is, in VA, and the share of it that counts."""

    what: Text
    va: Rating
    percent: Percent = 100.0

    @property
    def counted_va(self) -> float:
        """What counts of it [VA]."""
        return self.va * self.percent / 100


class LoadCalculation(StrictModel):
    """The load of the service by article 220, worked out by someone and handed in with the job.

    `covers_backup` tells whether it counts what a hybrid inverter takes from the grid: the loads of
    the backup panel, and charging. `lines` are printed where given, and come to the load.
    """

    load: Current
    method: Literal["part III", "220.82", "220.83", "220.87"]
    document: Text
    date: Date
    covers_backup: bool | None = None
    lines: Several[LoadLine] = ()


class MainDerate(StrictModel):
    """A smaller main in place of the service's; left open for the largest that serves."""

    main: Current | None = None
    interrupting: FaultCurrent
    calculation: LoadCalculation | None = None


class Combiner(StrictModel):
    """An ac combiner panel for the outputs of several inverters or branches.

    Without `main` it has lugs only.
    """

    id: Id
    bus: Current
    main: Current | None = None
    interrupting: FaultCurrent
    enclosure: EnclosureType | None = None
    location: Text


class Disconnect(StrictModel):
    """The photovoltaic system disconnect at the ac side.

    `fuse` is left open for the smallest where the switch is `fused`, `fuses` tells what else is
    marked on them. `interrupting` is its own marking; `service_rated` whether it is marked suitable
    for use as service equipment.
    """

    rating: Current
    fused: bool
    fuse: Current | None = None
    fuses: Fuses | None = None
    interrupting: FaultCurrent
    lockable: bool
    visible_open: bool
    service_rated: bool = False
    enclosure: EnclosureType | None = None
    location: Text


class LoadSideBreaker(StrictModel):
    """A back-fed breaker on the service bus, its place seen from the main breaker."""

    method: Literal["load_side_breaker"]
    breaker: Current | None = None
    position: Literal["opposite_main", "elsewhere"]
    interrupting: FaultCurrent


class SubpanelBreaker(StrictModel):
    """A back-fed breaker in a subpanel that a feeder from the service panel supplies.

    `feeder_breaker` stands in the service panel, at `feeder_position` of its bus.
    """

    method: Literal["subpanel_breaker"]
    breaker: Current | None = None
    position: Literal["opposite_main", "elsewhere"]
    interrupting: FaultCurrent
    subpanel: Id
    bus: Current
    main: Current | None = None
    location: Text
    feeder_breaker: Current
    feeder_position: Literal["opposite_main", "elsewhere"]


class TapElectrode(StrictModel):
    """How a disconnect ahead of the main is led to the electrodes of the service, by `source`.

    `common` is a tap on the service's grounding electrode conductor, `individual` a conductor of
    its own to the electrode, `not_required` what an authority says that takes the service's for it.
    """

    way: Literal["common", "individual", "not_required"]
    size: ConductorSize | None = None
    material: Literal["copper", "aluminum"] = "copper"
    source: Text

    @model_validator(mode="after")
    def _check_size(self) -> Self:
        if (self.size is None) != (self.way == "not_required"):
            msg = "size belongs to a conductor, and only there; add it, or write way: not_required"
            raise ValueError(msg)
        return self


class SupplySideTap(StrictModel):
    """A connection between meter and main; the device is the fuse of the disconnect.

    `distance` runs along the conductors from the connection to that device; `electrode` is left
    out where nobody has said how its disconnect is led to the electrodes.
    """

    method: Literal["supply_side_tap"]
    connector: Text
    distance: Size
    location: Text
    electrode: TapElectrode | None = None


Interconnection = Annotated[
    LoadSideBreaker | SubpanelBreaker | SupplySideTap, Field(discriminator="method")
]


class ProductionMeter(StrictModel):
    """A meter of what the system makes."""

    location: Text
    owner: Literal["utility", "customer"]


class UtilityRules(StrictModel):
    """What the utility asks of the connection, by `source`.

    `within` is the greatest distance of the disconnect from the meter, None where none is fixed.
    """

    disconnect: Literal["required", "not_required"]
    lockable: bool
    visible_open: bool
    within: Size | None = None
    production_meter: Literal["required", "not_required"]
    source: Text
