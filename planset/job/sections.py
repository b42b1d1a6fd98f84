"""The sections of a job that are valid so far, and the catalog entries they name."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypedDict

from planset.catalog.battery import Battery
from planset.catalog.converter import Converter
from planset.catalog.inverter import Inverter
from planset.catalog.jurisdiction import Jurisdiction
from planset.catalog.microinverter import Microinverter
from planset.catalog.module import Module
from planset.catalog.mounting import MountingSystem
from planset.catalog.shutdown import HazardControl, ShutdownDevice
from planset.job.arrays import Array
from planset.job.building import Building
from planset.job.data_sheets import DataSheetFile
from planset.job.drafting import Drafting
from planset.job.electrical.electrical import Electrical
from planset.job.framing import Framing
from planset.job.obstructions import Obstruction
from planset.job.other_buildings import OtherBuilding
from planset.job.project import Project
from planset.job.revisions import Revision
from planset.job.roof import Roof
from planset.job.site import Site
from planset.job.site_plan import SitePlan
from planset.job.survey import Survey
from planset.source import SourceDocument


class Sections(TypedDict, total=False):
    """Sections that are checked against each other; a broken one is absent."""

    jurisdiction: str
    site: Site
    site_plan: SitePlan | None
    building: Building
    roof: Roof
    other_buildings: tuple[OtherBuilding, ...]
    framing: Framing | None
    survey: Survey | None
    obstructions: tuple[Obstruction, ...]
    arrays: tuple[Array, ...]
    electrical: Electrical
    drafting: Drafting
    project: Project
    revisions: tuple[Revision, ...]
    data_sheets: tuple[DataSheetFile, ...]


@dataclass(frozen=True, slots=True)
class Entries:
    """Catalog entries of a job by the names it gives; what is not found is absent.

    `documents` are the files the entries stand in.
    """

    jurisdiction: Jurisdiction | None = None
    modules: Mapping[str, Module] = field(default_factory=dict)
    mountings: Mapping[str, MountingSystem] = field(default_factory=dict)
    inverters: Mapping[str, Inverter] = field(default_factory=dict)
    microinverters: Mapping[str, Microinverter] = field(default_factory=dict)
    converter: Converter | None = None
    battery: Battery | None = None
    shutdown: ShutdownDevice | None = None
    hazard_control: HazardControl | None = None
    documents: Sequence[SourceDocument] = ()
