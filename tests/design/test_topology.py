"""What is connected to what, from the job's own data."""

from dataclasses import replace
from typing import Any

import pytest
from houses import house, placed_arrays

from planset.design.circuits import build_circuits
from planset.design.topology import Equipment, Kind, Topology, string_inverter_topology


def topology_of(changes: dict[str, Any] | None = None, name: str = "gable-40x30") -> Topology:
    inputs = house(changes, name)
    circuits = build_circuits(inputs, placed_arrays(inputs))
    return string_inverter_topology(inputs, circuits)


def the(topology: Topology, kind: Kind) -> Equipment:
    (item,) = topology.of_kind(kind)
    return item


def test_equipment_from_sources_to_utility() -> None:
    assert [(item.tag, item.kind) for item in topology_of().equipment] == [
        ("S1", Kind.STRING),
        ("S2", Kind.STRING),
        ("RSD", Kind.SHUTDOWN),
        ("JB1", Kind.JUNCTION_BOX),
        ("INV1", Kind.INVERTER),
        ("DISC1", Kind.DISCONNECT),
        ("CB1", Kind.BREAKER),
        ("MSP", Kind.MAIN),
        ("M1", Kind.METER),
        ("UTIL", Kind.UTILITY),
    ]


def test_segments_run_from_every_string_to_the_utility() -> None:
    # the breaker stands in the panel, so no conductor of the job runs between them
    topology = topology_of()
    reach = {segment.start: segment.end for segment in topology.segments} | {"CB1": "MSP"}
    for string in topology.of_kind(Kind.STRING):
        way = [string.tag]
        while way[-1] in reach:
            way.append(reach[way[-1]])
        assert way[1:] == ["JB1", "INV1", "DISC1", "CB1", "MSP", "M1", "UTIL"]


def test_segments_are_numbered_and_join_known_equipment() -> None:
    topology = topology_of()
    tags = {item.tag for item in topology.equipment}
    assert len(tags) == len(topology.equipment)
    assert [s.tag for s in topology.segments] == [str(n) for n in range(1, 8)]
    assert all({segment.start, segment.end} <= tags for segment in topology.segments)


def test_currents_and_voltages_of_segments() -> None:
    # constructed example X-1 of the electrical study: 17.0 A and 407.06 V, 31.67 A and 240 V
    by_start = {segment.start: segment for segment in topology_of().segments}
    for start in ("S1", "S2", "JB1"):
        assert by_start[start].current_a == pytest.approx(17.0)
        assert by_start[start].voltage_v == pytest.approx(407.06, abs=0.005)
    for start in ("INV1", "DISC1"):
        assert (by_start[start].current_a, by_start[start].voltage_v) == (31.67, 240)
    assert by_start["M1"].current_a is None  # existing service conductors: not ours to size


def test_the_longest_string_governs_the_common_run() -> None:
    changes = {"electrical.strings.S1.modules": 12, "electrical.strings.S2.modules": 8}
    (common,) = (s for s in topology_of(changes).segments if s.start == "JB1")
    assert common.voltage_v == pytest.approx(12 * 40.706, abs=0.01)


def test_ratings_are_those_of_the_job_and_its_catalog() -> None:
    topology = topology_of()
    assert the(topology, Kind.INVERTER).name == "Maker INV"
    assert "AC 240 V, 31.67 A" in the(topology, Kind.INVERTER).ratings
    assert the(topology, Kind.BREAKER).ratings == ("40 A, 2P",)
    assert the(topology, Kind.MAIN).ratings == ("BUS 200 A, MAIN 200 A",)
    assert "60 A, 240 V" in the(topology, Kind.DISCONNECT).ratings
    string = topology.of_kind(Kind.STRING)[0]
    assert string.ratings[0] == "(10) BLOCK, 400 W"
    assert "COLD Voc 407.1 V" in string.ratings


def test_each_string_is_named_by_the_module_of_its_own_array() -> None:
    # two catalog entries may carry one model name
    inputs = house({"arrays.A2.module": "strong"}, "gable-40x30-both")
    (block,) = inputs.modules.values()
    strong = block.model_copy(update={"power_w": 440.0})
    inputs = replace(inputs, modules={"block": block, "strong": strong})
    circuits = build_circuits(inputs, placed_arrays(inputs))
    strings = string_inverter_topology(inputs, circuits).of_kind(Kind.STRING)
    assert [item.ratings[0] for item in strings] == ["(20) BLOCK, 400 W", "(20) BLOCK, 440 W"]


@pytest.mark.parametrize(
    ("each", "counted", "said"),
    [(1, "(20) DEV", "ONE PER MODULE"), (2, "(10) DEV", "ONE PER 2 MODULES")],
)
def test_shutdown_devices_are_counted(each: int, counted: str, said: str) -> None:
    device = the(topology_of({"shutdown.modules_per_device": each}), Kind.SHUTDOWN)
    assert device.ratings[:2] == (counted, said)


def test_shutdown_devices_are_counted_string_by_string() -> None:
    # three to a device: ten modules take four devices, whatever the other string has
    device = the(topology_of({"shutdown.modules_per_device": 3}), Kind.SHUTDOWN)
    assert device.ratings[0] == "(8) DEV"


def test_without_shutdown_equipment_none_is_shown() -> None:
    topology = topology_of({"shutdown": None})
    assert topology.of_kind(Kind.SHUTDOWN) == ()
    words = " ".join(text for item in topology.equipment for text in item.ratings)
    assert "SHUTDOWN" not in words


def test_the_initiator_is_marked_where_it_is() -> None:
    marked = the(topology_of(), Kind.DISCONNECT).ratings
    assert "RAPID SHUTDOWN INITIATOR" in marked
    elsewhere = the(topology_of({"electrical.initiator": "switch"}), Kind.DISCONNECT).ratings
    assert "RAPID SHUTDOWN INITIATOR" not in elsewhere
