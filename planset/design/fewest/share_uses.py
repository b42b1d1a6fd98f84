"""What a share of an array asks of its attachment, for many shares at once.

The loads are those of `attachment_loads`, read between samples of the area: pressures are smooth
in its logarithm, so that what is read is a few parts in ten thousand off at most.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from planset.design.attachment_loads import AttachmentLoad, OnShares
from planset.design.fastening import Fastening, lag_use
from planset.design.fewest.strip import Marks, Places, Strip, Values

_SAMPLES = np.union1d(np.geomspace(10.0, 100.0, 24), (0.01, 1.0, 400.0))
"""Areas [sq ft]: pressures are linear in the logarithm but between 10 and 100 sq ft, where two
curves that are linear in it are multiplied."""

_SLIVER_IN = 1e-4


@dataclass(frozen=True, slots=True)
class _Table:
    """By area and per square foot: the greatest ratio of an attachment, the line load; zones.

    `turned` is the ratio under loads that the rail turns round.
    """

    ratio: Values
    turned: Values
    pressure: Values
    zones: frozenset[str]


class ShareUses:
    """Ratios and line loads of shares, by their area and the bits of what they touch."""

    def __init__(self, on_shares: OnShares, held: Fastening | None, marks: Marks) -> None:
        """Remember what the shares are judged by.

        Args:
            on_shares: The load on any share of the array.
            held: Lag screws of an attachment, None for clamps on seams.
            marks: What the bits stand for.
        """
        self._on_shares, self._held, self._marks = on_shares, held, marks
        self._tables: dict[int, _Table] = {}
        breaks = {
            area
            for plan in on_shares.plans
            for curves in plan.figure.curves.values()
            for _, curve in curves
            for area in (curve.area1_sqft, curve.area2_sqft)
        }
        self._areas = np.union1d(_SAMPLES, sorted(breaks))
        self._logs = np.log(self._areas)

    def of(self, masks: Places, areas: Values) -> tuple[Values, Values]:
        """The greatest ratio of an attachment without continuity, and its load normal to the roof.

        Args:
            masks: Bits of what the shares touch.
            areas: Their areas [sq ft].

        Returns:
            Ratios, and the greater of pull and pressure of the combinations [lb].
        """
        ratios, loads = np.zeros(areas.shape), np.zeros(areas.shape)
        logs = np.log(np.maximum(areas, self._areas[0]))
        for mask in np.unique(masks).tolist():
            table, here = self._table(mask), masks == mask
            ratios[here] = np.interp(logs[here], self._logs, table.ratio) * areas[here]
            loads[here] = np.interp(logs[here], self._logs, table.pressure) * areas[here]
        return ratios, loads

    def turned(self, masks: Places, areas: Values) -> Values:
        """The greatest ratio of an attachment whose load the rail turns round as a whole.

        Args:
            masks: Bits of what the shares touch.
            areas: Their areas [sq ft].
        """
        logs = np.log(np.maximum(areas, self._areas[0]))
        tables = [self._table(mask) for mask in masks.tolist()]
        per_sqft = [
            np.interp(log, self._logs, table.turned)
            for log, table in zip(logs, tables, strict=True)
        ]
        return np.array(per_sqft) * areas

    def least_line_load(self, strip: Strip, ceiling: float) -> float:
        """What the greatest line load of a rail is at least, its attachments within a ratio.

        Each part of the strip is in some share, whose load per area falls with its area only as
        far as its attachment may grow.

        Args:
            strip: What the rail carries.
            ceiling: Greatest ratio of an attachment, unitless.

        Returns:
            The line load [lb/in].
        """
        bounds = {end for touch in strip.touches for end in (touch.low_in, touch.high_in)}
        cuts = np.array(sorted({strip.low_in, strip.high_in, *bounds}))
        lows, highs = cuts[:-1], cuts[1:]
        parts = highs - lows > _SLIVER_IN  # ends of stretches are rounded
        least = 0.0
        for mask in np.unique(strip.masks(lows[parts], highs[parts])).tolist():
            table = self._table(mask)
            allowed = table.ratio * self._areas <= ceiling
            if allowed.any():
                last = min(int(np.flatnonzero(allowed)[-1]) + 1, len(self._areas) - 1)
                least = max(least, float(table.pressure[: last + 1].min()))
        return least * strip.width_in / 144

    def zones(self, mask: int) -> tuple[str, ...]:
        """The zones that govern shares which touch all of this, whatever their area."""
        return tuple(sorted(self._table(mask).zones))

    def every_zone(self, mask: int) -> tuple[str, ...]:
        """Every zone that any share of this may be governed by."""
        bits = [1 << place for place in range(mask.bit_length()) if mask >> place & 1]
        named = {zone for bit in bits for zone in self._table(bit).zones}
        touched = {zone for zones in self._marks.read(mask)[0] for zone in zones}
        return tuple(sorted(named & touched)) or self.zones(mask)

    def _table(self, mask: int) -> _Table:
        if mask not in self._tables:
            zones, edge = self._marks.read(mask)
            loads = [self._on_shares.load(zones, area, edge) for area in self._areas.tolist()]
            self._tables[mask] = _Table(
                np.array([self._ratio(load) for load in loads]) / self._areas,
                np.array([self._ratio(_turned(load)) for load in loads]) / self._areas,
                np.array([_normal_lb(load) for load in loads]) / self._areas,
                frozenset(load.zone for load in loads),
            )
        return self._tables[mask]

    def _ratio(self, load: AttachmentLoad) -> float:
        return max(ratios_of(self._on_shares, self._held, load).values())


def ratios_of(
    on_shares: OnShares, held: Fastening | None, load: AttachmentLoad
) -> dict[str, float]:
    """Every ratio that one attachment is judged by, infinite without any capacity.

    Args:
        on_shares: The load on any share of the array.
        held: Lag screws of an attachment, None for clamps on seams.
        load: Its loads.
    """
    connector = on_shares.array.system.attachment
    asked = {
        "uplift of the connector": (load.uplift_lb, connector.uplift.capacity),
        "the connector pressed toward the roof": (load.down_lb, connector.downward.capacity),
        "the connector along the slope": (load.along_lb, connector.along_slope.capacity),
    }
    found = {name: _over(demand, capacity) for name, (demand, capacity) in asked.items()}
    if held is not None:
        found["lag screws in withdrawal"] = _over(load.uplift_lb, held.lag_capacity_lb)
        combined = lag_use(load, held).ratio
        found["lag screws in pull and shear"] = float("inf") if combined is None else combined
        if held.bearing_lb:
            found["the rafter under the plate"] = _over(load.down_lb, held.bearing_lb)
    return found


def _turned(load: AttachmentLoad) -> AttachmentLoad:
    return replace(load, continuity=0.0, reversal=1.0)


def _over(demand: float, capacity: float) -> float:
    return demand / capacity if capacity > 0 else float("inf")


def _normal_lb(load: AttachmentLoad) -> float:
    return max(-load.combined.uplift.normal_lb, load.combined.down.normal_lb, 0.0)
