"""Inverters that strings feed."""

from typing import Annotated, Literal, Self

from pydantic import model_validator

from planset.catalog.enclosure import EnclosureType
from planset.catalog.fields import Count, Rating, StrictModel, Text, between


class BatteryPort(StrictModel):
    """The terminals of a hybrid inverter where a battery connects; `listed_with` by its listing."""

    min_v: Rating
    max_v: Rating
    max_current_a: Rating
    listed_with: Text


class BackupOutput(StrictModel):
    """The output of a hybrid inverter that goes on without the grid, and what parts it from it.

    `device_a` is an overcurrent device built into that output, None without one.
    """

    power_w: Rating
    current_a: Rating
    device_a: Rating | None = None
    transfer: Literal["integral"]


class Inverter(StrictModel):
    """A string inverter, or a hybrid one, as its data sheet gives it.

    `fixed_dc_v` is the voltage at which it holds a string of converters, where it is made for them;
    `max_device_a` the largest overcurrent device on its output, None where no document names it;
    `backfeed_a` what it can drive back into its inputs; `grid_current_a` the most that a hybrid one
    takes from the grid to charge and to pass on to its backup output; `terminals_c` the marking of
    its terminals; `enclosure` the type of its enclosure.
    """

    kind: Literal["string_inverter", "hybrid_inverter"]
    maker: Text
    model: Text
    document: Text
    ac_power_w: Rating
    ac_voltage_v: Rating
    ac_current_a: Rating
    max_device_a: Rating | None = None
    grid_current_a: Rating | None = None
    max_dc_v: Rating
    mppt_low_v: Rating
    mppt_high_v: Rating
    start_v: Rating
    inputs: Count
    max_input_isc_a: Rating
    fixed_dc_v: Rating | None = None
    backfeed_a: Annotated[float, between(0.0, 1_000_000.0)]
    neutral: bool
    terminals_c: Literal[60, 75, 90]
    enclosure: EnclosureType | None = None
    dc_disconnect: Literal["integral", "none"]
    ground_fault: Literal["integral", "none"]
    arc_fault: Literal["integral", "none"]
    battery: BatteryPort | None = None
    backup: BackupOutput | None = None
    listing: Text

    @model_validator(mode="after")
    def _check_order(self) -> Self:
        if not self.mppt_low_v < self.mppt_high_v <= self.max_dc_v:
            msg = (
                "mppt_low_v, mppt_high_v and max_dc_v must rise in this order; "
                "check them on the data sheet"
            )
            raise ValueError(msg)
        return self

    @model_validator(mode="after")
    def _check_import(self) -> Self:
        if (self.kind == "hybrid_inverter") != (self.grid_current_a is not None):
            msg = (
                "grid_current_a is what a hybrid_inverter takes from the grid, and belongs to "
                "every one; correct kind, or take it from the data sheet"
            )
            raise ValueError(msg)
        return self

    @model_validator(mode="after")
    def _check_battery(self) -> Self:
        if (self.kind == "hybrid_inverter") != (self.battery is not None):
            msg = "battery belongs to a hybrid_inverter, and only there; correct kind or battery"
            raise ValueError(msg)
        return self
