"""The frame of the DXF file: header, layers, styles, soundness, same bytes."""

from __future__ import annotations

import dataclasses
from pathlib import Path
from typing import Any

import ezdxf
import pytest
from dxf_checks import everything, in_model, of_kind
from ezdxf.document import Drawing
from ezdxf.lldxf.const import VALID_DXF_LINEWEIGHTS
from pages import DETAIL_VIEW, DRAWING, PLAN_PAGE, PLAN_VIEW, SLOPE_DIMENSION

from planset.drawing.dimension import dimension
from planset.drawing.layers import GRAY, LAYERS, LINETYPES
from planset.drawing.primitives import Line, Text
from planset.errors import PlansetError
from planset.formats.dxf_dimensions import DIMENSION_SIZES
from planset.formats.dxf_document import DxfDocument, fixed_metadata
from planset.formats.dxf_write import write_dxf


@pytest.fixture(scope="module")
def header(dxf_path: Path) -> Any:
    view = dataclasses.replace(PLAN_VIEW, annotation=(SLOPE_DIMENSION, *PLAN_VIEW.annotation))
    page = dataclasses.replace(PLAN_PAGE, views=(view, DETAIL_VIEW))
    file = dxf_path.with_name("header.dxf")
    write_dxf(dataclasses.replace(DRAWING, pages=(page,)), file)
    return ezdxf.readfile(file).header  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("$INSUNITS", 1),  # inches
        ("$MEASUREMENT", 0),
        ("$LUNITS", 4),  # architectural
        ("$LUPREC", 4),  # sixteenths
        ("$PSLTSCALE", 1),
        ("$LTSCALE", 1.0),
        ("$LWDISPLAY", 1),
        ("$TEXTSTYLE", "ARIAL"),
        ("$DIMTXSTY", "ARIAL"),
        ("$DIMDSEP", 46),
        ("$DIMLUNIT", 4),
        ("$DIMASZ", 0.125),
        ("$DIMTSZ", 0.04419417382415922),  # a 45 degree tick 1/8 in long over all: 1/16 in / sqrt 2
        ("$DIMTXT", 0.096),
        ("$DIMSCALE", 64.0),  # two dimensions of the plan against one inside a block
        ("$DIMSTYLE", "PLANSET-64"),
    ],
)
def test_header(header: Any, name: str, value: object) -> None:
    assert header[name] == value


def test_an_unsound_drawing_is_refused() -> None:
    document = DxfDocument()
    document.doc.modelspace().add_text("X", dxfattribs={"style": "NO SUCH STYLE"})
    with pytest.raises(PlansetError, match="not be sound"):
        document.content()


def test_the_metadata_option_is_put_back() -> None:
    options = ezdxf.options  # type: ignore[attr-defined]
    assert options.write_fixed_meta_data_for_testing is False

    def fail_inside() -> None:
        with fixed_metadata():
            assert options.write_fixed_meta_data_for_testing is True
            raise OSError

    with pytest.raises(OSError):  # noqa: PT011 - raised just above
        fail_inside()
    assert options.write_fixed_meta_data_for_testing is False


def test_classes_are_in_a_fixed_order(dxf_path: Path) -> None:
    names = [c.dxf.name for c in ezdxf.readfile(dxf_path).classes]  # type: ignore[attr-defined]
    document = DxfDocument()
    kinds = sorted(document.doc.entitydb.dxf_types_in_use())
    registered = [name for name in names if name in kinds]
    assert registered == sorted(registered)
    assert len(registered) > 1


def test_layers_carry_the_pens(doc: Drawing) -> None:
    for name in {entity.dxf.layer for entity in everything(doc)} - {"0"}:
        layer, pen = doc.layers.get(name), LAYERS[name]
        assert layer.dxf.lineweight == round(pen.pen_mm * 100)
        assert layer.dxf.linetype.upper().removesuffix("2") == pen.linetype
        assert bool(layer.dxf.plot) == pen.plotted
        assert layer.description == pen.purpose
        assert layer.dxf.color == (8 if pen.gray else 7)
        assert layer.rgb == ((115, 115, 115) if pen.gray else None)  # 255 * GRAY
    assert round(255 * GRAY) == 115


