"""The electrical system and the service it feeds."""

from typing import Annotated, Literal

from planset.catalog.fields import (
    CatalogName,
    Count,
    Current,
    Id,
    OneOrMore,
    StrictModel,
    Text,
    Voltage,
    one_of,
)


class StringOfModules(StrictModel):
    """Modules of one array in series on one inverter input."""

    id: Id
    array: Text
    modules: Count
    input: Count


class Disconnect(StrictModel):
    """The photovoltaic system disconnect; rating in amperes."""

    rating: Current
    location: Text


class Interconnection(StrictModel):
    """The point of interconnection; breaker in amperes, its place seen from the main breaker."""

    method: Literal["load_side_breaker"]
    breaker: Current
    position: Literal["opposite_main", "elsewhere"]


class Service(StrictModel):
    """The service as surveyed; volts and amperes."""

    voltage: Voltage
    phases: Annotated[int, one_of(1, 3)]
    bus: Current
    main: Current
    location: Text
    source: Text

    @property
    def poles(self) -> int:
        """Poles of a breaker on the service: one for each ungrounded conductor."""
        return 3 if self.phases == 3 else 2


class Electrical(StrictModel):
    """The electrical system. Without `shutdown` none is stated, which a rule then judges."""

    system: Literal["string_inverter"]
    inverter: CatalogName
    shutdown: CatalogName | None = None
    initiator: Literal["pv_disconnect", "service_disconnect", "switch"] | None = None
    strings: OneOrMore[StringOfModules]
    junction_box: Text
    disconnect: Disconnect
    interconnection: Interconnection
    service: Service
