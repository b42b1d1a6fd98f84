"""Electrical things on the roof, each drawn once as a block in plan at true size."""

from __future__ import annotations

from collections.abc import Iterator

from planset.design.design import Design
from planset.design.electrical.boxes import BOX_SIZE_IN, placed_boxes
from planset.design.electrical.home_course import circuit_point
from planset.design.electrical.home_runs import home_runs
from planset.design.electrical.module_devices import circuit_modules, modules_with_device
from planset.design.electrical.routes import RoofRoute, roof_routes
from planset.design.layout import PlacedArray, PlacedModule
from planset.design.once import once
from planset.drawing.geometry import Box, Point
from planset.drawing.layers import INHERITED, OWN_LAYERS
from planset.drawing.primitives import (
    Area,
    Attribute,
    Block,
    Circle,
    Insert,
    Line,
    Polyline,
    Primitive,
)
from planset.roof.plane import Plane
from planset.sheets.block_names import numbered_names
from planset.sheets.electrical_paths import Bundle, circuit_course
from planset.sheets.plan_turn import plane_rotation_deg
from planset.sheets.wiring_blocks import wiring_block, wiring_blocks

CIRCUITS = "CIRCUITS"
HOME_RUNS = "HOME-RUNS"
DEVICES = "MODULE-DEVICES"
RACEWAYS = "RACEWAYS"
BOXES = "JUNCTION-BOXES"

_DEVICE_IN = 7.0  # side of the mark of a device; devices have no size in the catalog
_POINT_IN = 1.6  # radius of the mark of a module without one


def on_roof(tag: str) -> str:
    """Identity of a thing where it stands on the roof; on the diagram it is its tag."""
    return f"{tag}-ROOF"


def route_block(route: RoofRoute) -> str:
    """Name of the block of a raceway on the roof."""
    box = f"-{route.box}" if route.box else ""
    return f"RACEWAY-{route.run.upper()}{box}-{route.place + 1}"


@once
def electrical_blocks(design: Design) -> tuple[Block, ...]:
    """All of them, and the small blocks they insert."""
    return (
        *_device_symbols(design),
        Block("MODULE-POINT", (Circle((0.0, 0.0), _POINT_IN, INHERITED),), "Module of a circuit"),
        *box_blocks(design),
        Block(CIRCUITS, tuple(_circuits(design)), "Strings and branches, module to module"),
        Block(HOME_RUNS, tuple(_home_runs(design)), "Array conductors to junction boxes"),
        Block(DEVICES, tuple(_devices(design)), "Devices under modules"),
        *(_route(route) for route in roof_routes(design.inputs, design.roof)),
        Block(RACEWAYS, tuple(_raceways(design)), "Raceways on the roof"),
        *wiring_blocks(design),
    )


@once
def box_blocks(design: Design) -> tuple[Block, ...]:
    """One junction box, and all of them where they stand."""
    return (_box(), Block(BOXES, tuple(_boxes(design)), "Junction boxes"))


def shown(design: Design) -> tuple[Insert, ...]:
    """Insertions of all that the plan shows of them; a block without anything is left out."""
    layers = {
        **{wiring_block(array.id): OWN_LAYERS for array in design.arrays},
        CIRCUITS: "E-SOLR-CIRC",
        HOME_RUNS: "E-SOLR-HOME",
        DEVICES: "E-SOLR-DEVC",
        RACEWAYS: "E-POWR-CNDT",
        BOXES: "E-POWR-EQPM",
    }
    filled = {block.name for block in electrical_blocks(design) if block.primitives}
    return tuple(
        Insert(name, (0.0, 0.0), layer) for name, layer in layers.items() if name in filled
    )


def _device_names(design: Design) -> dict[str, str]:
    """The block of each model of device in the job."""
    models = (device.model for device in modules_with_device(design).values())
    return numbered_names("MODULE-DEVICE", models)


