"""Random roofs, each with an array to be held by as little as possible."""

from __future__ import annotations

import random
from dataclasses import replace
from pathlib import Path
from typing import Any

from fewest_jobs import jurisdiction, system

from planset.design.extent import stated_extents
from planset.design.layout import PlacedArray, place_arrays
from planset.job.load import Inputs, read_job
from planset.job.solid import roof_solid
from planset.roof.solid import Roof
from tests.sheets.roof_jobs import house, write

TILE, SHINGLES = ("heron-tile", "bittern-post"), ("plover-shingle", "bittern-post", "teal-up")
CURVED = {
    "kind": "curved_tile", "material": "clay", "exposure": 14, "length": 17, "pan_pitch": 11,
    "rise": 2.75, "thickness": 0.5, "batten": 0.75,
}  # fmt: skip
MODULE = (67.8, 44.6)


def random_house(dice: random.Random, folder: Path) -> Inputs:
    """Return a house of any shape, site and framing with one array on one of its planes."""
    tiled = dice.random() < 0.4
    shape = dice.choice(("gable", "hip", "shed"))
    length, depth = 12 * dice.randint(36, 70), 12 * dice.randint(24, 40)
    roof: dict[str, Any] = {
        "shape": shape,
        "ridge_length" if shape == "gable" else "length": length,
        "depth": depth,
        "pitch": f"{dice.choice((3, 4, 5, 6) if shape == 'shed' else (3, 4, 5, 6, 8))}:12",
        "eave_overhang": dice.choice((0, 12, 18)),
    }
    if tiled:
        survey = {"first_course": dice.uniform(8, 14), "first_pan": dice.uniform(0, 11)}
        roof["covering"] = CURVED | survey
    spacing = dice.choice((12, 16, 16, 19.2, 24, 24))
    name = dice.choice(TILE if tiled else SHINGLES)
    mounting: dict[str, Any] = {"system": name, "fewest_attachments": True}
    if system(name).across:
        mounting |= {"rail_inset": 9, "stagger": dice.random() < 0.3}
    array = _array(dice, shape, length, depth) | {"mounting": mounting}
    framing = {
        "kind": "rafter", "member": dice.choice(("2x6", "2x8")), "spacing": spacing,
        "first_rafter": dice.uniform(0, spacing), "species": "douglas-fir-larch", "grade": "No. 2",
        "supports": [0, depth / 2], "roof_dead_load": "15 psf", "ceiling": "none", "sheathing": 0.5,
        "underlayment": 0.0625, "source": "survey",
    }  # fmt: skip
    site = {
        "wind_speed": dice.choice(("100 mph", "110 mph", "120 mph")),
        "exposure": dice.choice(("B", "B", "C")),
    }
    job = house(roof, [array], framing=framing, site=site)
    inputs = read_job(write(job, folder))
    of = dice.choice(("alta-rosa", "port-larkin", "verdemar", "cape-marisol"))
    return replace(inputs, jurisdiction=jurisdiction(of))


def _array(dice: random.Random, shape: str, length: float, depth: float) -> dict[str, Any]:
    """An array well inside the front plane, whose hips fall away at 45 degrees in plan."""
    turned = dice.random() < 0.4
    across, up = MODULE[::-1] if turned else MODULE
    run = depth if shape == "shed" else depth / 2
    rows = dice.randint(1, max(1, min(4, int((run - 40) / up))))
    low = dice.uniform(12, max(13, run - 20 - rows * up))
    inset = 20 + (low + rows * up if shape == "hip" else 0)
    columns = dice.randint(1, max(1, min(9, int((length - 2 * inset) / (across + 0.5)))))
    slack = max(length - 2 * inset - columns * (across + 0.5), 0)
    return {
        "id": "A1",
        "plane": "front",
        "module": "tr-402",
        "orientation": "portrait" if turned else "landscape",
        "rows": rows,
        "columns": columns,
        "corner": {"along": inset + dice.uniform(0, slack), "up": low},
        "gap": 0.75,
    }


def roof_and_arrays(inputs: Inputs) -> tuple[Roof, tuple[PlacedArray, ...]]:
    """Return the roof of a house, and its arrays where they lie."""
    roof = roof_solid(inputs.job.roof, inputs.job.other_buildings)
    return roof, place_arrays(inputs, roof, stated_extents(inputs.job.arrays))
