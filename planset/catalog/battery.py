"""Energy storage on the dc side of a hybrid inverter."""

from typing import Literal

from planset.catalog.enclosure import EnclosureType
from planset.catalog.fields import Count, Rating, Size, StrictModel, Text, Weight


class Battery(StrictModel):
    """A listed battery unit as its data sheet gives it; `max_parallel` units on one port.

    `device` is what is built into the unit, of `device_a`, and `device_interrupting_a` what it
    interrupts, None where no sheet tells.
    """

    kind: Literal["battery"]
    maker: Text
    model: Text
    document: Text
    energy_kwh: Rating
    power_w: Rating
    max_v: Rating
    max_current_a: Rating
    device: Literal["breaker", "fuse"]
    device_a: Rating
    device_interrupting_a: Rating | None = None
    fault_current_a: Rating
    max_parallel: Count
    live_parts: Literal["enclosed", "accessible"]
    disconnect: Literal["integral", "none"]
    enclosure: EnclosureType | None = None
    width: Size
    height: Size
    depth: Size
    weight: Weight
    listing: Text
