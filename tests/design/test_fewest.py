"""Found layouts beside every layout that there is, on arrays small enough to try them all."""

import random

import pytest
from fewest_jobs import ACROSS, pinned, small
from naive_layouts import Layouts

from planset.design.place_racking import place_racking
from planset.design.racking import Racking
from planset.errors import JobErrors
from planset.job.arrays import Pin
from planset.job.load import Inputs

CLOSE = 1.05  # a count over the least one, at most


def placed(inputs: Inputs, layouts: Layouts) -> Racking | None:
    """Return what planset finds, None where it says that nothing holds."""
    try:
        (rack,) = place_racking(inputs, layouts.roof, layouts.arrays)
    except JobErrors as errors:
        (problem,) = errors.problems
        assert problem.field == "arrays.A1.mounting.fewest_attachments"
        assert problem.message.startswith("no layout of array A1 is within all limits")
        return None
    return rack


def agree(layouts: Layouts, rack: Racking | None, least: int | None) -> bool:
    """Whether a layout holds, on as few attachments as the enumeration, or neither finds any."""
    if rack is None:
        return least is None
    fewest = least is not None and least <= len(rack.attachments) <= CLOSE * least
    return fewest and layouts.rack_holds(rack)


@pytest.mark.parametrize("seed", range(24))
def test_rails_across(seed: int) -> None:
    dice = random.Random(seed)
    name = dice.choice(("bittern-post", "plover-shingle"))
    inputs = small(dice, name, **ACROSS)
    layouts = Layouts(inputs)
    assert agree(layouts, placed(inputs, layouts), layouts.fewest_across(stagger=False))


@pytest.mark.parametrize("seed", range(24))
def test_staggered_rails(seed: int) -> None:
    dice = random.Random(seed)
    inputs = small(dice, "bittern-post", **ACROSS, stagger=True)
    layouts = Layouts(inputs)
    assert agree(layouts, placed(inputs, layouts), layouts.fewest_across(stagger=True))


@pytest.mark.parametrize("seed", range(12))
def test_pinned_lines(seed: int) -> None:
    dice = random.Random(seed)
    inputs = small(dice, "bittern-post", **ACROSS)
    rail, line = dice.choice((1, 2)), dice.choice(Layouts(inputs).lines).number
    inputs = pinned(inputs, Pin(line=line, rail=rail))
    layouts = Layouts(inputs)
    least = layouts.fewest_across(stagger=False)
    if least is None:
        with pytest.raises(JobErrors):
            place_racking(inputs, layouts.roof, layouts.arrays)
        return
    rack = placed(inputs, layouts)
    assert agree(layouts, rack, least)
    assert rack
    assert [a.line for a in rack.attachments if a.pinned] == [line]


@pytest.mark.parametrize("seed", range(16))
def test_hooks_at_laps(seed: int) -> None:
    inputs = small(random.Random(seed), dice_name(seed))
    layouts = Layouts(inputs)
    assert agree(layouts, placed(inputs, layouts), layouts.fewest_up(step=0.5, most=4))


def dice_name(seed: int) -> str | None:
    """By turns the base's hook and that of the catalog, which has feet and couplings."""
    return (None, "heron-tile")[seed % 2]


@pytest.mark.parametrize("seed", range(12))
def test_rails_up_held_anywhere(seed: int) -> None:
    inputs = small(random.Random(seed), "teal-up")
    layouts = Layouts(inputs)
    rack = placed(inputs, layouts)
    least = layouts.fewest_up(step=2.0, most=3)
    if rack is None:
        assert least is None
        return
    # the search may stand between the heights that are tried
    assert layouts.rack_holds(rack)
    assert least is None or len(rack.attachments) <= CLOSE * least
