"""Layouts found for thirty modules and for a thousand, in time of the processor."""

import time
from typing import Any

import pytest
from fewest_jobs import ACROSS, SHINGLE, fewest
from houses import placed_arrays, roof_of_house

from planset.design.beam import solve
from planset.design.place_racking import place_racking
from planset.job.by_plane import EVERY_PLANE
from planset.job.load import Inputs

SLOW = 3.0  # how much slower a machine may be that runs other things beside
THIRTY_S, THOUSAND_S = 0.2, 3.0  # some 0.05 s and 1 s on an idle machine

HOOK: dict[str, Any] = {}
FEET = {"roof.covering": SHINGLE, "framing.spacing": 24.0, "framing.first_rafter": 23.0}
POSTS = {"framing.spacing": 16.0}


def taken_s(inputs: Inputs, modules: int) -> float:
    roof, arrays = roof_of_house(inputs), placed_arrays(inputs)
    assert sum(len(array.modules) for array in arrays) == modules
    solve.cache_clear()
    started = time.process_time()
    racks = place_racking(inputs, roof, arrays)
    taken = time.process_time() - started
    assert all(rack.attachments for rack in racks)
    return taken


SYSTEMS = [
    pytest.param(None, HOOK, {}, id="hooks at laps"),
    pytest.param("teal-up", FEET, {}, id="rails up under feet"),
    pytest.param("bittern-post", POSTS, ACROSS, id="rails across"),
]


@pytest.mark.parametrize(("name", "changes", "mounting"), SYSTEMS)
def test_thirty_modules(
    name: str | None, changes: dict[str, Any], mounting: dict[str, float]
) -> None:
    changes = changes | {"arrays.A1.columns": 5, "arrays.A1.rows": 6, "roof.depth": 600.0}
    inputs = fewest(changes, name, **mounting)
    taken_s(inputs, 30)  # what is read once, and imports
    assert taken_s(inputs, 30) < SLOW * THIRTY_S


@pytest.mark.parametrize(("name", "changes", "mounting"), SYSTEMS)
def test_a_thousand_modules(
    name: str | None, changes: dict[str, Any], mounting: dict[str, float]
) -> None:
    changes = changes | {
        "roof.ridge_length": 2400.0,
        "roof.depth": 1500.0,
        "framing.supports": {EVERY_PLANE: (0.0, 150.0, 300.0, 450.0, 600.0, 750.0)},
    }
    for array in ("A1", "A2"):
        changes |= {f"arrays.{array}.rows": 20, f"arrays.{array}.columns": 25}
    inputs = fewest(changes, name, "gable-40x30-both", **mounting)
    assert taken_s(inputs, 1000) < SLOW * THOUSAND_S
