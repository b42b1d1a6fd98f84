"""The bill of materials, against counts by hand from the jobs' own rows and columns.

Spares of 5 % and 2 %, clips at 24 in and two to a module: common practice, no source.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path
from types import SimpleNamespace
from typing import Any, cast

import pytest
from hypothesis import given
from hypothesis import strategies as st
from planset.design.module_wiring import clip_spacing_in, clips_per_module, lug_places, wire_clips

from planset.design.design import Design, build_design
from planset.design.material_line import MaterialLine, spares_of
from planset.design.materials import bill_of_materials
from planset.job.load import read_job
from planset.job.materials import USUAL_SPARES
from tests.example_job import EXAMPLE, edited

EXAMPLES = EXAMPLE.parents[1]


@cache
def design(name: str) -> Design:
    return build_design(read_job(EXAMPLES / name / "job.yaml"))


def counts(lines: tuple[MaterialLine, ...]) -> dict[str, int | None]:
    """Quantities by item, sealing and equipment by product, those of two lines added up."""
    found: dict[str, int | None] = {}
    for line in lines:
        key = line.product if line.item == "Sealing" else line.item
        found[key] = (found.get(key) or 0) + line.quantity if line.quantity is not None else None
    return found


HAND = {
    # 4 rows of 5, landscape, 67.8 in wide, 1/2 in apart; 15 rails of 15'-1 7/8" from 16 ft stock,
    # 5 hooks on each; a foot where each rail crosses the 5 long edges; couplings on 5 edge lines at
    # 4 joints; trim along 341 in of front edge in 72 in pieces; one array, one lug.
    "tile-gable": {
        "Module": 20,
        "Attachment": 5 * 15,
        "Lag screw": 2 * 75,
        "butyl tape, 2 in wide": 7 * 75,
        "underlayment strip, 12 x 18 in": 75,
        "sealant for pilot holes": 15,
        "Rail, stock length 16'-0\"": 15,
        "Foot": 5 * 15,
        "Coupling": 5 * 4,
        "Trim, 6'-0\" piece": 5,
        "Trim joint": 4,
        "Trim lock": 15,
        "Wire clip on module frame": 3 * 20,
        "Bonding lug": 1,
        "Rapid shutdown device": 20,
        "Inverter": 1,
        "JUNCTION BOX": 1,
        "AC DISCONNECT": 1,
        "PV BREAKER, BACK-FED": 1,
    },
    # Portrait rows of 5, 6, 5 and landscape rows of 3, 2, 1, two rails under each; a mid clamp
    # between neighbors, an end clamp at both ends, a lug on every rail; 50 and 22 feet as the plan
    # places them.
    "shingle-hip": {
        "Module": 16 + 6,
        "Attachment": 50 + 22,
        "Lag screw": 2 * 72,
        "Flashing": 72,
        "sealant": 36,
        "Rail, stock length 14'-0\"": 16,
        "Splice": 6 + 2,
        "Mid clamp": 2 * (4 + 5 + 4) + 2 * (2 + 1),
        "End clamp": 12 * 2,
        "Wire clip on module frame": 2 * 16 + 3 * 6,
        "Bonding lug": 12,
        "Rapid shutdown device": 22,
        "Inverter": 1,
        "JUNCTION BOX": 1,
        "AC DISCONNECT": 1,
        "PV BREAKER, BACK-FED": 1,
    },
    # Rows of 3: three rows, then two and two, two rails to a row, each of two pieces whose sleeve
    # does not bond, so that each piece has a lug; 5 posts to a rail.
    "cross-gable": {
        "Module": 9 + 6 + 6,
        "Attachment": 5 * 14,
        "Lag screw": 2 * 70,
        "Flashing": 70,
        "base flashing, 12 x 12 in": 70,
        "storm collar": 70,
        "sealant": 42,
        "Rail, stock length 17'-0\"": 17,
        "Splice": 14,
        "Mid clamp": 2 * 14,
        "End clamp": 2 * 14,
        "Wire clip on module frame": 3 * 21,
        "Bonding lug": 14 + 14,
        "Rapid shutdown device": 21,
        "Inverter": 1,
        "JUNCTION BOX": 1,
        "AC DISCONNECT": 1,
        "PV BREAKER, BACK-FED": 1,
    },
    # 8 rows of 9 twice, 6 rows of 9; what holds them is another designer's.
    "flat-commercial": {
        "Module": 72 + 72 + 54,
        "Attachments, rails and what holds the modules": None,
        "Wire clip on module frame": 3 * 198,
        "Rapid shutdown device": 198,
        "Inverter": 1,
        "JUNCTION BOX": 1,
        "AC DISCONNECT": 1,
        "PV BREAKER, BACK-FED": 1,
    },
}


@pytest.mark.parametrize("name", HAND)
def test_counts_are_those_by_hand(name: str) -> None:
    assert counts(bill_of_materials(design(name))) == HAND[name]


def test_what_others_mount_is_said_and_not_guessed() -> None:
    (line,) = (one for one in bill_of_materials(design("flat-commercial")) if one.quantity is None)
    assert line.total is None
    assert line.product == "BY OTHERS"
    assert line.counted == "NOT COUNTED: MOUNTING BY OTHERS, ARRAYS A1, A2, A3"
    assert not {"Attachment", "Lag screw", "Bonding lug"} & set(counts((line,)))


@pytest.mark.parametrize(
    ("count", "kind", "spare"),
    [(75, "small_parts", 4), (20, "small_parts", 1), (1, "small_parts", 1), (0, "small_parts", 0)]
    + [(75, "attachments", 2), (50, "attachments", 1), (51, "attachments", 2)]
    + [(20, "modules", 0), (15, "none", 0)],
)  # by hand: 5 %, 2 % and none, up to the next whole one
def test_spares_are_rounded_up(count: int, kind: Any, spare: int) -> None:
    assert spares_of(count, USUAL_SPARES, kind) == spare


def test_a_job_states_its_own_spares(tmp_path: Path) -> None:
    spares = "{small_parts: 0.1, attachments: 0, modules: 0.05, source: the shop}"
    job = edited(tmp_path, ("\ndrafting:\n", f"\nmaterials: {{spares: {spares}}}\n\ndrafting:\n"))
    lines = {line.item: line for line in bill_of_materials(build_design(read_job(job)))}
    assert (lines["Foot"].spare, lines["Foot"].total) == (8, 83)
    assert lines["Attachment"].spare == 0
    assert lines["Module"].spare == 1


# --- clips and lugs ------------------------------------------------------------------------


@given(st.floats(10, 120), st.floats(0, 4))
def test_clips_are_two_at_least_and_never_over_24_in_apart(width: float, gap: float) -> None:
    surface = SimpleNamespace(width=width)
    array = cast(
        Any,
        SimpleNamespace(
            modules=(SimpleNamespace(surface=surface),), given=SimpleNamespace(gap=gap)
        ),
    )
    count = clips_per_module(array)
    assert count >= 2
    assert clip_spacing_in(array) <= 24 + 1e-6
    assert count == 2 or (width + gap) / (count - 1) > 24


def test_clips_keep_their_distance_from_module_to_module() -> None:
    (array,) = design("tile-gable").arrays
    first_row = sorted(place.u_in for place in wire_clips(array) if place.v_in < 21)
    assert len(first_row) == 15
    apart = {round(b - a, 6) for a, b in zip(first_row, first_row[1:], strict=False)}
    assert apart == {round(68.3 / 3, 6)}
    frames = [module.surface for module in array.modules]
    assert all(any(f.x0 < u < f.x1 for f in frames) for u in first_row)


def test_a_lug_past_a_splice_is_clear_of_it() -> None:
    one = design("cross-gable").mounts[0]
    splice = one.array.system.rail.splice
    assert splice is not None
    for lug in lug_places(one):
        beside = [s.along_in for s in one.rails.splices if s.rail == lug.rail]
        assert all(abs(lug.u_in - at) >= splice.length / 2 - 1e-6 for at in beside)
    assert sum(lug.modules for lug in lug_places(one)) >= len(one.array.modules)
