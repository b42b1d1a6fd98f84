"""Voltages, ampacities, drops, electrodes and disconnects of the examples, worked out once more.

The facts of each job are typed here from its file, as in test_naive_electrical; the tables stand in
naive_electrical. Nothing of planset but the design under test is used.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import ceil, floor, sqrt
from pathlib import Path

import pytest

from planset.design.design import Design, build_design
from planset.design.electrical.drop_ways import drop_ways
from planset.design.electrical.service_limits import electrodes_of
from planset.design.electrical.string_range import string_ranges
from planset.design.electrical.topology import Segment
from planset.job.load import read_job
from planset.rules.run import judge
from tests.design.naive_electrical import (
    AC_OHM,
    DC_OHM,
    SIZES,
    at_terminals,
    carried,
    cold_factor,
    electrode,
    in_free_air,
)

EXAMPLES = Path(__file__).parents[2] / "examples"
FOUR = ("tile-gable", "shingle-hip", "cross-gable", "battery-retrofit")
FIVE = (*FOUR, "flat-commercial")
VOC, VMP, IMP, ISC = 37.4, 31.1, 12.93, 13.52
CELSIUS = {
    name: ((low - 32) / 1.8, (high - 32) / 1.8)
    for name, low, high in (
        ("tile-gable", 25, 97),
        ("shingle-hip", 5, 94),
        ("cross-gable", 30, 99),
        ("battery-retrofit", 5, 94),
        ("flat-commercial", 19, 102),
    )
}
"""Lowest and high ambient of each site."""


@cache
def design(example: str) -> Design:
    return build_design(read_job(EXAMPLES / example / "job.yaml"))


def sized(example: str) -> dict[str, Segment]:
    segments = design(example).electrical.topology.segments
    return {segment.start: segment for segment in segments if segment.conductors is not None}


def cold(example: str) -> float:
    """Open-circuit voltage of a module on the coldest morning, by its coefficient."""
    return VOC * (1 - 0.0027 * (CELSIUS[example][0] - 25))


def at_power(celsius: float) -> float:
    """Operating voltage of a module with cells at a temperature."""
    return VMP * (1 - 0.0034 * (celsius - 25))


@pytest.mark.parametrize(
    ("example", "modules", "limit", "tracking", "least"),
    [
        ("tile-gable", 10, 600, 480, 140),
        ("battery-retrofit", 7, 600, 480, 150),
        ("flat-commercial", 18, 1000, 850, 250),
    ],
)
def test_strings_and_how_long_they_may_be(
    example: str, modules: int, limit: float, tracking: float, least: float
) -> None:
    found, (lowest, high) = design(example), CELSIUS[example]
    by_table = VOC * cold_factor(lowest)
    hot = at_power(high + 35)
    (one,) = string_ranges(found.inputs, found.electrical)
    assert (one.limit_v, one.most) == (limit, floor(limit / cold(example)))
    assert one.most_by_table == floor(limit / by_table)
    assert one.most_tracking == floor(tracking / at_power(lowest))
    assert (one.least_v, one.fewest) == (least, ceil(least / hot))
    for string in found.electrical.strings:
        assert string.cold_voc_v == pytest.approx(modules * cold(example))
        assert string.table_voc_v == pytest.approx(modules * by_table)
        assert string.hot_vmp_v == pytest.approx(modules * hot)
        assert string.maximum_current_a == pytest.approx(1.25 * ISC)
        assert (string.backfeed_a, string.fuse_a) == (0, None)  # an input for each


def test_strings_of_converters() -> None:
    for string, modules in zip(design("cross-gable").electrical.strings, (9, 6, 6), strict=True):
        assert string.cold_voc_v == 480  # the listing's, below 70 V each
        assert string.operating_a == pytest.approx(modules * 402 / 400)
        assert string.maximum_current_a == 15.5  # no 1.25


def test_branches() -> None:
    for branch, units in zip(design("shingle-hip").electrical.branches, (8, 8, 6), strict=True):
        assert branch.cold_voc_v == pytest.approx(cold("shingle-hip"))
        assert branch.maximum_current_a == pytest.approx(1.46 * units)
        assert (branch.breaker_a, branch.most_units) == (15, floor(15 / 1.25 / 1.46))


@pytest.mark.parametrize(
    ("example", "inside", "outside"),
    [
        # one module stays on; 0.7 V of each of ten, seven or eighteen devices, 1 V of nine
        ("tile-gable", cold("tile-gable"), 10 * 0.7),
        ("shingle-hip", cold("shingle-hip"), None),
        ("cross-gable", cold("cross-gable"), 9 * 1.0),
        ("battery-retrofit", cold("battery-retrofit"), 7 * 0.7),
        ("flat-commercial", cold("flat-commercial"), 18 * 0.7),
    ],
)
def test_what_rapid_shutdown_leaves(example: str, inside: float, outside: float | None) -> None:
    shutdown = design(example).electrical.shutdown
    assert shutdown.left_inside_v == pytest.approx(inside)
    assert shutdown.left_outside_v == (None if outside is None else pytest.approx(outside))


@dataclass(frozen=True)
class Way:
    """A run as the job describes it.

    Attributes:
        start: Equipment it leaves.
        size: Size of its conductors.
        feet: One way.
        amperes: In operation.
        volts: In operation.
        celsius: Where it is hottest.
        conductors: That carry current, in its raceway or bundle.
        kind: "air", "dc", "ac" or "three".
    """

    start: str
    size: str
    feet: float
    amperes: float
    volts: float
    celsius: float
    conductors: int
    kind: str

    @property
    def percent(self) -> float:
        ohm = (DC_OHM if self.kind in ("air", "dc") else AC_OHM)[self.size]
        there_and_back = sqrt(3) if self.kind == "three" else 2
        return 100 * there_and_back * self.feet * self.amperes * ohm / 1000 / self.volts


def hot(example: str) -> float:
    return CELSIUS[example][1]


ATTIC = (130 - 32) / 1.8
TILE_ROOF_FT = (18 + 122.5) / 12
FLAT_ROOF_FT = {1: (19 + 772) / 12, 2: 654 / 12, 3: (457 + 834) / 12}
"""From each box over the roof, along the lines of its route."""
CROSS_DC = ((1, 9, 62 + 12), (2, 6, 104 + 12), (3, 6, 8 + 12))
"""Box and string, modules, and feet through the attic and down the wall."""
WAYS = {
    "tile-gable": [
        Way("RSD-S1", "10", 42, IMP, 10 * VMP, hot("tile-gable"), 2, "air"),
        Way("RSD-S2", "10", 42, IMP, 10 * VMP, hot("tile-gable"), 2, "air"),
        Way("JB1", "10", TILE_ROOF_FT + 22, IMP, 10 * VMP, hot("tile-gable"), 4, "dc"),
        Way("INV1", "8", 4, 31.67, 240, hot("tile-gable"), 2, "ac"),
        Way("DISC1", "8", 6, 31.67, 240, hot("tile-gable"), 2, "ac"),
    ],
    "shingle-hip": [
        Way("JB1-B1", "10", 40 + 12, 8 * 1.46, 240, ATTIC, 4, "ac"),
        Way("JB1-B2", "10", 40 + 12, 8 * 1.46, 240, ATTIC, 4, "ac"),
        Way("JB2", "10", 14 + 12, 6 * 1.46, 240, ATTIC, 2, "ac"),
        Way("ACC-LUGS", "8", 6, 22 * 1.46, 240, hot("shingle-hip"), 2, "ac"),
        Way("M2", "8", 0, 22 * 1.46, 240, hot("shingle-hip"), 2, "ac"),  # counted before the meter
        Way("DISC1", "8", 5, 22 * 1.46, 240, hot("shingle-hip"), 2, "ac"),
    ],
    "cross-gable": [
        *(
            Way(f"CONV-S{n}", "10", 30, modules * 402 / 400, 400, hot("cross-gable"), 2, "air")
            for n, modules, _ in CROSS_DC
        ),
        *(
            # the end of each is in one raceway with the two others, and some of it in the attic
            Way(f"JB{n}", "10", feet, modules * 402 / 400, 400, 60, 6, "dc")
            for n, modules, feet in CROSS_DC
        ),
        Way("INV1", "8", 4, 31.67, 240, hot("cross-gable"), 2, "ac"),
        Way("DISC1", "6", 6, 31.67, 240, hot("cross-gable"), 2, "ac"),
    ],
    "battery-retrofit": [
        Way("RSD-S1", "10", 40, IMP, 7 * VMP, hot("battery-retrofit"), 2, "air"),
        Way("RSD-S2", "10", 40, IMP, 7 * VMP, hot("battery-retrofit"), 2, "air"),
        Way("JB1", "10", 30, IMP, 7 * VMP, ATTIC, 4, "dc"),
        Way("BAT1", "10", 5, 14.7, 340, hot("battery-retrofit"), 2, "dc"),
        Way("BLP-MAIN", "8", 6, 24.2, 240, hot("battery-retrofit"), 2, "ac"),
        Way("INV1", "8", 12, 32, 240, hot("battery-retrofit"), 2, "ac"),
        Way("DISC1", "8", 5, 32, 240, hot("battery-retrofit"), 2, "ac"),
    ],
    "flat-commercial": [
        *(
            Way(f"RSD-S{n}", "10", 70, IMP, 18 * VMP, hot("flat-commercial"), 2, "air")
            for n in range(1, 12)
        ),
        *(
            Way(
                f"JB{n}",
                "12",
                FLAT_ROOF_FT[n] + 20,
                IMP,
                18 * VMP,
                hot("flat-commercial"),
                wires,
                "dc",
            )
            for n, wires in ((1, 8), (2, 8), (3, 6))
        ),
        Way("INV1", "3", 8, 72.2, 480, hot("flat-commercial"), 3, "three"),
        Way("DISC1", "3", 18, 72.2, 480, hot("flat-commercial"), 3, "three"),
    ],
}


@pytest.mark.parametrize("example", FIVE)
def test_every_run_has_its_numbers_here(example: str) -> None:
    assert sorted(sized(example)) == sorted(way.start for way in WAYS[example])


@pytest.mark.parametrize(
    ("example", "way"),
    [
        pytest.param(name, way, id=f"{name} {way.start}")
        for name, ways in WAYS.items()
        for way in ways
    ],
)
def test_ampacity_and_drop_agree(example: str, way: Way) -> None:
    run = sized(example)[way.start].conductors
    assert run is not None
    assert run.size == way.size
    carries = in_free_air if way.kind == "air" else carried
    usable = carries(way.size, way.celsius, way.conductors)
    assert run.check.adjusted.ampacity_a == pytest.approx(usable)
    assert run.check.terminal_ampacity_a == at_terminals(way.size, 75)
    assert run.drop.percent == pytest.approx(way.percent)


def trunk_percent(pitches: tuple[int, ...]) -> float:
    """Rise at 240 V along a trunk of 12 AWG, of units of 1.46 A each a number of pitches on.

    A pitch is 6 ft. The current of each unit flows back to the box past all before it.
    """
    rise_v = 0.0
    for unit in range(len(pitches)):
        feet = 6 * sum(pitches[: unit + 1])
        rise_v += 2 * feet * 1.46 * DC_OHM["12"] / 1000
    return 100 * rise_v / 240


TRUNKS = {
    # M02 lies 4.5 in below the edge of its row, 173.0 in along it from the last column of that row,
    # then 46.9 in down and 9.7 in across to the box: 234.1 in, four pitches of 72 in
    "B1": (4,) + (1,) * 7,
    # M11 is 4.5 + 7.4 + 115.2 + 9.7 in from it; to M09 two columns, 2 x 45.1 in
    "B2": (2, 2) + (1,) * 6,
    "B3": (2,) + (1,) * 5,  # M17: 4.5 + 61.7 + 12.9 + 11.8 in
}
"""Of the units of shingle-hip: pitches from the box to the first, and from each to the next."""


@pytest.mark.parametrize(
    ("example", "source", "starts"),
    [
        ("tile-gable", "S1", ("RSD-S1", "JB1", "INV1", "DISC1")),
        ("shingle-hip", "B1", ("JB1-B1", "ACC-LUGS", "DISC1")),
        ("shingle-hip", "B2", ("JB1-B2", "ACC-LUGS", "DISC1")),
        ("shingle-hip", "B3", ("JB2", "ACC-LUGS", "DISC1")),
        ("cross-gable", "S1", ("CONV-S1", "JB1", "INV1", "DISC1")),
        ("cross-gable", "S3", ("CONV-S3", "JB3", "INV1", "DISC1")),
        ("battery-retrofit", "S2", ("RSD-S2", "JB1", "INV1", "DISC1")),
        ("battery-retrofit", "BAT1", ("BAT1", "INV1", "DISC1")),
        ("flat-commercial", "S11", ("RSD-S11", "JB3", "INV1", "DISC1")),
    ],
)
def test_the_way_from_a_source_adds_up(example: str, source: str, starts: tuple[str, ...]) -> None:
    ways = {way.source: way for way in drop_ways(design(example).electrical.topology)}
    by_start = {way.start: way for way in WAYS[example]}
    expected = sum(by_start[s].percent for s in starts)
    if source in TRUNKS:
        expected += trunk_percent(TRUNKS[source])
    assert ways[source].percent == pytest.approx(expected)


@pytest.mark.parametrize(
    ("example", "kinds"),
    [
        ("tile-gable", [("water pipe", "4/0", "Al"), ("rod", "4/0", "Al")]),
        ("shingle-hip", [("concrete", "4/0", "Al")]),
        ("cross-gable", [("concrete", "4/0", "Al")]),
        ("battery-retrofit", [("rod", "1/0", "Al"), ("rod", "1/0", "Al")]),
        ("flat-commercial", [("concrete", "500", "Cu")]),
    ],
)
def test_electrode_conductors_agree(example: str, kinds: list[tuple[str, str, str]]) -> None:
    least = [one.least for one in electrodes_of(design(example).inputs)]
    assert least == [electrode(kind, size, metal) for kind, size, metal in kinds]


@pytest.mark.parametrize(
    ("example", "rating", "least"),
    [
        ("tile-gable", 60, 1.25 * 31.67),
        ("shingle-hip", 60, 1.25 * 22 * 1.46),
        ("cross-gable", 60, 40),  # its fuse, over 1.25 x 31.67 A
        ("battery-retrofit", 60, 1.25 * 32),  # what it takes from the grid
        ("flat-commercial", 100, 1.25 * 72.2),
    ],
)
def test_disconnects_agree(example: str, rating: float, least: float) -> None:
    (found,) = (f for f in judge(design(example)) if f.rule == "electrical.disconnect-rating")
    assert (found.measured, found.limit) == (rating, pytest.approx(least))


def test_ahead_of_the_main_agree() -> None:
    by_rule = {f.rule: f for f in judge(design("cross-gable")) if f.limit is not None}
    assert by_rule["electrical.tap-disconnect"].limit == 60
    sources = by_rule["electrical.supply-side-sources"]
    assert (sources.measured, sources.limit) == (31.67, 180)  # 4/0 aluminum at 75 C
    tap = sized("cross-gable")["DISC1"].conductors
    assert tap is not None
    # Table 250.102(C)(1): 8 AWG copper up to 2 AWG; the neutral is as large as the others
    assert (tap.neutral_least, tap.grounding, tap.neutral_size) == ("8", "8", "6")
    assert SIZES.index(tap.size) >= SIZES.index("6")  # 705.11(B)


@pytest.mark.parametrize(
    ("example", "tag", "sums"),
    [
        ("tile-gable", "MSP", [(200 + 1.25 * 31.67, 200), (200 + 1.25 * 31.67, 240)]),
        ("shingle-hip", "ACC", [(45 + 1.25 * 32.12, 125), (45, 125)]),
        ("shingle-hip", "MSP", [(200 + 1.25 * 32.12, 225), (200 + 1.25 * 32.12, 270)]),
        ("battery-retrofit", "MSP", [(110 + 1.25 * 24.2, 125), (110 + 1.25 * 24.2, 150)]),
        ("flat-commercial", "MSP", [(350 + 1.25 * 72.2, 400), (350 + 1.25 * 72.2, 480)]),
    ],
)
def test_every_way_of_each_bus_agrees(
    example: str, tag: str, sums: list[tuple[float, float]]
) -> None:
    bus = next(bus for bus in design(example).electrical.buses if bus.tag == tag)
    found = [(way.demand_a, way.limit_a) for way in bus.alternatives]
    assert found == [pytest.approx(pair) for pair in sums]
