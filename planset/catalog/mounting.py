"""Mounting systems: rails, attachments, fasteners, and the capacities their makers document."""

from typing import Annotated, Literal

from planset.catalog.fields import (
    Count,
    CoveringKind,
    Distance,
    Force,
    OneOrMore,
    Size,
    StrictModel,
    Text,
    between,
    tabulated,
)
from planset.catalog.rail import RailProfile
from planset.codes.nds.lag_screws import lag_dimensions, thread_length_in

PlateSteel = Literal["a36", "a653-grade-33"]


class Lags(StrictModel):
    """The lag screws of one attachment; `spacing` lies along the rafter, inches."""

    count: Count
    diameter: Annotated[Size, tabulated(lag_dimensions, "a lag screw diameter")]
    length: Annotated[Size, tabulated(thread_length_in, "a lag screw length")]
    spacing: Size
    pilot: Size


class Capacity(StrictModel):
    """What one attachment holds in one direction, pounds, and where that is documented.

    Document and page may be absent: a rule then leaves the structural findings open.
    """

    capacity: Force
    basis: Literal["ASD", "LRFD"]
    document: Text | None = None
    page: Count | None = None


class HookAttachment(StrictModel):
    """A hook: a plate on the rafter with an arm that carries the rail; sizes in inches.

    `uplift` acts away from the roof, `downward` toward it, `along_slope` down the slope.
    `plate_steel` is what the plate is rolled from, for the bearing of the screws on it.
    `side_adjustment` is how far the arm may stand off the middle of its plate to either side,
    the rail staying over the plate; the capacities must hold for it anywhere in that range.
    """

    name: Text
    kind: Literal["hook"]
    suits: OneOrMore[CoveringKind]
    plate_width: Size
    plate_length: Size
    plate_thickness: Size
    plate_steel: PlateSteel
    arm_width: Size
    arm_thickness: Size
    arm_rise: Size
    arm_reach: Size
    clearance_above_tile: Distance
    side_adjustment: Distance
    lags: Lags
    uplift: Capacity
    downward: Capacity
    along_slope: Capacity
    weatherproofing: OneOrMore[Text]
    torque: Text


class MountingSystem(StrictModel):
    """Rails and attachments of one listing; the dead load includes modules, psf.

    `modules_coupled` is true where couplings carry the module edges from rail to rail, so that
    a module may rest on a single rail.
    """

    kind: Literal["rail_and_hook"]
    maker: Text
    model: Text
    family: Literal["rails_up_the_slope"]
    bonding: Text
    modules_coupled: bool
    dead_load_psf: Annotated[float, between(0.1, 50, "psf")]
    document: Text
    rail: RailProfile
    attachment: HookAttachment