@pytest.mark.parametrize(
    ("name", "index"),
    [("E-LABL-WHTE", 255), ("E-LABL-REDB", 242), ("E-LABL-YELB", 40)],
)
def test_layers_of_labels_have_their_true_color(name: str, index: int) -> None:
    """Beside it the nearest index of the usual palette (ezdxf constants), for other readers."""
    document = DxfDocument()
    document.layer(name)
    document.finish()
    layer = document.doc.layers.get(name)
    assert layer.rgb == LAYERS[name].rgb
    assert layer.dxf.color == index


def test_only_layers_in_use_are_defined(doc: Drawing) -> None:
    used = {entity.dxf.layer for entity in everything(doc)}
    # Defpoints is in every file of the format.
    assert {layer.dxf.name for layer in doc.layers} - {"Defpoints", "0"} == used - {"0"}


def test_every_pen_is_a_lineweight_of_the_format() -> None:
    # DXF reference, group code 370: hundredths of a millimeter from a fixed list.
    assert {round(layer.pen_mm * 100) for layer in LAYERS.values()} <= set(VALID_DXF_LINEWEIGHTS)


def test_everything_takes_its_pen_from_the_layer(doc: Drawing) -> None:
    for entity in everything(doc):
        assert entity.dxf.get("color", 256) == 256
        assert entity.dxf.get("lineweight", -1) == -1
        assert entity.dxf.get("linetype", "BYLAYER").upper() == "BYLAYER"


def test_linetypes_are_dashes_in_paper_inches(doc: Drawing) -> None:
    names = {linetype.dxf.name for linetype in doc.linetypes}
    assert names == {"ByBlock", "ByLayer", "Continuous", "DASHED2", "HIDDEN2"}
    tags = doc.linetypes.get("HIDDEN2").pattern_tags.tags
    assert [tag.value for tag in tags if tag.code == 40] == [sum(LINETYPES["HIDDEN"])]
    assert [tag.value for tag in tags if tag.code == 49] == [0.125, -0.0625]


def test_one_text_style(doc: Drawing) -> None:
    styles = {e.dxf.style for e in everything(doc) if e.dxftype() in ("TEXT", "ATTRIB", "ATTDEF")}
    assert styles == {"ARIAL"}
    assert doc.styles.get("ARIAL").dxf.font == "arial.ttf"


def test_a_dimension_style_per_scale(doc: Drawing) -> None:
    (on_plan,) = in_model(doc, "DIMENSION")
    style = doc.dimstyles.get(on_plan.dxf.dimstyle)
    assert style.dxf.name == "PLANSET-64"
    assert (style.dxf.dimscale, style.dxf.dimtxt, style.dxf.dimdsep) == (64, 0.096, 46)
    (in_block,) = of_kind(doc.blocks["ROOF"], "DIMENSION")
    big = doc.dimstyles.get(in_block.dxf.dimstyle)
    assert (big.dxf.name, big.dxf.dimscale, big.dxf.dimtxt) == ("PLANSET-1-6.144", 1, 6.144)
    assert big.dxf.dimtsz == pytest.approx(64 / 16 / 2**0.5)


def test_dimension_styles_repeat_what_the_sheet_draws() -> None:
    drawn = dimension((0, 0), (0, 5), -0.5, "A-ANNO-DIMS", 1.0)  # its line at x = 0.5
    line, extension, _, tick, _, figure = drawn.marks
    assert isinstance(line, Line)
    assert isinstance(extension, Line)
    assert isinstance(tick, Line)
    assert isinstance(figure, Text)
    sizes = {name: size * drawn.text_height for name, size in DIMENSION_SIZES.items()}
    assert sizes["dimtxt"] == figure.height
    assert sizes["dimdle"] == pytest.approx(-line.a[1])
    assert sizes["dimexo"] == pytest.approx(extension.a[0])
    assert sizes["dimexe"] == pytest.approx(extension.b[0] - 0.5)
    assert sizes["dimtsz"] == pytest.approx(abs(tick.b[0] - tick.a[0]) / 2)
    assert sizes["dimgap"] == pytest.approx(abs(figure.at[0] - 0.5) - figure.height / 2)
