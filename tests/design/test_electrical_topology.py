"""The tree of equipment and conductors from the sources to the utility."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from electrics import CONVERTERS, HYBRID, MICRO, SUBPANEL, SYSTEMS, electrical_of
from houses import house
from hypothesis import given
from hypothesis import strategies as st

from planset.design.design import build_design
from planset.design.electrical.system import GroundingStep
from planset.design.electrical.topology import Equipment, Kind, Topology
from planset.job.electrical.service import Combiner, ProductionMeter
from planset.job.electrical.sources import DcDisconnect
from planset.job.load import read_job


def topology_of(changes: dict[str, Any] | None = None, name: str = "gable-40x30") -> Topology:
    return electrical_of(changes, name).topology


def way(topology: Topology, tag: str) -> list[str]:
    """The tags from a piece of equipment to the last that is reached."""
    found = [tag]
    while (onward := topology.onward.get(found[-1])) is not None:
        assert onward.end not in found, found
        found.append(onward.end)
    return found


def is_tree(topology: Topology) -> None:
    """Tags are unique, each piece has one way on, in order, and all of them end at the utility."""
    tags = [item.tag for item in topology.equipment]
    assert len(set(tags)) == len(tags)
    ways = [*topology.segments, *topology.links]
    assert len({item.start for item in ways}) == len(ways) == len(tags) - 1
    assert all(tags.index(item.start) < tags.index(item.end) for item in ways)
    assert all(way(topology, tag)[-1] == "UTIL" for tag in tags)
    numbers = [segment.tag for segment in topology.segments]
    assert numbers == [str(n) for n in range(1, len(numbers) + 1)]
    panels = {panel.tag for panel in topology.panels}
    assert {item.panel for item in topology.equipment if item.panel} == panels
    assert not panels & set(tags)


def test_load_side_breaker() -> None:
    expected = "S1 RSD-S1 JB1 INV1 DISC1 CB1 MSP-BUS MSP-MAIN M1 UTIL"
    assert way(topology_of(), "S1") == expected.split()
    assert way(topology_of(), "MSP-LOADS") == ["MSP-LOADS", "MSP-BUS", "MSP-MAIN", "M1", "UTIL"]


def test_supply_side_tap() -> None:
    topology = topology_of({}, CONVERTERS)
    assert way(topology, "S2") == ["S2", "CONV-S2", "JB1", "INV1", "DISC1", "TAP1", "M1", "UTIL"]
    assert way(topology, "MSP-MAIN") == ["MSP-MAIN", "TAP1", "M1", "UTIL"]
    assert topology.by_tag["DISC1"].kind is Kind.FUSED_DISCONNECT
    assert topology.of_kind(Kind.BREAKER) == ()


def test_subpanel() -> None:
    topology = topology_of({}, SUBPANEL)
    expected = "DISC1 CB1 SP1-BUS SP1-LUGS CB2 MSP-BUS MSP-MAIN M1 UTIL"
    assert way(topology, "DISC1") == expected.split()
    assert topology.by_tag["CB1"].panel == "SP1"
    assert (topology.by_tag["CB2"].panel, topology.by_tag["CB2"].existing) == ("MSP", True)
    (feeder,) = topology.segments_of("feeder")
    assert (feeder.start, feeder.end, feeder.device_a) == ("SP1-LUGS", "CB2", 100)


def test_microinverters_with_a_combiner() -> None:
    topology = topology_of({}, MICRO)
    expected = "B2 JB1-B2 CB2 AC1-BUS AC1-LUGS DISC1 CB3 MSP-BUS MSP-MAIN M1 UTIL"
    assert way(topology, "B2") == expected.split()
    shared = next(panel for panel in topology.panels if panel.tag == "JB1")
    assert [item.tag for item in topology.parts_of(shared.tag)] == ["JB1-B1", "JB1-B2"]


def test_hybrid_with_battery_and_backup_panel() -> None:
    topology = topology_of({}, HYBRID)
    assert way(topology, "BAT1")[:3] == ["BAT1", "INV1", "DISC1"]
    assert way(topology, "BUP-LOADS")[:5] == ["BUP-LOADS", "BUP-BUS", "BUP-MAIN", "INV1", "DISC1"]
    assert topology.by_tag["BAT1"].count == 2
    main = topology.by_tag["MSP-MAIN"]
    assert (main.rating_a, main.existing) == (175, False)
    assert topology.by_tag["MSP-BUS"].existing


def test_production_meter_stands_before_the_disconnect() -> None:
    meter = ProductionMeter(location="wall", owner="utility")
    topology = topology_of({"electrical.production_meter": meter})
    assert way(topology, "INV1")[:3] == ["INV1", "M2", "DISC1"]
    to_meter, to_switch = topology.segments_of("output")
    assert (to_switch.start, to_switch.continues) == ("M2", to_meter.tag)
    assert to_meter.conductors is not None
    assert to_switch.conductors is not None
    assert (to_meter.conductors.length_ft, to_switch.conductors.length_ft) == (15, 0)
    assert to_switch.conductors.drop.drop_v == 0


def test_dc_disconnect_apart_from_the_inverter() -> None:
    apart = DcDisconnect(id="DCD1", rating="60 A", voltage="600 V", location="wall")
    topology = topology_of({"electrical.inverters.INV1.dc_disconnect": apart})
    assert way(topology, "JB1")[:3] == ["JB1", "DCD1", "INV1"]


def two_inverters(boxes: tuple[str, str]) -> dict[str, Any]:
    """Two inverters with a combiner, a string each, by way of the boxes named."""
    given = house().job.electrical
    first, (a, b), box = given.inverters[0], given.strings, given.junction_boxes[0]
    combiner = Combiner.model_validate(
        {"id": "AC1", "bus": "125 A", "main": "90 A", "interrupting": "10000 A", "location": "wall"}
    )
    return {
        "electrical.inverters": (
            first.model_copy(update={"junction_box": boxes[0]}),
            first.model_copy(update={"id": "INV2", "junction_box": boxes[1]}),
        ),
        "electrical.strings": (
            a.model_copy(update={"inverter": "INV1"}),
            b.model_copy(update={"inverter": "INV2"}),
        ),
        "electrical.junction_boxes": tuple(
            box.model_copy(update={"id": tag}) for tag in dict.fromkeys(boxes)
        ),
        "electrical.combiner": combiner,
        "electrical.interconnection.breaker": None,
        "electrical.wiring.combined": given.wiring.output,
    }


@pytest.mark.parametrize(
    ("boxes", "passed"),
    [(("JB1", "JB2"), ["JB1", "JB2"]), (("JB1", "JB1"), ["JB1-INV1", "JB1-INV2"])],
)
def test_several_inverters(boxes: tuple[str, str], passed: list[str]) -> None:
    found = electrical_of(two_inverters(boxes))
    is_tree(found.topology)
    assert [item.tag for item in found.topology.of_kind(Kind.JUNCTION_BOX)] == passed
    expected = f"S2 RSD-S2 {passed[1]} INV2 CB2 AC1-BUS AC1-MAIN DISC1 CB3 MSP-BUS MSP-MAIN M1 UTIL"
    assert way(found.topology, "S2") == expected.split()
    assert found.source_a == pytest.approx(63.34)
    # 1.25 x 63.34 A = 79.2 A; NEC 240.6(A)
    assert [device.rating_a for device in found.devices] == [40, 40, 90, 80]


@pytest.mark.parametrize("name", SYSTEMS)
def test_every_system_is_a_tree(name: str) -> None:
    is_tree(topology_of({}, name))


@given(st.lists(st.integers(1, 6), min_size=1, max_size=6), st.booleans())
def test_strings_of_any_number_make_a_tree(sizes: list[int], shutdown: bool) -> None:
    first, _ = house().job.electrical.strings
    strings = tuple(
        first.model_copy(update={"id": f"S{n}", "modules": size, "input": 1 + n % 3})
        for n, size in enumerate(sizes)
    )
    changes: dict[str, Any] = {"electrical.strings": strings}
    if not shutdown:
        changes["shutdown"] = None
    topology = topology_of(changes)
    is_tree(topology)
    assert [item.tag for item in topology.of_kind(Kind.STRING)] == [s.id for s in strings]
    assert len(topology.of_kind(Kind.SHUTDOWN)) == (len(strings) if shutdown else 0)


@given(st.lists(st.tuples(st.integers(1, 5), st.booleans()), min_size=1, max_size=6))
def test_branches_of_any_number_make_a_tree(sizes: list[tuple[int, bool]]) -> None:
    given_job = house(name=MICRO).job.electrical
    first, box = given_job.branches[0], given_job.junction_boxes[0]
    branches = tuple(
        first.model_copy(
            update={"id": f"B{n}", "modules": size, "junction_box": "JB1" if one else "JB2"}
        )
        for n, (size, one) in enumerate(sizes)
    )
    boxes = (box, box.model_copy(update={"id": "JB2"}))
    changes = {"electrical.branches": branches, "electrical.junction_boxes": boxes}
    is_tree(topology_of(changes, MICRO))


def the(topology: Topology, kind: Kind) -> Equipment:
    (item,) = topology.of_kind(kind)
    return item


def test_ratings_are_the_catalogs_and_the_jobs() -> None:
    topology = topology_of()
    inverter = the(topology, Kind.INVERTER)
    assert inverter.name == "Maker INV"
    assert "AC 240 V, 31.67 A, 1-PHASE" in inverter.ratings
    assert the(topology, Kind.BREAKER).ratings == ("40 A, 2P", "10 kAIC", "OPPOSITE THE MAIN")
    assert "60 A, 240 V, 2P" in the(topology, Kind.DISCONNECT).ratings
    (panel,) = topology.panels
    assert "BUS 200 A, MAIN 200 A" in panel.ratings
    string = topology.of_kind(Kind.STRING)[0]
    assert "(10) BLOCK, 400 W" in string.ratings
    assert "COLD Voc 407.1 V MAX" in string.ratings


@pytest.mark.parametrize(("each", "count"), [(1, 10), (2, 5), (3, 4)])
def test_shutdown_devices_are_counted_per_string(each: int, count: int) -> None:
    found = electrical_of({"shutdown.modules_per_device": each})
    assert [item.count for item in found.topology.of_kind(Kind.SHUTDOWN)] == [count, count]
    assert found.shutdown.per_circuit == (("S1", count), ("S2", count))
    assert found.shutdown.devices == 2 * count


def test_the_initiator_is_marked() -> None:
    marked = the(topology_of(), Kind.DISCONNECT).ratings
    assert "RAPID SHUTDOWN INITIATOR" in marked
    elsewhere = the(topology_of({"electrical.initiator": "switch"}), Kind.DISCONNECT).ratings
    assert "RAPID SHUTDOWN INITIATOR" not in elsewhere


def reached(steps: tuple[GroundingStep, ...], start: str) -> set[str]:
    """Everything that a grounding path leads to from a place."""
    found, waiting = {start}, [start]
    while waiting:
        place = waiting.pop()
        ends = {step.end for step in steps if step.start == place} - found
        found |= ends
        waiting += ends
    return found


def unbroken(steps: tuple[GroundingStep, ...]) -> None:
    """Whatever is bonded leads to every electrode, and no step ends at nothing."""
    electrodes = {s.end for s in steps if "ELECTRODE" in s.end or s.end.startswith("GROUND ROD")}
    starts = {step.start for step in steps}
    assert electrodes
    assert {step.end for step in steps} - starts == electrodes
    for start in starts:
        assert electrodes <= reached(steps, start), start


@pytest.mark.parametrize("name", SYSTEMS)
def test_the_grounding_path_leads_from_everything_to_the_electrodes(name: str) -> None:
    steps = electrical_of({}, name).grounding
    unbroken(steps)
    assert {step.start for step in steps} >= {"ARRAY A1", "DISC1", "MSP"}


EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.mark.parametrize(
    "job", sorted(EXAMPLES.glob("*/job.yaml")), ids=lambda job: job.parent.name
)
def test_the_grounding_path_of_an_example_is_unbroken(job: Path) -> None:
    unbroken(build_design(read_job(job)).electrical.grounding)


def test_a_tap_brings_the_neutral_to_its_disconnect() -> None:
    found = electrical_of({}, CONVERTERS)
    tap = next(segment for segment in found.topology.segments if segment.end == "TAP1")
    assert tap.neutrals == 1
    assert tap.conductors is not None
    # NEC Table 250.102(C)(1): 8 AWG copper for up to 2 AWG copper
    assert (tap.conductors.neutral_size, tap.conductors.neutral_least) == ("6", "8")
    steps = [(step.start, step.end) for step in found.grounding]
    assert steps.index(("DISC1", "DISC1 NEUTRAL")) < steps.index(("DISC1 NEUTRAL", "TAP1"))


def test_a_backup_run_names_its_device_and_which_way_power_flows() -> None:
    (run,) = topology_of({}, HYBRID).segments_of("backup")
    assert (run.start, run.end, run.flows) == ("BUP-MAIN", "INV1", "INV1 TO BUP")
    assert (run.device_a, run.device_tag) == (40, "CB1")
    larger = topology_of({"electrical.backup.main": 60.0}, HYBRID).segments_of("backup")[0]
    assert (larger.device_a, larger.device_tag) == (60, "BUP-MAIN")


def test_what_a_hybrid_inverter_takes_sizes_its_circuit() -> None:
    found = electrical_of({"inverter.grid_current_a": 48.0}, HYBRID)
    # 1.25 x 48 = 60 A; the bus counts what it gives
    assert [(device.tag, device.rating_a) for device in found.devices] == [("CB1", 60)]
    (output,) = found.topology.segments_of("output")
    assert output.current_a == 48
    assert found.buses[-1].source_a == pytest.approx(31.67)


def test_service_conductors_are_those_surveyed() -> None:
    segments = topology_of().segments
    assert [s.existing for s in segments if s.run is None] == ["4/0 AWG ALUMINUM", "BY THE UTILITY"]


def test_a_box_of_two_branches_tells_what_changes_in_it_as_one_of_a_single_branch_does() -> None:
    job = Path(__file__).parents[2] / "examples" / "shingle-hip" / "job.yaml"
    topology = build_design(read_job(job)).electrical.topology
    (shared,) = (panel for panel in topology.panels if panel.tag == "JB1")
    assert shared.ratings == topology.by_tag["JB2"].ratings
    assert shared.ratings[0] == "TRUNK CABLE TO THWN-2"
