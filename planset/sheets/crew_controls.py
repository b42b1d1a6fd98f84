"""Steps of the crew's work on control wiring: what is connected, and how it is tried."""

from __future__ import annotations

from collections.abc import Iterator

from planset.codes.nec import rapid_shutdown
from planset.design.design import Design
from planset.design.electrical.topology import ControlCircuit, Kind
from planset.sheets.crew_step import Step
from planset.sheets.words import raceway_name


def control_steps(design: Design) -> Iterator[Step]:
    """Nothing where no control wiring is."""
    controls = design.electrical.topology.controls
    if not controls:
        return
    yield Step(f"Control wiring: {'; '.join(_run(one) for one in controls)}.")
    tried = " ".join(_tried(design, one) for one in controls)
    yield Step(
        f"All holds before this one signed, everything on, the sun up; each tried, measured and "
        f"noted: {tried} Where one does not, switch all off and stop.",
        hold=True,
    )


def _run(one: ControlCircuit) -> str:
    raceway = raceway_name(one.fill.raceway)
    place = f" in {one.device.panel}" if one.device.panel else ""
    from_to = f"{one.device.tag}{place} to the {one.input} of {one.end}"
    return f"{one.tag}, {one.conductors} x {one.size} in {raceway} of its own, {from_to}"


def _tried(design: Design, one: ControlCircuit) -> str:
    if one.device.kind is Kind.BUTTON:
        return f"Operate {one.device.tag}: {one.end} off, and shown so; reset it."
    backup = design.inputs.job.electrical.backup
    dead = f", {backup.id} dead" if backup is not None else ""
    return f"Open {one.device.panel}: {_dc_left(design)} at {one.end}{dead}; close it."


def _dc_left(design: Design) -> str:
    """What the array may leave on its conductors, by the edition."""
    edition = design.inputs.jurisdiction.codes.electrical.edition
    if edition not in rapid_shutdown.editions():
        return "the dc conductors dead"
    limits = rapid_shutdown.requirement(edition)
    return (
        f"within {limits.outside_time_s:g} s the dc conductors at {limits.outside_limit_v:g} V or "
        "less"
    )
