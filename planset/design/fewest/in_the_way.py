"""Why no layout of an array holds: which limit is in the way, and what to change."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations
from typing import TYPE_CHECKING, Any

from planset.design.containment import room_in
from planset.design.lap_moves import moved_clear_of_eave
from planset.design.layout import PlacedArray
from planset.design.rails_across import runs_across
from planset.design.rails_up import lines_under, runs_over
from planset.design.support_lines import SupportLine
from planset.errors import Problem
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.fewest.find import Finder
    from planset.job.arrays import Pin
    from planset.job.load import Inputs

_ELSE = "state the layout yourself, or choose another system"


def unknown_loads(inputs: Inputs, array: PlacedArray, reason: str) -> Problem:
    """That the fewest attachments follow from loads that are not computed."""
    message = f"the fewest attachments of array {array.id} are not known, since {reason}"
    return _problem(inputs, array, ("fewest_attachments",), message, "state its layout instead")


def nothing_holds(finder: Finder) -> Problem:
    """The limit without which a layout would hold; of several the first, or all together."""
    array = finder.array
    room_in_plane = min(room_in(array.plane, module.surface) for module in array.modules)
    if room_in_plane < 0:
        return _off_the_plane(finder, -room_in_plane)
    if not (finder.lines if array.system.across else finder.lines_up()):
        what, mend = _no_lines(finder)
    elif finder.laps is not None and not finder.laps.reachable:
        hook = array.system.attachment.name
        what = f"the arm of {hook}, too short to come out below the nose of a tile"
        mend = "choose a hook with a longer arm"
    else:
        found = next(_in_the_way(finder), None)
        what, mend = found or ("more than one limit at once", _ELSE)
    message = f"no layout of array {array.id} is within all limits; in the way is {what}"
    return _problem(finder.inputs, array, ("fewest_attachments",), message, mend)


def _off_the_plane(finder: Finder, over_in: float) -> Problem:
    """That the modules lie off their plane, which nothing about attachments can mend."""
    array = finder.array
    over = format_feet_inches(over_in, rounding="up")
    message = f"modules of array {array.id} run over the edge of plane {array.plane.id} by {over}"
    mend = "move its corner, omit those modules, or take out rows or columns"
    return _problem_of_array(finder.inputs, array, ("corner",), message, mend)


def pins_that_miss(finder: Finder) -> list[Problem]:
    """Pinned places where no attachment can stand."""
    found = []
    for number, pin in enumerate(finder.array.stated_mounting.pinned):
        told = _missed(finder, pin)
        if told:
            where = ("pinned", number)
            found.append(_problem(finder.inputs, finder.array, where, told[0], told[1]))
    return found


def _missed(finder: Finder, pin: Pin) -> tuple[str, str] | None:
    line = next((one for one in finder.all_lines if one.number == pin.line), None)
    kind = "seam" if finder.held is None else "rafter"
    if line is None:
        numbers = [one.number for one in finder.all_lines]
        have = f"; it has {min(numbers)} to {max(numbers)}" if numbers else ""
        return f"plane {finder.array.plane.id} has no {kind} {pin.line}{have}", "correct line"
    if line not in finder.lines:
        hook = finder.array.system.attachment.name
        return f"no pan is in reach of {hook} on rafter {pin.line}", "pin another rafter"
    if pin.rail is not None:
        return _missed_across(finder, line, pin.rail, kind)
    return None if pin.up is None else _missed_up(finder, line, pin.up, kind)


def _missed_across(
    finder: Finder, line: SupportLine, rail: int, kind: str
) -> tuple[str, str] | None:
    runs = runs_across(finder.array, finder.all_lines)
    if rail > len(runs):
        return f"array {finder.array.id} has {len(runs)} rails, no rail {rail}", "correct rail"
    if line not in runs[rail - 1].lines:
        return f"{kind} {line.number} does not cross rail {rail}", "pin one that crosses it"
    return None


def _missed_up(
    finder: Finder, line: SupportLine, up_in: float, kind: str
) -> tuple[str, str] | None:
    array, past = finder.array, finder.array.past_in
    shown = format_feet_inches(up_in)
    runs = runs_over(array, line) if line in finder.lines_up() else []
    if not any(run.low_in - past <= up_in <= run.high_in + past for run in runs):
        message = f"no rail on {kind} {line.number} passes {shown} from the eave"
        return message, "pin a place under the array"
    shift = finder.laps.shift_in(up_in) if finder.laps else 0.0
    if shift:
        lap = format_feet_inches(up_in + shift)
        return f"no hook can leave the tile {shown} from the eave", f"the nearest lap is at {lap}"
    return None


def _no_lines(finder: Finder) -> tuple[str, str]:
    if finder.held is None:
        return "that no seam lies under it", "move the array"
    if len(finder.lines) < len(finder.all_lines):
        return _out_of_reach(finder)
    return "that no rafter lies under it", "move the array, or survey its rafters"


def _out_of_reach(finder: Finder) -> tuple[str, str]:
    hook = finder.array.system.attachment.name
    what = f"the side adjustment of {hook}: too few rafters under the array are in reach of a pan"
    return what, "choose a hook whose arm can be moved farther"


def _in_the_way(finder: Finder) -> Iterator[tuple[str, str]]:
    """Each limit without which a layout would be found, with what to change."""
    if finder.array.system.across:
        yield from _laps_across(finder)
        yield from _between_rails(finder)
    else:
        yield from _edges_up(finder)
    eased = _eased(finder)
    for together in (*combinations(eased, 1), *combinations(eased, 2)):
        without: dict[str, Any] = {}
        for fields, _, _ in together:
            without |= fields
        if finder.plans(finder.search(replace(finder.limits, **without))) is not None:
            yield " with ".join(what for _, what, _ in together), together[0][2]


def _laps_across(finder: Finder) -> Iterator[tuple[str, str]]:
    """A rail across the slope has its hooks where it lies, at a lap or not."""
    if finder.laps is None:
        return
    for number, run in enumerate(runs_across(finder.array, finder.all_lines), 1):
        shift = finder.laps.shift_in(run.line_in)
        if shift:
            way, far = "up" if shift > 0 else "down", format_feet_inches(abs(shift))
            what = f"rail {number}, {far} off a lap of the tile, where no hook can leave it"
            fields = moved_clear_of_eave(finder.array, finder.laps, finder.inputs.job.survey)
            mend = f"move the array or rail_inset so that the rail lies {far} {way} the slope"
            yield what, f"write {fields}, with which all rails lie at laps" if fields else mend


def _between_rails(finder: Finder) -> Iterator[tuple[str, str]]:
    search = finder.search(finder.limits)
    for rail in finder.rails():
        if len(rail.lines) < 2:
            what = f"that fewer than two lines cross rail {rail.number}, which needs two"
            yield what, "move the array, or lay it over more of the roof"
            return
        if search.at_places(rail.strip, rail.places, rail.pins) is None:
            if rail.pins and search.at_places(rail.strip, rail.places) is not None:
                what = f"what is pinned on rail {rail.number}"
                yield what, "take a pinned place out, or move it"
            return
    if finder.array.stated_mounting.stagger:
        yield "stagger, which takes from each rail the lines of its neighbors", "remove stagger"


def _edges_up(finder: Finder) -> Iterator[tuple[str, str]]:
    """What keeps rails off lines whose modules need them."""
    up, lines = finder.rails_up(finder.search(finder.limits)), finder.lines_up()
    if up.found(lines, held=False) is not None:
        if up.pins and _holds_unpinned(finder):
            yield "what is pinned", "take a pinned place out, or move it"
        return
    if up.found(lines_under(finder.array, finder.all_lines), held=False) is not None:
        yield _out_of_reach(finder)
    foot, rules = finder.array.system.foot, up.rules
    eased = [
        (replace(rules, least=1), "that each module rests on two rails", "turn the modules"),
        (
            replace(rules, apart_in=math.inf),
            f"the distance of rails across the slope, {_inches(rules.apart_in)} at most by the "
            "jurisdiction",
            "move the array over closer rafters",
        ),
        (replace(rules, pinned=()), "what is pinned", "take a pinned place out, or move it"),
    ]
    if foot is not None:
        eased += [
            (
                replace(rules, span_in=math.inf),
                f"the span of a module edge between feet, {_inches(foot.edge_span)} at most",
                "choose a system whose feet may stand as far apart as its rafters do",
            ),
            (
                replace(rules, free_end_in=math.inf),
                f"the free end of a module edge past its last foot, "
                f"{_inches(foot.edge_cantilever)} at most",
                "move the array so that rafters come nearer to its ends",
            ),
        ]
    for rule, what, mend in eased:
        up.rules = rule
        if up.found(lines, held=False) is not None:
            yield what, mend


def _holds_unpinned(finder: Finder) -> bool:
    """Whether a layout would hold without the pinned places."""
    up = finder.rails_up(finder.search(finder.limits))
    up.pins, up.rules = {}, replace(up.rules, pinned=())
    return up.found(finder.lines_up()) is not None


def _eased(finder: Finder) -> list[tuple[dict[str, Any], str, str]]:
    """Limits of rails with what sets them aside, what they are and what to change."""
    array, limits, none = finder.array, finder.limits, math.inf
    ceiling = array.stated_mounting.ratio_ceiling
    eased: list[tuple[dict[str, Any], str, str]] = [
        (
            {"table_span": False},
            "the span that the maker's table allows",
            "choose a stronger rail, or lines that lie closer",
        ),
        (
            {"table_free_end": False, "free_end_share": none},
            "the free end of a rail",
            "move the array so that a place for an attachment comes nearer to its ends",
        ),
        (
            {"attachment_ceiling": none},
            f"what an attachment holds at ratio_ceiling {ceiling:g}",
            "choose a stronger attachment, or raise ratio_ceiling, 1.0 at most",
        ),
        (
            {"rail_ceiling": none},
            f"how the rail bends at ratio_ceiling {ceiling:g}",
            "choose a stronger rail, or raise ratio_ceiling, 1.0 at most",
        ),
    ]
    if limits.span_in < none:
        what = f"the distance of anchors across the slope, {_inches(limits.span_in)} at most"
        mend = "have the set sealed and state the layout, or choose closer lines"
        eased.append(({"span_in": none}, f"{what} by the jurisdiction", mend))
    if limits.point_load_lb < none:
        what = f"the dead load on an attachment, {limits.point_load_lb:g} lb at most"
        mend = "have the set sealed and state the layout, or choose a lighter system"
        eased.append(({"point_load_lb": none}, f"{what} by the jurisdiction", mend))
    return eased


def _inches(value_in: float) -> str:
    return format_feet_inches(value_in) if math.isfinite(value_in) else "any"


def _problem(
    inputs: Inputs, array: PlacedArray, field: tuple[str | int, ...], message: str, mend: str
) -> Problem:
    return _problem_of_array(inputs, array, ("mounting", *field), message, mend)


def _problem_of_array(
    inputs: Inputs, array: PlacedArray, field: tuple[str | int, ...], message: str, mend: str
) -> Problem:
    number = [given.id for given in inputs.job.arrays].index(array.id)
    return inputs.document.problem(("arrays", number, *field), message, mend)
