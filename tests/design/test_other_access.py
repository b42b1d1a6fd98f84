"""Access on roofs of buildings other than dwellings, with arrays really placed.

"Case n" is a row of the check cases in section 7 of the fire access study, worked there from the
text of IFC 2018 1204.3 and IFC 2015 605.11.1.3. The base is a flat roof of 200 ft by 120 ft.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from houses import base, house
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon

from planset.citation import read_edition
from planset.design.access.other.geometry import OtherRoofAccess, PlaneAccess
from planset.design.access.other.lanes import Lane, gaps, part, spans
from planset.design.design import Design, build_design
from planset.drawing.geometry import Box
from planset.finding import Outcome, worst
from planset.job.arrays import Cell
from planset.job.roof import Parapet
from planset.rules.registry import RULES
from planset.rules.run import judge_by

FT = 12.0
OURS = [r for r in RULES if r.concerns == "other buildings" and r.subject == "fire access"]
TOUCH = 1e-3


def designed(changes: dict[str, Any], edition: str = "IFC 2018") -> Design:
    inputs = house(changes, "flat-200x120")
    adopted = read_edition(edition)
    fire = inputs.jurisdiction.codes.fire.model_copy(
        update={"code": adopted.document, "edition": adopted.year}
    )
    codes = inputs.jurisdiction.codes.model_copy(update={"fire": fire})
    town = inputs.jurisdiction.model_copy(update={"codes": codes})
    return build_design(replace(inputs, jurisdiction=town))


def found(design: Design) -> PlaneAccess:
    assert isinstance(design.other_access, OtherRoofAccess)
    (plane,) = design.other_access.planes
    return plane


def outcome(design: Design, rule_id: str) -> Outcome:
    (rule,) = (rule for rule in OURS if rule.id == rule_id)
    return worst(judge_by(rule, design))


def grid(
    array: str, corner: tuple[float, float], rows: int, columns: int, omit: set[tuple[int, int]]
) -> dict[str, Any]:
    return {
        f"arrays.{array}.rows": rows,
        f"arrays.{array}.columns": columns,
        f"arrays.{array}.corner.along": corner[0],
        f"arrays.{array}.corner.up": corner[1],
        f"arrays.{array}.omit": tuple(Cell(row=r, column=c) for r, c in sorted(omit)),
    }


def net_sqft(design: Design) -> float:
    return sum(array.surface_area_sqin for array in design.arrays) / FT**2


@pytest.mark.parametrize(
    ("length_ft", "depth_ft", "edition", "required_ft"),
    [
        (300, 200, "IFC 2018", 4),  # case 18
        (300, 200, "NFPA 1 2018", 6),
        (251, 251, "IFC 2018", 6),  # case 30
        (250, 400, "IFC 2018", 4),
        (251, 251, "NFPA 1 2018", 6),
        (250, 400, "NFPA 1 2018", 6),
    ],
)
def test_cases_18_and_30_perimeter(
    length_ft: float, depth_ft: float, edition: str, required_ft: float
) -> None:
    design = designed({"roof.length": length_ft * FT, "roof.depth": depth_ft * FT}, edition)
    plane = found(design)
    assert plane.axes_in == pytest.approx((length_ft * FT, depth_ft * FT))
    assert plane.perimeter_in == required_ft * FT
    strips = [area for area in design.access_areas if area.kind == "perimeter"]
    assert [area.required_in for area in strips] == [required_ft * FT] * 4
    ring = length_ft * depth_ft - (length_ft - 2 * required_ft) * (depth_ft - 2 * required_ft)
    assert sum(Polygon(area.outline).area for area in strips) / FT**2 == pytest.approx(ring)


def test_case_19_two_sections_and_a_lane_of_8_ft() -> None:
    design = designed(
        {"module.width": 92.0, "module.height": 84.0}
        | grid("A1", (48, 48), 16, 12, set())
        | grid("A2", (1248, 48), 16, 12, set())
    )
    plane = found(design)
    assert net_sqft(design) == pytest.approx(20_608)
    assert [(s.width / FT, s.height / FT) for s in plane.sections] == [(92, 112), (92, 112)]
    (lane,) = plane.lanes
    assert (lane.option, lane.width_in, lane.lane.length_in) == ("A", 96, 112 * FT)
    assert outcome(design, "fire.other-smoke-ventilation") is Outcome.TIGHT
    assert outcome(design, "fire.other-perimeter") is Outcome.TIGHT  # 4 ft exactly


CUT_ROWS = (1, 6, 11, 16, 21, 26)
"""Rows of 48 in at which a cut-out of two rows starts: every 20 ft."""


def with_cut_outs(rows: tuple[int, ...]) -> Design:
    """Case 20: modules of 24 in by 48 in, two columns and two rows of which are a cut-out."""
    left, right = set(), set()
    for number, row in enumerate(rows):
        side, columns = (left, (46, 47)) if number % 2 == 0 else (right, (1, 2))
        side |= {(r, c) for r in (row, row + 1) for c in columns}
    return designed(
        {
            "module.width": 48.0,
            "module.height": 24.0,
            "arrays.A1.orientation": "portrait",
            "arrays.A2.orientation": "portrait",
        }
        | grid("A1", (48, 48), 28, 47, left)
        | grid("A2", (48 + 47 * 24 + 48, 48), 28, 47, right)
    )


def test_case_20_a_lane_of_4_ft_with_six_cut_outs() -> None:
    design = with_cut_outs(CUT_ROWS)
    (lane,) = found(design).lanes
    assert net_sqft(design) == pytest.approx(20_864)
    assert (lane.option, lane.width_in, lane.lane.length_in) == ("C", 48, 112 * FT)
    assert outcome(design, "fire.other-smoke-ventilation") is Outcome.TIGHT


@pytest.mark.parametrize(
    "rows",
    [
        CUT_ROWS[:-1],  # the last is missing
        (1, 6, 16, 21, 26),  # 40 ft between two of them
        (1, 7, 12, 17, 22, 26),  # 24 ft between the first two
        (),
    ],
)
def test_cut_outs_too_few_or_too_far_apart(rows: tuple[int, ...]) -> None:
    design = with_cut_outs(rows)
    assert found(design).lanes[0].option is None
    assert outcome(design, "fire.other-smoke-ventilation") is Outcome.FAIL


def test_cut_outs_all_on_one_side_are_not_option_c() -> None:
    one_side = {(r + n, c) for r in CUT_ROWS for n in (0, 1) for c in (46, 47)}
    design = with_cut_outs(())
    changes = (
        {
            "module.width": 48.0,
            "module.height": 24.0,
            "arrays.A1.orientation": "portrait",
            "arrays.A2.orientation": "portrait",
        }
        | grid("A1", (48, 48), 28, 47, one_side)
        | grid("A2", (48 + 47 * 24 + 48, 48), 28, 47, set())
    )
    assert found(design).lanes[0].option is None
    assert found(designed(changes)).lanes[0].option is None


def four_sections(moved_in: float = 0.0) -> Design:
    """Case 21: two by two sections of 140 ft by 120 ft on 300 ft by 260 ft, lanes of 8 ft.

    Modules are 140 in by 96 in, and one row left out of each array is a lane along the eave.
    """
    row = {(16, column) for column in range(1, 13)}
    return designed(
        {
            "roof.length": 300 * FT,
            "roof.depth": 260 * FT,
            "module.width": 140.0,
            "module.height": 96.0,
        }
        | grid("A1", (72 + moved_in, 72), 31, 12, row)
        | grid("A2", (72 + moved_in + 1680 + 96, 72), 31, 12, row),
        "IFC 2015",
    )


def test_case_21_lanes_on_the_center_lines() -> None:
    design = four_sections()
    plane = found(design)
    assert plane.perimeter_in == 72
    assert net_sqft(design) == pytest.approx(67_200)
    assert [(s.width / FT, s.height / FT) for s in plane.sections] == [(140, 120)] * 4
    assert sorted((r.lane.axis, r.option, r.width_in) for r in plane.lanes) == [
        ("along", "A", 96),
        ("up", "A", 96),
    ]
    assert [line.clear_in for line in plane.center_lines] == [96, 96]
    assert outcome(design, "fire.other-centerline") is Outcome.PASS


def test_a_lane_off_the_center_line_does_not_count() -> None:
    plane = found(four_sections(moved_in=-49))
    assert {line.axis: line.clear_in for line in plane.center_lines} == {"along": 96, "up": 0}


def test_a_lane_is_measured_where_modules_stand_on_both_of_its_sides() -> None:
    design = designed(grid("A2", (1260, 900), 2, 12, set()))
    (lane,) = (a for a in design.access_areas if a.required_in == 96)
    assert lane.across == ((1140, 900 + 82), (1140 + 96, 900 + 82))


def test_case_22_a_hatch_keeps_11_ft_by_11_ft_and_has_a_way_to_the_edge() -> None:
    design = designed({})
    (area,) = (a for a in design.access_areas if a.kind == "hatch clearance")
    assert Polygon(area.outline).area / FT**2 == pytest.approx(121)
    (hatch,) = found(design).hatches
    assert (hatch.path.toward, hatch.path.width_in) == ("back", 132)
    ways = [a for a in design.access_areas if a.kind == "interior pathway" and a.required_in == 48]
    (way,) = (a for a in ways if abs(a.surface.center[0] - 1900) < 1)
    assert way.surface.y0 == pytest.approx(area.surface.y1)
    assert way.surface.y1 == pytest.approx(1440 - 48)  # where the perimeter begins


@pytest.mark.parametrize(("thickness", "clear"), [(0.0, 60.0), (8.0, 52.0), (12.0, 48.0)])
def test_edge_case_19_the_perimeter_runs_from_the_inner_face(
    thickness: float, clear: float
) -> None:
    # measured from the inner face of the parapet: common practice, no source
    parapet = Parapet(height=36.0, thickness=thickness) if thickness else None
    design = designed({"roof.parapet": parapet})
    left = next(edge for edge in found(design).edges if edge.edge.id.startswith("left"))
    assert left.clear_in == pytest.approx(clear)
    (area,) = (
        a
        for a in design.access_areas
        if a.kind == "perimeter" and a.surface.x1 == pytest.approx(thickness + 48)
    )
    assert area.across[0] == pytest.approx((thickness, 64 + 1312 / 2))  # beside the array's middle
    assert area.across[1] == pytest.approx((thickness + 48, 64 + 1312 / 2))
    assert area.available_in == pytest.approx(clear)


def test_a_dwelling_and_an_edition_not_entered_are_not_measured() -> None:
    assert build_design(base()).other_access is None
    unknown = designed({}, "NFPA 1 2015")
    assert unknown.other_access is None
    assert unknown.access_areas == ()
    assert outcome(unknown, "fire.other-perimeter") is Outcome.OPEN


def test_of_nfpa_1_only_the_perimeter_is_judged() -> None:
    design = designed({}, "NFPA 1 2018")
    judged = {rule.id for rule in OURS if worst(judge_by(rule, design)) is not Outcome.OPEN}
    assert judged == {"fire.other-perimeter"}
    assert {area.kind for area in design.access_areas} == {"perimeter"}


corners = st.tuples(st.integers(-30, 400), st.integers(-30, 400))
sizes = st.tuples(st.integers(1, 16), st.integers(1, 12))


@given(corners, sizes, st.integers(0, 200), sizes, st.sampled_from([0.0, 10.0]))
def test_areas_of_a_passing_design_hold_no_modules(
    at: tuple[int, int],
    first: tuple[int, int],
    lane: int,
    second: tuple[int, int],
    thickness: float,
) -> None:
    beside = at[0] + first[1] * 90 + lane
    design = designed(
        {"roof.parapet": Parapet(height=36.0, thickness=thickness) if thickness else None}
        | grid("A1", at, *first, set())
        | grid("A2", (beside, at[1]), *second, set())
    )
    results = {rule.id: worst(judge_by(rule, design)) for rule in OURS}
    fields = [array.occupied for array in design.arrays]
    inside = found(design).inside.buffer(TOUCH)
    for area in design.access_areas:
        outline = Polygon(area.outline)
        assert outline.exterior.is_ccw
        assert inside.covers(outline)
        assert outline.buffer(TOUCH).covers(LineString(area.across))
        if area.kind == "hatch clearance":
            continue
        width = area.required_in
        if area.kind == "interior pathway":  # one too narrow is drawn as wide as it is
            width = min(width, area.available_in)
        assert math.dist(*area.across) == pytest.approx(width)
    kinds = {
        "perimeter": "fire.other-perimeter",
        "hatch clearance": "fire.other-hatch",
        "interior pathway": "fire.other-smoke-ventilation",
    }
    for area in design.access_areas:
        if results[kinds[area.kind]] is not Outcome.FAIL:
            overlap = max(field.intersection(Polygon(area.outline)).area for field in fields)
            assert overlap < TOUCH * 2400


@given(corners, st.integers(0, 300), st.integers(0, 300))
def test_the_perimeter_is_the_least_distance_by_hand(
    at: tuple[int, int], right: int, top: int
) -> None:
    design = designed(
        grid("A1", at, 2, 3, set())
        | grid("A2", (2400 - 270 - right, 1440 - 164 - top), 2, 3, set())
    )
    clear = {edge.edge.id.split()[0]: edge.clear_in for edge in found(design).edges}
    assert clear == pytest.approx(
        {
            "left": at[0],
            "front": at[1],
            "right": right,
            "back": top,
        }
    )


boxes = st.builds(
    lambda u, v, w, h: Box(u, v, u + w, v + h),
    st.integers(0, 300),
    st.integers(0, 300),
    st.integers(1, 90),
    st.integers(1, 90),
)


@given(st.lists(boxes, min_size=1, max_size=12), st.integers(1, 40))
def test_parting_keeps_every_module_and_leaves_no_lane_in_a_section(
    frames: list[Box], least: int
) -> None:
    def wide(lane: Lane) -> bool:
        return lane.width_in >= least

    parting = part(tuple(frames), Box(0, 0, 400, 400), wide)
    for frame in frames:
        assert sum(section.contains(frame) for section in parting.sections) >= 1
        assert not any(frame.overlaps(lane.box) for lane in parting.lanes)
    for section in parting.sections:
        held = [frame for frame in frames if section.contains(frame)]
        for axis in ("along", "up"):
            assert all(b - a < least for a, b in gaps(spans(held, axis)))
    assert all(lane.width_in >= least for lane in parting.lanes)
