"""The build-up at an attachment on curved tile, from the rafter's top to the module's.

Heights n are normal to the roof from the top of the rafter; positions s run up the slope from
the nose of the tile course that the arm leaves over. Both in inches.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.design.layout import PlacedArray

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


@dataclass(frozen=True, slots=True)
class BuildUp:
    """Heights at one kind of attachment.

    Attributes:
        array: Id of the array.
        deck_in: Top of the sheathing [in].
        underlayment_in: Top of the underlayment, where the plate lies [in].
        batten_in: Top of the battens [in].
        course: The tile courses.
        plate_in: Top of the plate [in].
        plate_foot_s_in: Lower end of the plate, just above the head of the lower tile [in].
        arm_s_in: Lower face of the arm, past the upper tile's nose [in].
        arm_underside_in: Underside of the arm where it passes over the lower tile [in].
        arm_top_in: Top of the arm, underside of the rail [in].
        rail_top_in: Top of the rail, underside of the module [in].
        module_top_in: Top of the module frame [in].
        cover_clearance_in: Underside of the rail above the highest cover [in].
        height_above_roof_in: Module top above the lowest pan under the rail [in].
    """

    array: str
    deck_in: float
    underlayment_in: float
    batten_in: float
    course: TileCourse
    plate_in: float
    plate_foot_s_in: float
    arm_s_in: float
    arm_underside_in: float
    arm_top_in: float
    rail_top_in: float
    module_top_in: float
    cover_clearance_in: float
    height_above_roof_in: float


_PLATE_BEHIND_TILE_IN = 0.25  # room between the head of the lower tile and the plate


def build_up(inputs: Inputs, array: PlacedArray) -> BuildUp:
    """The build-up of an array's hooks on the job's own tile.

    A tile's head lies on its batten and its nose on the head of the tile below, which fixes
    how steep it lies against the roof.
    """
    framing, tile = inputs.framing, inputs.tile
    hook = array.system.attachment
    underlayment = framing.sheathing + framing.underlayment
    batten = underlayment + tile.batten
    nose = batten + tile.length * tile.thickness / tile.exposure
    course = TileCourse(tile.exposure, tile.length, tile.thickness, tile.rise, nose, batten)
    plate = underlayment + hook.plate_thickness
    plate_foot = tile.length + _PLATE_BEHIND_TILE_IN
    arm_s = plate_foot - hook.arm_reach
    arm_top = plate + hook.arm_rise
    rail_top = arm_top + array.system.rail.height
    module_top = rail_top + array.product.depth
    lowest_pan = course.pan_top_in(tile.exposure)
    highest_cover = course.pan_top_in(0.0) + tile.rise
    return BuildUp(
        array=array.id,
        deck_in=framing.sheathing,
        underlayment_in=underlayment,
        batten_in=batten,
        course=course,
        plate_in=plate,
        plate_foot_s_in=plate_foot,
        arm_s_in=arm_s,
        arm_underside_in=course.pan_top_in(arm_s) + hook.clearance_above_tile,
        arm_top_in=arm_top,
        rail_top_in=rail_top,
        module_top_in=module_top,
        cover_clearance_in=arm_top - highest_cover,
        height_above_roof_in=module_top - lowest_pan,
    )
