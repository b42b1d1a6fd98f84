"""The example with some of its numbers changed: every quantity of the job and of its catalog."""

from __future__ import annotations

import json
import random
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from planset.catalog.library import PACKAGE_DATA
from planset.source import read_yaml
from planset.units import parse_length

EXAMPLE = Path(__file__).parents[2] / "examples" / "tile-gable" / "job.yaml"
ENTRIES = (
    "inverters/oe-76",
    "jurisdictions/port-larkin",
    "modules/tr-402",
    "mounting/heron-tile",
    "shutdown/rs-1",
)
"""The catalog entries the example names."""

_QUANTITY = re.compile(r"(-?[0-9.]+)( ?(?:mph|psf|F|C|A|V|ft|lb|:12))")
_WORDS = ("project", "contractor", "planset")  # numbers in there compute nothing

Place = tuple[str | int, ...]


@dataclass(frozen=True)
class Mutation:
    """One changed number.

    Attributes:
        file: "job", or a catalog entry as folder/name.
        place: Keys and list positions that lead to it.
        value: What it becomes.
    """

    file: str
    place: Place
    value: object


class Mutator:
    """Makes changed copies of the example; equal seeds make equal copies."""

    def __init__(self, seed: int) -> None:
        """Read the example once."""
        self._random = random.Random(seed)
        self._files: dict[str, Any] = {"job": read_yaml(EXAMPLE).data}
        for entry in ENTRIES:
            self._files[entry] = read_yaml(PACKAGE_DATA / f"{entry}.yaml").data
        self._places = [
            (name, place) for name, data in self._files.items() for place in _quantities(data)
        ]

    def write(self, folder: Path) -> tuple[Path, list[Mutation]]:
        """Write a copy with one to three numbers changed; return its job and the changes."""
        files = json.loads(json.dumps(self._files))
        changed = self._random.sample(self._places, self._random.randint(1, 3))
        mutations = [
            Mutation(file, place, self._other(_at(files[file], place))) for file, place in changed
        ]
        for mutation in mutations:
            _at(files[mutation.file], mutation.place[:-1])[mutation.place[-1]] = mutation.value
        _restring(files["job"])
        for name, data in files.items():
            path = folder / ("job.yaml" if name == "job" else f"catalog/{name}.yaml")
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(json.dumps(data, indent=1), encoding="utf-8")
        return folder / "job.yaml", mutations

    def _other(self, value: object) -> object:
        """Return another value of the same kind, written as a drafter could write it."""
        if isinstance(value, int):
            return self._random.choice([0, 1, 2, 3, 7, 30, value + 1, value * 10])
        if isinstance(value, float):
            return self._number(value)
        assert isinstance(value, str)
        if found := _QUANTITY.fullmatch(value):
            return f"{self._number(float(found[1])):.6f}{found[2]}"
        return f"{self._number(parse_length(value)):.6f} in"

    def _number(self, value: float) -> float:
        choose = self._random
        return choose.choice(
            [
                0.0,
                -value * choose.uniform(0.5, 2),
                value * choose.uniform(0.8, 1.25),
                value * 10 ** choose.uniform(-1, 1),
                value * 10 ** choose.uniform(-4, 4),
                choose.choice([0.001, 1.0, 24.0, 600.0, 12_000.0, 1_000_000.0]),
            ]
        )


def _at(data: Any, place: Place) -> Any:
    for step in place:
        data = data[step]
    return data


def _quantities(data: object, place: Place = ()) -> Iterator[Place]:
    """Yield the place of every number and of every text that is a quantity."""
    if isinstance(data, dict):
        for key, value in data.items():
            if key not in _WORDS:
                yield from _quantities(value, (*place, key))
    elif isinstance(data, list):
        for number, value in enumerate(data):
            yield from _quantities(value, (*place, number))
    elif not isinstance(data, bool) and _is_quantity(data):
        yield place


def _is_quantity(value: object) -> bool:
    if isinstance(value, int | float):
        return True
    if not isinstance(value, str) or _QUANTITY.fullmatch(value):
        return isinstance(value, str)
    try:
        parse_length(value)
    except ValueError:
        return False
    return True


def _restring(job: Any) -> None:
    """Let two strings hold the modules again, so that a changed count can reach the design."""
    (array,), (first, second) = job["arrays"], job["electrical"]["strings"]
    count = array["rows"] * array["columns"]
    first["modules"] = min(first["modules"], max(count - 1, 1))
    second["modules"] = count - first["modules"]
