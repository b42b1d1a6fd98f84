"""Where hooks leave the tile: at a lap of two courses, and in a pan.

At a lap the plate lies behind the head of the lower tile and the arm comes out under the nose of
the upper one, so that the hook may slide from where its plate all but touches the lower tile to
where the back of its arm is at the nose. Distances are on the surface, from the eave's edge up
the slope and from the left end of the eave [in].
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.catalog.attachment import HookAttachment
from planset.design.buildup import BuildUp
from planset.design.layout import PlacedArray
from planset.design.racking import Racking
from planset.design.rails_up import attachment_places

if TYPE_CHECKING:
    from planset.job.load import Inputs

_NOISE_IN = 1e-9
_STEPS_PER_IN = 16  # a tape's


@dataclass(frozen=True, slots=True)
class Laps:
    """The laps of a plane, and how far below an upper course's nose an arm's face may be.

    Attributes:
        first_in: Nose of the second course, from the eave's edge [in].
        exposure_in: From lap to lap [in].
        least_below_in: The arm's back at the nose [in].
        most_below_in: The plate just behind the head of the lower tile [in].
    """

    first_in: float
    exposure_in: float
    least_below_in: float
    most_below_in: float

    @property
    def reachable(self) -> bool:
        """Whether the arm is long enough to come out below the nose at all."""
        return self.most_below_in >= self.least_below_in - _NOISE_IN

    def places(self, number: int) -> tuple[float, float]:
        """From where to where an arm's face may be at a lap, the first one number 0 [in]."""
        nose = self.first_in + number * self.exposure_in
        return nose - self.most_below_in, nose - self.least_below_in

    def shift_in(self, v_in: float) -> float:
        """How far up the slope an arm's face at v must move to the nearest lap, down negative.

        Zero at a lap. There is no lap below the first.
        """
        passed = (v_in + self.most_below_in - self.first_in) / self.exposure_in
        number = max(math.floor(passed), 0)
        shifts = []
        for low, high in (self.places(number), self.places(number + 1)):
            shifts.append(max(low - v_in, 0.0) + min(high - v_in, 0.0))
        shift = min(shifts, key=abs)
        return shift if abs(shift) > _NOISE_IN else 0.0

    def room_in(self, v_in: float) -> float:
        """How far an arm's face at a lap is from the nearer end of its place there [in]."""
        passed = (v_in + self.most_below_in - self.first_in) / self.exposure_in
        low, high = self.places(max(math.floor(passed + _NOISE_IN), 0))
        return min(v_in - low, high - v_in)

    def below_in(self, v_in: float) -> float:
        """How far an arm's face at v is below the nose of the nearest lap, above it negative."""
        at_lap = v_in + self.shift_in(v_in)
        passed = (at_lap + self.most_below_in - self.first_in) / self.exposure_in
        number = max(math.floor(passed + _NOISE_IN), 0)
        return self.first_in + number * self.exposure_in - v_in

    def shift_to_room_in(self, v_in: float, room_in: float) -> float | None:
        """How far up the slope an arm's face at a lap must move to have a room, down negative.

        None where its place at a lap is too short to have it [in].
        """
        passed = (v_in + self.most_below_in - self.first_in) / self.exposure_in
        low, high = self.places(max(math.floor(passed + _NOISE_IN), 0))
        if high - low < 2 * room_in - _NOISE_IN:
            return None
        return max(low + room_in - v_in, 0.0) + min(high - room_in - v_in, 0.0)


@dataclass(frozen=True, slots=True)
class Pans:
    """The pans of a plane.

    Attributes:
        first_in: Middle of the first one, from the left end of the eave [in].
        pitch_in: From middle to middle [in].
    """

    first_in: float
    pitch_in: float

    def side_in(self, u_in: float) -> float:
        """How far to the right of u the middle of the nearest pan is, left negative [in]."""
        number = round((u_in - self.first_in) / self.pitch_in)
        return self.first_in + number * self.pitch_in - u_in


