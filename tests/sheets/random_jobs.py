"""Jobs of gable roofs of any size, turned any way, with arrays and obstructions on their planes."""

from __future__ import annotations

import json
import math
from itertools import product
from pathlib import Path
from typing import Any

from hypothesis import strategies as st

from planset.source import read_yaml
from tests.example_job import EXAMPLE

MODULE = (67.8, 44.6)  # long and short edge of the example's module [in]
GAP = 0.5
EDGE = 20.0  # kept free along every edge of a plane [in]
CELL = 48.0  # an obstruction stands somewhere in a cell of its own, so that none meet [in]
MOST_MODULES = 200
PER_STRING = 15
LONGEST_NAME = 56  # that two lines of the title block's fields hold at 3/32 in
PLANES = ("front", "back")

_WORDS = ("Tallow", "Creek", "Netmaker", "Gullwing", "Harbormaster", "Residence", "Foundation")
_KINDS = ("plumbing_vent", "attic_vent", "flue", "chimney", "skylight", "mast")

Job = dict[str, Any]
Rectangle = tuple[float, float, float, float]


@st.composite
def jobs(draw: st.DrawFn) -> Job:
    """The example with another roof, array, obstructions and names."""
    job: Job = read_yaml(EXAMPLE).data
    length = 12 * draw(st.integers(min_value=20, max_value=100))
    depth = 12 * draw(st.integers(min_value=16, max_value=50))
    rise = draw(st.integers(min_value=3, max_value=12))
    job["roof"] |= {
        "ridge_length": length,
        "depth": depth,
        "pitch": f"{rise}:12",
        "front_azimuth": draw(st.integers(0, 359)),
    }
    slope = depth / 2 * math.hypot(rise, 12) / 12
    plane = draw(st.sampled_from(PLANES))
    array, taken = _array(draw, plane, float(length), slope)
    job["arrays"][0] |= array
    job["electrical"]["strings"] = _strings(array["rows"] * array["columns"])
    job["obstructions"] = _obstructions(draw, float(length), slope, plane, taken)
    job["site"]["street_sides"] = draw(
        st.lists(st.sampled_from(PLANES), min_size=1, unique=True).map(sorted)
    )
    _name(draw, job)
    return job


def write(job: Job, folder: Path) -> Path:
    """Write a job to a file of a folder."""
    path = folder / "job.yaml"
    path.write_text(json.dumps(job), encoding="utf-8")
    return path


def _array(draw: st.DrawFn, plane: str, length: float, slope: float) -> tuple[Job, Rectangle]:
    """An array that fits the plane, and the rectangle it takes."""
    turns = {"landscape": MODULE, "portrait": MODULE[::-1]}
    room = (length - 2 * EDGE, slope - 2 * EDGE)
    fitting = [turn for turn, size in turns.items() if size[0] <= room[0] and size[1] <= room[1]]
    turn = draw(st.sampled_from(fitting))
    across, up = turns[turn]
    columns = draw(st.integers(1, min(MOST_MODULES, _count(room[0], across))))
    rows = draw(st.integers(1, min(MOST_MODULES // columns, _count(room[1], up))))
    width, height = columns * (across + GAP) - GAP, rows * (up + GAP) - GAP
    share = st.integers(0, 8).map(lambda eighth: eighth / 8)
    along = EDGE + draw(share) * (room[0] - width)
    low = EDGE + draw(share) * (room[1] - height)
    array = {
        "plane": plane,
        "orientation": turn,
        "rows": rows,
        "columns": columns,
        "corner": {"along": along, "up": low},
    }
    return array, (along, low, along + width, low + height)


def _count(room: float, size: float) -> int:
    return int((room + GAP) // (size + GAP))


def _strings(count: int) -> list[Job]:
    """As many strings as it takes, on the two inputs of the inverter by turns."""
    number = math.ceil(count / PER_STRING)
    sizes = [count // number + (n < count % number) for n in range(number)]
    return [
        {"id": f"S{n}", "array": "A1", "modules": size, "input": n % 2 + 1}
        for n, size in enumerate(sizes, 1)
    ]


def _obstructions(
    draw: st.DrawFn, length: float, slope: float, plane: str, taken: Rectangle
) -> list[Job]:
    """Up to 15, each in a cell that no array reaches."""
    cells = [
        (name, x * CELL, y * CELL)
        for name, x, y in product(PLANES, range(int(length // CELL)), range(int(slope // CELL)))
        if name != plane or not _meet(taken, (x * CELL, y * CELL, (x + 1) * CELL, (y + 1) * CELL))
    ]
    if not cells:
        return []
    chosen = draw(st.lists(st.sampled_from(cells), max_size=15, unique=True))
    return [_obstruction(draw, n, *cell) for n, cell in enumerate(chosen, 1)]


def _obstruction(draw: st.DrawFn, number: int, plane: str, x: float, y: float) -> Job:
    kind = draw(st.sampled_from(_KINDS))
    size = draw(st.integers(2, 24))
    center = {"along": x + CELL / 2, "up": y + CELL / 2}
    shape = (
        {"diameter": size}
        if kind in ("plumbing_vent", "flue", "mast")
        else {"width": size, "height": draw(st.integers(6, 30))}
    )
    return {
        "id": f"OB{number}",
        "kind": kind,
        "plane": plane,
        "center": center,
        "clearance": 6,
        **shape,
    }


def _meet(a: Rectangle, b: Rectangle) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _name(draw: st.DrawFn, job: Job) -> None:
    """Names of one word or more, as long as their fields hold."""
    lists = st.lists(st.sampled_from(_WORDS), min_size=1, max_size=6)
    words = lists.map(" ".join).map(lambda name: name[:LONGEST_NAME].strip())
    job["project"] |= {"name": draw(words), "owner": draw(words), "address": draw(words)}
    job["contractor"]["name"] = draw(words)
