"""Boxes in which raceways of several junction boxes become one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from planset.design.electrical.boxes import box_of_circuits
from planset.design.electrical.topology import Equipment, Kind, Topology
from planset.job.electrical.wiring import RunOfBox

if TYPE_CHECKING:
    from planset.job.electrical.electrical import Electrical
    from planset.job.load import Inputs


def passing(electrical: Electrical) -> Mapping[str, tuple[str, ...]]:
    """Id of each box to the circuits of other boxes that pass through it."""
    circuits = box_of_circuits(electrical)
    found: dict[str, list[str]] = {}
    for stated in electrical.wiring.runs:
        run = stated.run
        if isinstance(run, RunOfBox) and run.joined_in and run.joined_in != stated.box:
            ids = [name for name, box in circuits.items() if box == stated.box]
            found.setdefault(run.joined_in, []).extend(ids)
    return {box: tuple(ids) for box, ids in found.items()}


def with_joints(topology: Topology, inputs: Inputs) -> Topology:
    """The topology with pull boxes, and with what passes through each box among its ratings."""
    electrical = inputs.job.electrical
    through = {
        box: f"{', '.join(ids)} PASS{'ES' if len(ids) == 1 else ''} THROUGH"
        for box, ids in passing(electrical).items()
    }

    pulls = tuple(
        Equipment(
            box.id,
            Kind.JUNCTION_BOX,
            "PULL BOX",
            (*([through[box.id]] if box.id in through else []), f"TYPE {box.enclosure}"),
            box.location,
        )
        for box in electrical.pull_boxes
    )
    return replace(topology.with_ratings(through), pull_boxes=pulls)
