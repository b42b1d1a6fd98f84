"""Looking up the catalog entries a job names."""

from pathlib import Path
from types import MappingProxyType

from planset.catalog.battery import Battery
from planset.catalog.converter import Converter
from planset.catalog.inverter import Inverter
from planset.catalog.jurisdiction import Jurisdiction
from planset.catalog.library import FOLDERS, Entry, find_with_source, names
from planset.catalog.microinverter import Microinverter
from planset.catalog.module import Module
from planset.catalog.mounting import MountingSystem
from planset.catalog.shutdown import HazardControl, ShutdownDevice
from planset.errors import JobErrors, Problem
from planset.job.electrical.electrical import Electrical
from planset.job.sections import Entries, Sections
from planset.source import Location, SourceDocument


class _Lookup:
    """Finds entries and gathers what is wrong with their names and files."""

    def __init__(self, document: SourceDocument, job_folder: Path) -> None:
        self._document = document
        self._folder = job_folder
        self.problems: list[Problem] = []
        self.documents: list[SourceDocument] = []

    def entry(self, kind: type[Entry], name: str | None, *location: str | int) -> Entry | None:
        """Return the entry named at a location of the job, or None after a problem.

        It is None, too, where the job names none.
        """
        if name is None:
            return None
        known = names(kind, self._folder)
        if name not in known:
            own = f"catalog/{FOLDERS[kind]}/{name}.yaml"
            mend = f"use one of: {', '.join(known)}, or add {own} beside the job"
            message = f"not in the catalog (got {name})"
            self.problems.append(self._document.problem(location, message, mend))
            return None
        try:
            entry, document = find_with_source(kind, name, self._folder)
        except JobErrors as errors:
            self.problems.extend(errors.problems)
            return None
        self.documents.append(document)
        return entry

    def entries(
        self, kind: type[Entry], places: dict[Location, str]
    ) -> MappingProxyType[str, Entry]:
        """Return the entries named at several locations, each read once."""
        first = {name: place for place, name in reversed(places.items())}
        looked_up = {name: self.entry(kind, name, *place) for name, place in first.items()}
        found = {name: entry for name, entry in looked_up.items() if entry is not None}
        return MappingProxyType(found)


def look_up(
    sections: Sections, document: SourceDocument, job_folder: Path
) -> tuple[Entries, list[Problem]]:
    """Return the catalog entries that the valid sections name, and what is wrong with the rest."""
    lookup = _Lookup(document, job_folder)
    arrays = list(enumerate(sections.get("arrays", ())))
    systems: dict[Location, str] = {
        ("arrays", n, "mounting", "system"): a.mounting.system
        for n, a in arrays
        if a.mounting is not None
    }
    jurisdiction = lookup.entry(Jurisdiction, sections.get("jurisdiction"), "jurisdiction")
    modules = lookup.entries(Module, {("arrays", n, "module"): a.module for n, a in arrays})
    mountings = lookup.entries(MountingSystem, systems)
    electrical = sections.get("electrical")
    if electrical is None:
        return Entries(
            jurisdiction, modules, mountings, documents=lookup.documents
        ), lookup.problems
    here, storage = "electrical", electrical.storage
    entries = Entries(
        jurisdiction,
        modules,
        mountings,
        inverters=lookup.entries(Inverter, _inverters(electrical)),
        microinverters=lookup.entries(Microinverter, _microinverters(electrical)),
        converter=lookup.entry(Converter, electrical.converter, here, "converter"),
        battery=lookup.entry(Battery, storage.model if storage else None, here, "storage", "model"),
        shutdown=lookup.entry(ShutdownDevice, electrical.shutdown, here, "shutdown"),
        hazard_control=lookup.entry(
            HazardControl, electrical.hazard_control, here, "hazard_control"
        ),
        documents=lookup.documents,
    )
    return entries, lookup.problems


def _inverters(electrical: Electrical) -> dict[Location, str]:
    return {
        ("electrical", "inverters", n, "model"): inverter.model
        for n, inverter in enumerate(electrical.inverters)
    }


def _microinverters(electrical: Electrical) -> dict[Location, str]:
    return {
        ("electrical", "branches", n, "inverter"): branch.inverter
        for n, branch in enumerate(electrical.branches)
    }
