"""The whole job."""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, ValidationInfo, field_validator

from planset.catalog.fields import CatalogName, Few, OneOrMore, Several, StrictModel, Text, one_of
from planset.job.alternates import Alternates
from planset.job.arrays import Array
from planset.job.building import Building
from planset.job.by_others import by_others_as_none
from planset.job.data_sheets import DataSheetFile
from planset.job.drafting import Drafting
from planset.job.electrical.electrical import Electrical
from planset.job.engineering import Engineering
from planset.job.framing import Framing
from planset.job.materials import Materials
from planset.job.obstructions import Obstruction
from planset.job.other_buildings import OtherBuilding
from planset.job.project import Contractor, Project
from planset.job.revisions import Revisions
from planset.job.roof import Roof
from planset.job.site import Site
from planset.job.site_plan import SitePlan
from planset.job.survey import Survey


class Job(StrictModel):
    """What the drafter says, section by section; lengths in inches.

    `utility_emergency_telephone` is whom to call about the utility's side in an emergency.
    """

    planset: Annotated[int, one_of(1)]
    units: Literal["in", "ft", "mm", "cm", "m"]
    project: Project
    revisions: Revisions = ()
    contractor: Contractor
    jurisdiction: CatalogName
    utility: Text
    utility_emergency_telephone: Text | None = None
    site: Site
    site_plan: SitePlan | None = None
    building: Building
    roof: Roof
    other_buildings: Several[OtherBuilding] = ()
    framing: Annotated[
        Framing | None,
        BeforeValidator(by_others_as_none, json_schema_input_type=Literal["by_others"] | Framing),
    ]
    survey: Survey | None = None
    engineering: Engineering | None = None
    alternates: Alternates = ()
    obstructions: Several[Obstruction]
    arrays: OneOrMore[Array]
    electrical: Electrical
    drafting: Drafting
    materials: Materials | None = None
    data_sheets: Few[DataSheetFile] = ()

    def roof_over(self, building: str) -> Roof:
        """Return the roof over a building of the job; "" is the house."""
        if not building:
            return self.roof
        return next(other.roof for other in self.other_buildings if other.id == building)

    @field_validator("*", mode="after")
    @classmethod
    def _note_section(cls, value: Any, info: ValidationInfo) -> Any:
        """Hand each valid section to the loader, which checks it even when others are broken."""
        if info.context and info.field_name:
            info.context.get("sections", {})[info.field_name] = value
        return value
