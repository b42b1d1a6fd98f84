"""Every electrical size of four examples, worked out a second time by the plainest arithmetic.

The facts of each job are typed here from its file, the tables in naive_electrical from the books;
nothing of planset but the design under test is used.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from planset.design.design import build_design
from planset.design.electrical.system import ElectricalDesign
from planset.design.electrical.topology import Segment
from planset.job.load import read_job
from tests.design.naive_electrical import SIZES, device, grounding, raceway, smallest

EXAMPLES = Path(__file__).parents[2] / "examples"
ISC = 13.52
STRING_A = 1.25 * ISC


@dataclass(frozen=True)
class Run:
    """What one run must come to.

    Attributes:
        start: Equipment it leaves.
        size: Smallest conductor.
        taken: Size that the job fixes, "" for none.
        grounding: Grounding conductor.
        raceway: Trade size, "" in free air.
    """

    start: str
    size: str
    taken: str
    grounding: str
    raceway: str


def string_run(start: str, conductors: int, celsius: float, strings: int) -> Run:
    """A dc run of strings without devices: 10 AWG is stated in every job."""
    size = smallest(STRING_A, celsius, conductors)
    ground = grounding(device(STRING_A))
    return Run(start, size, "10", ground, raceway(*["10"] * 2 * strings, ground))


def in_array(start: str) -> Run:
    """Single conductors in free air: 14 AWG carries 35 A at 90 C, 0.91 of it at 38 C.

    A 14 AWG terminal carries 20 A at 75 C, less than 156 % of the string: so 12 AWG. In the open
    the grounding conductor is of 6 AWG.
    """
    size = "12" if 1.25 * STRING_A > 20 else "14"
    return Run(start, size, "10", "6", "")


def ac_run(start: str, current_a: float, celsius: float, *, neutral: bool = False) -> Run:
    """An inverter's output with two ungrounded conductors, behind the smallest device."""
    behind = device(current_a)
    size = smallest(current_a, celsius, 2, behind)
    ground = grounding(behind)
    return Run(start, size, "", ground, raceway(*[size] * (3 if neutral else 2), ground))


def backup_run(start: str, current_a: float, celsius: float, behind: int) -> Run:
    """A backup output: it is fed from the grid too, behind the breaker there."""
    size = smallest(current_a, celsius, 2, behind)
    ground = grounding(behind)
    return Run(start, size, "", ground, raceway(*[size] * 3, ground))


def tile_gable() -> list[Run]:
    hot = (97 - 32) / 1.8
    return [
        in_array("RSD-S1"),
        in_array("RSD-S2"),
        string_run("JB1", 4, hot, 2),
        ac_run("INV1", 31.67, hot),
        ac_run("DISC1", 31.67, hot),
    ]


def branch(start: str, units: int, conductors: int, attic: float) -> Run:
    """10 AWG is stated where 14 AWG serves, so the grounding conductor grows in proportion.

    4110 cmil of 14 AWG times 10380 / 4110 is 10 AWG. The box sends as many branches through one
    raceway as conductors are counted in pairs.
    """
    current = 1.46 * units
    behind = device(current)
    size = smallest(current, attic, conductors, behind)
    assert (size, grounding(behind)) == ("14", "14")
    return Run(start, size, "10", "10", raceway(*["10"] * conductors, "10"))


def shingle_hip() -> list[Run]:
    attic, hot, total = (130 - 32) / 1.8, (94 - 32) / 1.8, 1.46 * 22
    return [
        branch("JB1-B1", 8, 4, attic),
        branch("JB1-B2", 8, 4, attic),
        branch("JB2", 6, 2, attic),
        ac_run("ACC-LUGS", total, hot),
        ac_run("M2", total, hot),
        ac_run("DISC1", total, hot),
    ]


