"""What holds modules on rails: clamps, adjustable feet, couplings, trim, and how all is bonded."""

from typing import Annotated, Literal

from planset.catalog.fields import (
    Count,
    Distance,
    FireType,
    OneOrMore,
    Several,
    Size,
    StrictModel,
    Text,
    between,
)


class Clamps(StrictModel):
    """Clamps on a rail: `mid` between two modules, `end` beside the outer one; inches.

    `gap` is what a mid clamp needs between frames, `end_room` the rail that an end clamp takes
    past the outer frame.
    """

    mid: Text
    end: Text
    gap: Size
    end_room: Distance
    torque: Text


class Foot(StrictModel):
    """An adjustable foot, where a rail crosses the long edge of a module; inches.

    It carries the frame `lowest` to `highest` above the rail and starts `from_rail_end` from the
    rail's end at least. Along the module edge feet stand `edge_span` apart at most, and the edge
    runs `edge_cantilever` past the last one at most. `splice_piece` is the part without which
    none may sit on a splice; None where none may at all.
    """

    name: Text
    lowest: Distance
    highest: Size
    from_rail_end: Distance
    edge_span: Size
    edge_cantilever: Distance
    splice_piece: Text | None = None
    torque: Text
    document: Text
    page: Count


class Coupling(StrictModel):
    """A part that joins the corners of neighboring modules; inches.

    `gap` is what it needs between frames. A foot nearer to one than `interference` gives way,
    with the coupling, to the part `combined`.
    """

    name: Text
    gap: Size
    interference: Distance
    combined: Text
    torque: Text


class Trim(StrictModel):
    """A trim along the front edge of the lowest row; inches.

    `depth` counts in the extent of the array. A piece may run `overhang` past the last front foot
    or, where there are no feet, the last rail; `joint` joins two pieces, `lock` holds one to each
    front foot.
    """

    name: Text
    piece_length: Size
    depth: Size
    overhang: Distance
    joint: Text
    lock: Text | None = None


class ModuleFrames(StrictModel):
    """Which modules a system takes: their frame depth in inches, and those listed with it."""

    depth_from: Size
    depth_to: Size
    listed: Several[Text] = ()


class Bonding(StrictModel):
    """How modules and rails are bonded, and where the listing ends.

    `modules_to_rails` tells whether clamps or feet bond them without a jumper,
    `splices_bond` the same of splices. `lug_per` is what one lug for the grounding conductor
    serves; `most_modules` limits them on one lug.
    """

    listing: Text
    modules_to_rails: bool
    splices_bond: bool
    lug_per: Literal["array", "rail"]
    most_modules: Count | None = None
    document: Text
    page: Count


class FireRating(StrictModel):
    """The fire class of the system with its modules, and the conditions of that class.

    `slope_from` and `slope_to` in degrees; `module_types` as data sheets of modules give them.
    """

    rating: Literal["Class A", "Class B", "Class C"]
    module_types: OneOrMore[FireType]
    slope_from: Annotated[float, between(0, 90, "degrees")]
    slope_to: Annotated[float, between(0, 90, "degrees")]
    document: Text
    page: Count
