"""Dressed sizes of dimension lumber by the NDS Supplement 2018."""

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType

from planset.codes import _table


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
