"""Found layouts beside every layout that there is, on arrays small enough to try them all."""

import random

import pytest
from fewest_jobs import ACROSS, fewest, pinned, small
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


@pytest.mark.parametrize(
    ("seed", "stagger"), [(19, False), (45, False), (16, False), (45, True), (53, True)]
)
def test_spans_by_turns_of_which_the_whole_rail_asks_more(seed: int, *, stagger: bool) -> None:
    # on these the best way by the factors of equal spans does not hold as one beam
    dice = random.Random(seed)
    changes = {
        "arrays.A1.rows": 1 + stagger,
        "arrays.A1.columns": 2,
        "arrays.A1.corner.along": dice.uniform(10, 300),
        "arrays.A1.corner.up": dice.uniform(10, 110),
        "framing.spacing": 16.0,
        "framing.first_rafter": dice.uniform(0, 16),
        "site.wind_speed": dice.choice((110.0, 140.0, 160.0)),
        "site.exposure": "C",
    }
    ceiling = dice.uniform(0.25, 0.8)
    told = {**ACROSS, "stagger": stagger, "ratio_ceiling": ceiling}
    inputs = fewest(changes, "bittern-post", **told)
    layouts = Layouts(inputs)
    assert agree(layouts, placed(inputs, layouts), layouts.fewest_across(stagger=stagger))


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
