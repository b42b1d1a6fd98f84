"""The example's house with other coverings and mountings, for its attachment details."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from planset.design.design import build_design
from planset.formats.dxf_read import read_title_block
from planset.job.load import read_job
from planset.resources import drawings_folder
from planset.rules.run import judge
from planset.sheets.set import build_set
from planset.source import read_yaml
from tests.example_job import EXAMPLE
from tests.sheets.drawn_sets import Made, symbols
from tests.sheets.roof_jobs import SHINGLE

Job = dict[str, Any]

MOUNTINGS = Path(__file__).parents[2] / "planset" / "catalog" / "data" / "mounting"
SEAM = {
    "kind": "standing_seam",
    "material": "steel panel",
    "profile": "FOLDLOCK 150",
    "seam_spacing": "16 in",
    "seam_height": "1-1/2 in",
    "thickness": 0.024,
    "first_seam": "8 in",
}
CLIPS = {"spacing": "24 in", "uplift": "215 lb", "document": "Panel test FP-9, page 3"}
UP = {
    "first_rail_rafter": 3,
    "rail_every": 1,
    "first_attachment": "7 in",
    "attachment_spacing": "42 in",
}
ACROSS = {"rail_inset": "12 in", "first_line": 3, "attach_every": 2}

KINDS: dict[str, tuple[Job | None, Job]] = {
    "hook": (None, {"system": "heron-tile", **UP}),
    "post on tile": (None, {"system": "bittern-post", **ACROSS}),
    "post on shingles": (SHINGLE, {"system": "teal-up", **UP}),
    "tall post on shingles": (SHINGLE, {"system": "bittern-post", **ACROSS}),
    "foot": (SHINGLE, {"system": "plover-shingle", **ACROSS}),
    "clamp": (SEAM, {"system": "dunlin-seam", **ACROSS}),
    "clamp and clips": ({**SEAM, "clips": CLIPS}, {"system": "dunlin-seam", **ACROSS}),
    # the invented systems with their rails the other way
    "hook, rails across": (None, {"system": "other-heron-tile", **ACROSS}),
    "post on tile, rails up": (None, {"system": "other-bittern-post", **UP}),
    "post on shingles, rails across": (SHINGLE, {"system": "other-teal-up", **ACROSS}),
    "foot, rails up": (SHINGLE, {"system": "other-plover-shingle", **UP}),
    "clamp, rails up": (SEAM, {"system": "other-dunlin-seam", **UP}),
}
CLAMPS = {
    "mid": "mid clamp",
    "end": "end clamp",
    "gap": "1/2 in",
    "end_room": "1 in",
    "torque": "-",
}


def job_of(kind: str, member: str = "2x6") -> Job:
    """The example's job with the covering and the mounting of a kind."""
    covering, mounting = KINDS[kind]
    job: Job = read_yaml(EXAMPLE).data
    if covering:
        job["roof"]["covering"] = covering
    job["arrays"][0]["mounting"] = mounting
    job["framing"]["member"] = member
    return job


def of_two_systems() -> Job:
    """Hooks on the front plane, posts on the back one."""
    job = job_of("hook")
    (first,) = job["arrays"]
    first["rows"] = 2
    second = {**first, "id": "A2", "plane": "back", "mounting": KINDS["post on tile"][1]}
    job["arrays"] = [first, second]
    job["obstructions"] = []
    job["electrical"]["strings"] = [
        {"id": "S1", "array": "A1", "modules": 10, "input": 1},
        {"id": "S2", "array": "A2", "modules": 10, "input": 2},
    ]
    return job


def made_of_job(job: Job, size: str = "11x17", sheets: tuple[str, ...] = ("S-501",)) -> Made:
    """Some sheets of a job, on sheets of a size whatever its jurisdiction asks for."""
    job["drafting"]["sheets"] = list(sheets)
    with TemporaryDirectory() as folder:
        path = Path(folder, "job.yaml")
        path.write_text(json.dumps(job), encoding="utf-8")
        _turned_systems(Path(folder, "catalog", "mounting"))
        design = build_design(read_job(path))
    block = read_title_block(drawings_folder("titleblocks") / f"strip-{size}.dxf")
    findings = judge(design)
    drawing = build_set(design, findings, symbols(), block, preliminary=True)
    return Made(design, findings, drawing)


@cache
def detail_of(kind: str, size: str = "11x17", member: str = "2x6") -> Made:
    """The details of a kind."""
    return made_of_job(job_of(kind, member), size)


def _turned_systems(folder: Path) -> None:
    """Every invented system with its rails the other way, clamps for feet."""
    folder.mkdir(parents=True)
    for path in MOUNTINGS.glob("*.yaml"):
        entry: Job = read_yaml(path).data
        up = entry["family"] == "rails_up_the_slope"
        entry["family"] = "rails_across_the_slope" if up else "rails_up_the_slope"
        if up:
            for part in ("foot", "coupling"):
                entry.pop(part, None)
            entry["clamps"] = CLAMPS
        (folder / f"other-{path.name}").write_text(json.dumps(entry), encoding="utf-8")
