"""Words of the crew sheet: cautions, and the order of work with its hold points."""

from __future__ import annotations

import math
from collections.abc import Iterator

from planset.catalog.mounting import MountingSystem
from planset.design.design import Design
from planset.design.mounted import Mounted
from planset.sheets import crew_notes
from planset.sheets.crew_step import Step
from planset.sheets.crew_wiring import under_modules, wiring_steps
from planset.sheets.words import inches
from planset.units import SIXTEENTH_SLACK

SHOCK = (
    "Modules are live in daylight and cannot be switched off. Treat every conductor as live until "
    "you have tested it. Never part or mate a connector under load, never cut a string conductor. "
    "Insulated gloves and tools, no rings."
)
_LIFTING = (
    "Nobody stands below the work. Modules catch wind: two persons to a module, none in gusts."
)
_LADDER = (
    "Ladder tied at its head and 3 ft past the eave (29 CFR 1926.1053); anchors and lines set and "
    "tried; roof dry; weather looked up for the day."
)
_PARAPET = "Where a parapet stands, the roof's edge is its outer face."


def cautions(design: Design) -> list[tuple[str, str]]:
    """What can kill on this roof, in a word, and how not to let it."""
    return [("FALLS", crew_notes.falls(design)), ("SHOCK", SHOCK), ("LIFTING", _LIFTING)]


def order_of_work(design: Design) -> list[Step]:
    """The steps in the order in which they are done."""
    steps = [Step(_LADDER, hold=True)]
    if design.mounts:
        steps += [
            *_marking(design),
            *(step for one in _each_system(design) for step in _attaching(one)),
            Step(
                "All attachments counted against the table and photographed. Where the building "
                "department inspects attachments or flashings, no module before it has.",
                hold=True,
            ),
            Step("Build the rail kits on the ground: cut, mark, splice. Mark each with its tag."),
            *(Step(words) for words in _rails(design)),
            Step("Rails, splices and attachments at their torque, marked with paint.", hold=True),
        ]
    others = [array.id for array in design.arrays if array.mounting is None]
    if others:
        if not design.mounts:
            steps.append(Step(f"{crew_notes.datum(design)} {_PARAPET}"))
        steps.append(
            Step(
                f"Mounting of {', '.join(others)}: by the drawings of its designer, which this set "
                "does not hold. Without them on site, stop.",
                hold=True,
            )
        )
    return [*steps, *under_modules(design), *_modules(design), *wiring_steps(design)]


def _marking(design: Design) -> Iterator[Step]:
    yield Step(crew_notes.datum(design))
    yield from (Step(words) for words in [*crew_notes.survey(design)] or _heights(design))
    yield from (Step(words) for words in crew_notes.supports(design))
    yield Step(_squared(design), hold=True)


def _squared(design: Design) -> str:
    """The last of the notes on lining up: diagonals before anything holds."""
    return [*crew_notes.lining_up(design)][-1]


def _rails(design: Design) -> list[str]:
    return [*crew_notes.lining_up(design)][:-1]


def _heights(design: Design) -> list[str]:
    """How much unevenness each system takes, for a roof that nobody has measured."""
    return [crew_notes.taken_up(system) for system in crew_notes.systems(design)]


def _each_system(design: Design) -> list[Mounted]:
    """The first array of each mounting system."""
    first: dict[MountingSystem, Mounted] = {}
    for one in design.mounts:
        first.setdefault(one.array.system, one)
    return [*first.values()]


def _attaching(one: Mounted) -> Iterator[Step]:
    """How one attachment is set and sealed."""
    system, held = one.array.system, one.fastening
    attachment = system.attachment
    if attachment.kind == "seam_clamp":
        profiles = " or ".join(attachment.profiles)
        yield Step(
            f"{attachment.name}: {attachment.set_screws} set screws each, on {profiles} only."
        )
    else:
        lags = attachment.lags
        apart = f", {inches(lags.spacing)} apart" if lags.count > 1 else ""
        into = f", {_rounded_down(held.penetration_in)} of thread in the wood" if held else ""
        screws = f"{lags.count} lag screws {inches(lags.diameter)} x {inches(lags.length)}{into}"
        yield Step(
            f"{attachment.name}: pilot holes {inches(lags.pilot)} in the middle of the rafter"
            f"{apart}, {screws}. Turn them, never hammer; one that spins holds nothing."
        )
    if attachment.kind == "hook":
        yield Step(
            f"{attachment.name}: its arm leaves at the lap of a course, in a pan, up to "
            f"{inches(attachment.side_adjustment)} to either side of the middle of its plate. "
            "Where it would stand farther off, stop and call the designer."
        )
    sealing = "; ".join(attachment.weatherproofing)
    yield Step(f"Weatherproofing, {attachment.name}: {sealing} ({system.document}).")


def _rounded_down(length_in: float) -> str:
    return inches(math.floor(length_in * 16 + SIXTEENTH_SLACK) / 16)


def _modules(design: Design) -> Iterator[Step]:
    for words in crew_notes.gaps_and_feet(design):
        yield Step(words)
    yield Step(
        "Modules from the lowest row up, frames to a string along the lower edge of the first row; "
        "rows by the table. Look at the line from both ends before the next row."
    )
