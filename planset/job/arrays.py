"""The arrays: modules in rows and columns, and how they are mounted."""

from typing import Annotated, Literal, Self

from pydantic import AfterValidator, BeforeValidator, WithJsonSchema, model_validator

from planset.catalog.fields import (
    CatalogName,
    Count,
    Distance,
    Id,
    Several,
    Size,
    StrictModel,
    Text,
    between,
)
from planset.job.by_others import by_others_as_none
from planset.job.position import Position

Gap = Annotated[Distance, between(0, 12, "in")]


def _only_true(value: bool) -> bool:
    """Refuse false, which says no more than leaving the line out; a Literal would let 1 pass."""
    if not value:
        msg = "not an accepted value; write true, or remove the line"
        raise ValueError(msg)
    return value


class Pin(StrictModel):
    """A place where the drafter wants an attachment.

    `line` is the rafter or seam, counted from the left end of the eave. On a rail up the slope
    `up` is the distance from the eave on the surface; on rails across it `rail` is counted from
    the eave.
    """

    line: Count
    up: Distance | None = None
    rail: Count | None = None


class ArrayMounting(StrictModel):
    """How an array is mounted; lengths in inches.

    Rails up the slope lie over rafters, the first over `first_rail_rafter` and one over every
    `rail_every` from there; attachments stand on each from its lower end, `first_attachment` and
    then every `attachment_spacing`. Rails across the slope lie `rail_inset` inside the lower and
    the upper edge of each row; attachments stand where they cross the rafters or seams, from
    `first_line` at every `attach_every`, with `stagger` half of that further on every second
    rail. With `fewest_attachments` planset finds all but `rail_inset`: the fewest attachments
    whose ratios stay under `ratio_ceiling`, those of `pinned` among them.
    """

    system: CatalogName
    first_rail_rafter: Count | None = None
    rail_every: Count | None = None
    first_attachment: Distance | None = None
    attachment_spacing: Annotated[Size, between(6, 180, "in")] | None = None
    rail_inset: Distance | None = None
    first_line: Count | None = None
    attach_every: Count | None = None
    stagger: bool = False
    fewest_attachments: Annotated[
        bool, AfterValidator(_only_true), WithJsonSchema({"const": True})
    ] = False
    ratio_ceiling: Annotated[float, between(0.1, 1.0)] = 0.90
    pinned: Several[Pin] = ()


class Cell(StrictModel):
    """One place of an array: `row` from the eave, `column` from the left, both from 1."""

    row: Count
    column: Count


class Array(StrictModel):
    """Modules of one model in rows and columns; inches.

    `corner` is the lower left one of the frames, `omit` the cells without a module. With
    `as_many_as_fit` rows, columns, corner and omitted cells follow from the plane and what must
    stay free on it; `most` then limits the modules. `row_gap` differs from `gap` where rows stand
    further apart than columns. The mounting is None where others design it.
    """

    id: Id
    plane: Text
    module: CatalogName
    orientation: Literal["landscape", "portrait"]
    rows: Count | None = None
    columns: Count | None = None
    corner: Position | None = None
    omit: Several[Cell] = ()
    as_many_as_fit: Annotated[bool, AfterValidator(_only_true), WithJsonSchema({"const": True})] = (
        False
    )
    most: Count | None = None
    gap: Gap
    row_gap: Gap | None = None
    mounting: Annotated[
        ArrayMounting | None,
        BeforeValidator(
            by_others_as_none, json_schema_input_type=Literal["by_others"] | ArrayMounting
        ),
    ]

    @model_validator(mode="after")
    def _check_extent(self) -> Self:
        stated = [part is not None for part in (self.rows, self.columns, self.corner)]
        if self.as_many_as_fit:
            if any(stated) or self.omit:
                msg = (
                    "as_many_as_fit finds rows, columns, corner and omitted cells itself; remove "
                    "them, or as_many_as_fit"
                )
                raise ValueError(msg)
        elif not all(stated):
            msg = (
                "its extent is not clear; give rows, columns and corner, or write "
                "as_many_as_fit: true"
            )
            raise ValueError(msg)
        elif self.most is not None:
            msg = "most belongs to as_many_as_fit; remove one of them"
            raise ValueError(msg)
        return self

    @model_validator(mode="after")
    def _check_omitted(self) -> Self:
        rows, columns = self.rows, self.columns
        if rows is None or columns is None:
            return self
        beyond = [cell for cell in self.omit if cell.row > rows or cell.column > columns]
        if beyond:
            cell = beyond[0]
            msg = (
                f"row {cell.row}, column {cell.column} is omitted, yet the array has {rows} rows "
                f"and {columns} columns; correct omit"
            )
            raise ValueError(msg)
        if self.module_count == 0:
            msg = "every cell is omitted; leave one, or remove the array"
            raise ValueError(msg)
        return self

    @property
    def up_gap(self) -> float:
        """Gap between rows, inches."""
        return self.gap if self.row_gap is None else self.row_gap

    @property
    def omitted(self) -> frozenset[tuple[int, int]]:
        """Omitted cells as row and column."""
        return frozenset((cell.row, cell.column) for cell in self.omit)

    @property
    def module_count(self) -> int | None:
        """Modules stated, None when they follow from the plane."""
        if self.rows is None or self.columns is None:
            return None
        return self.rows * self.columns - len(self.omitted)
