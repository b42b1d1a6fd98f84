"""Rapid shutdown equipment."""

from typing import Literal

from planset.catalog.fields import Count, Rating, StrictModel, Text
from planset.catalog.module import Leads


class ShutdownDevice(StrictModel):
    """A module-level shutdown device with its transmitter; `leads` those of its output.

    `listing` names after `with` the inverters or transmitters that it holds for.
    `current_basis` tells what of a module `max_current_a` is compared with: "isc", or "maximum",
    1.25 times that; `safe_v` what one leaves on its string after shutdown, None where no sheet
    tells.
    """

    kind: Literal["module_shutdown"]
    maker: Text
    model: Text
    document: Text
    modules_per_device: Count
    max_input_v: Rating
    max_current_a: Rating
    current_basis: Literal["isc", "maximum"]
    max_system_v: Rating
    safe_v: Rating | None = None
    transmitter: Text
    leads: Leads | None = None
    listing: Text


class HazardControl(StrictModel):
    """A listed hazard-control system: mounting, modules and wiring methods listed together.

    `conditions` is what its listing asks of the array, as printed.
    """

    kind: Literal["hazard_control"]
    maker: Text
    model: Text
    document: Text
    conditions: Text
    listing: Text