def _device_symbols(design: Design) -> Iterator[Block]:
    square = Area(Box(0.0, 0.0, 0.0, 0.0).grown(_DEVICE_IN / 2).corners, INHERITED)
    for model, name in _device_names(design).items():
        told = (Attribute("MODEL", model),)
        yield Block(name, (square,), "Device under modules", constants=told)


def _box() -> Block:
    corners = Box(0.0, 0.0, 0.0, 0.0).grown(BOX_SIZE_IN / 2).corners
    a, b, c, d = corners
    drawn = (
        Polyline(corners, INHERITED, closed=True),
        Line(a, c, INHERITED),
        Line(b, d, INHERITED),
    )
    return Block("JUNCTION-BOX", drawn, "Junction box", ("TAG",))


def _placed(design: Design) -> dict[str, tuple[PlacedArray, PlacedModule]]:
    return {m.id: (array, m) for array in design.arrays for m in array.modules}


def _circuits(design: Design) -> Iterator[Primitive]:
    placed, devices = _placed(design), modules_with_device(design)
    for _, tags in circuit_modules(design):
        for array, modules in _by_array([placed[tag] for tag in tags]):
            course = tuple(map(array.plane.to_plan, circuit_course(modules)))
            if len(course) > 1:
                yield Polyline(course, INHERITED)
        for tag in tags:
            if tag not in devices:
                array, module = placed[tag]
                at = array.plane.to_plan(circuit_point(module))
                yield Insert("MODULE-POINT", at, INHERITED)


def _by_array(
    modules: list[tuple[PlacedArray, PlacedModule]],
) -> Iterator[tuple[PlacedArray, tuple[PlacedModule, ...]]]:
    """The modules of a circuit, array by array."""
    for array in dict.fromkeys(array.id for array, _ in modules):
        of_one = [(a, m) for a, m in modules if a.id == array]
        yield of_one[0][0], tuple(module for _, module in of_one)


def _devices(design: Design) -> Iterator[Primitive]:
    placed, names = _placed(design), _device_names(design)
    for tag, device in modules_with_device(design).items():
        array, module = placed[tag]
        yield Insert(
            names[device.model],
            array.plane.to_plan(circuit_point(module)),
            INHERITED,
            plane_rotation_deg(array.plane),
            identity=f"DEVICE-{tag}",
        )


def _home_runs(design: Design) -> Iterator[Primitive]:
    """Each piece once; a box on another plane is reached straight from a corner of the array."""
    bundles = {plane.id: Bundle() for plane in design.roof.planes}
    crossing: dict[tuple[Point, Point], None] = {}
    for run in home_runs(design):
        plane = run.array.plane
        for a, b in bundles[plane.id].added(run.course):
            yield Line(plane.to_plan(a), plane.to_plan(b), INHERITED)
        if run.box.plane is not plane:
            crossing[plane.to_plan(run.course[-1]), run.box.plane.to_plan(run.box.at)] = None
    yield from (Line(a, b, INHERITED) for a, b in crossing)


def _route(route: RoofRoute) -> Block:
    course = tuple(map(route.plane.to_plan, route.points))
    return Block(route_block(route), (Polyline(course, INHERITED),), f"Raceway of run {route.name}")


def _raceways(design: Design) -> Iterator[Primitive]:
    for route in roof_routes(design.inputs, design.roof):
        name = route_block(route)
        yield Insert(name, (0.0, 0.0), INHERITED, identity=name)


def _boxes(design: Design) -> Iterator[Primitive]:
    for box in placed_boxes(design):
        yield _standing("JUNCTION-BOX", box.plane, box.at, box.id)


def _standing(block: str, plane: Plane, at: Point, tag: str) -> Insert:
    return Insert(
        block,
        plane.to_plan(at),
        INHERITED,
        plane_rotation_deg(plane),
        attributes=(Attribute("TAG", tag),),
        identity=on_roof(tag),
    )
