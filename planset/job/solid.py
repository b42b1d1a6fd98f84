"""The roofs of all buildings of a job, as one solid in the plan of the house."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.roof.placing import joined, placed

if TYPE_CHECKING:
    from collections.abc import Iterable

    from planset.job.other_buildings import OtherBuilding
    from planset.job.roof import Roof
    from planset.roof.solid import Roof as RoofSolid


def roof_solid(roof: Roof, others: Iterable[OtherBuilding] = ()) -> RoofSolid:
    """The planes and edges of every building.

    Args:
        roof: The roof of the house.
        others: The other buildings.

    Raises:
        RoofShapeError: A wing or dormer does not fit its roof.
    """
    roofs = [roof.solid]
    for other in others:
        turn = roof.front_azimuth - other.roof.front_azimuth
        at = (other.at.right, other.at.back)
        roofs.append(placed(other.roof.solid, other.id, at, turn, other.eave_above))
    return joined(tuple(roofs))


def dormer_planes(roof: Roof, others: Iterable[OtherBuilding] = ()) -> frozenset[str]:
    """Ids of the planes of dormers that the shape of a roof names; free planes name none.

    Args:
        roof: The roof of the house.
        others: The other buildings.
    """
    roofs = [("", roof), *((f"{other.id}-", other.roof) for other in others)]
    return frozenset(
        f"{prefix}{dormer.id}{side}"
        for prefix, one in roofs
        for dormer in getattr(one, "dormers", ())
        for side in ("", "-left", "-right")
    )
