"""Words of the crew sheet: cautions, and the order of work with its hold points."""

from __future__ import annotations

import math
from collections.abc import Iterator

from planset.catalog.mounting import MountingSystem
from planset.design.design import Design
from planset.design.mounted import Mounted
from planset.sheets import crew_notes
from planset.sheets.attachment_mark import mark_words
from planset.sheets.crew_courses import among_courses
from planset.sheets.crew_step import Step
from planset.sheets.crew_wiring import under_modules, wiring_steps
from planset.sheets.details.detail import Detail, details_of
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
            *_all_attached(design),
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


def _each_system(design: Design) -> list[list[Mounted]]:
    """The arrays of each mounting system."""
    found: dict[MountingSystem, list[Mounted]] = {}
    for one in design.mounts:
        found.setdefault(one.array.system, []).append(one)
    return [*found.values()]


def _all_attached(design: Design) -> Iterator[Step]:
    """How the attachments of every system are set and sealed."""
    drawn = {detail.system: detail for detail in details_of(design)}
    for alike in _each_system(design):
        yield from _attaching(alike, drawn[alike[0].array.system])


def _attaching(alike: list[Mounted], detail: Detail) -> Iterator[Step]:
    """How one attachment of a system is set and sealed."""
    system, held = alike[0].array.system, alike[0].fastening
    attachment = system.attachment
    mark = f"{attachment.name}: UP is the {mark_words(attachment)}."
    if attachment.kind == "seam_clamp":
        profiles = " or ".join(attachment.profiles)
        yield Step(f"{mark} {attachment.set_screws} set screws each, on {profiles} only.")
    else:
        lags = attachment.lags
        into = f", {_rounded_down(held.penetration_in)} of thread in the wood" if held else ""
        screws = f"{lags.count} lag screws {inches(lags.diameter)} x {inches(lags.length)}{into}"
        yield Step(
            f"{mark} There pilot holes {inches(lags.pilot)} in the middle of the rafter, {screws}. "
            "Turn them, never hammer; one that spins holds nothing."
        )
    yield from (Step(words) for words in among_courses(alike, detail))
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
