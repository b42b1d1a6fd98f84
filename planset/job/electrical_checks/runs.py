"""The runs of conductors: those the system needs, and what each of them says of itself."""

from collections.abc import Iterator

from planset.codes.nec.raceways import trade_sizes
from planset.errors import Problem
from planset.job.electrical.electrical import Electrical
from planset.job.electrical.wiring import Run
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

_OUT_OF_BOXES = ("dc", "branch")


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
    needed, stated = _needed(electrical), electrical.wiring.runs
    for name, carried in _CARRIES.items():
        place: Location = ("electrical", "wiring", name)
        if name in needed and name not in stated:
            mend = f"add `{name}:` with its insulation, material, raceway and places"
            yield document.problem(place, f"missing; it carries {carried}", mend)
        elif name in stated and name not in needed:
            message = f"it would carry {carried}, and this system has none"
            yield document.problem(place, message, "remove it, or add what it is to carry")
        elif name in stated:
            yield from _check_run(stated[name], place, document)


def _check_shared(run: Run, where: Location, document: SourceDocument) -> Iterator[Problem]:
    """Circuits out of boxes alone share the end of a run, no more than all of it."""
    if run.shared is None:
        return
    if where[-1] not in _OUT_OF_BOXES:
        message = "of a run that leads out of boxes, as dc and branch do"
        yield document.problem((*where, "shared"), message, "remove it")
    lengths = [place.length for place in run.places]
    if None in lengths:
        return
    whole = sum(length for length in lengths if length is not None)
    if run.shared > whole:
        message = f"longer than the run (got {run.shared / 12:g} ft of {whole / 12:g} ft)"
        mend = "write the length that the circuits share, as shared: 40 ft"
        yield document.problem((*where, "shared"), message, mend)


def _check_run(run: Run, where: Location, document: SourceDocument) -> Iterator[Problem]:
    yield from _check_places(run, where, document)
    if run.raceway == "none":
        for field in ("trade_size", "other_conductors", "shared"):
            if getattr(run, field):
                message = "of a raceway, and raceway is none"
                mend = "remove it, or write the raceway"
                yield document.problem((*where, field), message, mend)
        return
    yield from _check_shared(run, where, document)
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
