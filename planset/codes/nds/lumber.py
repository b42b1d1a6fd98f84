"""Dressed sizes of dimension lumber and the sections they make, by the NDS Supplement 2018."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType

from planset.codes import _check, _table


@dataclass(frozen=True, slots=True)
class Section:
    """A rectangular section on edge; measured sizes serve for lumber that was never dressed.

    Attributes:
        thickness_in: Breadth b, across the line of the member [in].
        width_in: Depth d, in the direction of bending [in].

    Raises:
        ValueError: A size is not above zero.

    Source: NDS Supplement 2018, Table 1B [from memory].
    """

    thickness_in: float
    width_in: float

    def __post_init__(self) -> None:
        _check.above_zero(self.thickness_in, "thickness of the member, in,")
        _check.above_zero(self.width_in, "width of the member, in,")

    @property
    def area_in2(self) -> float:
        """Area b d [sq in]."""
        return self.thickness_in * self.width_in

    @property
    def section_modulus_in3(self) -> float:
        """Section modulus b d^2 / 6 [in3]."""
        return self.thickness_in * self.width_in**2 / 6.0

    @property
    def moment_of_inertia_in4(self) -> float:
        """Moment of inertia b d^3 / 12 [in4]."""
        return self.thickness_in * self.width_in**3 / 12.0


@cache
def _sizes() -> Mapping[str, tuple[float, float]]:
    rows = _table.rows(Path(__file__).with_name("lumber.csv"))
    return MappingProxyType(
        {row["nominal"]: (float(row["thickness_in"]), float(row["width_in"])) for row in rows}
    )


def dressed_size_in(nominal: str) -> tuple[float, float]:
    """Thickness and width of surfaced dry lumber; old houses may hold full-size lumber.

    Args:
        nominal: Nominal size from "2x4" to "2x12".

    Returns:
        Thickness and width [in].

    Raises:
        ValueError: Size not in the table.

    Source: NDS Supplement 2018, Table 1B [from memory].
    """
    if nominal not in _sizes():
        msg = f"lumber size is {nominal!r}; expected one of {', '.join(_sizes())}"
        raise ValueError(msg)
    return _sizes()[nominal]


def section(nominal: str) -> Section:
    """Section of surfaced dry lumber on edge.

    Args:
        nominal: Nominal size from "2x4" to "2x12".

    Returns:
        Its section.

    Raises:
        ValueError: Size not in the table.

    Source: NDS Supplement 2018, Table 1B [from memory].
    """
    return Section(*dressed_size_in(nominal))
