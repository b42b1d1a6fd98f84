"""Layouts judged and enumerated one by one, slowly: what the search must agree with.

Limits are written out here once more, in the words of the rules; only loads and rails as beams are
the program's own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cached_property
from itertools import combinations, pairwise

from houses import placed_arrays, roof_of_house

from planset.catalog.module_holding import Foot
from planset.design.acting import acting_on
from planset.design.attachment_loads import AttachmentLoad, attachment_loads, edge_exposures
from planset.design.buildup import build_up
from planset.design.fastening import fastening, lag_use
from planset.design.layout import PlacedArray
from planset.design.racking import Attachment, Racking, RailPlan, racking_of
from planset.design.rail_loads import RailUse, rail_uses, span_reading
from planset.design.rails_across import plans_of as across_plans
from planset.design.rails_across import runs_across
from planset.design.rails_up import UpRun, blocks_of, lines_under, runs_over
from planset.design.rails_up import plans_of as up_plans
from planset.design.span_table import NotCovered
from planset.design.support_lines import SupportLine, lines_for
from planset.design.tile_courses import laps_and_pans
from planset.design.wind import method_check
from planset.job.load import Inputs
from planset.roof.solid import Roof

NOISE = 1e-9
LEAST_END = 1.0  # an attachment from the end of a rail up the slope


class Layouts:
    """One array of a job, and every layout of it."""

    def __init__(
        self, inputs: Inputs, roof: Roof | None = None, arrays: tuple[PlacedArray, ...] = ()
    ) -> None:
        self.inputs = inputs
        self.roof, self.arrays = roof or roof_of_house(inputs), arrays or placed_arrays(inputs)
        (self.array,) = self.arrays
        self.acting = acting_on(inputs, self.roof, self.arrays)
        self.building = self.acting.buildings[self.array.plane.building]
        self.built = build_up(inputs, self.array)
        own = self.roof.over(self.building.building)
        self.method = method_check(own, self.array, self.built.height_above_roof_in)
        self.exposed = edge_exposures(
            inputs, own, self.array, self.arrays, self.building, self.method
        )
        self.held = fastening(inputs, self.array)
        self.lines = lines_for(inputs, self.array.plane, self.array.system)
        self.laps = (laps_and_pans(inputs, self.array, self.built) or (None,))[0]
        self.known: dict[object, bool] = {}

    def holds(self, plans: Sequence[RailPlan]) -> bool:
        """Whether every rail is within every limit."""
        return all(self._rail_holds(plan) for plan in plans)

    def _rail_holds(self, plan: RailPlan) -> bool:
        key = (plan.line_in, plan.start_in, plan.end_in, plan.strip, plan.supports)
        if key not in self.known:
            self.known[key] = self._plainly(plan) and self._loaded(plan)
        return self.known[key]

    def _plainly(self, plan: RailPlan) -> bool:
        """What needs no loads: two attachments on the rail, the maker's free ends, spans."""
        places = [along for _, along in plan.supports]
        spans = [b - a for a, b in pairwise(places)]
        across, along = self.array.system.attachment.footprint
        if not spans or min(spans) < (along if plan.up else across):
            return False
        ends = (places[0] - plan.start_in, plan.end_in - places[-1])
        share = self.array.system.rail.cantilever_share
        if any(
            end > share * span + NOISE
            for end, span in zip(ends, (spans[0], spans[-1]), strict=True)
        ):
            return False
        apart = self.inputs.jurisdiction.review.anchor_spacing
        if not plan.up and apart and max(spans) > apart.value + NOISE:
            return False
        return plan.start_in <= places[0] and places[-1] <= plan.end_in

    def _loaded(self, plan: RailPlan) -> bool:
        return self.rack_holds(racking_of(self.array, [plan], 0, 0))

    def rack_holds(self, rack: Racking) -> bool:
        """Whether every attachment and rail is within what loads ask of it."""
        snow = self.acting.snow.get(self.array.plane.id)
        loads = attachment_loads(
            self.inputs, self.building, self.array, rack, self.method, self.exposed, snow
        )
        uses = rail_uses(self.inputs, self.building, self.array, rack, loads)
        return (
            all(self._attachment_holds(load) for load in loads)
            and all(self._dead_load_holds(item) for item in rack.attachments)
            and all(self._use_holds(use) for use in uses)
        )

    def _attachment_holds(self, load: AttachmentLoad) -> bool:
        connector, held = self.array.system.attachment, self.held
        ratios = [
            load.uplift_lb / connector.uplift.capacity,
            load.down_lb / connector.downward.capacity,
            load.along_lb / connector.along_slope.capacity,
        ]
        if held:
            ratios += [load.uplift_lb / held.lag_capacity_lb, lag_use(load, held).ratio or 0.0]
            ratios += [load.down_lb / held.bearing_lb] if held.bearing_lb else []
        return max(ratios) <= self.array.stated_mounting.ratio_ceiling + NOISE

    def _dead_load_holds(self, item: Attachment) -> bool:
        point = self.inputs.jurisdiction.review.point_load
        dead = item.tributary_sqft * item.continuity * self.array.system.dead_load_psf
        return point is None or dead <= point.value + NOISE

    def _use_holds(self, use: RailUse) -> bool:
        if (
            use.up is None
            or use.down is None
            or use.cantilever_in > use.cantilever_limit_in + NOISE
        ):
            return False
        if max(use.up.ratio, use.down.ratio) > self.array.stated_mounting.ratio_ceiling + NOISE:
            return False
        if isinstance(use.table, NotCovered):
            # where the maker covers narrower strips, wider ones are not laid out
            narrow = span_reading(self.inputs, self.building, self.array, use.zones, 1.0)
            return self.array.system.across or isinstance(narrow, NotCovered)
        return use.table is None or use.span_in <= use.table.row.span_in + NOISE

    @cached_property
    def usable(self) -> tuple[SupportLine, ...]:
        """Lines that an attachment may stand on: of hooks those with a pan in reach."""
        found = laps_and_pans(self.inputs, self.array, self.built)
        if found is None:
            return self.lines
        reach = self.array.system.attachment.side_adjustment + NOISE
        return tuple(line for line in self.lines if abs(found[1].side_in(line.u_in)) <= reach)

    # rails across the slope

    def fewest_across(self, *, stagger: bool) -> int | None:
        """Count attachments by trying every choice of lines for every rail."""
        runs = runs_across(self.array, self.lines)
        ways: list[list[frozenset[int]]] = []
        for number, run in enumerate(runs, 1):
            pins = {pin.line for pin in self.array.stated_mounting.pinned if pin.rail == number}
            lines = [line for line in run.lines if line in self.usable]
            found = []
            for count in range(2, len(lines) + 1):
                for chosen in combinations(lines, count):
                    numbers = frozenset(line.number for line in chosen)
                    if pins <= numbers and self.holds(across_plans(self.array, [run], [chosen])):
                        found.append(numbers)
                if found and not stagger:
                    break
            ways.append(found)
        if not stagger:
            return sum(min(map(len, way)) for way in ways) if all(ways) else None
        return self._staggered(ways)

    def _staggered(self, ways: list[list[frozenset[int]]]) -> int | None:
        """The least total of a chain of which no two neighbors share a line."""
        runs = runs_across(self.array, self.lines)
        totals = {way: len(way) for way in ways[0]}
        for number in range(1, len(ways)):
            beside = runs[number - 1].left_in < runs[number].right_in and (
                runs[number].left_in < runs[number - 1].right_in
            )
            reached: dict[frozenset[int], int] = {}
            for way in ways[number]:
                before = [total for other, total in totals.items() if not beside or not other & way]
                if before:
                    reached[way] = min(before) + len(way)
            totals = reached
        return min(totals.values(), default=None)

    # rails up the slope

    def fewest_up(self, step: float, most: int) -> int | None:
        """Count attachments by trying every choice of lines, and heights by a step.

        Args:
            step: From height to height [in].
            most: Attachments of a rail at most.
        """
        self.counts: dict[object, int | None] = {}
        counts = [self._total(chosen, step, most) for chosen in self._choices()]
        return min((count for count in counts if count is not None), default=None)

    def _choices(self) -> Iterator[tuple[SupportLine, ...]]:
        lines = lines_under(self.array, self.usable)
        for count in range(1, len(lines) + 1):
            yield from (chosen for chosen in combinations(lines, count) if self.carries(chosen))

    def carries(self, chosen: Sequence[SupportLine]) -> bool:
        """Whether rails on these lines carry every module, edge by edge."""
        array, system = self.array, self.array.system
        places = [line.u_in for line in chosen]
        pins = {pin.line for pin in array.stated_mounting.pinned}
        if not pins <= {line.number for line in chosen}:
            return False
        apart = self.inputs.jurisdiction.review.anchor_spacing
        if apart and any(b - a > apart.value for a, b in pairwise(places)):
            return False
        least = 1 if system.coupling else 2
        for module in array.modules:
            if sum(module.surface.x0 < u < module.surface.x1 for u in places) < least:
                return False
        rows = [(x0, x1) for _, _, x0, x1 in blocks_of(array)]
        single = [(m.surface.x0, m.surface.x1) for m in array.modules]
        edges = rows if system.coupling else single
        return system.foot is None or all(_fed(edge, places, system.foot) for edge in edges)

    def _total(self, chosen: Sequence[SupportLine], step: float, most: int) -> int | None:
        runs = [run for line in chosen for run in runs_over(self.array, line)]
        total = 0
        for place, run in enumerate(runs):
            count = self._fewest_on(place, runs, self.heights(run, step), most)
            if count is None:
                return None
            total += count
        return total

    def _fewest_on(
        self, place: int, runs: Sequence[UpRun], heights: list[float], most: int
    ) -> int | None:
        run = runs[place]
        pins = {p.up for p in self.array.stated_mounting.pinned if p.line == run.line.number}
        bare = up_plans(self.array, runs, [()] * len(runs))[place]
        key = (bare.line_in, bare.start_in, bare.strip)
        if key not in self.counts:
            chosen = (
                chosen
                for count in range(2, most + 1)
                for chosen in combinations(sorted({*heights, *pins}), count)
                if pins <= set(chosen)
            )
            plans = (replace(bare, supports=tuple((run.line, v) for v in c)) for c in chosen)
            first = next((plan for plan in plans if self.holds([plan])), None)
            self.counts[key] = first and len(first.supports)
        return self.counts[key]

    def heights(self, run: UpRun, step: float) -> list[float]:
        """Heights of attachments on a rail: within its ends, and at laps of the tile for hooks."""
        past = self.array.past_in
        low, high = run.low_in - past + LEAST_END, run.high_in + past - LEAST_END
        heights = [low + n * step for n in range(int((high - low) / step) + 1)] + [high]
        if self.laps is None:
            return heights
        return [v for v in heights if not self.laps.shift_in(v)]


def _fed(edge: tuple[float, float], places: Sequence[float], foot: Foot) -> bool:
    """Whether feet on rails at these places hold an edge of modules."""
    feet = [u for u in places if edge[0] < u < edge[1]]
    ends = max(feet[0] - edge[0], edge[1] - feet[-1])
    spans = [b - a for a, b in pairwise(feet)]
    return ends <= foot.edge_cantilever + NOISE and max(spans, default=0) <= foot.edge_span + NOISE