@dataclass(frozen=True, slots=True)
class HookPlace:
    """How one hook meets the tile.

    Attributes:
        attachment: Its tag.
        line: Number of its rafter.
        shift_in: How far up the slope it must move to the nearest lap, down negative [in].
        side_in: How far right of its plate its arm must stand to sit in the nearest pan, left
            negative [in].
        below_in: The face of its arm below the nose of the nearest lap [in].
    """

    attachment: str
    line: int
    shift_in: float
    side_in: float
    below_in: float


@dataclass(frozen=True, slots=True)
class TileFit:
    """How the hooks of an array meet the tile.

    Attributes:
        array: Id of the array.
        hook: What it is held by.
        laps: Laps of its plane.
        pans: Pans of its plane.
        hooks: Its hooks in order.
    """

    array: str
    hook: HookAttachment
    laps: Laps
    pans: Pans
    hooks: tuple[HookPlace, ...]


def tile_fit(inputs: Inputs, array: PlacedArray, rack: Racking, built: BuildUp) -> TileFit | None:
    """How the hooks of an array meet the tile of its plane; None with other attachments.

    Args:
        inputs: The job.
        array: The array.
        rack: Its rails and attachments.
        built: Heights at them; the arm's length between two courses follows from it.

    Raises:
        ValueError: The tile of the array's plane is not surveyed.
    """
    found = laps_and_pans(inputs, array, built)
    attachment = array.system.attachment
    if found is None or not isinstance(attachment, HookAttachment):
        return None
    laps, pans = found
    hooks = tuple(
        HookPlace(
            hook.id,
            hook.line,
            laps.shift_in(hook.v_in),
            pans.side_in(hook.u_in),
            laps.below_in(hook.v_in),
        )
        for hook in rack.attachments
    )
    return TileFit(array.id, attachment, laps, pans, hooks)


def laps_and_pans(inputs: Inputs, array: PlacedArray, built: BuildUp) -> tuple[Laps, Pans] | None:
    """Where the hooks of an array may leave the tile; None with other attachments.

    Args:
        inputs: The job.
        array: The array.
        built: Heights at its attachments.

    Raises:
        ValueError: The tile of the array's plane is not surveyed.
    """
    hook = array.system.attachment
    if not isinstance(hook, HookAttachment) or built.hook is None:
        return None
    tile, plane = inputs.tile, array.plane.id
    laps = Laps(
        first_in=tile.first_course_on(plane),
        exposure_in=tile.exposure,
        least_below_in=hook.arm_thickness,
        most_below_in=tile.exposure - max(built.hook.arm_s_in, 0.0),
    )
    return laps, Pans(tile.first_pan_on(plane), tile.pan_pitch)


def all_at_laps(
    laps: Laps, rack: Racking, first_in: float, spacing_in: float
) -> tuple[float, float] | None:
    """First attachment and spacing that put every hook of an array at a lap [in].

    The spacing is the most whole courses within the stated one, one course at least; the first
    attachment is the nearest to the stated one. Both are as a tape reads them, in sixteenths.

    Args:
        laps: The laps of its plane.
        rack: Its rails.
        first_in: First attachment as stated, from the lower end of a rail [in].
        spacing_in: Spacing as stated [in].

    Returns:
        None where no first attachment suits all rails, as when they do not begin whole courses
        apart.
    """
    courses = max(math.floor(spacing_in / laps.exposure_in + _NOISE_IN), 1)
    spacing = _on_tape(courses * laps.exposure_in)
    rails = {(rail.start_in, rail.end_in) for rail in rack.rails}
    reach = round(laps.exposure_in * _STEPS_PER_IN)
    stated = _on_tape(first_in)
    nearby = sorted((n / _STEPS_PER_IN for n in range(-reach, reach + 1)), key=abs)
    for first in (stated + step for step in nearby if stated + step >= 0):
        places = [attachment_places(v0 + first, v1, spacing) for v0, v1 in rails]
        if all(places) and not any(laps.shift_in(v) for rail in places for v in rail):
            return first, spacing
    return None


def _on_tape(distance_in: float) -> float:
    return round(distance_in * _STEPS_PER_IN) / _STEPS_PER_IN
