"""The build-up at an attachment, from the rafter's top to the module's.

Heights n are normal to the roof from the top of the rafter; positions s run up the slope from
the nose of the tile course that the arm of a hook leaves over. Both in inches.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.catalog.attachment import Attachment, HookAttachment
from planset.design.layout import PlacedArray
from planset.job.covering import AsphaltShingle, Covering, CurvedTile, StandingSeam

if TYPE_CHECKING:
    from planset.job.load import Inputs


@dataclass(frozen=True, slots=True)
class TileCourse:
    """How the courses lie, seen from the side in the pan.

    Attributes:
        exposure_in: Nose to nose [in].
        length_in: Length of a tile [in].
        thickness_in: Thickness of the tile [in].
        rise_in: Top of the cover above the top of the pan [in].
        nose_in: Underside of a tile at its nose, above the rafter [in].
        head_in: Underside at its head, on the batten [in].
    """

    exposure_in: float
    length_in: float
    thickness_in: float
    rise_in: float
    nose_in: float
    head_in: float

    def underside_in(self, s_in: float) -> float:
        """Underside of the pan at s from the tile's own nose [in]."""
        return self.nose_in + (self.head_in - self.nose_in) * s_in / self.length_in

    def pan_top_in(self, s_in: float) -> float:
        """Top of the pan at s from the tile's own nose [in]."""
        return self.underside_in(s_in) + self.thickness_in

    @property
    def lowest_pan_in(self) -> float:
        """Top of a pan where it is lowest in sight [in]."""
        return self.pan_top_in(self.exposure_in)

    @property
    def highest_cover_in(self) -> float:
        """Top of a cover where it is highest [in]."""
        return self.pan_top_in(0.0) + self.rise_in


@dataclass(frozen=True, slots=True)
class HookOnTile:
    """How a hook passes between two courses.

    Attributes:
        plate_foot_s_in: Lower end of the plate, just above the head of the lower tile [in].
        arm_s_in: Lower face of the arm, past the upper tile's nose [in].
        arm_underside_in: Underside of the arm where it passes over the lower tile [in].
    """

    plate_foot_s_in: float
    arm_s_in: float
    arm_underside_in: float


@dataclass(frozen=True, slots=True)
class BuildUp:
    """Heights at the attachments of one array, adjustable parts at the middle of their range.

    Attributes:
        array: Id of the array.
        deck_in: Top of the sheathing [in].
        underlayment_in: Top of the underlayment [in].
        batten_in: Top of the battens, of the underlayment where there are none [in].
        low_covering_in: Top of the covering where it is lowest under the rail [in].
        high_covering_in: Where it is highest [in].
        plate_in: Top of the plate; of a seam clamp, top of the seam [in].
        rail_under_in: Underside of the rail [in].
        rail_top_in: Top of the rail [in].
        module_under_in: Underside of the module frame [in].
        module_top_in: Top of the module frame [in].
        adjustment_in: How far the module may be raised from lowest to highest [in].
        cover_clearance_in: Underside of the rail at its lowest above the highest covering [in].
        height_above_roof_in: Module top at its highest above the lowest covering [in].
        course: The tile courses, None under another covering.
        hook: How a hook passes the tile, None with another attachment.
    """

    array: str
    deck_in: float
    underlayment_in: float
    batten_in: float
    low_covering_in: float
    high_covering_in: float
    plate_in: float
    rail_under_in: float
    rail_top_in: float
    module_under_in: float
    module_top_in: float
    adjustment_in: float
    cover_clearance_in: float
    height_above_roof_in: float
    course: TileCourse | None = None
    hook: HookOnTile | None = None


_PLATE_BEHIND_TILE_IN = 0.25  # room between the head of the lower tile and the plate


def build_up(inputs: Inputs, array: PlacedArray) -> BuildUp:
    """The build-up of an array's attachments on the job's own covering."""
    framing, covering = inputs.framing, inputs.job.roof.covering
    system, attachment = array.system, array.system.attachment
    underlayment = framing.sheathing + framing.underlayment
    course = tile_course(covering, underlayment) if isinstance(covering, CurvedTile) else None
    low, high = _covering(covering, course, underlayment)
    batten = underlayment + (covering.batten if isinstance(covering, CurvedTile) else 0.0)
    plate, lowest_seat = _seat(attachment, underlayment, high)
    rail_under = lowest_seat + attachment.adjustment / 2
    rail_top = rail_under + system.rail.height
    foot = (system.foot.lowest + system.foot.highest) / 2 if system.foot else 0.0
    module_under = rail_top + foot
    module_top = module_under + array.product.depth
    return BuildUp(
        array=array.id,
        deck_in=framing.sheathing,
        underlayment_in=underlayment,
        batten_in=batten,
        low_covering_in=low,
        high_covering_in=high,
        plate_in=plate,
        rail_under_in=rail_under,
        rail_top_in=rail_top,
        module_under_in=module_under,
        module_top_in=module_top,
        adjustment_in=system.adjustment_in,
        cover_clearance_in=lowest_seat - high,
        height_above_roof_in=module_top + system.adjustment_in / 2 - low,
        course=course,
        hook=_hook(attachment, course),
    )


def tile_course(tile: CurvedTile, underlayment_in: float) -> TileCourse:
    """How courses of a tile lie.

    A tile's head lies on its batten and its nose on the head of the tile below, which fixes
    how steep it lies against the roof.
    """
    batten = underlayment_in + tile.batten
    nose = batten + tile.length * tile.thickness / tile.exposure
    return TileCourse(tile.exposure, tile.length, tile.thickness, tile.rise, nose, batten)


def _covering(
    covering: Covering, course: TileCourse | None, underlayment_in: float
) -> tuple[float, float]:
    """Top of the covering where it is lowest and highest [in]."""
    if course is not None:
        return course.lowest_pan_in, course.highest_cover_in
    if isinstance(covering, StandingSeam):
        pan = underlayment_in + covering.thickness
        return pan, underlayment_in + covering.seam_height
    thickness = covering.thickness if isinstance(covering, AsphaltShingle) else 0.0
    return underlayment_in + thickness, underlayment_in + thickness


def _seat(
    attachment: Attachment, underlayment_in: float, high_covering_in: float
) -> tuple[float, float]:
    """Top of the plate, and underside of the rail at its lowest seat [in]."""
    if attachment.kind == "seam_clamp":
        return high_covering_in, high_covering_in + attachment.height
    if attachment.kind == "hook":
        plate = underlayment_in + attachment.plate_thickness
        return plate, plate + attachment.arm_rise
    # A flashed foot stands on shingles and flashing, a post on the deck under its flashing.
    base = underlayment_in
    if attachment.kind == "flashed_foot":
        base = high_covering_in + attachment.flashing_thickness
    return base + attachment.plate_thickness, base + attachment.height


def _hook(attachment: Attachment, course: TileCourse | None) -> HookOnTile | None:
    if course is None or not isinstance(attachment, HookAttachment):
        return None
    plate_foot = course.length_in + _PLATE_BEHIND_TILE_IN
    arm = plate_foot - attachment.arm_reach
    return HookOnTile(plate_foot, arm, course.pan_top_in(arm) + attachment.clearance)
