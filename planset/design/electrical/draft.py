"""A topology while it is put together, from the sources toward the utility."""

from __future__ import annotations

from dataclasses import replace

from planset.design.electrical.conductors import TrunkRun
from planset.design.electrical.topology import (
    Equipment,
    Kind,
    Link,
    Panel,
    RunName,
    Segment,
    Topology,
)

_SWITCHES = (Kind.BREAKER, Kind.MAIN, Kind.FUSED_DISCONNECT)


class Draft:
    """Equipment and connections so far."""

    def __init__(self) -> None:
        self._equipment: list[Equipment] = []
        self._panels: list[Panel] = []
        self._segments: list[Segment] = []
        self._links: list[Link] = []

    def add(self, item: Equipment) -> str:
        """Add a piece of equipment, and return its tag."""
        self._equipment.append(item)
        return item.tag

    def enclose(self, panel: Panel) -> None:
        """Add an enclosure; its parts name it."""
        self._panels.append(panel)

    def link(self, start: str, end: str) -> None:
        """Connect two pieces without conductors of ours."""
        self._links.append(Link(start, end))

    def connect(self, start: str, end: str, circuit: Segment) -> str:
        """Run a circuit from one piece to another, and return the number of the segment."""
        tag = str(len(self._segments) + 1)
        self._segments.append(replace(circuit, tag=tag, start=start, end=end))
        return tag

    def finish(self, ratings_a: dict[str, float]) -> Topology:
        """The topology, every ac segment with the device that protects it.

        Args:
            ratings_a: Tag to rating of every overcurrent device [A].
        """
        made = self._topology()
        self._segments = [
            segment
            if segment.device_a is not None or not segment.ac
            else _protected(made, segment, ratings_a)
            for segment in self._segments
        ]
        return self._topology()

    def _topology(self) -> Topology:
        return Topology(
            tuple(self._equipment), tuple(self._panels), tuple(self._segments), tuple(self._links)
        )


def circuit(
    words: str,
    run: RunName | None,
    *,
    ac: bool,
    current_a: float | None = None,
    operating_a: float | None = None,
    voltage_v: float,
    operating_v: float | None = None,
    circuits: int = 1,
    lines: int = 2,
    neutral: bool = False,
    device_a: float | None = None,
    device_tag: str = "",
    continues: str = "",
    cable: str = "",
    supply_side: bool = False,
    existing: str = "",
    flows: str = "",
    box: str = "",
    trunk: TrunkRun | None = None,
) -> Segment:
    """What a segment carries, before it has a number and ends."""
    return Segment(
        tag="",
        start="",
        end="",
        circuit=words,
        run=run,
        ac=ac,
        circuits=circuits,
        current_a=current_a,
        operating_a=operating_a,
        voltage_v=voltage_v,
        operating_v=operating_v,
        device_a=device_a,
        device_tag=device_tag,
        lines=lines,
        neutrals=int(neutral),
        continues=continues,
        cable=cable,
        supply_side=supply_side,
        existing=existing,
        flows=flows,
        box=box,
        trunk=trunk,
    )


def _protected(made: Topology, segment: Segment, ratings_a: dict[str, float]) -> Segment:
    """The segment with the device that protects it.

    That is the first toward the utility, since alternating current of a fault comes from there; on
    the supply side the one that the segment leaves. A backup run is fed by its inverter too, so
    that the larger of this device and of the panel's main counts (interpretation).
    """
    if segment.run is None and not segment.cable:
        return segment
    tag = _toward_utility(made, segment, ratings_a) or segment.start
    if segment.run == "backup":
        tag = max(tag, segment.start, key=lambda each: ratings_a.get(each, 0.0))
    if tag not in ratings_a:
        return segment
    return replace(segment, device_a=ratings_a[tag], device_tag=tag)


def _toward_utility(made: Topology, segment: Segment, ratings_a: dict[str, float]) -> str | None:
    """Tag of the first device between a segment and the utility, None without one."""
    tag: str | None = segment.end
    while tag is not None:
        if tag in ratings_a and made.by_tag[tag].kind in _SWITCHES:
            return tag
        onward = made.onward.get(tag)
        tag = onward.end if onward else None
    return None
