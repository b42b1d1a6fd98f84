"""The plan of label locations: a box for each piece of equipment, its keys in it, no crossing."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from typing import cast

import pytest
from shapely.geometry import LineString

from planset.codes.nec.labels import labels
from planset.design.electrical.system import ElectricalDesign, PlacedLabel
from planset.design.electrical.topology import Equipment, Kind, Link, Topology
from planset.drawing.fit import ViewTooLargeError
from planset.drawing.geometry import Box, box_around
from planset.drawing.primitives import Line, Polyline, Primitive, Text
from planset.drawing.text import text_box
from planset.sheets.label_plan import label_plan

PIECES = (
    ("S1", Kind.STRING, "", "RSD-S1"),
    ("RSD-S1", Kind.SHUTDOWN, "", "JB1"),
    ("JB1", Kind.JUNCTION_BOX, "", "INV1"),
    ("S2", Kind.STRING, "", "JB2"),
    ("JB2", Kind.JUNCTION_BOX, "", "INV1"),
    ("BAT1", Kind.BATTERY, "", "INV1"),
    ("INV1", Kind.INVERTER, "", "DISC1"),
    ("DISC1", Kind.DISCONNECT, "", "CB1"),
    ("CB1", Kind.BREAKER, "MSP", "MSP-BUS"),
    ("MSP-LOADS", Kind.LOADS, "", "MSP-BUS"),
    ("MSP-BUS", Kind.BUS, "MSP", "MSP-MAIN"),
    ("MSP-MAIN", Kind.MAIN, "MSP", "M1"),
    ("M1", Kind.UTILITY_METER, "", "UTIL"),
    ("UTIL", Kind.UTILITY, "", ""),
)
GOES_ON = {"L1": ("DISC1",), "L2": ("S1", "JB1"), "L3": ("CB1",), "L4": ("MSP",)}


@dataclass(frozen=True)
class System:
    """What the plan reads of a design."""

    topology: Topology
    labels: tuple[PlacedLabel, ...]


def system() -> ElectricalDesign:
    equipment = tuple(Equipment(tag, kind, tag, (), panel=panel) for tag, kind, panel, _ in PIECES)
    links = tuple(Link(tag, end) for tag, _, _, end in PIECES if end)
    label = labels(2020)["pv_disconnect"]
    placed = tuple(
        PlacedLabel(key, "pv_disconnect", label, label.words[0], tags, len(tags), "")
        for key, tags in GOES_ON.items()
    )
    return cast("ElectricalDesign", System(Topology(equipment, (), (), links), placed))


def plan() -> tuple[Primitive, ...]:
    return label_plan(system(), 12.3)[1]


def boxes(parts: tuple[Primitive, ...]) -> dict[str, tuple[Box, str]]:
    """By the first line in it a box, and all its lines."""
    outlines = [box_around(p.points) for p in parts if isinstance(p, Polyline) and p.closed]
    words = [part for part in parts if isinstance(part, Text)]
    found: dict[str, tuple[Box, str]] = {}
    for box in outlines:
        inside = [t.text for t in words if box.contains(text_box(t.text, t.at, t.height, t.align))]
        found[f"{inside[0]} {len(found)}" if inside[0] == "ARRAY" else inside[0]] = (
            box,
            " / ".join(inside),
        )
    return found


def test_keys_stand_at_the_equipment() -> None:
    said = {text for _, text in boxes(plan()).values()}
    assert said == {
        *("UTIL", "M1", "MSP / L4 / CB1: L3", "DISC1 / L1", "INV1", "BAT1"),
        *("JB1 / L2", "ARRAY / S1: L2", "JB2", "ARRAY"),
    }


def test_boxes_stand_apart_inside_the_plan() -> None:
    (width, height), parts = label_plan(system(), 12.3)
    found = [box for box, _ in boxes(parts).values()]
    assert all(Box(0, 0, width, height).contains(box) for box in found)
    assert not any(one.overlaps(other) for one, other in combinations(found, 2))
    assert width <= 12.3


def test_wires_run_square_and_touch_only_where_they_join() -> None:
    wires = [
        (part.a, part.b) if isinstance(part, Line) else part.points
        for part in plan()
        if isinstance(part, Line) or (isinstance(part, Polyline) and not part.closed)
    ]
    assert len(wires) == len(boxes(plan())) - 1
    for wire in wires:
        assert all(a[0] == b[0] or a[1] == b[1] for a, b in zip(wire, wire[1:], strict=False))
    for one, other in combinations(wires, 2):
        shared = LineString(one).intersection(LineString(other))
        assert shared.is_empty or one[-1] == other[-1]


def test_a_row_too_long_for_the_sheet_is_told() -> None:
    with pytest.raises(ViewTooLargeError, match="7 pieces in a row"):
        label_plan(system(), 5.0)
