"""Conductors of every run: the size taken, and whether and why it serves."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, NamedTuple

from planset.codes.nec import clauses, conductors, supply_side
from planset.codes.nec.adjusted_ampacity import Wire
from planset.codes.nec.conductor_size import Circuit, SizeCheck, check_size, smallest_size
from planset.design.electrical.conductors import SizedRun
from planset.design.electrical.run_grounding import grounded_least, grounding_of
from planset.design.electrical.run_raceway import drop_of, fill_of, impedance_of
from planset.design.electrical.runs import RunPlace, is_wet, places_of, run_length_ft
from planset.design.electrical.topology import Kind, Segment, Topology
from planset.job.electrical.wiring import Run, RunOfBox, Wiring

if TYPE_CHECKING:
    from planset.job.load import Inputs


@dataclass(frozen=True, slots=True)
class _Task:
    """One segment to size: its run, all segments of its raceway, and its terminals."""

    segment: Segment
    run: Run
    group: tuple[Segment, ...]
    terminal_c: float
    high_ambient_c: float
    edition: int

    @property
    def current_carrying(self) -> int:
        """Current-carrying conductors in the raceway or bundle."""
        ours = sum(segment.circuits * segment.lines for segment in self.group)
        return ours + self.run.other_conductors

    @property
    def device_a(self) -> float | None:
        """The largest device of the raceway [A]."""
        return max((s.device_a for s in self.group if s.device_a is not None), default=None)

    @property
    def minimum(self) -> str | None:
        """Smallest size allowed at all."""
        at_supply = self.segment.supply_side
        return supply_side.smallest_conductor(self.run.material) if at_supply else None


def size_topology(
    inputs: Inputs, topology: Topology
) -> tuple[Topology, tuple[tuple[str, str], ...]]:
    """The topology with its conductors, and by segment why some could not be sized."""
    edition = inputs.jurisdiction.codes.electrical.edition
    known = edition in clauses.editions("dc_conductor")
    groups = _raceways(topology, inputs.job.electrical.wiring)
    sized, failed, done = [], [], {}
    for segment in topology.segments:
        if segment.run is None:
            sized.append(segment)
            continue
        run = inputs.job.electrical.wiring.run(segment.run, segment.box)
        reason = ""
        if not known:
            reason = f"NEC {edition} is not among the editions whose tables are here"
        elif run is None:
            of_box = f" of {segment.box}" if segment.box else ""
            reason = f"electrical.wiring has no {segment.run}{of_box}"
        else:
            task = _task(inputs, topology, segment, run, groups[segment.tag], edition)
            key = task if len(task.group) > 1 else _alike(task)
            if key not in done:
                done[key] = _size_or_reason(task)
            found = done[key]
            if isinstance(found, SizedRun):
                sized.append(replace(segment, conductors=found))
                continue
            reason = found
        sized.append(segment)
        failed.append((segment.tag, reason))
    return replace(topology, segments=tuple(sized)), tuple(failed)


def _alike(task: _Task) -> _Task:
    """What the tasks of segments alone in their raceways have in common, wherever they are."""
    return replace(task, segment=replace(task.segment, tag="", start="", end="", box=""), group=())


def _raceways(topology: Topology, wiring: Wiring) -> dict[str, tuple[Segment, ...]]:
    """Segment tag to all segments of its raceway.

    Circuits of one run share it out of one box, and out of several where the job says so.
    """
    together: dict[object, list[Segment]] = defaultdict(list)
    for segment in topology.segments:
        start = topology.by_tag[segment.start]
        key: object = segment.tag
        if segment.run is not None and _shared_in(wiring.run(segment.run, segment.box)) is not None:
            key = (segment.run,)
        elif start.kind is Kind.JUNCTION_BOX and start.panel:
            key = (segment.run, start.panel)
        together[key].append(segment)
    return {segment.tag: tuple(group) for group in together.values() for segment in group}


def _shared_in(run: Run | None) -> float | None:
    """How much of the end of a run is in one raceway with those of other boxes [in]."""
    return run.shared if isinstance(run, RunOfBox) else None


def _task(
    inputs: Inputs,
    topology: Topology,
    segment: Segment,
    run: Run,
    group: tuple[Segment, ...],
    edition: int,
) -> _Task:
    electrical = inputs.job.electrical
    marked = [float(electrical.wiring.terminals)]
    models = {placed.id: placed.model for placed in electrical.inverters}
    ends = [end for end in (segment.start, segment.end) if end in models]
    marked += [float(inputs.inverters[models[end]].terminals_c) for end in ends]
    high_c = inputs.job.site.high_ambient
    return _Task(segment, run, group, min(marked), high_c, edition)


def _size_or_reason(task: _Task) -> SizedRun | str:
    """The conductors, or why there are none."""
    try:
        return _size(task)
    except ValueError as error:
        return str(error)


def _size(task: _Task) -> SizedRun:
    run, segment = task.run, task.segment
    if run.raceway == "none" and run.material != "copper":
        msg = f"the ampacity of {run.material} in free air is not known here; take copper"
        raise ValueError(msg)
    wire = Wire(
        run.material,
        run.insulation,
        conductors.insulation_rating_c(run.insulation, wet=is_wet(run)),
    )
    circuit = Circuit(
        segment.current_a or 0.0, task.terminal_c, segment.device_a, fuse=not segment.ac
    )
    places = places_of(run, task.high_ambient_c, task.current_carrying)
    smallest = _smallest(task, circuit, wire, places)
    size, needed = run.size or smallest.size, smallest.size
    check, place = _worst(size, circuit, wire, places, task.edition)
    ground = grounding_of(run, task.group, size, needed, task.device_a)
    grounding = run.grounding or ground.least
    each = [size] * sum(s.circuits * (s.lines + s.neutrals) for s in task.group)
    length_ft = 0.0 if segment.continues else run_length_ft(run)
    ohm_per_kft = impedance_of(run, segment, size)
    return SizedRun(
        material=run.material,
        insulation=run.insulation,
        ungrounded=segment.circuits * segment.lines,
        neutrals=segment.circuits * segment.neutrals,
        check=check,
        size_stated=run.size is not None,
        governing=() if run.size else smallest.governing,
        place=place,
        grounding=grounding,
        grounding_least=ground.least,
        grounding_stated=run.grounding is not None,
        grounding_reason=ground.reason,
        raceway="" if run.raceway == "none" else run.raceway,
        fill=fill_of(run, each, grounding),
        trade_size_stated=run.trade_size is not None,
        length_ft=length_ft,
        drop=drop_of(segment, ohm_per_kft, length_ft),
        grounding_material=ground.material,
        needed_size=needed,
        current_carrying=task.current_carrying,
        terminal_c=task.terminal_c,
        ohm_per_kft=ohm_per_kft,
        neutral_size=size if segment.neutrals else "",
        neutral_least=grounded_least(run, segment, size),
        rating_v=run.voltage_rating,
        shares_with=tuple(other.tag for other in task.group if other.tag != segment.tag),
        shared_ft=None if (end_in := _shared_in(run)) is None else end_in / 12.0,
    )


class _Smallest(NamedTuple):
    """The smallest size that serves in every place, "" where none does, and what asks for it."""

    size: str
    governing: tuple[str, ...]


def _smallest(task: _Task, circuit: Circuit, wire: Wire, places: tuple[RunPlace, ...]) -> _Smallest:
    """The smallest size; none is no matter where the drafter fixed one, which is then checked."""
    try:
        sizings = [
            smallest_size(circuit, wire, place.conditions, task.edition, task.minimum)
            for place in places
        ]
    except ValueError:
        if task.run.size is None:
            raise
        return _Smallest("", ())
    largest = max(sizings, key=lambda sizing: conductors.area_cmil(sizing.size))
    return _Smallest(largest.size, largest.governing)


def _worst(
    size: str, circuit: Circuit, wire: Wire, places: tuple[RunPlace, ...], edition: int
) -> tuple[SizeCheck, str]:
    """How a size serves where its ampacity is least, and words for that place."""
    checks = [(check_size(size, circuit, wire, p.conditions, edition), p.words) for p in places]
    return min(checks, key=lambda found: found[0].adjusted.ampacity_a)