def cross_gable() -> list[Run]:
    """Three strings from three boxes, which have their last 20 ft in one raceway.

    It holds the six conductors and one grounding conductor. Of the 20 ft, 12 ft are on the wall and
    the rest in the attic: there all six count, while each run alone farther up counts two.
    """
    attic, hot, output = 60.0, (99 - 32) / 1.8, 15.5
    shared_ft, wall_ft = 20, 12
    together = 6 if shared_ft > wall_ft else 2
    ground = grounding(device(output))
    string = smallest(output, attic, together)
    fill = raceway(*["10"] * 6, ground)
    runs = [Run(f"CONV-S{n}", "14", "10", "6", "") for n in (1, 2, 3)]
    runs += [Run(f"JB{n}", string, "10", ground, fill) for n in (1, 2, 3)]
    runs.append(ac_run("INV1", 31.67, hot))
    # ahead of the main: 6 AWG at least, the neutral with it, and the bonding jumper of
    # Table 250.102(C)(1), 8 AWG
    tap = smallest(31.67, hot, 2, device(31.67), least="6")
    runs.append(Run("DISC1", tap, "", "8", raceway(tap, tap, tap, "8")))
    return runs


def battery_retrofit() -> list[Run]:
    attic, hot, output, from_grid = (130 - 32) / 1.8, (94 - 32) / 1.8, 24.2, 32
    battery = smallest(14.7, hot, 2, 30)
    return [
        in_array("RSD-S1"),
        in_array("RSD-S2"),
        string_run("JB1", 4, attic, 2),
        Run("BAT1", battery, "", grounding(30), raceway(battery, battery, grounding(30))),
        # behind the breaker of what the inverter takes, and the main of 40 A
        backup_run("BLP-MAIN", output, hot, max(40, device(from_grid))),
        ac_run("INV1", from_grid, hot, neutral=True),
        ac_run("DISC1", from_grid, hot, neutral=True),
    ]


CASES = {
    "tile-gable": tile_gable(),
    "shingle-hip": shingle_hip(),
    "cross-gable": cross_gable(),
    "battery-retrofit": battery_retrofit(),
}


@cache
def electrical(example: str) -> ElectricalDesign:
    return build_design(read_job(EXAMPLES / example / "job.yaml")).electrical


def sized(example: str) -> dict[str, Segment]:
    segments = electrical(example).topology.segments
    return {segment.start: segment for segment in segments if segment.conductors is not None}


@pytest.mark.parametrize("example", CASES)
def test_every_sized_run_is_worked_out_here(example: str) -> None:
    assert sorted(sized(example)) == sorted(run.start for run in CASES[example])


@pytest.mark.parametrize(
    ("example", "run"),
    [
        pytest.param(name, run, id=f"{name} {run.start}")
        for name, runs in CASES.items()
        for run in runs
    ],
)
def test_the_sizes_agree(example: str, run: Run) -> None:
    conductors = sized(example)[run.start].conductors
    assert conductors is not None
    assert conductors.size == (run.taken or run.size)
    assert conductors.needed_size == run.size
    assert SIZES.index(conductors.size) >= SIZES.index(run.size)
    assert conductors.grounding == run.grounding
    fill = conductors.fill
    assert (fill.raceway.trade_size if fill else "") == run.raceway


@pytest.mark.parametrize(
    ("example", "expected"),
    [
        ("tile-gable", {"CB1": device(31.67)}),
        (
            "shingle-hip",
            {
                "CB1": device(1.46 * 8),
                "CB2": device(1.46 * 8),
                "CB3": device(1.46 * 6),
                "CB4": device(1.46 * 22),
            },
        ),
        ("cross-gable", {"DISC1": device(31.67)}),
        ("battery-retrofit", {"CB1": device(32)}),
    ],
)
def test_the_devices_agree(example: str, expected: dict[str, int]) -> None:
    assert {d.tag: d.rating_a for d in electrical(example).devices} == expected


def test_the_smaller_main_agrees() -> None:
    derate = electrical("battery-retrofit").derate
    assert derate is not None
    room = 1.2 * 125 - 1.25 * 24.2
    assert derate.limit_a == pytest.approx(room)
    assert derate.new_a == max(rating for rating in (90, 100, 110, 125) if rating <= room)


@pytest.mark.parametrize(
    ("example", "bus", "main", "source", "limit"),
    [
        ("tile-gable", "MSP", 200, 31.67, 240),
        ("shingle-hip", "MSP", 200, 1.46 * 22, 270),
        ("battery-retrofit", "MSP", 110, 24.2, 150),
    ],
)
def test_the_sums_on_the_bus_agree(
    example: str, bus: str, main: float, source: float, limit: float
) -> None:
    load = next(load for load in electrical(example).buses if load.tag == bus)
    assert load.chosen.demand_a == pytest.approx(main + 1.25 * source)
    assert load.chosen.limit_a == pytest.approx(limit)
