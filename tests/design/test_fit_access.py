"""What is kept free before arrays are fitted, and that fitted arrays satisfy the rules.

Areas and counts are worked by hand on the gable of 40 ft by 30 ft at 6:12, whose slope is
201.246 in long, and on the hip roof of the same size. Modules are 71.6 in by 35.625 in with gaps of
1/2 in. The fitter keeps 1 in more than every required width.
"""

from __future__ import annotations

import math
from typing import Any

import pytest
import shapely
from houses import house, roof_of_house
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from planset.catalog.fields import Sourced
from planset.design.access.area import AreaKind
from planset.design.access.keep_free import PathwayChoice, keep_free, pathway_choices
from planset.design.design import Design, build_design
from planset.design.fit_access import FitAccess
from planset.design.fit_arrays import MARGIN_IN, find_extents
from planset.errors import JobErrors
from planset.finding import Outcome
from planset.job.building import EscapeOpening
from planset.job.load import Inputs
from planset.job.obstructions import Obstruction
from planset.job.roof import WingShape
from planset.rules.run import judge

SLOPE_IN = 180 * math.hypot(1, 0.5)
NO_OBSTRUCTIONS: dict[str, Any] = {"obstructions": ()}


def fitted(*arrays: str) -> dict[str, Any]:
    """Changes that let arrays take as many modules as fit on an empty roof."""
    changes = dict(NO_OBSTRUCTIONS)
    for name in arrays:
        stated = dict.fromkeys(("rows", "columns", "corner"))
        changes |= {f"arrays.{name}.{field}": value for field, value in stated.items()}
        changes[f"arrays.{name}.as_many_as_fit"] = True
    return changes


def adopting(code: str, edition: int) -> dict[str, Any]:
    adopted = house().jurisdiction.codes.residential
    changed = adopted.model_copy(update={"code": code, "edition": edition})
    return {"jurisdiction.codes.residential": changed}


def kept(inputs: Inputs, plane: str, ridge_in: float, *carrying: str) -> list[float]:
    """Areas kept free of a plane [sq in]."""
    roof = roof_of_house(inputs)
    rings = keep_free(
        inputs,
        roof,
        roof.plane(plane),
        ridge_in=ridge_in,
        carrying=frozenset(carrying),
        tolerance_in=1.0,
    )
    return [shapely.Polygon(ring).area for ring in rings]


def choices(inputs: Inputs, plane: str) -> tuple[PathwayChoice, ...]:
    roof = roof_of_house(inputs)
    return pathway_choices(
        inputs, roof, roof.plane(plane), (), rake_overhang_in=0.0, tolerance_in=1.0
    )


def spans(inputs: Inputs, plane: str) -> dict[str, list[tuple[float, float]]]:
    """By name of the choice, from where to where each pathway takes the eave [in]."""
    return {
        choice.name: [(min(u for u, _ in area), max(u for u, _ in area)) for area in choice.areas]
        for choice in choices(inputs, plane)
    }


@pytest.mark.parametrize("ridge_in", [18.0, 36.0])
def test_the_ridge_of_a_gable_is_kept_free(ridge_in: float) -> None:
    assert kept(house(), "front", ridge_in, "front") == pytest.approx([480 * (ridge_in + 1)])


def test_below_an_escape_opening_its_width_is_kept_free_down_to_the_eave() -> None:
    # case 23: 36 in below an opening of 30 in, and 60 in below one of 60 in
    for width, least in ((30.0, 36.0), (60.0, 60.0)):
        opening = EscapeOpening(plane="front", along=200, up=150, width=width)
        inputs = house({"building.escape_openings_onto_roof": (opening,)})
        ridge, zone = kept(inputs, "front", 18, "front")
        assert ridge == pytest.approx(480 * 19)
        assert zone == pytest.approx((least + 2) * 150)


@pytest.mark.parametrize("carrying", [("front",), ("front", "right")])
def test_before_2018_a_hip_is_kept_free_where_both_sides_carry_arrays(
    carrying: tuple[str, ...],
) -> None:
    # beside a hip of 270 in lies a parallelogram; below a ridge of 120 in a trapezoid that grows by
    # 180 / 201.246 on each side
    inputs = house(adopting("IRC", 2015), "hip-40x30")
    ridge, *hips = kept(inputs, "front", 36, *carrying)
    assert ridge == pytest.approx(37 * (120 + 37 * 180 / SLOPE_IN))
    assert hips == pytest.approx([270 * 19] * (len(carrying) - 1))


