"""Houses whose arrays are to stand on the fewest attachments."""

from __future__ import annotations

import random
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType
from typing import Any

from houses import house

from planset.catalog.jurisdiction import Jurisdiction
from planset.catalog.mounting import MountingSystem
from planset.job.arrays import ArrayMounting, Pin
from planset.job.covering import AsphaltShingle
from planset.job.load import Inputs
from planset.source import read_yaml

DATA = Path(__file__).parents[2] / "planset" / "catalog" / "data"
SHINGLE = AsphaltShingle(
    kind="asphalt_shingle", material="asphalt shingle", exposure=5.625, thickness=0.25
)
ACROSS = {"rail_inset": 9.0}


def system(name: str) -> MountingSystem:
    """Return a mounting system of the catalog."""
    return MountingSystem.model_validate(read_yaml(DATA / "mounting" / f"{name}.yaml").data)


def jurisdiction(name: str) -> Jurisdiction:
    """Return a jurisdiction of the catalog."""
    return Jurisdiction.model_validate(read_yaml(DATA / "jurisdictions" / f"{name}.yaml").data)


def fewest(
    changes: dict[str, Any] | None = None,
    name: str | None = None,
    base: str = "gable-40x30",
    of: str | None = None,
    **mounting: Any,
) -> Inputs:
    """Return a base house whose arrays are laid out by planset.

    Args:
        changes: As `house` takes them.
        name: A mounting system of the catalog, the base's hook where None.
        base: The base house.
        of: A jurisdiction of the catalog, the base's where None.
        mounting: Fields of the mounting beside these.
    """
    inputs = house(changes, base)
    if of:
        inputs = replace(inputs, jurisdiction=jurisdiction(of))
    entries = dict(inputs.mountings)
    if name:
        entries[name] = system(name)
    inputs = replace(inputs, mountings=MappingProxyType(entries))
    told = ArrayMounting(system=name or "hook", fewest_attachments=True, **mounting)
    arrays = tuple(
        array.model_copy(update={"mounting": told}) if array.mounting else array
        for array in inputs.job.arrays
    )
    return replace(inputs, job=inputs.job.model_copy(update={"arrays": arrays}))


def small(dice: random.Random, name: str | None, **mounting: Any) -> Inputs:
    """Return a small array somewhere on the base house, in any wind, on rafters anywhere."""
    spacing = dice.choice((16.0, 19.2, 24.0))
    columns = dice.choice((1, 2))
    changes: dict[str, Any] = {
        "arrays.A1.rows": dice.choice((1, 2)),
        "arrays.A1.columns": columns,
        "arrays.A1.corner.along": dice.uniform(10, 470 - 73 * columns),
        "arrays.A1.corner.up": dice.uniform(10, 110),
        "framing.spacing": spacing,
        "framing.first_rafter": dice.uniform(0, spacing),
        "site.wind_speed": dice.choice((100.0, 110.0, 120.0, 140.0)),
        "site.exposure": dice.choice(("B", "C")),
        "site.ground_snow": 0.0,
    }
    if dice.random() < 0.3:
        changes["arrays.A1.orientation"] = "portrait"
        changes["arrays.A1.rows"] = 1
    if name in ("plover-shingle", "teal-up"):
        changes["roof.covering"] = SHINGLE
    of = dice.choice((None, "port-larkin", "alta-rosa", "verdemar"))
    ceiling = dice.choice((0.9, 0.7, 1.0))
    return fewest(changes, name, of=of, ratio_ceiling=ceiling, **mounting)


def pinned(inputs: Inputs, *pins: Pin) -> Inputs:
    """Return the house with places pinned in its first array."""
    first, *others = inputs.job.arrays
    assert first.mounting
    told = first.mounting.model_copy(update={"pinned": pins})
    arrays = (first.model_copy(update={"mounting": told}), *others)
    return replace(inputs, job=inputs.job.model_copy(update={"arrays": arrays}))
