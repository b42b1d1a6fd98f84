"""Roofs whose slopes break: gambrel and jerkinhead, given plane by plane.

Edge case 16 of the fire access study: the real ridge alone binds, a pitch break is none; and its
section 2.8: a pathway runs from the lowest roof edge to the ridge. The gambrel is 40 ft by 30 ft in
plan, at 12:12 for 60 in and at 4:12 for 120 in up to the ridge. The jerkinhead is a gable of the
same size at 6:12, whose ends are clipped above half its height by planes of 12:12.
"""

from __future__ import annotations

import math
from typing import Any

import pytest
from houses import house, roof_of_house

from planset.design.access.pitch_breaks import strips_from_eave
from planset.design.access.strips import ClearStrip
from planset.design.design import Design, build_design
from planset.finding import Finding, Outcome
from planset.job.load import Inputs
from planset.job.obstructions import Obstruction
from planset.job.position import Position
from planset.job.roof import FreeRoof
from planset.roof.plane import Plane
from planset.roof.shapes import Dormer, MainRoof, shaped_roof
from planset.roof.solid import EdgeKind
from planset.rules.run import judge

Corners = list[tuple[float, float]]
UPPER_IN = 120 * math.hypot(1, 1 / 3)
LOWER_IN = 60 * math.sqrt(2)
RIDGE_IN = 180 * math.hypot(1, 0.5)


def plane(name: str, corners: Corners, pitch: str, faces: int, lowest: float) -> dict[str, Any]:
    at = [{"x": x, "y": y} for x, y in corners]
    return {"id": name, "corners": at, "pitch": pitch, "faces": faces, "lowest": lowest}


GAMBREL = [
    plane("front-lower", [(0, 0), (480, 0), (480, 60), (0, 60)], "12:12", 180, 0),
    plane("front-upper", [(0, 60), (480, 60), (480, 180), (0, 180)], "4:12", 180, 60),
    plane("back-upper", [(0, 180), (480, 180), (480, 300), (0, 300)], "4:12", 0, 60),
    plane("back-lower", [(0, 300), (480, 300), (480, 360), (0, 360)], "12:12", 0, 0),
]
JERKINHEAD = [
    plane("front", [(0, 0), (480, 0), (480, 90), (435, 180), (45, 180), (0, 90)], "6:12", 180, 0),
    plane(
        "back", [(0, 270), (45, 180), (435, 180), (480, 270), (480, 360), (0, 360)], "6:12", 0, 0
    ),
    plane("left", [(0, 90), (45, 180), (0, 270)], "12:12", 270, 45),
    plane("right", [(480, 90), (480, 270), (435, 180)], "12:12", 90, 45),
]


def under(planes: list[dict[str, Any]], changes: dict[str, Any] | None = None) -> Inputs:
    """The base house under a roof of these planes, nothing standing on it."""
    covering = house().job.roof.covering.model_dump(exclude_none=True)
    fields = {"shape": "planes", "planes": planes, "front_azimuth": 180, "layers": 1}
    overhangs = {"eave_overhang": 0, "rake_overhang": 0, "covering": covering}
    roof = FreeRoof.model_validate(fields | overhangs, context={"units": "in"})
    return house({"roof": roof, "obstructions": ()} | (changes or {}))


def array_on(name: str, along: float, up: float, rows: int, columns: int = 5) -> dict[str, Any]:
    """Changes that put the array of the house there; a row is 35.625 in, five columns 360 in."""
    return {
        "arrays.A1.plane": name,
        "arrays.A1.rows": rows,
        "arrays.A1.columns": columns,
        "arrays.A1.corner": Position.model_construct(along=along, up=up),
    }


def standing(name: str, kind: str, along: float, up: float, width: float) -> Obstruction:
    fields = {"id": "K", "kind": kind, "plane": name, "width": width, "height": 30}
    more = {"center": {"along": along, "up": up}, "clearance": 6}
    return Obstruction.model_validate(fields | more, context={"units": "in"})


def found(design: Design, rule: str) -> Finding:
    (finding,) = (finding for finding in judge(design) if finding.rule == rule)
    return finding


def strips(design: Design, name: str) -> list[tuple[tuple[str, ...], Any]]:
    return [
        (strip.planes, pytest.approx(strip.width_in)) for strip in design.access.strips_on(name)
    ]


def test_a_gambrel_has_one_ridge_and_two_pitch_breaks() -> None:
    kinds = [edge.kind for edge in roof_of_house(under(GAMBREL)).edges]
    assert kinds.count(EdgeKind.RIDGE) == 1
    assert kinds.count(EdgeKind.PITCH_BREAK) == 2
    assert kinds.count(EdgeKind.EAVE) == 2


def test_only_the_ridge_of_a_gambrel_has_a_setback() -> None:
    design = build_design(under(GAMBREL, array_on("front-lower", 60, 20, 1)))
    assert design.access.ridges == ()  # the array lies below a pitch break
    design = build_design(under(GAMBREL, array_on("front-upper", 60, 20, 2)))
    (ridge,) = design.access.ridges
    assert ridge.clear_in == pytest.approx(UPPER_IN - 20 - 71.75)
    setbacks = {a.plane: a.surface.height for a in design.access_areas if "ridge" in a.kind}
    assert setbacks == {"front-upper": pytest.approx(18), "back-upper": pytest.approx(18)}


