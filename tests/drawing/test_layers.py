"""Names, pens and linetypes of the layers."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import planset
from planset.drawing.layers import INHERITED, LAYERS, LINETYPES, WIDE, contrast

# US National CAD Standard v6, AIA CAD Layer Guidelines 1.1 to 1.3: one or two letters of
# discipline, a major group and up to two minor groups of four letters, a status.
NAME = re.compile(r"[A-Z]{1,2}(-[A-Z]{4}){1,3}(-[A-Z1-9])?")
# Line widths a DXF can state, 1/100 mm (ezdxf constants, drafting reference A.6).
DXF_LINEWEIGHTS = (
    *(0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100, 106, 120, 140),
    *(158, 200, 211),
)
# Clark County WA, best practices for electronic plans: fewer than 100 layers.
MOST_LAYERS = 100
PACKAGE = Path(planset.__path__[0])


def named_in_the_code() -> set[str]:
    """Every whole string of the package that reads like a layer's name."""
    found = set()
    for path in PACKAGE.rglob("*.py"):
        if path.name == "layers.py":
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                found.add(node.value)
    return {name for name in found if NAME.fullmatch(name) and len(name) > 6}


def test_names_follow_the_layer_rule() -> None:
    assert [name for name in LAYERS if not NAME.fullmatch(name)] == []
    assert all(name == layer.name for name, layer in LAYERS.items())


def test_there_are_few_enough_layers() -> None:
    assert 0 < len(LAYERS) < MOST_LAYERS


def test_pens_are_widths_a_dxf_can_state() -> None:
    assert {round(layer.pen_mm * 100, 6) for layer in LAYERS.values()} <= set(DXF_LINEWEIGHTS)


def test_every_layer_can_be_drawn() -> None:
    for layer in LAYERS.values():
        assert layer.linetype in LINETYPES
        assert 0 <= layer.gray < 1, "white does not show"
        assert layer.purpose
    assert all(length > 0 for dashes in LINETYPES.values() for length in dashes)
    assert all(len(dashes) % 2 == 0 for dashes in LINETYPES.values())


def test_lines_of_one_legend_are_told_apart_in_one_bit() -> None:
    """Of S-101 and of E-101; where dashes are alike the widths of the pens are not."""
    for shown in (
        ("S-ROOF-ZONE", "A-ROOF-OBST-CLER", "S-ROOF-FRAM", "S-ROOF-SUPT"),
        ("E-POWR-CLER", "A-WALL-BELO", "F-ROOF-ACCS", "E-SOLR-HOME"),
    ):
        looks = {
            (layer.linetype, layer.pen_mm >= WIDE) for layer in (LAYERS[name] for name in shown)
        }
        assert len(looks) == len(shown)


def test_construction_data_alone_is_not_plotted() -> None:
    assert [name for name, layer in LAYERS.items() if not layer.plotted] == ["G-ANNO-NPLT"]


def test_the_inherited_layer_is_no_layer_of_its_own() -> None:
    assert INHERITED not in LAYERS


def test_every_layer_the_code_names_is_there() -> None:
    assert len(named_in_the_code()) > 20
    assert named_in_the_code() - set(LAYERS) == set()


def test_contrast_runs_from_alike_to_black_on_white() -> None:
    """WCAG 2.1, definition of contrast ratio: 1 to 21."""
    black, white = LAYERS["E-LABL-BLCK"], LAYERS["E-LABL-WHTE"]
    assert contrast(black, white) == contrast(white, black) == 21
    assert contrast(black, black) == 1


def test_letters_of_labels_stand_out_from_their_background() -> None:
    """At least 4.5, WCAG 2.1, 1.4.3; in a print in black and white lightness is all there is."""
    assert contrast(LAYERS["E-LABL-WHTE"], LAYERS["E-LABL-REDB"]) > 4.5
    assert contrast(LAYERS["E-LABL-BLCK"], LAYERS["E-LABL-YELB"]) > 4.5
    assert contrast(LAYERS["E-LABL-WHTE"], LAYERS["E-LABL-YELB"]) < 4.5
