"""Inverters."""

from typing import Literal, Self

from pydantic import model_validator

from planset.catalog.fields import Count, Rating, StrictModel, Text


class Inverter(StrictModel):
    """A string inverter as its data sheet gives it."""

    kind: Literal["string_inverter"]
    maker: Text
    model: Text
    document: Text
    ac_power_w: Rating
    ac_voltage_v: Rating
    ac_current_a: Rating
    max_dc_v: Rating
    mppt_low_v: Rating
    mppt_high_v: Rating
    start_v: Rating
    inputs: Count
    max_input_isc_a: Rating
    dc_disconnect: Literal["integral", "none"]
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