def test_a_pathway_on_a_gambrel_runs_from_the_eave_over_the_break_to_the_ridge() -> None:
    design = build_design(under(GAMBREL, array_on("front-upper", 60, 20, 2)))
    both = ("front-upper", "front-lower")
    assert strips(design, "front-upper") == [(both, 60), (both, 60)]
    assert strips(design, "front-lower") == strips(design, "front-upper")
    areas = {a.plane: a.surface for a in design.access_areas if a.kind == "pathway"}
    assert set(areas) == {"front-upper", "front-lower", "back-upper", "back-lower"}
    upper, lower = areas["front-upper"], areas["front-lower"]
    assert (upper.x0, upper.x1) == pytest.approx((lower.x0, lower.x1))
    assert (lower.y0, lower.y1) == pytest.approx((0, LOWER_IN))
    assert (upper.y0, upper.y1) == pytest.approx((0, UPPER_IN))
    assert found(design, "fire.pathway-per-plane").outcome is Outcome.PASS


def test_modules_below_the_break_take_the_pathway_above_it() -> None:
    design = build_design(under(GAMBREL, array_on("front-lower", 60, 20, 1)))
    both = ("front-upper", "front-lower")
    assert strips(design, "front-upper") == [(both, 60), (both, 60)]
    finding = found(design, "fire.pathway-per-plane")
    assert (finding.outcome, finding.measured) == (Outcome.PASS, pytest.approx(60))


def test_strips_above_and_below_the_break_that_do_not_meet_are_no_pathway() -> None:
    # on the upper plane 100 in are clear at the right, where a unit stands on the lower one
    changes = array_on("front-upper", 20, 20, 2)
    unit = standing("front-lower", "mechanical_unit", 420, 40, 100)
    design = build_design(under(GAMBREL, changes | {"obstructions": (unit,)}))
    finding = found(design, "fire.pathway-per-plane")
    assert finding.outcome is Outcome.FAIL
    assert finding.measured == pytest.approx(20)
    alone = build_design(under(GAMBREL, changes))
    assert found(alone, "fire.pathway-per-plane").measured == pytest.approx(100)


def test_two_planes_of_one_slope_are_one_pathway() -> None:
    # existing modules from rake to rake on one half of the back leave pathways on the front alone
    for name in ("back-upper", "back-lower"):
        whole = standing(name, "mechanical_unit", 240, 40, 480)
        changes = array_on("front-upper", 60, 20, 2) | {"obstructions": (whole,)}
        finding = found(build_design(under(GAMBREL, changes)), "fire.pathways-on-building")
        assert (finding.outcome, finding.measured) == (Outcome.FAIL, 0.0), name


def test_a_jerkinhead_has_the_ridge_that_is_left_between_its_clips() -> None:
    roof = roof_of_house(under(JERKINHEAD))
    (ridge,) = (edge for edge in roof.edges if edge.kind is EdgeKind.RIDGE)
    assert ridge.length_in == pytest.approx(480 - 2 * 45)
    assert len([edge for edge in roof.edges if edge.kind is EdgeKind.HIP]) == 4
    assert len([edge for edge in roof.edges if edge.kind is EdgeKind.RAKE]) == 4
    assert roof.plan_area_of("") == pytest.approx(480 * 360)


def test_the_setback_of_a_jerkinhead_is_as_long_as_its_ridge() -> None:
    design = build_design(under(JERKINHEAD, array_on("front", 60, 20, 4)))
    setbacks = {a.plane: a.surface for a in design.access_areas if "ridge" in a.kind}
    assert set(setbacks) == {"front", "back"}
    assert setbacks["front"].width == pytest.approx(390)
    (ridge,) = design.access.ridges
    assert ridge.clear_in == pytest.approx(RIDGE_IN - 20 - 144)


def test_a_pathway_of_a_jerkinhead_ends_at_the_ridge_not_at_a_clip() -> None:
    # at the left 45 of 60 in end at a hip
    design = build_design(under(JERKINHEAD, array_on("front", 60, 20, 4)))
    assert strips(design, "front") == [(("front",), 15), (("front",), 15)]
    finding = found(design, "fire.street-side-pathway")
    assert (finding.outcome, finding.measured) == (Outcome.FAIL, pytest.approx(15))


def test_strips_are_carried_down_only_where_a_plane_falls_from_the_pitch_break() -> None:
    # A dormer's slope meets the left plane of a hip at a pitch break 56 in up, above the dormer;
    # farther out that plane lies lower than the dormer's eave, 44 in up.
    dormer = Dormer("d0", "gable", "front", 72, 72, 24, 44, 0.5)
    roof = shaped_roof(MainRoof("hip", 504, 372, 7 / 12), dormers=(dormer,))
    (edge,) = roof.edges_of("left", EdgeKind.PITCH_BREAK)
    assert set(edge.planes) == {"left", "d0-left"}
    asked: list[str] = []

    def clear_on(plane: Plane) -> list[ClearStrip]:
        asked.append(plane.id)
        return []

    assert strips_from_eave(roof, roof.plane("left"), clear_on) == []
    assert sorted(asked) == ["d0-left", "left"]
