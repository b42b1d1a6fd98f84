"""E-601 of any common system: nothing overlaps, every wire leads where the topology says."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from planset.design.electrical.system import ElectricalDesign, Shutdown
from planset.design.electrical.topology import Kind, Panel, Segment, Topology
from planset.drawing.primitives import Text
from planset.sheets.one_line.poles import conductors
from planset.sheets.one_line.schedules import conductor_schedule
from tests.sheets.diagram_pages import MARK, drawn, faults, lanes
from tests.sheets.electrical_systems import Shape, grounding_of, shapes, topology_of

SIZES = ("11x17", "18x24", "24x36")
FEW, MANY = 30, 300
UNSHRUNK = (Phase.explicit, Phase.reuse, Phase.generate)

# The largest and the most crowded of what installers build (common practice, no source).
HARD = {
    "microinverters on three branches": Shape(source="branches", inverters=3, combiner=True),
    "eleven strings": Shape(strings=11),
    "forty strings": Shape(inverters=2, strings=20, combiner=True),
    "hybrid with backup and subpanel": Shape(
        battery=True, backup=True, strings=3, connection="subpanel"
    ),
    "two inverters, fused supply-side tap": Shape(
        inverters=2, combiner=True, meter=True, fused=True, connection="supply_side"
    ),
    "all at once": Shape(
        inverters=2, strings=4, combiner=True, meter=True, fused=True, connection="subpanel",
        battery=True, backup=True, dc_disconnect=True,
    ),
}  # fmt: skip

# Where the room would have a diagram fold between an array and its box.
FOLDED = {
    "a string on each of four inverters": Shape(
        source="converters", inverters=4, strings=1, dc_disconnect=True, combiner=True, meter=True
    ),
    "a string on each of two inverters": Shape(
        inverters=2, strings=1, dc_disconnect=True, combiner=True
    ),
    "four hybrids on a subpanel": Shape(
        source="converters", inverters=4, strings=1, dc_disconnect=True, battery=True, backup=True,
        combiner=True, fused=True, connection="subpanel",
    ),
}  # fmt: skip


def in_order(shape: Shape, size: str, *, each: bool = False) -> None:
    topology = topology_of(shape)
    assert faults(drawn(topology, grounding_of(topology), size, each=each)) == []


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", HARD | FOLDED)
def test_a_hard_system_is_in_order(name: str, size: str) -> None:
    in_order((HARD | FOLDED)[name], size)


@pytest.mark.parametrize("name", HARD)
def test_a_hard_system_is_in_order_with_every_conductor_drawn(name: str) -> None:
    in_order(HARD[name], "11x17", each=True)


@settings(
    max_examples=FEW,
    phases=UNSHRUNK,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
)
@given(shapes(), st.sampled_from(SIZES))
def test_a_random_system_is_in_order(shape: Shape, size: str) -> None:
    in_order(shape, size)


@pytest.mark.long
@settings(max_examples=MANY, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(shapes())
def test_every_random_system_of_many_is_in_order(shape: Shape) -> None:
    for size in SIZES:
        in_order(shape, size)


def test_a_circuit_has_the_conductors_that_its_segment_counts() -> None:
    one_phase = Segment("1", "A", "B", "", None, True, 1, None, None, 240.0, neutrals=1)
    three_phase = replace(one_phase, lines=3, neutrals=0)
    strings = replace(one_phase, ac=False, circuits=3)
    drawn_as = [
        [wire.name for wire in conductors(way, way.lines, each=True)]
        for way in (one_phase, three_phase, strings)
    ]
    assert drawn_as == [["L1", "L2", "N"], ["L1", "L2", "L3"], ["+ (3)", "- (3)"]]
    assert [wire.name for wire in conductors(one_phase, 2, each=False)] == [""]


@given(shapes())
def test_every_segment_is_scheduled_once(shape: Shape) -> None:
    topology = topology_of(shape)
    nothing = Shutdown(None, "", "", (), "", "", None, None)
    electrical = ElectricalDesign(
        (), (), topology, (), (), None, (), nothing, (), (), (), 0.0, 0.0, 0.0, 0.0
    )
    table = conductor_schedule(electrical, (0.0, 0.0), 12.3)
    assert table.spec is not None
    tags = [row[0] for row in table.spec.rows]
    assert tags == [segment.tag for segment in topology.segments]
    words = [part.text for part in table.primitives if isinstance(part, Text)]
    assert words.count("CONDUCTOR SCHEDULE") == 1


def steps_drawn(shape: Shape, size: str) -> None:
    """Each step of the path is one conductor, and no conductor joins what no step joins."""
    topology = topology_of(shape)
    steps = grounding_of(topology)
    boxes = {step.end for step in steps if step.start == "MODULE FRAMES"}
    named = {item.panel or item.tag for item in topology.equipment}
    expected = [{"ARRAY", box} for box in sorted(boxes)]
    expected += [{s.start, s.end} for s in steps if {s.start, s.end} <= named]
    expected.append({"MSP", "GROUNDING_ELECTRODE"})
    found = lanes(drawn(topology, steps, size))
    whole = [ends for ends in found if MARK not in ends]
    for ends in whole:
        assert ends in expected, ends
    for ends in expected:
        parted = sum(bool(ends & half) for half in found if MARK in half)
        assert whole.count(ends) == 1 or (whole.count(ends) == 0 and parted), ends


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", HARD | FOLDED)
def test_a_hard_system_draws_the_grounding_path_step_by_step(name: str, size: str) -> None:
    steps_drawn((HARD | FOLDED)[name], size)


def ways_of_one_box(topology: Topology) -> Topology:
    """The same system with a way of its own through the junction box for every circuit."""
    (box,) = topology.of_kind(Kind.JUNCTION_BOX)
    (onward,) = (way for way in topology.segments if way.start == box.tag)
    ways = [way for way in topology.segments if box.tag not in (way.start, way.end)]
    parts = []
    for number, way in enumerate(topology.segments, len(topology.segments) + 1):
        if way.end == box.tag:
            part = replace(box, tag=f"{box.tag}-{way.tag}", panel=box.tag)
            parts.append(part)
            ways.append(replace(way, end=part.tag))
            ways.append(replace(onward, tag=str(number), start=part.tag))
    others = [item for item in topology.equipment if item is not box]
    around = Panel(box.tag, "JUNCTION BOX", (), "roof", existing=False)
    return Topology((*others, *parts), (*topology.panels, around), tuple(ways), topology.links)


def test_ways_of_one_box_on_several_tiers_are_bonded_once() -> None:
    whole = topology_of(Shape(strings=6, meter=True, fused=True))
    topology = ways_of_one_box(whole)
    made = drawn(topology, grounding_of(whole), "11x17")
    assert faults(made) == []
    found = lanes(made)
    assert [found.count({"JB1", end}) for end in ("ARRAY", MARK)] == [1, 1]
    assert found.count({"INV1", MARK}) == 1
