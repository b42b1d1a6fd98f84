"""Other buildings of the job: a detached garage, a second house."""

from typing import Annotated, Literal

from planset.catalog.fields import Id, Length, StrictModel, between
from planset.job.roof import Roof

Reach = Annotated[Length, between(-12_000, 12_000, "in")]


class Place(StrictModel):
    """Where the front left corner of a roof lies, from that of the house; inches."""

    right: Reach
    back: Reach


class OtherBuilding(StrictModel):
    """A building of its own; its planes are named after it, as garage-front.

    `use` tells whether the access rules know it: a detached garage, carport or shade structure is
    not habitable. `eave_above` is its eave line above that of the house, inches.
    """

    id: Id
    use: Literal["detached_garage", "carport", "shade_structure", "dwelling", "other"]
    at: Place
    eave_above: Annotated[Length, between(-1200, 1200, "in")]
    roof: Roof
