"""Microinverters."""

from typing import Literal

from planset.catalog.fields import Count, Rating, Size, StrictModel, Text


class Trunk(StrictModel):
    """The listed cable that joins microinverters into a branch; `pitch` between its connectors.

    `conductor` begins with size and material, as 12 AWG copper; `ohm_per_kft` is the resistance of
    a conductor where its maker states it, that of the code's table when left out, and
    `max_rise_percent` the largest rise of voltage that the maker takes along a branch.
    """

    model: Text
    conductor: Text
    pitch: Size
    neutral: bool
    ohm_per_kft: Rating | None = None
    max_rise_percent: Rating | None = None


class Microinverter(StrictModel):
    """A microinverter as its data sheet gives it.

    `max_per_branch` is the most its listing allows behind one device of `branch_device_a`;
    `shutdown` its listing for rapid shutdown, None without one.
    """

    kind: Literal["microinverter"]
    maker: Text
    model: Text
    document: Text
    modules: Count
    ac_power_w: Rating
    ac_voltage_v: Rating
    ac_current_a: Rating
    max_dc_v: Rating
    mppt_low_v: Rating
    mppt_high_v: Rating
    start_v: Rating
    max_input_isc_a: Rating
    max_per_branch: Count
    branch_device_a: Rating
    trunk: Trunk
    shutdown: Text | None = None
    listing: Text
