"""The local rule that keeps a pathway along three sides of an array, and whom it relieves."""

from __future__ import annotations

from planset.catalog.access import EffectiveAccess
from planset.design.access.geometry import AccessGeometry
from planset.design.access.pathways import adjacent_planes
from planset.design.layout import PlacedArray
from planset.roof.solid import Roof

_NOISE = 1e-9
_SQIN_PER_SQFT = 144


def small_enough(array: PlacedArray, rules: EffectiveAccess) -> bool:
    """Whether an array is small enough for the relief; its area is taken on the surface.

    The larger of the two areas one could take (interpretation).
    """
    rule = rules.three_sides
    area = array.surface_area_sqin / _SQIN_PER_SQFT
    return rule is not None and area <= rule.area * (1 + _NOISE)


def relieved_arrays(
    roof: Roof,
    arrays: tuple[PlacedArray, ...],
    access: AccessGeometry,
    rules: EffectiveAccess,
    *,
    across_ridges: bool | None = None,
) -> dict[str, bool]:
    """Whether each array needs only the ridge kept clear, and one pathway when it is large.

    It does when it is small and an adjacent roof plane intersects its own. Whether the far side
    of a ridge is such a plane is disputed.

    Args:
        roof: The roof.
        arrays: The arrays.
        access: What is measured.
        rules: The rules in force.
        across_ridges: Whether the far side of a ridge counts; None asks the jurisdiction.
    """
    reading = rules.readings.far_side_of_ridge_is_adjacent
    counts = reading if across_ridges is None else across_ridges
    return {
        array.id: small_enough(array, rules)
        and bool(adjacent_planes(roof, array.plane, across_ridges=counts))
        for array in arrays
        if array.plane.id in access.planes
    }
