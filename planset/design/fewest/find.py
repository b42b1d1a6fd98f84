"""The rails and attachments of one array that states none: the fewest within every limit."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from planset.design.acting import Acting
from planset.design.attachment_loads import OnShares, edge_exposures
from planset.design.buildup import build_up
from planset.design.fastening import Fastening, fastening
from planset.design.fewest import in_the_way
from planset.design.fewest.across import AcrossRail, across_rails, held_across
from planset.design.fewest.judged import layout_holds
from planset.design.fewest.limits import Limits, limits_of
from planset.design.fewest.rail_search import RailSearch
from planset.design.fewest.share_uses import ShareUses
from planset.design.fewest.strip import Marks
from planset.design.fewest.up import UpSearch
from planset.design.fewest.up_edges import edge_rules
from planset.design.layout import PlacedArray
from planset.design.racking import RailPlan
from planset.design.rails_across import plans_of as across_plans
from planset.design.rails_across import runs_across
from planset.design.rails_up import lines_under
from planset.design.rails_up import plans_of as up_plans
from planset.design.support_lines import SupportLine
from planset.design.tile_courses import Laps, laps_and_pans
from planset.design.wind import method_check
from planset.design.wind_arrays import ModuleExposure
from planset.errors import JobErrors

if TYPE_CHECKING:
    from planset.job.load import Inputs
    from planset.roof.solid import Roof

_SLACKS = ((0.9995, False), (0.9995, True), (0.995, True), (0.97, True))
"""Share of the ceiling that is used, and whether the maker's table is read for every zone that a
strip touches: what the search reads between samples is then judged by the loads themselves."""


def fewest_plans(
    inputs: Inputs,
    roof: Roof,
    array: PlacedArray,
    arrays: tuple[PlacedArray, ...],
    lines: Sequence[SupportLine],
    acting: Acting,
) -> list[RailPlan]:
    """The rails of an array on the fewest attachments that every limit allows.

    Args:
        inputs: The job.
        roof: All its roofs.
        array: The array.
        arrays: All arrays, which shelter each other.
        lines: All rafters or seams of its plane.
        acting: Wind and snow on the planes.

    Raises:
        JobErrors: No layout holds; the problem names the limit that is in the way.
    """
    reason = acting.reason([array.plane])
    if reason:
        raise JobErrors([in_the_way.unknown_loads(inputs, array, reason)])
    finder = _finder(inputs, roof, array, arrays, lines, acting)
    if problems := in_the_way.pins_that_miss(finder):
        raise JobErrors(problems)
    for slack, any_zone in _SLACKS:
        plans = finder.plans(finder.search(finder.limits.used(slack), any_zone=any_zone))
        if plans is None:
            break  # what follows is stricter still
        if layout_holds(finder.on_shares, finder.held, plans, finder.exposed):
            return plans
    raise JobErrors([in_the_way.nothing_holds(finder)])


@dataclass(frozen=True, slots=True)
class Finder:
    """One array with all that its layout is found by.

    Attributes:
        inputs: The job.
        array: The array.
        lines: Lines that attachments may stand on, pans in reach.
        all_lines: All lines of the plane.
        on_shares: The load on any share of the array.
        held: Lag screws of an attachment, None for clamps on seams.
        exposed: What the geometric test says of its modules.
        marks: What the bits of strips stand for.
        uses: What shares ask of their attachments.
        laps: Where hooks may leave the tile, None with other attachments.
    """

    inputs: Inputs
    array: PlacedArray
    lines: tuple[SupportLine, ...]
    all_lines: tuple[SupportLine, ...]
    on_shares: OnShares
    held: Fastening | None
    exposed: tuple[ModuleExposure, ...]
    marks: Marks
    uses: ShareUses
    laps: Laps | None

    @property
    def limits(self) -> Limits:
        """The limits of its rails and attachments, before the maker's table."""
        return limits_of(self.on_shares)

    def search(self, limits: Limits, *, any_zone: bool = False) -> RailSearch:
        """What finds the attachments of one rail."""
        return RailSearch(self.on_shares, self.uses, limits, any_zone)

    def plans(self, search: RailSearch) -> list[RailPlan] | None:
        """The rails, None where nothing holds one of them."""
        return self._across(search) if self.array.system.across else self._up(search)

    def rails(self) -> list[AcrossRail]:
        """Rails across the slope as they are to be held."""
        pinned: dict[int, frozenset[int]] = {}
        for pin in self.array.stated_mounting.pinned:
            if pin.rail is not None:
                pinned[pin.rail] = pinned.get(pin.rail, frozenset()) | {pin.line}
        runs = runs_across(self.array, self.all_lines)
        return across_rails(self.array, runs, self.marks, self.lines, pinned)

    def rails_up(self, search: RailSearch) -> UpSearch:
        """What finds rails up the slope."""
        pins: dict[int, tuple[float, ...]] = {}
        for pin in self.array.stated_mounting.pinned:
            if pin.up is not None:
                pins[pin.line] = (*pins.get(pin.line, ()), pin.up)
        review = self.inputs.jurisdiction.review.anchor_spacing
        pinned = tuple(line.u_in for line in self.all_lines if line.number in pins)
        rules = edge_rules(self.array, review.value if review else float("inf"), pinned)
        return UpSearch(self.array, search, self.marks, rules, self.laps, pins)

    def lines_up(self) -> list[SupportLine]:
        """Lines that may carry a rail up the slope."""
        return lines_under(self.array, self.lines)

    def _across(self, search: RailSearch) -> list[RailPlan] | None:
        rails = self.rails()
        stagger = self.array.stated_mounting.stagger
        chosen = held_across(search, rails, stagger=stagger)
        kept = [lines for lines in chosen if lines is not None]
        if len(kept) < len(chosen):
            return None
        plans = across_plans(self.array, runs_across(self.array, self.all_lines), kept)
        pairs = zip(plans, rails, strict=True)
        return [_with_pins(plan, dict.fromkeys(rail.pinned)) for plan, rail in pairs]

    def _up(self, search: RailSearch) -> list[RailPlan] | None:
        up = self.rails_up(search)
        found = up.found(self.lines_up())
        if found is None:
            return None
        plans = up_plans(self.array, found.runs, [way.places for way in found.ways])
        return [_with_pins(plan, up.pins) for plan in plans]


