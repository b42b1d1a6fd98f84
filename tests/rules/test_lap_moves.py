"""Where an array on rails across the slope is told to go so that its hooks are at laps.

The array of the cases: rows of 35.625 in from 36 in up, rails 6 in inside. All worked out by hand.
"""

from __future__ import annotations

from typing import Any

import pytest
from rule_cases import Case, Expected, build

from planset.design.lap_moves import moved_to_laps
from planset.design.tile_courses import Laps
from planset.rules.layout import stagger

# Noses at 4, 19, 34 ... in, arms' faces 2.75 to 0.25 in, or 8 to 0.25 in, below them.
NARROW, WIDE = Laps(4, 15, 0.25, 2.75), Laps(4, 15, 0.25, 8)
ONE_ROW: dict[str, Any] = {"arrays.A1.rows": 1, "electrical.strings.S1.modules": 3}
ONE_ROW |= {"electrical.strings.S2.modules": 2}
TWO_ROWS: dict[str, Any] = {"arrays.A1.rows": 2, "arrays.A1.row_gap": 6}
TWO_ROWS |= {"electrical.strings.S1.modules": 5, "electrical.strings.S2.modules": 5}
NO_ZONE: dict[str, Any] = {"modules/block.clamping": None}


@pytest.mark.parametrize(
    ("laps", "patch", "catalog", "told"),
    [
        # 40 and 67.625 in, 10 and 7.625 past a course: both down 6.25 in
        (NARROW, ONE_ROW | {"arrays.A1.mounting.rail_inset": 4}, {}, "corner.up 2'-5 3/4\""),
        # 42 and 65.625 in never meet; rails 4 in inside do, the nearest within the zone of 4 to 9
        (NARROW, ONE_ROW, {}, 'rail_inset 4" and corner.up 2\'-5 3/4"'),
        (NARROW, ONE_ROW, NO_ZONE, ""),
        (WIDE, ONE_ROW, {}, "corner.up 3'-5 3/8\""),
        # rows 41.625 in apart, 11.625 past a course; with rails 5 in inside both have 3.375 in
        (WIDE, TWO_ROWS, {}, 'rail_inset 5" and corner.up 2\'-4 3/4"'),
        # 2 in more between the rows bring the second within 1.375 in of the first's place
        (WIDE, TWO_ROWS, NO_ZONE, 'row_gap 8" and corner.up 3\'-6 3/4"'),
    ],
)
def test_the_nearest_place(
    laps: Laps, patch: dict[str, Any], catalog: dict[str, Any], told: str
) -> None:
    case = Case(Expected("pass"), base="gable-40x30-across", patch=patch, catalog=catalog)
    (mount,) = build(case, stagger.RULE, None).mounts
    assert moved_to_laps(mount.array, laps) == told


def test_room_for_an_eave_out_of_straight() -> None:
    case = Case(Expected("pass"), base="gable-40x30-across", patch=ONE_ROW)
    (mount,) = build(case, stagger.RULE, None).mounts
    # the place of both rails, 5.375 to 6.75 in up, less 1/2 in at either end
    assert moved_to_laps(mount.array, WIDE, 0.5) == "corner.up 3'-5 7/8\""
    assert moved_to_laps(mount.array, NARROW, 1.5) == ""