def test_pathways_of_a_gable_run_at_either_rake_or_elsewhere() -> None:
    assert spans(house(NO_OBSTRUCTIONS), "front") == {
        "left": [pytest.approx((0, 37))],
        "right": [pytest.approx((443, 480))],
        "elsewhere": [],
    }


def test_before_2018_both_rakes_of_a_gable_need_one() -> None:
    found = spans(house(NO_OBSTRUCTIONS | adopting("IRC", 2015)), "front")
    assert found == {"left and right": [pytest.approx((0, 37)), pytest.approx((443, 480))]}


def test_pathways_of_a_hip_roof_run_up_to_the_ridge_or_along_the_hips() -> None:
    found = spans(house(NO_OBSTRUCTIONS, "hip-40x30"), "front")
    assert found["left"] == [pytest.approx((180, 217))]
    assert found["right"] == [pytest.approx((263, 300))]
    # 37 in square to the hip are 37 / 0.745356 in along the eave, up to the end of the hip
    assert found["along front-left hip"] == [pytest.approx((0, 180 + 37 * 270 / SLOPE_IN))]
    assert set(found) == {
        "left",
        "right",
        "along front-left hip",
        "along front-right hip",
        "elsewhere",
    }


@pytest.mark.parametrize(
    ("changes", "modules"),
    [
        # 480 - 37 - 1 in leave six columns of 432.1 in. Five rows of 180.125 in would fit below
        # 18 in, but cover 40.3 % and need 36 in, below which 163.2 in leave four rows, 32.2 %.
        ({}, 24),
        ({"building.sprinklered": True}, 30),  # up to 66 % 18 in are enough
        ({"arrays.A1.most": 22}, 22),
        # two pathways of 37 in leave 406 in, five columns; below 36 in four rows
        (adopting("IRC", 2015), 20),
    ],
)
def test_as_many_modules_as_fit_on_a_gable(changes: dict[str, Any], modules: int) -> None:
    inputs = house(fitted("A1") | changes)
    assert find_extents(inputs, roof_of_house(inputs), ()).count == modules


@pytest.mark.parametrize(
    ("along", "serve"),
    [(24.0, False), (0.0, True)],  # cases 3 and 4: 432 in leave 24 in at both rakes, or 48 at one
)
def test_pathways_serve_where_one_is_wide_enough(along: float, serve: bool) -> None:
    stated = house().job.arrays[0].corner
    assert stated is not None
    corner = stated.model_copy(update={"along": along})
    design = build_design(house({"module.width": 86.0, "arrays.A1.corner": corner}))
    access = FitAccess(design.inputs, design.roof, design.obstructions, MARGIN_IN)
    assert access.pathways_serve(design.arrays) is serve


def test_where_no_choice_leaves_pathways_enough_the_fullest_is_drawn_and_fails() -> None:
    # a unit from rake to rake closes the back, whatever is left on the front
    fields = {"id": "K", "kind": "mechanical_unit", "plane": "back", "clearance": 6}
    size = {"center": {"along": 240, "up": 60}, "width": 480, "height": 40}
    unit = Obstruction.model_validate(fields | size, context={"units": "in"})
    design = build_design(house(fitted("A1") | {"obstructions": (unit,)}))
    access = FitAccess(design.inputs, design.roof, design.obstructions, MARGIN_IN)
    assert not access.pathways_serve(design.arrays)
    assert any(
        text.startswith("fail fire.pathways-on-building") for text in fails_and_tights(design)
    )


def fails_and_tights(design: Design) -> list[str]:
    return [
        f"{finding.outcome} {finding.rule}: {finding.message}"
        for finding in judge(design)
        if finding.rule.startswith(("fire.", "layout."))
        and finding.outcome in (Outcome.FAIL, Outcome.TIGHT)
    ]


def overlaps(design: Design) -> list[str]:
    """Areas that modules lie in."""
    return [
        f"{area.kind} on {area.plane}"
        for area in design.access_areas
        for array in design.arrays
        if array.plane.id == area.plane
        and shapely.Polygon(area.outline).intersection(array.occupied).area > 0.01
    ]


