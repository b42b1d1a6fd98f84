"""The limits that a found layout keeps."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from planset.design.attachment_loads import OnShares
from planset.design.beam import Beam
from planset.design.fewest.strip import Strip, Values
from planset.design.rail_loads import bent_rail, span_reading
from planset.design.span_table import SpanReading

if TYPE_CHECKING:
    from planset.catalog.rail import RailProfile


@dataclass(frozen=True, slots=True)
class Limits:
    """What a rail and its attachments are held against.

    Attributes:
        profile: The rail.
        attachment_ceiling: Greatest ratio of an attachment, unitless.
        rail_ceiling: Greatest ratio of the rail in bending and deflection, unitless.
        least_span_in: Least distance of attachments, which stand beside each other [in].
        span_in: Greatest span [in].
        free_end_in: Greatest free end [in].
        free_end_share: The same as a share of the span beside it, unitless.
        dead_psf: Dead load of the array [psf].
        point_load_lb: Greatest dead load on an attachment [lb].
        least_line_load: What the greatest line load of the rail is at least [lb/in].
        line_load_cap: Greatest line load, which then is counted on along the whole rail; infinite
            where each share's own counts [lb/in].
    """

    profile: RailProfile
    attachment_ceiling: float
    rail_ceiling: float
    least_span_in: float
    span_in: float
    free_end_in: float
    free_end_share: float
    dead_psf: float
    point_load_lb: float
    least_line_load: float = 0.0
    line_load_cap: float = math.inf
    table_span: bool = True
    table_free_end: bool = True

    def used(self, share: float) -> Limits:
        """The limits with a share of the ratio ceilings, unitless."""
        return replace(
            self,
            attachment_ceiling=self.attachment_ceiling * share,
            rail_ceiling=self.rail_ceiling * share,
        )

    def bent_span(self, spans: Values, load_lb_per_in: Values | float) -> Values:
        """Bending or deflection of spans over what is allowed, each as a simple beam."""
        moment = load_lb_per_in * spans**2 / 8 / self._moment_lb_in
        sag = 5 * load_lb_per_in * spans**3 / 384 / self._stiffness * self.profile.deflection_ratio
        return np.maximum(moment, sag) / self.rail_ceiling

    def bent_end(self, ends: Values, spans: Values, load_lb_per_in: Values | float) -> Values:
        """The same of free ends beside spans."""
        moment = load_lb_per_in * ends**2 / 2 / self._moment_lb_in
        tip = load_lb_per_in * ends**2 * (ends / 8 + spans / 6) / self._stiffness
        return np.maximum(moment, tip * self.profile.deflection_ratio / 2) / self.rail_ceiling

    def longest_span_in(self, load_lb_per_in: float) -> float:
        """The longest simple span that bending allows under a line load [in]."""
        if load_lb_per_in <= 0:
            return math.inf
        by_moment = math.sqrt(8 * self._moment_lb_in * self.rail_ceiling / load_lb_per_in)
        by_sag = 384 * self._stiffness * self.rail_ceiling
        by_sag /= 5 * load_lb_per_in * self.profile.deflection_ratio
        return min(by_moment, math.cbrt(by_sag))

    def least_count(self, strip: Strip, load_lb_per_in: float) -> int:
        """Attachments that a rail needs at least where a line load bends all of its spans."""
        span = min(self.span_in, self.longest_span_in(load_lb_per_in))
        held = strip.end_in - strip.start_in - 2 * min(self.free_end_in, self.free_end_share * span)
        return 2 if held <= span else max(math.ceil(held / span - 1e-9) + 1, 2)

    def bent_rail(self, strip: Strip, places: Sequence[float], load_lb_per_in: float) -> float:
        """Bending or deflection of a whole rail over what is allowed."""
        spans = tuple(b - a for a, b in pairwise(places))
        ends = (max(places[0] - strip.start_in, 0.0), max(strip.end_in - places[-1], 0.0))
        check = bent_rail(Beam(spans, *ends), load_lb_per_in, self.profile)
        return check.ratio / self.rail_ceiling

    @property
    def _moment_lb_in(self) -> float:
        return self.profile.section.moment_lb_ft * 12

    @property
    def _stiffness(self) -> float:
        return self.profile.section.modulus_psi * self.profile.section.inertia_in4


def limits_of(on_shares: OnShares) -> Limits:
    """The limits of an array that do not depend on where its rails lie."""
    array, review = on_shares.array, on_shares.inputs.jurisdiction.review
    ceiling = array.stated_mounting.ratio_ceiling
    apart = review.anchor_spacing.value if review.anchor_spacing else math.inf
    across, along = array.system.attachment.footprint
    return Limits(
        profile=array.system.rail,
        attachment_ceiling=ceiling,
        rail_ceiling=ceiling,
        least_span_in=across if array.system.across else along,
        span_in=apart if array.system.across else math.inf,
        free_end_in=math.inf,
        free_end_share=array.system.rail.cantilever_share,
        dead_psf=array.system.dead_load_psf,
        point_load_lb=review.point_load.value if review.point_load else math.inf,
    )


def with_table(
    limits: Limits, on_shares: OnShares, zones: tuple[str, ...], width_in: float
) -> Limits | None:
    """The limits with the maker's table for a strip; None where the strip is too wide for it.

    Where the table does not cover the site at all, the rail is judged as a beam alone.
    """
    inputs, building, array = on_shares.inputs, on_shares.building, on_shares.array
    reading = span_reading(inputs, building, array, zones, width_in)
    if isinstance(reading, SpanReading):
        row = reading.row
        span = min(limits.span_in, row.span_in) if limits.table_span else limits.span_in
        end = row.cantilever_in if limits.table_free_end else None
        return replace(limits, span_in=span, free_end_in=math.inf if end is None else end)
    narrow = span_reading(inputs, building, array, zones, 1.0)
    too_wide = isinstance(narrow, SpanReading) and not array.system.across
    return None if too_wide and limits.table_span else limits
