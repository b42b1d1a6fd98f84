"""Arrays that were on the roof before: what they missed already is for the official to decide.

What an existing array misses because of the new ones fails as any array does. What was missed
before, and what the new ones leave as it was, may stay only if the official says so
(interpretation: what was lawfully built may stay, unless a change makes it worse).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.design.access.geometry import AccessGeometry, measured_access
from planset.design.layout import ArrayOnRoof, all_arrays, existing_arrays
from planset.rules.limits import NOISE

if TYPE_CHECKING:
    from planset.design.design import Design


def every_array(design: Design) -> tuple[ArrayOnRoof, ...]:
    """Return the arrays of the job, then those that are there already."""
    return all_arrays(design.arrays, design.obstructions)


def with_modules(design: Design) -> frozenset[str]:
    """Return the ids of the planes with new modules."""
    return frozenset(array.plane.id for array in design.arrays)


def is_existing(design: Design, array_id: str) -> bool:
    """Tell whether an array was on the roof before."""
    return any(item.id == array_id for item in existing_arrays(design.obstructions))


def before(design: Design) -> AccessGeometry | None:
    """Return what was measured without the new arrays, None where none were there before."""
    if not existing_arrays(design.obstructions):
        return None
    return measured_access(design.inputs, design.roof, (), design.obstructions)


def missed_before(measured_in: float, before_in: float, required_in: float) -> bool:
    """Tell whether a width was missed before, and the new arrays take nothing off it [in]."""
    return before_in < required_in - NOISE and measured_in >= before_in - NOISE