@st.composite
def fit_houses(draw: st.DrawFn) -> Inputs:
    """Gables with and without a wing, and hip roofs, with one fitted array or two.

    A skylight may stand on the front of one without a wing.
    """
    name = draw(st.sampled_from(("gable-40x30", "gable-40x30-both", "hip-40x30", "hip-40x30-both")))
    arrays = ("A1", "A2") if name.endswith("both") else ("A1",)
    length, depth = draw(st.integers(300, 720)), draw(st.integers(240, 480))
    pitch = draw(st.sampled_from((0.25, 0.5, 0.75)))
    changes = fitted(*arrays) | {"roof.pitch": pitch, "roof.depth": float(depth)}
    changes |= {f"arrays.{array}.mounting.first_rail_rafter": 1 for array in arrays}
    changes["mounting.rail.stock_length"] = 720.0  # longer than any of their rails
    changes["building.sprinklered"] = draw(st.booleans())
    serves = draw(st.sampled_from((1, 2)))
    one = Sourced[Any](value=serves, source="Ordinance 7", date="2024-01-01")
    changes["jurisdiction.access.pathway_serves_planes"] = one
    with_skylight = draw(st.booleans())
    if with_skylight:
        at = {"along": draw(st.integers(120, 200)), "up": 60}
        fields = {"id": "K", "kind": "skylight", "plane": "front", "center": at, "clearance": 6}
        skylight = Obstruction.model_validate(
            {**fields, "width": 30, "height": 40}, context={"units": "in"}
        )
        changes["obstructions"] = (skylight,)
    changes |= adopting("IRC", draw(st.sampled_from((2015, 2021))))
    if name.startswith("hip"):
        return house(changes | {"roof.length": float(max(length, depth))}, name)
    if not with_skylight and draw(st.booleans()):
        width = draw(st.integers(100, 220))
        fields = {
            "id": "wing",
            "side": "front",
            "from_left": draw(st.integers(0, length - width)),
            "width": width,
            "projection": 120,
            "pitch": f"{12 * pitch:g}:12",
            "end": "gable",
            "eave_above": draw(st.sampled_from((0, -60))),
        }
        wing = WingShape.model_validate(fields, context={"units": "in"})
        changes["roof.wings"] = (wing,)
    changes["roof.rake_overhang"] = draw(st.sampled_from((0.0, 12.0)))
    return house(changes | {"roof.ridge_length": float(length)}, name)


def built(inputs: Inputs) -> Design | None:
    """The design, None where not one module fits."""
    try:
        return build_design(inputs)
    except JobErrors:
        return None


@settings(max_examples=40)
@given(fit_houses())
def test_fitted_arrays_neither_fail_nor_come_out_tight(inputs: Inputs) -> None:
    design = built(inputs)
    assume(design is not None)
    assert design is not None
    access = FitAccess(inputs, design.roof, design.obstructions, MARGIN_IN)
    if access.pathways_serve(design.arrays):
        assert fails_and_tights(design) == []
        assert overlaps(design) == []


@settings(max_examples=60, suppress_health_check=[HealthCheck.filter_too_much])
@given(
    st.sampled_from(("gable-40x30", "hip-40x30")),
    st.sampled_from(("front", "back")),
    st.tuples(st.floats(30, 160), st.floats(0, 80)),
    st.tuples(st.integers(1, 3), st.integers(1, 4)),
    st.sampled_from((2015, 2021)),
)
def test_what_a_passing_design_keeps_free_holds_no_modules(
    name: str, plane: str, corner: tuple[float, float], size: tuple[int, int], edition: int
) -> None:
    stated = house().job.arrays[0].corner
    assert stated is not None
    changes = NO_OBSTRUCTIONS | adopting("IRC", edition)
    changes |= {
        "arrays.A1.plane": plane,
        "arrays.A1.corner": stated.model_copy(update={"along": corner[0], "up": corner[1]}),
        "arrays.A1.rows": size[0],
        "arrays.A1.columns": size[1],
    }
    design = build_design(house(changes, name))
    assume(not any(text.startswith("fail") for text in fails_and_tights(design)))
    assert overlaps(design) == []
    assert AreaKind.PATHWAY in {area.kind for area in design.access_areas}


@settings(max_examples=25)
@given(
    st.integers(600, 2600),
    st.integers(480, 1800),
    st.sampled_from((2015, 2021)),
)
def test_flat_roofs_of_other_buildings_keep_their_areas_free_of_modules(
    length: int, depth: int, edition: int
) -> None:
    fire = house(name="flat-200x120").jurisdiction.codes.fire
    changes = fitted("A1") | {
        "roof.length": float(length),
        "roof.depth": float(depth),
        "jurisdiction.codes.fire": fire.model_copy(update={"edition": edition}),
    }
    design = built(house(changes, "flat-200x120"))
    assume(design is not None)
    assert design is not None
    perimeter = [area for area in design.access_areas if area.kind is AreaKind.PERIMETER]
    assert perimeter
    if not any(text.startswith("fail") for text in fails_and_tights(design)):
        assert overlaps(design) == []