def _finder(
    inputs: Inputs,
    roof: Roof,
    array: PlacedArray,
    arrays: tuple[PlacedArray, ...],
    lines: Sequence[SupportLine],
    acting: Acting,
) -> Finder:
    building = acting.buildings[array.plane.building]
    own_roof, built = roof.over(building.building), build_up(inputs, array)
    method = method_check(own_roof, array, built.height_above_roof_in)
    exposed = edge_exposures(inputs, own_roof, array, arrays, building, method)
    on_shares = OnShares(inputs, building, array, method, acting.snow.get(array.plane.id))
    usable, laps = tuple(lines), None
    tile, hook = laps_and_pans(inputs, array, built), array.system.attachment
    if tile is not None and hook.kind == "hook":
        laps, pans = tile
        usable = tuple(
            line for line in lines if abs(pans.side_in(line.u_in)) <= hook.side_adjustment + 1e-9
        )
    held, marks = fastening(inputs, array), Marks(on_shares, exposed)
    return Finder(
        inputs=inputs,
        array=array,
        lines=usable,
        all_lines=tuple(lines),
        on_shares=on_shares,
        held=held,
        exposed=exposed,
        marks=marks,
        uses=ShareUses(on_shares, held, marks),
        laps=laps,
    )


def _with_pins(plan: RailPlan, pins: Mapping[int, tuple[float, ...] | None]) -> RailPlan:
    """The plan with what is pinned by line, at some places along the rail or wherever it is."""
    pinned = set()
    for place, (line, along) in enumerate(plan.supports):
        heights = pins.get(line.number, ())
        if heights is None or along in heights:
            pinned.add(place)
    return replace(plan, pinned=frozenset(pinned))
