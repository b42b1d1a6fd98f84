"""Distances surveyed on a roof plane: one for every plane, or one by the name of each plane."""

from collections.abc import Mapping
from typing import Annotated, TypeVar

from pydantic import BeforeValidator

from planset.catalog.fields import Distance

EVERY_PLANE = "*"

T = TypeVar("T")


def by_plane(value: object) -> object:
    """Return values by plane; a single one stands for every plane."""
    return value if isinstance(value, dict) else {EVERY_PLANE: value}


def on_plane(values: Mapping[str, T], plane: str) -> T | None:
    """Return what was surveyed on a plane, None where nothing was."""
    return values.get(plane, values.get(EVERY_PLANE))


DistanceByPlane = Annotated[
    dict[str, Distance],
    BeforeValidator(by_plane, json_schema_input_type=Distance | dict[str, Distance]),
]
"""Inches, zero or more, by plane."""
