"""The wall the equipment hangs on, as its elevation is drawn."""

from typing import Annotated, Literal

from planset.catalog.fields import Distance, Id, OneOrMore, Size, StrictModel, Text, one_of


class OnWall(StrictModel):
    """A piece of equipment on a wall: from the wall's left end and from grade; inches."""

    tag: Id
    left: Distance
    bottom: Distance
    width: Size
    height: Size
    depth: Size


class EquipmentWall(StrictModel):
    """A wall with its equipment, seen from in front of it; inches.

    `free_depth` is what lies free in front of it. `condition` is that of Table 110.26(A)(1): 1 for
    nothing grounded opposite, 2 for a grounded surface, 3 for live parts. `exposure` is whether
    rain reaches it, None where that is not stated.
    """

    name: Text
    width: Size
    height: Size
    free_depth: Size
    condition: Annotated[int, one_of(1, 2, 3)]
    exposure: Literal["outdoors", "indoors"] | None = None
    equipment: OneOrMore[OnWall]
