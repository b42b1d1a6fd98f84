"""Houses for the tests of the design: one job of tests/rules/base, with fields changed in place.

The base is a gable 40 ft by 30 ft in plan at 6:12 without overhangs, front to the south, with one
array of 30 ft by 12 ft, 20 modules, on the front plane. Numbers are inches, rise per run and C.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any

from planset.design.extent import stated_extents
from planset.design.layout import PlacedArray, place_arrays
from planset.job.by_plane import EVERY_PLANE
from planset.job.load import Inputs, read_job
from planset.roof.solid import Roof

BASE = Path(__file__).parents[1] / "rules" / "base"
EXAMPLE = Path(__file__).parents[2] / "examples" / "tile-gable" / "job.yaml"


@cache
def base(name: str = "gable-40x30") -> Inputs:
    """Return the job of the base house as it is."""
    return read_job(BASE / f"{name}.yaml")


def house(changes: dict[str, Any] | None = None, name: str = "gable-40x30") -> Inputs:
    """Return the base house with fields changed.

    Args:
        changes: Dotted place to value: of the job, as `arrays.A1.corner.up`, or of a catalog entry,
            as `module.width`, `mounting.rail.past_module`, `inverter.inputs`, `shutdown...`; of
            those named in the plural all are changed.
        name: The base job.
    """
    inputs = base(name)
    for place, value in (changes or {}).items():
        head, *rest = place.split(".")
        if head in ("module", "mounting", "inverter", "microinverter"):
            entries = getattr(inputs, f"{head}s")
            changed = {key: _with(entry, rest, value) for key, entry in entries.items()}
            entries_of: dict[str, Any] = {f"{head}s": MappingProxyType(changed)}
            inputs = replace(inputs, **entries_of)
        elif head in ("converter", "battery", "shutdown", "hazard_control", "jurisdiction"):
            inputs = replace(inputs, **{head: _with(getattr(inputs, head), rest, value)})
        else:
            inputs = replace(inputs, job=_with(inputs.job, [head, *rest], value))
    return inputs


def _with(thing: Any, place: list[str], value: Any) -> Any:
    if not place:
        return value
    if place in (["first_rafter"], ["first_course"], ["first_pan"]):
        value = {EVERY_PLANE: value}
    step, *rest = place
    if isinstance(thing, tuple):
        assert step in [entry.id for entry in thing], step
        return tuple(_with(e, rest, value) if e.id == step else e for e in thing)
    assert step in type(thing).model_fields, step
    return thing.model_copy(update={step: _with(getattr(thing, step), rest, value)})


def placed_arrays(inputs: Inputs) -> tuple[PlacedArray, ...]:
    """Return the arrays of a house where the job puts them."""
    return place_arrays(inputs, roof_of_house(inputs), stated_extents(inputs.job.arrays))


def roof_of_house(inputs: Inputs) -> Roof:
    """Return the roof a job describes."""
    return inputs.job.roof.solid


def filled(array_id: str, width_ft: float, height_ft: float) -> dict[str, Any]:
    """Return changes that make every array of 4 rows by 5 columns fill a rectangle, gaps 0."""
    return {
        f"arrays.{array_id}.gap": 0.0,
        "module.width": width_ft * 12 / 5,
        "module.height": height_ft * 12 / 4,
    }
