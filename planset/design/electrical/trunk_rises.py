"""The rise of voltage along the trunk of each branch beside the most that is taken."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from planset.codes.nec.voltage_drop import NOTED_BRANCH_PERCENT

if TYPE_CHECKING:
    from planset.design.design import Design
    from planset.design.electrical.system import BranchCircuit


class TrunkRise(NamedTuple):
    """A branch and the most that its voltage may rise.

    Attributes:
        branch: The branch, with its trunk.
        limit_percent: The maker's limit, or what a note of the code calls good [%].
        by_maker: Whether it is the maker's.
    """

    branch: BranchCircuit
    limit_percent: float
    by_maker: bool


def trunk_rises(design: Design) -> tuple[TrunkRise, ...]:
    """Every branch of microinverters, in the order of the job."""
    found = []
    for branch in design.electrical.branches:
        stated = design.inputs.microinverters[branch.inverter].trunk.max_rise_percent
        limit = NOTED_BRANCH_PERCENT if stated is None else stated
        found.append(TrunkRise(branch, limit, stated is not None))
    return tuple(found)
