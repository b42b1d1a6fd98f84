"""Reading a job with all it names."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from planset.catalog.battery import Battery
from planset.catalog.converter import Converter
from planset.catalog.inverter import Inverter
from planset.catalog.jurisdiction import Jurisdiction
from planset.catalog.microinverter import Microinverter
from planset.catalog.module import Module
from planset.catalog.mounting import MountingSystem
from planset.catalog.shutdown import HazardControl, ShutdownDevice
from planset.catalog.validate import validate
from planset.errors import JobErrors
from planset.job.checks import cross_check
from planset.job.covering import CurvedTile
from planset.job.framing import Framing
from planset.job.job import Job
from planset.job.limits import too_much
from planset.job.references import look_up
from planset.job.sections import Sections
from planset.source import SourceDocument, scan_yaml
from planset.units import INCHES_PER_UNIT


@dataclass(frozen=True, slots=True)
class Inputs:
    """A job that can be used, with the catalog entries it names.

    Attributes:
        path: the job file.
        job: what it says.
        jurisdiction: the jurisdiction it names.
        modules: modules by the catalog names its arrays give.
        mountings: mounting systems by the catalog names its arrays give.
        inverters: string and hybrid inverters by the catalog names the job gives.
        microinverters: microinverters by the catalog names its branches give.
        converter: the converter of its strings, None where modules are strung without.
        battery: the battery unit of its storage, None without storage.
        shutdown: the module-level shutdown device, None when the job states none.
        hazard_control: the listed hazard-control system, None when the job states none.
        document: the file as plain data with lines.
        catalog_documents: the same of each catalog file it names.
    """

    path: Path
    job: Job
    jurisdiction: Jurisdiction
    modules: Mapping[str, Module]
    mountings: Mapping[str, MountingSystem]
    inverters: Mapping[str, Inverter]
    microinverters: Mapping[str, Microinverter]
    converter: Converter | None
    battery: Battery | None
    shutdown: ShutdownDevice | None
    hazard_control: HazardControl | None
    document: SourceDocument
    catalog_documents: tuple[SourceDocument, ...] = ()

    @property
    def framing(self) -> Framing:
        """The framing under attachments that this job designs.

        Raises:
            ValueError: The framing is by others.
        """
        if self.job.framing is None:
            msg = "the framing is by others"
            raise ValueError(msg)
        return self.job.framing

    @property
    def tile(self) -> CurvedTile:
        """The curved tile that attachments of this job stand in.

        Raises:
            ValueError: The roof has another covering.
        """
        covering = self.job.roof.covering
        if not isinstance(covering, CurvedTile):
            msg = f"the roof is covered with {covering.kind}"
            raise ValueError(msg)
        return covering

    def line_of(self, *location: str | int) -> int:
        """Return the line of a field, as `line_of("arrays", 0, "corner")`; lists count from 0."""
        return self.document.line_of(location)


def _declared_units(document: SourceDocument) -> str:
    """Return the units of bare numbers; inches only so that reading can go on to other errors."""
    units: Any = document.data.get("units")
    return units if isinstance(units, str) and units in INCHES_PER_UNIT else "in"


def read_job(path: Path) -> Inputs:
    """Return a job and the catalog entries it names.

    Raises:
        JobErrors: with every problem found in the job and in the catalog files it names.
    """
    document, problems = scan_yaml(path)
    if document is None:
        raise JobErrors(problems)
    sections: Sections = {}
    job, wrong = validate(Job, document, {"units": _declared_units(document), "sections": sections})
    entries, not_found = look_up(sections, document, path.parent)
    wrong += not_found
    wrong += cross_check(sections, entries, document)
    wrong += too_much(sections, entries, document)
    told = {(problem.file, problem.field) for problem in problems}
    wrong = [problem for problem in wrong if (problem.file, problem.field) not in told]
    everything = [*problems, *wrong]
    if everything or job is None or entries.jurisdiction is None:
        raise JobErrors(everything)
    return Inputs(
        path=path,
        job=job,
        jurisdiction=entries.jurisdiction,
        modules=entries.modules,
        mountings=entries.mountings,
        inverters=entries.inverters,
        microinverters=entries.microinverters,
        converter=entries.converter,
        battery=entries.battery,
        shutdown=entries.shutdown,
        hazard_control=entries.hazard_control,
        document=document,
        catalog_documents=tuple(entries.documents),
    )
