"""Roof attachments: what stands on the roof and carries a rail, and what its maker documents."""

from typing import Annotated, Literal

from pydantic import Field

from planset.catalog.fields import (
    Count,
    CoveringKind,
    Distance,
    Force,
    OneOrMore,
    Several,
    Size,
    StrictModel,
    Text,
    above,
    between,
    tabulated,
)
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


class Supply(StrictModel):
    """Something else that one attachment takes, as a piece of flashing, tape or sealant.

    `amount` is what one attachment takes, in `unit`; what is ordered is rounded up.
    """

    name: Text
    amount: Annotated[float, above(0), between(0.001, 1000)]
    unit: Literal["each", "in", "fl oz"]


class _Attachment(StrictModel):
    """What every attachment has.

    `uplift` acts away from the roof, `downward` toward it, `along_slope` down the slope.
    `adjustment` is how far the rail may be raised from its lowest seat, inches. `supplies` are
    what weatherproofing takes beyond the flashing whose sizes the attachment states.
    """

    name: Text
    suits: OneOrMore[CoveringKind]
    uplift: Capacity
    downward: Capacity
    along_slope: Capacity
    weatherproofing: OneOrMore[Text]
    supplies: Several[Supply] = ()
    torque: Text
    adjustment: Distance = 0.0

    @property
    def footprint(self) -> tuple[float, float]:
        """What stands on the roof: across the slope and along it, inches."""
        raise NotImplementedError

    @property
    def plate_up(self) -> float:
        """From the mark it is laid out by up the slope to its middle, inches."""
        return 0.0


class _OnRafter(_Attachment):
    """An attachment whose plate is screwed to a rafter; sizes in inches.

    `plate_width` lies across the rafter, `plate_length` along it. `plate_steel` is what the plate
    is rolled from, for the bearing of the screws on it. `clearance` is what the rail keeps over
    the covering.
    """

    plate_width: Size
    plate_length: Size
    plate_thickness: Size
    plate_steel: PlateSteel
    lags: Lags
    clearance: Distance

    @property
    def footprint(self) -> tuple[float, float]:
        """The plate: across the rafter and along it, inches."""
        return self.plate_width, self.plate_length

    @property
    def lags_up(self) -> tuple[float, ...]:
        """From the mark it is laid out by up the slope to each lag screw, inches."""
        first = self.plate_up - (self.lags.count - 1) * self.lags.spacing / 2
        return tuple(first + n * self.lags.spacing for n in range(self.lags.count))


class HookAttachment(_OnRafter):
    """A hook: a plate on the rafter with an arm that carries the rail; sizes in inches.

    It is laid out by the lower face of its arm, `arm_reach` down the slope from the plate.
    `side_adjustment` is how far the arm may stand off the middle of its plate to either side,
    the rail staying over the plate; the capacities must hold for it anywhere in that range.
    """

    kind: Literal["hook"]
    arm_width: Size
    arm_thickness: Size
    arm_rise: Size
    arm_reach: Size
    side_adjustment: Distance

    @property
    def plate_up(self) -> float:
        """From the lower face of the arm up the slope to the plate's middle, inches."""
        return self.arm_reach + self.plate_length / 2


class StandoffAttachment(_OnRafter):
    """A post on a plate, through a flashing of its own; inches.

    `height` runs from the underside of the plate to the rail's, `post_diameter` is outside. The
    flashing is `flashing_width` across and `flashing_length` up the slope, `flashing_above` of
    it above the post's middle. On tile at least `flashing_lap` of it runs under the course above;
    where the maker states none, the lap of the tile's own courses holds.
    """

    kind: Literal["standoff"]
    post_diameter: Size
    height: Size
    flashing_width: Size
    flashing_length: Size
    flashing_above: Size
    flashing_lap: Size | None = None


class FlashedFootAttachment(_OnRafter):
    """A foot on a flashing that is tucked under the shingle courses; inches.

    `height` runs from the underside of the plate to the rail's at its lowest seat. The flashing
    reaches `flashing_above` up the slope from the middle of the plate and lies
    `flashing_thickness` under it.
    """

    kind: Literal["flashed_foot"]
    height: Size
    flashing_width: Size
    flashing_length: Size
    flashing_above: Size
    flashing_thickness: Size


class SeamClampAttachment(_Attachment):
    """A clamp on a standing seam, without any hole; inches.

    `profiles` are the seams it was tested on, by the names their makers give. `height` runs from
    the top of the seam to the rail's underside; `length` lies along the seam.
    """

    kind: Literal["seam_clamp"]
    profiles: OneOrMore[Text]
    width: Size
    length: Size
    height: Size
    set_screws: Count

    @property
    def footprint(self) -> tuple[float, float]:
        """The clamp: across the seam and along it, inches."""
        return self.width, self.length


Attachment = Annotated[
    HookAttachment | StandoffAttachment | FlashedFootAttachment | SeamClampAttachment,
    Field(discriminator="kind"),
]
"""Any attachment."""

OnRafter = HookAttachment | StandoffAttachment | FlashedFootAttachment
"""One that is screwed to a rafter."""
