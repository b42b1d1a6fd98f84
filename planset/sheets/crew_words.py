"""Words of the crew sheet: cautions, and the order of work with its hold points."""

from __future__ import annotations

import math
from collections.abc import Iterator

from planset.catalog.mounting import MountingSystem
from planset.design.design import Design
from planset.design.mounted import Mounted
from planset.design.post_courses import PostFit
from planset.sheets import crew_notes
from planset.sheets.attachment_mark import (
    as_laid_out,
    laps_as_laid_out,
    mark_words,
    window_words,
)
from planset.sheets.crew_wiring import Step, under_modules, wiring_steps
from planset.sheets.tag_lists import listed_tags
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
            *(step for alike in _each_system(design) for step in _attaching(alike)),
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


def _attaching(alike: list[Mounted]) -> Iterator[Step]:
    """How one attachment of a system is set and sealed."""
    system, held = alike[0].array.system, alike[0].fastening
    attachment = system.attachment
    mark = f"{attachment.name}: UP is the {mark_words(attachment)}."
    if attachment.kind == "seam_clamp":
        profiles = " or ".join(attachment.profiles)
        yield Step(f"{mark} {attachment.set_screws} set screws each, on {profiles} only.")
    else:
        lags = attachment.lags
        apart = f", {inches(lags.spacing)} apart" if lags.count > 1 else ""
        into = f", {_rounded_down(held.penetration_in)} of thread in the wood" if held else ""
        screws = f"{lags.count} lag screws {inches(lags.diameter)} x {inches(lags.length)}{into}"
        yield Step(
            f"{mark} Its pilot holes {inches(lags.pilot)} in the middle of the rafter"
            f"{apart}, {screws}. Turn them, never hammer; one that spins holds nothing."
        )
    fits = [one.tile_fit for one in alike if one.tile_fit and one.tile_fit.hooks]
    if fits and attachment.kind == "hook":
        yield Step(
            f"{attachment.name}: its arm leaves at the lap of a course, {window_words(fits)} "
            f"({as_laid_out(fits)} as laid out), in a pan, up to "
            f"{inches(attachment.side_adjustment)} to either side of the middle of its plate. "
            "Where it would stand farther off, stop and call the designer."
        )
    posts = [one.post_fit for one in alike if one.post_fit and one.post_fit.posts]
    if posts and attachment.kind == "standoff":
        yield Step(_lapped(attachment.name, posts))
        yield from (Step(words) for words in _battens(attachment.name, posts))
    sealing = "; ".join(attachment.weatherproofing)
    yield Step(f"Weatherproofing, {attachment.name}: {sealing} ({system.document}).")


def _lapped(name: str, fits: list[PostFit]) -> str:
    """How a post must stand below the course above."""
    above = inches(fits[0].post.flashing_above)
    least = inches(fits[0].least_lap_in)
    return (
        f"{name}: its flashing reaches {above} up the slope from the post, {least} or more of it "
        f"under the course above ({laps_as_laid_out(fits)} as laid out). Where it has less, stop "
        "and call the designer."
    )


def _battens(name: str, fits: list[PostFit]) -> Iterator[str]:
    """What is done where a plate meets a batten, and where the layout has that."""
    if not fits[0].battens:
        return
    met = [post.attachment for fit in fits for post in fit.posts if post.on_batten_in > 0]
    where = f"as laid out at {listed_tags(met)}" if met else "as laid out none does"
    yield (
        f"{name}: where its plate meets a batten ({where}), the batten is cut out for the plate "
        "and blocked to the deck on both sides of it; the plate lies flat on the deck."
    )


def _rounded_down(length_in: float) -> str:
    return inches(math.floor(length_in * 16 + SIXTEENTH_SLACK) / 16)


def _modules(design: Design) -> Iterator[Step]:
    for words in crew_notes.gaps_and_feet(design):
        yield Step(words)
    yield Step(
        "Modules from the lowest row up, frames to a string along the lower edge of the first row; "
        "rows by the table. Look at the line from both ends before the next row."
    )
