"""Sets of other houses than the example: whatever the job holds, its pages are in order."""

from __future__ import annotations

from pathlib import Path

import pytest

from planset.drawing.primitives import Dimension, Insert
from planset.finding import Outcome
from tests.example_job import EXAMPLE, edited, near_the_ridge
from tests.sheets.drawn_sets import Made, made_of

Edits = list[tuple[str, str]]

STRINGS = """\
    - {id: S1, array: A1, modules: 10, input: 1}
    - {id: S2, array: A1, modules: 10, input: 2}
"""


def between(start: str, end: str) -> str:
    """The text of the example from one key to the next."""
    text = EXAMPLE.read_text(encoding="utf-8")
    return text[text.index(start) : text.index(end)]


def strings(*counts: int) -> str:
    """Strings of so many modules, on the two inputs by turns."""
    return "".join(
        f"    - {{id: S{n}, array: A1, modules: {count}, input: {(n - 1) % 2 + 1}}}\n"
        for n, count in enumerate(counts, 1)
    )


def vents(count: int) -> str:
    """Vents right of the array and on the back plane by turns."""
    return "obstructions:\n" + "".join(
        f"  - {{id: V{n}, kind: plumbing_vent, plane: {('front', 'back')[n % 2]}, "
        f"center: {{along: {430 + n // 2 * 22}, up: {40 + n // 2 * 35}}}, "
        "diameter: 3, clearance: 6}\n"
        for n in range(1, count + 1)
    )


OBSTRUCTIONS = between("obstructions:\n", "arrays:\n")

BOX_BESIDE_THE_LONG_ARRAY = [
    ("at: {along: 404-1/2 in, up: 26 in}, v", "at: {along: 1046 in, up: 26 in}, v"),
    ("            - {along: 404-1/2 in, up: 26 in}", "            - {along: 1046 in, up: 26 in}"),
    ("- {along: 404-1/2 in, up: 8 in}", "- {along: 1046 in, up: 8 in}"),
    ("- {along: 527 in, up: 8 in}", "- {along: 1079 in, up: 8 in}"),
]
"""Its box and raceway, which lie under the modules otherwise."""


VARIANTS: dict[str, Edits] = {
    # 15 columns of 67.8 in and their gaps are 85'-4", the least ridge for them
    "60 modules on a 90 ft ridge": [
        ("ridge_length: 44'-0\"", "ridge_length: 90'-0\""),
        ("columns: 5", "columns: 15"),
        ("along: 57-1/2 in", "along: 20 in"),
        ("along: 440 in", "along: 1060 in"),
        ("along: 442 in", "along: 1062 in"),
        (STRINGS, strings(30, 30)),
        *BOX_BESIDE_THE_LONG_ARRAY,
    ],
    "200 modules": [
        ("ridge_length: 44'-0\"", "ridge_length: 125'-0\""),
        ("depth: 34'-0\"", "depth: 100'-0\""),
        ("rows: 4", "rows: 10"),
        ("columns: 5", "columns: 20"),
        ("along: 57-1/2 in", "along: 40 in"),
        (OBSTRUCTIONS, "obstructions: []\n\n"),
        (STRINGS, strings(*[15] * 12, 10, 10)),
    ],
    "no obstructions": [(OBSTRUCTIONS, "obstructions: []\n\n")],
    "8 obstructions": [(OBSTRUCTIONS, vents(8) + "\n")],
    "3:12": [("pitch: 5:12", "pitch: 3:12")],
    "11:12": [("pitch: 5:12", "pitch: 11:12")],
    "street at the back": [
        ("street_sides: [front]", "street_sides: [back]"),
        (
            "{name: Alder Bend, side: front, edge: 9 ft}",
            "{name: Alder Bend, side: back, edge: 9 ft}",
        ),
    ],
    "array on the back plane": [("- id: A1\n    plane: front", "- id: A1\n    plane: back")],
    "array at the eave": [("up: 20 in}", "up: 0 in}")],
    "one module": [("rows: 4", "rows: 1"), ("columns: 5", "columns: 1"), (STRINGS, strings(1))],
    "3 strings": [(STRINGS, strings(7, 7, 6))],
    "5 strings": [(STRINGS, strings(4, 4, 4, 4, 4))],
    "10 strings": [(STRINGS, strings(*[2] * 10))],
    "2x8 rafters": [("member: 2x6", "member: 2x8")],
    "2x10 rafters": [("member: 2x6", "member: 2x10")],
    "long names": [
        ("name: Tallow Creek Residence", "name: The Montgomery-Featherstone Family Residence"),
        ("address: 418 Alder Bend, Port", "address: 41800 North Alder Bend Road, Suite 4, Port"),
        ("owner: R. and M. Hadlow", "owner: Montgomery-Featherstone Living Trust of 2019"),
        ("name: Gullwing Bay Electric", "name: Gullwing Bay Electric and Roofing Company Inc."),
        ("in two strings,", "in two strings of ten modules each " + "on the front plane " * 12),
        ("utility: Larkin Coast Light", "utility: Larkin Coast Rural Electric Light"),
    ],
}


def in_order(made: Made) -> None:
    wanted = list(made.design.inputs.job.drafting.sheets)
    assert [page.sheet for page in made.drawing.pages if "." not in page.sheet] == wanted
    assert made.failures() == []


@pytest.mark.parametrize("name", VARIANTS)
def test_a_variant_has_nothing_to_mend(name: str, tmp_path: Path) -> None:
    in_order(made_of(edited(tmp_path, *VARIANTS[name])))


def test_a_long_name_goes_on_in_the_second_line_of_its_field(tmp_path: Path) -> None:
    made = made_of(edited(tmp_path, *VARIANTS["long names"]))
    for page in made.drawing.pages:
        border = next(part for part in page.paper if isinstance(part, Insert))
        says = {attribute.tag: attribute.value for attribute in border.attributes}
        assert says["PROJECT_NAME"] == "The Montgomery-Featherstone Family"
        assert says["PROJECT_NAME_2"] == "Residence"
        assert says["CONTRACTOR_ADDRESS"] == "9 Netmaker Row, Port Larkin"
        assert "CONTRACTOR_ADDRESS_2" not in says


def test_a_name_too_long_for_its_field_at_any_readable_height_is_refused(tmp_path: Path) -> None:
    name = "The Upper Tallow Creek Meadows Community Association Residence and Community Workshop"
    made = made_of(edited(tmp_path, ("name: Tallow Creek Residence", f"name: {name}")))
    wide = [f for f in made.failures() if "box of field PROJECT_NAME_2; shorten it" in f]
    assert len(wide) == len(made.drawing.pages)


def test_an_array_too_near_the_ridge_is_drawn_preliminary(tmp_path: Path) -> None:
    made = made_of(near_the_ridge(tmp_path, 12.0))
    failed = {f.rule for f in made.findings if f.outcome is Outcome.FAIL}
    assert any("ridge" in rule for rule in failed)
    in_order(made)
    assert all("PRELIMINARY" in made.lines(page.sheet) for page in made.drawing.pages)
    (view,) = made.page("A-101").views
    clear = [d for d in view.annotation if isinstance(d, Dimension) and d.text.endswith("CLEAR")]
    assert "1'-0\" ON SLOPE CLEAR" in [dimension.text for dimension in clear]
