"""Where a lag screw may stand in the member: edges, ends, spacing, by NDS 2018."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType

from planset.codes import _check, _table


@dataclass(frozen=True, slots=True)
class Placement:
    """One distance that a load direction asks for.

    Attributes:
        full_diameters: Distance at which the screw has its full value, over D (no unit).
        least_diameters: The smallest distance allowed, over D (no unit).

    Source: NDS 2018, Tables 12.5.1A to 12.5.1E [from memory].
    """

    full_diameters: float
    least_diameters: float


@cache
def _placements() -> Mapping[str, Mapping[str, Placement]]:
    found: dict[str, dict[str, Placement]] = {}
    for row in _table.rows(Path(__file__).with_name("lag_placement.csv")):
        found.setdefault(row["load"], {})[row["distance"]] = Placement(
            float(row["full"]), float(row["least"])
        )
    return MappingProxyType({load: MappingProxyType(rows) for load, rows in found.items()})


def placements(load: str) -> Mapping[str, Placement]:
    """Distances that a direction of load asks for, by name.

    Args:
        load: "withdrawal", "parallel-tension" (toward the end of the member),
            "parallel-compression" (away from it) or "perpendicular" to the grain.

    Returns:
        "edge", "loaded-edge", "unloaded-edge", "end", "spacing", as far as the table has them;
        spacing is from screw to screw in a row.

    Raises:
        ValueError: No such direction in the table.

    Source: NDS 2018, Tables 12.5.1A to 12.5.1E [from memory].
    """
    if load not in _placements():
        msg = f"direction of load is {load!r}; expected one of {', '.join(_placements())}"
        raise ValueError(msg)
    return _placements()[load]


def geometry_factor(load: str, diameter_in: float, actual_in: Mapping[str, float]) -> float:
    """Geometry factor C_delta: the least of actual over full distance.

    Args:
        load: Direction of the load, as in `placements`.
        diameter_in: Nominal diameter D [in].
        actual_in: Distances as built, by the names of `placements` [in]; one left out is taken
            to be full, such as the spacing of a screw that stands alone.

    Returns:
        1.0 with every distance full, 0 where one is below its least, which is not permitted;
        in between the smallest ratio, which governs the whole group (no unit).

    Raises:
        ValueError: Unknown direction or distance, a distance negative, diameter not above zero.

    Source: NDS 2018, 12.5.1.
    """
    _check.above_zero(diameter_in, "lag screw diameter, in,")
    asked = placements(load)
    factor = 1.0
    for name, distance_in in actual_in.items():
        if name not in asked:
            msg = f"distance is {name!r}; expected one of {', '.join(asked)} for {load}"
            raise ValueError(msg)
        _check.not_negative(distance_in, f"{name} distance, in,")
        if not _check.at_most(asked[name].least_diameters * diameter_in, distance_in):
            return 0.0
        factor = min(factor, distance_in / (asked[name].full_diameters * diameter_in))
    return factor


def drill_offset_in(member_width_in: float, diameter_in: float) -> float:
    """How far a screw may be drilled off the centerline of a rafter's narrow face.

    Args:
        member_width_in: Width of the face, the thickness of the rafter [in].
        diameter_in: Nominal diameter D [in].

    Returns:
        Half the width less the edge distance of 1.5 D; negative where the face is too narrow [in].

    Raises:
        ValueError: A size is not above zero.

    Source: NDS 2018, Table 12.5.1E [from memory].
    """
    _check.above_zero(member_width_in, "width of the rafter, in,")
    _check.above_zero(diameter_in, "lag screw diameter, in,")
    edge = placements("withdrawal")["edge"].least_diameters
    return member_width_in / 2.0 - edge * diameter_in
