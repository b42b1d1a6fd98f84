"""The committed symbols: what a firm gets before it changes any."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from planset.design.electrical.topology import Kind
from planset.drawing.geometry import Point
from planset.drawing.primitives import Circle, Line, Polyline, Primitive, Text
from planset.drawing.symbols import Symbol
from planset.drawing.text import MINIMUM_HEIGHT
from planset.formats.dxf_read import read_symbols
from planset.sheets.one_line.kinds import SYMBOLS

FOLDER = Path(__file__).parents[1] / "symbols"
GRID = 0.05  # terminals lie on it, so conductors run straight [in]

ONE_LINE = (
    "PV_STRING",
    "MICROINVERTER_BRANCH",
    "SHUTDOWN_DEVICE",
    "DC_CONVERTER",
    "JUNCTION_BOX",
    "INVERTER",
    "DISCONNECT_SWITCH",
    "FUSED_DISCONNECT",
    "FUSE",
    "CIRCUIT_BREAKER",
    "MAIN_LUGS",
    "METER",
    "PRODUCTION_METER",
    "UTILITY",
    "BATTERY",
    "LOADS",
    "TAP",
    "CURRENT_SENSOR",
    "BUS",
    "CONTINUATION",
    "GROUND",
    "CHASSIS_GROUND",
    "GROUNDING_ELECTRODE",
    "NEUTRAL_BAR",
    "CONTACT_OPENS",
    "CONTACT_CLOSES",
    "BUTTON_OPENS",
    "BUTTON_CLOSES",
)
ON_GROUND = ("GROUND", "CHASSIS_GROUND", "GROUNDING_ELECTRODE", "NEUTRAL_BAR")
BONDED = (
    "PV_STRING",
    "MICROINVERTER_BRANCH",
    "JUNCTION_BOX",
    "INVERTER",
    "DISCONNECT_SWITCH",
    "FUSED_DISCONNECT",
    "PRODUCTION_METER",
    "BATTERY",
)
SMALL = ("TAP",)
PLAN = ("NORTH_ARROW", "SLOPE_ARROW", "VIEW_BUBBLE")


@cache
def family(name: str) -> dict[str, Symbol]:
    return read_symbols(FOLDER / f"{name}.dxf")


def on_grid(at: Point) -> bool:
    return all(abs(value - round(value / GRID) * GRID) < 1e-9 for value in at)


def test_the_families_hold_what_the_sheets_use() -> None:
    assert tuple(family("one_line")) == ONE_LINE
    assert tuple(family("plan")) == PLAN


@pytest.mark.parametrize("name", ONE_LINE)
def test_a_diagram_symbol_connects_at_its_edge_and_on_the_grid(name: str) -> None:
    symbol = family("one_line")[name]
    assert symbol.terminals
    box = symbol.box
    edge = {"W": (0, box.x0), "E": (0, box.x1), "N": (1, box.y1), "S": (1, box.y0)}
    for side, at in symbol.terminals.items():
        axis, value = edge[side[0]]
        assert at[axis] == pytest.approx(value, abs=1e-6)
        assert on_grid(at) or name == "BUS"  # a bar is as wide as its pen


@pytest.mark.parametrize("name", [name for name in ONE_LINE if name not in ON_GROUND])
def test_a_device_in_line_lets_the_conductor_run_straight(name: str) -> None:
    terminals = family("one_line")[name].terminals
    assert terminals["W"][1] == terminals["E"][1] == 0


@pytest.mark.parametrize("name", BONDED)
def test_an_enclosure_has_a_place_for_its_bonding_conductor(name: str) -> None:
    symbol = family("one_line")[name]
    assert symbol.terminals["S"][1] == pytest.approx(symbol.box.y0)


def test_every_kind_of_equipment_has_a_symbol() -> None:
    assert set(SYMBOLS) == set(Kind)
    assert set(SYMBOLS.values()) <= set(ONE_LINE)


@pytest.mark.parametrize("name", ONE_LINE)
def test_a_diagram_symbol_has_a_readable_size_and_carries_its_data(name: str) -> None:
    symbol = family("one_line")[name]
    least = 0.1 if name in SMALL else 0.3
    assert least <= max(symbol.box.width, symbol.box.height) <= 0.9
    assert symbol.block.attribute_tags == ("ID", "TAG", "RATING")
    assert symbol.block.description


@pytest.mark.parametrize(
    ("group", "name"), [("one_line", n) for n in ONE_LINE] + [("plan", n) for n in PLAN]
)
def test_a_symbol_takes_the_pen_of_its_insertion_and_is_legible(group: str, name: str) -> None:
    parts: tuple[Primitive, ...] = family(group)[name].block.primitives
    assert {getattr(part, "layer", "") for part in parts} == {"0"}
    for part in parts:
        if isinstance(part, Text):
            assert part.height >= MINIMUM_HEIGHT


def test_the_slope_arrow_points_along_x() -> None:
    symbol = family("plan")["SLOPE_ARROW"]
    assert (symbol.box.x0, symbol.box.x1) == (-0.25, 0.25)
    heads = [part for part in symbol.block.primitives if hasattr(part, "points")]
    (head,) = heads
    assert max(point[0] for point in head.points) == 0.25
    assert min(point[0] for point in head.points) > 0


def test_the_north_arrow_has_its_letter_above_it() -> None:
    symbol = family("plan")["NORTH_ARROW"]
    (letter,) = [part for part in symbol.block.primitives if isinstance(part, Text)]
    assert letter.text == "N"
    assert letter.at[1] > symbol.box.y1
    assert letter.at[0] == symbol.box.center[0]


def test_the_view_bubble_is_half_an_inch_and_cut_in_two() -> None:
    symbol = family("plan")["VIEW_BUBBLE"]
    assert symbol.box.width == symbol.box.height == 0.5
    assert symbol.block.attribute_tags == ("NUMBER", "SHEET")


def test_the_fuse_of_a_disconnect_is_dead_when_it_is_open() -> None:
    """The way onward, toward the utility, leaves at the right (NEC 240.40)."""
    symbol = family("one_line")["FUSED_DISCONNECT"]
    contacts = [part.center[0] for part in symbol.block.primitives if isinstance(part, Circle)]
    fuse = [
        point[0]
        for part in symbol.block.primitives
        if isinstance(part, Polyline) and not part.closed
        for point in part.points
    ]
    blade = [
        part
        for part in symbol.block.primitives
        if isinstance(part, Line) and part.a[1] != part.b[1]
    ]
    assert max(fuse) < min(contacts)
    (lever,) = blade
    hinge = min((lever.a, lever.b), key=lambda end: end[1])
    assert abs(hinge[0] - min(contacts)) < abs(hinge[0] - max(contacts))
