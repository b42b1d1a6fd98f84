"""Jobs on roofs of every shape and size, turned any way, with arrays and obstructions on them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from hypothesis import strategies as st
from pydantic import TypeAdapter
from shapely import box
from shapely.geometry.base import BaseGeometry

from planset.job.other_buildings import OtherBuilding
from planset.job.roof import Roof
from planset.job.solid import roof_solid
from planset.roof.free import OVERLAP_SQIN, overlap_sqin
from planset.roof.plane import Plane
from planset.roof.shapes import RoofShapeError
from planset.roof.solid import Roof as RoofSolid
from planset.source import read_yaml
from tests.example_job import EXAMPLE
from tests.sheets.roof_jobs import MEMBRANE, SHINGLE, wire

MODULE = (67.8, 44.6)  # long and short edge of the example's module [in]
GAP = 0.5
EDGE = 20.0  # kept free along every edge of a plane [in]
CELL = 48.0  # an obstruction stands somewhere in a cell of its own, so that none meet [in]
MOST_MODULES = 200
MOST_IN_ALL = 150  # with several arrays, as E-601 shows their strings
LONGEST_NAME = 56  # that two lines of the title block's fields hold at 3/32 in
SHEETS = (
    "G-001", "G-002", "C-101", "A-101", "S-101", "S-501", "S-601",
    "E-101", "E-601", "E-602", "E-701", "Z-101", "Z-601",
)  # fmt: skip
MOUNTED = ("S-101", "S-501", "S-601")
"""Those without use where the mounting is by others."""
SHAPES = ("gable", "hip", "pyramid", "shed", "flat")

_WORDS = ("Tallow", "Creek", "Netmaker", "Gullwing", "Harbormaster", "Residence", "Foundation")
_KINDS = (
    "plumbing_vent", "attic_vent", "flue", "chimney", "skylight", "mast", "roof_hatch",
    "smoke_vent", "standpipe", "roof_drain", "mechanical_unit", "other",
)  # fmt: skip
_ROUND = ("plumbing_vent", "flue", "mast", "standpipe", "roof_drain")
_SIDES = ("front", "back", "left", "right")
_EIGHTHS = st.integers(0, 8).map(lambda eighth: eighth / 8)

Job = dict[str, Any]


@dataclass
class Ground:
    """A plane and what is left free of it, on its surface."""

    plane: Plane
    free: BaseGeometry


@st.composite
def jobs(draw: st.DrawFn) -> Job:
    """The example with another roof, arrays, obstructions, openings and names."""
    job: Job = read_yaml(EXAMPLE).data
    covering = job["roof"]["covering"]
    job["roof"] = draw(roofs(covering))
    if draw(st.integers(0, 4)) == 0:
        job["other_buildings"] = [draw(garages(job["roof"]))]
    solid = solid_of(job)
    if solid is None:
        job.pop("other_buildings")
        solid = solid_of(job)
    assert solid is not None
    grounds = [Ground(p, p.surface_polygon.buffer(-EDGE, join_style="mitre")) for p in solid.planes]
    mounted = job["roof"]["covering"] == covering
    job["arrays"] = _arrays(draw, job["arrays"][0], grounds, mounted=mounted)
    if not mounted:
        job["framing"] = "by_others"
        job["drafting"]["sheets"] = [one for one in SHEETS if one not in MOUNTED]
    else:
        job["drafting"]["sheets"] = [*SHEETS]
    wire(job)
    job["obstructions"] = _obstructions(draw, grounds)
    sides = st.lists(st.sampled_from(_SIDES), min_size=1, max_size=2, unique=True)
    job["site"]["street_sides"] = sorted(draw(sides))
    job["site_plan"] |= draw(lots(job, solid))
    if draw(st.booleans()):
        job["site"]["driveway_sides"] = sorted(draw(sides))
    job["building"] |= _openings(draw, solid)
    _name(draw, job)
    return job


@st.composite
def roofs(draw: st.DrawFn, tile: Job) -> Job:
    """A roof of any shape that can be built, under tiles, shingles or a membrane."""
    shape = draw(st.sampled_from(SHAPES))
    roof: Job = {
        "shape": shape,
        "front_azimuth": draw(st.integers(0, 359)),
        "eave_overhang": draw(st.sampled_from((0, 12, 18))),
        "rake_overhang": draw(st.sampled_from((0, 12))),
        "layers": 1,
        "covering": draw(st.sampled_from((tile, SHINGLE))),
    }
    length = 12 * draw(st.integers(min_value=20, max_value=100))
    depth = 12 * draw(st.integers(min_value=18, max_value=50))
    rise = draw(st.integers(min_value=3, max_value=12))
    if shape == "pyramid":
        return roof | {"width": max(depth, 276), "pitch": f"{rise}:12"}
    if shape == "flat":
        parapet = draw(st.sampled_from(("none", {"height": 24, "thickness": 8})))
        flat = {"length": length, "depth": depth, "pitch": "0.25:12", "parapet": parapet}
        return roof | flat | {"covering": MEMBRANE}
    roof |= {"depth": depth, "pitch": f"{rise}:12"}
    roof["ridge_length" if shape == "gable" else "length"] = length
    if shape == "hip":
        roof["length"] = max(length, depth)
        roof["depth"] = max(depth, 276)
        roof["length"] = max(roof["length"], roof["depth"])
    if shape in ("gable", "hip") and draw(st.booleans()):
        with_parts = roof | draw(parts(length, depth, rise))
        if _buildable(with_parts):
            return with_parts
    return roof


@st.composite
def parts(draw: st.DrawFn, length: int, depth: int, rise: int) -> Job:
    """One or two wings, or dormers, of which the roof may still say that they do not fit."""
    if draw(st.booleans()):
        sides = draw(st.lists(st.sampled_from(("front", "back")), min_size=1, max_size=2))
        wings = [
            {
                "id": f"w{n}",
                "side": side,
                "from_left": int(length * (0.05 + 0.5 * n) / 12) * 12,
                "width": draw(st.integers(10, max(10, min(length // 30, depth // 14)))) * 12,
                "projection": draw(st.integers(4, 14)) * 12,
                "pitch": f"{rise}:12",
                "end": draw(st.sampled_from(("gable", "hip"))),
                "eave_above": 0,
            }
            for n, side in enumerate(dict.fromkeys(sides))
        ]
        return {"wings": wings}
    count, setback = draw(st.integers(1, 2)), 12 * draw(st.integers(2, 5))
    dormers = [
        {
            "id": f"d{n}",
            "kind": "gable",
            "side": "front",
            "from_left": int(length * (0.15 + 0.45 * n) / 12) * 12,
            "width": 12 * draw(st.integers(6, 9)),
            "setback": setback,
            "eave_above": int(setback * rise / 12) + 30,
            "pitch": f"{min(rise, 6)}:12",
        }
        for n in range(count)
    ]
    return {"dormers": dormers}


@st.composite
def garages(draw: st.DrawFn, roof: Job) -> Job:
    """A detached garage to the right of the house, turned a little."""
    length = roof.get("ridge_length", roof.get("length", roof.get("width")))
    turned = (roof["front_azimuth"] + draw(st.sampled_from((0, 30, 90, 345)))) % 360
    own = {
        "shape": "gable",
        "ridge_length": 12 * draw(st.integers(20, 26)),
        "depth": 12 * draw(st.integers(20, 24)),
        "pitch": "4:12",
        "front_azimuth": turned,
        "eave_overhang": 12,
        "rake_overhang": 12,
        "layers": 1,
        "covering": SHINGLE,
    }
    at = {"right": length + 12 * draw(st.integers(8, 30)), "back": 12 * draw(st.integers(-10, 20))}
    return {
        "id": "garage",
        "use": "detached_garage",
        "at": at,
        "eave_above": -12,
        "roof": own,
    }


@st.composite
def lots(draw: st.DrawFn, job: Job, solid: RoofSolid) -> Job:
    """A lot around all buildings with room of any width on each side, and what lies on it."""
    corners = [plane.to_plan(corner) for plane in solid.planes for corner in plane.surface_outline]
    rooms = {side: 12 * draw(st.integers(6, 60)) for side in _SIDES}
    x0, x1 = (edge(x for x, _ in corners) for edge in (min, max))
    y0, y1 = (edge(y for _, y in corners) for edge in (min, max))
    left, right = int(x0) - rooms["left"], int(x1) + rooms["right"]
    front, back = int(y0) - rooms["front"], int(y1) + rooms["back"]
    skew = 12 * draw(st.integers(0, 3))
    ring = ((left, front), (right, front), (right - skew, back), (left, back + skew))
    uses = ("front", "side", "rear", "side")
    lot = [
        {"at": {"right": x, "back": y}, "line": use, "setback": draw(st.sampled_from((0, 60)))}
        for (x, y), use in zip(ring, uses, strict=True)
    ]
    walk, way = front - 108, draw(st.integers(int(x0), int(x1) - 120))
    drive = ((way, walk), (way + 108, walk), (way + 108, y0), (way, y0))
    made: Job = {
        "lot": lot,
        "streets": [{"name": "Alder Bend", "side": s} for s in job["site"]["street_sides"]],
        "driveway": [{"corners": [{"right": x, "back": int(y)} for x, y in drive]}],
        "access_walk": [{"right": way + 54, "back": y} for y in (walk, int(y0) - 24)],
        "structures": [],
    }
    if rooms["back"] > 240:
        shed = ((left + 72, back - 144), (left + 192, back - 144), (left + 192, back - 48))
        ring = (*shed, (left + 72, back - 48))
        at = [{"right": x, "back": y} for x, y in ring]
        made["structures"] = [{"id": "SHED", "words": "existing garden shed", "corners": at}]
    return made


_ROOFS: TypeAdapter[Roof] = TypeAdapter(Roof)
_OTHERS: TypeAdapter[tuple[OtherBuilding, ...]] = TypeAdapter(tuple[OtherBuilding, ...])


def _buildable(roof: Job) -> bool:
    try:
        return bool(_ROOFS.validate_python(roof).solid.planes)
    except (RoofShapeError, ValueError):
        return False


def solid_of(job: Job) -> RoofSolid | None:
    """The roofs of a job, None where they stand in each other."""
    others = _OTHERS.validate_python(tuple(job.get("other_buildings", ())))
    solid = roof_solid(_ROOFS.validate_python(job["roof"]), others)
    apart = all(
        overlap_sqin(solid.planes_of(""), solid.planes_of(other.id)) <= OVERLAP_SQIN
        for other in others
    )
    return solid if apart else None


def _arrays(draw: st.DrawFn, given: Job, grounds: list[Ground], *, mounted: bool) -> list[Job]:
    """One array or a few, each where a plane has room for it."""
    count = draw(st.integers(1, 4))
    most = MOST_MODULES if count == 1 else MOST_IN_ALL // count
    made: list[Job] = []
    by_room = sorted(grounds, key=lambda ground: -ground.free.area)
    first = draw(st.integers(0, 1))
    for ground in (by_room[first:] + by_room[:first]) * 2:
        if len(made) == count:
            break
        item = _array(draw, ground, most)
        if item:
            mounting = given["mounting"] if mounted and not made else "by_others"
            base = {"id": f"A{len(made) + 1}", "module": given["module"], "gap": GAP}
            made.append(base | item | {"mounting": mounting})
    assert made, "some plane has room for a module"
    return made


def _array(draw: st.DrawFn, ground: Ground, most: int) -> Job | None:
    """An array on what is free of a plane, which it takes; None where nothing fits."""
    turn = draw(st.sampled_from(("landscape", "portrait")))
    across, up = MODULE if turn == "landscape" else MODULE[::-1]
    if ground.free.is_empty:
        return None
    x0, y0, x1, y1 = ground.free.bounds
    columns = draw(st.integers(1, max(1, min(most, _count(x1 - x0, across)))))
    rows = draw(st.integers(1, max(1, min(most // columns, _count(y1 - y0, up)))))
    shares = (draw(_EIGHTHS), draw(_EIGHTHS))
    while True:
        width, height = columns * (across + GAP) - GAP, rows * (up + GAP) - GAP
        tried = [shares, (0.5, 0.0), (0.5, 0.5), (0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (1.0, 1.0)]
        for share, level in tried:
            u, v = x0 + share * (x1 - x0 - width), y0 + level * (y1 - y0 - height)
            if u > 0 and v > 0 and ground.free.contains(box(u, v, u + width, v + height)):
                ground.free = ground.free.difference(
                    box(u - EDGE, v - EDGE, u + width + EDGE, v + height + EDGE)
                )
                return _stated(draw, ground.plane.id, turn, rows, columns, (u, v))
        if rows == columns == 1:
            return None
        columns, rows = max(1, columns * 2 // 3), max(1, rows * 2 // 3)


def _stated(
    draw: st.DrawFn,
    plane: str,
    turn: str,
    rows: int,
    columns: int,
    corner: tuple[float, float],
) -> Job:
    cells = [(row, column) for row in range(1, rows + 1) for column in range(1, columns + 1)]
    omitted = draw(st.lists(st.sampled_from(cells), max_size=min(3, len(cells) - 1), unique=True))
    return {
        "plane": plane,
        "orientation": turn,
        "rows": rows,
        "columns": columns,
        "corner": {"along": corner[0], "up": corner[1]},
        "omit": [{"row": row, "column": column} for row, column in omitted],
    }


def _count(room: float, size: float) -> int:
    return int((room + GAP) // (size + GAP))


def _obstructions(draw: st.DrawFn, grounds: list[Ground]) -> list[Job]:
    """Up to 15, each in a cell that no array reaches."""
    cells = []
    for ground in grounds:
        x0, y0, x1, y1 = ground.plane.surface_polygon.bounds
        for n in range(int((x1 - x0) // CELL)):
            for level in range(int((y1 - y0) // CELL)):
                x, y = x0 + n * CELL, y0 + level * CELL
                if ground.free.contains(box(x, y, x + CELL, y + CELL)):
                    cells.append((ground.plane.id, x, y))
    if not cells:
        return []
    chosen = draw(st.lists(st.sampled_from(cells), max_size=15, unique=True))
    return [_obstruction(draw, n, *cell) for n, cell in enumerate(chosen, 1)]


def _obstruction(draw: st.DrawFn, number: int, plane: str, x: float, y: float) -> Job:
    kind = draw(st.sampled_from(_KINDS))
    size = draw(st.integers(2, 24))
    shape = (
        {"diameter": size}
        if kind in _ROUND
        else {"width": size, "height": draw(st.integers(6, 30))}
    )
    return {
        "id": f"OB{number}",
        "kind": kind,
        "plane": plane,
        "center": {"along": x + CELL / 2, "up": y + CELL / 2},
        "clearance": 6,
        **shape,
    }


def _openings(draw: st.DrawFn, solid: RoofSolid) -> Job:
    """Now and then a window or door below the eave of the front, and an escape opening above it."""
    front = solid.planes[0]
    eave = [u for u, v in front.surface_outline if v < 1]
    width = max(eave) - min(eave)
    if width < 240 or draw(st.booleans()):
        return {}
    along = int(width * draw(st.sampled_from((0.3, 0.6))))
    made: Job = {}
    if draw(st.booleans()):
        made["escape_openings_onto_roof"] = [
            {"plane": front.id, "along": along, "up": 0, "width": 36}
        ]
    kind = draw(st.sampled_from(("window", "door")))
    made["openings_below_eaves"] = [
        {"kind": kind, "plane": front.id, "along": along // 2, "width": 36}
    ]
    return made


def _name(draw: st.DrawFn, job: Job) -> None:
    """Names of one word or more, as long as their fields hold."""
    lists = st.lists(st.sampled_from(_WORDS), min_size=1, max_size=6)
    words = lists.map(" ".join).map(lambda name: name[:LONGEST_NAME].strip())
    job["project"] |= {"name": draw(words), "owner": draw(words), "address": draw(words)}
    job["contractor"]["name"] = draw(words)
