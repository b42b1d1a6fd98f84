"""The strip of modules that one rail carries, and what it touches from end to end."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from planset.codes.asce7 import solar_panels
from planset.design.attachment_loads import OnShares, Zones
from planset.design.layout import PlacedModule
from planset.design.wind_arrays import ModuleExposure
from planset.design.wind_zones import zones_along
from planset.drawing.geometry import Box

Values = npt.NDArray[np.float64]
Places = npt.NDArray[np.int64]

_DIGITS = 6  # of the ends of stretches, so that strips that are alike are the same
_TOUCH_IN = 2e-6  # a share that reaches less deep into a stretch does not touch it


@dataclass(frozen=True, slots=True)
class Touch:
    """A stretch of a strip and the bit that stands for what lies there.

    Attributes:
        bit: One bit of `Marks`.
        low_in: Where the stretch begins, along the rail [in].
        high_in: Where it ends [in].
    """

    bit: int
    low_in: float
    high_in: float


@dataclass(frozen=True, slots=True)
class Strip:
    """What one rail carries.

    Attributes:
        start_in: Lower or left end of the rail, along it [in].
        end_in: Its other end [in].
        low_in: Where modules begin on it [in].
        high_in: Where they end [in].
        width_in: Width of the strip across it [in].
        touches: What the strip touches.
    """

    start_in: float
    end_in: float
    low_in: float
    high_in: float
    width_in: float
    touches: tuple[Touch, ...]

    @property
    def whole(self) -> int:
        """The bits of all that it touches."""
        bits = 0
        for touch in self.touches:
            bits |= touch.bit
        return bits

    def masks(self, lows: Values, highs: Values) -> Places:
        """The bits that shares from lows to highs touch [in]."""
        masks = np.zeros(lows.shape, dtype=np.int64)
        for touch in self.touches:
            reached = (lows < touch.high_in - _TOUCH_IN) & (highs > touch.low_in + _TOUCH_IN)
            masks[reached] |= touch.bit
        return masks


class Marks:
    """What the bits of strips stand for: zones of every plan, and modules exposed or not."""

    def __init__(self, on_shares: OnShares, exposed: Sequence[ModuleExposure]) -> None:
        """Give a bit to every zone of every plan.

        Args:
            on_shares: The load on any share of the array.
            exposed: What the geometric test says of its modules, empty when it was not chosen.
        """
        self._plans = on_shares.plans
        self._factors = {one.module: one.edge_factor for one in exposed}
        names = [(n, zone) for n, plan in enumerate(self._plans) for zone in plan.figure.zones]
        self._bits = {name: 1 << place for place, name in enumerate(names)}
        self._sheltered = 1 << len(names)
        self._edge = 2 << len(names)

    def read(self, mask: int) -> tuple[Zones, float]:
        """The zones that bits stand for, by plan, and gamma_E."""
        zones = tuple(
            tuple(zone for zone in plan.figure.zones if self._bits[n, zone] & mask)
            for n, plan in enumerate(self._plans)
        )
        inside = mask & self._sheltered and not mask & self._edge
        return zones, (
            solar_panels.EDGE_FACTOR_INTERIOR if inside else solar_panels.EDGE_FACTOR_EXPOSED
        )

    def touches(
        self, strips: Sequence[Box], modules: Sequence[PlacedModule], *, up: bool
    ) -> list[tuple[Touch, ...]]:
        """What every strip touches.

        Args:
            strips: The strips on the plane, (u, v) [in].
            modules: The modules of the array.
            up: Whether the strips run up the slope.
        """
        if not strips:
            return []
        found: list[list[Touch]] = [self._exposure(strip, modules, up=up) for strip in strips]
        for number, plan in enumerate(self._plans):
            for touches, along in zip(found, zones_along(plan.regions, strips, up=up), strict=True):
                touches += [
                    _touch(self._bits[number, part.zone], part.low_in, part.high_in)
                    for part in along
                ]
        return [tuple(touches) for touches in found]

    def _exposure(self, strip: Box, modules: Sequence[PlacedModule], *, up: bool) -> list[Touch]:
        if not self._factors:
            return []
        found = []
        for module in modules:
            frame = module.surface
            if not frame.overlaps(strip):
                continue
            edge = self._factors.get(module.id, solar_panels.EDGE_FACTOR_EXPOSED)
            bit = self._edge if edge > solar_panels.EDGE_FACTOR_INTERIOR else self._sheltered
            low, high = (frame.y0, frame.y1) if up else (frame.x0, frame.x1)
            found.append(_touch(bit, low, high))
        return found


def _touch(bit: int, low: float, high: float) -> Touch:
    return Touch(bit, round(low, _DIGITS), round(high, _DIGITS))
