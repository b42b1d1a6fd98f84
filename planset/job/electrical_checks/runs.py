"""The runs of conductors: those the system needs, and what each of them says of itself."""

import math
from collections.abc import Iterator

from planset.codes.nec.raceways import trade_sizes
from planset.errors import Problem
from planset.job.electrical.electrical import Electrical
from planset.job.electrical.wiring import Run, RunOfBox, StatedRun
from planset.job.electrical_checks.boxes import boxes_of
from planset.source import Location, SourceDocument

_CARRIES = {
    "array": "the strings from their modules to the junction box",
    "dc": "the strings from the junction box to the inverter",
    "branch": "the branches of microinverters from the junction box on",
    "output": "the output of each inverter",
    "combined": "the output of the combiner to the disconnect",
    "connection": "the output from the disconnect to the service",
    "feeder": "the feeder of the subpanel",
    "battery": "the battery's current to the hybrid inverter",
    "backup": "the backup output of the hybrid inverter to its panel",
}
"""Run to what it carries."""

_FROM_EACH_BOX = ("dc", "branch")
"""Runs that lead on from a junction box, each box by one of its own."""


def _needed(electrical: Electrical) -> set[str]:
    """The runs that the system has, as `Wiring` tells them."""
    strings, subpanel = bool(electrical.strings), "subpanel_breaker"
    has = {
        "array": strings,
        "dc": strings,
        "branch": bool(electrical.branches),
        "output": bool(electrical.inverters),
        "combined": electrical.combiner is not None,
        "connection": True,
        "feeder": electrical.interconnection.method == subpanel,
        "battery": electrical.storage is not None,
        "backup": electrical.backup is not None,
    }
    return {name for name, needed in has.items() if needed}


def check_runs(electrical: Electrical, document: SourceDocument) -> Iterator[Problem]:
    """Yield runs that are missing, runs of nothing, and what does not agree within a run."""
    needed, runs = _needed(electrical), electrical.wiring.runs
    stated = {each.name for each in runs}
    for name, carried in _CARRIES.items():
        place: Location = ("electrical", "wiring", name)
        if name in needed and name not in stated:
            mend = f"add `{name}:` with its insulation, material, raceway and places"
            yield document.problem(place, f"missing; it carries {carried}", mend)
        elif name in stated and name not in needed:
            message = f"it would carry {carried}, and this system has none"
            yield document.problem(place, message, "remove it, or add what it is to carry")
        elif name in stated:
            named = [each for each in runs if each.name == name]
            yield from _check_boxes(electrical, named, document)
            yield from _check_shared(named, document)
    for each in runs:
        if each.name in needed:
            yield from _check_run(each.run, ("electrical", "wiring", *each.place), document)


def _check_boxes(
    electrical: Electrical, stated: list[StatedRun], document: SourceDocument
) -> Iterator[Problem]:
    """Yield boxes that no run of a name leads on from, and runs of boxes that are not there."""
    name = stated[0].name
    place: Location = ("electrical", "wiring", name)
    boxes = boxes_of(electrical, "branches" if name == "branch" else "strings")
    if not stated[0].box:
        if name in _FROM_EACH_BOX and len(boxes) > 1:
            message = f"one run, where each of {', '.join(boxes)} leads on by a run of its own"
            mend = f"make it a list with an entry for each, as `- junction_box: {boxes[0]}`"
            yield document.problem(place, message, mend)
        return
    seen: set[str] = set()
    for each in stated:
        where: Location = ("electrical", "wiring", *each.place, "junction_box")
        if each.box not in boxes:
            message = f"no circuit of this run ends in a junction box of this id (got {each.box})"
            yield document.problem(where, message, f"write one of: {', '.join(boxes)}")
        elif each.box in seen:
            message = f"a second run from {each.box}"
            yield document.problem(where, message, "remove one, or correct its junction_box")
        seen.add(each.box)
    for box in boxes:
        if box not in seen:
            message = f"no run from {box}, where circuits end"
            mend = f"add an entry with `junction_box: {box}` and the places it leads through"
            yield document.problem(place, message, mend)


def _check_shared(stated: list[StatedRun], document: SourceDocument) -> Iterator[Problem]:
    """Runs share the end of one raceway where they agree how much, in what, and of which size."""
    sharing = [
        (each, each.run)
        for each in stated
        if isinstance(each.run, RunOfBox) and each.run.shared is not None
    ]
    for number, (each, run) in enumerate(sharing):
        where: Location = ("electrical", "wiring", *each.place, "shared")
        first, other = sharing[0]
        lengths = [place.length for place in run.places]
        whole = math.fsum(length for length in lengths if length is not None)
        if len(sharing) == 1 or run.raceway == "none":
            message = "no other run of this list shares a raceway with this one"
            yield document.problem(where, message, "remove it, or state it of each run that does")
        elif None not in lengths and run.shared is not None and run.shared > whole:
            message = f"longer than the run (got {run.shared / 12:g} ft of {whole / 12:g} ft)"
            mend = "write the length that the circuits share, as shared: 40 ft"
            yield document.problem(where, message, mend)
        elif run.size is None:
            message = "of a run whose size is left open"
            yield document.problem(where, message, "write one size in all runs that share")
        elif number and (run.shared, run.joined_in, run.alike) != (
            other.shared,
            other.joined_in,
            other.alike,
        ):
            message = f"the run shares a raceway with that of {first.box}, and differs from it"
            mend = (
                "write the same shared, joined_in, insulation, material, raceway, size, "
                "trade_size, grounding and other_conductors"
            )
            yield document.problem(where, message, mend)


def _check_run(run: Run, where: Location, document: SourceDocument) -> Iterator[Problem]:
    yield from _check_places(run, where, document)
    if run.raceway == "none":
        for field in ("trade_size", "other_conductors"):
            if getattr(run, field):
                message = "of a raceway, and raceway is none"
                mend = "remove it, or write the raceway"
                yield document.problem((*where, field), message, mend)
        return
    if run.insulation == "PV wire" and run.diameter is None:
        message = "missing for PV wire in a raceway, which has no standard diameter"
        mend = "add the maker's outside diameter, as diameter: 0.25 in"
        yield document.problem((*where, "diameter"), message, mend)
    known = trade_sizes(run.raceway)
    if run.trade_size is not None and run.trade_size not in known:
        message = f"not a trade size of {run.raceway} (got {run.trade_size})"
        mend = f"write one of: {', '.join(known)}"
        yield document.problem((*where, "trade_size"), message, mend)


def _check_places(run: Run, where: Location, document: SourceDocument) -> Iterator[Problem]:
    """Conductors without a raceway stay under the modules; those in one do not hang there."""
    for number, place in enumerate(run.places):
        here = (*where, "places", number, "place")
        if run.raceway == "none" and place.place != "array":
            message = (
                f"single conductors without a raceway, outside of the array (got {place.place})"
            )
            yield document.problem(here, message, "write the raceway, or place: array")
        if run.raceway != "none" and place.place == "array":
            message = f"in free air under the modules, yet in {run.raceway}"
            mend = "write raceway: none and a run of its own, or the place of the raceway"
            yield document.problem(here, message, mend)
