"""Jobs on roofs of every shape, to be drawn and looked at."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from planset.source import read_yaml
from tests.example_job import EXAMPLE

Job = dict[str, Any]

SHINGLE = {
    "kind": "asphalt_shingle",
    "material": "asphalt shingle",
    "exposure": "5-5/8 in",
    "thickness": "1/4 in",
}
MEMBRANE = {"kind": "membrane", "material": "single-ply membrane", "thickness": "1 in"}
PER_STRING = 15
MOST_ON_ONE_LINE = 150  # modules that E-601 has room for, whatever the inverter takes
_BESIDE_MODULES = {"module": "tr-402", "gap": 0.5, "mounting": "by_others"}


def array(name: str, plane: str, rows: int, columns: int, corner: tuple[float, float]) -> Job:
    """An array in landscape, its mounting by others."""
    return {
        "id": name,
        "plane": plane,
        "orientation": "landscape",
        "rows": rows,
        "columns": columns,
        "corner": {"along": corner[0], "up": corner[1]},
        **_BESIDE_MODULES,
    }


def strings(arrays: list[Job]) -> list[Job]:
    """As many strings as the arrays take, on the two inputs of the inverter by turns."""
    made: list[Job] = []
    for item in arrays:
        left = item["rows"] * item["columns"] - len(item.get("omit", ()))
        while left:
            size = min(left, PER_STRING)
            made.append({"id": f"S{len(made) + 1}", "array": item["id"], "modules": size})
            made[-1]["input"] = len(made) % 2 + 1
            left -= size
    return made


def wire(job: Job) -> None:
    """Fit the electrical section of the example to the arrays and the roof of a job.

    The box stands at the corner of the first array, and the raceway goes by length, since the
    example's route is of its own roof.
    """
    electrical, arrays = job["electrical"], job["arrays"]
    electrical["strings"] = strings(arrays)
    (box,) = electrical["junction_boxes"]
    box |= {"array": arrays[0]["id"], "at": arrays[0]["corner"]}
    electrical["wiring"]["dc"]["places"][0] = {"place": "roof", "gap": 1, "length": "30 ft"}


def house(roof: Job, arrays: list[Job], **sections: Any) -> Job:
    """A house under asphalt shingles with this roof and these arrays, its framing by others.

    Args:
        roof: What differs from a shingled roof that faces 190 degrees.
        arrays: The arrays.
        sections: Sections of the job that differ from the example's; `site` and `building` are
            added to, as they are there.
    """
    job: Job = read_yaml(EXAMPLE).data
    plain = {
        "front_azimuth": 190,
        "eave_overhang": "18 in",
        "rake_overhang": "12 in",
        "layers": 1,
        "covering": SHINGLE,
    }
    job["roof"] = plain | roof
    job["arrays"] = arrays
    job["framing"] = "by_others"
    job["obstructions"] = []
    total = sum(item["rows"] * item["columns"] for item in arrays)
    one_line = ["E-601"] if total <= MOST_ON_ONE_LINE else []
    job["drafting"]["sheets"] = ["G-001", "A-101", *one_line]
    wire(job)
    for name, section in sections.items():
        job[name] = job[name] | section if name in ("site", "building") else section
    return job


def write(job: Job, folder: Path) -> Path:
    """Write a job to a file of a folder."""
    path = folder / "job.yaml"
    path.write_text(json.dumps(job), encoding="utf-8")
    return path


def _obstruction(name: str, kind: str, plane: str, at: tuple[float, float], **size: float) -> Job:
    center = {"along": at[0], "up": at[1]}
    return {"id": name, "kind": kind, "plane": plane, "center": center, "clearance": 6, **size}


def _hip() -> Job:
    arrays = [
        array("A1", "front", 3, 4, (170, 20)),
        array("A2", "right", 2, 2, (140, 24)),
        array("A3", "left", 2, 2, (130, 24)),
    ]
    arrays[0]["omit"] = [{"row": 3, "column": 1}, {"row": 3, "column": 4}]
    job = house(
        {"shape": "hip", "length": "54'-0\"", "depth": "36'-0\"", "pitch": "6:12"},
        arrays,
        obstructions=[
            _obstruction("V1", "plumbing_vent", "back", (200, 60), diameter=3),
            _obstruction("C1", "chimney", "back", (330, 120), width=28, height=40),
        ],
        site={"street_sides": ["front", "left"], "driveway_sides": ["right"]},
        building={
            "escape_openings_onto_roof": [{"plane": "back", "along": 420, "up": 0, "width": 36}],
            "openings_below_eaves": [
                {"kind": "window", "plane": "front", "along": 120, "width": 48},
                {"kind": "door", "plane": "front", "along": 320, "width": 36},
            ],
        },
    )
    job["site_plan"]["streets"].append({"name": "Alder Court", "side": "left"})
    return job


def _cross_gable() -> Job:
    wing = {"width": "16'-0\"", "pitch": "6:12", "eave_above": 0}
    return house(
        {
            "shape": "gable",
            "ridge_length": "60'-0\"",
            "depth": "32'-0\"",
            "pitch": "6:12",
            "wings": [
                {"id": "w1", "side": "front", "from_left": 48, "projection": 120, "end": "gable"}
                | wing,
                {"id": "w2", "side": "back", "from_left": 120, "projection": 96, "end": "hip"}
                | wing,
            ],
        },
        [
            array("A1", "front", 3, 5, (280, 20)),
            array("A2", "w1-left", 1, 1, (20, 24)),
            array("A3", "back", 3, 3, (400, 30)),
        ],
    )


def _pyramid() -> Job:
    return house(
        {"shape": "pyramid", "width": "38'-0\"", "pitch": "5:12"},
        [array("A1", "front", 2, 3, (130, 20)), array("A2", "right", 2, 3, (130, 20))],
    )


def _shed() -> Job:
    return house(
        {"shape": "shed", "length": "30'-0\"", "depth": "20'-0\"", "pitch": "3:12"},
        [array("A1", "front", 4, 4, (40, 24))],
    )


def _flat() -> Job:
    arrays = [
        array(f"A{n + 1}", "front", 5, 5, (120 + n % 4 * 560, 160 + n // 4 * 640)) for n in range(8)
    ]
    for item in arrays:
        item["row_gap"] = 10
    return house(
        {
            "shape": "flat",
            "length": "200'-0\"",
            "depth": "120'-0\"",
            "pitch": "0.25:12",
            "parapet": {"height": 30, "thickness": 8},
            "eave_overhang": 0,
            "rake_overhang": 0,
            "covering": MEMBRANE,
        },
        arrays,
        obstructions=[
            _obstruction("H1", "roof_hatch", "front", (1200, 560), width=36, height=48),
            _obstruction("D1", "roof_drain", "front", (600, 30), diameter=12),
            _obstruction("M1", "mechanical_unit", "front", (1800, 560), width=80, height=60),
            _obstruction("E1", "smoke_vent", "front", (500, 560), width=48, height=48),
        ],
    )


def _dormers() -> Job:
    dormer = {"width": 108, "setback": 60, "pitch": "6:12", "side": "front"}
    return house(
        {
            "shape": "gable",
            "ridge_length": "56'-0\"",
            "depth": "40'-0\"",
            "pitch": "8:12",
            "dormers": [
                {"id": "d1", "kind": "gable", "from_left": 60, "eave_above": 84} | dormer,
                {"id": "d2", "kind": "gable", "from_left": 500, "eave_above": 84} | dormer,
            ],
        },
        [array("A1", "front", 4, 4, (205, 40)), array("A2", "back", 3, 6, (100, 40))],
        building={
            "escape_openings_onto_roof": [{"plane": "front", "along": 96, "up": 72, "width": 36}]
        },
    )


def _garage() -> Job:
    return house(
        {"shape": "gable", "ridge_length": "48'-0\"", "depth": "30'-0\"", "pitch": "5:12"},
        [array("A1", "front", 3, 6, (80, 20)), array("A2", "garage-front", 2, 3, (30, 20))],
        other_buildings=[
            {
                "id": "garage",
                "use": "detached_garage",
                "at": {"right": 760, "back": -60},
                "eave_above": -12,
                "roof": {
                    "shape": "gable",
                    "ridge_length": "24'-0\"",
                    "depth": "22'-0\"",
                    "pitch": "4:12",
                    "front_azimuth": 160,
                    "eave_overhang": "12 in",
                    "rake_overhang": "12 in",
                    "layers": 1,
                    "covering": SHINGLE,
                },
            }
        ],
        site={"street_sides": ["front"], "driveway_sides": ["right"]},
    )


def _step() -> Job:
    def plane(name: str, ring: list[tuple[float, float]], faces: int, lowest: float) -> Job:
        corners = [{"x": x, "y": y} for x, y in ring]
        return {"id": name, "corners": corners, "pitch": "4:12", "faces": faces, "lowest": lowest}

    return house(
        {
            "shape": "planes",
            "front_azimuth": 180,
            "planes": [
                plane("lower", [(0, 0), (480, 0), (480, 180), (0, 180)], 180, 0),
                plane("upper", [(0, 180), (480, 180), (480, 360), (0, 360)], 180, 96),
                plane("rear", [(0, 360), (480, 360), (480, 540), (0, 540)], 0, 96),
            ],
            "steps": [["lower", "upper"]],
        },
        [array("A1", "upper", 2, 5, (60, 30)), array("A2", "lower", 2, 5, (60, 30))],
    )


ROOFS: dict[str, Job] = {
    "hip with arrays on three planes": _hip(),
    "cross gable with two wings": _cross_gable(),
    "pyramid": _pyramid(),
    "shed": _shed(),
    "flat with eight arrays": _flat(),
    "gable with two dormers": _dormers(),
    "house and turned garage": _garage(),
    "free planes with a step": _step(),
}
