"""Voltage lost from each source to the service."""

from __future__ import annotations

from dataclasses import dataclass

from planset.codes.nec.voltage_drop import total_percent
from planset.design.electrical.topology import Kind, Segment, Topology


@dataclass(frozen=True, slots=True)
class DropWay:
    """The segments from one source on, toward the utility, of which the drop is known.

    Attributes:
        source: Tag of the source.
        segments: Segments in order.
        percent: Sum of their drops, each over the voltage of its own side [%].
    """

    source: str
    segments: tuple[Segment, ...]
    percent: float


def drop_ways(topology: Topology) -> tuple[DropWay, ...]:
    """The way from every source that has such segments, in the order of the equipment."""
    ways = []
    for item in topology.equipment:
        if topology.feeding[item.tag] or item.kind is Kind.LOADS:
            continue
        segments, tag = [], item.tag
        while (step := topology.onward.get(tag)) is not None:
            if isinstance(step, Segment) and step.drop is not None:
                segments.append(step)
            tag = step.end
        if segments:
            drops = [s.drop for s in segments if s.drop is not None]
            ways.append(DropWay(item.tag, tuple(segments), total_percent(drops)))
    return tuple(ways)
