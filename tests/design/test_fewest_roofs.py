"""Random roofs: attachments on the framing and within limits, and no even spacing has fewer."""

from __future__ import annotations

import random
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest
from fewest_roofs import random_house, roof_and_arrays
from naive_layouts import Layouts
from shapely import Point

from planset.design.place_racking import place_racking
from planset.design.racking import Racking, RailPlan
from planset.design.rails_across import plans_of as across_plans
from planset.design.rails_across import runs_across
from planset.design.rails_up import attachment_places, lines_under, runs_over
from planset.design.rails_up import plans_of as up_plans
from planset.errors import JobErrors

FEW, MANY = 50, 500
STEP = 6.0  # of the even spacings and first attachments that are tried [in]


def even_layouts(layouts: Layouts) -> Iterator[list[RailPlan]]:
    """Every layout that the stated fields could give, spacings by a step."""
    array, lines = layouts.array, layouts.lines
    if array.system.across:
        runs = runs_across(array, lines)
        stagger = array.stated_mounting.stagger
        for every in range(1, 9):
            shift = every // 2 if stagger else 0
            if stagger and not shift:
                continue
            for first in range(1, every + 1):
                chosen = [
                    [
                        line
                        for line in run.lines
                        if (line.number - first - shift * (number % 2)) % every == 0
                    ]
                    for number, run in enumerate(runs)
                ]
                yield across_plans(array, runs, chosen)
        return
    under = lines_under(array, layouts.usable)
    for every in range(1, 5):
        for first in range(every):
            chosen_lines = under[first::every]
            if not chosen_lines or not layouts.carries(chosen_lines):
                continue
            runs_up = [run for line in chosen_lines for run in runs_over(array, line)]
            low = min(run.low_in for run in runs_up) - array.past_in
            tops = [run.high_in + array.past_in for run in runs_up]
            for spacing in (12 + STEP * n for n in range(14)):
                for start in (1 + STEP * n for n in range(int(spacing / STEP))):
                    places = [attachment_places(low + start, top, spacing) for top in tops]
                    yield up_plans(array, runs_up, places)


def fewest_even(layouts: Layouts, below: float) -> int | None:
    """The fewest attachments of any even layout that holds, of those with fewer than so many."""
    counted = sorted(
        (sum(len(plan.supports) for plan in plans), n, plans)
        for n, plans in enumerate(even_layouts(layouts))
    )
    for count, _, plans in counted:
        if count >= below:
            return None
        if _at_laps(layouts, plans) and layouts.holds(plans):
            return count
    return None


def _at_laps(layouts: Layouts, plans: list[RailPlan]) -> bool:
    found = layouts.laps
    return found is None or not any(found.shift_in(v) for p in plans for _, v in p.supports)


def mistakes(layouts: Layouts, rack: Racking) -> Iterator[str]:
    """What is wrong with a found layout."""
    array, framing = layouts.array, layouts.inputs.framing
    first = framing.first_rafter_on("front")
    assert first is not None
    for item in rack.attachments:
        off = (item.u_in - first) / framing.spacing - (item.line - 1)
        if abs(off) > 1e-6:
            yield f"{item.id} stands off its rafter"
        if not array.plane.surface_polygon.buffer(1e-6).contains(Point(item.u_in, item.v_in)):
            yield f"{item.id} stands off the plane"
    for rail in rack.rails:
        held = rack.by_rail[rail.id]
        if len(held) < 2:
            yield f"{rail.id} has fewer than two attachments"
        if held[0].along_in < rail.start_in or held[-1].along_in > rail.end_in:
            yield f"{rail.id} is held beyond its ends"
    for one, other in pairwise(rack.rails) if array.stated_mounting.stagger else ():
        lines = [{item.line for item in rack.by_rail[rail.id]} for rail in (one, other)]
        if lines[0] & lines[1]:
            yield f"{one.id} and {other.id} stand on one rafter"
    if not layouts.rack_holds(rack):
        yield "a limit is missed"


def found_on(seed: int, folder: Path) -> bool:
    """Whether a layout was found, which then has no mistake; else no even layout holds."""
    inputs = random_house(random.Random(seed), folder)
    roof, arrays = roof_and_arrays(inputs)
    layouts = Layouts(inputs, roof, arrays)
    try:
        (rack,) = place_racking(inputs, roof, arrays)
    except JobErrors:
        assert fewest_even(layouts, float("inf")) is None, seed
        return False
    assert list(mistakes(layouts, rack)) == [], seed
    assert fewest_even(layouts, len(rack.attachments)) is None, seed
    return True


def test_random_roofs(tmp_path: Path) -> None:
    found = [found_on(seed, tmp_path) for seed in range(FEW)]
    assert sum(found) > FEW / 3  # the others have no layout at all


def test_staggered_rails_that_must_give_way_to_each_other(tmp_path: Path) -> None:
    # held one after the other, these two rails take seven
    inputs = random_house(random.Random(88), tmp_path)
    roof, arrays = roof_and_arrays(inputs)
    (rack,) = place_racking(inputs, roof, arrays)
    layouts = Layouts(inputs, roof, arrays)
    assert layouts.array.stated_mounting.stagger
    assert len(rack.attachments) == layouts.fewest_across(stagger=True) == 6


@pytest.mark.long
def test_many_random_roofs(tmp_path: Path) -> None:
    found = [found_on(seed, tmp_path) for seed in range(FEW, FEW + MANY)]
    assert sum(found) > MANY / 3
