"""The arrays: modules in rows and columns, and how they are mounted."""

from typing import Annotated, Literal

from planset.catalog.fields import (
    CatalogName,
    Count,
    Distance,
    Id,
    Size,
    StrictModel,
    Text,
    between,
)
from planset.job.position import Position


class ArrayMounting(StrictModel):
    """How an array is mounted; lengths in inches.

    Rails lie over rafters, counted from the left rake; attachments stand along each rail from its
    lower end.
    """

    system: CatalogName
    first_rail_rafter: Count
    rail_every: Count
    first_attachment: Distance
    attachment_spacing: Annotated[Size, between(6, 180, "in")]


class Array(StrictModel):
    """Modules of one model in a rectangle; `corner` is the lower left one of the frames."""

    id: Id
    plane: Text
    module: CatalogName
    orientation: Literal["landscape", "portrait"]
    rows: Count
    columns: Count
    corner: Position
    gap: Annotated[Distance, between(0, 12, "in")]
    mounting: ArrayMounting

    @property
    def module_count(self) -> int:
        """Modules in the rectangle."""
        return self.rows * self.columns
