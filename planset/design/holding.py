"""What holds the modules on the rails: feet or clamps, couplings, and the trim along the front."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from planset.design.layout import PlacedArray
from planset.design.racking import Racking


@dataclass(frozen=True, slots=True)
class Holder:
    """One part that holds modules to a rail.

    Attributes:
        kind: What it is; `combined` stands for a foot and the coupling beside it.
        part: Its name in the mounting system.
        rail: Id of its rail.
        u_in: Distance from the left end of the eave [in].
        v_in: Distance from the eave on the surface [in].
        modules: Ids of the modules it holds.
        front: Whether it stands at the front edge of the lowest module of its column.
    """

    kind: Literal["foot", "combined", "mid_clamp", "end_clamp"]
    part: str
    rail: str
    u_in: float
    v_in: float
    modules: tuple[str, ...]
    front: bool = False


@dataclass(frozen=True, slots=True)
class CouplingPlace:
    """One coupling, at corners of modules that meet.

    Attributes:
        u_in: Distance from the left end of the eave [in].
        v_in: Distance from the eave on the surface [in].
        modules: Ids of the modules it joins.
    """

    u_in: float
    v_in: float
    modules: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TrimPiece:
    """One piece of the trim along a front edge.

    Attributes:
        number: Counted in its array, from the left.
        v_in: The front edge of the modules, from the eave [in].
        u0_in: Left end [in].
        u1_in: Right end [in].
        joined: Whether a joint follows at its right end.
    """

    number: int
    v_in: float
    u0_in: float
    u1_in: float
    joined: bool


@dataclass(frozen=True, slots=True)
class ModuleHolding:
    """All that holds the modules of one array.

    Attributes:
        array: Id of the array.
        holders: Feet or clamps, by rail, then along it.
        couplings: Couplings that are not part of a combined foot.
        trim: Pieces of the trim.
    """

    array: str
    holders: tuple[Holder, ...] = ()
    couplings: tuple[CouplingPlace, ...] = ()
    trim: tuple[TrimPiece, ...] = ()


def module_holding(array: PlacedArray, racking: Racking) -> ModuleHolding:
    """What holds the modules of an array on its rails."""
    return ModuleHolding(array.id)
